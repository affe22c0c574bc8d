"""Which numbers of bars could still be bought: every vector of whole numbers in a window of cost, struck out by cuts.

What a plan costs is settled by how many bars of each stock it buys, for what lies on the shelf is free. So the search
runs over those vectors, cheapest first, and a vector goes when an inequality that every plan keeps excludes it
(a cut after Benders 1962, in whole numbers throughout), or when the patterns themselves have been searched through.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from lathlight.cutting.cuts import Cut
    from lathlight.cutting.patterns import Grid

MOST_PARTS = 2_000_000  # partial vectors held at once
MOST_VECTORS = 200_000  # vectors of one window
MOST_COSTS = 4_000_000  # different costs of one window


def window_top(grid: Grid, *, low: int, high: int) -> int:
    """Return the greatest cost, at most `high`, below which not too many vectors cost `low` or more.

    Vectors are counted cost by cost, as the ways to make up a sum of coins with so many of each coin.
    """
    if not len(grid.bought) or _about_so_many(grid, low, high) < MOST_VECTORS / 4:
        return high
    step = math.gcd(*grid.prices[grid.bought].tolist())
    first, end = -(-low // step), min(-(-high // step), low // step + MOST_COSTS)
    ways = np.zeros(end + 1)
    ways[0] = 1
    for price, most in zip((grid.prices[grid.bought] // step).tolist(), grid.limits[grid.bought].tolist(), strict=True):
        for start in range(min(price, end + 1)):
            line = np.cumsum(ways[start::price])
            if most + 1 < len(line):
                line[most + 1 :] -= line[: -most - 1].copy()
            ways[start::price] = line
    over = np.flatnonzero(np.cumsum(ways[first:end]) > MOST_VECTORS)
    top = first + max(1, int(over[0])) if len(over) else end
    return min(high, top * step)


def _about_so_many(grid: Grid, low: int, high: int) -> float:
    """Return about how many vectors lie between two costs: the volume between two simplexes, a step wider."""
    prices = [float(p) for p in grid.prices[grid.bought].tolist()]
    wide = high + sum(prices)
    volume = wide ** len(prices) - max(0.0, low) ** len(prices)
    return volume / math.prod(prices) / math.factorial(len(prices))


def vectors_between(grid: Grid, *, low: int, high: int) -> NDArray[np.int64] | None:
    """Return every vector of bought bars that costs at least `low` and less than `high`, cheapest first.

    Of equal cost the one with the most length comes first. None where there are too many to hold.
    """
    bought = grid.bought
    if not len(bought):
        return np.zeros((int(low <= 0 < high), 0), dtype=np.int64)
    order = bought[np.argsort(-grid.prices[bought], kind="stable")]
    parts = np.zeros((1, 0), dtype=np.int64)
    spent = np.zeros(1, dtype=np.int64)
    for place, t in enumerate(order.tolist()):
        price, most = int(grid.prices[t]), int(grid.limits[t])
        last = place == len(order) - 1
        least = np.maximum(0, -((spent - low) // price)) if last else np.zeros_like(spent)
        greatest = np.minimum(most, (high - 1 - spent) // price)
        number = np.maximum(0, greatest - least + 1)
        total = int(number.sum())
        if total > MOST_PARTS:
            return None
        row = np.repeat(np.arange(len(spent)), number)
        first = np.repeat(np.cumsum(number) - number, number)
        count = np.arange(total) - first + least[row]
        parts = np.column_stack([parts[row], count])
        spent = spent[row] + price * count
    back = np.empty_like(parts)
    back[:, np.searchsorted(bought, order)] = parts
    rank = np.lexsort((-(back @ grid.rooms[bought]), spent))
    return back[rank]


class Window:
    """The vectors that are still possible between two costs."""

    def __init__(self, grid: Grid, *, vectors: NDArray[np.int64], cuts: Iterable[Cut]) -> None:
        self.grid = grid
        self._vectors = vectors
        self._cost = vectors @ grid.prices[grid.bought]
        self._alive = np.ones(len(vectors), dtype=np.bool_)
        for cut in cuts:
            self.apply(cut)

    def apply(self, cut: Cut) -> None:
        """Strike out what the cut excludes."""
        grid = self.grid
        on_shelf = int(grid.limits[grid.free] @ cut.bar_values[grid.free])
        self._alive &= self._vectors @ cut.bar_values[grid.bought] >= cut.wanted - on_shelf

    def exclude(self, vector: NDArray[np.int64]) -> None:
        """Strike out a vector that cannot do, and every vector that has no more of anything.

        Bars replaced by shorter ones, or left out, cannot do either.
        """
        longest_first = np.argsort(-self.grid.rooms[self.grid.bought], kind="stable")
        self._alive &= ~(np.cumsum(self._vectors[:, longest_first], axis=1) <= np.cumsum(vector[longest_first])).all(
            axis=1
        )

    def cheapest(self, after: int = 0) -> tuple[NDArray[np.int64], int] | None:
        """Return the cheapest vector left and its cost, past the first so many; None where none is left."""
        left = np.flatnonzero(self._alive)
        if after >= len(left):
            return None
        return self._vectors[left[after]], int(self._cost[left[after]])

    def __len__(self) -> int:
        return int(self._alive.sum())

    def left(self) -> NDArray[np.int64]:
        """Return every vector still standing, one a row, cheapest first."""
        return self._vectors[self._alive]
