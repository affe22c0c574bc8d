"""The takeoff as a table: everything that the set takes, with what is added and why, and what it is bought in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.amounts import amount_words, own_amount, packs_words
from lathlight.exports.columns import make_table, texts
from lathlight.exports.figures import working_words
from lathlight.exports.tables import Cell, Column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.exports.tables import Table
    from lathlight.finishing import TakeoffRow
    from lathlight.units import LengthStyle


def takeoff_table(takeoff: Sequence[TakeoffRow], style: LengthStyle) -> Table:
    """Return the table ``takeoff``, trade by trade; plain numbers are in the project's own units."""
    columns = [
        *texts("Trade", "Item", "Net in words", "Allowance in words", "Reason", "Gross in words", "Bought as", "Unit"),
        *(Column(title=title, kind="amount") for title in ("Net", "Allowance", "Gross")),
        *texts("How"),
    ]
    return make_table("takeoff", "Takeoff", columns, (_row(row, style) for row in takeoff))


def _row(row: TakeoffRow, style: LengthStyle) -> list[Cell]:
    line = row.line
    values = (line.net, line.allowance, line.gross)
    net, added, gross = (amount_words(value, line.unit, style) for value in values)
    return [
        *(row.trade, line.item, net, added if line.allowance else "", line.reason, gross, packs_words(row, style)),
        own_amount(0.0, line.unit, style)[1],
        *(own_amount(value, line.unit, style)[0] for value in values),
        working_words(line.why, style),
    ]
