"""Lists: equal pieces together, and how many boards and sheets they come from by first fit (not proven)."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.carpentry.model import CutLine, Packed
from lathlight.carpentry.packing import PlacedRectangle, pack_boards, pack_sheets
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import Corner, Flat, FramedOpening, Member, Rib, SheetPiece, Wedge
    from lathlight.catalog import Lumber, Sheet

BEVEL = 0.05  # a smaller bevel is none [mm]
NOT_PROVEN = "first fit, longest first; not proven to be the fewest"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPiece:
    """Where a sheet piece lies on a sheet: x across its width, y along its length [mm]."""

    piece: str  # id
    x: float
    y: float
    width: float
    height: float
    turned: bool  # relative to how it stands in the wall


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """One sheet with what is sawn from it."""

    sheet: Sheet
    number: int
    pieces: tuple[PlacedPiece, ...]


def timber_lines(flats: Sequence[Flat], corners: Sequence[Corner]) -> tuple[CutLine, ...]:
    """Return the timber cut list: flat by flat, equal pieces in one line, then the corners' loose wedges."""
    lines = [line for flat in flats for line in _flat_lines(flat)]
    stocks = {flat.wall: flat.stock for flat in flats}
    lines += [_wedge_line(c.wedge, stocks[c.left]) for c in corners if c.wedge is not None]
    return tuple(lines)


def _wedge_line(wedge: Wedge, stock: Lumber) -> CutLine:
    return CutLine(
        mark=wedge.id,
        what="wedge",
        stock=wedge_blank(stock, wedge.wide).name,
        number=1,
        length=wedge.length,
        width=wedge.wide,
        ends=(0.0, 0.0),
        may_be_offcut=False,
        note="ripped to a wedge, glued and screwed in when the corner is assembled",
        ids=(wedge.id,),
    )


def _flat_lines(flat: Flat) -> Iterable[CutLine]:
    groups: dict[str, list[Member]] = {}
    for member in flat.members:
        groups.setdefault(member.mark, []).append(member)
    for mark, members in groups.items():
        first = members[0]
        roles = list(dict.fromkeys(m.role for m in members))
        yield CutLine(
            mark=f"{flat.mark}-{mark}",
            what=", ".join(roles),
            stock=(wedge_blank(first.stock, first.wide) if first.role == "wedge" else first.stock).name,
            number=len(members),
            length=first.length,
            width=None,
            ends=first.ends,
            may_be_offcut=all(m.may_be_offcut for m in members),
            note=_note(members),
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


def panel_lines(flats: Sequence[Flat]) -> tuple[CutLine, ...]:
    """Return the sheet pieces and opening linings, one line each, flat by flat."""
    lines: list[CutLine] = []
    for flat in flats:
        lines += [_panel_line(flat, piece) for piece in flat.pieces]
        for opening in flat.openings:
            lines += [_rib_line(flat, opening, rib) for rib in opening.ribs]
            lines += [
                CutLine(
                    mark=f"{flat.mark}-{opening.name}",
                    what=f"lining, {piece.side}",
                    stock=f"lining {opening.lining_thickness:g} mm",
                    number=1,
                    length=piece.length,
                    width=piece.deep,
                    ends=(0.0, 0.0),
                    may_be_offcut=False,
                    note="bent along the arch" if piece.side == "arch" else "",
                    ids=(piece.id,),
                )
                for piece in opening.lining
            ]
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


def count_boards(
    members: Sequence[Member], *, kerf: float, trim_cut: float, spare: bool, wedges: Sequence[tuple[Wedge, Lumber]]
) -> tuple[Packed, ...]:
    """Return boards by section, first fit: firm pieces first, then those that may be offcuts into what is left.

    Parameters
    ----------
    members, wedges
        All timber; loose wedges with the stock of their wall.
    spare
        Add one board for the longest piece of every section.
    """
    stocks: dict[str, tuple[Lumber, list[tuple[str, float, bool]]]] = {}
    for m in members:
        stock = wedge_blank(m.stock, m.wide) if m.role == "wedge" else m.stock
        stocks.setdefault(stock.name, (stock, []))[1].append((m.id, m.length, m.may_be_offcut))
    for wedge, stock in wedges:
        blank = wedge_blank(stock, wedge.wide)
        stocks.setdefault(blank.name, (blank, []))[1].append((wedge.id, wedge.length, False))
    return tuple(
        packed for name in sorted(stocks) for packed in _packed_stock(*stocks[name], kerf, trim_cut, spare=spare)
    )


def wedge_blank(stock: Lumber, wide: float) -> Lumber:
    """Return what a wedge is ripped from: the wall's stock, or a wider blank where the stock is too narrow [mm]."""
    if wide <= stock.width + 1e-6:
        return stock
    name = f"{stock.name}, wider blank"
    return replace(stock, name=name, nominal="", width=float(math.ceil(wide)))


def _packed_stock(
    stock: Lumber, pieces: Sequence[tuple[str, float, bool]], kerf: float, trim_cut: float, *, spare: bool
) -> Iterable[Packed]:
    """Yield the boards of one stock; pieces longer than any that is sold stand apart, length by length."""
    longest = max(stock.lengths, default=math.inf)
    sold = [p for p in pieces if p[1] <= longest + 1e-6]
    if sold:
        yield _packed_boards(stock, sold, kerf, trim_cut, spare=spare)
    for length in sorted({p[1] for p in pieces if p[1] > longest + 1e-6}):
        yield _packed_boards(stock, [p for p in pieces if p[1] == length], kerf, trim_cut, spare=False)


def _packed_boards(
    stock: Lumber, pieces: Sequence[tuple[str, float, bool]], kerf: float, trim_cut: float, *, spare: bool
) -> Packed:
    ordered = sorted(pieces, key=lambda p: (p[2], -p[1], p[0]))
    plan = pack_boards([p[1] for p in ordered], stock=stock.lengths, kerf=kerf, trim_cut=trim_cut)
    return Packed(
        stock=stock.name,
        length=plan.length,
        width=None,
        number=len(plan.items),
        pieces=tuple(tuple(ordered[i][0] for i in board) for board in plan.items),
        spare=1 if spare and plan.items else 0,
        why=Working(
            formula=NOT_PROVEN,
            inputs=(("pieces", len(ordered), ""), ("kerf", kerf, "mm"), ("board", plan.length, "mm")),
            source=COMMON_PRACTICE,
            value=len(plan.items),
        ),
    )


def place_on_sheets(pieces: Sequence[SheetPiece], *, kerf: float) -> tuple[CutSheet, ...]:
    """Return every sheet with its pieces, first fit in shelves, sheet type by sheet type."""
    types = sorted({p.sheet.name: p.sheet for p in pieces}.items())
    found: list[CutSheet] = []
    for name, sheet in types:
        own = [p for p in pieces if p.sheet.name == name]
        sizes = [(p.width, p.height) for p in own]
        packed = pack_sheets(
            sizes, width=sheet.width, length=sheet.length, kerf=kerf, may_turn=[not sheet.grain] * len(own)
        )
        found += [
            CutSheet(sheet=sheet, number=i + 1, pieces=tuple(_placed(own, spot) for spot in spots))
            for i, spots in enumerate(packed)
        ]
    return tuple(found)


def _placed(pieces: Sequence[SheetPiece], spot: PlacedRectangle) -> PlacedPiece:
    return PlacedPiece(
        piece=pieces[spot.item].id, x=spot.x, y=spot.y, width=spot.width, height=spot.height, turned=spot.turned
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
