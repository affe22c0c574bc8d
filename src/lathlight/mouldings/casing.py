"""Where a line of trim is interrupted by openings, their casing and its blocks.

Decides the stretches of wall that a line covers. How it ends there is left to ``lathlight.mouldings.trim_ends``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.mouldings.trim_model import BlockBand, CasedOpening, Moulding, TrimWall

TOUCH = 1e-6  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of wall that a line covers [mm]; None at an end of the wall, else the opening it stops at."""

    start: float
    end: float
    left: CasedOpening | None
    right: CasedOpening | None


def casing_box(opening: CasedOpening) -> tuple[float, float, float, float]:
    """Outer edges of casing and blocks: left, bottom, right, top [mm]; without casing, the clear edges."""
    around = _around(opening)
    beyond = max((b.beyond for b in opening.blocks), default=0.0)
    bottom = opening.sill - around if opening.sill > 0 else 0.0
    top = opening.sill + opening.height + around
    return (
        opening.left - around - beyond,
        max(bottom, 0.0),
        opening.left + opening.width + around + beyond,
        max(top, *(b.top for b in opening.blocks)) if opening.blocks else top,
    )


def met_thickness(opening: CasedOpening, line: Moulding) -> float:
    """How thick what the line dies into is there [mm]: a block that is as high as the line, else the casing."""
    covering = [b for b in opening.blocks if b.bottom <= line.bottom + TOUCH and line.top <= b.top + TOUCH]
    return max((b.thickness for b in covering), default=opening.thickness)


def _around(opening: CasedOpening) -> float:
    return opening.reveal + opening.casing if opening.casing > 0 else 0.0


def _blocks_at(opening: CasedOpening, line: Moulding) -> list[BlockBand]:
    return [b for b in opening.blocks if b.bottom < line.top - TOUCH and line.bottom < b.top - TOUCH]


def _edges(opening: CasedOpening, line: Moulding) -> tuple[float, float]:
    """Return where the line stops on the left and on the right of an opening [mm]."""
    around = _around(opening) + max((b.beyond for b in _blocks_at(opening, line)), default=0.0)
    return opening.left - around, opening.left + opening.width + around


def stretches(wall: TrimWall, line: Moulding) -> tuple[Stretch, ...]:
    """Stretches of the wall that the line covers, left to right."""
    found: list[Stretch] = []
    start: float = 0.0
    left: CasedOpening | None = None
    for opening in sorted((o for o in wall.openings if _interrupts(o, line)), key=lambda o: (o.left, o.name)):
        x0, x1 = _edges(opening, line)
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
