"""One thing of a plan that can be asked about, with its working."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.app.corners import Figure
    from lathlight.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One thing that can be asked about."""

    id: str
    kind: str  # "member", "seam", "quantity"
    what: str  # in a few words
    value: float | str | None
    unit: str
    why: Working
    figures: tuple[Figure, ...] = ()  # more of the same thing
    note: str = ""  # what has to be known to read the inputs


def make_subject(
    identity: str,
    kind: str,
    what: str,
    *,
    why: Working,
    value: float | str | None = None,
    unit: str = "",
    figures: tuple[Figure, ...] = (),
    note: str = "",
) -> Subject:
    """Return a subject in one line; a value that the working has itself need not be given."""
    return Subject(id=identity, kind=kind, what=what, value=value, unit=unit, why=why, figures=figures, note=note)
