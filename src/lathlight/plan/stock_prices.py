"""What lengths of timber and mouldings are weighed at when boards are chosen: money, or length where no price is known.

Decides which lengths are bought at all: where prices are stated, only lengths with a price, so that what is bought has
one. Where a piece comes out of none of these, all lengths are weighed, those without a price by what a metre of the
dearest priced length costs. Adding up what is paid is left to buying.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.project import Price


CENT = Decimal("0.01")
TOUCH = 1e-3  # [mm]
BY_PIECE = ("piece", "length")
Weighed = Literal["by price", "by length", "by price, the others by length"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SoldLength:
    """One length that can be bought."""

    length: float  # [mm]
    weight: int  # what it counts: hundredths of the currency, or shares of length where no price is known
    limit: int | None  # most that the shop has; None: not stated
    stated: bool  # the project states its price


@dataclass(frozen=True, slots=True, kw_only=True)
class SoldLengths:
    """The lengths that are weighed against each other."""

    lengths: tuple[SoldLength, ...]
    weighed: Weighed
    left_out: tuple[float, ...]  # lengths that nobody stated a price for, not bought [mm]


def sold_lengths(
    item: str, on_sale: Sequence[float], prices: Iterable[Price], *, longest: float, trim_cut: float
) -> SoldLengths:
    """Return what each stock length of an item counts.

    Parameters
    ----------
    item
        Name of the catalogue row.
    on_sale
        Its stock lengths [mm], one at least.
    prices
        The project's; those of other items are passed over. A price per piece without a length counts where the item
        is sold in one length only.
    longest, trim_cut
        The longest piece that any of these lengths yields, and what is cut off a factory end [mm].
    """
    known: dict[float, tuple[Decimal, int | None]] = {}
    for price in prices:
        if price.item == item:
            known |= {each: (cost, price.in_stock) for each, cost in _costs(price, sorted(set(on_sale)))}
    lengths = sorted(set(on_sale))
    if not known:
        share = math.gcd(*(round(each * 10) for each in lengths))
        weights = [SoldLength(length=x, weight=round(x * 10) // share, limit=None, stated=False) for x in lengths]
        return SoldLengths(lengths=tuple(weights), weighed="by length", left_out=())
    if longest <= max(known) - trim_cut + TOUCH or abs(longest - max(known)) <= TOUCH:
        return SoldLengths(
            lengths=tuple(_stated(each, *known[each]) for each in sorted(known)),
            weighed="by price",
            left_out=tuple(each for each in lengths if each not in known),
        )
    dearest = max(cost / Decimal(each) for each, (cost, _) in known.items())
    return SoldLengths(
        lengths=tuple(_stated(x, *known[x]) if x in known else _guessed(x, dearest) for x in lengths),
        weighed="by price, the others by length",
        left_out=(),
    )


def _costs(price: Price, lengths: Sequence[float]) -> Iterable[tuple[float, Decimal]]:
    """Yield the lengths that a price speaks of, with what one costs."""
    for each in lengths:
        if price.per == "metre" and price.length is None:
            yield each, price.price * Decimal(each) / 1000
        elif price.per in BY_PIECE and price.length is None and len(lengths) == 1:
            yield each, price.price
        elif price.length is not None and abs(price.length - each) <= TOUCH:
            yield each, price.price * Decimal(each) / 1000 if price.per == "metre" else price.price


def _stated(length: float, cost: Decimal, limit: int | None) -> SoldLength:
    return SoldLength(length=length, weight=max(1, _cents(cost)), limit=limit, stated=True)


def _guessed(length: float, rate: Decimal) -> SoldLength:
    return SoldLength(length=length, weight=max(1, _cents(rate * Decimal(length))), limit=None, stated=False)


def _cents(money: Decimal) -> int:
    return int((money / CENT).to_integral_value(ROUND_HALF_UP))
