"""Corner details: a level cut through both walls at large scale.

Drawn as the set stands, the camera's side below. Only what lies near the corner is shown; break lines mark where the
walls run on. How far sheets and frames run past the corner line is decided by the carpentry; the order in which
the corner goes together is put into words by ``lathlight.drawings.corner_steps``.
"""

from __future__ import annotations

import math
from itertools import chain as chain_of
from itertools import product
from typing import TYPE_CHECKING

from lathlight.drawings.corner_cuts import bevel_of
from lathlight.drawings.corner_hold import fixing, hold_fastener
from lathlight.drawings.corner_sides import (
    corner_label,
    corner_sides,
    screw_run,
    section_height,
    strip,
    uprights,
)
from lathlight.drawings.dims import chain
from lathlight.drawings.hatch import hatch
from lathlight.drawings.labels import Taken, texts_of, words_in
from lathlight.drawings.outlines import (
    bounds_of,
    clipped,
    frame_plan,
    member_plan,
    placed,
    sheet_plan,
)
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import boxes_overlap, make_text
from lathlight.drawings.views import make_view
from lathlight.units import format_angle, snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Corner, Member
    from lathlight.catalog import Fastener
    from lathlight.drawings.corner_sides import Side
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.drawings.text import Align
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

SHEET_LINING = 0.8  # between hatch lines in a sheet [mm of paper]
WEDGE_LINING = 1.2  # in a wedge [mm of paper]
BREAK = 3.0  # how far a break line runs past what it breaks [mm of paper]
CHAIN_OUT = 9.0  # from the back of a frame to its dimension line [mm of paper]
SQUARE = 0.9  # cosine from which a wall counts as level or upright on the page
OPPOSITE: dict[Align, Align] = {"left": "right", "right": "left", "centre": "centre"}
ALIGNS: tuple[Align, ...] = ("left", "right", "centre")
TOUCH = 1e-6


def corner_view(plan: Plan, corner: Corner, *, scale: float, also: Sequence[str] = ()) -> View:
    """Return the detail of one corner; ``also`` names further corners that are built the same."""
    sides = corner_sides(plan, corner)
    items: list[Item] = []
    for side in sides:
        items += _side_items(side, scale)
    if corner.wedge is not None:
        items += _lined(corner.wedge.outline, scale, angle=0.0, spacing=WEDGE_LINING)
    fastener = hold_fastener(plan, corner)
    items += _screw(sides, corner, fastener, scale)
    for side in sides:
        items += _chain(side, plan.brief.style, scale)
    taken = Taken(items, scale=scale)
    timber = [placed(member_plan(member), side.line) for side in sides for member in uprights(side)]
    for side in sides:
        items += _member_names(side, taken, timber, scale)
    items += _wedge_name(corner, taken, scale)
    items += _wall_names(sides, corner, taken, scale)
    for side in sides:
        items += _bevel_note(side, sides, taken, texts_of(items), scale)
    items += _angle_name(sides, corner, taken, scale)
    items += _screw_name(sides, corner, fastener, taken, scale)
    title = f"Corner {corner_label(plan, corner)}, cut level" + (", typical" if also else "")
    name = f"corner-{sides[0].wall.mark}-{sides[1].wall.mark}"
    return make_view(name=name, title=title, scale=scale, items=items)


def _side_items(side: Side, scale: float) -> list[Item]:
    """Return what the cut shows of one wall."""
    height = section_height(side)
    items: list[Item] = []
    for flat, ring in frame_plan(side.wall, height):
        if flat.id == side.flat.id:
            items += _open_ring(clipped(ring, side.low, side.high), side, Pen.LIGHT)
    for ring in sheet_plan(side.wall, height):
        part = clipped(ring, side.low, side.high)
        if part:
            items.append(hatch(placed(part, side.line), scale=scale, spacing=SHEET_LINING, angle=_lining(side)))
            items += _open_ring(part, side, Pen.CUT)
    for member in uprights(side):
        items += _upright(member, side, scale)
    return [*items, _break_line(side, scale)]


def _lining(side: Side) -> float:
    """Return the direction of a sheet's hatching: 45 degrees to its face [rad]."""
    dx, dy = side.line.direction
    return math.atan2(dy, dx) + math.pi / 4


def _open_ring(ring: Ring, side: Side, pen: Pen) -> list[Item]:
    """Return a ring's sides without the one where the wall is broken off."""
    return [
        Line(a=side.line.at(along=ax, behind=ay), b=side.line.at(along=bx, behind=by), pen=pen)
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], *ring[:1]), strict=True)
        if not (abs(ax - side.broken) < TOUCH and abs(bx - side.broken) < TOUCH)
    ]


def _upright(member: Member, side: Side, scale: float) -> list[Item]:
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


def _break_line(side: Side, scale: float) -> Path:
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


def _screw(sides: tuple[Side, Side], corner: Corner, fastener: Fastener | None, scale: float) -> list[Item]:
    """Return one screw or bolt with its head in the bay, through the first stud into the second."""
    run = screw_run(sides, corner)
    if run is None or fastener is None:
        return []
    wide = max(fastener.diameter, 1.2 * scale)
    line, head, behind = run.side.line, run.head, run.behind
    point = head + run.side.out * fastener.length
    cone = ((head, behind - wide), (head + 1.2 * wide * run.side.out, behind), (head, behind + wide))
    return [
        Line(a=line.at(along=head, behind=behind), b=line.at(along=point, behind=behind), pen=Pen.CUT),
        Path(points=placed(cone, line), closed=True, pen=Pen.CUT, fill=Tone.BLACK),
    ]


def _chain(side: Side, style: LengthStyle, scale: float) -> list[Item]:
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


def _member_names(side: Side, taken: Taken, timber: Sequence[Ring], scale: float) -> list[Item]:
    """Return mark and role on every cut upright that is wide enough for them; a ripped one is named outside."""
    found: list[Item] = []
    for member in uprights(side):
        ring = clipped(member_plan(member), side.low, side.high)
        if not ring:
            continue
        mark = f"{side.flat.mark}-{member.mark}"
        if member.section is not None:
            found += _name_outside(f"{mark} {member.role}", ring, side, taken, timber, scale)
            continue
        for lines in ((mark, member.role), (mark,), (member.mark,)):
            texts = _words_across(ring, side, lines, scale)
            if taken.all_free(texts):
                found += texts
                break
    return found


def _wedge_name(corner: Corner, taken: Taken, scale: float) -> list[Item]:
    """Return what the loose wedge between two flats is called, on it, where there is one."""
    if corner.wedge is None:
        return []
    ring = corner.wedge.outline
    x, y = (sum(point[k] for point in ring) / len(ring) for k in (0, 1))
    text = make_text("wedge", at=(x, y), scale=scale, align="centre", backed=True)
    return [text] if taken.first_free([text]) else []


def _name_outside(words: str, ring: Ring, side: Side, taken: Taken, timber: Sequence[Ring], scale: float) -> list[Item]:
    """Return words behind the frame with a leader to the middle of a ring."""
    along, behind = (sum(point[k] for point in ring) / len(ring) for k in (0, 1))
    spots = (
        side.line.at(along=along + side.out * across * scale, behind=side.depth + out * scale)
        for out in range(4, 60, 2)
        for across in (0, 4, 8, -4, -8)
    )
    align = OPPOSITE[_towards_open(side)]
    texts = (make_text(words, at=spot, scale=scale, align=align, backed=True) for spot in spots)
    text = _clear(texts, taken, timber, scale)
    return [Line(a=side.line.at(along=along, behind=behind), b=text.at, pen=Pen.DIMENSION), text]


def _bevel_note(
    side: Side, sides: tuple[Side, Side], taken: Taken, standing: Sequence[Text], scale: float
) -> list[Item]:
    """Return a bevelled sheet edge's tilt and long point before the corner, with a leader to the edge."""
    bevel = bevel_of(side)
    if bevel is None:
        return []
    end = (side.end.sheet_front + side.end.sheet_back) / 2
    edge = side.line.at(along=side.corner + side.out * end, behind=side.flat.sheet.thickness / 2)
    words = f"{side.wall.mark}: bevel {bevel.tilt_words}, long point on the {bevel.long_point}"

    def texts(way: int) -> Iterator[Text]:
        """Yield the words at places before the face (-1) or behind the frame (1), the nearest first."""
        for far, across, align in product(range(4, 90), (4, 10, 0, 18), ALIGNS):
            behind = way * far * scale + (side.depth if way > 0 else 0.0)
            at = side.line.at(along=side.corner - side.out * across * scale, behind=behind)
            yield make_text(words, at=at, scale=scale, align=align, backed=True)

    led = (
        text
        for text in chain_of(texts(-1), texts(1))
        if not any(boxes_overlap(other.box, (edge, _nearest(text, edge))) for other in standing)
    )
    text = _clear(chain_of(led, texts(-1)), taken, [strip(each) for each in sides], scale)
    return [Line(a=edge, b=_nearest(text, edge), pen=Pen.DIMENSION), text]


def _nearest(text: Text, point: Point) -> Point:
    """Return the point of a level text's box that is nearest to another point."""
    x0, y0, x1, y1 = bounds_of(text.box)
    return min(max(point[0], x0), x1), min(max(point[1], y0), y1)


def _words_across(ring: Ring, side: Side, lines: Sequence[str], scale: float) -> tuple[Text, ...]:
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


def _angle_name(sides: tuple[Side, Side], corner: Corner, taken: Taken, scale: float) -> list[Item]:
    """Return the inside angle in front of the corner."""
    x, y = sides[0].line.at(along=sides[0].corner, behind=0.0)
    (ax, ay), (bx, by) = sides[0].line.direction, sides[1].line.direction
    half = 2 * math.sin(corner.angle / 2)  # length of the sum of both ways out of the corner, taken as its limit
    way = (bx - ax) / max(half, 0.5), (by - ay) / max(half, 0.5)
    angle = f"inside {format_angle(corner.angle)}"
    inwards = (
        make_text(angle, at=(x + k * scale * way[0], y + k * scale * way[1]), scale=scale, align="centre")
        for k in range(4, 120)
    )
    return [_clear(inwards, taken, [strip(side) for side in sides], scale)]


def _wall_names(sides: tuple[Side, Side], corner: Corner, taken: Taken, scale: float) -> list[Item]:
    """Return every wall's name in front of its face, or behind it, and when it is stood up."""
    solid = [strip(side) for side in sides]
    found: list[Item] = []
    for side in sides:
        words = f"{side.wall.mark}  {side.wall.name}: stands {_turn(side, corner)}"
        texts = (
            make_text(words, at=spot, scale=scale, align=align, bold=True) for spot, align in _name_spots(side, scale)
        )
        found.append(_clear(texts, taken, solid, scale))
    return found


def _name_spots(side: Side, scale: float) -> Iterator[tuple[Point, Align]]:
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


def _turn(side: Side, corner: Corner) -> str:
    """Return whether a wall is stood up first or second: the one whose frame runs past goes first."""
    first = corner.left if corner.frame_laps != "right" else corner.right
    return "first" if side.wall.name == first else "second"


def _screw_name(
    sides: tuple[Side, Side], corner: Corner, fastener: Fastener | None, taken: Taken, scale: float
) -> list[Item]:
    """Return the size of the screw or bolt in the bay that it is driven from."""
    if corner.screws is None or fastener is None:
        return []
    side = sides[0] if corner.screws.from_wall == corner.left else sides[1]
    stud = next((m for m in side.flat.members if m.id == corner.screws.through), None)
    if stud is None:
        return []
    head = stud.x if side.out > 0 else stud.x + stud.wide
    words = fixing(fastener)
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
    solid = [placed(member_plan(member), side.line) for member in uprights(side)]
    return [_clear(texts, taken, solid, scale / 2)]


def _towards_open(side: Side) -> Align:
    """Return how words stand in front of a face so that they run away from it."""
    leaning = side.line.direction[1]  # the face looks to the right where the wall runs away from the camera
    if abs(leaning) < 1 - SQUARE:
        return "centre"
    return "left" if leaning > 0 else "right"


def _clear(texts: Iterable[Text], taken: Taken, solid: Sequence[Ring], scale: float) -> Text:
    """Return the first of some texts that covers neither words nor walls; the last where all do."""
    last: Text | None = None
    for last in texts:
        dry = not any(boxes_overlap(last.box, ring, slack=-scale) for ring in solid)
        if dry and taken.first_free([last], gap=scale):
            return last
    assert last is not None
    return last
