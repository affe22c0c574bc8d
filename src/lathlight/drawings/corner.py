"""Corner details: a level cut through both walls at large scale, with the order in which the corner goes together.

Drawn as the set stands, the camera's side below. Only what lies near the corner is shown; break lines mark where the
walls run on. How far sheets and frames run past the corner line is decided by the carpentry.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.dims import chain
from lathlight.drawings.hatch import hatch
from lathlight.drawings.labels import Taken, words_in
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import (
    bounds_of,
    clipped,
    cuts_at,
    frame_plan,
    member_plan,
    openings_of,
    placed,
    rectangle,
    sheet_plan,
)
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.tables import Column
from lathlight.drawings.text import boxes_overlap, make_text
from lathlight.drawings.views import make_view
from lathlight.units import drawing_length, format_angle, snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import BuiltWall, Corner, Flat, Member, WallEnd
    from lathlight.catalog import Fastener
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.drawings.text import Align
    from lathlight.layout import WallLine
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

SHOWN = 2.2  # length of each wall that is shown, as a multiple of its depth; common practice
LEAST_SHOWN = 130.0  # [mm]
SHEET_LINING = 0.8  # between hatch lines in a sheet [mm of paper]
WEDGE_LINING = 1.2  # in a wedge [mm of paper]
BREAK = 3.0  # how far a break line runs past what it breaks [mm of paper]
CHAIN_OUT = 9.0  # from the back of a frame to its dimension line [mm of paper]
SQUARE = 0.9  # cosine from which a wall counts as level or upright on the page
OPPOSITE: dict[Align, Align] = {"left": "right", "right": "left", "centre": "centre"}
TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One wall at the corner: what is shown of it, along the wall [mm]."""

    wall: BuiltWall
    line: WallLine
    flat: Flat
    end: WallEnd
    low: float
    high: float
    corner: float  # where the corner line lies along this wall
    out: int  # 1: the wall ends towards larger figures

    @property
    def depth(self) -> float:
        """Sheet and frame together [mm]."""
        return self.flat.sheet.thickness + self.flat.stock.depth

    @property
    def broken(self) -> float:
        """Where the wall is broken off [mm]."""
        return self.low if self.out > 0 else self.high


def corner_view(plan: Plan, corner: Corner, *, scale: float, also: Sequence[str] = ()) -> View:
    """Return the detail of one corner; ``also`` names further corners that are built the same."""
    sides = _sides(plan, corner)
    items: list[Item] = []
    for side in sides:
        items += _side_items(side, scale)
    if corner.wedge is not None:
        items += _lined(corner.wedge.outline, scale, angle=0.0, spacing=WEDGE_LINING)
    items += _screw(sides, corner, scale)
    for side in sides:
        items += _chain(side, plan.brief.style, scale)
    taken = Taken(items, scale=scale)
    for side in sides:
        items += _member_names(side, taken, scale)
    items += _names(sides, corner, taken, scale)
    items += _screw_name(sides, corner, taken, scale)
    title = f"Corner {_label(plan, corner)}, cut level" + (", typical" if also else "")
    name = f"corner-{sides[0].wall.mark}-{sides[1].wall.mark}"
    return make_view(name=name, title=title, scale=scale, items=items)


def corner_size(plan: Plan, corner: Corner) -> Point:
    """Return how wide and high the detail of a corner is, words and dimensions left out [mm]."""
    x0, y0, x1, y1 = bounds_of(point for side in _sides(plan, corner) for point in _strip(side))
    return x1 - x0, y1 - y0


def steps_listing(plan: Plan, corner: Corner, also: Sequence[Corner] = ()) -> Listing:
    """Return how a corner goes together, step by step."""
    others = "".join(f"; {_label(plan, other)} the same" for other in also)
    columns = (Column(heading="Step", width=12, align="right"), Column(heading="Do", width=150))
    rows = tuple((str(number), words) for number, words in enumerate(_steps(plan, corner), start=1))
    return Listing(title=f"Corner {_label(plan, corner)}, in order{others}", columns=columns, rows=rows)


def corner_notes(plan: Plan, corner: Corner) -> list[str]:
    """Return what both walls are made of."""
    return [
        f"Wall {side.wall.mark}: sheet {side.flat.sheet.name}, frame {side.flat.stock.name}, "
        f"{drawing_length(side.depth, style=plan.brief.style)} together."
        for side in _sides(plan, corner)
    ]


def alike(plan: Plan) -> tuple[tuple[Corner, ...], ...]:
    """Return the corners in groups that look the same cut level, in order of their first."""
    groups: dict[tuple[object, ...], list[Corner]] = {}
    for corner in plan.corners:
        groups.setdefault(_likeness(plan, corner), []).append(corner)
    return tuple(tuple(group) for group in groups.values())


def _label(plan: Plan, corner: Corner) -> str:
    marks = {wall.name: wall.mark for wall in plan.walls}
    return f"{marks[corner.left]} | {marks[corner.right]}"


def _likeness(plan: Plan, corner: Corner) -> tuple[object, ...]:
    """Return what a detail shows, rounded, counted from the corner line."""
    seen: list[object] = [round(corner.angle, 6), corner.style, corner.frame_laps, corner.sheet_laps]
    for side in _sides(plan, corner):
        flat = side.flat
        seen += [flat.sheet.name, flat.stock.name, round(side.end.sheet_front, 2), round(side.end.frame_end, 2)]
        for member in _uprights(side):
            x0, y0, x1, y1 = bounds_of(member_plan(member))
            seen.append(tuple(round(v, 2) for v in (x0 - side.corner, y0, x1 - side.corner, y1)))
    return tuple(seen)


def _sides(plan: Plan, corner: Corner) -> tuple[_Side, _Side]:
    walls = {wall.name: wall for wall in plan.walls}
    left, right = walls[corner.left], walls[corner.right]
    last = max(left.flats, key=lambda f: (f.x1, -f.z0))
    first = min(right.flats, key=lambda f: (f.x0, f.z0))
    shown = [max(LEAST_SHOWN, SHOWN * (f.sheet.thickness + f.stock.depth)) for f in (last, first)]
    reach = max(shown)
    return (
        _Side(
            wall=left,
            line=plan.layout.wall(left.name),
            flat=last,
            end=corner.left_end,
            low=left.length - reach,
            high=math.inf,
            corner=left.length,
            out=1,
        ),
        _Side(
            wall=right,
            line=plan.layout.wall(right.name),
            flat=first,
            end=corner.right_end,
            low=-math.inf,
            high=reach,
            corner=0.0,
            out=-1,
        ),
    )


def _height(side: _Side) -> float:
    """Return a height at which no opening cuts what is shown of a wall: half way up where that is one."""
    openings = openings_of(side.wall)
    low = max(side.low, 0.0) - side.flat.stock.width
    high = min(side.high, side.wall.length) + side.flat.stock.width
    for share in (0.5, 0.3, 0.7, 0.15, 0.85, 0.06):
        height = side.flat.z0 + share * side.flat.height
        if not any(a < high and b > low for a, b in cuts_at(openings, height, rough=True)):
            return height
    return side.flat.z0 + side.flat.height / 2


def _uprights(side: _Side) -> tuple[Member, ...]:
    """Return the uprights that the cut goes through near the corner, along the wall."""
    height = _height(side)
    near = [
        m
        for m in side.flat.members
        if m.upright and m.z <= height < m.z + m.high and m.x + m.wide > side.low and m.x < side.high
    ]
    return tuple(sorted(near, key=lambda m: (m.x, m.behind)))


def _side_items(side: _Side, scale: float) -> list[Item]:
    """Return what the cut shows of one wall."""
    height = _height(side)
    items: list[Item] = []
    for flat, ring in frame_plan(side.wall, height):
        if flat.id == side.flat.id:
            items += _open_ring(clipped(ring, side.low, side.high), side, Pen.LIGHT)
    for ring in sheet_plan(side.wall, height):
        part = clipped(ring, side.low, side.high)
        if part:
            items.append(hatch(placed(part, side.line), scale=scale, spacing=SHEET_LINING, angle=_lining(side)))
            items += _open_ring(part, side, Pen.CUT)
    for member in _uprights(side):
        items += _upright(member, side, scale)
    return [*items, _break_line(side, scale)]


def _lining(side: _Side) -> float:
    """Return the direction of a sheet's hatching: 45 degrees to its face [rad]."""
    dx, dy = side.line.direction
    return math.atan2(dy, dx) + math.pi / 4


def _open_ring(ring: Ring, side: _Side, pen: Pen) -> list[Item]:
    """Return a ring's sides without the one where the wall is broken off."""
    return [
        Line(a=side.line.at(along=ax, behind=ay), b=side.line.at(along=bx, behind=by), pen=pen)
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], *ring[:1]), strict=True)
        if not (abs(ax - side.broken) < TOUCH and abs(bx - side.broken) < TOUCH)
    ]


def _upright(member: Member, side: _Side, scale: float) -> list[Item]:
    """Return a cut upright: crossed where it is square timber, lined where it is ripped."""
    whole = member_plan(member)
    ring = clipped(whole, side.low, side.high)
    if not ring:
        return []
    if len(ring) == 4 and member.section is None:
        a, b, c, d = placed(ring, side.line)
        crossed: list[Item] = [Line(a=a, b=c, pen=Pen.LIGHT), Line(a=b, b=d, pen=Pen.LIGHT)]
    else:
        crossed = [hatch(placed(ring, side.line), scale=scale, spacing=WEDGE_LINING, angle=0.0)]
    return [*crossed, *_open_ring(ring, side, Pen.CUT)]


def _lined(ring: Ring, scale: float, *, angle: float, spacing: float) -> list[Item]:
    return [
        hatch(ring, scale=scale, spacing=spacing, angle=angle),
        Path(points=ring, closed=True, pen=Pen.CUT),
    ]


def _break_line(side: _Side, scale: float) -> Path:
    """Return the zigzag where the wall is broken off."""
    at, reach = side.broken, BREAK * scale
    middle = side.depth / 2
    wide = 2.0 * scale
    ring = (
        (at, -reach),
        (at, middle - wide),
        (at - wide, middle - wide / 2),
        (at + wide, middle + wide / 2),
        (at, middle + wide),
        (at, side.depth + reach),
    )
    return Path(points=placed(ring, side.line), closed=False, pen=Pen.LIGHT)


def _screw(sides: tuple[_Side, _Side], corner: Corner, scale: float) -> list[Item]:
    """Return one screw with its head in the bay, through the first stud into the second."""
    if corner.screws is None:
        return []
    side, other = sides if corner.screws.from_wall == corner.left else sides[::-1]
    studs = {m.id: m for s in sides for m in s.flat.members}
    through, into = studs.get(corner.screws.through), studs.get(corner.screws.into)
    if through is None or into is None:
        return []
    head = through.x if side.out > 0 else through.x + through.wide
    behind = _screw_depth(through, into, side, other)
    length = corner.screws.screw.length * side.out
    wide = max(corner.screws.screw.diameter, 1.2 * scale)
    (x0, y0), (x1, y1) = (head, behind), (head + length, behind)
    line = side.line
    return [
        Line(a=line.at(along=x0, behind=y0), b=line.at(along=x1, behind=y1), pen=Pen.CUT),
        Path(
            points=placed(((head, behind - wide), (head + 1.2 * wide * side.out, behind), (head, behind + wide)), line),
            closed=True,
            pen=Pen.CUT,
            fill=Tone.BLACK,
        ),
    ]


def _screw_depth(through: Member, into: Member, side: _Side, other: _Side) -> float:
    """Return how far behind the first wall's face the screw runs: in the middle of what both studs share."""
    (x, y), (dx, dy) = side.line.start, side.line.direction
    corners = placed(member_plan(into), other.line)
    behinds = [(py - y) * dx - (px - x) * dy for px, py in corners]
    low = max(min(behinds), through.behind)
    high = min(max(behinds), through.behind + through.deep)
    return (low + high) / 2 if high > low else through.behind + through.deep / 2


def _chain(side: _Side, style: LengthStyle, scale: float) -> list[Item]:
    """Return how far sheet and frame run past the corner line, behind the frame."""
    stops = [0.0, side.end.sheet_front, side.end.frame_end]
    if len({snap(stop, style) for stop in stops}) < 2:
        return []
    dx, dy = side.line.direction
    back = side.depth
    origin = side.line.at(along=side.corner, behind=back + CHAIN_OUT * scale)
    feet = [side.line.at(along=side.corner + side.out * stop, behind=back) for stop in stops]
    return [
        chain(
            origin=origin,
            angle=math.atan2(dy, dx),
            stops=[side.out * stop for stop in stops],
            feet=feet,
            scale=scale,
            style=style,
        )
    ]


def _member_names(side: _Side, taken: Taken, scale: float) -> list[Item]:
    """Return mark and role on every cut upright that is wide enough for them; a ripped one is named outside."""
    found: list[Item] = []
    for member in _uprights(side):
        ring = clipped(member_plan(member), side.low, side.high)
        if not ring:
            continue
        mark = f"{side.flat.mark}-{member.mark}"
        if member.section is not None:
            found += _name_outside(f"{mark} {member.role}", ring, side, taken, scale)
            continue
        for lines in ((mark, member.role), (mark,), (member.mark,)):
            texts = _words_across(ring, side, lines, scale)
            if taken.all_free(texts):
                found += texts
                break
    return found


def _name_outside(words: str, ring: Ring, side: _Side, taken: Taken, scale: float) -> list[Item]:
    """Return words behind the frame with a leader to the middle of a ring."""
    along, behind = (sum(point[k] for point in ring) / len(ring) for k in (0, 1))
    spots = (
        side.line.at(along=along + side.out * across * scale, behind=side.depth + out * scale)
        for out in range(4, 60, 2)
        for across in (0, 4, 8, -4, -8)
    )
    align = OPPOSITE[_towards_open(side)]
    text = taken.first_free((make_text(words, at=spot, scale=scale, align=align) for spot in spots), gap=scale)
    if text is None:
        return []
    return [Line(a=side.line.at(along=along, behind=behind), b=text.at, pen=Pen.DIMENSION), text]


def _words_across(ring: Ring, side: _Side, lines: Sequence[str], scale: float) -> tuple[Text, ...]:
    """Return level words in the middle of a ring, inside an upright box that it surely holds."""
    x0, y0, x1, y1 = bounds_of(ring)
    mean = (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))
    cx, cy = side.line.at(along=mean[0], behind=mean[1])
    across, deep = (x1 - x0) / 2, (y1 - y0) / 2
    c, s = abs(side.line.direction[0]), abs(side.line.direction[1])
    level = (across, deep) if c > s else (deep, across)
    half = level if max(c, s) > SQUARE else (min(across, deep) / (c + s),) * 2
    low, high = (cx - half[0], cy - half[1]), (cx + half[0], cy + half[1])
    return words_in(lines, low=low, high=high, scale=scale)


def _names(sides: tuple[_Side, _Side], corner: Corner, taken: Taken, scale: float) -> list[Item]:
    """Return the inside angle in front of the corner, and every wall's name and sheet in front of its face."""
    solid = [_strip(side) for side in sides]
    x, y = sides[0].line.at(along=sides[0].corner, behind=0.0)
    (ax, ay), (bx, by) = sides[0].line.direction, sides[1].line.direction
    half = 2 * math.sin(corner.angle / 2)  # length of the sum of both ways out of the corner, taken as its limit
    way = (bx - ax) / max(half, 0.5), (by - ay) / max(half, 0.5)
    angle = f"inside {format_angle(corner.angle)}"
    inwards = (
        make_text(angle, at=(x + k * scale * way[0], y + k * scale * way[1]), scale=scale, align="centre")
        for k in range(4, 120)
    )
    found: list[Item] = [_clear(inwards, taken, solid, scale)]
    for side in sides:
        words = f"{side.wall.mark}  {side.wall.name}: stands {_turn(side, corner)}"
        texts = (
            make_text(words, at=spot, scale=scale, align=align, bold=True) for spot, align in _name_spots(side, scale)
        )
        found.append(_clear(texts, taken, solid, scale))
    return found


def _name_spots(side: _Side, scale: float) -> Iterator[tuple[Point, Align]]:
    """Yield places for a wall's name: close before its face, then close behind its frame, then further away."""
    ahead = _towards_open(side)
    ways: tuple[tuple[int, Align], ...] = ((-1, ahead), (1, OPPOSITE[ahead]))
    for reach in (range(3, 16), range(16, 90)):
        for out, align in ways:
            for k in reach:
                for share in (0.45, 0.7, 0.9):
                    along = side.corner + share * (side.broken - side.corner)
                    start = 0.0 if out < 0 else side.depth
                    yield side.line.at(along=along, behind=start + out * k * scale), align


def _turn(side: _Side, corner: Corner) -> str:
    """Return whether a wall is stood up first or second: the one whose frame runs past goes first."""
    first = corner.left if corner.frame_laps != "right" else corner.right
    return "first" if side.wall.name == first else "second"


def _screw_name(sides: tuple[_Side, _Side], corner: Corner, taken: Taken, scale: float) -> list[Item]:
    """Return the screw's size in the bay that it is driven from."""
    if corner.screws is None:
        return []
    side = sides[0] if corner.screws.from_wall == corner.left else sides[1]
    stud = next((m for m in side.flat.members if m.id == corner.screws.through), None)
    if stud is None:
        return []
    head = stud.x if side.out > 0 else stud.x + stud.wide
    words = _fixing(corner.screws.screw)
    middle = stud.behind + stud.deep / 2
    texts = (
        make_text(
            words,
            at=side.line.at(along=head - side.out * k * scale, behind=middle),
            scale=scale,
            align="centre",
            backed=True,
        )
        for k in range(4, 60)
    )
    solid = [placed(member_plan(member), side.line) for member in _uprights(side)]
    return [_clear(texts, taken, solid, scale / 2)]


def _towards_open(side: _Side) -> Align:
    """Return how words stand in front of a face so that they run away from it."""
    leaning = side.line.direction[1]  # the face looks to the right where the wall runs away from the camera
    if abs(leaning) < 1 - SQUARE:
        return "centre"
    return "left" if leaning > 0 else "right"


def _strip(side: _Side) -> Ring:
    """Return what is shown of a wall as one four-cornered outline."""
    end = side.corner + side.out * max(side.end.frame_end, side.end.sheet_front, side.end.sheet_back)
    a, b = sorted((side.broken, end))
    return placed(rectangle(a, 0.0, b, side.depth), side.line)


def _clear(texts: Iterable[Text], taken: Taken, solid: Sequence[Ring], scale: float) -> Text:
    """Return the first of some texts that covers neither words nor walls; the last where all do."""
    last: Text | None = None
    for last in texts:
        dry = not any(boxes_overlap(last.box, ring, slack=-scale) for ring in solid)
        if dry and taken.first_free([last], gap=scale):
            return last
    assert last is not None
    return last


def _steps(plan: Plan, corner: Corner) -> list[str]:
    """Return what is done at a corner, in order."""
    left, right = _sides(plan, corner)
    if corner.screws is None:
        return _steps_apart(left, right, corner, plan.brief.style)
    butting, lapping = (left, right) if corner.screws.from_wall == corner.left else (right, left)
    style = plan.brief.style
    heights = ", ".join(drawing_length(height, style=style) for height in corner.screws.heights)
    steps = [
        f"Stand flat {lapping.flat.mark} (its frame runs past) and hold it; nobody lets go before it is braced.",
        f"Stand flat {butting.flat.mark} against it, bottoms level, until the faces meet in one line.",
        f"From the bay of {butting.flat.mark}, drive {len(corner.screws.heights)} × {_fixing(corner.screws.screw)} "
        f"through its end stud into the end stud of {lapping.flat.mark}, at heights {heights} from the floor.",
    ]
    if any(side.end.sheet_front != side.end.sheet_back for side in (left, right)):
        steps.insert(0, "Bevel the sheet's edge as drawn before the flat is skinned.")
    return [*steps, "Check the corner with a square or a template, high and low, before it is let go."]


def _fixing(fastener: Fastener) -> str:
    """Return a fastener's name with what it is."""
    return fastener.name if fastener.kind in fastener.name else f"{fastener.kind} {fastener.name}"


def _steps_apart(left: _Side, right: _Side, corner: Corner, style: LengthStyle) -> list[str]:
    """Return the steps where the frames do not touch."""
    steps = [
        f"Stand flat {left.flat.mark} and hold it; nobody lets go before it is braced.",
        f"Stand flat {right.flat.mark} beside it, bottoms level, until the faces meet in one line.",
    ]
    if corner.wedge is not None:
        wide, long = (drawing_length(v, style=style) for v in (corner.wedge.wide, corner.wedge.length))
        steps.append(
            f"Set the wedge (ripped to {format_angle(corner.wedge.angle)}, {wide} at its widest, {long} long) into the "
            "gap behind and screw it from both bays through the end studs."
        )
    return [*steps, "Check the angle with a template, high and low, before it is let go."]
