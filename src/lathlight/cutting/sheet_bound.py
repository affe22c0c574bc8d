"""What no plan of sheets can undercut: inequalities that every plan keeps, and the cheapest sheets that keep them all.

At any prices of the pieces, the sheets of a plan hold together at least what all pieces are worth, and no sheet holds
more than the table says. The prices come from column generation (Gilmore and Gomory 1965), rounded to whole numbers
before the table is filled, so that every inequality is exact. What a plan costs is settled by which sheets it buys.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.highs import CoverProgram
from lathlight.cutting.patterns import Pattern
from lathlight.cutting.sheet_worth import MOST_WORTH, WorthTables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from lathlight.cutting.highs import Relaxed
    from lathlight.cutting.sheet_grid import SheetGrid

    Ints = NDArray[np.int64]

MOST_CHOICES = 200_000  # choices of sheets looked at in one walk
NOTHING = 1e-7  # share of a sheet
DEAR = 10.0  # a piece left out costs so many of the dearest sheets


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Inequality:
    """The sheets of a plan hold at least what its pieces are worth."""

    piece_values: Ints  # worth of each piece, whole numbers
    sheet_values: Ints  # most worth that one sheet of each size holds
    wanted: int  # worth of all pieces

    def kept_by(self, sheets: Ints) -> bool:
        """Return whether so many sheets of each size can hold what is wanted."""
        return int(self.sheet_values @ sheets) >= self.wanted


def choices(grid: SheetGrid) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the cost and the sheets of every choice to buy, cheapest first; what is free is always there."""
    limits, prices = [s.limit for s in grid.sheets], [s.price for s in grid.sheets]
    bought = [place for place, price in enumerate(prices) if price > 0]
    start = tuple(0 if price else limit for limit, price in zip(limits, prices, strict=True))
    queue: list[tuple[int, tuple[int, ...], int]] = [(0, start, 0)]
    while queue:
        cost, sheets, first = heapq.heappop(queue)
        yield cost, sheets
        for n, place in enumerate(bought[first:], start=first):  # each choice is reached one way only
            if sheets[place] < limits[place]:
                more = (*sheets[:place], sheets[place] + 1, *sheets[place + 1 :])
                heapq.heappush(queue, (cost + prices[place], more, n))


class SheetBound:
    """The inequalities found so far, and the cheapest choice of sheets that keeps them."""

    def __init__(self, grid: SheetGrid) -> None:
        self.grid = grid
        self.inequalities: list[Inequality] = []
        self.finished = False  # column generation has nothing to add
        self.needed: set[int] = set()  # the inequalities that the bound rests on
        self._counts = np.array([p.count for p in grid.pieces], dtype=np.int64)
        self._prices = np.array([s.price for s in grid.sheets], dtype=np.int64)
        self._limits = np.array([s.limit for s in grid.sheets], dtype=np.int64)
        self._areas = np.array([s.width * s.length for s in grid.sheets], dtype=np.int64)
        self._walk = choices(grid)
        self._passed = 0
        self._floor = self._floor_by = self._at = 0
        self.cost, self.sheets = 0, self._next()[1]
        self._tables: WorthTables | None = None
        self._program: CoverProgram | None = None
        self._values = np.array([p.area for p in grid.pieces], dtype=np.int64)
        self._known: dict[Pattern, None] = dict.fromkeys(self._single_patterns())
        self._by_cost = True
        self._keep(Inequality(piece_values=self._values, sheet_values=self._areas, wanted=self._wanted(self._values)))

    @property
    def step(self) -> int:
        """Grid on which the tables were filled, 1 where it is the job's own."""
        return 1 if self._tables is None else self._tables.step

    def _wanted(self, values: Ints) -> int:
        return int(values @ self._counts)

    def _next(self) -> tuple[int, tuple[int, ...]]:
        self._passed += 1
        cost, sheets = next(self._walk, (-1, ()))
        return cost, sheets

    def _broken(self, sheets: tuple[int, ...]) -> int | None:
        """Return the first inequality that a choice of sheets breaks, or None."""
        chosen = np.array(sheets, dtype=np.int64)
        return next((n for n, cut in enumerate(self.inequalities) if not cut.kept_by(chosen)), None)

    def _keep(self, cut: Inequality) -> None:
        """Add an inequality; move on to the cheapest choice that still stands."""
        self.inequalities.append(cut)
        alone = self._alone(cut)
        if alone > self._floor:
            self._floor, self._floor_by = alone, len(self.inequalities) - 1
        while self.sheets and self._passed < MOST_CHOICES:
            broken = self._floor_by if self._at < self._floor else self._broken(self.sheets)
            if broken is None:
                break
            self.needed.add(broken)
            self._at, self.sheets = self._next()
            self.cost = max(self.cost, self._at)
        if self._passed >= MOST_CHOICES and self._floor > self.cost:
            self.needed.add(self._floor_by)
            self.cost = self._floor

    def _alone(self, cut: Inequality) -> int:
        """Return what an inequality alone proves: every coin buys at most so much worth, and prices share a divisor."""
        paid = self._prices > 0
        wanted = cut.wanted - int(cut.sheet_values[~paid] @ self._limits[~paid])
        rates = [(p, v) for p, v in zip(self._prices[paid].tolist(), cut.sheet_values[paid].tolist(), strict=True) if v]
        if wanted <= 0 or not rates:
            return 0
        least = min(-(-wanted * price // worth) for price, worth in rates)
        coin = math.gcd(*self._prices[paid].tolist())
        return -(-least // coin) * coin

    def standing(self, *, below: int | None, most: int) -> list[tuple[int, ...]]:
        """Return the first choices that keep every inequality and cost less than a limit, cheapest first."""
        found: list[tuple[int, ...]] = []
        for looked, (cost, sheets) in enumerate(choices(self.grid)):
            if (below is not None and cost >= below) or len(found) >= most or looked > MOST_CHOICES:
                break
            if cost >= self.cost and self._broken(sheets) is None:
                found.append(sheets)
        return found

    def improve(self) -> None:
        """Do one round of column generation: fill the tables at the present prices, learn an inequality, reprice.

        First towards the least cost; then, for the cheapest choice that still stands, towards leaving nothing out.
        """
        if self._tables is None:
            self._tables = WorthTables(self.grid)
            self._values = self._whole(self._values.astype(np.float64))
        fillings = self._tables.filled(self._values)
        held = np.max([filling.held for filling in fillings], axis=0)
        self._keep(Inequality(piece_values=self._values, sheet_values=held, wanted=self._wanted(self._values)))
        if not self.sheets:
            self.finished = True
            return
        new = self._learn([Pattern(stock=t, counts=f.counts(t)) for f in fillings for t in range(len(held))])
        answer = self._priced()
        if self._by_cost and (not new or answer.value <= self.cost):  # the relaxed cost only falls from here
            self.finished = self._passed >= MOST_CHOICES
            self._by_cost, self._program, new = False, None, True
            answer = self._priced()
        if not self._by_cost and not self.finished:
            self.finished = not new or answer.value < NOTHING
        self._values = self._whole(answer.piece_prices)

    def _learn(self, patterns: list[Pattern]) -> bool:
        """Take the patterns in; return whether any of them is new."""
        known = len(self._known)
        new = [p for p in dict.fromkeys(patterns) if p not in self._known]
        self._known.update(dict.fromkeys(new))
        if self._program is not None:
            self._program.add(new, self._costs(new))
        return len(self._known) > known

    def _costs(self, patterns: list[Pattern]) -> list[float]:
        return [float(self._prices[p.stock]) if self._by_cost else 0.0 for p in patterns]

    def _priced(self) -> Relaxed:
        """Return the answer over the patterns known: least cost, or least area left out of the cheapest choice."""
        if self._program is None:
            dear = DEAR * float(max(1, self._prices.max()))
            share = np.array([p.area for p in self.grid.pieces]) / float(self._areas.max())
            shortage = np.full(len(self._counts), dear) if self._by_cost else share
            self._program = CoverProgram(counts=self._counts, limits=self._limits, shortage=shortage)
            patterns = list(self._known)
            self._program.add(patterns, self._costs(patterns))
        if not self._by_cost:
            self._program.demand(self._counts, np.array(self.sheets, dtype=np.int64))
        return self._program.solve()

    def _whole(self, prices: NDArray[np.float64]) -> Ints:
        """Return prices as whole numbers, as fine as sums in 32 bits allow."""
        step = self.step
        areas = [max(1, p.width // step) * max(1, p.length // step) * step * step for p in self.grid.pieces]
        most = max(float((prices / areas).max()) * float(self._areas.max()), float(prices @ self._counts))
        return np.floor(prices * (MOST_WORTH / most)).astype(np.int64) if most > 0 else self._counts * 0

    def _single_patterns(self) -> list[Pattern]:
        found: list[Pattern] = []
        none = (0,) * len(self._counts)
        for t, sheet in enumerate(self.grid.sheets):
            for n, piece in enumerate(self.grid.pieces):
                times = max((sheet.width // w) * (sheet.length // h) for w, h in piece.ways)
                if times:
                    found.append(Pattern(stock=t, counts=(*none[:n], min(times, piece.count), *none[n + 1 :])))
        return found
