"""Two lines of trim that would take the same place on a wall: they cannot be drawn, and one is usually a slip.

Lines that touch, such as a small moulding on top of a base, are left alone; lines that crowd each other are a snag.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from lathlight.catalog import drop
from lathlight.project.findings import Finding
from lathlight.units import format_length, snap

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lathlight.catalog import Profile
    from lathlight.project.draft import Draft
    from lathlight.project.model import Trim, Wall

TOUCH = 1.0  # [mm] less than this is a line that rests on another


def stacked_findings(draft: Draft, profiles: Mapping[str, Profile]) -> Iterator[Finding]:
    """Yield each line of trim that overlaps an earlier one on some wall, once."""
    lines = [
        (n, line, profiles[line.profile]) for n, line in enumerate(draft.trim) if line and line.profile in profiles
    ]
    for (_, first, one), (number, second, other) in combinations(lines, 2):
        for wall in draft.walls:
            if wall is None or not (_is_on(first, wall) and _is_on(second, wall)):
                continue
            below, above = _span(draft, first, one, wall), _span(draft, second, other, wall)
            if below and above and min(below[1], above[1]) - max(below[0], above[0]) > TOUCH:
                yield _overlap(draft, number, second, first, above, below)
                break


def _overlap(
    draft: Draft, number: int, line: Trim, other: Trim, at: tuple[float, float], taken: tuple[float, float]
) -> Finding:
    def reach(span: tuple[float, float]) -> str:
        return " to ".join(format_length(round(z, 6), style=draft.style) for z in span)

    return Finding(
        path=("trim", number, "profile" if line.height is None else "height"),
        found=f'a {line.kind} from {reach(at)} above the floor, where "{other.name}" takes {reach(taken)}',
        expected="a line of trim that is clear of the others on its wall",
        remedy="Move one of the two, or put them on different walls (trim under [[walls]]).",
    )


def _is_on(line: Trim, wall: Wall) -> bool:
    return wall.trim is None or line.name in wall.trim


def _span(draft: Draft, line: Trim, profile: Profile, wall: Wall) -> tuple[float, float] | None:
    """Return where a line begins and ends on a wall, above the finished floor [mm]; None where nothing says so."""
    covers, height = drop(profile), draft.wall_height(wall)
    if line.height is not None:
        top = snap(line.height, draft.style)
    elif line.kind == "base":
        top = covers
    elif line.kind == "cornice" and height is not None:
        top = snap(height, draft.style) - draft.rise
    else:
        return None
    return (top - covers, top) if top >= covers else None  # lower than itself: told elsewhere
