"""Lists: equal pieces together, and how many boards and sheets they come from by first fit (not proven)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.model import CutLine, Packed
from lathlight.carpentry.packing import PlacedRectangle, pack_boards, pack_sheets
from lathlight.carpentry.sawn import lining_of, loose_blank, member_blank
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.blanks import Blank
    from lathlight.carpentry.model import Corner, Flat, FramedOpening, LiningPiece, Member, Rib, SheetPiece, Wedge
    from lathlight.carpentry.on_sale import OnSale
    from lathlight.carpentry.sawn import BoardPart, SheetPart
    from lathlight.catalog import Sheet

BEVEL = 0.05  # a smaller bevel is none [mm]
NOT_PROVEN = "first fit, longest first; not proven to be the fewest"
NOT_IN_CATALOGUE = "no such board in the catalogue: counted as boards as long as the longest piece, first fit"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPiece:
    """Where a part lies on a sheet: x across the sheet's width, y along its length [mm]."""

    part: SheetPart
    x: float
    y: float
    width: float
    height: float
    turned: bool  # relative to how it stands in the wall

    @property
    def piece(self) -> str:
        """Id of the part."""
        return self.part.id


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """One sheet with what is sawn from it."""

    sheet: Sheet
    number: int
    pieces: tuple[PlacedPiece, ...]


def timber_lines(flats: Sequence[Flat], corners: Sequence[Corner], on_sale: OnSale) -> tuple[CutLine, ...]:
    """Return the timber cut list: flat by flat, equal pieces in one line, then the corners' loose wedges."""
    lines = [line for flat in flats for line in _flat_lines(flat, on_sale)]
    stocks = {flat.wall: flat.stock for flat in flats}
    lines += [
        _wedge_line(c.wedge, loose_blank(c.wedge, stocks[c.left], on_sale)) for c in corners if c.wedge is not None
    ]
    return tuple(lines)


def _wedge_line(wedge: Wedge, blank: Blank) -> CutLine:
    return CutLine(
        mark=wedge.id,
        what="wedge",
        stock=blank.stock.name,
        number=blank.layers,
        length=wedge.length,
        width=wedge.wide,
        ends=(0.0, 0.0),
        may_be_offcut=False,
        note=f"{_glued(blank.layers)}ripped to a wedge, glued and screwed in when the corner is assembled",
        ids=(wedge.id,),
    )


def _glued(layers: int) -> str:
    return f"{layers} layers glued side by side, " if layers > 1 else ""


def _flat_lines(flat: Flat, on_sale: OnSale) -> Iterable[CutLine]:
    groups: dict[str, list[Member]] = {}
    for member in flat.members:
        groups.setdefault(member.mark, []).append(member)
    for mark, members in groups.items():
        first = members[0]
        roles = list(dict.fromkeys(m.role for m in members))
        blank = member_blank(first, on_sale)
        layers = 1 if blank is None else blank.layers
        yield CutLine(
            mark=f"{flat.mark}-{mark}",
            what=", ".join(roles),
            stock=(first.stock if blank is None else blank.stock).name,
            number=len(members) * layers,
            length=first.length,
            width=None,
            ends=first.ends,
            may_be_offcut=all(m.may_be_offcut for m in members),
            note=_glued(layers) + _note(members),
            ids=tuple(m.id for m in members),
        )


def _note(members: Sequence[Member]) -> str:
    notes: list[str] = []
    if any(m.straightest for m in members):
        notes.append("straightest boards")
    if any(m.ripped for m in members):
        notes.append("ripped to a wedge" if members[0].section else "ripped")
    if all(m.may_be_offcut for m in members):
        notes.append("may be an offcut")
    return "; ".join(notes)


def panel_lines(flats: Sequence[Flat], on_sale: OnSale) -> tuple[CutLine, ...]:
    """Return the sheet pieces, ribs and linings of openings, one line each, flat by flat."""
    lines: list[CutLine] = []
    for flat in flats:
        lines += [_panel_line(flat, piece) for piece in flat.pieces]
        for opening in flat.openings:
            lines += [_rib_line(flat, opening, rib) for rib in opening.ribs]
            lines += [_lining_line(flat, opening, piece, on_sale) for piece in opening.lining]
    return tuple(lines)


def _panel_line(flat: Flat, piece: SheetPiece) -> CutLine:
    notes: list[str] = []
    if len(piece.outline) > 4:  # more corners than a rectangle
        notes.append("notched" if len(piece.outline) <= 8 else "shaped")
    if piece.holes:
        notes.append("opening cut out")
    notes += [_bevel_note(piece, side, by) for side, by in _bevels(piece) if abs(by) > BEVEL]
    return CutLine(
        mark=f"{flat.mark}-{piece.mark}",
        what="sheet",
        stock=piece.sheet.name,
        number=1,
        length=piece.height,
        width=piece.width,
        ends=(0.0, 0.0),
        may_be_offcut=False,
        note="; ".join(notes),
        ids=(piece.id,),
    )


def _bevels(piece: SheetPiece) -> tuple[tuple[str, float], ...]:
    return ("left", piece.bevel_left), ("right", piece.bevel_right)


def _bevel_note(piece: SheetPiece, side: str, by: float) -> str:
    """Return how an edge is bevelled: blade tilt from square, and on which face the long point lies."""
    tilt = math.degrees(math.atan2(abs(by), piece.sheet.thickness))
    face = "back" if by > 0 else "face"
    return f"{side} edge bevelled {tilt:.1f}\N{DEGREE SIGN} from square, long point on the {face}"


def _lining_line(flat: Flat, opening: FramedOpening, piece: LiningPiece, on_sale: OnSale) -> CutLine:
    return CutLine(
        mark=f"{flat.mark}-{opening.name}",
        what=f"lining, {piece.side}",
        stock=lining_of(flat, opening, piece, on_sale).name,
        number=1,
        length=piece.length,
        width=piece.deep,
        ends=(0.0, 0.0),
        may_be_offcut=False,
        note="bent along the arch" if piece.side == "arch" else "",
        ids=(piece.id,),
    )


def _rib_line(flat: Flat, opening: FramedOpening, rib: Rib) -> CutLine:
    xs, zs = [p[0] for p in rib.outline], [p[1] for p in rib.outline]
    return CutLine(
        mark=f"{flat.mark}-{opening.name}",
        what=f"arch rib, {rib.side}",
        stock=rib.sheet.name,
        number=rib.layers,
        length=max(zs) - min(zs),
        width=max(xs) - min(xs),
        ends=(0.0, 0.0),
        may_be_offcut=True,
        note="sawn to the arch's ordinates, layers glued; may be offcuts",
        ids=(rib.id,),
    )


def count_boards(parts: Sequence[BoardPart], *, kerf: float, trim_cut: float, spare: bool) -> tuple[Packed, ...]:
    """Return boards by stock, first fit: firm pieces first, then those that may be offcuts into what is left.

    Parameters
    ----------
    parts
        All that is sawn from boards.
    kerf, trim_cut
        Width of a cut; what is cut off a factory end first [mm].
    spare
        Add one board for the longest piece of every stock.
    """
    stocks: dict[str, list[BoardPart]] = {}
    for part in parts:
        stocks.setdefault(part.stock, []).append(part)
    return tuple(
        packed for name in sorted(stocks) for packed in _packed_stock(stocks[name], kerf, trim_cut, spare=spare)
    )


def _packed_stock(parts: Sequence[BoardPart], kerf: float, trim_cut: float, *, spare: bool) -> Iterable[Packed]:
    """Yield the boards of one stock; pieces longer than any that is sold stand apart, length by length."""
    longest = max(parts[0].on_sale, default=math.inf)
    sold = [p for p in parts if p.length <= longest + 1e-6]
    if sold:
        yield _packed_boards(sold, kerf, trim_cut, spare=spare)
    for length in sorted({p.length for p in parts if p.length > longest + 1e-6}):
        yield _packed_boards([p for p in parts if p.length == length], kerf, trim_cut, spare=False)


def _packed_boards(parts: Sequence[BoardPart], kerf: float, trim_cut: float, *, spare: bool) -> Packed:
    ordered = sorted(parts, key=lambda p: (p.may_be_offcut, -p.length, p.id))
    known = ordered[0].on_sale
    plan = pack_boards([p.length for p in ordered], stock=known, kerf=kerf, trim_cut=trim_cut)
    run = () if known else (("run in all", sum(p.length for p in ordered), "mm"),)
    return Packed(
        stock=ordered[0].stock,
        length=plan.length,
        width=None,
        number=len(plan.items),
        pieces=tuple(tuple(ordered[i].id for i in board) for board in plan.items),
        spare=1 if spare and plan.items else 0,
        why=Working(
            formula=NOT_PROVEN if known else NOT_IN_CATALOGUE,
            inputs=(("pieces", len(ordered), ""), *run, ("kerf", kerf, "mm"), ("board", plan.length, "mm")),
            source=COMMON_PRACTICE,
            value=len(plan.items),
        ),
    )


def place_on_sheets(parts: Sequence[SheetPart], *, kerf: float) -> tuple[CutSheet, ...]:
    """Return every sheet with its parts, first fit in shelves, sheet type by sheet type."""
    types = sorted({p.sheet.name: p.sheet for p in parts}.items())
    found: list[CutSheet] = []
    for name, sheet in types:
        own = [p for p in parts if p.sheet.name == name]
        packed = pack_sheets(
            [(p.width, p.height) for p in own],
            width=sheet.width,
            length=sheet.length,
            kerf=kerf,
            may_turn=[p.may_turn for p in own],
        )
        found += [
            CutSheet(sheet=sheet, number=i + 1, pieces=tuple(_placed(own, spot) for spot in spots))
            for i, spots in enumerate(packed)
        ]
    return tuple(found)


def _placed(parts: Sequence[SheetPart], spot: PlacedRectangle) -> PlacedPiece:
    return PlacedPiece(
        part=parts[spot.item], x=spot.x, y=spot.y, width=spot.width, height=spot.height, turned=spot.turned
    )


def count_sheets(cut: Sequence[CutSheet], *, kerf: float) -> tuple[Packed, ...]:
    """Return sheets by type, from their layout."""
    by_type: dict[str, list[CutSheet]] = {}
    for sheet in cut:
        by_type.setdefault(sheet.sheet.name, []).append(sheet)
    return tuple(
        Packed(
            stock=name,
            length=sheets[0].sheet.length,
            width=sheets[0].sheet.width,
            number=len(sheets),
            pieces=tuple(tuple(p.piece for p in s.pieces) for s in sheets),
            spare=0,
            why=Working(
                formula="shelves across the sheet, largest piece first; not proven to be the fewest",
                inputs=(("pieces", sum(len(s.pieces) for s in sheets), ""), ("kerf", kerf, "mm")),
                source=COMMON_PRACTICE,
                value=len(sheets),
            ),
        )
        for name, sheets in sorted(by_type.items())
    )
