"""Plan of the set in its room, cut level: walls, doors, what must stay free, sitters, cameras, and the way in.

Drawn in the room's axes with the camera's side below. Where the set stands and which flat passes where is decided by
the layout and the passage checks.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.dims import level_chains, overall, upright_chains
from lathlight.drawings.hatch import hatch
from lathlight.drawings.labels import Taken, arrow, words_in
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import bounds_of, frame_plan, intervals_without, placed, set_points, sheet_plan
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.tables import Column
from lathlight.drawings.text import NOTE_SIZE, make_text
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.layout import Pose
    from lathlight.passage import FlatPassage, Passing
    from lathlight.plan import Plan
    from lathlight.project import ClearArea, DoorBrief, Passage, PictureBrief, SitterBrief
    from lathlight.units import LengthStyle

CUT_HEIGHT = 1200.0  # [mm] about 4 ft above the floor, common practice for plans of sets
SHELL = 2.5  # thickness that stands for the room's walls [mm of paper]
SPARSE = 3.2  # between hatch lines of what must stay free [mm of paper]
MARK = 150.0  # half the size of a sitter's mark [mm]
CAMERA = 1.6  # half the size of a camera [mm of paper]
CAMERA_SHAPE = ((-1, -1.2), (1, -1.2), (1, 0), (0.5, 0), (0.5, 0.8), (-0.5, 0.8), (-0.5, 0), (-1, 0))  # lens ahead
ARC_STEPS = 12
POINTER = 12.0  # length of the arrow that shows where the camera looks [mm of paper]


def room_view(plan: Plan, *, scale: float) -> View:
    """Return the plan of the room with the set in it."""
    items: list[Item] = [*_shell(plan, scale)]
    for area in plan.brief.room.keep_clear:
        items += _area(area, scale, keep_clear=True)
    for area in plan.brief.room.pillars:
        items += _area(area, scale, keep_clear=False)
    items += _pictures(plan, scale)
    items += _walls(plan)
    items += _axis(plan)
    items += _sitters(plan)
    taken = Taken(items, scale=scale)
    items += _wall_lengths(plan, taken, scale)
    items += _sitter_places(plan, taken, scale)
    items += _names(plan, taken, scale)
    items += _doors(plan, taken, scale)
    items += _distances(plan, items, scale)
    items += _pointer(plan, items, scale)
    return make_view(name="room", title="Plan in the room", scale=scale, items=items)


def way_in_listing(plan: Plan) -> Listing:
    """Return what every flat has to pass on its way in, and which ones do."""
    style = plan.brief.style
    columns = (
        Column(heading="On the way in", width=42),
        Column(heading="Clear width × height", width=38),
        Column(heading="Flats", width=85),
    )
    room = plan.brief.room
    sizes = {door.name: _clear(door.clear_width, door.clear_height, style) for door in room.doors}
    sizes |= {stage.name: _stage_size(stage, style) for stage in room.way_in}
    rows = [
        (name, sizes.get(name, ""), _who_passes([(p, _at(p, name)) for p in plan.passages], plan, style))
        for name in _stage_names(plan.passages)
    ]
    ceiling = drawing_length(plan.brief.room.ceiling, style=style)
    raised = _who_passes([(p, p.raises) for p in plan.passages], plan, style)
    rows.append(("stood up in the room", f"under {ceiling}", raised))
    return Listing(title="The way in", columns=columns, rows=tuple(rows))


def places_listing(plan: Plan) -> Listing | None:
    """Return where sitters stand and where the camera stands for every picture, or None where none is planned."""
    style = plan.brief.style
    rows = [(sitter.name, _place_words(sitter, style)) for sitter in plan.brief.sitters]
    rows += [(f"camera: {picture.name}", _camera_words(picture, style)) for picture in plan.brief.pictures]
    columns = (Column(heading="Mark", width=60), Column(heading="Place", width=105))
    return Listing(title="Places on the floor", columns=columns, rows=tuple(rows)) if rows else None


def _place_words(sitter: SitterBrief, style: LengthStyle) -> str:
    """Return where a sitter stands, from the set's face and axis."""
    side = "right" if sitter.right > 0 else "left"
    beside = f"{drawing_length(abs(sitter.right), style=style)} {side} of the axis"
    ahead = drawing_length(sitter.forward, style=style)
    return f"{ahead} in front of the face, {'on the axis' if abs(sitter.right) < 1.0 else beside}"


def _camera_words(picture: PictureBrief, style: LengthStyle) -> str:
    """Return how far the camera stands from the sitter and at which angles, at the longest lens."""
    angles = " to ".join(format_angle(angle) for angle in sorted(set(picture.angles)))
    far = drawing_length(camera_distance(picture), style=style)
    return f"{far} from {picture.sitter.name} at {max(picture.lens):g} mm, at {angles} from the axis (right +)"


def room_notes(plan: Plan) -> tuple[str, ...]:
    """Return what holds for the whole plan of the room."""
    style = plan.brief.style
    ceiling = drawing_length(plan.brief.room.ceiling, style=style)
    cut = drawing_length(_cut_height(plan), style=style)
    notes = [f"Least clear height under the ceiling {ceiling}. Walls are cut {cut} above the floor."]
    notes += [
        f"Keep {area.name} clear{f' ({area.why})' if area.why and area.why != area.name else ''}."
        for area in plan.brief.room.keep_clear
    ]
    return tuple(notes)


def _cut_height(plan: Plan) -> float:
    return min(CUT_HEIGHT, *(wall.height / 2 for wall in plan.walls))


def _stage_size(stage: Passage, style: LengthStyle) -> str:
    size = _clear(stage.clear_width, stage.clear_height, style)
    if stage.next_width is not None:
        return f"{size}, then {drawing_length(stage.next_width, style=style)} wide"
    return size


def _clear(width: float, height: float, style: LengthStyle) -> str:
    return f"{drawing_length(width, style=style)} × {drawing_length(height, style=style)}"


def _stage_names(passages: Sequence[FlatPassage]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(stage.through for passage in passages for stage in passage.stages))


def _at(passage: FlatPassage, name: str) -> Passing | None:
    return next((stage for stage in passage.stages if stage.through == name), None)


def _who_passes(found: Sequence[tuple[FlatPassage, Passing | None]], plan: Plan, style: LengthStyle) -> str:
    """Return in words which flats pass one stage."""
    marks = {flat.id: flat.mark for flat in plan.flats}
    fails = [
        f"{marks[passage.flat]} ({drawing_length(passing.figure, style=style)}, at most "
        f"{drawing_length(passing.limit, style=style)})"
        for passage, passing in found
        if passing is not None and not passing.passes
    ]
    hows = list(dict.fromkeys(passing.how for _, passing in found if passing is not None and passing.passes))
    if not fails:
        return f"all pass: {'; '.join(hows)}" if hows else "all pass"
    return f"does not pass: {', '.join(fails)}"


# --- the room ----------------------------------------------------------------------------------------------------


def _shell(plan: Plan, scale: float) -> list[Item]:
    """Return the room's walls with gaps at its doors."""
    room = plan.brief.room
    outline = room.outline
    outer = _offset(outline, SHELL * scale)
    items: list[Item] = []
    for (a, b), (c, d) in zip(_sides(outline), _sides(outer), strict=True):
        length = math.dist(a, b)
        gaps = [gap for door in room.doors if (gap := _gap_on(a, b, door)) is not None]
        for low, high in intervals_without((0.0, length), gaps):
            inner = _between(a, b, low / length), _between(a, b, high / length)
            out = _outer_point(a, b, c, d, low), _outer_point(a, b, c, d, high)
            ring = (*inner, out[1], out[0])
            items.append(hatch(ring, scale=scale))
            items.append(Line(a=inner[0], b=inner[1], pen=Pen.CUT))
            edges = [out, *_jambs(inner, out, low, high, length)]
            items += [Line(a=p, b=q, pen=Pen.LIGHT) for p, q in edges]
    return items


def _jambs(
    inner: tuple[Point, Point], out: tuple[Point, Point], low: float, high: float, length: float
) -> list[tuple[Point, Point]]:
    """Return the ends of a stretch of wall that lie at a door."""
    ends: list[tuple[Point, Point]] = []
    if low > 0:
        ends.append((inner[0], out[0]))
    if high < length:
        ends.append((inner[1], out[1]))
    return ends


def _outer_point(a: Point, b: Point, c: Point, d: Point, along: float) -> Point:
    """Return the outer face's point beside a place of the inner face; its own corner at the ends."""
    length = math.dist(a, b)
    if along <= 0:
        return c
    if along >= length:
        return d
    foot = _between(a, b, along / length)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    deep = (c[0] - a[0]) * uy - (c[1] - a[1]) * ux
    return foot[0] + uy * deep, foot[1] - ux * deep


def _sides(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _offset(ring: Sequence[Point], out: float) -> Ring:
    """Return an anticlockwise outline moved outwards with mitred corners."""
    found: list[Point] = []
    for index, point in enumerate(ring):
        before, after = ring[index - 1], ring[(index + 1) % len(ring)]
        n1, n2 = _outward(before, point), _outward(point, after)
        share = max(1 + n1[0] * n2[0] + n1[1] * n2[1], 0.2)
        found.append((point[0] + out * (n1[0] + n2[0]) / share, point[1] + out * (n1[1] + n2[1]) / share))
    return tuple(found)


def _outward(a: Point, b: Point) -> Point:
    """Return the unit vector to the right of the way from a to b: out of an anticlockwise outline."""
    length = math.dist(a, b)
    return (b[1] - a[1]) / length, (a[0] - b[0]) / length


def _gap_on(a: Point, b: Point, door: DoorBrief) -> tuple[float, float] | None:
    """Return the stretch of a side that a door takes, or None where it is in another side."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    places: list[float] = []
    for px, py in (door.a, door.b):
        if abs((px - a[0]) * uy - (py - a[1]) * ux) > 1.0:
            return None
        places.append((px - a[0]) * ux + (py - a[1]) * uy)
    low, high = sorted(places)
    return (low, high) if low > -1.0 and high < length + 1.0 else None


def _doors(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return every door's leaf, swing, name and clear size."""
    items: list[Item] = []
    style = plan.brief.style
    for door in plan.brief.room.doors:
        side = next((s for s in _sides(plan.brief.room.outline) if _gap_on(*s, door) is not None), None)
        if side is None:
            continue
        nx, ny = _outward(*side)
        items += _swing(door, (-nx, -ny))
        size = _clear(door.clear_width, door.clear_height, style)
        middle = _between(door.a, door.b, 0.5)
        align = "centre" if abs(ny) > abs(nx) else "right" if nx < 0 else "left"
        step = 1.3 * NOTE_SIZE * scale
        out = (SHELL + 2) * scale
        first = middle[1] + ny * out - (NOTE_SIZE * scale if ny < -0.5 else -step if ny > 0.5 else 0.0)
        for number, words in enumerate((door.name, f"{size} clear")):
            texts = (
                make_text(words, at=(x, first - number * step), scale=scale, align=align)
                for x in (middle[0] + nx * (out + k * scale) for k in range(0, 30, 3))
            )
            text = taken.first_free(texts)
            items += [text] if text else []
    return items


def _swing(door: DoorBrief, inward: Point) -> list[Item]:
    """Return a leaf that stands open into the room, and the arc it goes through."""
    wide = math.dist(door.a, door.b)
    (ax, ay), (bx, by) = door.a, door.b
    along = (bx - ax) / wide, (by - ay) / wide
    arc = tuple(
        (
            ax + wide * (math.cos(turn) * along[0] + math.sin(turn) * inward[0]),
            ay + wide * (math.cos(turn) * along[1] + math.sin(turn) * inward[1]),
        )
        for turn in (k * math.pi / 2 / ARC_STEPS for k in range(ARC_STEPS + 1))
    )
    return [
        Line(a=door.a, b=arc[-1], pen=Pen.OUTLINE),
        Path(points=arc, closed=False, pen=Pen.LIGHT),
    ]


def _area(area: ClearArea, scale: float, *, keep_clear: bool) -> list[Item]:
    """Return a pillar or a place that must stay free, with its name."""
    x0, y0, x1, y1 = bounds_of(area.outline)
    items: list[Item] = [
        hatch(
            area.outline,
            scale=scale,
            spacing=SPARSE if keep_clear else 1.0,
            angle=3 * math.pi / 4 if keep_clear else math.pi / 4,
        ),
        Path(points=area.outline, closed=True, pen=Pen.OVERHEAD if keep_clear else Pen.CUT),
    ]
    lines = (area.name, "keep clear") if keep_clear else (area.name,)
    return [*items, *words_in(lines, low=(x0, y0), high=(x1, y1), scale=scale)]


# --- the set -----------------------------------------------------------------------------------------------------


def _walls(plan: Plan) -> list[Item]:
    """Return sheets and frames at true thickness where the plan is cut."""
    height = _cut_height(plan)
    pose = plan.layout.pose
    items: list[Item] = []
    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for _, ring in frame_plan(wall, height):
            items.append(Path(points=_in_room(placed(ring, line), pose), closed=True, pen=Pen.OUTLINE, fill=Tone.PALE))
        items += [
            Path(points=_in_room(placed(ring, line), pose), closed=True, pen=None, fill=Tone.BLACK)
            for ring in sheet_plan(wall, height)
        ]
    return items


def _in_room(ring: Iterable[Point], pose: Pose) -> Ring:
    return tuple(pose.to_room(point) for point in ring)


def _axis(plan: Plan) -> list[Item]:
    """Return the set's axis from behind the set to the room's side in front of it."""
    pose = plan.layout.pose
    foot, back = pose.to_room((0.0, 0.0)), pose.to_room((0.0, 250.0))
    ahead = pose.to_room((0.0, -1.0))
    reach = _reach(foot, (ahead[0] - foot[0], ahead[1] - foot[1]), plan.brief.room.outline)
    end = pose.to_room((0.0, -(reach or 3000.0)))
    return [Line(a=back, b=end, pen=Pen.CENTRE)]


def _reach(start: Point, way: Point, outline: Sequence[Point]) -> float | None:
    """Return how far a ray runs from a point to an outline, or None where it never meets it."""
    best: float | None = None
    for (ax, ay), (bx, by) in _sides(outline):
        ex, ey = bx - ax, by - ay
        cross = way[0] * ey - way[1] * ex
        if abs(cross) < 1e-12:
            continue
        along = ((ax - start[0]) * ey - (ay - start[1]) * ex) / cross
        share = ((ax - start[0]) * way[1] - (ay - start[1]) * way[0]) / cross
        if along > 1e-6 and -1e-9 <= share <= 1 + 1e-9 and (best is None or along < best):
            best = along
    return best


def _sitter_point(sitter: SitterBrief) -> Point:
    return sitter.right, -sitter.forward


def _sitters(plan: Plan) -> list[Item]:
    """Return a crossed ring at every sitter's place."""
    items: list[Item] = []
    pose = plan.layout.pose
    for sitter in plan.brief.sitters:
        x, y = _sitter_point(sitter)
        ring = tuple((x + MARK * math.cos(k * math.pi / 12), y + MARK * math.sin(k * math.pi / 12)) for k in range(24))
        items.append(Path(points=_in_room(ring, pose), closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE))
        for dx, dy in ((MARK, 0.0), (0.0, MARK)):
            a, b = _in_room(((x - dx, y - dy), (x + dx, y + dy)), pose)
            items.append(Line(a=a, b=b, pen=Pen.LIGHT))
    return items


def _sitter_places(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return how far in front of the set and beside its axis sitters stand, where the figures have room.

    Every place stands in the table of places besides.
    """
    found: list[Item] = []
    for sitter in plan.brief.sitters:
        x, y = _sitter_point(sitter)
        if abs(y) >= 1.0:
            found += _free_size(plan, ((0.0, y), (0.0, 0.0)), (0, 6, -6, 12, -12), taken, scale)
        if abs(x) >= 1.0:
            beside = ((min(0.0, x), y), (max(0.0, x), y))
            found += _free_size(plan, beside, (-6, 6, -10, 10), taken, scale)
    return found


def _wall_lengths(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return every wall's finished length before its face, or behind it, where the figure has room."""
    found: list[Item] = []
    depth = max(flat.sheet.thickness + flat.stock.depth for flat in plan.flats) / scale
    offsets = (-5.0, -9.0, -13.0, depth + 8.0, depth + 12.0)
    for line in plan.layout.walls:
        found += _free_size(plan, (line.start, line.end), offsets, taken, scale)
    return found


def _free_size(
    plan: Plan, ends: tuple[Point, Point], offsets: Sequence[float], taken: Taken, scale: float
) -> list[Item]:
    """Return the distance between two points of the set at the first offset [mm of paper] with room for its figure."""
    start, end = _in_room(ends, plan.layout.pose)
    for offset in offsets:
        made = overall(start, end, offset=offset, scale=scale, style=plan.brief.style)
        if taken.all_free(made.labels, gap=0.5 * scale):
            return [made]
    return []


def _names(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return flat marks behind the walls, corner angles before them, and the sitters' names."""
    pose = plan.layout.pose
    found: list[Item] = []

    def put(words: str, spots: Iterable[Point], *, bold: bool = False) -> None:
        texts = (
            make_text(words, at=(x, y - 0.35 * NOTE_SIZE * scale), scale=scale, align="centre", bold=bold, backed=True)
            for x, y in (pose.to_room(spot) for spot in spots)
        )
        text = taken.first_free(texts)
        found.extend([text] if text else [])

    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for flat in wall.flats:
            back = flat.sheet.thickness + flat.stock.depth
            shares = (0.5, 0.3, 0.7, 0.15, 0.85)
            put(
                flat.mark,
                (
                    line.at(along=flat.x0 + share * flat.width, behind=back + k * scale)
                    for k in (3.0, 4.5, 7.0)
                    for share in shares
                ),
                bold=True,
            )
    depth = max(flat.sheet.thickness + flat.stock.depth for flat in plan.flats)
    for corner in plan.corners:
        left, right = plan.layout.wall(corner.left), plan.layout.wall(corner.right)
        (ax, ay), (bx, by) = left.direction, right.direction
        length = math.hypot(bx - ax, by - ay) or 1.0
        way = (bx - ax) / length, (by - ay) / length
        x, y = left.end
        outside = [-depth / scale / math.sin(corner.angle / 2) - k for k in (4.0, 5.5, 7.5)]
        put(
            f"inside {format_angle(corner.angle)}",
            ((x + k * scale * way[0], y + k * scale * way[1]) for k in (*outside, 13, 15, 18, 21, 25, 30)),
        )
    for sitter in plan.brief.sitters:
        x, y = _sitter_point(sitter)
        near = MARK + 2 * scale
        put(
            sitter.name,
            ((x + a * near * k, y + b * near * k) for k in (1.0, 1.5, 2.0, 2.6) for a, b in _AROUND),
        )
    return found


_AROUND = ((0.0, -1.0), (0.9, -0.9), (-0.9, -0.9), (1.6, 0.0), (-1.6, 0.0), (0.9, 0.9), (-0.9, 0.9), (0.0, 1.0))


# --- the pictures ------------------------------------------------------------------------------------------------


def _pictures(plan: Plan, scale: float) -> list[Item]:
    """Return cameras at both ends of every picture's range of angles, with their axes and the picture's edges."""
    items: list[Item] = []
    for picture in plan.brief.pictures:
        for angle in sorted(set(picture.angles)):
            items += _camera(plan, picture, angle, scale)
        items += _range(plan, picture)
    taken = Taken(items, scale=scale)
    for picture in plan.brief.pictures:
        items += _picture_name(plan, picture, taken, scale)
    return items


def camera_distance(picture: PictureBrief) -> float:
    """Return how far the camera stands from the sitter, at its longest lens [mm].

    Notes
    -----
    Thin lens: distance = focal length times (1 + height of the frame at the sitter / height of the sensor), from the
    lens; any textbook on optics.
    """
    return max(picture.lens) * (1 + picture.frame_height / picture.sensor[1])


def _camera_point(picture: PictureBrief, angle: float) -> Point:
    """Return the camera's place in set axes; the angle is measured at the sitter, to the right positive."""
    x, y = _sitter_point(picture.sitter)
    far = camera_distance(picture)
    return x + far * math.sin(angle), y - far * math.cos(angle)


def _camera(plan: Plan, picture: PictureBrief, angle: float, scale: float) -> list[Item]:
    pose = plan.layout.pose
    x, y = _camera_point(picture, angle)
    half = math.atan(picture.sensor[0] / 2 / max(picture.lens))
    items: list[Item] = []
    for turn in (-half, 0.0, half):
        way = (-math.sin(angle + turn), math.cos(angle + turn))
        far = _first_hit(plan, (x, y), way)
        a, b = _in_room(((x, y), (x + far * way[0], y + far * way[1])), pose)
        items.append(Line(a=a, b=b, pen=Pen.SIGHT))
    way, side = (-math.sin(angle), math.cos(angle)), (math.cos(angle), math.sin(angle))
    size = CAMERA * scale
    body = tuple(
        (x + size * (p * side[0] + q * way[0]), y + size * (p * side[1] + q * way[1])) for p, q in CAMERA_SHAPE
    )
    items.append(Path(points=_in_room(body, pose), closed=True, pen=Pen.OUTLINE, fill=Tone.MID))
    return items


def _first_hit(plan: Plan, start: Point, way: Point) -> float:
    """Return how far a line of sight runs to the first finished face, else to the room's far side [mm]."""
    best: float | None = None
    for line in plan.layout.walls:
        (dx, dy), (wx, wy) = line.direction, way
        cross = dx * wy - dy * wx  # positive where the ray meets the face from its finished side
        if cross <= 1e-9:
            continue
        px, py = line.start[0] - start[0], line.start[1] - start[1]
        far = (dx * py - dy * px) / cross
        along = far * (wx * dx + wy * dy) - (px * dx + py * dy)
        if far > 0 and 0 <= along <= line.length and (best is None or far < best):
            best = far
    if best is not None:
        return best
    pose = plan.layout.pose
    a, b = _in_room((start, (start[0] + way[0], start[1] + way[1])), pose)
    return _last_reach(a, (b[0] - a[0], b[1] - a[1]), plan.brief.room.outline)


def _last_reach(start: Point, way: Point, outline: Sequence[Point]) -> float:
    """Return how far a ray runs until it has left an outline for good; a short way where it never meets it."""
    far = 0.0
    while True:
        step = _reach((start[0] + way[0] * far, start[1] + way[1] * far), way, outline)
        if step is None:
            return far or 3000.0
        far += step + 1e-3


def _range(plan: Plan, picture: PictureBrief) -> list[Item]:
    """Return the arc that the camera may move on."""
    low, high = min(picture.angles), max(picture.angles)
    if high - low < 1e-6:
        return []
    arc = tuple(_camera_point(picture, low + (high - low) * k / ARC_STEPS) for k in range(ARC_STEPS + 1))
    return [Path(points=_in_room(arc, plan.layout.pose), closed=False, pen=Pen.SIGHT)]


def _picture_name(plan: Plan, picture: PictureBrief, taken: Taken, scale: float) -> list[Text]:
    """Return a picture's name and lens behind the middle of its range."""
    x, y = plan.layout.pose.to_room(_camera_point(picture, sum(picture.angles) / 2))
    lens = f"{max(picture.lens):g} mm"
    found: list[Text] = []
    for words in (picture.name, f"lens {lens}"):
        texts = (
            make_text(words, at=(x + across * scale, y - k * scale), scale=scale, align="centre", backed=True)
            for k in (5, 9, 13, 17, 21, 25, 29)
            for across in (0, -8, 8)
        )
        text = taken.first_free(texts)
        found += [text] if text else []
    return found


# --- sizes round the room ----------------------------------------------------------------------------------------


def _distances(plan: Plan, taken: Sequence[Item], scale: float) -> list[Item]:
    """Return distances from the set to the room's sides, and the room's own size, outside everything else."""
    style = plan.brief.style
    x0, y0, x1, y1 = bounds_of(plan.brief.room.outline)
    sx0, sy0, sx1, sy1 = bounds_of(_in_room(set_points(plan), plan.layout.pose))
    (_, _), (right, top) = bounds(taken, scale=scale)
    across = [x0, *sorted((sx0, sx1)), x1]
    deep = [y0, *sorted((sy0, sy1)), y1]
    return [
        *level_chains([across, [x0, x1]], edge_y=top, below=False, scale=scale, style=style, datum=x0),
        *upright_chains([deep, [y0, y1]], edge_x=right, left=False, scale=scale, style=style, datum=y0),
    ]


def _pointer(plan: Plan, taken: Sequence[Item], scale: float) -> list[Item]:
    """Return an arrow that shows where the camera looks when it stands on the set's axis."""
    (low, foot), _ = bounds(taken, scale=scale)
    turn = plan.layout.pose.turn
    way = (-math.sin(turn), math.cos(turn))
    half = POINTER / 2 * scale
    x, y = low - half - scale, foot + half + scale
    at = (x + 0.35 * NOTE_SIZE * scale, y + half + 2 * scale)
    words = make_text("the camera looks this way", at=at, scale=scale, angle=math.pi / 2)
    return [
        *arrow((x - way[0] * half, y - way[1] * half), (x + way[0] * half, y + way[1] * half), scale=scale),
        words,
    ]
