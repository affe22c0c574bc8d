"""Walls and sitters seen from above, in the set's axes or in the room's."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.cameras import sitter_point
from lathlight.drawings.outlines import frame_plan, placed, sheet_plan
from lathlight.drawings.sheets import Line, Path, Pen, Tone

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from lathlight.drawings.sheets import Item, Point
    from lathlight.plan import Plan

    Put = Callable[[Point], Point]  # a point of the set's axes to where it is drawn

MARK = 150.0  # half the size of a sitter's mark [mm]


def wall_items(plan: Plan, height: float, put: Put) -> list[Item]:
    """Return sheets and frames at true thickness, cut at a height above the foot of the flats [mm]."""
    items: list[Item] = []
    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for _, ring in frame_plan(wall, height):
            points = _put(placed(ring, line), put)
            items.append(Path(points=points, closed=True, pen=Pen.OUTLINE, fill=Tone.PALE))
        items += [
            Path(points=_put(placed(ring, line), put), closed=True, pen=None, fill=Tone.BLACK)
            for ring in sheet_plan(wall, height)
        ]
    return items


def sitter_items(plan: Plan, put: Put) -> list[Item]:
    """Return a crossed ring at every sitter's place."""
    items: list[Item] = []
    for sitter in plan.brief.sitters:
        x, y = sitter_point(sitter)
        ring = ((x + MARK * math.cos(k * math.pi / 12), y + MARK * math.sin(k * math.pi / 12)) for k in range(24))
        items.append(Path(points=_put(ring, put), closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE))
        for dx, dy in ((MARK, 0.0), (0.0, MARK)):
            items.append(Line(a=put((x - dx, y - dy)), b=put((x + dx, y + dy)), pen=Pen.LIGHT))
    return items


def _put(ring: Iterable[Point], put: Put) -> tuple[Point, ...]:
    return tuple(map(put, ring))
