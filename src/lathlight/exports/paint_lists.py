"""The paint as tables: how much of each coating with all that is added, and the finish schedule.

Decides columns and order; litres, tins and the schedule are those of ``lathlight.finishing``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.amounts import tin_words
from lathlight.exports.columns import amount_cells, amount_columns, make_table, texts
from lathlight.exports.tables import Cell, Column
from lathlight.finishing import finish_schedule

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.exports.tables import Table
    from lathlight.finishing import Coating, Finish, FinishStep
    from lathlight.units import LengthStyle

SQUARE_METRE = 1e6  # [mm2]
METRE = 1000.0  # [mm]


def paint_table(finish: Finish, style: LengthStyle) -> Table:
    """Return the table ``paint``: every coating with its net, each allowance, its gross, and the tins that hold it."""
    reasons = tuple(dict.fromkeys(a.reason for c in finish.coatings for a in c.need.allowances))
    columns = [
        *texts("Coating", "Sheen"),
        Column(title="Coats", kind="count"),
        *amount_columns("Area, one coat", "m2", style),
        *amount_columns("Net", "l", style),
        *(c for reason in reasons for c in amount_columns(reason[:1].upper() + reason[1:], "l", style)),
        *amount_columns("Gross", "l", style),
        *texts("Tins", "Note"),
    ]
    rows = (_coating_row(coating, reasons, style) for coating in finish.coatings)
    return make_table("paint", "Paint", columns, rows)


def _coating_row(coating: Coating, reasons: Sequence[str], style: LengthStyle) -> list[Cell]:
    need = coating.need
    litres = {allowance.reason: allowance.litres for allowance in need.allowances}
    tins = () if coating.tins is None else coating.tins.tins
    bought = ", ".join(f"{number} × {tin_words(size, style)}" for size, number in tins)
    return [
        *(need.coating.name, need.sheen, need.coats),
        *amount_cells(need.area / SQUARE_METRE, "m2", style),
        *amount_cells(need.net, "l", style),
        *(cell for reason in reasons for cell in amount_cells(litres.get(reason, 0.0), "l", style)),
        *amount_cells(need.gross, "l", style),
        *("at hand" if coating.tins is None else bought, coating.note),
    ]


def schedule_table(finish: Finish, style: LengthStyle) -> Table:
    """Return the table ``finish schedule``: what is painted with what, in the order of the work."""
    columns = [
        Column(title="Step", kind="count"),
        *texts("Surface", "Of"),
        *amount_columns("Area, one coat", "m2", style),
        *amount_columns("Length", "m", style),
        *texts("Coating", "Sheen"),
        Column(title="Coats", kind="count"),
        *texts("Tool", "Note"),
    ]
    rows = (_step_row(each, style) for each in finish_schedule(finish))
    return make_table("finish schedule", "Finish schedule", columns, rows)


def _step_row(step: FinishStep, style: LengthStyle) -> list[Cell]:
    return [
        *(step.number, step.surface, step.stuff),
        *amount_cells(step.area / SQUARE_METRE, "m2", style),
        *amount_cells(step.length / METRE, "m", style),
        *(step.coating, step.sheen, step.coats, step.tool, step.note),
    ]
