"""What a check is: a name, a limit with its source, words for people, and a function that finds.

Checks find figures against limits; the registry (``lathlight.snags.registry``) runs them and makes the snags. No check
changes the plan.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.snags.model import Severity, Snag
from lathlight.snags.wording import in_units_of
from lathlight.working import Working

if TYPE_CHECKING:
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

Inputs = tuple[tuple[str, float | str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One place where a check's limit is broken."""

    place: str  # id of the member, flat, wall or picture, or "set"; once a check
    what: str  # a clause without a full stop, figures in the project's units
    figure: float
    limit: float
    unit: str = "mm"
    remedy: str | None = None  # None: the check's own
    severity: Severity | None = None  # None: the check's own
    inputs: Inputs = ()


Finder = Callable[["Plan"], Iterable[Finding]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One entry of the catalogue of checks."""

    name: str  # "free-sheet-edge"
    family: str
    severity: Severity  # where a finding does not say otherwise
    title: str  # what is wrong, in a few words
    why: str  # why it matters: a clause that follows what was found
    limit: str  # the default limit, in words; figures as `{10 mm}`, which are shown in the project's units
    source: str  # of the limit
    remedy: str  # one sentence
    find: Finder


def check(
    *, name: str, family: str, severity: Severity, title: str, why: str, limit: str, source: str, remedy: str
) -> Callable[[Finder], Check]:
    """Return a decorator that turns a finding function into a check."""

    def entry(find: Finder) -> Check:
        return Check(
            name=name,
            family=family,
            severity=severity,
            title=title,
            why=why,
            limit=limit,
            source=source,
            remedy=remedy,
            find=find,
        )

    return entry


def snag_of(entry: Check, found: Finding, style: LengthStyle) -> Snag:
    """Return the snag of one finding, its limit in the project's units."""
    return Snag(
        id=f"{entry.name}@{found.place}",
        check=entry.name,
        severity=entry.severity if found.severity is None else found.severity,
        place=found.place,
        what=f"{found.what}: {entry.why}.",
        figure=found.figure,
        limit=found.limit,
        unit=found.unit,
        remedy=found.remedy or entry.remedy,
        why=Working(
            formula=f"{entry.title}; limit: {in_units_of(entry.limit, style)}",
            inputs=(("found", found.figure, found.unit), ("limit", found.limit, found.unit), *found.inputs),
            source=entry.source,
            value=found.figure,
            unit=found.unit,
        ),
    )
