"""Rounding and tax: second opinion in whole coins."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.buying import Tax, make_totals, minor_unit, money_text, round_money

COIN = Decimal("0.01")
AMOUNTS = st.integers(0, 10_000_000).map(lambda coins: Decimal(coins) / 100)
PERCENTS = st.integers(0, 1000).map(lambda tenths: Decimal(tenths) / 10)


@pytest.mark.published(source="ISO 4217", place="list one, minor unit")
@pytest.mark.parametrize(("currency", "unit"), [("EUR", "0.01"), ("USD", "0.01"), ("JPY", "1"), ("KWD", "0.001")])
def test_the_smallest_coin_is_that_of_the_standard(currency: str, unit: str) -> None:
    assert minor_unit(currency) == Decimal(unit)


@pytest.mark.parametrize(("value", "rounded"), [("0.005", "0.01"), ("0.00499", "0.00"), ("2.675", "2.68"), ("1", "1")])
def test_half_a_coin_goes_up(value: str, rounded: str) -> None:
    assert round_money(Decimal(value), unit=COIN) == Decimal(rounded)


def test_a_difference_below_nothing_is_rounded_away_from_nothing() -> None:
    assert round_money(Decimal("-0.005"), unit=COIN) == Decimal("-0.01")


@given(amount=AMOUNTS, percent=PERCENTS, included=st.booleans())
def test_net_and_tax_make_up_the_gross_to_the_coin(amount: Decimal, percent: Decimal, included: bool) -> None:
    totals = make_totals(amount, tax=Tax(percent=percent, included=included), unit=COIN)
    assert totals.net + totals.tax == totals.gross
    assert amount == (totals.gross if included else totals.net)


@given(amount=AMOUNTS, percent=PERCENTS)
def test_prices_before_and_after_tax_come_to_the_same_totals(amount: Decimal, percent: Decimal) -> None:
    before = make_totals(amount, tax=Tax(percent=percent, included=False), unit=COIN)
    after = make_totals(before.gross, tax=Tax(percent=percent, included=True), unit=COIN)
    assert after == before


@given(amount=AMOUNTS, percent=PERCENTS)
def test_the_tax_is_less_than_a_coin_off_the_exact_one(amount: Decimal, percent: Decimal) -> None:
    totals = make_totals(amount, tax=Tax(percent=percent, included=True), unit=COIN)
    coins = int(amount * 100)
    exact = coins * int(percent * 10) / (1000 + int(percent * 10))  # in coins, floating point
    assert abs(float(totals.tax * 100) - exact) <= 0.5 + 1e-6


def test_money_has_the_decimals_of_its_coin_and_no_fewer_than_it_was_given() -> None:
    assert money_text(Decimal(5), currency="EUR") == "5.00 EUR"
    assert money_text(Decimal("0.0125"), currency="EUR") == "0.0125 EUR"
    assert money_text(Decimal(1200), currency="JPY") == "1200 JPY"
