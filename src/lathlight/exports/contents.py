"""The lists of a plan as tables: what to cut, what to buy, what the flats measure, what would go wrong.

Decides columns and order. Lengths stand twice: as the project writes them, for people, and as plain numbers in
millimetres (and inches in an imperial project), for machines. Heights count from the finished floor. Nothing is counted
here that the plan does not hold. What is put on the built walls has a module a list.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.exports.casing_list import casing_table, end_table
from lathlight.exports.columns import length_cells, length_columns, make_table, mass_cells, mass_columns, texts, yes
from lathlight.exports.figures import ends_words, figure_words, working_words
from lathlight.exports.fixing_lists import (
    gluing_table,
    joint_table,
    moulding_fixing_table,
    sheet_fixing_table,
)
from lathlight.exports.floor_list import floor_table
from lathlight.exports.frame_list import frame_piece_table, frame_table
from lathlight.exports.hardware_list import hardware_table
from lathlight.exports.marking_lists import marked_frame_table, marking_table, stick_table
from lathlight.exports.paint_lists import paint_table, schedule_table
from lathlight.exports.tables import Cell, Column, Table
from lathlight.exports.takeoff_list import takeoff_table
from lathlight.exports.trim_list import trim_table
from lathlight.plan import proof_words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from lathlight.carpentry import CutLine, Flat, FramedOpening, Packed
    from lathlight.passage import FlatPassage
    from lathlight.plan import Plan
    from lathlight.snags import Snag
    from lathlight.units import LengthStyle


def lists(plan: Plan, snags: Sequence[Snag]) -> tuple[Table, ...]:
    """Return every list of a plan, in the order in which they are needed.

    First what is built (``timber`` to ``linings``), then what the set has of mouldings, marking out, fixing, floor and
    paint, then ``hardware``, ``takeoff``, ``snags`` and ``quantities``. What a set does not have is left out; any other
    list with nothing in it keeps its heading row.
    """
    style = plan.brief.style
    return (
        _timber(plan.timber, style),
        _panels(plan, style),
        _packed("boards", "Boards to buy", plan.boards, style),
        _packed("sheets", "Sheets to buy", plan.sheets, style),
        _flats(plan, style),
        _openings(plan, style),
        _linings(plan, style),
        *_mouldings(plan, style),
        *_marking(plan, style),
        *_fixing(plan, style),
        *(() if plan.floor is None else (floor_table(plan.floor, style),)),
        *(() if plan.finish is None else (paint_table(plan.finish, style), schedule_table(plan.finish, style))),
        hardware_table(plan),
        takeoff_table(plan.takeoff, style),
        _snags(snags, style),
        _quantities(plan, style),
    )


def _mouldings(plan: Plan, style: LengthStyle) -> Iterator[Table]:
    rise = plan.brief.floor.rise
    if plan.trim is not None:
        yield trim_table(plan.trim, style)
    if plan.casings:
        yield casing_table(plan.casings, style, rise=rise)
    if plan.frames is not None:
        yield frame_table(plan.frames, style, rise=rise)
        yield frame_piece_table(plan.frames, style)
    yield end_table(plan.ends, style)


def _marking(plan: Plan, style: LengthStyle) -> Iterator[Table]:
    if plan.marking is not None:
        yield marking_table(plan.marking, style)
        yield stick_table(plan.marking, style)
        if plan.marking.frames:
            yield marked_frame_table(plan.marking, style)


def _fixing(plan: Plan, style: LengthStyle) -> Iterator[Table]:
    yield sheet_fixing_table(plan.fixing, plan.strips, style)
    if plan.fixing.strips:
        yield moulding_fixing_table(plan.fixing, style)
    yield joint_table(plan.fixing, style)
    if plan.fixing.rounds:
        yield gluing_table(plan.fixing, style)


# --- the lists ---------------------------------------------------------------------------------------------------


def _timber(lines: Sequence[CutLine], style: LengthStyle) -> Table:
    columns = [
        *texts("Mark", "Part", "Timber"),
        Column(title="Number", kind="count"),
        *length_columns("Length", style),
        *texts("Ends", "Offcut will do", "Note", "Ids"),
    ]
    rows = (
        [
            *(line.mark, line.what, line.stock, line.number),
            *length_cells(line.length, style),
            *(ends_words(line.ends), yes(line.may_be_offcut), line.note, "; ".join(line.ids)),
        ]
        for line in lines
    )
    return make_table("timber", "Timber to cut", columns, rows)


def panel_stocks(plan: Plan) -> Mapping[str, str]:
    """Return what each line of the panels is sawn from, by the line's first id: a sheet, or a board."""
    return {line.ids[0]: line.stock for line in plan.panels}


def _panels(plan: Plan, style: LengthStyle) -> Table:
    stocks = panel_stocks(plan)
    columns = [
        *texts("Mark", "Part", "Sheet"),
        Column(title="Number", kind="count"),
        *length_columns("Width", style),
        *length_columns("Height", style),
        *texts("Note", "Ids"),
    ]
    rows = (
        [
            *(line.mark, line.what, stocks[line.ids[0]], line.number),
            *length_cells(line.width, style),
            *length_cells(line.length, style),
            *(line.note, "; ".join(line.ids)),
        ]
        for line in plan.panels
    )
    return make_table("sheet pieces", "Sheet pieces and linings to cut", columns, rows)


def _packed(name: str, title: str, packs: Sequence[Packed], style: LengthStyle) -> Table:
    columns = [
        *texts("Stock"),
        *(length_columns("Width", style) if name == "sheets" else ()),
        *length_columns("Length", style),
        Column(title="Cut", kind="count"),
        Column(title="Spare", kind="count"),
        Column(title="To buy", kind="count"),
        *texts("How counted"),
    ]
    rows = (
        [
            pack.stock,
            *(length_cells(pack.width, style) if name == "sheets" else ()),
            *length_cells(pack.length, style),
            pack.number,
            pack.spare,
            pack.number + pack.spare,
            proof_words(proven=pack.proven, gap=pack.gap),
        ]
        for pack in packs
    )
    return make_table(name, title, columns, rows)


def _flats(plan: Plan, style: LengthStyle) -> Table:
    sizes: list[tuple[str, Callable[[Flat], float]]] = [
        ("Width", lambda f: f.width),
        ("Height", lambda f: f.height),
        ("Thickness", lambda f: f.depth),
        ("Diagonal", lambda f: f.diagonal),
    ]
    columns = [
        *texts("Mark", "Flat", "Wall"),
        *(column for title, _ in sizes for column in length_columns(title, style)),
        *mass_columns("Weight", style),
        *texts("Run through", "Way in", "Standing up"),
    ]
    passages = {passage.flat: passage for passage in plan.passages}
    rows = (
        [
            *(flat.mark, flat.id, flat.wall),
            *(cell for _, size in sizes for cell in length_cells(size(flat), style)),
            *mass_cells(flat.weight.value, style),
            flat.through,
            way_in_words(flat, passages.get(flat.id), style),
            _raising(passages.get(flat.id), style),
        ]
        for flat in plan.flats
    )
    return make_table("flats", "Flats", columns, rows)


def way_in_words(flat: Flat, passage: FlatPassage | None, style: LengthStyle) -> str:
    """Return whether a flat comes in, and what stops it where it does not."""
    if flat.built_in_room:
        return "built in the room"
    if passage is None:
        return "not checked"
    stuck = [s for s in passage.stages if not s.passes]
    if not stuck:
        return "passes" if passage.stages else "no way in described"
    stage = stuck[0]
    figure, limit = (figure_words(v, "mm", style) for v in (stage.figure, stage.limit))
    return f"does not pass {stage.through}: {figure}, at most {limit}"


def _raising(passage: FlatPassage | None, style: LengthStyle) -> str:
    if passage is None:
        return "not checked"
    up = passage.raises
    figure, limit = (figure_words(v, "mm", style) for v in (up.figure, up.limit))
    return f"{up.how}: {figure}, {'at most' if up.passes else 'more than'} {limit}"


def _every_opening(plan: Plan) -> list[tuple[Flat, FramedOpening]]:
    return [(flat, opening) for flat in plan.flats for opening in flat.openings]


def _openings(plan: Plan, style: LengthStyle) -> Table:
    rise = plan.brief.floor.rise
    sizes: list[tuple[str, Callable[[FramedOpening], float | None]]] = [
        ("From left", lambda o: o.clear[0]),
        ("Sill", lambda o: max(o.clear[1] - rise, 0.0)),
        ("Clear width", lambda o: o.clear[2]),
        ("Clear height", lambda o: o.clear[3] - (0.0 if o.clear[1] else rise)),  # of a door, above the finished floor
        ("Rough width", lambda o: o.rough[2]),
        ("Rough height", lambda o: o.rough[3]),
        ("Rise", lambda o: o.rise or None),
        ("Radius", lambda o: o.radius),
        ("Sill strap", lambda o: o.strap),
    ]
    columns = [*texts("Opening", "Kind", "Wall", "Flat"), *(c for t, _ in sizes for c in length_columns(t, style))]
    rows = (
        [o.name, o.kind, o.wall, flat.id, *(cell for _, size in sizes for cell in length_cells(size(o), style))]
        for flat, o in _every_opening(plan)
    )
    return make_table("openings", "Openings", columns, rows)


def _linings(plan: Plan, style: LengthStyle) -> Table:
    columns = [
        *texts("Opening", "Wall", "Side"),
        *(c for title in ("Length", "Depth", "Thickness") for c in length_columns(title, style)),
        *texts("Id"),
    ]
    rows = (
        [
            *(opening.name, opening.wall, piece.side),
            *(c for mm in (piece.length, piece.deep, opening.lining_thickness) for c in length_cells(mm, style)),
            piece.id,
        ]
        for _, opening in _every_opening(plan)
        for piece in opening.lining
    )
    return make_table("linings", "Linings of openings", columns, rows)


def _snags(snags: Sequence[Snag], style: LengthStyle) -> Table:
    columns = [
        *texts("Severity", "Check", "Place", "What"),
        Column(title="Figure", kind="number"),
        Column(title="Limit", kind="number"),
        *texts("Unit", "Remedy", "Why", "Id"),
    ]
    rows = (
        [
            *(s.severity.words, s.check, s.place, s.what, _finite(s.figure), _finite(s.limit), s.unit, s.remedy),
            *(working_words(s.why, style), s.id),
        ]
        for s in snags
    )
    return make_table("snags", "Snags", columns, rows)


def _quantities(plan: Plan, style: LengthStyle) -> Table:
    columns = [*texts("Id", "Quantity", "Figure"), Column(title="Number", kind="number"), *texts("Unit", "How")]
    weights = [flat.weight for flat in plan.flats]
    rows = (
        [q.id, q.label, figure_words(q.value, q.unit, style), _finite(q.value), q.unit, working_words(q.why, style)]
        for q in (*plan.quantities, *weights)
    )
    return make_table("quantities", "Quantities", columns, rows)


def _finite(value: float) -> Cell:
    return float(value) if math.isfinite(value) else None
