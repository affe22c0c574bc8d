"""Fittings and fixings by use, and the boxes that hold everything of one name: rows for list, book and document.

What is counted is decided by ``lathlight.fixing``; spares are those of the takeoff.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.exports.columns import make_table, texts
from lathlight.exports.tables import Cell, Column

if TYPE_CHECKING:
    from lathlight.exports.tables import Table
    from lathlight.fixing import HardwareCount
    from lathlight.plan import Plan

TINY = 1e-9  # a sum of whole numbers is off by less


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareLine:
    """Fittings or fixings of one kind and use."""

    what: str
    name: str
    use: str
    number: int
    box: int  # pieces in a box; 1: sold singly
    to_buy: int  # pieces of this name for all uses, spares among them; 0 on lines after the first of a name
    boxes: int  # that hold these; 0 on lines after the first of a name


def hardware(plan: Plan) -> tuple[HardwareLine, ...]:
    """Return fittings and fixings by use, those of one name after each other; the first says how many are bought."""
    bought: dict[str, float] = {}
    for line in plan.fixing.takeoff:
        bought[line.item] = bought.get(line.item, 0.0) + line.gross
    by_name: dict[str, list[HardwareCount]] = {}
    for count in plan.fixing.hardware:
        by_name.setdefault(count.name, []).append(count)
    return tuple(
        _line(count, to_buy=math.ceil(bought[name] - TINY) if count is counts[0] else 0)
        for name, counts in by_name.items()
        for count in counts
    )


def _line(count: HardwareCount, *, to_buy: int) -> HardwareLine:
    return HardwareLine(
        what=count.what,
        name=count.name,
        use=count.use,
        number=count.number,
        box=count.box,
        to_buy=to_buy,
        boxes=-(-to_buy // count.box),
    )


def hardware_table(plan: Plan) -> Table:
    """Return the table ``hardware``; what is bought stands once for everything of one name."""
    numbers = ("Number", "In a box", "To buy, all uses", "Boxes")
    columns = [*texts("What", "Name", "Use"), *(Column(title=title, kind="count") for title in numbers)]
    rows: list[list[Cell]] = [
        [line.what, line.name, line.use, line.number, line.box, line.to_buy or None, line.boxes or None]
        for line in hardware(plan)
    ]
    return make_table("hardware", "Fittings and fixings", columns, rows)
