"""Trim layout of a wall: moulding frames with every gap, heights of lines and tiers.

Each chain along the wall adds up to the finished face, since it starts and ends at its corners. Heights count from the
finished floor. Where frames stand is decided by ``lathlight.mouldings``; pieces of trim are drawn by ``piece_plans``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.composing import Drawing, drawing_page
from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.elevation import UNDER, floor_line
from lathlight.drawings.face_words import frame_inside, opening_words, tier_names, trim_names
from lathlight.drawings.faces import face_items, faces_of
from lathlight.drawings.labels import Taken, running_figures, words_in
from lathlight.drawings.piece_plans import piece_pages
from lathlight.drawings.sheets import Line, Pen
from lathlight.drawings.text import make_text
from lathlight.drawings.views import make_view
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.faces import Face
    from lathlight.drawings.sheets import Item, Page, Point, Text, View
    from lathlight.mouldings import FilledBay, MouldingLayout, TiersInLine
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LARGEST = {"A4": 16.0, "Letter": 16.0, "A3": 8.0, "Tabloid": 8.0}  # walls are drawn no larger: 16 is 1:16
PAST = 4.0  # how far a centre line runs past the face [mm of paper]
SAME = 0.01  # two places that differ less are one [mm]
FRAME_NOTE = (
    "Frames: outside sizes, width by height. Figures on the right: top edges of trim, both edges of frames, over the "
    "finished floor."
)
TRIM_NOTE = "Figures on the right: top edges of trim, over the finished floor."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Middle:
    """The line about which frames are laid out."""

    at: float
    words: str


def trim_layout_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return a page for every wall that has mouldings, left to right, and the pieces of trim of all walls."""
    pages: list[Page] = []
    for wall in plan.walls:
        if not any(strip.wall == wall.name for strip in plan.strips):
            continue

        def draw(scale: float, name: str = wall.name) -> View:
            return trim_layout_view(plan, name, scale=scale)

        pages += drawing_page(
            Drawing(draw=draw, size=(wall.length, wall.height), largest=LARGEST[setting.heading.paper]),
            name=f"mouldings-{wall.mark}",
            title=f"Wall {wall.mark}, {wall.name}: mouldings",
            setting=setting,
            notes=(FRAME_NOTE if _has_frames(plan, wall.name) else TRIM_NOTE,),
        )
    return (*pages, *piece_pages(plan, setting))


def _has_frames(plan: Plan, wall: str) -> bool:
    return plan.frames is not None and any(frame.wall == wall for frame in plan.frames.frames)


def trim_layout_view(plan: Plan, wall: str, *, scale: float) -> View:
    """Return one wall with its moulding frames and trim lines measured.

    Parameters
    ----------
    plan
        The plan.
    wall
        Name of the wall.
    scale
        Model mm for one mm of paper.
    """
    style = plan.brief.style
    (face,) = faces_of(plan, [wall])
    items = face_items(face, scale, seams=False)
    rows = _gap_rows(plan.frames, face)
    items += level_chains(rows, edge_y=0.0, below=True, scale=scale, style=style)
    items += _height_chains(face, scale, style)
    items += _running(face, scale, style)
    items += _middles(plan.frames, face, scale)
    taken = Taken(items, scale=scale)
    sizes = _frame_sizes(face, taken, style, scale)
    items += sizes
    items += opening_words([face], taken, style, scale)
    items += trim_names([face], taken, scale)
    items += tier_names([face], taken, scale, named={text.words for text in sizes})
    items += floor_line((face.wall.length + 2 * scale, face.floor - UNDER * scale), face=face, style=style, scale=scale)
    title = f"Wall {face.wall.mark}, {wall}: mouldings"
    return make_view(name=f"mouldings-{face.wall.mark}", title=title, scale=scale, items=items)


def _gap_rows(layout: MouldingLayout | None, face: Face) -> list[list[float]]:
    """Return the stops of a chain for every tier: corners, ends of bays, edges of frames; then the wall's length.

    A tier whose stops all stand in another one's is in line with it and needs no chain of its own.
    """
    whole = [0.0, face.wall.length]
    found = [
        {round(x, 6) for x in (*whole, *edges)}
        for group in (layout.in_line if layout else ())
        for tier in group.tiers
        if (edges := _tier_edges(group, tier.name, face))
    ]
    rows = [
        stops for k, stops in enumerate(found) if not any(stops < other for other in found) and stops not in found[:k]
    ]
    return [*(sorted(stops) for stops in rows), whole]


def _tier_edges(group: TiersInLine, tier: str, face: Face) -> list[float]:
    """Return where the bays and frames of one tier begin and end on a wall."""
    found: list[float] = []
    for filled in group.bays:
        if filled.bay.wall == face.wall.name and tier in filled.bay.tiers:
            found += [filled.bay.left, filled.bay.right]
            found += [x for left in filled.pattern.lefts for x in (left, left + filled.pattern.width)]
    return found


def _height_chains(face: Face, scale: float, style: LengthStyle) -> list[Item]:
    """Return heights from the finished floor on the left: trim and tiers from edge to edge, and the whole."""
    height = face.wall.height
    trim = [z for piece in face.pieces for z in (piece.bottom, piece.top)]
    tiers = [z for frame in face.frames for z in (frame.bottom, frame.top)]
    rows = [[face.floor, height, *trim, *tiers], [face.floor, height]]
    return [*upright_chains(rows, edge_x=0.0, left=True, scale=scale, style=style, datum=face.floor)]


def _running(face: Face, scale: float, style: LengthStyle) -> list[Item]:
    """Return the heights of lines' top edges and of frames over the finished floor, on the right."""
    frames = [z for frame in face.frames for z in (frame.bottom, frame.top)]
    edges = sorted({round(z, 3) for z in [*(piece.top for piece in face.pieces), *frames]})
    marks = [(z, drawing_length(z - face.floor, style=style)) for z in edges]
    return [*running_figures(marks, edge=face.wall.length, level=False, out=1, scale=scale)]


def _middles(layout: MouldingLayout | None, face: Face, scale: float) -> list[Item]:
    """Return the lines about which frames are laid out, named over the face."""
    items: list[Item] = []
    taken = Taken([], scale=scale)
    top = face.wall.height
    for middle in _middle_lines(layout, face):
        at = middle.at
        items.append(Line(a=(at, -PAST * scale), b=(at, top + PAST * scale), pen=Pen.CENTRE))
        spots = (
            make_text(middle.words, at=(at, top + (PAST + 1.0 + 3.6 * row) * scale), scale=scale, align="centre")
            for row in range(8)
        )
        text = taken.first_free(spots, gap=0.5 * scale)
        items += [text] if text else []
    return items


def _middle_lines(layout: MouldingLayout | None, face: Face) -> list[_Middle]:
    found: dict[float, _Middle] = {}
    for group in layout.in_line if layout else ():
        asked = dict(group.tiers[0].middles).get(face.wall.name)
        for filled in group.bays:
            if filled.bay.wall == face.wall.name:
                middle = _middle_of(filled, asked, face)
                found.setdefault(round(middle.at, 2), middle)
    return [found[at] for at in sorted(found)]


def _middle_of(filled: FilledBay, asked: float | None, face: Face) -> _Middle:
    bay = filled.bay
    if asked is not None and bay.left < asked < bay.right:
        return _Middle(at=asked, words="middle of the picture")
    at = (bay.left + bay.right) / 2
    whole = abs(at - face.wall.length / 2) < SAME
    return _Middle(at=at, words="middle of the wall" if whole else "middle of the bay")


def _frame_sizes(face: Face, taken: Taken, style: LengthStyle, scale: float) -> list[Text]:
    """Return the outside size in every frame, and its tier's name in the first that has room for both."""
    found: list[Text] = []
    named: set[str] = set()
    for frame in face.frames:
        width, height = (drawing_length(mm, style=style) for mm in (frame.width, frame.height))
        low, high = frame_inside(face, frame)
        name = () if frame.tier in named else (frame.tier,)
        sizes = (f"{width} × {height}",), (f"{width} ×", height)
        for lines in dict.fromkeys((*((*name, *size) for size in sizes), *sizes)):
            texts = _first_stack(lines, low, high, taken, scale, bold=lines[:1] == name)
            if texts:
                found += texts
                named |= set(lines) & set(name)
                break
    return found


def _first_stack(
    lines: tuple[str, ...],
    low: Point,
    high: Point,
    taken: Taken,
    scale: float,
    *,
    bold: bool,
) -> tuple[Text, ...]:
    """Return words in the lower part of a field, or the upper one, clear of what stands there."""
    middle = (low[1] + high[1]) / 2
    for floor, top in ((low[1], high[1]), (low[1], middle), (middle, high[1])):
        texts = words_in(lines, low=(low[0], floor), high=(high[0], top), scale=scale, bold_first=bold)
        if len(texts) == len(lines) and taken.all_free(texts):  # a figure is never broken
            return texts
    return ()
