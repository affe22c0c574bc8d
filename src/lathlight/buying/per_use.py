"""What a set costs at each sitting, over the sittings and years that the user states."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.buying.money import minor_unit, money_text, round_money
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.buying.basket import Basket


@dataclass(frozen=True, slots=True, kw_only=True)
class CostPerUse:
    """The share of one sitting in what was bought."""

    cost: Decimal  # of one sitting, tax paid, to the smallest coin
    sittings: Decimal  # in all years together
    at_least: bool  # True where lines without a price are left out
    why: Working


def cost_per_use(basket: Basket, *, sittings: int, years: float) -> CostPerUse | None:
    """Return what the basket costs at each sitting; None where nothing in it has a price.

    Parameters
    ----------
    sittings
        A year, above 0.
    years
        That the set is used for, above 0.

    Raises
    ------
    ValueError
        No sittings or no years: a caller's mistake, the project reader has refused it before.

    Notes
    -----
    ``gross / (sittings x years)``, half a coin up. Wear, repainting and storing are not in it (common practice, no
    source).
    """
    if not (sittings > 0 and years > 0):
        raise ValueError(f"sittings {sittings} and years {years:g} must be above 0")
    if basket.totals is None:
        return None
    number = sittings * Decimal(str(years))
    each = round_money(Fraction(basket.totals.gross) / Fraction(number), unit=minor_unit(basket.currency))
    inputs = (
        ("total", money_text(basket.totals.gross, currency=basket.currency), ""),
        ("sittings a year", sittings, ""),
        ("years", years, ""),
    )
    why = Working(
        formula="total of the basket / (sittings a year x years)",
        inputs=inputs,
        source=COMMON_PRACTICE,
        value=money_text(each, currency=basket.currency),
    )
    return CostPerUse(cost=each, sittings=number.normalize(), at_least=basket.unpriced > 0, why=why)
