"""Framing of one flat, seen from behind as it lies face down on the floor: what the carpenter lays out and screws.

Left and right are those of somebody behind the set, so that places count from the flat's right-hand end as the camera
sees it. The sheet on the far side is hidden and dashed. Which members there are is decided by the carpentry.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.labels import SMALL, Taken, around, arrow, running_figures
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import bounds_of, clear_size, rectangle
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.tables import Column
from lathlight.drawings.text import NOTE_SIZE, boxes_overlap, make_text
from lathlight.drawings.views import bounds, make_view
from lathlight.geometry import visible_parts
from lathlight.units import drawing_length, drawing_mass, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import BuiltWall, CutLine, Flat, FramedOpening, Member
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.drawings.text import Align
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

RIB = "rib"  # what an arch's rib is called, on it and in the table
HEADING_SIZE = 3.2  # [mm of paper]
UP_ARROW = 14.0  # length of the arrow that points up [mm of paper]
OPENING_COLUMNS: tuple[tuple[str, float, Align], ...] = (
    ("Opening", 35.0, "left"),
    ("Clear", 33.0, "right"),
    ("Rough", 33.0, "right"),
    ("From the left end", 18.0, "right"),
    ("From the bottom", 16.0, "right"),
    ("Sill strap, long", 16.0, "right"),
    ("Lining, thick", 14.0, "right"),
)
NARROW_HALF = 26.0  # of each of two columns beside the frame [mm of paper]
TABLE_WIDTH = 165.0  # of the tables under the frame [mm of paper]
ORDINATE_HEAD = 30.0  # of the column that says what an arch's ordinates are [mm of paper]
MARK_SHARES = (0.36, 0.64, 0.72, 0.28, 0.8, 0.2, 0.86, 0.14, 0.9, 0.1, 0.94, 0.06)  # where letters are tried
RIB_SHARES = ((0.25, 0.15), (0.15, 0.25), (0.4, 0.1), (0.12, 0.35))  # down, and in, where its name is tried
TOUCH = 1e-6


def framing_view(plan: Plan, flat: Flat, *, scale: float) -> View:
    """Return the framing of one flat from behind; x counts from its left end as seen here, z from its bottom."""
    style = plan.brief.style
    items: list[Item] = [*_hidden(flat), *_ribs(flat), *_lining(flat), *_timber(flat), *_plates(flat)]
    items += _diagonals(flat, style, scale)
    taken = Taken(items, scale=scale)
    items += _member_marks(flat, taken, scale)
    items += _rib_names(flat, taken, scale)
    items += _chains(flat, style, scale)
    items += _running(flat, taken, style, scale)
    items += _signs(items, scale)
    title = f"Flat {flat.mark}, seen from behind"
    return make_view(name=f"framing-{flat.mark}", title=title, scale=scale, items=items)


def timber_listing(plan: Plan, flat: Flat) -> Listing:
    """Return the table of a flat's timber by mark, the ribs of its arches last."""
    members = {member.id: member for member in flat.members}
    rows = [_timber_row(line, members[line.ids[0]], plan.brief.style) for line in plan.timber if line.ids[0] in members]
    rows += [_rib_row(opening, plan.brief.style) for opening in flat.openings if opening.ribs]
    columns = (
        Column(heading="Mark", width=13),
        Column(heading="Off", width=9, align="right"),
        Column(heading="What", width=39),
        Column(heading="Section", width=25),
        Column(heading="Length", width=21, align="right"),
        Column(heading="Ends", width=20),
        Column(heading="Note", width=38),
    )
    what = "Timber and ribs" if any(opening.ribs for opening in flat.openings) else "Timber"
    return Listing(title=f"{what} of flat {flat.mark}", columns=columns, rows=tuple(rows))


def opening_listings(plan: Plan, flat: Flat) -> tuple[Listing, ...]:
    """Return a flat's openings in one table: clear and rough size, and their places as seen from behind."""
    if not flat.openings:
        return ()
    columns = tuple(Column(heading=what, width=width, align=align) for what, width, align in OPENING_COLUMNS)
    floor = plan.brief.floor.rise
    rows = tuple(_opening_row(opening, flat, floor, plan.brief.style) for opening in flat.openings)
    upright = tuple(pair for row in rows for pair in zip((what for what, _, _ in OPENING_COLUMNS), row, strict=True))
    sides = Column(heading="Seen from behind", width=NARROW_HALF), Column(heading="", width=NARROW_HALF, align="right")
    narrow = Listing(title=f"Openings of flat {flat.mark}", columns=sides, rows=upright)
    title = f"Openings of flat {flat.mark}, rough places as seen from behind"
    return (Listing(title=title, columns=columns, rows=rows, narrow=narrow),)


def _opening_row(opening: FramedOpening, flat: Flat, floor: float, style: LengthStyle) -> tuple[str, ...]:
    """Return an opening's row: clear over the finished floor, rough from the frame's own bottom."""
    x, z, w, h = opening.rough
    return (
        opening.name if opening.kind in opening.name else f"{opening.name} ({opening.kind})",
        _size(*clear_size(opening, floor=floor), style),
        _size(w, h, style),
        drawing_length(flat.x1 - x - w, style=style),
        drawing_length(z - flat.z0, style=style),
        "none" if opening.strap is None else drawing_length(opening.strap, style=style),
        drawing_length(opening.lining_thickness, style=style) if opening.lining_thickness > 0 else "none",
    )


def arch_listings(plan: Plan, flat: Flat) -> tuple[Listing, ...]:
    """Return a table of ordinates for every arch of a flat."""
    style = plan.brief.style
    return tuple(
        _ordinates(opening, flat, style)
        for opening in flat.openings
        if opening.radius is not None and opening.ordinates
    )


def _ordinates(opening: FramedOpening, flat: Flat, style: LengthStyle) -> Listing:
    """Return an arch's ordinates from one springing to the crown; the other half is the same."""
    middle = opening.clear[2] / 2
    half = [(along, up) for along, up in opening.ordinates if along <= middle + TOUCH]
    radius = drawing_length(opening.radius or 0.0, style=style)
    pairs = tuple((drawing_length(along, style=style), drawing_length(up, style=style)) for along, up in half)
    each = (TABLE_WIDTH - ORDINATE_HEAD) / len(half)
    narrow = Listing(
        title=f"Arch, radius {radius}: half of it",
        columns=tuple(
            Column(heading=what, width=NARROW_HALF, align="right") for what in ("From the springing", "Height above it")
        ),
        rows=pairs,
    )
    return Listing(
        title=f"Arch of flat {flat.mark}, {opening.name}: radius {radius}, half of it",
        columns=(
            Column(heading="From the springing", width=ORDINATE_HEAD),
            *(Column(heading=along, width=each, align="right") for along, _ in pairs),
        ),
        rows=(("Height above it", *(up for _, up in pairs)),),
        narrow=narrow,
    )


def framing_notes(plan: Plan, flat: Flat) -> tuple[str, ...]:
    """Return what the carpenter has to know of a flat besides its drawing and tables."""
    style = plan.brief.style
    wall = next(wall for wall in plan.walls if wall.name == flat.wall)
    notes = [
        f"Outside {_size(flat.width, flat.height, style)}. Square when both diagonals measure "
        f"{drawing_length(flat.diagonal, style=style)}. Weighs about {drawing_mass(flat.weight.value, style)} with its "
        f"sheet. {flat.through.capitalize()} run whole. Pencil {flat.mark}, UP and FACE on the back.",
    ]
    notes += _edge_notes(flat, style)
    notes += _joint_notes(flat, wall)
    if plan.brief.floor.rise > 0 and any(opening.clear[1] < plan.brief.floor.rise for opening in flat.openings):
        rise = drawing_length(plan.brief.floor.rise, style=style)
        notes.append(f"Clear heights are over the finished floor, {rise} above this flat's bottom.")
    if any(opening.kind == "door" or opening.strap is not None for opening in flat.openings):
        notes.append("The sill strap ties the bottom plates across the door: fix it before the flat is lifted.")
    if flat.built_in_room:
        notes.append("This flat passes no way in: it is built in the room.")
    return tuple(notes)


def _timber_row(line: CutLine, member: Member, style: LengthStyle) -> tuple[str, ...]:
    section = _size(member.stock.width, member.stock.depth, style)
    return (
        member.mark,
        str(line.number),
        line.what,
        section,
        drawing_length(line.length, style=style),
        _ends(line.ends),
        line.note,
    )


def _rib_row(opening: FramedOpening, style: LengthStyle) -> tuple[str, ...]:
    """Return the line of an arch's ribs: two alike, mirrored."""
    rib = opening.ribs[0]
    x0, z0, x1, z1 = bounds_of(rib.outline)
    layers = "1 layer" if rib.layers == 1 else f"{rib.layers} layers"
    what = f"rib, {layers} of {rib.sheet.name}, to the ordinates"
    note = f"{opening.name}; left and right mirrored, behind the face"
    return RIB, str(len(opening.ribs)), what, _size(x1 - x0, z1 - z0, style), "", "", note


def _ends(ends: tuple[float, float]) -> str:
    if max(abs(end) for end in ends) < 1e-4:
        return "square"
    return " / ".join("square" if abs(end) < 1e-4 else format_angle(abs(end)) for end in ends)


def _size(width: float, height: float, style: LengthStyle) -> str:
    return f"{drawing_length(width, style=style)} × {drawing_length(height, style=style)}"


def _edge_notes(flat: Flat, style: LengthStyle) -> list[str]:
    """Return where the sheet's edges lie against the frame's ends, where they differ."""
    notes: list[str] = []
    for end, inside in (("left", flat.x1 - flat.sheet_x1), ("right", flat.sheet_x0 - flat.x0)):
        figure = drawing_length(abs(inside), style=style)
        if abs(inside) > TOUCH and figure != "0":
            where = "stops short of" if inside > 0 else "runs past"
            notes.append(f"The sheet {where} the frame's {end} end as seen here by {figure}.")
    return notes


def _joint_notes(flat: Flat, wall: BuiltWall) -> list[str]:
    """Return which flats are joined to this one and come apart again."""
    marks = {other.name: other.mark for other in wall.flats}
    notes: list[str] = []
    for joint in wall.joints:
        if flat.name in (joint.left, joint.right):
            other = marks[joint.right if flat.name == joint.left else joint.left]
            if joint.upright:
                side = "left" if flat.name == joint.left else "right"
                notes.append(f"Joint with {other} at the {side} end as seen here; it comes apart for every move.")
            else:
                side = "top" if flat.name == joint.left else "bottom"
                notes.append(f"Joint with {other} at the {side}; it comes apart for every move.")
    return notes


def _seen(flat: Flat, ring: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Return a ring of the wall's face as it is seen from behind the flat."""
    return tuple((flat.x1 - x, z - flat.z0) for x, z in ring)


def _hidden(flat: Flat) -> list[Item]:
    """Return the sheet pieces on the far side: edges, seams and openings."""
    rings = [ring for piece in flat.pieces for ring in (piece.outline, *piece.holes)]
    return [Path(points=_seen(flat, ring), closed=True, pen=Pen.HIDDEN) for ring in rings]


def _box(flat: Flat, member: Member) -> tuple[float, float, float, float]:
    """Return a member's left, bottom, right and top as seen from behind."""
    left = flat.x1 - member.x - member.wide
    return left, member.z - flat.z0, left + member.wide, member.z - flat.z0 + member.high


def _timber(flat: Flat) -> list[Item]:
    return [Path(points=rectangle(*_box(flat, member)), closed=True, pen=Pen.OUTLINE) for member in flat.members]


def _lining(flat: Flat) -> list[Item]:
    """Return the thickness pieces of openings; the curved one of an arch is left to its ordinates."""
    return [
        Path(
            points=_seen(flat, rectangle(piece.x, piece.z, piece.x + piece.wide, piece.z + piece.high)),
            closed=True,
            pen=Pen.LIGHT,
        )
        for opening in flat.openings
        for piece in opening.lining
        if piece.side != "arch"
    ]


def _ribs(flat: Flat) -> list[Item]:
    """Return the ribs along arches; what lies behind timber, as seen from here, is hidden."""
    rings = [_seen(flat, rib.outline) for opening in flat.openings for rib in opening.ribs]
    covers = {k: (rectangle(*_box(flat, member)), ()) for k, member in enumerate(flat.members, start=1)}
    closed = [(*ring, ring[0]) for ring in rings]
    items: list[Item] = []
    for ring, seen in zip(closed, visible_parts([(0, ring) for ring in closed], covers), strict=True):
        if seen != (ring,):
            items.append(Path(points=ring[:-1], closed=True, pen=Pen.HIDDEN))
        items += [Path(points=part, closed=False, pen=Pen.LIGHT) for part in seen]
    return items


def _rib_names(flat: Flat, taken: Taken, scale: float) -> list[Item]:
    """Return every rib's name on it, or beside it with a leader."""
    found: list[Item] = []
    for rib in (rib for opening in flat.openings for rib in opening.ribs):
        x0, z0, x1, z1 = bounds_of(_seen(flat, rib.outline))
        far = x0 if rib.side == "right" else x1  # away from the crown, where it is widest; left and right change places
        spots = [(far + share * (x0 + x1 - 2 * far), z1 - up * (z1 - z0)) for up, share in RIB_SHARES]
        texts = (make_text(RIB, at=spot, scale=scale, size=SMALL, align="centre", backed=True) for spot in spots)
        text = taken.first_free(texts)
        if text is None:
            away = (make_text(RIB, at=spot, scale=scale, backed=True) for spot in around(spots[0], scale=scale))
            text = taken.first_free(away) or make_text(RIB, at=spots[0], scale=scale, backed=True)
            found.append(Line(a=spots[0], b=text.at, pen=Pen.DIMENSION))
        found.append(text)
    return found


def _plates(flat: Flat) -> list[Item]:
    return [Path(points=_seen(flat, plate.outline), closed=True, pen=Pen.OUTLINE) for plate in flat.plates]


def _diagonals(flat: Flat, style: LengthStyle, scale: float) -> list[Item]:
    """Return both diagonals from corner to corner, each with its length; in a narrow flat one figure says both."""
    w, h = flat.width, flat.height
    length = drawing_length(flat.diagonal, style=style)
    ways = (((0.0, 0.0), (w, h)), ((0.0, h), (w, 0.0)))
    lines: list[Item] = [Line(a=a, b=b, pen=Pen.DIMENSION) for a, b in ways]
    first, second = (_along(a, b, f"diagonal {length}", scale) for a, b in ways)
    if boxes_overlap(first.box, second.box, slack=-0.5 * scale):
        return [*lines, _along(*ways[0], f"both diagonals {length}", scale)]
    return [*lines, first, second]


def _along(a: Point, b: Point, words: str, scale: float) -> Text:
    """Return words along a line, three tenths from its beginning."""
    at = (a[0] + 0.3 * (b[0] - a[0]), a[1] + 0.3 * (b[1] - a[1]))
    angle = math.atan2(b[1] - a[1], b[0] - a[0])
    return make_text(words, at=at, scale=scale, align="centre", angle=angle, backed=True)


def _member_marks(flat: Flat, taken: Taken, scale: float) -> list[Item]:
    """Return every member's letter on it, or beside it with a leader, where it covers no other words."""
    found: list[Item] = []
    for number, member in enumerate(flat.members):
        left, low, right, high = _box(flat, member)
        middle = (left + right) / 2, (low + high) / 2
        on_it = [
            (middle[0], low + share * (high - low)) if member.upright else (left + share * (right - left), middle[1])
            for share in (0.44 + 0.06 * (number % 3), *MARK_SHARES)  # neighbours' letters stand at different heights
        ]
        texts = (_mark(member.mark, spot, scale, size) for size in (NOTE_SIZE, SMALL) for spot in on_it)
        text = taken.first_free(texts)
        if text is None:
            away = (_mark(member.mark, spot, scale) for spot in around(middle, scale=scale))
            text = taken.first_free(away) or _mark(member.mark, middle, scale)
            found.append(Line(a=middle, b=text.at, pen=Pen.DIMENSION))
        found.append(text)
    return found


def _mark(words: str, middle: Point, scale: float, size: float = NOTE_SIZE) -> Text:
    at = middle[0], middle[1] - 0.35 * size * scale
    return make_text(words, at=at, scale=scale, size=size, align="centre", bold=True, backed=True)


def _chains(flat: Flat, style: LengthStyle, scale: float) -> list[Item]:
    """Return stud centres, openings and width below; heights of openings and of the frame on the right."""
    w, h = flat.width, flat.height
    centres = [flat.x1 - m.x - m.wide / 2 for m in flat.members if m.upright and m.role not in ("end stud", "wedge")]
    edges = [flat.x1 - x for o in flat.openings for x in (o.rough[0], o.rough[0] + o.rough[2])]
    levels = [z - flat.z0 for o in flat.openings for z in (o.rough[1], o.rough[1] + o.rough[3])]
    inside = [x for x in edges if 0 < x < w]
    rows = [
        ("centres", [0.0, w, *_distinct(centres)] if centres else []),
        ("openings", [0.0, w, *inside] if inside else []),
        ("", [0.0, w]),
    ]
    below = level_chains([row for _, row in rows], edge_y=0.0, below=True, scale=scale, style=style)
    heights = [[0.0, h, *[z for z in levels if 0 < z < h]] if levels else [], [0.0, h]]
    items: list[Item] = [*below, *upright_chains(heights, edge_x=w, left=False, scale=scale, style=style)]
    names = [name for name, row in rows if len(row) > 1]
    for chain, name in zip(below, names, strict=False):
        if name and len(chain.stops) > 2:
            (_, _), (end, _) = bounds([chain], scale=scale)
            items.append(make_text(name, at=(end + 1.5 * scale, chain.origin[1] - 0.8 * scale), scale=scale))
    return items


def _distinct(values: Sequence[float]) -> list[float]:
    """Return values in order, those that coincide once."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > 0.5:
            kept.append(value)
    return kept


def _running(flat: Flat, taken: Taken, style: LengthStyle, scale: float) -> list[Item]:
    """Return running figures: left edges of uprights over the frame, bottom edges of level members beside it."""
    lefts = [_box(flat, m)[0] for m in flat.members if m.upright and m.role != "wedge"]
    edge = min(0.0, flat.x1 - flat.sheet_x1, *(_box(flat, m)[0] for m in flat.members))
    bottoms = [_box(flat, m)[1] for m in flat.members if not m.upright and m.role not in ("bottom plate", "top plate")]
    over = running_figures(
        [(x, drawing_length(x, style=style)) for x in lefts], edge=flat.height, level=True, out=1, scale=scale
    )
    beside = running_figures(
        [(z, drawing_length(z, style=style)) for z in bottoms], edge=edge, level=False, out=-1, scale=scale
    )
    (low, _), (_, high) = bounds(over, scale=scale)
    items: list[Item] = [*over, *beside]
    items.append(make_text("left edges, from the left end", at=(low, high + 1.2 * scale), scale=scale))
    if beside:
        (_, foot), (right, _) = bounds(beside, scale=scale)
        spots = [(right - across * scale, foot - down * scale) for down in (3.4, 5.0, 6.6) for across in (0, 2, 4)]
        names = [make_text("bottom edges", at=spot, scale=scale, align="right") for spot in spots]
        taken.add(items)
        items.append(taken.first_free(names) or names[-1])
    return items


def _signs(items: Sequence[Item], scale: float) -> list[Item]:
    """Return the arrow that points up, beside everything, and the side seen, over everything."""
    (low, foot), (right, top) = bounds(items, scale=scale)
    x, y = right + 4.5 * scale, (foot + top) / 2
    words = make_text("UP", at=(x, y - 4.2 * scale), size=HEADING_SIZE, scale=scale, align="centre", bold=True)
    side = "SEEN FROM BEHIND: its face is away from you"
    heading = make_text(side, at=(low, top + 2 * scale), size=HEADING_SIZE, scale=scale, bold=True)
    return [*arrow((x, y), (x, y + UP_ARROW * scale), scale=scale), words, heading]
