"""The lists a carpenter works from, grouped by flat, with boxes to tick; and what to buy.

Decides grouping and wording; the pieces are the plan's own lines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn, Words
from lathlight.book.moulding_pieces import moulding_chapters
from lathlight.book.words import HOW_CUT
from lathlight.drawings import clear_size
from lathlight.exports import ends_words, figure_words, hardware, length_words, panel_stocks, way_in_words
from lathlight.plan import proof_words
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.book.blocks import Cell
    from lathlight.carpentry import CutLine, Flat, Packed
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LOOSE = "Between the flats"  # heading of what belongs to no flat: wedges in corners


def cutting_chapters(plan: Plan) -> tuple[Chapter, ...]:
    """Return the chapters of what is cut and framed: timber, sheets, mouldings, flats, openings."""
    openings = (_openings(plan),) if any(flat.openings for flat in plan.flats) else ()
    return (_timber(plan), _panels(plan), *moulding_chapters(plan), _flats(plan), *openings)


def _by_flat(plan: Plan, lines: Sequence[CutLine]) -> Iterator[tuple[Flat | None, list[CutLine]]]:
    """Yield the lines flat by flat, in the plan's order; what belongs to no flat comes last."""
    owner = {m.id: flat.id for flat in plan.flats for m in flat.members}
    owner |= {p.id: flat.id for flat in plan.flats for p in flat.pieces}
    owner |= {p.id: flat.id for flat in plan.flats for o in flat.openings for p in (*o.lining, *o.ribs)}
    found: dict[str | None, list[CutLine]] = {}
    for line in lines:
        found.setdefault(owner.get(line.ids[0]), []).append(line)
    for flat in plan.flats:
        if flat.id in found:
            yield flat, found[flat.id]
    if None in found:
        yield None, found[None]


def _heading(flat: Flat | None, style: LengthStyle) -> tuple[str, str]:
    if flat is None:
        return LOOSE, ""
    width, height = (drawing_length(mm, style=style) for mm in (flat.width, flat.height))
    weight = figure_words(flat.weight.value, "kg", style)
    return f"Flat {flat.mark}", f"{flat.id} · frame {width} × {height} · {weight}"


def _timber(plan: Plan) -> Chapter:
    style = plan.brief.style
    groups: list[Group] = []
    for flat, lines in _by_flat(plan, plan.timber):
        heading, detail = _heading(flat, style)
        rows = tuple(_timber_row(line, style) for line in sorted(lines, key=_longest_first))
        groups.append(Group(heading=heading, detail=detail, rows=rows))
    columns = (
        ListColumn(title="Mark", kind="mark"),
        ListColumn(title="Number", kind="figure"),
        ListColumn(title="Length", kind="figure"),
        ListColumn(title="Timber"),
        ListColumn(title="Part", grow=3),
        ListColumn(title="Ends"),
        ListColumn(title="Note", grow=4),
        ListColumn(title="Cut", kind="ticks", grow=3),
    )
    lead = (
        "Lengths are cut lengths, long point to long point; ends are square unless an angle from square stands there."
    )
    return Chapter(title="Timber to cut", lead=lead, blocks=(Grid(columns=columns, groups=tuple(groups)),))


def _longest_first(line: CutLine) -> tuple[bool, float, str]:
    return line.may_be_offcut, -line.length, line.mark


def _timber_row(line: CutLine, style: LengthStyle) -> tuple[Cell, ...]:
    length = drawing_length(line.length, style=style)
    ends = ends_words(line.ends) if any(line.ends) else ""
    return line.mark, str(line.number), length, line.stock, line.what, ends, line.note, line.number


def _panels(plan: Plan) -> Chapter:
    style, stocks = plan.brief.style, panel_stocks(plan)
    groups: list[Group] = []
    for flat, lines in _by_flat(plan, plan.panels):
        heading, detail = _heading(flat, style)
        rows = tuple(_panel_row(line, stocks[line.ids[0]], style) for line in lines)
        groups.append(Group(heading=heading, detail=detail, rows=rows))
    columns = (
        ListColumn(title="Mark", kind="mark"),
        ListColumn(title="Width", kind="figure"),
        ListColumn(title="Height", kind="figure"),
        ListColumn(title="Sheet"),
        ListColumn(title="Part", grow=2),
        ListColumn(title="Note", grow=3),
        ListColumn(title="Cut", kind="ticks"),
    )
    lead = "Sizes are of the rectangle that is sawn; notches, openings and bevels are on the drawings."
    return Chapter(title="Sheets to cut", lead=lead, blocks=(Grid(columns=columns, groups=tuple(groups)),))


def _panel_row(line: CutLine, stock: str, style: LengthStyle) -> tuple[Cell, ...]:
    width = drawing_length(line.width, style=style) if line.width is not None else ""
    return line.mark, width, drawing_length(line.length, style=style), stock, line.what, line.note, line.number


def _flats(plan: Plan) -> Chapter:
    style = plan.brief.style
    passages = {passage.flat: passage for passage in plan.passages}
    columns = (
        ListColumn(title="Flat", kind="mark"),
        ListColumn(title="Where", grow=2),
        ListColumn(title="Width", kind="figure"),
        ListColumn(title="Height", kind="figure"),
        ListColumn(title="Thick", kind="figure"),
        ListColumn(title="Diagonals", kind="figure"),
        ListColumn(title="Weight", kind="figure"),
        ListColumn(title="Way in", grow=3),
    )
    rows = tuple(
        (
            flat.mark,
            flat.id,
            *(drawing_length(mm, style=style) for mm in (flat.width, flat.height, flat.depth, flat.diagonal)),
            figure_words(flat.weight.value, "kg", style),
            way_in_words(flat, passages.get(flat.id), style),
        )
        for flat in plan.flats
    )
    lead = (
        "Outside measures of the frames; both diagonals of a square frame are equal. Fixings, glue and paint are not "
        "weighed."
    )
    grid = Grid(columns=columns, groups=(Group(heading="", detail="", rows=rows),))
    return Chapter(title="Flats", lead=lead, blocks=(grid,))


def _openings(plan: Plan) -> Chapter:
    style, rise = plan.brief.style, plan.brief.floor.rise
    columns = (
        ListColumn(title="Opening", kind="mark", grow=1),
        ListColumn(title="Flat"),
        ListColumn(title="Clear", kind="figure"),
        ListColumn(title="Rough", kind="figure"),
        ListColumn(title="Sill at", kind="figure"),
        ListColumn(title="Note", grow=2),
    )
    rows = tuple(
        (
            opening.name if opening.kind in opening.name else f"{opening.name}, {opening.kind}",
            flat.mark,
            " × ".join(drawing_length(mm, style=style) for mm in clear_size(opening, floor=rise)),
            " × ".join(drawing_length(mm, style=style) for mm in opening.rough[2:]),
            drawing_length(max(opening.clear[1] - rise, 0.0), style=style),
            "" if opening.strap is None else f"sill strap {length_words(opening.strap, style)}",
        )
        for flat in plan.flats
        for opening in flat.openings
    )
    grid = Grid(columns=columns, groups=(Group(heading="", detail="", rows=rows),))
    return Chapter(
        title="Openings",
        lead="Width × height; sills and clear heights from the finished floor, rough sizes as they are framed.",
        blocks=(grid,),
    )


def shopping_chapter(plan: Plan) -> Chapter:
    """Return what is bought for the frames, and all fittings and fixings."""
    style = plan.brief.style
    stock = ListColumn(title="What", kind="mark", grow=2)
    numbers = tuple(ListColumn(title=title, kind="figure") for title in ("To cut", "Spare", "To buy"))
    size = ListColumn(title="Size", kind="figure")
    got = ListColumn(title="Got", kind="ticks", grow=2)
    columns = (stock, size, *numbers, got)
    groups = tuple(
        Group(heading=heading, detail=_counted(packs), rows=tuple(_packed_row(p, style) for p in packs))
        for heading, packs in (("Boards", plan.boards), ("Sheets", plan.sheets))
        if packs
    )
    fittings = Grid(
        columns=(
            ListColumn(title="What", kind="mark", grow=2),
            ListColumn(title="Use", grow=3),
            ListColumn(title="Number", kind="figure"),
            ListColumn(title="Boxes", kind="figure"),
            ListColumn(title="Got", kind="ticks"),
        ),
        groups=(
            Group(
                heading="Fittings and fixings",
                detail="",
                rows=tuple(
                    (f"{h.name}, {h.what}" if h.what not in h.name else h.name, h.use, str(h.number))
                    + ((f"{h.boxes} of {h.box}" if h.boxes else "", h.boxes) if h.box > 1 else ("", 1))
                    for h in hardware(plan)
                ),
            ),
        ),
    )
    return Chapter(title="To buy", lead=HOW_CUT, blocks=(Grid(columns=columns, groups=groups), fittings, _frame_note()))


def _counted(packs: Sequence[Packed]) -> str:
    """Return how near the counts are to the least that will do: the words of the one that is farthest from it."""
    gaps = [pack.gap for pack in packs]
    gap = None if None in gaps else max(gap for gap in gaps if gap is not None)
    return proof_words(proven=all(pack.proven for pack in packs), gap=gap)


def _packed_row(pack: Packed, style: LengthStyle) -> tuple[Cell, ...]:
    sides = [pack.length] if pack.width is None else [pack.width, pack.length]
    size = " × ".join(drawing_length(mm, style=style) for mm in sides)
    total = pack.number + pack.spare
    return pack.stock, size, str(pack.number), str(pack.spare or ""), str(total), total


def _frame_note() -> Words:
    return Words(
        words="Frame screws are counted as two in every end that meets another piece (common practice, no source). "
        "Screws along nailers, packing and corner plates are not counted. Boxes stand at the first use of a name and "
        "hold all of its uses, spares among them. Mouldings, floor, glue and paint stand in the takeoff."
    )
