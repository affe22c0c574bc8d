"""Polygons in a plane; the one place that knows the plane-geometry library."""

# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false, reportUnknownArgumentType=false
from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from shapely.geometry.base import BaseGeometry

Ring = tuple[tuple[float, float], ...]
SLIVER = 1.0  # pieces smaller than this are dust [mm2]
RIM = 0.5  # a line this near to the rim of what covers it is still seen [mm]
SPECK = 0.1  # stretches of line shorter than this are dust [mm]


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Ring:
    """Return a rectangle as an anticlockwise ring from its lower left corner."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def cut_out(outline: Ring, holes: Sequence[Ring]) -> tuple[tuple[Ring, tuple[Ring, ...]], ...]:
    """Return what is left of an outline once holes are cut out of it.

    Parameters
    ----------
    outline, holes
        Simple rings [mm].

    Returns
    -------
    tuple of (ring, inner rings)
        The pieces that are left, from left to right and bottom to top; rings run anticlockwise from their lowest,
        leftmost corner. Empty where nothing is left.
    """
    from shapely import Polygon, unary_union
    from shapely.geometry import MultiPolygon

    left = Polygon(outline).difference(unary_union([Polygon(h) for h in holes]))
    parts = left.geoms if isinstance(left, MultiPolygon) else [left]
    pieces = [
        (_ring(p.exterior.coords), tuple(sorted(_ring(i.coords) for i in p.interiors)))
        for p in parts
        if isinstance(p, Polygon) and p.area > SLIVER
    ]
    return tuple(sorted(pieces))


def overlapping(rings: Sequence[Ring], *, least: float) -> tuple[tuple[int, int], ...]:
    """Return pairs of rings, by index and in order, that share more than an area [mm2]."""
    from shapely import Polygon, STRtree

    polygons = [Polygon(ring) for ring in rings]
    pairs = STRtree(polygons).query(polygons, predicate="intersects").T.tolist()
    near = {(int(min(pair)), int(max(pair))) for pair in pairs if pair[0] != pair[1]}
    return tuple(sorted(p for p in near if polygons[p[0]].intersection(polygons[p[1]]).area > least))


def visible_parts(
    lines: Sequence[tuple[int, Ring]], covers: Mapping[int, tuple[Ring, tuple[Ring, ...]]]
) -> tuple[tuple[Ring, ...], ...]:
    """Return what is seen of every line where things are laid down in order and the later ones cover the earlier.

    Parameters
    ----------
    lines
        The number in that order, and the points [mm]; a closed line ends where it begins.
    covers
        Areas that cover, as outline and holes [mm], by their number in that order.

    Returns
    -------
    tuple of tuples of lines
        One a line: the line itself where nothing covers it, its visible stretches along it, or nothing. Along the rim
        of a cover a line is seen.
    """
    from shapely import LineString, Polygon, STRtree, union_all

    numbers = sorted(covers)
    areas = [Polygon(*covers[number]).buffer(-RIM, join_style="mitre") for number in numbers]
    tree = STRtree(areas)
    found: list[tuple[Ring, ...]] = []
    for number, line in lines:
        drawn = LineString(line)
        near = sorted(int(k) for k in tree.query(drawn, predicate="intersects"))
        hiding = [areas[k] for k in near if numbers[k] > number]
        found.append(_stretches(drawn.difference(union_all(hiding))) if hiding else (line,))
    return tuple(found)


def _stretches(left: BaseGeometry) -> tuple[Ring, ...]:
    """Return the lines that a figure is made of, those that follow each other joined."""
    from shapely import LineString, line_merge

    merged = line_merge(left)
    parts = [part for part in getattr(merged, "geoms", (merged,)) if isinstance(part, LineString)]
    return tuple(tuple((float(x), float(y)) for x, y in part.coords) for part in parts if part.length > SPECK)


def area(ring: Ring) -> float:
    """Return the area of a ring, positive where it runs anticlockwise [mm2].

    Examples
    --------
    >>> area(((0, 0), (2, 0), (2, 3), (0, 3)))
    6.0
    """
    total = 0.0
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        total += x0 * y1 - x1 * y0
    return total / 2


def anticlockwise(ring: Ring) -> Ring:
    """Return a ring that runs anticlockwise, turned round where it does not.

    Examples
    --------
    >>> anticlockwise(((0, 0), (0, 3), (2, 0)))
    ((2, 0), (0, 3), (0, 0))
    """
    return ring if area(ring) > 0 else ring[::-1]


def _ring(coords: Iterable[tuple[float, ...]]) -> Ring:
    points = [(float(c[0]), float(c[1])) for c in coords][:-1]
    points = _without_straight(_without_twins(points))
    if area(tuple(points)) < 0:
        points.reverse()
    start = min(range(len(points)), key=lambda i: (points[i][1], points[i][0]))
    return tuple(points[start:] + points[:start])


def _without_twins(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the points without those that repeat the one before them."""
    return [p for i, p in enumerate(points) if abs(p[0] - points[i - 1][0]) + abs(p[1] - points[i - 1][1]) > 1e-6]


def _without_straight(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the points without those on a straight line between their neighbours."""
    kept: list[tuple[float, float]] = []
    count = len(points)
    for i, (x, y) in enumerate(points):
        (ax, ay), (bx, by) = points[i - 1], points[(i + 1) % count]
        if abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) > 1e-6:
            kept.append((x, y))
    return kept
