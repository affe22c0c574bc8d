"""Pieces of trim seen from above, wall by wall, a row a line: their places, how their ends slant, their long points.

Places along the wall are to scale, what the pieces stand out from it is not: every row is as deep as its words need.
The wall is above, the camera below, so that an end at an inside corner is longer above. What the cuts are is decided
by ``lathlight.mouldings``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.cells import flow, make_cell, page_of, page_room
from lathlight.drawings.labels import Taken
from lathlight.drawings.scales import IMPERIAL, METRIC
from lathlight.drawings.sheets import Path, Pen, Tone
from lathlight.drawings.text import NOTE_SIZE, make_text, text_width
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.drawings.cells import Cell
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.sheets import Item, Page, Text
    from lathlight.drawings.text import Align
    from lathlight.mouldings import PieceEnd, TrimPiece
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

DEEP = 4.4  # of a piece in a row [mm of paper]
FIRST = 6.0  # from the name of the wall to the first row [mm of paper]
ROW = 13.0  # from row to row [mm of paper]
UNDER = 3.0  # from a piece to the baseline of its ends' words [mm of paper]
ASIDE = 3.0  # from the rows to the name of their line [mm of paper]
MOST_SLANT = math.radians(60)  # a longer point would run over its neighbour
SQUARE = math.radians(0.005)  # what prints as 0 degrees is square
HEAD_SIZE = 3.2  # of a wall's name [mm of paper]
LARGEST = 16.0  # largest scale wanted, as model mm for one mm of paper
MOST_ROWS = 8  # lines of a wall that stand together
TITLE = "Pieces of trim and their ends"
NOTES = (
    "Seen from above, the wall at the top; what a piece stands out is not to scale. The long point is what the stock "
    "must give. Ends are told in degrees from square; one without words is cut square: where flats part, or where a "
    "short piece has no room for words.",
)
SAID = {  # an end at a joint of flats says nothing: its neighbour stands beside it
    "inside mitre": "mitre",
    "outside mitre": "outside mitre",
    "cope": "cope",
    "against the wall": "to the wall",
    "against the line": "to the line",
    "against casing": "to the casing",
    "scarf": "scarf",
    "returned": "return",
    "square": "square",
}


def piece_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return all pieces of trim at the largest scale at which every wall fits a page; none where there are none."""
    if plan.trim is None or not plan.trim.pieces:
        return ()
    for scale in _scales(setting.style):
        cells = piece_cells(plan, scale=scale)
        for landscape in (False, True):
            room = page_room(setting, NOTES, landscape=landscape)
            if max(cell.size[0] for cell in cells) <= room[0] * scale:
                pages = flow(cells, room=room, scale=scale)
                return tuple(_page(items, n, len(pages), scale, setting, landscape) for n, items in enumerate(pages, 1))
    raise AssertionError("words wider than a page")  # names are shorter than any paper is wide


def _scales(style: LengthStyle) -> Iterator[float]:
    """Yield the standard scales from the largest wanted on; past the smallest, ever halved."""
    known = METRIC if style.system == "metric" else tuple(IMPERIAL)
    yield from (scale for scale in known if scale >= LARGEST)
    yield from (known[-1] * 2.0**step for step in range(1, 40))


def _page(items: Sequence[Item], number: int, of: int, scale: float, setting: Setting, landscape: bool) -> Page:
    name = "trim-pieces" if of == 1 else f"trim-pieces-{number}"
    view = make_view(name=name, title="Pieces of trim, seen from above", scale=scale, items=items)
    return page_of(view, title=TITLE, setting=setting, notes=NOTES, landscape=landscape)


def piece_cells(plan: Plan, *, scale: float) -> list[Cell]:
    """Return the pieces of trim from above, wall by wall, each with its long point and its ends.

    Parameters
    ----------
    plan
        The plan; without trim there are none.
    scale
        Model mm for one mm of paper.
    """
    cells: list[Cell] = []
    for wall in plan.walls:
        lines = _lines([p for p in plan.trim.pieces if p.wall == wall.name] if plan.trim else [])
        for start in range(0, len(lines), MOST_ROWS):
            words = f"{wall.mark}  {wall.name}{', continued' if start else ''}"
            head = make_text(words, at=(0.0, 0.0), size=HEAD_SIZE, scale=scale, bold=True)
            rows = piece_rows(lines[start : start + MOST_ROWS], top=0.0, style=plan.brief.style, scale=scale)
            cells.append(make_cell([head, *rows], scale=scale))
    return cells


def _lines(pieces: Sequence[TrimPiece]) -> list[list[TrimPiece]]:
    """Return the pieces of every line, the highest line first, each from left to right."""
    tops = {piece.line: piece.top for piece in pieces}
    names = sorted(tops, key=lambda name: (-tops[name], name))
    return [sorted((p for p in pieces if p.line == name), key=lambda p: p.start) for name in names]


def piece_rows(
    lines: Sequence[Sequence[TrimPiece]], *, top: float, style: LengthStyle, scale: float
) -> tuple[Item, ...]:
    """Return a row for every line of trim on one wall, from top to bottom.

    Parameters
    ----------
    lines
        The pieces of each line, left to right; no line is empty.
    top
        Where the rows begin [model mm]; they hang from there.
    style
        How the project writes lengths.
    scale
        Model mm for one mm of paper.
    """
    items: list[Item] = []
    taken = Taken([], scale=scale)
    for number, pieces in enumerate(lines):
        back = top - (FIRST + number * ROW) * scale
        row: list[Item] = [item for piece in pieces for item in _piece_items(piece, back, scale)]
        row += [text for piece in pieces for text in _words(piece, back, style, taken, scale)]
        items += [*row, _line_name(pieces, row, back, scale)]
    return tuple(items)


def _piece_items(piece: TrimPiece, back: float, scale: float) -> list[Item]:
    """Return a piece from above, and the small piece that returns a free end to the wall."""
    front = back - DEEP * scale
    (left, left_tip), (right, right_tip) = _edges(piece.left, 1, scale), _edges(piece.right, -1, scale)
    ring = ((left, back), (right, back), (right_tip, front), (left_tip, front))
    items: list[Item] = [Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE)]
    for end, inwards, at_back, tip in ((piece.left, 1, left, left_tip), (piece.right, -1, right, right_tip)):
        if end.kind == "returned":
            items.append(Path(points=((at_back, back), (tip, back), (tip, front)), closed=True, pen=Pen.LIGHT))
        if end.kind == "cope":
            items.append(_cope(((at_back + tip) / 2, (back + front) / 2), inwards, scale))
    return items


def _edges(end: PieceEnd, inwards: int, scale: float) -> tuple[float, float]:
    """Return where an end meets the wall and the front of its row: its slant true, its long point where it is."""
    slant = min(max(end.slant, -MOST_SLANT), MOST_SLANT)
    deep = inwards * DEEP * scale * math.tan(slant)
    if end.kind == "scarf":  # one plane for both pieces, about its middle
        return end.station - deep / 2, end.station + deep / 2
    return (end.back, end.back + deep) if slant >= 0 else (end.front - deep, end.front)


def _cope(middle: tuple[float, float], inwards: int, scale: float) -> Path:
    """Return the wave that stands for a coped end."""
    x, y = middle
    points = tuple(
        (x + inwards * (1.4 + 0.6 * math.sin(2 * math.pi * k / 8)) * scale, y + (k / 8 - 0.5) * DEEP * scale)
        for k in range(9)
    )
    return Path(points=points, closed=False, pen=Pen.LIGHT)


def _wave(end: PieceEnd, scale: float) -> float:
    """Return the room that the wave of a coped end takes."""
    return 2.4 * scale if end.kind == "cope" else 0.0


def _words(piece: TrimPiece, back: float, style: LengthStyle, taken: Taken, scale: float) -> Iterator[Text]:
    """Yield a piece's long point in it, or over it, and what its ends are under it."""
    left = max(_edges(piece.left, 1, scale)) + _wave(piece.left, scale)
    right = min(_edges(piece.right, -1, scale)) - _wave(piece.right, scale)
    middle = (left + right) / 2
    figure = drawing_length(piece.long_point, style=style)
    base = back - (DEEP / 2 + 0.35 * NOTE_SIZE) * scale
    over = back + 0.9 * scale
    for words, y, room in (
        (f"long point {figure}", base, right - left - scale),
        (figure, base, right - left - scale),
        (figure, over, math.inf),
    ):
        text = make_text(words, at=(middle, y), scale=scale, align="centre", backed=y == over)
        if text_width(words, size=NOTE_SIZE) * scale <= room and taken.all_free([text], gap=0.3 * scale):
            yield text
            break
    yield from _end_words(piece, back - (DEEP + UNDER) * scale, taken, scale)


def _end_words(piece: TrimPiece, y: float, taken: Taken, scale: float) -> Iterator[Text]:
    """Yield what both ends are where there is room for it, else their angles, else one of them: a slanting end's."""
    both = end_words(piece.left), end_words(piece.right)
    places = piece.left.station + scale, piece.right.station - scale
    aligns: tuple[Align, Align] = ("left", "right")
    room = places[1] - places[0] - scale

    def texts(pick: int) -> list[Text]:
        sides = zip(both, places, aligns, strict=True)
        return [make_text(said[pick], at=(x, y), scale=scale, align=align) for said, x, align in sides if said]

    for pick in (0, -1):
        found = texts(pick)
        wide = sum(text_width(text.words, size=NOTE_SIZE) + 1.0 for text in found) * scale
        if wide <= room and taken.all_free(found):
            yield from found
            return
    for text in sorted(texts(-1), key=lambda text: "°" not in text.words):
        if taken.all_free([text]):
            yield text


def end_words(end: PieceEnd) -> tuple[str, ...]:
    """Return what an end is and its angle from square, the fullest first.

    Examples
    --------
    >>> from lathlight.mouldings import SawSetting
    >>> saw = SawSetting(mitre=0.0, bevel=0.0, swing="none", fence="back", kept="left")
    >>> from lathlight.mouldings import PieceEnd
    >>> end_words(PieceEnd(kind="at a joint", station=0, back=0, front=0, slant=0.0, saw=saw, beyond_saw=False,
    ...                    against="", cope=0.0, over=False))
    ()
    """
    said = SAID.get(end.kind)
    if said is None:
        return ()
    if abs(end.slant) < SQUARE:
        return (said,)
    angle = format_angle(abs(end.slant))
    return f"{said} {angle}", angle


def _line_name(pieces: Sequence[TrimPiece], items: Sequence[Item], back: float, scale: float) -> Text:
    """Return the name of a row's line, left of everything in the row."""
    left = min(0.0, bounds(items, scale=scale)[0][0])
    y = back - (DEEP / 2 + 0.35 * NOTE_SIZE) * scale
    return make_text(pieces[0].line, at=(left - ASIDE * scale, y), scale=scale, align="right", bold=True)
