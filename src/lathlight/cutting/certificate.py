"""Bounds checked again, exactly and apart from the search: whole numbers and fractions only.

An inequality stands when no bar can hold more than it says, found by a plain knapsack that shares nothing with the
solver's. The bound is the least cost of bars that keep every inequality; with a single one that is the bound of
Farley (1990) from its dual prices, here with stock limits.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.board_input import usable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.cutting.board_model import BoardJob, Inequality, Proof

MOST_ROWS = 1_000_000  # choices of bars looked at to join the inequalities


def most_worth(job: BoardJob, values: Sequence[int]) -> list[int]:
    """Return the most worth of pieces that one board of each stock can hold, by trying every piece at every length."""
    rooms = [max(0, usable(job, stock) + job.kerf) for stock in job.stocks]
    best = np.zeros(max(rooms) + 1, dtype=np.int64)
    spare = np.empty_like(best)
    for piece, value in zip(job.pieces, values, strict=True):
        width = piece.length + job.kerf
        for _ in range(min(piece.count, max(rooms) // width) if value > 0 else 0):
            with_it = np.add(best[:-width], value, out=spare[: len(best) - width])  # apart first: one piece, not many
            np.maximum(best[width:], with_it, out=best[width:])
    return [int(best[room]) for room in rooms]


def faults(job: BoardJob, cut: Inequality) -> list[str]:
    """Return what is wrong with an inequality; empty where it stands."""
    found: list[str] = []
    if any(value < 0 for value in cut.piece_values):
        found.append("a piece is worth less than nothing")
    worth = sum(piece.count * value for piece, value in zip(job.pieces, cut.piece_values, strict=True))
    if worth < cut.wanted:
        found.append(f"the pieces are worth {worth}, {cut.wanted} is claimed")
    for n, held in enumerate(most_worth(job, cut.piece_values)):
        if job.stocks[n].limit != 0 and held > cut.bar_values[n]:
            found.append(f"stock {n + 1} holds {held}, {cut.bar_values[n]} is claimed")
    return found


def bound_of(job: BoardJob, cut: Inequality) -> Fraction:
    """Return the least cost of boards, in parts too, that one inequality allows: best worth for the money first."""
    need = cut.wanted
    for stock, value in zip(job.stocks, cut.bar_values, strict=True):
        if stock.price == 0 and value > 0:
            need -= value * _limit(job, stock.limit)
    cost = Fraction(0)
    paid = [(Fraction(s.price, v), v, s) for s, v in zip(job.stocks, cut.bar_values, strict=True) if s.price and v > 0]
    for rate, value, stock in sorted(paid, key=lambda each: (each[0], each[1])):
        if need <= 0:
            break
        worth = min(need, value * _limit(job, stock.limit))
        cost += rate * worth
        need -= worth
    return cost


def _limit(job: BoardJob, limit: int | None) -> int:
    in_all = sum(piece.count for piece in job.pieces)  # a board holds a piece at least
    return in_all if limit is None else min(limit, in_all)


def recheck(job: BoardJob, proof: Proof, *, bound: int) -> int:
    """Return the cost that no plan undercuts, as far as it can be shown here, at most `bound`.

    Inequalities that do not stand are left out. What was searched through in vain (`proof.searched`) is taken as said;
    hand over a proof without it to see what the inequalities give alone.
    """
    cuts = [cut for cut in proof.cuts if not faults(job, cut)]
    step = math.gcd(*(stock.price for stock in job.stocks)) or 1  # every sum of prices is a multiple of it
    least = max((math.ceil(bound_of(job, cut) / step) * step for cut in cuts), default=0)
    if least >= bound:
        return bound
    return max(least, _joint(job, cuts, proof.searched, bound))


def _joint(job: BoardJob, cuts: Sequence[Inequality], searched: Sequence[tuple[int, ...]], bound: int) -> int:
    """Return the least cost below the bound of whole boards that keep all inequalities, or the bound.

    For all stocks but the last every number is tried; of the last the most that the money allows, then the fewest of
    those that still keep every inequality: fewer of it cannot do where more cannot.
    """
    paid = [n for n, s in enumerate(job.stocks) if s.price > 0 and s.limit != 0]
    if not paid:
        return 0
    paid.sort(key=lambda n: -job.stocks[n].price)
    rows, spent = _choices(job, paid[:-1], bound)
    if len(rows) > MOST_ROWS:
        return 0
    last = paid[-1]
    price = job.stocks[last].price
    limit = _limit(job, job.stocks[last].limit)
    most = np.minimum(limit, (bound - 1 - spent) // price)
    least = np.zeros_like(most)
    for cut in cuts:
        values = np.array([cut.bar_values[n] for n in paid[:-1]], dtype=np.int64)
        free = sum(v * _limit(job, s.limit) for s, v in zip(job.stocks, cut.bar_values, strict=True) if s.price == 0)
        need = cut.wanted - free - rows @ values
        each = cut.bar_values[last]
        least = np.maximum(least, -(-need // each) if each else np.where(need > 0, limit + 1, 0))
    rows, spent, least, most = (a[least <= most] for a in (rows, spent, least, most))
    costs = [
        found
        for row, s, lo, hi in zip(rows, spent.tolist(), least.tolist(), most.tolist(), strict=True)
        if (found := _first(job, paid, row.tolist(), (s, lo, hi), searched)) is not None
    ]
    return min(costs, default=bound)


def _choices(job: BoardJob, stocks: Sequence[int], bound: int) -> tuple[np.ndarray, np.ndarray]:
    rows, spent = np.zeros((1, 0), dtype=np.int64), np.zeros(1, dtype=np.int64)
    for n in stocks:
        price = job.stocks[n].price
        number = np.minimum(_limit(job, job.stocks[n].limit), (bound - 1 - spent) // price) + 1
        if int(number.sum()) > MOST_ROWS:
            return np.zeros((MOST_ROWS + 1, 0), dtype=np.int64), spent
        row = np.repeat(np.arange(len(spent)), number)
        count = np.arange(len(row)) - np.repeat(np.cumsum(number) - number, number)
        rows, spent = np.column_stack([rows[row], count]), spent[row] + price * count
    return rows, spent


def _first(
    job: BoardJob,
    paid: Sequence[int],
    row: list[int],
    last: tuple[int, int, int],
    searched: Sequence[tuple[int, ...]],
) -> int | None:
    """Return the cost of the fewest last boards not searched through; None where all were."""
    spent, least, most = last
    for count in range(least, most + 1):
        bars = [0] * len(job.stocks)
        for n, value in zip(paid, [*row, count], strict=True):
            bars[n] = value
        if not any(_no_better(job, bars, other) for other in searched):
            return spent + count * job.stocks[paid[-1]].price
    return None


def _no_better(job: BoardJob, bars: Sequence[int], other: Sequence[int]) -> bool:
    """Return True where each bought board of `bars` can be given a board of `other` at least as long."""
    mine = theirs = 0
    order = sorted((n for n, s in enumerate(job.stocks) if s.price > 0), key=lambda n: -usable(job, job.stocks[n]))
    for n in order:
        mine, theirs = mine + bars[n], theirs + other[n]
        if mine > theirs:
            return False
    return True
