"""Column generation: the relaxed cutting program solved with every pattern that could matter, found by its price.

After Gilmore and Gomory (1961): one knapsack table prices all stock lengths at once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.highs import CoverProgram, Relaxed
from lathlight.cutting.knapsack import fill
from lathlight.cutting.patterns import Grid, Pattern

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from lathlight.cutting.effort import Effort
    from lathlight.cutting.knapsack import Worths

GAIN = 1e-7  # a pattern must better its price by this much, relative
SHORT = 1e-6  # below this nothing is short


def single_patterns(grid: Grid) -> list[Pattern]:
    """Return for each stock and piece the pattern of that piece alone, as often as it goes."""
    found: list[Pattern] = []
    none = [0] * len(grid.widths)
    for stock, room in enumerate(grid.rooms.tolist()):
        for place, (width, count) in enumerate(zip(grid.widths.tolist(), grid.counts.tolist(), strict=True)):
            times = min(count, room // width)
            if times:
                found.append(Pattern(stock=stock, counts=(*none[:place], times, *none[place + 1 :])))
    return found


class Generation:
    """A covering program that prices its own patterns; counts and bars may change between solves."""

    def __init__(
        self,
        grid: Grid,
        *,
        costs: NDArray[np.float64],
        shortage: NDArray[np.float64],
        columns: Iterable[Pattern],
        effort: Effort,
    ) -> None:
        self.grid = grid
        self._costs = costs
        self._effort = effort
        self._limits = grid.limits
        self._known: set[Pattern] = set()
        self._table = np.zeros((64, len(grid.widths)), dtype=np.int64)  # counts of each column, with room to grow
        self._open = np.zeros(64, dtype=np.bool_)
        self._counts = grid.counts
        self._program = CoverProgram(counts=grid.counts, limits=grid.limits, shortage=shortage)
        self._add(list(dict.fromkeys(columns)))

    @property
    def columns(self) -> list[Pattern]:
        """Every pattern met so far."""
        return self._program.columns

    def _add(self, columns: Sequence[Pattern]) -> int:
        new = [column for column in columns if column not in self._known]
        if new:
            first, end = len(self.columns), len(self.columns) + len(new)
            while end > len(self._open):
                self._table = np.concatenate([self._table, np.zeros_like(self._table)])
                self._open = np.concatenate([self._open, np.zeros_like(self._open)])
            self._table[first:end] = [column.counts for column in new]
            self._open[first:end] = True
            self._known.update(new)
            self._program.add(new, [float(self._costs[column.stock]) for column in new])
        return len(new)

    def ask(self, *, counts: NDArray[np.int64], limits: NDArray[np.int64]) -> None:
        """Ask for other counts out of other bars; patterns that now cut too much of a piece are closed."""
        self._counts, self._limits = counts, limits
        self._program.demand(counts, limits)
        over = np.flatnonzero(self._open & (self._table > counts).any(axis=1))
        if len(over):
            self._program.close(over.tolist())
            self._open[over] = False
            self._known.difference_update(self.columns[n] for n in over.tolist())

    def solve(self, *, rounds: int | None = None, enough: float = np.inf) -> Relaxed:
        """Return the relaxed answer: the best of all patterns, or what so many rounds of pricing came to.

        Rounds end early as well where the prices of one prove that nothing costs less than `enough`.
        """
        grid = self.grid
        while True:
            self._effort.round()
            answer = self._program.solve()
            if rounds is not None:
                if rounds == 0:
                    return answer
                rounds -= 1
            fillings = fill(widths=grid.widths, counts=self._counts, values=answer.piece_prices, rooms=grid.rooms)
            holds = fillings.held()
            worth = (holds + answer.stock_prices - self._costs > GAIN * np.maximum(1.0, self._costs)) & (
                self._limits > 0
            )
            new = [Pattern(stock=stock, counts=fillings.counts(stock)) for stock in np.flatnonzero(worth).tolist()]
            if rounds is None and len(grid.rooms) == 1:
                new += [Pattern(stock=0, counts=counts) for counts in fillings.next_best(self._worth_it(answer))]
            if self._proves(answer, holds) >= enough or not self._add(new):
                return answer

    def _worth_it(self, answer: Relaxed) -> float:
        """Return what a bar of the only stock must hold to better the answer."""
        return float(self._costs[0] - answer.stock_prices[0]) + GAIN * max(1.0, float(self._costs[0]))

    def _proves(self, answer: Relaxed, holds: Worths) -> float:
        """Return the bound of Farley (1990): prices scaled down until no bar holds more than it costs."""
        grid = self.grid
        paid = grid.bought
        rate = float((holds[paid] / grid.prices[paid]).max()) if len(paid) else 0.0
        free = float(holds[grid.free] @ grid.limits[grid.free])
        return (float(answer.piece_prices @ grid.counts) - free) / rate if rate > 0 else 0.0
