# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false, reportUnknownArgumentType=false
# pyright: reportMissingTypeStubs=false, reportAttributeAccessIssue=false
"""The one place that knows the linear and integer solver: covering programs whose columns are patterns.

Every program here has one row a piece length (cover the count) and one row a stock (bars at hand). It decides nothing
about cutting; it hands over values, dual prices and the solver's word on them. One thread, fixed seed: equal input
gives equal output.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    import highspy
    from highspy.highs import HighsCallbackEvent
    from numpy.typing import NDArray

    from lathlight.cutting.patterns import Pattern

PRIMAL = 4  # the solver's number of the simplex that new columns leave feasible


@cache
def _quiet_solver() -> type[highspy.Highs]:
    """Return the solver's class without the line that it prints when it is made."""
    import highspy

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the solver's own name, called as it is made
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()

    return Quiet


def _solver() -> highspy.Highs:
    solver = _quiet_solver()()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver


def _searcher(*, nodes: int, seconds: float | None, stop: Callable[[], bool]) -> highspy.Highs:
    """Return a solver for a search in whole numbers that ends by nodes, by the clock or when asked."""
    solver = _solver()
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    if seconds is not None:
        solver.setOptionValue("time_limit", max(seconds, 0.01))

    def ask(event: HighsCallbackEvent) -> None:
        if stop():
            event.interrupt()

    solver.cbMipInterrupt.subscribe(ask)
    return solver


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """The answer of the relaxed program."""

    value: float  # objective, shortage penalties included
    short: float  # pieces left uncovered, in all
    piece_prices: NDArray[np.float64]  # dual price of each piece, at least 0
    stock_prices: NDArray[np.float64]  # dual price of each stock's limit, at most 0
    times: NDArray[np.float64]  # how often each column is used


class CoverProgram:
    """A relaxed covering program that grows by columns and keeps its basis between solves."""

    def __init__(self, *, counts: NDArray[np.int64], limits: NDArray[np.int64], shortage: NDArray[np.float64]) -> None:
        self._solver = _solver()
        self._solver.setOptionValue("simplex_strategy", PRIMAL)
        self._pieces = len(counts)
        self._stocks = len(limits)
        self.columns: list[Pattern] = []
        lower = np.concatenate([counts.astype(np.float64), np.full(self._stocks, -np.inf)])
        upper = np.concatenate([np.full(self._pieces, np.inf), limits.astype(np.float64)])
        rows = self._pieces + self._stocks
        none = np.empty(0, dtype=np.int32)
        self._solver.addRows(rows, lower, upper, 0, np.zeros(rows, dtype=np.int32), none, np.empty(0))
        starts = np.arange(self._pieces, dtype=np.int32)
        nought = np.zeros(self._pieces)
        endless = np.full(self._pieces, np.inf)
        self._solver.addCols(
            self._pieces, shortage, nought, endless, self._pieces, starts, starts, np.ones(self._pieces)
        )

    def add(self, columns: Sequence[Pattern], costs: Sequence[float]) -> None:
        """Add columns with their costs."""
        if columns:
            starts, index, value = _sparse(columns, self._pieces)
            count = len(columns)
            least, most = np.zeros(count), np.full(count, np.inf)
            price = np.array(costs, dtype=np.float64)
            self._solver.addCols(count, price, least, most, len(index), starts, index, value)
            self.columns.extend(columns)

    def demand(self, counts: NDArray[np.int64], limits: NDArray[np.int64]) -> None:
        """Ask for other counts, out of other numbers of bars."""
        rows = np.arange(self._pieces + self._stocks, dtype=np.int32)
        lower = np.concatenate([counts.astype(np.float64), np.full(self._stocks, -np.inf)])
        upper = np.concatenate([np.full(self._pieces, np.inf), limits.astype(np.float64)])
        self._solver.changeRowsBounds(len(rows), rows, lower, upper)

    def close(self, columns: Sequence[int]) -> None:
        """Take columns out of use."""
        chosen = np.array(columns, dtype=np.int32) + self._pieces
        self._solver.changeColsBounds(len(chosen), chosen, np.zeros(len(chosen)), np.zeros(len(chosen)))

    def solve(self) -> Relaxed:
        """Return the least cost and its dual prices."""
        import highspy

        self._solver.run()
        status = self._solver.getModelStatus()
        if status != highspy.HighsModelStatus.kOptimal:
            self._solver.clearSolver()
            self._solver.run()
            status = self._solver.getModelStatus()
            assert status == highspy.HighsModelStatus.kOptimal, f"covering program ended as {status}"
        solution = self._solver.getSolution()
        dual = np.array(solution.row_dual)
        value = np.array(solution.col_value)
        return Relaxed(
            value=float(self._solver.getInfo().objective_function_value),
            short=float(value[: self._pieces].sum()),
            piece_prices=np.maximum(dual[: self._pieces], 0.0),
            stock_prices=np.minimum(dual[self._pieces :], 0.0),
            times=value[self._pieces :],
        )


def _sparse(
    columns: Sequence[Pattern], pieces: int
) -> tuple[NDArray[np.int32], NDArray[np.int32], NDArray[np.float64]]:
    starts: list[int] = []
    index: list[int] = []
    value: list[float] = []
    for column in columns:
        starts.append(len(index))
        for place, count in enumerate(column.counts):
            if count:
                index.append(place)
                value.append(float(count))
        index.append(pieces + column.stock)
        value.append(1.0)
    return np.array(starts, dtype=np.int32), np.array(index, dtype=np.int32), np.array(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """The answer of the program in whole numbers."""

    status: Literal["found", "best so far", "impossible", "open"]
    times: tuple[int, ...] = ()  # how often each column is used; empty where nothing was found


def solve_whole(
    columns: Sequence[Pattern],
    *,
    counts: NDArray[np.int64],
    limits: NDArray[np.int64],
    costs: Sequence[float],
    nodes: int,
    seconds: float | None = None,
    stop: Callable[[], bool],
) -> Whole:
    """Return how often to use each column, in whole numbers, at least cost.

    Parameters
    ----------
    columns, costs
        Patterns and what one use of each costs.
    counts, limits
        Pieces to be covered; bars at hand.
    nodes
        Most nodes of the search: the limit that keeps equal runs equal.
    seconds
        A limit by the clock, where one was asked for [s].
    stop
        Asked now and then whether to end; what was found by then is returned.
    """
    solver = _searcher(nodes=nodes, seconds=seconds, stop=stop)
    pieces, stocks = len(counts), len(limits)
    wanted = counts.astype(np.float64)
    lower = np.concatenate([wanted, np.full(stocks, -np.inf)])
    upper = np.concatenate([np.full(pieces, np.inf), limits.astype(np.float64)])
    rows = pieces + stocks
    none = np.empty(0, dtype=np.int32)
    solver.addRows(rows, lower, upper, 0, np.zeros(rows, dtype=np.int32), none, np.empty(0))
    starts, index, value = _sparse(columns, pieces)
    count = len(columns)
    most = np.array([float(limits[column.stock]) for column in columns])
    solver.addCols(count, np.array(costs, dtype=np.float64), np.zeros(count), most, len(index), starts, index, value)
    whole = np.ones(count, dtype=np.uint8)  # the solver's mark of a whole number
    solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)
    return _searched(solver)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One condition of a mixed program: lower <= sum of factor times column <= upper."""

    lower: float
    upper: float
    columns: Sequence[int]
    factors: Sequence[float]


def _searched(solver: highspy.Highs) -> Whole:
    """Return what the search for whole numbers comes to."""
    import highspy

    solver.run()
    status = solver.getModelStatus()
    if solver.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible:
        times = tuple(round(x) for x in solver.getSolution().col_value)
        return Whole(status="found" if status == highspy.HighsModelStatus.kOptimal else "best so far", times=times)
    return Whole(status="impossible" if status == highspy.HighsModelStatus.kInfeasible else "open")


def solve_mixed(
    *,
    costs: Sequence[float],
    upper: Sequence[float],
    rows: Sequence[Row],
    start: Sequence[int],
    nodes: int,
    seconds: float | None,
    stop: Callable[[], bool],
) -> Whole:
    """Return whole numbers of least cost between 0 and `upper` that keep every row; `start` is an answer known."""
    solver = _searcher(nodes=nodes, seconds=seconds, stop=stop)
    count = len(costs)
    nothing = np.empty(0, dtype=np.int32)
    solver.addCols(
        count,
        np.array(costs, dtype=np.float64),
        np.zeros(count),
        np.array(upper, dtype=np.float64),
        0,
        np.zeros(count, dtype=np.int32),
        nothing,
        np.empty(0),
    )
    starts = np.cumsum([0, *(len(row.columns) for row in rows)])[:-1].astype(np.int32)
    index = np.array([n for row in rows for n in row.columns], dtype=np.int32)
    value = np.array([x for row in rows for x in row.factors], dtype=np.float64)
    lower = np.array([row.lower for row in rows], dtype=np.float64)
    above = np.array([row.upper for row in rows], dtype=np.float64)
    solver.addRows(len(rows), lower, above, len(index), starts, index, value)
    solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), np.ones(count, dtype=np.uint8))
    if start:
        solver.setSolution(count, np.arange(count, dtype=np.int32), np.array(start, dtype=np.float64))
    return _searched(solver)
