"""The lists of a plan as tables: what to cut, what to buy, what the flats measure, what would go wrong.

Decides columns and order. Lengths stand twice: as the project writes them, for people, and as plain numbers in
millimetres (and inches in an imperial project), for machines. Nothing is counted here that the plan does not hold,
but the screws of the frames, by a stated rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.exports.columns import length_cells, length_columns, make_table, mass_cells, mass_columns, texts, yes
from lathlight.exports.figures import ends_words, figure_words, length_words, working_words
from lathlight.exports.tables import Cell, Column, Table
from lathlight.exports.trim_list import trim_table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from lathlight.carpentry import CutLine, Flat, FramedOpening, Packed
    from lathlight.catalog import Fastener
    from lathlight.passage import FlatPassage
    from lathlight.plan import Plan
    from lathlight.snags import Snag
    from lathlight.units import LengthStyle

SCREWS_AN_END = 2  # screws in every end of a member that meets another: common practice, no source
NOT_PROVEN = "first fit, not proven"
LOOSE = frozenset({"packing", "wedge", "lining", "nailer", "backing"})  # fixed along their length, not at their ends


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareLine:
    """Fittings or fixings of one kind and use."""

    what: str
    name: str
    use: str
    number: int
    box: int  # pieces in a box; 1: sold singly

    @property
    def boxes(self) -> int:
        """Boxes that hold them."""
        return -(-self.number // self.box)


def lists(plan: Plan, snags: Sequence[Snag]) -> tuple[Table, ...]:
    """Return every list of a plan, in the order in which they are needed.

    Names are ``timber``, ``sheet pieces``, ``boards``, ``sheets``, ``flats``, ``openings``, ``linings``, ``hardware``,
    ``snags``, ``quantities``; after ``linings`` comes ``trim`` where the set has any. A list with nothing in it keeps
    its heading row.
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
        *(() if plan.trim is None else (trim_table(plan.trim, style),)),
        _hardware(plan),
        _snags(snags, style),
        _quantities(plan, style),
    )


def hardware(plan: Plan) -> tuple[HardwareLine, ...]:
    """Return fittings and fixings as counted: corner plates, sill straps, corner screws, frame screws.

    Notes
    -----
    Frame screws: two in every end of a member that stands between others (common practice, no source); screws along
    nailers, packing and corner plates are not counted.
    """
    fittings = plan.brief.hardware
    found = [
        HardwareLine(what="corner plate", name=name, use="squares the frame, on the back", number=number, box=1)
        for name, number in _counted(p.bracket.name for f in plan.flats for p in f.plates)
    ]
    straps = sum(1 for f in plan.flats for o in f.openings if o.strap is not None)
    if straps:
        found.append(
            HardwareLine(
                what="sill strap", name=fittings.sill_strap.name, use="across a door's foot", number=straps, box=1
            )
        )
    found += _corner_screws(plan)
    ends = sum(_joined_ends(flat) for flat in plan.flats)
    if ends:
        found.append(_screws(fittings.frame_screw, "frame joints, two an end", SCREWS_AN_END * ends))
    return tuple(found)


def _corner_screws(plan: Plan) -> Iterable[HardwareLine]:
    screws = {c.screws.screw.name: c.screws.screw for c in plan.corners if c.screws}
    held = (c.screws.screw.name for c in plan.corners if c.screws for _ in c.screws.heights)
    for name, number in _counted(held):
        yield _screws(screws[name], "corners, through the end studs", number)


def _screws(screw: Fastener, use: str, number: int) -> HardwareLine:
    return HardwareLine(what=screw.kind, name=screw.name, use=use, number=number, box=screw.box)


def _counted(names: Iterable[str]) -> list[tuple[str, int]]:
    counts: dict[str, int] = {}
    for name in names:
        counts[name] = counts.get(name, 0) + 1
    return list(counts.items())


def _joined_ends(flat: Flat) -> int:
    """Return how many member ends are screwed: both of every member but those that run through."""
    whole = {"top plate", "bottom plate"} if flat.through == "plates" else {"end stud"}
    return sum(2 for m in flat.members if m.role not in whole | LOOSE)


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
    """Return what each line of the panels is sawn from, by the line's first id: a sheet, or a lining so thick."""
    style = plan.brief.style
    stocks = {line.ids[0]: line.stock for line in plan.panels}
    for _, opening in _every_opening(plan):
        words = f"lining {length_words(opening.lining_thickness, style)}"
        stocks |= {piece.id: words for piece in opening.lining}
    return stocks


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
            NOT_PROVEN,
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
    sizes: list[tuple[str, Callable[[FramedOpening], float | None]]] = [
        ("From left", lambda o: o.clear[0]),
        ("Sill", lambda o: o.clear[1]),
        ("Clear width", lambda o: o.clear[2]),
        ("Clear height", lambda o: o.clear[3]),
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


def _hardware(plan: Plan) -> Table:
    columns = [
        *texts("What", "Name", "Use"),
        Column(title="Number", kind="count"),
        Column(title="In a box", kind="count"),
        Column(title="Boxes", kind="count"),
    ]
    rows = ([h.what, h.name, h.use, h.number, h.box, h.boxes] for h in hardware(plan))
    return make_table("hardware", "Fittings and fixings", columns, rows)


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
