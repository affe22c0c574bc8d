"""A snag: something that would go wrong, as a figure against a limit."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.working import Working


class Severity(IntEnum):
    """What a snag costs, worst first."""

    STOPS = 0  # stops the job
    SPOILS = 1  # spoils the picture or a part
    COSTS = 2  # costs money
    KNOW = 3  # worth knowing

    @property
    def words(self) -> str:
        """Return the severity in words."""
        return ("stops the job", "spoils the picture or a part", "costs money", "worth knowing")[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Snag:
    """One finding of one check."""

    id: str  # check @ place: "free-sheet-edge@back/1"
    check: str
    severity: Severity
    place: str  # id of the member, flat, wall or picture, or "set"
    what: str  # one sentence, figures in the project's units
    figure: float
    limit: float
    unit: str  # "mm", "kg", "rad", ""
    remedy: str
    why: Working
