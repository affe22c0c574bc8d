"""The mouldings to cut as a table: decides its columns; rows and words are those of ``trim_cuts``."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.exports.columns import length_cells, length_columns, make_table, texts, yes
from lathlight.exports.tables import Cell, Column
from lathlight.exports.trim_cuts import trim_cuts

if TYPE_CHECKING:
    from lathlight.exports.tables import Table
    from lathlight.exports.trim_cuts import EndCut, TrimCut
    from lathlight.mouldings import TrimPlan
    from lathlight.units import LengthStyle


def trim_table(trim: TrimPlan, style: LengthStyle) -> Table:
    """Return the table ``trim``: every piece, return and backing strip in a row of its own, in the order of sawing."""
    columns = [
        *texts("Id", "What", "Wall", "Line", "Profile"),
        *(c for title in ("Long point", "Short point", "At the back") for c in length_columns(title, style)),
        *(c for side in ("Left", "Right") for c in _end_columns(side)),
        *texts("Loose", "Note"),
    ]
    return make_table("trim", "Mouldings to cut", columns, (_row(cut, style) for cut in trim_cuts(trim, style)))


def _end_columns(side: str) -> list[Column]:
    angles = [Column(title=f"{side} {of} [°]", kind="degree") for of in ("swing", "bevel")]
    return [Column(title=f"{side} end"), *angles, Column(title=f"{side} saw")]


def _row(cut: TrimCut, style: LengthStyle) -> list[Cell]:
    return [
        *(cut.id, cut.what, cut.wall, cut.line, cut.profile),
        *(cell for mm in (cut.long_point, cut.short_point, cut.back) for cell in length_cells(mm, style)),
        *_end_cells(cut.left),
        *_end_cells(cut.right),
        *(yes(cut.loose), cut.note),
    ]


def _end_cells(end: EndCut) -> list[Cell]:
    return [end.kind, math.degrees(end.mitre), math.degrees(end.bevel), end.saw]
