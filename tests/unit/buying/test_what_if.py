"""What-if lines: which lines differ between two baskets, and by how much."""

from __future__ import annotations

from decimal import Decimal

import pytest

from lathlight.buying import (
    Basket,
    BasketLine,
    Section,
    Tax,
    add_up,
    compare_baskets,
    next_cheapest,
    repaint_basket,
    what_ifs,
)
from lathlight.working import Working

TAX = Tax(percent=Decimal(20), included=False)


def line(item: str, number: int, each: str | None, section: Section = "timber", length: float = 2400.0) -> BasketLine:
    price = None if each is None else Decimal(each)
    return BasketLine(
        section=section,
        item=item,
        unit="length",
        number=Decimal(number),
        price=price,
        cost=None if price is None else number * price,
        why=Working(formula="made up"),
        length=length,
    )


def basket(*lines: BasketLine, tax: Tax = TAX) -> Basket:
    return add_up(lines, currency="EUR", tax=tax)


SHORT, PAINT = line("a", 10, "5.00"), line("p", 1, "30.00", "paint")
NOW = basket(SHORT, PAINT)


def test_only_lines_that_differ_are_named_with_what_they_cost_more() -> None:
    found = compare_baskets(NOW, basket(line("a", 8, "5.00"), line("a", 1, "8.00", length=4800.0), PAINT), title="mix")
    assert [(d.before and d.before.number, d.after and d.after.number, d.cost) for d in found.lines] == [
        (10, 8, Decimal("-10.00")),
        (None, 1, Decimal("8.00")),
    ]
    assert (found.net, found.gross, found.unknown) == (Decimal("-2.00"), Decimal("-2.40"), 0)


def test_a_basket_differs_in_nothing_from_itself() -> None:
    found = compare_baskets(NOW, NOW, title="the same")
    assert (found.lines, found.net, found.gross) == ((), 0, 0)


def test_swapping_two_baskets_turns_the_difference_round() -> None:
    other = basket(line("a", 7, "5.50"), line("b", 2, "1.00"))
    there, back = compare_baskets(NOW, other, title=""), compare_baskets(other, NOW, title="")
    assert there.net is not None
    assert there.net == -(back.net or 0)
    assert sum((d.cost or Decimal(0)) for d in there.lines) == there.net


def test_a_line_without_a_price_that_differs_leaves_the_difference_unknown() -> None:
    found = compare_baskets(NOW, basket(SHORT, PAINT, line("c", 1, None)), title="")
    assert (found.net, found.gross, found.unknown) == (None, None, 1)


def test_a_line_without_a_price_that_is_the_same_in_both_cancels_out() -> None:
    unpriced = line("c", 1, None)
    found = compare_baskets(basket(SHORT, unpriced), basket(line("a", 9, "5.00"), unpriced), title="")
    assert (found.net, found.unknown) == (Decimal("-5.00"), 0)


def test_baskets_of_another_tax_are_not_compared() -> None:
    with pytest.raises(ValueError, match="tax"):
        compare_baskets(NOW, basket(tax=Tax()), title="")


def test_other_baskets_come_cheapest_first_and_the_unknown_last() -> None:
    dear, cheap = basket(line("a", 20, "5.00"), PAINT), basket(line("a", 11, "5.00"), PAINT)
    unknown = basket(line("a", 1, None), PAINT)
    others = [("unknown", unknown), ("dear", dear), ("same", NOW), ("cheap", cheap)]
    assert [each.title for each in what_ifs(NOW, others)] == ["same", "cheap", "dear", "unknown"]
    best = next_cheapest(NOW, others)
    assert best is not None
    assert best.title == "cheap"
    assert next_cheapest(NOW, [("same", NOW), ("unknown", unknown)]) is None


def test_a_repaint_buys_the_paint_alone() -> None:
    repaint = repaint_basket(NOW)
    assert repaint.lines == (PAINT,)
    assert repaint.totals is not None
    assert repaint.totals.gross == Decimal("36.00")
