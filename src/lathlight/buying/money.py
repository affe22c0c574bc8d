"""Money: the smallest coin of a currency, rounding, and the tax before or after.

Decides how sums are rounded: a line to the currency's smallest coin, half a coin up; the tax once, on the total of all
lines, so that the lines add up to the total and net and tax to the gross. Which prices apply is left to
``lathlight.buying.prices``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from lathlight.working import COMMON_PRACTICE

CENTS = Decimal("0.01")
# Currencies without smaller coins, and with thousandths; all others here have hundredths: ISO 4217, list one.
WHOLE = frozenset({"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF"})
WHOLE_TOO = frozenset({"XOF", "XPF"})
THOUSANDTHS = frozenset({"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
ROUNDING = f"{COMMON_PRACTICE}: half a coin goes up, the tax is worked out once, on the total"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tax:
    """The tax on purchases."""

    percent: Decimal = Decimal(0)  # [%], 0 or more
    included: bool = True  # True where listed prices hold it already


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """A sum before tax, its tax, and both together."""

    net: Decimal
    tax: Decimal
    gross: Decimal


def minor_unit(currency: str) -> Decimal:
    """Return the smallest coin of a currency: a hundredth where the name is not one of ISO 4217's exceptions.

    Examples
    --------
    >>> minor_unit("EUR"), minor_unit("JPY")
    (Decimal('0.01'), Decimal('1'))
    """
    name = currency.strip().upper()
    if name in WHOLE or name in WHOLE_TOO:
        return Decimal(1)
    return Decimal("0.001") if name in THOUSANDTHS else CENTS


def round_money(value: Decimal | Fraction | int, *, unit: Decimal) -> Decimal:
    """Return the nearest whole number of coins, half a coin away from zero; exact before it rounds.

    Examples
    --------
    >>> round_money(Decimal("2.345"), unit=CENTS), round_money(Fraction(2, 3), unit=CENTS)
    (Decimal('2.35'), Decimal('0.67'))
    """
    coins = abs(Fraction(value)) / Fraction(unit)
    whole = math.floor(coins + Fraction(1, 2))
    return (Decimal(whole) if value >= 0 else -Decimal(whole)) * unit


def make_totals(listed: Decimal, *, tax: Tax, unit: Decimal) -> Totals:
    """Return net, tax and gross of a sum of listed prices.

    Parameters
    ----------
    listed
        Sum of all lines, 0 or more, with or without the tax as the list has it.
    unit
        Smallest coin.

    Notes
    -----
    Prices without tax: ``tax = listed x percent / 100``, rounded, and the gross is both together. Prices with tax:
    ``net = listed / (1 + percent / 100)``, rounded, and the tax is what is left. Net and tax make up the gross to the
    coin in either way (common practice, no source).

    Examples
    --------
    >>> make_totals(Decimal("119.00"), tax=Tax(percent=Decimal(19), included=True), unit=CENTS)
    Totals(net=Decimal('100.00'), tax=Decimal('19.00'), gross=Decimal('119.00'))
    """
    whole = round_money(listed, unit=unit)
    share = Fraction(tax.percent) / 100
    if tax.included:
        net = round_money(Fraction(whole) / (1 + share), unit=unit)
        return Totals(net=net, tax=whole - net, gross=whole)
    due = round_money(Fraction(whole) * share, unit=unit)
    return Totals(net=whole, tax=due, gross=whole + due)


def money_text(value: Decimal, *, currency: str) -> str:
    """Return an amount with its currency, with at least the decimals of the smallest coin.

    Examples
    --------
    >>> money_text(Decimal("4.9"), currency="EUR"), money_text(Decimal("0.035"), currency="EUR")
    ('4.90 EUR', '0.035 EUR')
    """
    return f"{plain_figure(value, unit=minor_unit(currency))} {currency}"


def plain_figure(value: Decimal, *, unit: Decimal = CENTS) -> str:
    """Return an amount as digits: all that it has, and at least those of the smallest coin."""
    digits = f"{value:f}"
    whole, _, decimals = digits.partition(".")
    least = max(0, -int(unit.as_tuple().exponent))
    decimals = decimals.rstrip("0").ljust(least, "0")
    return f"{whole}.{decimals}" if decimals else whole
