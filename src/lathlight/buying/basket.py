"""The basket: what is bought, shop section by shop section, with sums, tax and total.

Decides how lines are laid out and added up. A missing price stays missing: the line has no sum, and the basket counts
it. Which lines there are is left to ``lathlight.buying.shopping``.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from lathlight.buying.money import ROUNDING, make_totals, minor_unit, money_text, plain_figure
from lathlight.buying.sizes import volume_text
from lathlight.units import drawing_length
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.buying.money import Tax, Totals
    from lathlight.buying.prices import Per
    from lathlight.units import LengthStyle

Section = Literal[
    "timber",
    "sheets",
    "mouldings",
    "moulding frames",
    "paint",
    "glue and filler",
    "screws and fixings",
    "hardware",
    "weights",
    "floor",
]
SECTIONS: tuple[Section, ...] = (  # in the order of the list
    "timber",
    "sheets",
    "mouldings",
    "moulding frames",
    "paint",
    "glue and filler",
    "screws and fixings",
    "hardware",
    "weights",
    "floor",
)
HEADER = ("Section", "Item", "Size", "Sold by", "Number", "Price each", "Sum", "Note")
MISSING = "no price"

Cell = str | Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BasketLine:
    """So many of one thing of one size."""

    section: Section
    item: str  # a catalogue row's name, or what the takeoff calls it
    unit: Per  # what one is
    number: Decimal  # to buy; whole but for metres and square metres
    price: Decimal | None  # of one, as the list has it (before or after tax); None where there is none
    cost: Decimal | None  # all of them together, to the smallest coin; None where there is no price
    why: Working
    length: float | None = None  # of one [mm]
    volume: float | None = None  # of one [l]
    box: int | None = None  # pieces in one
    frame: tuple[float, float] | None = None  # width and height of one [mm]
    note: str = ""

    @property
    def key(self) -> tuple[str, str, str, float, float, int, tuple[float, float]]:
        """What makes it the same thing in another basket."""
        sizes = (self.length or 0.0, self.volume or 0.0, self.box or 0, self.frame or (0.0, 0.0))
        return (self.section, self.item, self.unit, *sizes)


@dataclass(frozen=True, slots=True, kw_only=True)
class BasketSection:
    """The lines of one section of the shop."""

    name: Section
    lines: tuple[BasketLine, ...]
    cost: Decimal | None  # of the lines with a price; None where no line has one
    unpriced: int  # lines without a price


@dataclass(frozen=True, slots=True, kw_only=True)
class Basket:
    """Everything that is bought for a set."""

    currency: str
    tax: Tax
    sections: tuple[BasketSection, ...]  # in the shop's order; none is empty
    totals: Totals | None  # of the lines with a price; None where there are lines and none has one
    unpriced: int  # lines without a price
    why: Working  # of the gross

    @property
    def lines(self) -> tuple[BasketLine, ...]:
        """All lines, section by section."""
        return tuple(line for section in self.sections for line in section.lines)


def add_up(lines: Iterable[BasketLine], *, currency: str, tax: Tax) -> Basket:
    """Return the basket of some lines, by section, in the order in which they come.

    Notes
    -----
    Lines are rounded, then added; the tax is worked out once, on the total (``lathlight.buying.money``).
    """
    every = tuple(lines)
    sections = tuple(
        _section(name, own) for name in SECTIONS if (own := tuple(line for line in every if line.section == name))
    )
    costs = [line.cost for line in every if line.cost is not None]
    unit = minor_unit(currency)
    known = bool(costs) or not every
    totals = make_totals(sum(costs, start=Decimal(0)), tax=tax, unit=unit) if known else None
    return Basket(
        currency=currency,
        tax=tax,
        sections=sections,
        totals=totals,
        unpriced=len(every) - len(costs),
        why=_why(every, totals, currency, tax),
    )


def _section(name: Section, lines: tuple[BasketLine, ...]) -> BasketSection:
    costs = [line.cost for line in lines if line.cost is not None]
    cost = sum(costs, start=Decimal(0)) if costs else None
    return BasketSection(name=name, lines=lines, cost=cost, unpriced=len(lines) - len(costs))


def _why(lines: Sequence[BasketLine], totals: Totals | None, currency: str, tax: Tax) -> Working:
    priced = sum(1 for line in lines if line.cost is not None)
    listed = "with the tax" if tax.included else "without the tax"
    known = () if totals is None else (("net", money_text(totals.net, currency=currency), ""),)
    return Working(
        formula="all lines with a price together; lines without one are left out, never counted as nothing",
        inputs=(
            ("lines with a price", priced, ""),
            ("lines without a price", len(lines) - priced, ""),
            ("tax", f"{plain_figure(tax.percent, unit=Decimal(1))} %", ""),
            ("prices are listed", listed, ""),
            *known,
        ),
        source=ROUNDING,
        value=MISSING if totals is None else money_text(totals.gross, currency=currency),
    )


# --- rows ----------------------------------------------------------------------------------------------------------


def basket_rows(basket: Basket, *, style: LengthStyle) -> tuple[tuple[Cell, ...], ...]:
    """Return the basket as rows of a table under :data:`HEADER`: the lines, then net, tax, total and what is missing.

    Numbers and money are `Decimal`, empty cells None; a missing price is ``no price`` in words. Money stands as the
    list has it, before or after the tax; the last rows say which.
    """
    return (*(_row(line, style) for line in basket.lines), *_last_rows(basket))


def size_text(line: BasketLine, *, style: LengthStyle) -> str:
    """Return the size of one in words; "" where it has none."""
    if line.length is not None:
        unit = " mm" if style.system == "metric" else ""
        return f"{drawing_length(line.length, style=style)}{unit}"
    if line.frame is not None:
        wide, high = (drawing_length(side, style=style) for side in line.frame)
        return f"{wide} x {high}{' mm' if style.system == 'metric' else ''}"
    if line.volume is not None:
        return volume_text(line.volume, style=style)
    return "" if line.box is None else f"{line.box} in a box"


def _row(line: BasketLine, style: LengthStyle) -> tuple[Cell, ...]:
    price: Cell = MISSING if line.price is None else line.price
    return (line.section, line.item, size_text(line, style=style), line.unit, line.number, price, line.cost, line.note)


def _last_rows(basket: Basket) -> tuple[tuple[Cell, ...], ...]:
    percent = plain_figure(basket.tax.percent, unit=Decimal(1))
    totals = basket.totals
    sums: tuple[tuple[str, Decimal | None], ...] = (
        ("net", None if totals is None else totals.net),
        (f"tax {percent} %", None if totals is None else totals.tax),
        ("total", None if totals is None else totals.gross),
    )
    note = f"prices above are {'after' if basket.tax.included else 'before'} tax"
    listed = [_last(name, basket.currency, cost, note if name == "net" else "") for name, cost in sums]
    if basket.unpriced:
        lines = "line" if basket.unpriced == 1 else "lines"
        listed.append(_last("without a price", "", None, f"{basket.unpriced} {lines}, not in the total"))
    return tuple(listed)


def _last(name: str, currency: str, cost: Decimal | None, note: str) -> tuple[Cell, ...]:
    return ("", name, "", currency, None, None, cost, note)
