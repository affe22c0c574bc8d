"""What the lining of an opening is cut from: strips of sheet, boards on sale, or boards to be found by size.

Decides the stock of one lining piece; its size is found where the opening is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.model import LiningPiece
    from lathlight.carpentry.on_sale import OnSale
    from lathlight.catalog import Lumber, Sheet

SAME = 0.05  # thicknesses this near to each other are one [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainBoard:
    """A board that no row of the catalogue gives: bought by its thickness and width, in whatever lengths there are."""

    name: str


def lining_stock(
    piece: LiningPiece, *, thickness: float, sheet: Sheet, framing: Lumber, on_sale: OnSale
) -> Sheet | Lumber | PlainBoard:
    """Return what a lining piece is cut from.

    Parameters
    ----------
    piece, thickness
        The piece, and how thick the opening's lining is [mm].
    sheet, framing
        The wall's own.
    on_sale
        What else there is.

    Notes
    -----
    In this order (common practice, no source): the wall's own sheet, or another of its material, as thick as the
    lining and large enough for the strip; the narrowest timber of the framing's own system of sizes that is as thick
    and at least as wide; a board of just this size, for which the catalogue has no row.
    """
    return (
        _sheet(piece, thickness, sheet, on_sale.sheets)
        or _timber(piece, thickness, framing, on_sale.lumber)
        or _plain(piece, thickness, on_sale)
    )


def _sheet(piece: LiningPiece, thickness: float, own: Sheet, sheets: Sequence[Sheet]) -> Sheet | None:
    others = sorted(sheets, key=lambda each: (each.length * each.width, each.name))
    fitting = (
        each
        for each in (own, *others)
        if each.material == own.material
        and abs(each.thickness - thickness) <= SAME
        and piece.deep <= each.width
        and piece.length <= each.length
    )
    return next(fitting, None)


def _timber(piece: LiningPiece, thickness: float, framing: Lumber, lumber: Sequence[Lumber]) -> Lumber | None:
    fitting = [
        each
        for each in lumber
        if each.system == framing.system
        and abs(each.width - thickness) <= SAME
        and piece.deep <= each.depth + SAME
        and piece.length <= max(each.lengths, default=math.inf)
    ]
    return min(fitting, key=lambda each: (each.depth, each.name), default=None)


def _plain(piece: LiningPiece, thickness: float, on_sale: OnSale) -> PlainBoard:
    style = on_sale.style
    digits = 2 if style.system == "metric" else 6  # a fraction of an inch keeps all of them
    thick, wide = (format_length(round(mm, digits), style=style) for mm in (thickness, piece.deep))
    return PlainBoard(name=f"lining {thick} x {wide}")
