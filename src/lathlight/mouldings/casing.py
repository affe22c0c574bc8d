"""Where a line of trim is interrupted by openings and their casing.

Decides the stretches of wall that a line covers. How it ends there is left to ``lathlight.mouldings.trim_ends``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.mouldings.trim_model import CasedOpening, Moulding, TrimWall

TOUCH = 1e-6  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of wall that a line covers [mm]; None at an end of the wall, else the opening it stops at."""

    start: float
    end: float
    left: CasedOpening | None
    right: CasedOpening | None


def casing_box(opening: CasedOpening) -> tuple[float, float, float, float]:
    """Outer edges of the casing: left, bottom, right, top [mm]; of an opening without casing, the clear edges."""
    around = opening.reveal + opening.casing if opening.casing > 0 else 0.0
    bottom = opening.sill - around if opening.sill > 0 else 0.0
    return (
        opening.left - around,
        max(bottom, 0.0),
        opening.left + opening.width + around,
        opening.sill + opening.height + around,
    )


def stretches(wall: TrimWall, line: Moulding) -> tuple[Stretch, ...]:
    """Stretches of the wall that the line covers, left to right."""
    found: list[Stretch] = []
    start: float = 0.0
    left: CasedOpening | None = None
    for opening in sorted((o for o in wall.openings if _interrupts(o, line)), key=lambda o: (o.left, o.name)):
        x0, _, x1, _ = casing_box(opening)
        if x0 > start + TOUCH:
            found.append(Stretch(start=start, end=x0, left=left, right=opening))
        if x1 > start:
            start, left = x1, opening
    if wall.length > start + TOUCH:
        found.append(Stretch(start=start, end=wall.length, left=left, right=None))
    return tuple(found)


def _interrupts(opening: CasedOpening, line: Moulding) -> bool:
    _, bottom, _, top = casing_box(opening)
    return bottom < line.top - TOUCH and line.bottom < top - TOUCH
