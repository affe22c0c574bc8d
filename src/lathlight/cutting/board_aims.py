"""The aims after cost, in order: fewer cuts, fewer different layouts, the longest usable offcut.

Exact where every pattern that a plan of that cost could use is few enough to be listed whole; the cost is then fixed
and each aim settled in its turn, fixed as well, and the next taken up. Elsewhere the same is done with the patterns
that waste least, and the plan says that its later aims are not proven.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.bar_counts import Window, vectors_between
from lathlight.cutting.board_search import list_within
from lathlight.cutting.highs import Row, solve_mixed
from lathlight.cutting.listing import Listing
from lathlight.cutting.patterns import Cutting, Grid, Pattern, without_surplus

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from lathlight.cutting.board_search import Found
    from lathlight.cutting.effort import Effort

MOST_CHOICES = 500  # choices of bars of one cost that are joined in one listing
SHARES = (0.5, 0.25, 0.12, 0.06, 0.03, 0.015, 0.007)  # of the allowed waste, where all of it allows too many patterns


@dataclass(frozen=True, slots=True, kw_only=True)
class Aims:
    """A cutting that yields exactly the counts, and which of its later aims are proven."""

    cutting: Cutting
    cuts_proven: bool = False
    different_proven: bool = False
    longest_proven: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Pool:
    """Patterns with what each one means for the aims."""

    patterns: list[Pattern]
    most: list[int]  # how often each can be cut
    cuts: list[int]  # cuts on one bar beside one a piece: trim cuts, less one where the last piece ends with the bar
    left: list[int]  # usable length left over
    rows: list[Row]  # counts, bars and cost


def settle_aims(grid: Grid, found: Found, effort: Effort, *, kerf: int, trims: tuple[int, ...], least: int) -> Aims:
    """Return the cutting with the fewest cuts, then layouts, then the longest offcut, as far as can be settled.

    Parameters
    ----------
    grid, found
        The job and what the search for the cost came to; the cost is kept.
    kerf
        The saw's kerf [grid steps].
    trims
        Trim cuts that one bar of each stock needs.
    least
        Shortest leaving that is of use [grid steps].
    """
    assert found.cutting is not None
    plain = Aims(cutting=without_surplus(grid, found.cutting))
    if not found.proven:
        return plain
    patterns = _every_pattern(grid, found, effort)
    whole = patterns is not None
    own = [pattern for pattern, _ in plain.cutting]
    if patterns is None:
        patterns = _thrifty_patterns(grid, found, plain.cutting, effort)
        patterns = [*own, *sorted(set(patterns) - set(own))]
    assert set(own) <= set(patterns), "a listing lacks a pattern of its own plan"
    pool = _pool(grid, found.cost or 0, patterns, kerf=kerf, trims=trims, least=least)
    return _settle(pool, plain.cutting, effort, whole=whole)


def _every_pattern(grid: Grid, found: Found, effort: Effort) -> list[Pattern] | None:
    """Return every pattern that a plan of that cost could use, or None where they are too many."""
    cost = found.cost or 0
    vectors = vectors_between(grid, low=cost, high=cost + 1)
    if vectors is None:
        return None
    window = Window(grid, vectors=vectors, cuts=found.cuts)
    for vector in found.searched:
        window.exclude(vector)
    choices = window.left()
    if not 0 < len(choices) <= MOST_CHOICES:
        return None
    bars = np.array([grid.bars(vector) for vector in choices])
    patterns = list_within(Listing(grid), found.cuts, bars, most=effort.work.aim_patterns, full=False)
    return None if patterns is None else [pattern for pattern in patterns if any(pattern.counts)]


def _thrifty_patterns(grid: Grid, found: Found, cutting: Cutting, effort: Effort) -> list[Pattern]:
    """Return the patterns that waste least within the bars of a cutting, as many as are wanted."""
    bars = np.zeros(len(grid.rooms), dtype=np.int64)
    for pattern, times in cutting:
        bars[pattern.stock] += times
    bars = grid.bars(bars[grid.bought])
    listing = Listing(grid)
    for share in SHARES:
        patterns = list_within(listing, found.cuts, bars, most=effort.work.aim_thrifty, full=False, share=share)
        if patterns is not None:
            return [pattern for pattern in patterns if any(pattern.counts)]
    return []


def _pool(grid: Grid, cost: int, patterns: list[Pattern], *, kerf: int, trims: tuple[int, ...], least: int) -> _Pool:
    yields = np.array([pattern.counts for pattern in patterns], dtype=np.int64)
    stocks = np.array([pattern.stock for pattern in patterns], dtype=np.int64)
    spare = grid.rooms[stocks] - yields @ grid.widths
    often = np.where(yields > 0, grid.counts // np.maximum(yields, 1), np.iinfo(np.int64).max).min(axis=1)
    left = np.maximum(0, spare - kerf)
    return _Pool(
        patterns=patterns,
        most=np.minimum(often, grid.limits[stocks]).tolist(),
        cuts=(np.array(trims)[stocks] - (spare == 0)).tolist(),
        left=np.where(left >= max(1, least), left, 0).tolist(),
        rows=_rows(grid, cost, yields, stocks),
    )


def _rows(grid: Grid, cost: int, yields: NDArray[np.int64], stocks: NDArray[np.int64]) -> list[Row]:
    rows = [_row(float(grid.counts[i]), float(grid.counts[i]), yields[:, i]) for i in range(len(grid.widths))]
    rows += [_row(0.0, float(grid.limits[t]), (stocks == t).astype(np.int64)) for t in range(len(grid.rooms))]
    return [*rows, _row(0.0, float(cost), grid.prices[stocks])]


def _row(lower: float, upper: float, factors: NDArray[np.int64]) -> Row:
    used = np.flatnonzero(factors)
    return Row(lower=lower, upper=upper, columns=used.tolist(), factors=factors[used].astype(float).tolist())


def _settle(pool: _Pool, cutting: Cutting, effort: Effort, *, whole: bool) -> Aims:
    """Settle aim after aim; the first that stays open ends the proofs, not the plan; a part pool proves nothing."""
    times = dict(cutting)
    now = [times.get(pattern, 0) for pattern in pool.patterns]
    now, cuts_proven = _fewest_cuts(pool, now, effort)
    different_proven = longest_proven = False
    if len(pool.patterns) <= effort.work.aim_layouts:
        now, different_proven = _fewest_layouts(pool, now, effort)
        now, longest_proven = _longest_offcut(pool, now, effort)
    return Aims(
        cutting=sorted((pattern, n) for pattern, n in zip(pool.patterns, now, strict=True) if n),
        cuts_proven=whole and cuts_proven,
        different_proven=whole and cuts_proven and different_proven,
        longest_proven=whole and cuts_proven and different_proven and longest_proven,
    )


def _sum(values: list[int], times: list[int]) -> int:
    return sum(value * n for value, n in zip(values, times, strict=True))


def _cuts_row(pool: _Pool, now: list[int]) -> Row:
    return _row(-np.inf, float(_sum(pool.cuts, now)), np.array(pool.cuts, dtype=np.int64))


def _fewest_cuts(pool: _Pool, now: list[int], effort: Effort) -> tuple[list[int], bool]:
    if len(set(pool.cuts)) <= 1 and not any(pool.cuts):
        return now, True
    answer = solve_mixed(
        costs=[float(n) for n in pool.cuts],
        upper=[float(n) for n in pool.most],
        rows=pool.rows,
        start=now,
        nodes=effort.work.aim_nodes,
        seconds=effort.seconds_left(),
        stop=effort.progress.stop_requested,
    )
    if answer.times and _sum(pool.cuts, list(answer.times)) < _sum(pool.cuts, now):
        now = list(answer.times)
    return now, answer.status == "found"


def _links(pool: _Pool) -> list[Row]:
    """Return the rows that tie "is it used" (second half of the columns) to "how often"."""
    count = len(pool.patterns)
    return [
        Row(lower=-np.inf, upper=0.0, columns=[n, count + n], factors=[1.0, -float(most)])
        for n, most in enumerate(pool.most)
    ]


def _fewest_layouts(pool: _Pool, now: list[int], effort: Effort) -> tuple[list[int], bool]:
    count = len(pool.patterns)
    used = sum(n > 0 for n in now)
    rows = [*pool.rows, _cuts_row(pool, now), *_links(pool)]
    answer = solve_mixed(
        costs=[0.0] * count + [1.0] * count,
        upper=[*(float(n) for n in pool.most), *([1.0] * count)],
        rows=rows,
        start=[*now, *(int(n > 0) for n in now)],
        nodes=effort.work.aim_nodes,
        seconds=effort.seconds_left(),
        stop=effort.progress.stop_requested,
    )
    if answer.times and sum(n > 0 for n in answer.times[:count]) < used:
        now = list(answer.times[:count])
    return now, answer.status == "found"


def _longest_offcut(pool: _Pool, now: list[int], effort: Effort) -> tuple[list[int], bool]:
    """Let one used layout be the one that leaves the offcut; a third set of columns says which."""
    count = len(pool.patterns)
    longest = max((left for left, n in zip(pool.left, now, strict=True) if n), default=0)
    better = [n for n, left in enumerate(pool.left) if left > longest]
    if not better:
        return now, True
    used = sum(n > 0 for n in now)
    rows = [*pool.rows, _cuts_row(pool, now), *_links(pool)]
    rows.append(Row(lower=0.0, upper=float(used), columns=range(count, 2 * count), factors=[1.0] * count))
    rows.append(
        Row(lower=1.0, upper=1.0, columns=range(2 * count, 2 * count + len(better)), factors=[1.0] * len(better))
    )
    rows += [
        Row(lower=0.0, upper=np.inf, columns=[n, 2 * count + place], factors=[1.0, -1.0])
        for place, n in enumerate(better)
    ]
    answer = solve_mixed(
        costs=[0.0] * (2 * count) + [-float(pool.left[n]) for n in better],
        upper=[*(float(n) for n in pool.most), *([1.0] * (count + len(better)))],
        rows=rows,
        start=(),
        nodes=effort.work.aim_nodes,
        seconds=effort.seconds_left(),
        stop=effort.progress.stop_requested,
    )
    if answer.times:
        now = list(answer.times[:count])
    return now, answer.status in {"found", "impossible"}
