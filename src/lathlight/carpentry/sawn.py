"""Everything that is sawn, part by part: what comes from boards and what comes from sheets.

Decides the stock of each part; how many boards and sheets they take is left to ``takeoff``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.blanks import wedge_blank
from lathlight.carpentry.lining_stock import PlainBoard, lining_stock
from lathlight.catalog import Lumber, Sheet
from lathlight.geometry import rectangle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry.blanks import Blank
    from lathlight.carpentry.model import (
        Corner,
        Flat,
        FramedOpening,
        LiningPiece,
        Member,
        Point,
        Rib,
        SheetPiece,
        Wedge,
    )
    from lathlight.carpentry.on_sale import OnSale

OpeningPart = tuple["Flat", "FramedOpening"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPart:
    """One length sawn from a board."""

    id: str  # of a member, wedge or lining piece; one of several layers has its number added
    stock: str
    on_sale: tuple[float, ...]  # stock lengths [mm]; none: not known
    length: float  # [mm]
    may_be_offcut: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """One piece sawn from a sheet, as it stands in its wall [mm]."""

    id: str  # of a sheet piece, rib or lining piece; one of several layers has its number added
    mark: str  # what is pencilled on it
    sheet: Sheet
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    width: float  # of the rectangle it is sawn from
    height: float
    may_turn: bool  # False: its height lies along the sheet's grain


def board_parts(flats: Sequence[Flat], corners: Sequence[Corner], on_sale: OnSale) -> tuple[BoardPart, ...]:
    """Return all that is sawn from boards: members, loose wedges, and linings that no sheet yields."""
    stocks = {flat.wall: flat.stock for flat in flats}
    return (
        *(part for flat in flats for member in flat.members for part in _member_parts(member, on_sale)),
        *(
            part
            for corner in corners
            if corner.wedge is not None
            for part in _layers(
                corner.wedge.id, corner.wedge.length, loose_blank(corner.wedge, stocks[corner.left], on_sale)
            )
        ),
        *(part for flat in flats for opening in flat.openings for part in _lining_boards(flat, opening, on_sale)),
    )


def sheet_parts(flats: Sequence[Flat], on_sale: OnSale) -> tuple[SheetPart, ...]:
    """Return all that is sawn from sheets: the facing, the ribs of arches, and linings as thick as a sheet."""
    return (
        *(_facing(flat, piece) for flat in flats for piece in flat.pieces),
        *(part for flat in flats for o in flat.openings for rib in o.ribs for part in _rib_parts(flat, o, rib)),
        *(part for flat in flats for o in flat.openings for part in _lining_strips(flat, o, on_sale)),
    )


def member_blank(member: Member, on_sale: OnSale) -> Blank | None:
    """Return what a flat's wedge is ripped from; None for any other member."""
    if member.role != "wedge" or member.section is None:
        return None
    return wedge_blank(member.stock, member.section, length=member.length, lumber=on_sale.lumber)


def loose_blank(wedge: Wedge, stock: Lumber, on_sale: OnSale) -> Blank:
    """Return what a corner's loose wedge is ripped from; ``stock`` is its left wall's timber."""
    return wedge_blank(stock, wedge.outline, length=wedge.length, lumber=on_sale.lumber)


def lining_of(flat: Flat, opening: FramedOpening, piece: LiningPiece, on_sale: OnSale) -> Sheet | Lumber | PlainBoard:
    """Return what one lining piece is cut from."""
    return lining_stock(
        piece, thickness=opening.lining_thickness, sheet=flat.sheet, framing=flat.stock, on_sale=on_sale
    )


def _member_parts(member: Member, on_sale: OnSale) -> Iterator[BoardPart]:
    blank = member_blank(member, on_sale)
    if blank is not None:
        yield from _layers(member.id, member.length, blank, may_be_offcut=member.may_be_offcut)
        return
    yield BoardPart(
        id=member.id,
        stock=member.stock.name,
        on_sale=member.stock.lengths,
        length=member.length,
        may_be_offcut=member.may_be_offcut,
    )


def _layers(identity: str, length: float, blank: Blank, *, may_be_offcut: bool = False) -> Iterator[BoardPart]:
    for layer in _numbered(identity, blank.layers):
        yield BoardPart(
            id=layer,
            stock=blank.stock.name,
            on_sale=blank.stock.lengths,
            length=length,
            may_be_offcut=may_be_offcut,
        )


def _numbered(identity: str, layers: int) -> tuple[str, ...]:
    """Return one id a layer; a single one keeps the part's own."""
    return (identity,) if layers == 1 else tuple(f"{identity}/layer {n}" for n in range(1, layers + 1))


def _lining_boards(flat: Flat, opening: FramedOpening, on_sale: OnSale) -> Iterator[BoardPart]:
    for piece in opening.lining:
        stock = lining_of(flat, opening, piece, on_sale)
        if not isinstance(stock, Sheet):
            lengths = stock.lengths if isinstance(stock, Lumber) else ()
            yield BoardPart(id=piece.id, stock=stock.name, on_sale=lengths, length=piece.length, may_be_offcut=False)


def _facing(flat: Flat, piece: SheetPiece) -> SheetPart:
    return SheetPart(
        id=piece.id,
        mark=f"{flat.mark}-{piece.mark}",
        sheet=piece.sheet,
        outline=piece.outline,
        holes=piece.holes,
        width=piece.width,
        height=piece.height,
        may_turn=not piece.sheet.grain,
    )


def _rib_parts(flat: Flat, opening: FramedOpening, rib: Rib) -> Iterator[SheetPart]:
    xs, zs = [p[0] for p in rib.outline], [p[1] for p in rib.outline]
    for layer in _numbered(rib.id, rib.layers):
        yield SheetPart(
            id=layer,
            mark=f"{flat.mark}-{opening.name} rib, {rib.side}",
            sheet=rib.sheet,
            outline=rib.outline,
            holes=(),
            width=max(xs) - min(xs),
            height=max(zs) - min(zs),
            may_turn=True,  # out of sight: its grain may run either way
        )


def _lining_strips(flat: Flat, opening: FramedOpening, on_sale: OnSale) -> Iterator[SheetPart]:
    for piece in opening.lining:
        stock = lining_of(flat, opening, piece, on_sale)
        if isinstance(stock, Sheet):
            yield SheetPart(
                id=piece.id,
                mark=f"{flat.mark}-{opening.name} lining, {piece.side}",
                sheet=stock,
                outline=rectangle(0.0, 0.0, piece.deep, piece.length),
                holes=(),
                width=piece.deep,
                height=piece.length,
                may_turn=not stock.grain,
            )
