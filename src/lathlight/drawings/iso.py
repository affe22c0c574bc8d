"""The whole set as a line drawing from the camera's side, a little from above; nearer parts cover those behind.

A parallel view without vanishing points: it shows what belongs where and is not measured from. Its direction is chosen
so that as much finished face as possible is seen. Order of drawing comes from ``lathlight.drawings.order``; lines that
a nearer part hides are left out, so that the drawing reads the same where fills are not shown.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.drawings.moulding_rings import casing_rings, frame_rings
from lathlight.drawings.order import Sight, back_to_front
from lathlight.drawings.outlines import (
    bounds_of,
    cuts_at,
    intervals_without,
    is_inside,
    opening_ring,
    openings_of,
    placed,
    rectangle,
)
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import boxes_overlap, make_text
from lathlight.drawings.views import make_view
from lathlight.geometry import visible_parts

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from lathlight.carpentry import BuiltWall
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.layout import WallLine
    from lathlight.mouldings import Casing
    from lathlight.plan import Plan
    from lathlight.project import SitterBrief, TrimLine

RISE = math.asin(math.tan(math.radians(30)))  # how far an isometric view looks down [rad]: ISO 5456-3, from memory
TURNS = tuple(math.radians(turn) for turn in (0, 12, -12, 25, -25, 40, -40))
EDGE_ON = 0.1  # share of a face's width on the drawing under which it is as good as hidden
SQUARE_ON = 0.9  # and over which a wall begins to look flat
LABEL_HEIGHTS = (0.82, 0.7, 0.6, 0.5, 0.4, 0.3)  # where a wall's mark is tried, as shares of its height
LABEL_CLEAR = 8.0  # from a trim line to a mark [mm of paper]
LABEL_PLACES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
LABEL_OFF = 1.0  # from a mark to a seam or an edge [mm of paper]
SEATED = 0.52  # sitting height as a share of stature: common practice, no source
SEAT = 450.0  # height of a seat [mm]: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wall:
    """One wall with what is drawn on it."""

    built: BuiltWall
    line: WallLine
    trim: tuple[TrimLine, ...]
    casings: tuple[Casing, ...]
    frames: tuple[tuple[Ring, Ring], ...]  # moulding frames, outer and inner edge, as (along, z)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Solid:
    """An upright thing: its outline in plan, and what is drawn of it."""

    ring: Ring
    items: tuple[Item, ...]
    cover: Ring  # what it hides on the drawing, roughly


def set_view(plan: Plan, *, scale: float) -> View:
    """Return the line drawing of the set with sitters' stand-ins."""
    return set_views(plan)(scale)


def set_views(plan: Plan) -> Callable[[float], View]:
    """Return how to draw the set at any scale: all but its words is worked out once."""
    sight = choose_sight(plan)
    walls = [
        _Wall(
            built=built,
            line=line,
            trim=brief.trim,
            casings=tuple(casing for casing in plan.casings if casing.wall == built.name),
            frames=tuple(frame_rings(plan, built.name)),
        )
        for built, line, brief in zip(plan.walls, plan.layout.walls, plan.brief.walls, strict=True)
    ]
    solids = [solid for wall in walls for solid in (_sheets(wall, sight), _frame(wall, sight))]
    solids += [_stand_in(sitter, sight) for sitter in plan.brief.sitters]
    order = back_to_front([solid.ring for solid in solids], sight)
    seen = _without_hidden([*_floor(plan, sight), *(item for index in order for item in solids[index].items)])
    nearer = [
        [solids[i].cover for i in order[order.index(2 * number) + 1 :] if i not in (2 * number, 2 * number + 1)]
        for number in range(len(walls))
    ]

    def draw(scale: float) -> View:
        labels = [
            label for wall, later in zip(walls, nearer, strict=True) for label in _labels(wall, sight, later, scale)
        ]
        return make_view(name="set", title="The set from the camera's side", scale=scale, items=[*seen, *labels])

    return draw


def _floor(plan: Plan, sight: Sight) -> list[Item]:
    """Return the outline of the floor covering."""
    if plan.floor is None:
        return []
    rise = plan.brief.floor.rise
    return [Path(points=tuple(sight.flat(p, rise) for p in plan.floor.outline), closed=True, pen=Pen.LIGHT)]


def _without_hidden(items: Sequence[Item]) -> list[Item]:
    """Return lines and paths in the same order, their strokes only where no later fill covers them."""
    strokes = [(number, ring) for number, item in enumerate(items) for ring in _strokes(item)]
    covers = {
        number: (item.points, item.holes)
        for number, item in enumerate(items)
        if isinstance(item, Path) and item.fill is not None
    }
    parts: dict[int, list[tuple[Ring, ...]]] = {}
    for (number, _), seen in zip(strokes, visible_parts(strokes, covers), strict=True):
        parts.setdefault(number, []).append(seen)
    found: list[Item] = []
    for number, item in enumerate(items):
        whole = parts.get(number, []) == [(ring,) for ring in _strokes(item)]
        found += [item] if whole else _broken(item, [part for seen in parts[number] for part in seen])
    return found


def _strokes(item: Item) -> list[Ring]:
    """Return the lines that a pen draws of an item; closed ones end where they begin."""
    if isinstance(item, Line):
        return [(item.a, item.b)]
    if isinstance(item, Path) and item.pen is not None:
        return [(*ring, ring[0]) if item.closed else ring for ring in (item.points, *item.holes)]
    return []


def _broken(item: Item, parts: Sequence[Ring]) -> list[Item]:
    """Return an item's fill, if it has any, and what is left of its strokes."""
    assert isinstance(item, Line | Path)
    found: list[Item] = [replace(item, pen=None)] if isinstance(item, Path) and item.fill is not None else []
    return [*found, *(Path(points=part, closed=False, pen=item.pen) for part in parts)]


def set_size(plan: Plan) -> Point:
    """Return how wide and high the set is drawn, words and sitters left out [mm]."""
    sight = choose_sight(plan)
    points = [
        sight.flat(line.at(along=along, behind=0.0), z)
        for line in plan.layout.walls
        for along in (0.0, line.length)
        for z in (0.0, line.height)
    ]
    x0, y0, x1, y1 = bounds_of(points)
    return x1 - x0, y1 - y0


def choose_sight(plan: Plan) -> Sight:
    """Return the direction of view that shows most of the finished faces.

    Straight from the front is kept where another is hardly better; of equal views, the first of ``TURNS``.
    """
    return max(
        (Sight(turn=turn, rise=RISE) for turn in TURNS),
        key=lambda sight: round(sum(_seen(line, sight) for line in plan.layout.walls) * _favour(sight), 3),
    )


def _favour(sight: Sight) -> float:
    return 1.05 if sight.turn == 0 else 1.0


def _seen(line: WallLine, sight: Sight) -> float:
    """Return how well a wall's finished face is seen, by its length [m]; less than nothing where its back is."""
    towards = -sight.away(_front(line))
    if towards < EDGE_ON:
        return -line.length / 1000
    return line.length / 1000 * min(towards, SQUARE_ON - 2 * (towards - SQUARE_ON))


def _in_view(ring: Iterable[Point], line: WallLine, behind: float, sight: Sight) -> Ring:
    """Return points (along, z) of a plane parallel to a wall as they are drawn."""
    return tuple(sight.flat(line.at(along=along, behind=behind), z) for along, z in ring)


def _sheets(wall: _Wall, sight: Sight) -> _Solid:
    """Return a wall's sheets with seams, openings and trim lines."""
    built, line = wall.built, wall.line
    pieces = [piece for flat in built.flats for piece in flat.pieces]
    xs = [x for piece in pieces for x, _ in piece.outline]
    t = pieces[0].sheet.thickness
    ring = placed(rectangle(min(xs), 0.0, max(xs), t), line)
    front = sight.faces(_front(line))
    depth = 0.0 if front else t
    tone = _tone(line, sight) if front else Tone.MID
    items = _prism(ring, built.height, sight, skip=(0, 2))
    for piece in pieces:
        holes = tuple(_in_view(hole, line, depth, sight) for hole in piece.holes)
        items.append(
            Path(points=_in_view(piece.outline, line, depth, sight), closed=True, pen=Pen.LIGHT, fill=tone, holes=holes)
        )
    if front:
        items += _face_lines(wall, (min(xs), max(xs)), sight)
    cover = _in_view(rectangle(min(xs), 0.0, max(xs), built.height), line, depth, sight)
    return _Solid(ring=ring, items=tuple(items), cover=cover)


def _face_lines(wall: _Wall, ends: tuple[float, float], sight: Sight) -> list[Item]:
    """Return the strong edges of a finished face, its openings, trim lines, moulding frames and casing."""
    built, line = wall.built, wall.line
    openings = openings_of(built)
    outline = _in_view(rectangle(ends[0], 0.0, ends[1], built.height), line, 0.0, sight)
    items: list[Item] = [Path(points=outline, closed=True, pen=Pen.OUTLINE)]
    for opening in openings:
        ring = _in_view(opening_ring(opening), line, 0.0, sight)
        items.append(Path(points=ring, closed=True, pen=Pen.OUTLINE))
        for piece in opening.lining:
            if piece.side != "arch":
                box = rectangle(piece.x, piece.z, piece.x + piece.wide, piece.z + piece.high)
                edge = _in_view(box, line, 0.0, sight)
                items.append(Path(points=edge, closed=True, pen=Pen.LIGHT, fill=Tone.WHITE))
    for trim in wall.trim:
        for z in (trim.bottom, trim.top):
            cased = [(p.x0, p.x1) for c in wall.casings for p in (*c.pieces, *c.blocks) if p.z0 <= z <= p.z1]
            items += _level_lines(ends, z, line, [*cuts_at(openings, z, rough=False), *cased], sight)
    edges = [*(ring for frame in wall.frames for ring in frame), *casing_rings(wall.casings)]
    items += [Path(points=_in_view(ring, line, 0.0, sight), closed=True, pen=Pen.LIGHT) for ring in edges]
    blocks = [rectangle(b.x0, b.z0, b.x1, b.z1) for casing in wall.casings for b in casing.blocks]
    tone = _tone(line, sight)
    items += [Path(points=_in_view(ring, line, 0.0, sight), closed=True, pen=Pen.LIGHT, fill=tone) for ring in blocks]
    return items


def _level_lines(
    ends: tuple[float, float], z: float, line: WallLine, holes: Sequence[tuple[float, float]], sight: Sight
) -> list[Line]:
    if z <= 0:
        return []
    found: list[Line] = []
    for a, b in intervals_without(ends, holes):
        start, end = _in_view(((a, z), (b, z)), line, 0.0, sight)
        found.append(Line(a=start, b=end, pen=Pen.LIGHT))
    return found


def _frame(wall: _Wall, sight: Sight) -> _Solid:
    """Return a wall's frames as one closed box with the reveals of its openings."""
    built, line = wall.built, wall.line
    x0, x1 = min(f.x0 for f in built.flats), max(f.x1 for f in built.flats)
    front = built.flats[0].sheet.thickness
    back = front + max(f.stock.depth for f in built.flats)
    ring = placed(rectangle(x0, front, x1, back), line)
    items = _prism(ring, built.height, sight, skip=(0, 2))
    openings = [opening_ring(opening) for opening in openings_of(built)]
    for opening in openings:
        items += _reveals(opening, line, back, sight)
    if not sight.faces(_front(line)):
        face = _in_view(rectangle(x0, 0.0, x1, built.height), line, back, sight)
        holes = tuple(_in_view(opening, line, back, sight) for opening in openings)
        items.append(Path(points=face, closed=True, pen=Pen.OUTLINE, fill=Tone.MID, holes=holes))
    cover = _in_view(rectangle(x0, 0.0, x1, built.height), line, back, sight)
    return _Solid(ring=ring, items=tuple(items), cover=cover)


def _prism(ring: Ring, height: float, sight: Sight, *, skip: tuple[int, ...]) -> list[Item]:
    """Return the top and the visible upright sides of a box, without the sides named in ``skip``."""
    items: list[Item] = []
    for index, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True)):
        if index not in skip and sight.faces((b[1] - a[1], a[0] - b[0])):
            side = (sight.flat(a, 0.0), sight.flat(b, 0.0), sight.flat(b, height), sight.flat(a, height))
            items.append(Path(points=side, closed=True, pen=Pen.OUTLINE, fill=Tone.PALE))
    top = tuple(sight.flat(p, height) for p in ring)
    items.append(Path(points=top, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE))
    return items


def _reveals(ring: Ring, line: WallLine, depth: float, sight: Sight) -> list[Item]:
    """Return the inner sides of an opening that the eye sees."""
    items: list[Item] = []
    for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True):
        length = math.hypot(bx - ax, bz - az)
        along, up = (az - bz) / length, (bx - ax) / length  # into the opening
        dx, dy = line.direction
        towards = -sight.away((along * dx, along * dy)) * math.cos(sight.rise) + up * math.sin(sight.rise)
        if towards > 1e-6 and max(az, bz) > 0:
            near = _in_view(((ax, az), (bx, bz)), line, 0.0, sight)
            far = _in_view(((bx, bz), (ax, az)), line, depth, sight)
            pen = Pen.LIGHT if length > 150 else None
            items.append(Path(points=(*near, *far), closed=True, pen=pen, fill=Tone.PALE))
    return items


def _stand_in(sitter: SitterBrief, sight: Sight) -> _Solid:
    """Return the plain figure that stands for the sitter, turned to the eye."""
    place = (sitter.right, -sitter.forward)
    tall = sitter.stature * SEATED + SEAT if sitter.seated else sitter.stature
    unit = sitter.stature / 8  # a head
    across, foot = sight.flat(place, 0.0)
    up = math.cos(sight.rise)
    body = ((-0.55, 0.0), (0.55, 0.0), (0.6, 0.5), (0.95, 0.8), (0.6, 0.84), (0.22, 0.86), (0.22, 0.88))
    ring = (*body, *((-x, share) for x, share in reversed(body[2:])))
    outline = tuple((across + x * unit, foot + share * tall * up) for x, share in ring)
    head = tuple(
        (
            across + 0.4 * unit * math.cos(k * math.pi / 10),
            foot + (tall - unit / 2) * up + 0.5 * unit * up * math.sin(k * math.pi / 10),
        )
        for k in range(20)
    )
    c, s = math.cos(sight.turn), math.sin(sight.turn)
    half = 0.9 * unit
    square = tuple(
        (place[0] + a * half * c - b * 0.3 * half * s, place[1] + a * half * s + b * 0.3 * half * c)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    items = tuple(Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE) for ring in (outline, head))
    x0, y0, x1, y1 = bounds_of((*outline, *head))
    return _Solid(ring=square, items=items, cover=rectangle(x0, y0, x1, y1))


def _labels(wall: _Wall, sight: Sight, later: Sequence[Ring], scale: float) -> list[Text]:
    """Return a wall's mark where nothing nearer covers it; none where its face is not seen."""
    if not sight.faces(_front(wall.line)):
        return []
    line, built = wall.line, wall.built
    face = _in_view(rectangle(0.0, 0.0, built.length, built.height), line, 0.0, sight)
    openings = [_in_view(opening_ring(opening), line, 0.0, sight) for opening in openings_of(built)]
    lines = [z / built.height for trim in wall.trim for z in (trim.bottom, trim.top)]
    clear = [up for up in LABEL_HEIGHTS if all(abs(up - z) * built.height > LABEL_CLEAR * scale for z in lines)]
    spots = [
        sight.flat(line.at(along=share * built.length, behind=0.0), up * built.height)
        for up in clear or LABEL_HEIGHTS
        for share in LABEL_PLACES
    ]
    texts = [make_text(built.mark, at=at, scale=scale, size=5.0, align="centre", bold=True) for at in spots]
    shown = [
        text
        for text in texts
        if all(is_inside(corner, face) for corner in text.box)
        and not any(boxes_overlap(text.box, cover) for cover in (*openings, *later))
    ]
    edges = _drawn_edges(wall, sight)
    clean = (t for t in shown if not any(boxes_overlap(t.box, edge, slack=-LABEL_OFF * scale) for edge in edges))
    best = next(clean, None)
    if best is None and shown:  # on as few lines as can be, with the paper's white under it
        fewest = min(shown, key=lambda text: sum(boxes_overlap(text.box, edge) for edge in edges))
        best = replace(fewest, backed=True)
    return [] if best is None else [best]


def _drawn_edges(wall: _Wall, sight: Sight) -> list[Ring]:
    """Return the edges of a wall's sheet pieces, trim lines and mouldings as they are drawn, each as its two ends."""
    rings = [piece.outline for flat in wall.built.flats for piece in flat.pieces]
    rings += [*(outer for outer, _ in wall.frames), *casing_rings(wall.casings)]
    pairs = [pair for ring in rings for pair in zip(ring, (*ring[1:], ring[0]), strict=True)]
    pairs += [((0.0, z), (wall.built.length, z)) for trim in wall.trim for z in (trim.bottom, trim.top)]
    return [_in_view(pair, wall.line, 0.0, sight) for pair in pairs]


def _front(line: WallLine) -> Point:
    """Return the direction that a wall's finished face looks to."""
    dx, dy = line.direction
    return dy, -dx


def _tone(line: WallLine, sight: Sight) -> Tone:
    """Return the fill of a finished face: lighter on the left-hand side of the eye."""
    dx, dy = line.direction
    leaning = sight.across((dy, -dx))
    return Tone.WHITE if leaning > -0.2 else Tone.FAINT
