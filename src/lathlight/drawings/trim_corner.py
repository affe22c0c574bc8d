"""Corners of the trim from above: how the mouldings of two walls meet, which is fixed first, how the saw is set.

The camera's side is below, as in all corner details. How lines meet is decided by ``lathlight.mouldings``, which are
drawn together by ``trim_meetings``; how the piece lies on the saw is drawn by ``saw_table``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.cells import flow, make_cell, page_of, page_room
from lathlight.drawings.hatch import hatch
from lathlight.drawings.saw_table import saw_cells
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import CAP, LEADING, NOTE_SIZE, make_text, wrap
from lathlight.drawings.trim_meetings import meetings_of
from lathlight.drawings.views import bounds, make_view
from lathlight.layout import WallLine
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.drawings.cells import Cell
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Page, Point, Text, View
    from lathlight.drawings.trim_meetings import Half, Meeting
    from lathlight.mouldings import LineMeeting, TrimPlan
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

SHOWN = 1.55  # length of each moulding that is shown, in projections of the deeper one; common practice, no source
LEAST_SHOWN = 60.0  # [mm]
WALL = 5.0  # depth of the wall that is shown [mm of paper]
LINING = 1.2  # between hatch lines in a moulding [mm of paper]
WORDS = 76.0  # width of the words under a corner [mm of paper]
NAME_SIZE = 3.0  # [mm of paper]
FEW = 2  # pages that corners may take before they are drawn smaller
NUMBER_AT = 0.2  # share of what is shown, from where it is broken off, at which a number stands
BALL = 2.3  # radius of the circle round a number [mm of paper]
SCALES = {"metric": (2.0, 5.0, 10.0), "imperial": (2.0, 4.0, 8.0)}  # corners are drawn no larger than half size
SQUARE = math.radians(0.005)  # what prints as 0 degrees is square
TITLE = "Corners of the trim"
SEEN = "Seen from above, the camera below."
ORDER = "1 is fixed before 2."
DASHED = "Dashed: what a cope cuts away."
TRY = "Try every angle on an offcut and hold it to the corner before the piece is cut."
SAW_NOTES = (
    "The saw from above: you stand below, the fence is above. The thick line is the blade, the ring its handle. Left "
    "and right ends are told as the piece hangs on the wall. Hands stay clear of the blade's line; short pieces are "
    "clamped.",
)


def trim_corner_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return the corners of the trim, on one page where they fit, then how the saw is set for each end."""
    if plan.trim is None:
        return ()
    return (*_corner_pages(meetings_of(plan), setting), *_saw_pages(plan, plan.trim, setting))


def _corner_pages(met: Sequence[Meeting], setting: Setting) -> tuple[Page, ...]:
    """Return pages of corners at the largest scale at which they need no more than two, or else the fewest."""
    if not met:
        return ()
    notes = corner_notes(met)
    room = page_room(setting, notes)
    style = setting.style
    ways = [(scale, _flowed(met, room, scale, style)) for scale in SCALES[style.system]]
    scale, pages = min(ways, key=lambda way: (max(len(way[1]), FEW), way[0]))
    views = (
        trim_corner_view(items, scale=scale, name="trim-corners" if len(pages) == 1 else f"trim-corners-{number}")
        for number, items in enumerate(pages, start=1)
    )
    return tuple(page_of(view, title=TITLE, setting=setting, notes=notes) for view in views)


def corner_notes(met: Sequence[Meeting]) -> tuple[str, ...]:
    """Return what the pages of corners have to say: of numbers and dashes only where some are drawn."""
    halves = [(each, half) for each in met for half in each.halves]
    numbered = any(each.turn(half) for each, half in halves)
    coped = any(half.end.kind == "cope" for _, half in halves)
    return (" ".join([SEEN, *([ORDER] if numbered else []), *([DASHED] if coped else []), TRY]),)


def _flowed(met: Sequence[Meeting], room: Point, scale: float, style: LengthStyle) -> tuple[tuple[Item, ...], ...]:
    return flow([meeting_cell(each, style=style, scale=scale) for each in met], room=room, scale=scale, even=True)


def trim_corner_view(items: Sequence[Item], *, scale: float, name: str = "trim-corners") -> View:
    """Return corners that have their places already."""
    return make_view(name=name, title=f"{TITLE}, seen from above", scale=scale, items=items)


def _saw_pages(plan: Plan, trim: TrimPlan, setting: Setting) -> tuple[Page, ...]:
    cells = saw_cells(trim, {wall.name: wall.mark for wall in plan.walls})
    if not cells:
        return ()
    pages = flow(cells, room=page_room(setting, SAW_NOTES), scale=1.0, even=True)
    views = (
        make_view(
            name="trim-at-the-saw" if len(pages) == 1 else f"trim-at-the-saw-{number}",
            title="How each end lies on the saw",
            scale=1.0,
            items=items,
        )
        for number, items in enumerate(pages, start=1)
    )
    return tuple(
        page_of(view, title="Mouldings at the saw", setting=setting, notes=SAW_NOTES, scaled=False) for view in views
    )


# --- one corner --------------------------------------------------------------------------------------------------


def meeting_cell(met: Meeting, *, style: LengthStyle, scale: float) -> Cell:
    """Return one corner from above with its words; its own axes, the corner line at the origin.

    Parameters
    ----------
    met
        How two lines meet.
    style
        How the project writes lengths.
    scale
        Model mm for one mm of paper.
    """
    shown = max(_shown(half.deep) for half in met.halves)
    sides = {out: _line(met.meeting.corner, out, shown) for out in (1, -1)}
    items: list[Item] = []
    for out, line in sides.items():
        items += _wall(line, out, met.meeting.corner, scale)
    for half in sorted(met.halves, key=met.turn):
        items += _moulding(half, sides[half.out], shown, scale)
    items += _cut_lines(met, sides)
    for half in met.halves:
        items += _number(met, half, sides[half.out], shown, scale)
    items.append(_angle(met.meeting, items, scale))
    return make_cell([*items, *_words(met, items, style, scale)], scale=scale)


def _shown(deep: float) -> float:
    return max(SHOWN * deep, LEAST_SHOWN)


def _line(corner: float, out: int, shown: float) -> WallLine:
    """Return one of the two faces, the corner line at the origin, the corner's middle upright on the page."""
    half = corner / 2
    away = (-math.sin(half), -math.cos(half)) if out > 0 else (math.sin(half), -math.cos(half))
    if out > 0:  # the left wall runs towards the corner
        start, direction = (away[0] * shown, away[1] * shown), (-away[0], -away[1])
    else:
        start, direction = (0.0, 0.0), away
    return WallLine(name="", start=start, direction=direction, length=shown, height=0.0)


def _along(half: Half, place: float, shown: float) -> float:
    """Return a place along the wall as one along the stretch that is shown."""
    return place - half.station + shown if half.out > 0 else place - half.station


def _wall(line: WallLine, out: int, corner: float, scale: float) -> list[Item]:
    """Return a wall's face with a hatched strip behind it, up to the plane that halves the corner."""
    deep, end = WALL * scale, line.length
    past = deep / math.tan(corner / 2)
    back = (0.0, end + past) if out > 0 else (-past, end)
    ring = tuple(
        line.at(along=along, behind=behind)
        for along, behind in ((0.0, 0.0), (end, 0.0), (back[1], deep), (back[0], deep))
    )
    dx, dy = line.direction
    return [
        hatch(ring, scale=scale, spacing=2.4, angle=math.atan2(dy, dx) + out * math.pi / 4),
        Line(a=ring[0], b=ring[1], pen=Pen.CUT),
    ]


def _ring(half: Half, shown: float) -> Ring:
    """Return a moulding from above as (along, behind), broken off where the drawing ends."""
    broken = 0.0 if half.out > 0 else shown
    back, front = (_along(half, place, shown) for place in (half.end.back, half.end.front))
    return (broken, 0.0), (back, 0.0), (front, -half.deep), (broken, -half.deep)


def _moulding(half: Half, line: WallLine, shown: float, scale: float) -> list[Item]:
    """Return a moulding from above; a coped one ends at its neighbour's front, what it loses is dashed."""
    ring = tuple(line.at(along=along, behind=behind) for along, behind in _coped(half, shown))
    dx, dy = line.direction
    items: list[Item] = [
        Path(points=ring, closed=True, pen=None, fill=Tone.WHITE),
        hatch(ring, scale=scale, spacing=LINING, angle=math.atan2(dy, dx) + math.pi / 4),
        *(Line(a=a, b=b, pen=Pen.CUT) for a, b in ((ring[0], ring[1]), (ring[1], ring[2]), (ring[2], ring[3]))),
    ]
    if half.end.kind == "cope":
        blank = [line.at(along=along, behind=behind) for along, behind in _ring(half, shown)[1:3]]
        ways = ((blank[0], blank[1]), (blank[1], ring[2]))
        items += [Line(a=a, b=b, pen=Pen.HIDDEN) for a, b in ways]
    if half.end.kind == "returned":
        tip = line.at(along=_along(half, half.end.front, shown), behind=0.0)
        items.append(Path(points=(ring[1], tip, ring[2]), closed=True, pen=Pen.CUT, fill=Tone.WHITE))
    return items


def _coped(half: Half, shown: float) -> Ring:
    """Return a moulding's outline: a cope cut back at the top of its section, where it meets the neighbour's front."""
    ring = _ring(half, shown)
    if half.end.kind != "cope":
        return ring
    by = -half.out * half.end.cope
    return ring[0], (ring[1][0] + by, ring[1][1]), (ring[2][0] + by, ring[2][1]), ring[3]


def _cut_lines(met: Meeting, sides: dict[int, WallLine]) -> list[Item]:
    """Return the line on which two mitred pieces meet, on beyond them."""
    if met.meeting.how != "mitre" or len(met.halves) < 2:
        return []
    half = met.halves[0]
    corner = sides[1].at(along=sides[1].length, behind=0.0)
    reach = 1.5 * half.deep / max(abs(math.sin(met.meeting.corner / 2)), 0.2)
    return [Line(a=corner, b=(corner[0], corner[1] - reach), pen=Pen.CENTRE)]


def _number(met: Meeting, half: Half, line: WallLine, shown: float, scale: float) -> list[Item]:
    """Return the circled number of a piece where one goes before the other: on the side where walls part."""
    turn = met.turn(half)
    if not turn:
        return []
    along = NUMBER_AT * shown if half.out > 0 else (1 - NUMBER_AT) * shown
    away = (BALL + 1.2) * scale
    behind = WALL * scale + away if met.meeting.corner < math.pi else -half.deep - away
    x, y = line.at(along=along, behind=behind)
    ring = tuple(
        (x + BALL * scale * math.cos(math.pi * k / 12), y + BALL * scale * math.sin(math.pi * k / 12))
        for k in range(24)
    )
    number = make_text(
        str(turn), at=(x, y - CAP / 2 * NAME_SIZE * scale), size=NAME_SIZE, scale=scale, align="centre", bold=True
    )
    return [Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE), number]


def _angle(meeting: LineMeeting, items: Sequence[Item], scale: float) -> Text:
    """Return the inside angle over the corner, or the outside one in front of it."""
    (_, low), (_, high) = bounds(items, scale=scale)
    if meeting.corner < math.pi:
        words, y = f"inside {format_angle(meeting.corner)}", high + 1.5 * scale
    else:
        words, y = f"outside {format_angle(2 * math.pi - meeting.corner)}", low - 3.6 * scale
    return make_text(words, at=(0.0, y), scale=scale, align="centre")


# --- words -------------------------------------------------------------------------------------------------------


def _words(met: Meeting, items: Sequence[Item], style: LengthStyle, scale: float) -> list[Item]:
    """Return what a corner is over it, and what is done in it under it."""
    (left, low), (right, high) = bounds(items, scale=scale)
    left = min(left, (left + right - WORDS * scale) / 2)
    step = LEADING * NOTE_SIZE * scale
    over = [line for words in met.places for line in wrap(words, width=WORDS, size=NAME_SIZE, bold=True)]
    under = [line for words in meeting_words(met, style) for line in wrap(words, width=WORDS)]
    texts: list[Item] = [
        make_text(
            line,
            at=(left, high + 2.5 * scale + (len(over) - 1 - k) * LEADING * NAME_SIZE * scale),
            size=NAME_SIZE,
            scale=scale,
            bold=True,
        )
        for k, line in enumerate(over)
    ]
    texts += [make_text(line, at=(left, low - 4.0 * scale - k * step), scale=scale) for k, line in enumerate(under)]
    return texts


def meeting_words(met: Meeting, style: LengthStyle) -> list[str]:
    """Return what is done in a corner, line by line: how the pieces meet, in which order, how the saw is set."""
    meeting = met.meeting
    words = [_how(met)]
    words += [meeting.note] if meeting.note else []
    for half in met.halves:
        side = "left wall" if half.out > 0 else "right wall"
        words.append(f"{side}, {'right' if half.out > 0 else 'left'} end: {_cut(half, style)}")
    return words


def _how(met: Meeting) -> str:
    if len(met.halves) < 2 and met.meeting.how != "ends alone":
        return "The other line stops at an opening before this corner."
    first = {1: "left", -1: "right"}
    order = [first[half.out] for half in sorted(met.halves, key=met.turn)]
    match met.meeting.how:
        case "mitre":
            return "Mitred: either piece first."
        case "cope":
            return (
                f"Coped: the {order[0]} wall's piece runs on to the face; the {order[-1]} wall's is cut to its profile."
            )
        case "slides past":
            return (
                f"The {order[0]} wall's piece slides past to the face; the {order[-1]} wall's stops against its front."
            )
        case "clear of each other":
            return "The two lines pass clear of each other."
        case _:
            return "This line ends here alone."


def _cut(half: Half, style: LengthStyle) -> str:
    """Return how an end is cut, in few words; the saw itself is drawn on its own page."""
    end = half.end
    if end.saw.mitre < SQUARE and end.saw.bevel < SQUARE:
        words = "square"
    else:
        words = f"mitre {format_angle(end.saw.mitre)}"
        words += f", bevel {format_angle(end.saw.bevel)}" if end.saw.bevel >= SQUARE else ""
    if end.beyond_saw:
        words += ", beyond the saw: by hand to the line"
    if end.kind == "cope":
        words += f", then coped back {drawing_length(end.cope, style=style)}"
    return words
