"""Lists: equal pieces together; and how a sheet with its pieces is written down. Cutting them is left to the sawing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.model import CutLine
from lathlight.carpentry.sawn import lining_of, loose_blank, member_blank

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.blanks import Blank
    from lathlight.carpentry.model import Corner, Flat, FramedOpening, LiningPiece, Member, Rib, SheetPiece, Wedge
    from lathlight.carpentry.on_sale import OnSale
    from lathlight.carpentry.sawn import SheetPart
    from lathlight.catalog import Sheet

BEVEL = 0.05  # a smaller bevel is none [mm]


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
