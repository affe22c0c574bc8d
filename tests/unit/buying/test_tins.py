"""The cheapest containers: second opinion by trying every combination."""

from __future__ import annotations

import itertools
import math
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from lathlight.buying import TinOffer, cheapest_tins

SIZES = ((0.75, 2.5, 5.0, 10.0), (0.946352946, 3.785411784), (0.7, 1.13, 3.3), (2.5,))


def every_combination(need: float, offers: list[TinOffer]) -> tuple[Decimal, int] | None:
    """Return cost and number of the cheapest containers that hold a need, fewest first where costs are equal."""
    most = [math.ceil(need / offer.volume) for offer in offers]
    limits = [m if o.in_stock is None else min(m, o.in_stock) for m, o in zip(most, offers, strict=True)]
    found = [
        (sum((n * o.price for n, o in zip(counts, offers, strict=True)), Decimal(0)), sum(counts))
        for counts in itertools.product(*(range(limit + 1) for limit in limits))
        if sum(n * o.volume for n, o in zip(counts, offers, strict=True)) >= need - 0.0005
    ]
    return min(found, default=None)


@st.composite
def shops(draw: st.DrawFn) -> list[TinOffer]:
    sizes = draw(st.sampled_from(SIZES))
    prices = [Decimal(draw(st.integers(0, 5000))) / 100 for _ in sizes]
    stock = [draw(st.none() | st.integers(0, 4)) for _ in sizes]
    return [TinOffer(volume=v, price=p, in_stock=s) for v, p, s in zip(sizes, prices, stock, strict=True)]


@given(need=st.floats(0.01, 12.0), offers=shops())
def test_no_combination_of_containers_is_cheaper(need: float, offers: list[TinOffer]) -> None:
    found, tried = cheapest_tins(need, offers), every_combination(need, offers)
    if found is None:
        assert tried is None
        return
    cost = sum((number * offer.price for offer, number in found), Decimal(0))
    assert (cost, sum(number for _, number in found)) == tried
    assert sum(number * offer.volume for offer, number in found) >= need - 0.0005


def test_two_small_tins_give_way_to_a_large_one_that_costs_less() -> None:
    small, large = TinOffer(volume=2.5, price=Decimal(30)), TinOffer(volume=10.0, price=Decimal(55))
    assert cheapest_tins(4.0, [small, large]) == ((large, 1),)


def test_of_equal_costs_the_fewer_tins_are_taken() -> None:
    small, large = TinOffer(volume=1.0, price=Decimal(5)), TinOffer(volume=2.0, price=Decimal(10))
    assert cheapest_tins(2.0, [small, large]) == ((large, 1),)


def test_nothing_needs_no_tin() -> None:
    assert cheapest_tins(0.0, [TinOffer(volume=1.0, price=Decimal(5))]) == ()


def test_a_shop_without_enough_gives_no_answer() -> None:
    assert cheapest_tins(3.0, [TinOffer(volume=1.0, price=Decimal(5), in_stock=2)]) is None
    assert cheapest_tins(3.0, []) is None
