"""The typeset takeoff: everything that the set takes, trade by trade, with what is added and why."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn
from lathlight.book.words import sentence
from lathlight.exports import amount_words, packs_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.book.blocks import Cell
    from lathlight.finishing import TakeoffRow
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LEAD = (
    "Net is what the drawings ask for; gross, with what is added and why, is what is bought. Where it is proven that "
    "less will not do, that is said."
)
COLUMNS = (
    ListColumn(title="What", kind="mark", grow=4),
    ListColumn(title="Net", kind="figure"),
    ListColumn(title="Added", kind="figure"),
    ListColumn(title="Why", grow=6),
    ListColumn(title="Gross", kind="figure"),
    ListColumn(title="Bought as", grow=3),
    ListColumn(title="Got", kind="ticks"),
)


def takeoff_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the takeoff; nothing where it has no row."""
    style = plan.brief.style
    groups = tuple(
        Group(heading=sentence(trade), detail="", rows=tuple(_row(row, style) for row in rows))
        for trade, rows in groupby(plan.takeoff, key=lambda row: row.trade)
    )
    if groups:
        yield Chapter(title="Takeoff", lead=LEAD, blocks=(Grid(columns=COLUMNS, groups=groups),))


def _row(row: TakeoffRow, style: LengthStyle) -> tuple[Cell, ...]:
    line = row.line
    net, added, gross = (amount_words(value, line.unit, style) for value in (line.net, line.allowance, line.gross))
    nothing = added == amount_words(0.0, line.unit, style)
    what = ("", "") if nothing else (added, line.reason)
    return line.item, net, *what, gross, packs_words(row, style), 1
