"""The chain of finished faces in plan, from lengths and corner angles."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.layout.model import WallLine

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.layout.model import Point


def lay_out_walls(
    *, names: Sequence[str], lengths: Sequence[float], heights: Sequence[float], angles: Sequence[float]
) -> tuple[WallLine, ...]:
    """Return the walls' faces in set axes.

    Parameters
    ----------
    names, lengths, heights
        One a wall, left to right [mm].
    angles
        Inside angles between neighbours [rad], one fewer than walls.

    Returns
    -------
    tuple of WallLine
        The middle wall (or the middle corner of an even number of walls) lies at the origin and the set's axis along y.

    Examples
    --------
    >>> a, b = lay_out_walls(names="ab", lengths=[2000, 1000], heights=[2400, 2400], angles=[math.pi / 2])
    >>> [round(v, 1) for v in (*a.start, *b.end)]
    [-1414.2, -1414.2, 707.1, -707.1]
    """
    headings = _headings(angles)
    corners = _walk(headings, lengths)
    origin = _axis_foot(corners, len(lengths))
    lines: list[WallLine] = []
    for i, name in enumerate(names):
        start = (corners[i][0] - origin[0], corners[i][1] - origin[1])
        direction = (math.cos(headings[i]), math.sin(headings[i]))
        lines.append(WallLine(name=name, start=start, direction=direction, length=lengths[i], height=heights[i]))
    return tuple(lines)


def _headings(angles: Sequence[float]) -> list[float]:
    """Return the direction of every wall [rad] with the set's axis along y."""
    turns = [math.pi - angle for angle in angles]
    relative = [0.0]
    for turn in turns:
        relative.append(relative[-1] - turn)
    count = len(relative)
    middle = relative[count // 2] if count % 2 else (relative[count // 2 - 1] + relative[count // 2]) / 2
    return [heading - middle for heading in relative]


def _walk(headings: Sequence[float], lengths: Sequence[float]) -> list[Point]:
    x = y = 0.0
    corners = [(x, y)]
    for heading, length in zip(headings, lengths, strict=True):
        x, y = x + length * math.cos(heading), y + length * math.sin(heading)
        corners.append((x, y))
    return corners


def _axis_foot(corners: Sequence[Point], walls: int) -> Point:
    if walls % 2:
        (ax, ay), (bx, by) = corners[walls // 2], corners[walls // 2 + 1]
        return (ax + bx) / 2, (ay + by) / 2
    return corners[walls // 2]
