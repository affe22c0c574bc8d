"""The floor covering as a table: every strip, row of boards or drop; the whole of it where it has none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.columns import amount_cells, amount_columns, length_cells, length_columns, make_table, texts
from lathlight.exports.tables import Cell, Column
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.exports.tables import Table
    from lathlight.flooring import FloorPlan, FloorRow
    from lathlight.units import LengthStyle

SQUARE_METRE = 1e6  # [mm2]
WHAT = {"strips": "strip", "boards": "row of boards", "roll": "drop", "area only": "covering"}


def floor_table(floor: FloorPlan, style: LengthStyle) -> Table:
    """Return the table ``floor``: rows from the left, or from the back where they run along the set."""
    columns = [
        *texts("Covering", "What"),
        Column(title="Number", kind="count"),
        *(c for title in ("Width", "Length", "From") for c in length_columns(title, style)),
        *texts("Joints from its start"),
        *amount_columns("Area", "m2", style),
    ]
    return make_table("floor", "Floor covering", columns, _rows(floor, style))


def _rows(floor: FloorPlan, style: LengthStyle) -> Iterator[list[Cell]]:
    for row in floor.rows:
        joints = "; ".join(drawing_length(joint - row.start, style=style) for joint in row.joints)
        yield [floor.covering, WHAT[floor.goods], row.number, *_sizes(floor, row, style), joints, "", None]
    whole = [*length_cells(floor.width, style), *length_cells(floor.depth, style), *length_cells(None, style)]
    area = amount_cells(floor.area / SQUARE_METRE, "m2", style)
    yield [floor.covering, "as laid, whole extent", None, *whole, "", *area]


def _sizes(floor: FloorPlan, row: FloorRow, style: LengthStyle) -> Iterator[Cell]:
    """Yield width, length, and how far the row's first side lies from the left edge, or from the back edge."""
    first = row.low - floor.extent[0] if floor.runs == "away" else floor.extent[3] - row.high
    for mm in (row.width, row.length, first):
        yield from length_cells(mm, style)
