"""Walls on the floor plan of the room: what lies outside it, what overlaps, how much room is left.

Plain plane geometry in room axes [mm]; walls are taken as strips from the finished face to the back of the frame.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.layout import footprint

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.layout import Point
    from lathlight.plan import Plan

TOUCH = 1e-6
Segment = tuple["Point", "Point"]


@dataclass(frozen=True, slots=True)
class Strip:
    """One wall on the floor, in room axes [mm]."""

    wall: str
    outline: tuple[Point, ...]  # face left, face right, back right, back left
    length: float
    depth: float


def strips(plan: Plan) -> tuple[Strip, ...]:
    """Return every wall on the floor of the room, corner plates included."""
    depths = [max((f.depth for f in wall.flats), default=0.0) for wall in plan.walls]
    pose = plan.layout.pose
    return tuple(
        Strip(wall.name, tuple(pose.to_room(p) for p in outline), wall.length, depth)
        for wall, outline, depth in zip(plan.walls, footprint(plan.layout.walls, depths), depths, strict=True)
    )


def sides(ring: Sequence[Point]) -> Iterator[Segment]:
    """Yield the sides of a ring."""
    return zip(ring, (*ring[1:], ring[0]), strict=True)


def is_inside(point: Point, ring: Sequence[Point]) -> bool:
    """Return True where a point lies in a ring, by counting the sides to its right."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in sides(ring):
        if (y0 > y) is not (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside


def from_segment(point: Point, segment: Segment) -> float:
    """Return the distance from a point to a segment [mm]."""
    (x0, y0), (x1, y1) = segment
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    t = 0.0 if square == 0 else ((point[0] - x0) * dx + (point[1] - y0) * dy) / square
    t = min(max(t, 0.0), 1.0)
    return math.hypot(point[0] - x0 - t * dx, point[1] - y0 - t * dy)


def outside(outline: Sequence[Point], room: Sequence[Point]) -> float:
    """Return how far an outline's sides reach out of the room [mm]; 0 where all of them lie inside.

    Measured to the nearest side of the room at the ends and the middle of every stretch that lies outside.
    """
    return max((_beyond(side, room) for side in sides(outline)), default=0.0)


def _beyond(side: Segment, room: Sequence[Point]) -> float:
    (x0, y0), (x1, y1) = side
    cuts = sorted({0.0, 1.0, *_crossings(side, room)})
    worst = 0.0
    for a, b in itertools.pairwise(cuts):
        middle = (a + b) / 2
        if is_inside((x0 + middle * (x1 - x0), y0 + middle * (y1 - y0)), room):
            continue
        for t in (a, middle, b):
            point = (x0 + t * (x1 - x0), y0 + t * (y1 - y0))
            worst = max(worst, min(from_segment(point, wall) for wall in sides(room)))
    return worst


def _crossings(side: Segment, ring: Sequence[Point]) -> Iterator[float]:
    """Yield the places along a segment, 0 to 1, where it crosses a ring."""
    (x0, y0), (x1, y1) = side
    dx, dy = x1 - x0, y1 - y0
    for (ax, ay), (bx, by) in sides(ring):
        ex, ey = bx - ax, by - ay
        cross = dx * ey - dy * ex
        if abs(cross) <= TOUCH:
            continue
        t = ((ax - x0) * ey - (ay - y0) * ex) / cross
        u = ((ax - x0) * dy - (ay - y0) * dx) / cross
        if 0 < t < 1 and 0 <= u <= 1:
            yield t


def overlap(one: Sequence[Point], other: Sequence[Point]) -> float:
    """Return how deep two convex rings lie in each other, by their separating axes [mm]; 0 or less: they do not."""
    depth = math.inf
    for ring in (one, other):
        for (x0, y0), (x1, y1) in sides(ring):
            length = math.hypot(x1 - x0, y1 - y0)
            if length <= TOUCH:
                continue
            axis = ((y0 - y1) / length, (x1 - x0) / length)
            a, b = _shadow(one, axis), _shadow(other, axis)
            depth = min(depth, a[1] - b[0], b[1] - a[0])
            if depth <= 0:
                return depth
    return depth


def _shadow(ring: Sequence[Point], axis: Point) -> tuple[float, float]:
    along = [x * axis[0] + y * axis[1] for x, y in ring]
    return min(along), max(along)


def gap_behind(strip: Strip, obstacles: Iterable[Segment]) -> float:
    """Return the least free depth straight behind a wall [mm]; inf where nothing stands there."""
    (x0, y0), (x1, y1) = strip.outline[0], strip.outline[1]
    dx, dy = (x1 - x0) / strip.length, (y1 - y0) / strip.length
    best = math.inf
    for one, other in obstacles:
        ends = [((p[0] - x0) * dx + (p[1] - y0) * dy, -(p[0] - x0) * dy + (p[1] - y0) * dx) for p in (one, other)]
        for behind in _within(ends[0], ends[1], strip.length):
            if behind > strip.depth - 1.0:
                best = min(best, behind - strip.depth)
    return best


def _within(one: Point, other: Point, length: float) -> Iterator[float]:
    """Yield the depths at which a segment (along, behind) begins and ends over a wall of this length."""
    (a0, b0), (a1, b1) = sorted((one, other))
    low, high = max(a0, 0.0), min(a1, length)
    if high - low <= TOUCH:
        return
    for along in (low, high):
        yield b0 + (along - a0) / (a1 - a0) * (b1 - b0)


def apart(outline: Sequence[Point], segment: Segment) -> float:
    """Return the least distance between an outline and a segment [mm]; 0 where they meet."""
    if any(is_inside(p, outline) for p in segment) or any(True for _ in _crossings(segment, outline)):
        return 0.0
    corners = min(from_segment(p, segment) for p in outline)
    ends = min(from_segment(p, side) for p in segment for side in sides(outline))
    return min(corners, ends)
