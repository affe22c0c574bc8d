"""Sheets: where every piece stands in its wall, and which sheet it is sawn from.

Factory edges carry two strokes and an F. How many sheets there are, and whether fewer would do, is the plan's to say.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.labels import Taken, around, words_in
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import bounds_of, rectangle
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.tables import Column
from lathlight.drawings.text import make_text
from lathlight.drawings.views import make_view
from lathlight.geometry import cut_out
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import CutSheet, PlacedPiece, SheetPart, SheetPiece
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, View
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

STROKE = 2.6  # length of the strokes that mark a factory edge [mm of paper]
STROKES_APART = 0.9  # [mm of paper]
LETTER_IN = 1.6  # from a factory edge to its letter [mm of paper]
SHEET_GAP = 8.0  # between two sheets [mm of paper]
SHEET_HEAD = 6.0  # room over a sheet for its number [mm of paper]
TOUCH = 1e-6


def sheet_map_view(plan: Plan, wall: str, *, scale: float) -> View:
    """Return the front of one wall's sheet pieces as they are sawn, with marks, sizes and factory edges."""
    style = plan.brief.style
    built = next(each for each in plan.walls if each.name == wall)
    marks = _marks(plan)
    items: list[Item] = []
    pieces = [piece for flat in built.flats for piece in flat.pieces]
    for piece in pieces:
        items.append(Path(points=piece.outline, closed=True, pen=Pen.OUTLINE))
        items += [Path(points=hole, closed=True, pen=Pen.OUTLINE) for hole in piece.holes]
    items += _map_chains(pieces, style, scale)
    taken = Taken(items, scale=scale)
    for piece in pieces:
        items += _factory_edges(piece, taken, scale)
    for piece in pieces:
        size = _size(piece, style)
        boxes = _free_boxes(piece.outline, piece.holes)
        items += _fitting_words([(marks[piece.id], size), (marks[piece.id],)], boxes, taken, scale)
    title = f"Wall {built.mark}: sheet pieces from the front"
    return make_view(name=f"sheets-{built.mark}", title=title, scale=scale, items=items)


def cut_sheets_view(plan: Plan, sheets: Sequence[CutSheet], *, columns: int, scale: float, name: str) -> View:
    """Return some sheets with what is sawn from each, in rows."""
    style = plan.brief.style
    items: list[Item] = []
    tallest = max(cut.sheet.length for cut in sheets) + (SHEET_GAP + SHEET_HEAD) * scale
    widest = max(cut.sheet.width for cut in sheets) + SHEET_GAP * scale
    places = [(number % columns * widest, -(number // columns) * tallest) for number in range(len(sheets))]
    for cut, at in zip(sheets, places, strict=True):
        items += _whole_sheet(cut, at, scale)
    taken = Taken(items, scale=scale)  # of all sheets: words on a leader may reach the next one
    for cut, at in zip(sheets, places, strict=True):
        items += _sawn_pieces(cut, at, style, taken, scale)
    return make_view(name=name, title="What is sawn from each sheet", scale=scale, items=items)


def piece_listing(plan: Plan, wall: str) -> Listing:
    """Return the table of one wall's sheet pieces."""
    style = plan.brief.style
    built = next(each for each in plan.walls if each.name == wall)
    marks, notes = _marks(plan), {identity: line.note for line in plan.panels for identity in line.ids}
    homes = {placed.piece: cut for cut in plan.cut_sheets for placed in cut.pieces}
    columns = (
        Column(heading="Piece", width=18),
        Column(heading="Width × height", width=40),
        Column(heading="Sheet", width=38),
        Column(heading="Factory edges", width=32),
        Column(heading="Note", width=42),
    )
    rows = [
        (
            marks[piece.id],
            _size(piece, style),
            f"{piece.sheet.name}, no {homes[piece.id].number}" if piece.id in homes else piece.sheet.name,
            ", ".join(side for side in ("left", "right", "bottom", "top") if side in piece.factory) or "none",
            "; ".join(each for each in (notes.get(piece.id, ""), *_notches(piece, style)) if each),
        )
        for flat in built.flats
        for piece in flat.pieces
    ]
    return Listing(title=f"Sheet pieces of wall {built.mark}", columns=columns, rows=tuple(rows))


def _marks(plan: Plan) -> dict[str, str]:
    """Return every piece's mark with its flat's, as on the piece list."""
    return {piece.id: f"{flat.mark}-{piece.mark}" for flat in plan.flats for piece in flat.pieces}


def _size(piece: SheetPiece | SheetPart, style: LengthStyle) -> str:
    return f"{drawing_length(piece.width, style=style)} × {drawing_length(piece.height, style=style)}"


def _notches(piece: SheetPiece, style: LengthStyle) -> list[str]:
    """Return the size and place of every rectangle that is cut out of a piece; curves are left to their ordinates."""
    x0, z0, x1, z1 = bounds_of(piece.outline)
    corners = cut_out(rectangle(x0, z0, x1, z1), [piece.outline])
    found: list[str] = []
    for ring in (*(ring for ring, _ in corners), *piece.holes):
        a, low, b, high = bounds_of(ring)
        if len(ring) > 4:
            continue
        size = f"{drawing_length(b - a, style=style)} × {drawing_length(high - low, style=style)}"
        along, up = drawing_length(a - x0, style=style), drawing_length(low - z0, style=style)
        found.append(f"cut out {size}, {along} from the left, {up} up")
    return found


def _factory_edges(piece: SheetPiece, taken: Taken, scale: float) -> list[Item]:
    """Return two strokes across every factory edge, and an F inside."""
    x0, z0, x1, z1 = bounds_of(piece.outline)
    items: list[Item] = []
    for side, (x, z), inward in (
        ("left", (x0, _along(piece, "left", z0, z1)), (1, 0)),
        ("right", (x1, _along(piece, "right", z0, z1)), (-1, 0)),
        ("bottom", (_along(piece, "bottom", x0, x1), z0), (0, 1)),
        ("top", (_along(piece, "top", x0, x1), z1), (0, -1)),
    ):
        if side not in piece.factory:
            continue
        half = STROKE / 2 * scale
        for step in (-STROKES_APART / 2 * scale, STROKES_APART / 2 * scale):
            cx, cz = x + step * abs(inward[1]), z + step * abs(inward[0])
            a = cx - half * abs(inward[0]), cz - half * abs(inward[1])
            b = cx + half * abs(inward[0]), cz + half * abs(inward[1])
            items.append(Line(a=a, b=b, pen=Pen.DIMENSION))
        deep = (LETTER_IN + 0.9) * scale
        at = x + inward[0] * deep, z + inward[1] * deep - 0.7 * scale
        text = make_text("F", at=at, size=2.0, scale=scale, align="centre")
        items += [text] if taken.first_free([text]) else []
    return items


def _along(piece: SheetPiece, side: str, low: float, high: float) -> float:
    """Return where along an edge its mark stands: on the longest straight part that the outline has there."""
    level = side in ("bottom", "top")
    x0, z0, x1, z1 = bounds_of(piece.outline)
    edge = {"left": x0, "right": x1, "bottom": z0, "top": z1}[side]
    best = (0.0, (low + high) / 2)
    for a, b in zip(piece.outline, (*piece.outline[1:], piece.outline[0]), strict=True):
        across, along = (1, 0) if level else (0, 1)
        if abs(a[across] - edge) < 1e-6 and abs(b[across] - edge) < 1e-6:
            best = max(best, (abs(a[along] - b[along]), (a[along] + b[along]) / 2))
    return best[1] + 0.18 * best[0]  # off the middle, where sizes stand


def _map_chains(pieces: Sequence[SheetPiece], style: LengthStyle, scale: float) -> list[Item]:
    """Return widths with cut-outs below, heights with cut-outs on the right, sizes over all outside them."""
    boxes = [bounds_of(piece.outline) for piece in pieces]
    low, high = min(b[0] for b in boxes), max(b[2] for b in boxes)
    foot, top = min(b[1] for b in boxes), max(b[3] for b in boxes)
    edges = [e for b in boxes for e in (b[0], b[2])]
    levels = [e for b in boxes for e in (b[1], b[3])]
    sawn = [line for piece in pieces for ring in (piece.outline, *piece.holes) for line in _saw_lines(ring)]
    across = [at for upright, at in sawn if upright]
    up = [at for upright, at in sawn if not upright]
    below = [[*edges, *across], edges, [low, high]]
    right = [[*levels, *up], levels, [foot, top]]
    return [
        *level_chains(below, edge_y=foot, below=True, scale=scale, style=style),
        *upright_chains(right, edge_x=high, left=False, scale=scale, style=style),
    ]


def _saw_lines(ring: Ring) -> list[tuple[bool, float]]:
    """Return the places of a ring's upright (True) and level sides, and of the top of its curve."""
    found: list[tuple[bool, float]] = []
    slanting: list[float] = []
    for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if abs(ax - bx) < TOUCH:
            found.append((True, ax))
        elif abs(az - bz) < TOUCH:
            found.append((False, az))
        else:
            slanting += [az, bz]
    return [*found, (False, max(slanting))] if slanting else found


def _free_boxes(outline: Ring, holes: Sequence[Ring]) -> list[tuple[float, float, float, float]]:
    """Return rectangles inside a piece, the largest first: all of it, or what lies beside its cut-outs."""
    x0, z0, x1, z1 = bounds_of(outline)
    cuts = [bounds_of(hole) for hole in holes]
    inner = [(x, z) for x, z in outline if x0 < x < x1 or z0 < z < z1]
    if inner:
        cuts.append(_notch_box(inner, (x0, z0, x1, z1)))
    boxes = [(x0, z0, x1, z1)]
    for a, low, b, high in cuts:
        boxes = [
            box
            for bx0, bz0, bx1, bz1 in boxes
            for box in ((bx0, bz0, a, bz1), (b, bz0, bx1, bz1), (bx0, bz0, bx1, low), (bx0, high, bx1, bz1))
            if box[2] - box[0] > 1.0 and box[3] - box[1] > 1.0
        ]
    return sorted(boxes, key=lambda box: (-(box[2] - box[0]) * (box[3] - box[1]), box))


def _notch_box(
    inner: Sequence[tuple[float, float]], whole: tuple[float, float, float, float]
) -> tuple[float, float, float, float]:
    """Return a rectangle round all that notches take out of a piece."""
    x0, z0, x1, z1 = whole
    a, low, b, high = bounds_of(inner)
    on_left, on_right = any(x <= x0 for x, _ in inner), any(x >= x1 for x, _ in inner)
    on_foot, on_top = any(z <= z0 for _, z in inner), any(z >= z1 for _, z in inner)
    return (x0 if on_left else a, z0 if on_foot else low, x1 if on_right else b, z1 if on_top else high)


def _fitting_words(
    choices: Sequence[Sequence[str]],
    boxes: Sequence[tuple[float, float, float, float]],
    taken: Taken,
    scale: float,
) -> list[Item]:
    """Return the fullest words that fit one of some boxes and cover no others; else the last ones on a leader."""
    for lines in choices:
        for x0, z0, x1, z1 in boxes:
            texts = words_in(lines, low=(x0, z0), high=(x1, z1), scale=scale, bold_first=True)
            if taken.all_free(texts):
                return [*texts]
    x0, z0, x1, z1 = boxes[0]
    middle = (x0 + x1) / 2, (z0 + z1) / 2
    words = choices[-1][0]
    texts = (
        make_text(words, at=spot, scale=scale, align="centre", bold=True, backed=True)
        for spot in around(middle, scale=scale)
    )
    text = taken.first_free(texts)
    return [] if text is None else [Line(a=middle, b=text.at, pen=Pen.DIMENSION), text]


def _whole_sheet(cut: CutSheet, at: tuple[float, float], scale: float) -> list[Item]:
    """Return one sheet, toned as what is left over, with its name above."""
    x, y = at
    outline = rectangle(x, y, x + cut.sheet.width, y + cut.sheet.length)
    top = y + cut.sheet.length + 1.5 * scale
    return [
        Path(points=outline, closed=True, pen=Pen.OUTLINE, fill=Tone.PALE),
        make_text(f"{cut.sheet.name}, no {cut.number}", at=(x, top), scale=scale, bold=True),
    ]


def _sawn_pieces(cut: CutSheet, at: tuple[float, float], style: LengthStyle, taken: Taken, scale: float) -> list[Item]:
    """Return all that is sawn from one sheet: facing, ribs, linings."""
    items: list[Item] = []
    for placed in cut.pieces:
        part = placed.part
        outline = _laid(part.outline, placed, at)
        holes = tuple(_laid(hole, placed, at) for hole in part.holes)
        items.append(Path(points=outline, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE, holes=holes))
        items += [Path(points=hole, closed=True, pen=Pen.OUTLINE) for hole in holes]
        mark, size = part.mark, _size(part, style)
        boxes = _free_boxes(outline, holes)
        items += _fitting_words([(mark, size), (f"{mark}, {size}",), (mark,)], boxes, taken, scale)
    return items


def _laid(ring: Ring, placed: PlacedPiece, at: tuple[float, float]) -> Ring:
    """Return a ring of a piece where it lies on its sheet; turned pieces are turned, never flipped."""
    x0, z0, x1, _ = bounds_of(placed.part.outline)
    x, y = at[0] + placed.x, at[1] + placed.y
    if placed.turned:
        return tuple((x + pz - z0, y + x1 - px) for px, pz in ring)
    return tuple((x + px - x0, y + pz - z0) for px, pz in ring)
