"""What the boards of one job come down to in whole numbers, and patterns: what is cut from one bar.

Here every piece is widened by the kerf and every bar by one kerf, once: pieces fit a bar where the widened lengths do
(the last piece's kerf may fall off the bar's end). All figures are whole numbers on the job's grid.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Pattern:
    """Pieces cut from one bar."""

    stock: int  # place of the stock in the grid
    counts: tuple[int, ...]  # how many of each piece, in the grid's order


Cutting: TypeAlias = "list[tuple[Pattern, int]]"  # patterns and how often each is cut


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grid:
    """One cutting job in whole numbers; pieces longest first, all arrays int64."""

    widths: NDArray[np.int64]  # (m,) piece and its kerf
    counts: NDArray[np.int64]  # (m,) how many are wanted
    rooms: NDArray[np.int64]  # (s,) usable length of the bar and one kerf
    prices: NDArray[np.int64]  # (s,) price of one bar, 0 on the shelf
    limits: NDArray[np.int64]  # (s,) most bars to be had

    @property
    def room(self) -> int:
        """The longest bar's room."""
        return int(self.rooms.max())

    @property
    def bought(self) -> NDArray[np.int64]:
        """Places of the stocks that cost something."""
        return np.flatnonzero(self.prices > 0)

    @property
    def free(self) -> NDArray[np.int64]:
        """Places of the stocks that cost nothing."""
        return np.flatnonzero(self.prices == 0)

    def bars(self, bought: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the bars of every stock where so many are bought and all free ones lie ready."""
        every = self.limits.copy()
        every[self.bought] = bought
        return every

    def coarse(self, most: int) -> Grid:
        """Return the job on a grid so coarse that no room exceeds `most`: what fits there fits here as well.

        Pieces are rounded up and bars down, so a plan carries over and a bound does not.
        """
        step = -(-self.room // most)
        return self if step <= 1 else replace(self, widths=-(-self.widths // step), rooms=self.rooms // step)


def cost_of(grid: Grid, cutting: Cutting) -> int:
    """Return what the bars of a cutting cost."""
    return sum(int(grid.prices[pattern.stock]) * times for pattern, times in cutting)


def without_surplus(grid: Grid, cutting: Cutting) -> Cutting:
    """Return a cutting that yields exactly the counts: surplus pieces dropped, last patterns first, bars kept.

    A bar that is left without a piece is left out.
    """
    bars = [list(pattern.counts) for pattern, times in cutting for _ in range(times)]
    stocks = [pattern.stock for pattern, times in cutting for _ in range(times)]
    surplus = (np.array(bars, dtype=np.int64).reshape(len(bars), len(grid.widths)).sum(axis=0) - grid.counts).tolist()
    assert all(extra >= 0 for extra in surplus), "a cutting leaves pieces uncut"
    for bar in reversed(bars):
        for place, extra in enumerate(surplus):
            dropped = min(extra, bar[place])
            bar[place] -= dropped
            surplus[place] -= dropped
    found: dict[Pattern, int] = {}
    for stock, bar in zip(stocks, bars, strict=True):
        if any(bar):
            pattern = Pattern(stock=stock, counts=tuple(bar))
            found[pattern] = found.get(pattern, 0) + 1
    return sorted(found.items())
