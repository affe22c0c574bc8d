"""What a moulding's section measures: how far it stands out, how much wall it covers, how much face is painted.

A section is the closed polyline of ``lathlight.catalog.Profile``, as it hangs on the wall: out from the wall, up [mm].
Where the moulding is cut and how it is mitred is left to the carpentry.
"""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.catalog.rows import Profile

Point = tuple[float, float]
TOUCHES = 0.01  # a point this near to the wall lies on it [mm]; the tables are written to 0.01 mm


def projection(profile: Profile) -> float:
    """How far the section stands out from the wall [mm]."""
    return max(out for out, _ in profile.points)


def width(profile: Profile) -> float:
    """Broad side of the section as it is sold [mm]: its height on the wall; of a cornice, across its face.

    A cornice's face is measured parallel to its back, so that the figure is that of the moulding lying on the bench.
    """
    if profile.spring is None:
        heights = [up for _, up in profile.points]
        return max(heights) - min(heights)
    along = [out * math.sin(profile.spring) + up * math.cos(profile.spring) for out, up in profile.points]
    return max(along) - min(along)


def drop(profile: Profile) -> float:
    """How much of the wall the section covers, upright [mm]."""
    heights = [up for _, up in profile.points]
    return max(heights) - min(heights)


def lean(profile: Profile) -> float | None:
    """Angle between the wall and the back that a section leans on [rad]; None where its back lies flat on the wall.

    The section touches the wall at its foot; from there up the back is what comes nearest to the wall (geometry).

    Examples
    --------
    >>> from lathlight.catalog.rows import Profile
    >>> crown = Profile(name="c", kind="cornice", points=((0, 0), (10, 0), (50, 40), (50, 50), (40, 50), (0, 10)),
    ...                 spring=math.pi / 4, lengths=(2400,), density=460, coping=True, source="made up")
    >>> round(math.degrees(lean(crown)), 6)
    45.0
    """
    foot = max(up for out, up in profile.points if out <= TOUCHES)
    above = [(out, up - foot) for out, up in profile.points if up > foot + TOUCHES]
    return min((math.atan2(out, up) for out, up in above), default=None)


def girth(profile: Profile) -> float:
    """Developed length of the face that is seen and painted, along the section [mm]; never less than the width.

    The way round the front from the back's bottom corner to its top corner. What lies on the wall, a base board's
    underside and a cornice's back are left out.

    Examples
    --------
    >>> from lathlight.catalog.rows import Profile
    >>> board = Profile(name="b", kind="base", points=((0, 0), (15, 0), (15, 95), (0, 95)), spring=None,
    ...                 lengths=(2400,), density=750, coping=True, source="common practice, no source")
    >>> girth(board)
    110.0
    """
    front = face(profile)
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(front))


def face(profile: Profile) -> tuple[Point, ...]:
    """Points of the face that is seen, from the bottom up (out from the wall, up) [mm]."""
    points = profile.points
    end = _head(points) if profile.spring is not None else _top_of_back(points)
    front = points[: end + 1]
    if profile.kind == "base" and len(front) > 2 and abs(front[1][1] - front[0][1]) <= TOUCHES:
        return front[1:]  # it stands on its underside
    return front


def _top_of_back(points: Sequence[Point]) -> int:
    return max((i for i, (out, _) in enumerate(points) if out <= TOUCHES), key=lambda i: points[i][1])


def _head(points: Sequence[Point]) -> int:
    return max(range(len(points)), key=lambda i: (round(points[i][1], 2), points[i][0]))


def turned(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the same section anticlockwise from the back's bottom corner."""
    ring = list(points)
    if signed_area(ring) < 0:
        ring.reverse()
    first = min(range(len(ring)), key=lambda i: (ring[i][0], ring[i][1]))
    return tuple(ring[first:] + ring[:first])


def signed_area(points: Sequence[Point]) -> float:
    """Area within the polyline [mm2]; negative where it runs clockwise."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return math.fsum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def crossing(points: Sequence[Point]) -> tuple[int, int] | None:
    """Return the first two sides of the closed polyline that cross or touch, by the point each starts at; or None."""
    n = len(points)
    sides = [(points[i], points[(i + 1) % n]) for i in range(n)]
    for i in range(n):
        for j in range(i + 1, n):
            if j == i + 1 or (i == 0 and j == n - 1):
                if _folds_back(sides[i], sides[j]) or (n > 2 and sides[i][0] == sides[i][1]):
                    return i, j
            elif _meet(sides[i], sides[j]):
                return i, j
    return None


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _within(a: Point, b: Point, c: Point) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _meet(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    (a, b), (c, d) = one, other
    t1, t2, t3, t4 = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if t1 * t2 < 0 and t3 * t4 < 0:
        return True
    return (
        (t1 == 0 and _within(a, b, c))
        or (t2 == 0 and _within(a, b, d))
        or (t3 == 0 and _within(c, d, a))
        or (t4 == 0 and _within(c, d, b))
    )


def _folds_back(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two neighbouring sides run back over each other."""
    shared = next((p for p in one if p in other), None)
    if shared is None:
        return False
    a = one[0] if one[1] == shared else one[1]
    b = other[1] if other[0] == shared else other[0]
    along = (a[0] - shared[0]) * (b[0] - shared[0]) + (a[1] - shared[1]) * (b[1] - shared[1])
    return _turn(a, shared, b) == 0 and along > 0
