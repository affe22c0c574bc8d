"""Section lining: parallel lines clipped to what the plane cuts."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.sheets import Hatch, Pen, Point

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

SPACING = 1.6  # between two lines [mm of paper]; common practice, no source
SHORTEST = 0.05  # a line shorter than this is a dot [mm of paper]


def hatch(
    outline: Sequence[Point],
    *,
    scale: float,
    holes: Iterable[Sequence[Point]] = (),
    spacing: float = SPACING,
    angle: float = math.pi / 4,
    pen: Pen = Pen.LIGHT,
) -> Hatch:
    """Parallel lines that fill a polygon.

    Parameters
    ----------
    outline
        Corners in order, either way round [model mm]; need not be convex.
    scale
        The view's scale: model mm for one mm of paper.
    holes
        Polygons inside the outline that stay empty.
    spacing
        Between two lines [mm of paper], above 0.
    angle
        Direction of the lines [rad]. Neighbouring parts differ in angle: pi/4 and 3 pi/4.
    pen
        Line kind.

    Returns
    -------
    Hatch
        Lines in order across their direction; none where the polygon is thinner than the spacing at that place.
        Lines of all polygons with one angle and spacing lie on one grid, so that a part drawn in two pieces shows none.
    """
    cos, sin = math.cos(angle), math.sin(angle)

    def turned_back(u: float, v: float) -> Point:
        return u * cos - v * sin, u * sin + v * cos

    rings = [[(x * cos + y * sin, y * cos - x * sin) for x, y in ring] for ring in (outline, *holes)]
    sides = [side for ring in rings for side in pairwise((*ring, ring[0]))]
    step = spacing * scale
    levels = [k * step for k in range(*_grid(rings[0], step))]
    lines = tuple(
        (turned_back(left, v), turned_back(right, v))
        for v in levels
        for left, right in _inside(sides, v)
        if right - left > SHORTEST * scale
    )
    return Hatch(lines=lines, pen=pen)


def _grid(ring: Sequence[Point], step: float) -> tuple[int, int]:
    """Return the first grid line over a ring's lowest point, and one past the last under its highest."""
    heights = [v for _, v in ring]
    return math.ceil(min(heights) / step), math.floor(max(heights) / step) + 1


def _inside(sides: Sequence[tuple[Point, Point]], v: float) -> Iterable[tuple[float, float]]:
    """Return the stretches of a level line that lie inside; a side holds its lower end and not its upper one."""
    crossings = sorted(
        ua + (ub - ua) * (v - va) / (vb - va) for (ua, va), (ub, vb) in sides if (va <= v < vb) or (vb <= v < va)
    )
    return zip(crossings[::2], crossings[1::2], strict=True)
