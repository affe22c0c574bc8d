"""Whether a chain of walls runs into itself, seen from above.

Walls are their finished faces: straight lines without thickness. Whether what stands behind the faces gets in each
other's way is left to the corners of ``lathlight.carpentry``.
"""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

Point: TypeAlias = "tuple[float, float]"
Line: TypeAlias = "tuple[Point, Point]"

TOUCH = 1e-6  # [mm] nearer than this is touching


def chain(lengths: Sequence[float], angles: Sequence[float]) -> list[Point]:
    """Return the corners of a chain of walls, left to right, that starts at the origin along x.

    Parameters
    ----------
    lengths
        Length of each wall [mm].
    angles
        Inside angle between each wall and the next [rad], one fewer.
    """
    corners: list[Point] = [(0.0, 0.0)]
    heading = 0.0
    for length, angle in itertools.zip_longest(lengths, angles, fillvalue=math.pi):
        x, y = corners[-1]
        corners.append((x + length * math.cos(heading), y + length * math.sin(heading)))
        heading -= math.pi - angle  # the next wall turns towards the camera
    return corners


def first_crossing(corners: Sequence[Point], *, turning: float | None = None) -> tuple[int, int] | None:
    """Return the numbers of the first two lines of an open chain that meet although they are not neighbours.

    Parameters
    ----------
    corners
        Of the chain [mm].
    turning
        What the chain turns through in all [rad] where it always turns the same way: up to half a turn it is convex
        and cannot meet itself.
    """
    if turning is not None and turning <= math.pi + 1e-9:
        return None
    lines = list(itertools.pairwise(corners))
    size = sum(math.dist(*line) for line in lines) / max(len(lines), 1) or 1.0
    squares: dict[tuple[int, int], list[int]] = {}
    for number, line in enumerate(lines):
        near: set[int] = set()
        for square in _squares(line, size):
            near.update(squares.setdefault(square, []))
            squares[square].append(number)
        for other in sorted(near):
            if other < number - 1 and meet(lines[other], line):
                return other, number
    return None


def outline_crossing(corners: Sequence[Point]) -> tuple[int, int] | None:
    """Return the numbers of two sides of a closed outline that cross or touch although they are not neighbours."""
    sides = list(itertools.pairwise([*corners, corners[0]]))
    for one, other in itertools.combinations(range(len(sides)), 2):
        are_neighbours = other - one in (1, len(sides) - 1)
        if not are_neighbours and meet(sides[one], sides[other]):
            return one, other
    return None


def area(corners: Sequence[Point]) -> float:
    """Return the area inside a closed outline [mm2], positive where it runs anticlockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in itertools.pairwise([*corners, corners[0]])) / 2


def meet(one: Line, other: Line) -> bool:
    """Return True where two straight lines cross or touch."""
    if any(_distance(point, one) <= TOUCH for point in other) or any(_distance(point, other) <= TOUCH for point in one):
        return True
    return _side(one, other[0]) * _side(one, other[1]) < 0 and _side(other, one[0]) * _side(other, one[1]) < 0


def _side(line: Line, point: Point) -> float:
    """Return which side of a line a point lies on, by its sign."""
    (ax, ay), (bx, by) = line
    return (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)


def _distance(point: Point, line: Line) -> float:
    (ax, ay), (bx, by) = line
    long = (bx - ax) ** 2 + (by - ay) ** 2
    along = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / long if long else 0.0
    along = min(max(along, 0.0), 1.0)
    return math.dist(point, (ax + along * (bx - ax), ay + along * (by - ay)))


def _squares(line: Line, size: float) -> Iterator[tuple[int, int]]:
    """Return every square of a grid that a line runs through or touches, column by column."""
    (ax, ay), (bx, by) = sorted(line)
    for column in range(math.floor((ax - TOUCH) / size), math.floor((bx + TOUCH) / size) + 1):
        low, high = _heights((ax, ay), (bx, by), max(ax, column * size), min(bx, (column + 1) * size))
        for row in range(math.floor((low - TOUCH) / size), math.floor((high + TOUCH) / size) + 1):
            yield column, row


def _heights(a: Point, b: Point, left: float, right: float) -> tuple[float, float]:
    """Return the lowest and highest place of a line between two upright lines."""
    if b[0] - a[0] <= TOUCH:
        return min(a[1], b[1]), max(a[1], b[1])
    slope = (b[1] - a[1]) / (b[0] - a[0])
    ends = (a[1] + slope * (left - a[0]), a[1] + slope * (right - a[0]))
    return min(ends), max(ends)
