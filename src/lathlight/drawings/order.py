"""Which upright solid hides which: an order from back to front for things that stand on one floor.

Every solid is an upright prism over a convex outline, and no two overlap in plan, so that along any upright plane of
sight the one further away can be drawn first. How solids look is left to ``lathlight.drawings.iso``.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.drawings.sheets import Point

TOUCH = 0.5  # solids that share less than this from side to side hide nothing of each other [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """A parallel view from the camera's side.

    ``turn`` is where the eye stands round the set, to the right positive, from straight in front; ``rise`` is how far
    it looks down [rad].
    """

    turn: float
    rise: float

    def across(self, point: Point) -> float:
        """Return how far to the right a point of the plan is seen [mm]."""
        return point[0] * math.cos(self.turn) + point[1] * math.sin(self.turn)

    def away(self, point: Point) -> float:
        """Return how far from the eye a point of the plan lies, from an arbitrary zero [mm]."""
        return point[1] * math.cos(self.turn) - point[0] * math.sin(self.turn)

    def flat(self, point: Point, z: float) -> Point:
        """Return where a point at height ``z`` is drawn [mm]."""
        return self.across(point), z * math.cos(self.rise) + self.away(point) * math.sin(self.rise)

    def faces(self, normal: Point) -> bool:
        """Return True where an upright face with this outward normal turns to the eye."""
        return self.away(normal) < -1e-6


def back_to_front(rings: Sequence[Sequence[Point]], sight: Sight) -> tuple[int, ...]:
    """Return the order in which upright solids over these outlines are drawn, the furthest first.

    Parameters
    ----------
    rings
        Convex outlines in plan that do not overlap [mm].
    sight
        The direction of view.

    Notes
    -----
    Two outlines are compared on the line of sight through the middle of the stretch that both cover; a heap keeps
    the order the same every time. Should measures contradict each other, the furthest middle goes first.
    """
    spans = [_span(ring, sight) for ring in rings]
    behind = _behind(rings, spans, sight)
    waiting = [0] * len(rings)
    for nearer in behind:
        for index in nearer:
            waiting[index] += 1
    depth = [-sum(sight.away(p) for p in ring) / len(ring) for ring in rings]
    ready = [(depth[i], i) for i in range(len(rings)) if waiting[i] == 0]
    heapq.heapify(ready)
    order: list[int] = []
    done: set[int] = set()
    while len(order) < len(rings):
        if not ready:
            ready = [min((depth[i], i) for i in range(len(rings)) if i not in done)]
        _, index = heapq.heappop(ready)
        if index in done:
            continue
        done.add(index)
        order.append(index)
        for nearer in behind[index]:
            waiting[nearer] -= 1
            if waiting[nearer] == 0:
                heapq.heappush(ready, (depth[nearer], nearer))
    return tuple(order)


def _span(ring: Sequence[Point], sight: Sight) -> tuple[float, float]:
    across = [sight.across(p) for p in ring]
    return min(across), max(across)


def _behind(rings: Sequence[Sequence[Point]], spans: Sequence[tuple[float, float]], sight: Sight) -> list[list[int]]:
    """Return, for every outline, those that lie nearer on a common line of sight."""
    nearer: list[list[int]] = [[] for _ in rings]
    open_: list[int] = []
    for index in sorted(range(len(rings)), key=lambda i: (spans[i][0], i)):
        low = spans[index][0]
        open_ = [other for other in open_ if spans[other][1] > low + TOUCH]
        for other in open_:
            middle = (low + min(spans[index][1], spans[other][1])) / 2
            if min(spans[index][1], spans[other][1]) - low <= TOUCH:
                continue
            if _depth_at(rings[index], middle, sight) > _depth_at(rings[other], middle, sight):
                nearer[index].append(other)
            else:
                nearer[other].append(index)
        open_.append(index)
    return nearer


def _depth_at(ring: Sequence[Point], across: float, sight: Sight) -> float:
    """Return the middle of the depths that an outline covers on one line of sight."""
    depths: list[float] = []
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        ua, ub = sight.across(a), sight.across(b)
        if min(ua, ub) <= across <= max(ua, ub) and abs(ub - ua) > 1e-9:
            share = (across - ua) / (ub - ua)
            depths.append(sight.away(a) + share * (sight.away(b) - sight.away(a)))
    return (min(depths) + max(depths)) / 2 if depths else sight.away(ring[0])
