"""Outlines of the set's parts in plan and in elevation: polygons only, no pens.

What is drawn of a sheet, a frame or a member at a given height is decided here, so that the room plan, the corner
details and the line drawing of the set show the same parts. Where parts lie is decided by the carpentry.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import BuiltWall, Flat, FramedOpening, Member, SheetPiece
    from lathlight.drawings.sheets import Point
    from lathlight.layout import WallLine
    from lathlight.plan import Plan

Ring = tuple["Point", ...]
Interval = tuple[float, float]
THIN = 1e-6
ARC_STEPS = 16  # straight pieces that stand for an arch


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Ring:
    """Return the corners of an upright rectangle, anticlockwise from its lower left corner."""
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def bounds_of(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """Return the least and greatest coordinates: x0, y0, x1, y1."""
    listed = list(points)
    xs, ys = [p[0] for p in listed], [p[1] for p in listed]
    return min(xs), min(ys), max(xs), max(ys)


def placed(ring: Sequence[Point], line: WallLine) -> Ring:
    """Return a ring given as (along, behind) of one wall in set axes."""
    return tuple(line.at(along=along, behind=behind) for along, behind in ring)


def clipped(ring: Sequence[Point], low: float, high: float) -> Ring:
    """Return the part of a convex ring between two values of its first coordinate; empty where nothing is left."""
    kept = _clip(_clip(tuple(ring), low, 1), high, -1)
    return kept if len(kept) > 2 else ()


def _clip(ring: Ring, limit: float, sign: int) -> Ring:
    """Return what of a convex ring lies at or above a limit of its first coordinate; below it where sign is -1."""
    if math.isinf(limit):
        return ring
    kept: list[Point] = []
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        if sign * (ax - limit) >= 0:
            kept.append((ax, ay))
        if (ax - limit) * (bx - limit) < 0:
            kept.append((limit, ay + (by - ay) * (limit - ax) / (bx - ax)))
    return tuple(kept)


def intervals_without(whole: Interval, holes: Iterable[Interval]) -> tuple[Interval, ...]:
    """Return what is left of an interval once holes are taken out, in order.

    Examples
    --------
    >>> intervals_without((0, 10), [(2, 3), (8, 12)])
    ((0, 2), (3, 8))
    """
    left: list[Interval] = []
    start = whole[0]
    for low, high in sorted(holes):
        if low > start + THIN:
            left.append((start, min(low, whole[1])))
        start = max(start, high)
        if start >= whole[1]:
            break
    if start < whole[1] - THIN:
        left.append((start, whole[1]))
    return tuple(piece for piece in left if piece[1] - piece[0] > THIN)


def piece_plan(piece: SheetPiece) -> Ring:
    """Return a sheet piece in plan as (along, behind), bevels included."""
    x0, _, x1, _ = bounds_of(piece.outline)
    t = piece.sheet.thickness
    return (x0, 0.0), (x1, 0.0), (x1 + piece.bevel_right, t), (x0 - piece.bevel_left, t)


def member_plan(member: Member) -> Ring:
    """Return a member in plan as (along, behind): its own section, or a rectangle."""
    if member.section is not None:
        return member.section
    return rectangle(member.x, member.behind, member.x + member.wide, member.behind + member.deep)


def openings_of(wall: BuiltWall) -> tuple[FramedOpening, ...]:
    """Return the openings of all flats of a wall, each once, left to right."""
    found = {opening.name: opening for flat in wall.flats for opening in flat.openings}
    return tuple(sorted(found.values(), key=lambda o: (o.clear[0], o.name)))


def clear_size(opening: FramedOpening, *, floor: float) -> tuple[float, float]:
    """Return clear width and height [mm]; what runs to the foot of the flats is clear over the finished floor alone.

    Parameters
    ----------
    opening
        The opening, in wall axes.
    floor
        Height of the finished floor above the foot of the flats [mm].
    """
    _, sill, width, height = opening.clear
    return width, height - (floor - sill if sill < floor else 0.0)


def opening_ring(opening: FramedOpening) -> Ring:
    """Return the clear outline of an opening as (x, z), anticlockwise from its lower left corner."""
    x, z, w, h = opening.clear
    if opening.radius is None:
        return rectangle(x, z, x + w, z + h)
    return (x, z), (x + w, z), *_arc(opening)


def _arc(opening: FramedOpening) -> Ring:
    """Return the arch from its right springing to its left one."""
    x, z, w, h = opening.clear
    radius = opening.radius or w / 2
    middle, centre = x + w / 2, z + h - radius
    half = math.asin(min(1.0, w / 2 / radius))
    if opening.rise > radius:
        half = math.pi - half
    turns = [half - 2 * half * k / ARC_STEPS for k in range(ARC_STEPS + 1)]
    return tuple((middle + radius * math.sin(turn), centre + radius * math.cos(turn)) for turn in turns)


def arch_up(opening: FramedOpening, x: float) -> float:
    """Return how high the sheet's edge lies over an arch at a place along the wall [mm]."""
    left, z, w, h = opening.rough
    radius, centre = _hole_circle(opening)
    return min(centre + math.sqrt(max(radius**2 - (x - left - w / 2) ** 2, 0.0)), z + h)


def arch_across(opening: FramedOpening, z: float) -> float | None:
    """Return half the width of the hole in the sheets at a height over an arch's springing [mm]; None elsewhere."""
    _, low, _, h = opening.rough
    radius, centre = _hole_circle(opening)
    spring = low + h - _hole_rise(opening)
    return math.sqrt(max(radius**2 - (z - centre) ** 2, 0.0)) if spring <= z <= low + h else None


def _hole_rise(opening: FramedOpening) -> float:
    """Return the rise of the hole in the sheets: the arch's own and what lies between the two crowns [mm]."""
    (_, z, _, h), (_, rough_z, _, rough_h) = opening.clear, opening.rough
    return opening.rise + rough_z + rough_h - z - h


def _hole_circle(opening: FramedOpening) -> tuple[float, float]:
    """Return the radius of the hole's arch and the height of its centre [mm]: intersecting chords."""
    _, z, w, h = opening.rough
    rise = _hole_rise(opening)
    radius = (w**2 / 4 + rise**2) / (2 * rise)
    return radius, z + h - radius


def is_inside(point: Point, ring: Sequence[Point]) -> bool:
    """Return True where a point lies in a polygon (even-odd rule)."""
    inside = False
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (ay > point[1]) != (by > point[1]) and point[0] < ax + (bx - ax) * (point[1] - ay) / (by - ay):
            inside = not inside
    return inside


def cuts_at(openings: Iterable[FramedOpening], height: float, *, rough: bool) -> tuple[Interval, ...]:
    """Return the stretches along a wall that are open at a height; rough or clear."""
    sizes = [opening.rough if rough else opening.clear for opening in openings]
    return tuple((x, x + w) for x, z, w, h in sizes if z <= height < z + h)


def sheet_plan(wall: BuiltWall, height: float) -> tuple[Ring, ...]:
    """Return the wall's sheets cut at a height, as rings of (along, behind); what is cut out of them is left out."""
    return tuple(
        ring for flat in wall.flats for piece in flat.pieces for ring in _parts(piece_plan(piece), _cut(piece, height))
    )


def frame_plan(wall: BuiltWall, height: float) -> tuple[tuple[Flat, Ring], ...]:
    """Return every flat's frame cut at a height, as rings of (along, behind); openings are left out."""
    found: list[tuple[Flat, Ring]] = []
    holes = cuts_at(openings_of(wall), height, rough=True)
    for flat in wall.flats:
        if flat.z0 <= height < flat.z1:
            front = flat.sheet.thickness
            ring = rectangle(flat.x0, front, flat.x1, front + flat.stock.depth)
            found += [(flat, part) for part in _without(ring, holes)]
    return tuple(found)


def set_points(plan: Plan) -> Ring:
    """Return the corners of all sheets and frames in plan, set axes [mm]."""
    points: list[Point] = []
    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for flat in wall.flats:
            depth = flat.sheet.thickness + flat.stock.depth
            points += placed(rectangle(flat.x0, flat.sheet.thickness, flat.x1, depth), line)
            for piece in flat.pieces:
                points += placed(piece_plan(piece), line)
    return tuple(points)


def _cut(piece: SheetPiece, height: float) -> tuple[Interval, ...]:
    """Return the stretches along the wall where a piece is met at a height; none where it lies higher or lower."""
    crossings: list[float] = []
    for ring in (piece.outline, *piece.holes):
        for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (az <= height) != (bz <= height):
                crossings.append(ax + (bx - ax) * (height - az) / (bz - az))
    crossings.sort()
    return tuple(zip(crossings[::2], crossings[1::2], strict=True))


def _without(ring: Ring, holes: Sequence[Interval]) -> tuple[Ring, ...]:
    """Return a four-cornered ring less the stretches along the wall that are open."""
    xs = [x for x, _ in ring]
    return _parts(ring, intervals_without((min(xs), max(xs)), holes))


def _parts(ring: Ring, stretches: Sequence[Interval]) -> tuple[Ring, ...]:
    """Return the parts of a four-cornered ring along some stretches; its own ends keep their slant."""
    (x0, y0), (x1, _), (bx1, y1), (bx0, _) = ring
    rings: list[Ring] = []
    for a, b in stretches:
        left = (x0, bx0) if a <= max(x0, bx0) + THIN else (a, a)
        right = (x1, bx1) if b >= min(x1, bx1) - THIN else (b, b)
        rings.append(((left[0], y0), (right[0], y0), (right[1], y1), (left[1], y1)))
    return tuple(rings)
