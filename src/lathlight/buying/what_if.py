"""What-if lines: another basket beside this one, which lines differ, and by how much.

Decides what can be compared: a difference is a number only where every line that differs has a price on both sides. The
other baskets (another stock mix, another thickness of sheet) come from plans that are made elsewhere; the basket of a
repaint is made here.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from lathlight.buying.basket import add_up

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.buying.basket import Basket, BasketLine


@dataclass(frozen=True, slots=True, kw_only=True)
class LineDifference:
    """One thing of which two baskets hold different numbers, or at different prices."""

    before: BasketLine | None  # None: only in the other basket
    after: BasketLine | None  # None: no longer bought
    cost: Decimal | None  # what is paid more, below 0 where less; None where a price is missing


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """Another basket instead of this one."""

    title: str  # "sheets 12 mm thick"
    basket: Basket  # the other one
    lines: tuple[LineDifference, ...]
    net: Decimal | None  # what is paid more before tax; None where it cannot be known
    gross: Decimal | None  # the same with tax
    unknown: int  # lines that differ and lack a price


def compare_baskets(basket: Basket, other: Basket, *, title: str) -> WhatIf:
    """Return what another basket would change; lines that are alike are left out, priced or not.

    Raises
    ------
    ValueError
        Baskets of two currencies or two taxes: they cannot be compared.
    """
    if (basket.currency, basket.tax) != (other.currency, other.tax):
        raise ValueError(f"baskets in {basket.currency} and {other.currency}, or with different tax")
    mine = {line.key: line for line in basket.lines}
    theirs = {line.key: line for line in other.lines}
    pairs = ((mine.get(key), theirs.get(key)) for key in dict.fromkeys((*mine, *theirs)))
    lines = tuple(_difference(before, after) for before, after in pairs if not _alike(before, after))
    unknown = sum(1 for line in lines if line.cost is None)
    net, gross = (None, None) if unknown else _of_totals(basket, other)
    return WhatIf(title=title, basket=other, lines=lines, net=net, gross=gross, unknown=unknown)


def _alike(before: BasketLine | None, after: BasketLine | None) -> bool:
    return (
        before is not None
        and after is not None
        and (before.number, before.price, before.cost) == (after.number, after.price, after.cost)
    )


def _difference(before: BasketLine | None, after: BasketLine | None) -> LineDifference:
    costs = [Decimal(0) if line is None else line.cost for line in (before, after)]
    known = [cost for cost in costs if cost is not None]
    return LineDifference(before=before, after=after, cost=known[1] - known[0] if len(known) == 2 else None)


def _of_totals(basket: Basket, other: Basket) -> tuple[Decimal | None, Decimal | None]:
    """Return the differences of the totals; what has no price is the same in both and cancels out."""
    mine, theirs = basket.totals, other.totals
    zero = Decimal(0)
    net = (zero if theirs is None else theirs.net) - (zero if mine is None else mine.net)
    gross = (zero if theirs is None else theirs.gross) - (zero if mine is None else mine.gross)
    return net, gross


def what_ifs(basket: Basket, others: Iterable[tuple[str, Basket]]) -> tuple[WhatIf, ...]:
    """Return the comparisons with other baskets, cheapest first; those that cannot be compared last, as they came."""
    found = [compare_baskets(basket, other, title=title) for title, other in others]
    known = [each for each in found if each.gross is not None]
    known.sort(key=lambda each: each.gross or Decimal(0))
    return (*known, *(each for each in found if each.gross is None))


def next_cheapest(basket: Basket, others: Iterable[tuple[str, Basket]]) -> WhatIf | None:
    """Return the cheapest other basket that buys something else; None where there is none to compare with."""
    found = (each for each in what_ifs(basket, others) if each.lines and each.gross is not None)
    return next(found, None)


def repaint_basket(basket: Basket) -> Basket:
    """Return the basket of a repaint: the lines of the paint section, added up anew.

    Coats and primer are those of the new set; a wall that is painted already may take less.
    """
    return add_up((line for line in basket.lines if line.section == "paint"), currency=basket.currency, tax=basket.tax)
