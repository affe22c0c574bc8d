"""The search for the cheapest boards and the proof that none are cheaper.

Relax, dive for a plan, then take up the choices of bars between bound and plan, cheapest first. A choice is struck out
by an inequality where even parts of patterns do not reach; it becomes the plan where a dive within its bars succeeds;
else every pattern that it allows is listed and searched through in whole numbers. Undecided choices are taken up again
with more of everything. The bound is the cost of the cheapest choice still standing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.bar_counts import Window, vectors_between, window_top
from lathlight.cutting.cuts import Cut, cut_of, least_cost, length_cut
from lathlight.cutting.diving import dive
from lathlight.cutting.effort import Effort, OutOfWorkError
from lathlight.cutting.generation import SHORT, Generation, single_patterns
from lathlight.cutting.greedy import quick_cutting
from lathlight.cutting.highs import solve_whole
from lathlight.cutting.listing import Listing
from lathlight.cutting.patterns import Cutting, Grid, Pattern, cost_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from lathlight.cutting.board_model import Ended

COARSE = (6_000, 25_000)  # rooms above these are first tried on coarser grids; the dive on the first
SHORTAGE = 1000.0  # a missing piece costs so many of the dearest bars
COARSE_DIVES = 2
PLAIN = 1e-3  # a bound in fractions passes a sum by so many of its steps before it counts
THINNINGS = 6  # inequalities that thin a listing
PRODUCT = 2_000_000  # nodes times patterns that a first search in whole numbers may have


@dataclass(slots=True, kw_only=True)
class Found:
    """What the search has come to; it grows while the search runs and is whole at every moment."""

    cutting: Cutting | None = None
    cost: int | None = None
    bound: int = 0
    impossible: bool = False  # the limits cannot hold the pieces
    cuts: list[Cut] = field(default_factory=list[Cut])
    searched: list[NDArray[np.int64]] = field(default_factory=list["NDArray[np.int64]"])
    ended: Ended = "finished"

    @property
    def proven(self) -> bool:
        """True once the cost has met the bound."""
        return self.cost is not None and self.bound >= self.cost


class BoardSearch:
    """One search on one grid."""

    def __init__(self, grid: Grid, effort: Effort) -> None:
        self.grid = grid
        self.found = Found()
        self._effort = effort
        self._pool: list[Pattern] = []
        self._listing = Listing(grid)
        self._prices = grid.prices.astype(np.float64)
        self._step = math.gcd(*grid.prices.tolist())  # two costs differ by a multiple of it

    def run(self) -> Found:
        """Search until the cost is proven or the work is done."""
        try:
            self._search()
        except OutOfWorkError as stop:
            self.found.ended = stop.ended
        if self.found.proven:
            self.found.ended = "finished"
        return self.found

    def _search(self) -> None:
        self._keep(quick_cutting(self.grid))
        self._learn(length_cut(self.grid))
        if self.found.proven:
            return
        self._pool = [*single_patterns(self.grid), *(p for p, _ in self.found.cutting or ())]
        self._try_coarse()
        if not self.found.proven and self._relax():
            self._windows()

    def _keep(self, cutting: Cutting | None) -> None:
        if cutting is None:
            return
        cost = cost_of(self.grid, cutting)
        if self.found.cost is None or cost < self.found.cost:
            self.found.cutting, self.found.cost = cutting, cost
            self._effort.say(cost=cost, bound=self.found.bound)

    def _learn(self, cut: Cut) -> None:
        self.found.cuts.append(cut)
        least = least_cost(self.grid, cut)
        if least is None:
            self.found.impossible = True
        else:
            self.found.bound = max(self.found.bound, min(least, self.found.cost or least))

    def _generation(self, grid: Grid, costs: NDArray[np.float64]) -> Generation:
        scale = max(1.0, float(costs.max()))
        missing = np.full(len(grid.widths), SHORTAGE * scale)
        return Generation(grid, costs=costs, shortage=missing, columns=self._pool, effort=self._effort)

    def _try_coarse(self) -> None:
        """Relax and dive on coarser grids where long bars make the tables long: plans and patterns hold here too."""
        for most in COARSE:
            coarse = self.grid.coarse(most)
            if coarse is self.grid or bool((coarse.widths > coarse.room).any()):
                continue
            self._pool = [p for p in self._pool if int(coarse.widths @ np.array(p.counts)) <= coarse.rooms[p.stock]]
            self._pool += single_patterns(coarse)
            generation = self._generation(coarse, self._prices)
            relaxed = generation.solve()
            self._pool = generation.columns[:]
            if relaxed.short <= SHORT and most == COARSE[0]:
                self._dive_coarsely(coarse, relaxed.value)

    def _dive_coarsely(self, coarse: Grid, value: float) -> None:
        """Dive until the cost is the best that the coarser grid can have."""
        for turn in range(COARSE_DIVES):
            generation = self._generation(coarse, self._prices)
            self._keep(dive(generation, limits=coarse.limits, turn=turn))
            self._pool = generation.columns[:]
            if self.found.cost is not None and self.found.cost < value + self._step:
                return

    def _enough(self) -> float:
        """Return the bound that would prove the best plan: above all sums of prices that are less."""
        return np.inf if self.found.cost is None else self.found.cost - self._step * (1 - PLAIN)

    def _relax(self) -> bool:
        """Solve the relaxed program, learn its bound and dive; return whether anything is left to do."""
        generation = self._generation(self.grid, self._prices)
        answer = generation.solve(enough=self._enough())
        self._pool = generation.columns[:]
        self._learn(cut_of(self.grid, answer.piece_prices))
        if self.found.impossible or (self.found.cost is None and answer.short > SHORT):
            self.found.ended = "work limit"  # where the inequality does not say "impossible", it is not said
            return False
        for turn in range(2):
            if self.found.proven:
                return False
            dives = self._generation(self.grid, self._prices)
            self._keep(dive(dives, limits=self.grid.limits, turn=turn))
            self._pool = dives.columns[:]
        return not self.found.proven

    def _windows(self) -> None:
        """Take up the choices of bars, window by window of cost."""
        grid = self.grid
        dearest = int(grid.prices @ grid.limits) + 1
        while not self.found.proven:
            low, high = self.found.bound, self.found.cost if self.found.cost is not None else dearest
            top = window_top(grid, low=low, high=high)
            vectors = vectors_between(grid, low=low, high=top) if top > low else None
            if vectors is None:
                self.found.ended = "work limit"
                return
            window = Window(grid, vectors=vectors, cuts=self.found.cuts)
            if not self._choose(window, top):
                self.found.ended = "work limit"
                return
            if top == dearest and self.found.cost is None:
                self.found.impossible = True
                return

    def _choose(self, window: Window, top: int) -> bool:
        """Settle the choices of one window; return whether the bound has reached its top or the cost."""
        feasible = Generation(
            self.grid,
            costs=np.zeros(len(self.grid.rooms)),
            shortage=self.grid.widths.astype(np.float64),
            columns=self._pool,
            effort=self._effort,
        )
        for turn in range(self._effort.work.turns):
            undecided = 0
            while True:
                self._raise_bound(window, top)
                if self.found.proven or self.found.bound >= top:
                    return True
                choice = window.cheapest(undecided)
                if choice is None or (self.found.cost is not None and choice[1] >= self.found.cost):
                    break
                undecided += not self._settle(window, feasible, choice[0], turn)
        return False

    def _raise_bound(self, window: Window, top: int) -> None:
        left = window.cheapest(0)
        bound = top if left is None else left[1]
        self.found.bound = max(self.found.bound, bound if self.found.cost is None else min(bound, self.found.cost))
        self._effort.say(cost=self.found.cost, bound=self.found.bound)

    def _settle(self, window: Window, feasible: Generation, vector: NDArray[np.int64], turn: int) -> bool:
        """Strike out a choice of bars or make it the plan; return False where it stays undecided."""
        bars = self.grid.bars(vector)
        feasible.ask(counts=self.grid.counts, limits=bars)
        answer = feasible.solve()
        if answer.short > SHORT:
            cut = cut_of(self.grid, answer.piece_prices)
            if cut.slack(bars) < 0:
                self._learn(cut)
                window.apply(cut)
                return True
        if self._dive_within(bars, turn, feasible):
            return True
        return self._search_within(window, vector, bars, turn)

    def _dive_within(self, bars: NDArray[np.int64], turn: int, feasible: Generation) -> bool:
        """Dive within these bars, using up as little length as may be: what is spared keeps later steps free."""
        dives = self._effort.work.dives
        self._pool = feasible.columns[:]
        for n in range(turn * dives, (turn + 1) * dives):
            generation = self._generation(self.grid, self.grid.rooms.astype(np.float64))
            cutting = dive(generation, limits=bars, turn=n)
            if cutting is not None:
                self._keep(cutting)
                return True
            self._pool = generation.columns[:]
        return False

    def _search_within(self, window: Window, vector: NDArray[np.int64], bars: NDArray[np.int64], turn: int) -> bool:
        """List every pattern that these bars allow and search through them in whole numbers."""
        work = self._effort.work
        patterns = list_within(self._listing, self.found.cuts, bars, most=work.patterns)
        if patterns is None:
            return False
        nodes = min(work.nodes * 4**turn, max(1, PRODUCT * 4**turn // max(1, len(patterns))))
        answer = solve_whole(
            patterns,
            counts=self.grid.counts,
            limits=bars,
            costs=[0.0] * len(patterns),
            nodes=nodes,
            seconds=self._effort.seconds_left(),
            stop=self._effort.progress.stop_requested,
        )
        if answer.times:
            self._keep([(pattern, times) for pattern, times in zip(patterns, answer.times, strict=True) if times])
            return True
        if answer.status == "impossible":
            window.exclude(vector)
            self.found.searched.append(vector)
            return True
        return False


def list_within(
    listing: Listing, cuts: list[Cut], bars: NDArray[np.int64], *, most: int, full: bool = True, share: float = 1.0
) -> list[Pattern] | None:
    """Return every pattern that a plan could use, or None where there are too many.

    `bars` holds the bars that such plans are cut from: one choice, or one a row. A `share` of what a pattern may waste
    gives the thriftiest only.
    """
    choices = np.atleast_2d(bars)
    slacks = [int((choices @ cut.bar_values).max()) - cut.wanted for cut in cuts]
    rank = sorted(range(len(cuts)), key=lambda n: (slacks[n] / max(1, int(cuts[n].bar_values.max())), n))[:THINNINGS]
    chosen, allowed = [cuts[n] for n in rank], [int(slacks[n] * share) for n in rank]
    found: list[Pattern] = []
    for stock in np.flatnonzero(choices.any(axis=0)).tolist():
        patterns = listing.patterns(stock, cuts=chosen, slacks=allowed, most=most - len(found), full=full)
        if patterns is None:
            return None
        found.extend(patterns)
    return found
