"""Triangles of a polygon with holes, by ear clipping on exact whole numbers.

Our own because equal input must give equal triangles on every machine and with every library version, and because
every corner must stay a corner (a side wall of a solid stands on each edge). Quadratic: meant for outlines of parts,
not for meshes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

Point = tuple[float, float]
Triangle = tuple[int, int, int]
Whole = tuple[int, int]

GRID = 1e-4  # corners are compared on this grid [mm]; the triangles use the corners as they were given


def triangulate(outline: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> tuple[Triangle, ...]:
    """Return triangles that cover a polygon less its holes.

    Parameters
    ----------
    outline
        Simple ring, anticlockwise, without the closing point; at least three corners [mm].
    holes
        Simple rings inside it that touch neither it nor each other, clockwise or anticlockwise.

    Returns
    -------
    tuple of (int, int, int)
        Anticlockwise triangles as indices into the outline's corners followed by the holes'. Two fewer than the
        corners, and two more for each hole.

    Raises
    ------
    ValueError
        The outline runs clockwise, or a hole lies outside it: a caller's mistake. An outline that crosses itself is
        not always noticed.

    Examples
    --------
    >>> triangulate([(0, 0), (2, 0), (2, 1), (0, 1)])
    ((3, 0, 1), (3, 1, 2))
    """
    if len(outline) == 4 and not holes and _is_rectangle(outline):
        return ((3, 0, 1), (3, 1, 2))
    points = [_whole(p) for ring in (outline, *holes) for p in ring]
    loop = list(range(len(outline)))
    if twice_area([points[i] for i in loop]) <= 0:
        msg = "the outline of a part must run anticlockwise and enclose something"
        raise ValueError(msg)
    first = len(outline)
    inner: list[list[int]] = []
    for hole in holes:
        ring = list(range(first, first + len(hole)))
        inner.append(ring if twice_area([points[i] for i in ring]) < 0 else ring[::-1])
        first += len(hole)
    return _clip(points, _bridged(points, loop, inner))


def twice_area(ring: Sequence[Whole]) -> int:
    """Return twice the area of a ring of whole numbers, positive where it runs anticlockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def _whole(point: Point) -> Whole:
    return round(point[0] / GRID), round(point[1] / GRID)


def _is_rectangle(ring: Sequence[Point]) -> bool:
    """Whether four corners are an upright rectangle, anticlockwise from the lower left."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = ring
    return ay == by and bx == cx and cy == dy and dx == ax and bx > ax and cy > by


def _turn(a: Whole, b: Whole, c: Whole) -> int:
    """Positive where a, b, c turn left, 0 where they lie on one line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _bridged(points: list[Whole], loop: list[int], holes: list[list[int]]) -> list[int]:
    """Return one loop that runs along the outline and out and back to every hole."""
    waiting = sorted(holes, key=lambda hole: max(points[i] for i in hole), reverse=True)
    while waiting:
        hole = waiting.pop(0)
        start = max(range(len(hole)), key=lambda k: points[hole[k]])
        hole = hole[start:] + hole[:start]
        at = _seen(points, loop, hole, waiting)
        loop = [*loop[: at + 1], *hole, hole[0], *loop[at:]]
    return loop


def _seen(points: list[Whole], loop: list[int], hole: list[int], waiting: list[list[int]]) -> int:
    """Return the place in the loop of the nearest corner that sees the hole's first corner."""
    eye = points[hole[0]]
    rings = [[points[i] for i in ring] for ring in (loop, hole, *waiting)]

    def distance(k: int) -> tuple[int, int]:
        x, y = points[loop[k]]
        return (x - eye[0]) ** 2 + (y - eye[1]) ** 2, k

    for k in sorted(range(len(loop)), key=distance):
        target = points[loop[k]]
        before, after = points[loop[k - 1]], points[loop[(k + 1) % len(loop)]]
        if _opens_to(before, target, after, eye) and not any(_blocks(ring, eye, target) for ring in rings):
            return k
    msg = "a hole lies outside its part, or touches another hole"
    raise ValueError(msg)


def _opens_to(before: Whole, corner: Whole, after: Whole, eye: Whole) -> bool:
    """Whether the inside of a corner looks towards a point."""
    left_of_in, left_of_out = _turn(before, corner, eye) > 0, _turn(corner, after, eye) > 0
    if _turn(before, corner, after) > 0:
        return left_of_in and left_of_out
    return left_of_in or left_of_out


def _blocks(ring: list[Whole], a: Whole, b: Whole) -> bool:
    """Whether a ring touches the open segment from a to b, its ends apart."""
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        if p in (a, b):
            continue
        if _turn(a, b, p) == 0 and _between(a, b, p):
            return True
        if q in (a, b):
            continue
        if _turn(a, b, p) * _turn(a, b, q) < 0 and _turn(p, q, a) * _turn(p, q, b) < 0:
            return True
    return False


def _between(a: Whole, b: Whole, p: Whole) -> bool:
    """Whether a point of the line through a and b lies between them."""
    return min(a[0], b[0]) <= p[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])


def _clip(points: list[Whole], loop: list[int]) -> tuple[Triangle, ...]:
    triangles: list[Triangle] = []
    k = 0
    misses = 0
    while len(loop) > 3:
        k %= len(loop)
        if _is_ear(points, loop, k):
            triangles.append((loop[k - 1], loop[k], loop[(k + 1) % len(loop)]))
            del loop[k]
            misses = 0
        else:
            misses += 1
            k += 1
        if misses > len(loop):
            msg = "the outline of a part crosses itself"
            raise ValueError(msg)
    triangles.append((loop[0], loop[1], loop[2]))
    return tuple(triangles)


def _is_ear(points: list[Whole], loop: list[int], k: int) -> bool:
    a, b, c = points[loop[k - 1]], points[loop[k]], points[loop[(k + 1) % len(loop)]]
    if _turn(a, b, c) <= 0:
        return False
    corners = (a, b, c)
    for i in loop:
        p = points[i]
        if p in corners:
            continue
        if _turn(a, b, p) >= 0 and _turn(b, c, p) >= 0 and _turn(c, a, p) >= 0:
            return False
    return True
