"""Casing and wall ends as tables: legs, heads, blocks and curves with their cuts, and what covers the free ends.

Decides columns and order; the pieces are those of ``lathlight.mouldings``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.exports.columns import length_cells, length_columns, make_table, texts
from lathlight.exports.figures import length_words
from lathlight.exports.tables import Cell, Column
from lathlight.exports.trim_cuts import saw_words
from lathlight.units import format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.exports.tables import Table
    from lathlight.mouldings import Casing, CasingBlock, CasingCurve, CasingEnd, CasingPiece, WallEndCover
    from lathlight.units import LengthStyle

NO_END: tuple[Cell, ...] = ("", None, "")
LENGTHS = ("Long point", "Short point", "Width", "Thickness", "Bottom", "Top")


def casing_table(casings: Sequence[Casing], style: LengthStyle, *, rise: float) -> Table:
    """Return the table ``casing``: every piece, block and curve, opening by opening.

    A piece lies on the saw face up with its outer edge to the fence. Heights count from the finished floor.

    Parameters
    ----------
    rise
        How high the finished floor lies above the foot of the flats [mm].
    """
    columns = [
        *texts("Id", "What", "Wall", "Opening", "Profile"),
        *(c for title in LENGTHS for c in length_columns(title, style)),
        *(c for side in ("First", "Last") for c in _end_columns(side)),
        *texts("Note"),
    ]
    rows = (row for casing in casings for row in _rows(casing, style, rise))
    return make_table("casing", "Casing to cut", columns, rows)


def _end_columns(side: str) -> list[Column]:
    """Return the columns of one end: the first is at the bottom or left, the last at the top or right."""
    return [Column(title=f"{side} end"), Column(title=f"{side} swing [°]", kind="degree"), Column(title=f"{side} saw")]


def _rows(casing: Casing, style: LengthStyle, rise: float) -> Iterator[list[Cell]]:
    for piece in casing.pieces:
        yield _piece_row(casing, piece, style, rise)
    if casing.curve is not None:
        yield _curve_row(casing, casing.curve, style)
    for block in casing.blocks:
        yield _block_row(casing, block, style, rise)


def _piece_row(casing: Casing, piece: CasingPiece, style: LengthStyle, rise: float) -> list[Cell]:
    sizes = (piece.long_point, piece.short_point, None, None, piece.z0 - rise, piece.z1 - rise)
    return [
        *(piece.id, piece.part, casing.wall, casing.opening, casing.profile.name),
        *(cell for mm in sizes for cell in length_cells(mm, style)),
        *_end_cells(piece.first),
        *_end_cells(piece.last),
        "",
    ]


def _end_cells(end: CasingEnd) -> list[Cell]:
    kind = f"{end.kind} ({end.against})" if end.against else end.kind
    return [kind, math.degrees(end.saw.mitre), saw_words(end.saw)]


def _curve_row(casing: Casing, curve: CasingCurve, style: LengthStyle) -> list[Cell]:
    inner, outer = (length_words(radius, style) for radius in (curve.inner_radius, curve.outer_radius))
    note = f"radius {inner} inside, {outer} outside, turns through {format_angle(curve.angle)}; {curve.note}"
    sizes = (curve.length, None, None, None, None, None)
    cells = (cell for mm in sizes for cell in length_cells(mm, style))
    return [curve.id, "curved head", casing.wall, casing.opening, casing.profile.name, *cells, *NO_END, *NO_END, note]


def _block_row(casing: Casing, block: CasingBlock, style: LengthStyle, rise: float) -> list[Cell]:
    sizes = (block.height, block.height, block.width, block.thickness, block.z0 - rise, block.z1 - rise)
    cells = (cell for mm in sizes for cell in length_cells(mm, style))
    square: list[Cell] = ["square", 0.0, "square"]
    return [block.id, block.kind, casing.wall, casing.opening, "", *cells, *square, *square, "plain block"]


def end_table(ends: Sequence[WallEndCover], style: LengthStyle) -> Table:
    """Return the table ``wall ends``: what is done with each free end, and the size of what lies over it."""
    columns = [
        *texts("Id", "Wall", "Side", "Finish", "Stock"),
        *(c for title in ("Length", "Width", "Thickness") for c in length_columns(title, style)),
        *texts("Note"),
    ]
    rows = (
        [
            *(end.id, end.wall, end.side, end.finish, end.stock),
            *length_cells(end.length, style),
            *length_cells(end.width, style),
            *length_cells(end.thickness or None, style),
            end.note,
        ]
        for end in ends
    )
    return make_table("wall ends", "Free ends of the set", columns, rows)
