"""Inequalities between bars and pieces, made exact from dual prices.

Any worths of the pieces give one (Benders 1962 on the choice of bars; Gilmore and Gomory's duals price them): a plan's
bars hold at least what its pieces are worth. Dual prices are cut down to whole numbers first, then the most that a
bar can hold is found in whole numbers too, so nothing rests on rounding.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.knapsack import fill

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from lathlight.cutting.patterns import Grid

FINENESS = 1_000_000  # the dearest piece is worth so much


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cut:
    """An inequality that every plan keeps: worth of the bars it has >= worth of the pieces it yields."""

    piece_values: NDArray[np.int64]  # worth of each piece, whole numbers
    bar_values: NDArray[np.int64]  # most worth that one bar of each stock can hold
    wanted: int  # worth of all pieces asked for

    def slack(self, bars: NDArray[np.int64]) -> int:
        """Return by how much the worth of these bars exceeds the need; below 0 the bars cannot do."""
        return int(bars @ self.bar_values) - self.wanted


def cut_of(grid: Grid, prices: NDArray[np.float64]) -> Cut:
    """Return the inequality that these prices of the pieces give."""
    dearest = max(float(prices.max()), 1e-12)
    return whole_cut(grid, np.floor(np.maximum(prices, 0.0) * (FINENESS / dearest)).astype(np.int64))


def length_cut(grid: Grid) -> Cut:
    """Return the inequality of plain length: bars filled as far as pieces can fill them."""
    return whole_cut(grid, grid.widths)


def whole_cut(grid: Grid, values: NDArray[np.int64]) -> Cut:
    """Return the inequality of whole-number worths."""
    fillings = fill(widths=grid.widths, counts=grid.counts, values=values, rooms=grid.rooms)
    held = fillings.held().astype(np.int64)
    return Cut(piece_values=values, bar_values=held, wanted=int(values @ grid.counts))


def least_cost(grid: Grid, cut: Cut) -> int | None:
    """Return the least cost that one inequality allows; None where it allows none.

    Bars are counted in parts and the sum is rounded up to a multiple of what divides all prices.
    """
    need = cut.wanted - int(grid.limits[grid.free] @ cut.bar_values[grid.free])
    paid = [t for t in grid.bought.tolist() if cut.bar_values[t] > 0]
    paid.sort(key=lambda t: Fraction(int(grid.prices[t]), int(cut.bar_values[t])))
    cost = Fraction(0)
    for t in paid:
        value = int(cut.bar_values[t])
        worth = min(max(need, 0), value * int(grid.limits[t]))
        cost += Fraction(int(grid.prices[t]) * worth, value)
        need -= worth
    step = math.gcd(*grid.prices.tolist()) or 1
    return math.ceil(cost / step) * step if need <= 0 else None
