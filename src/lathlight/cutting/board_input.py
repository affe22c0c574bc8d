"""Reading a board job: what cannot be cut is refused here, all faults at once; the rest becomes whole-number arrays.

Kerf is added once: a piece takes its length and one kerf, a board offers its length (after the trim cut) and one kerf.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.patterns import Grid
from lathlight.errors import InputError, Problem

if TYPE_CHECKING:
    from lathlight.cutting.board_model import BoardJob, Piece, Stock


def usable(job: BoardJob, stock: Stock) -> int:
    """Return the length of a board that can become pieces [grid steps]: the trim cut is off bought boards."""
    return stock.length if stock.offcut else stock.length - job.trim_cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A job as arrays, and the way back."""

    grid: Grid
    piece_places: tuple[tuple[int, ...], ...]  # for each row of the grid the job's pieces of that length
    stock_places: tuple[int, ...]  # for each stock of the grid its place in the job


def read_job(job: BoardJob) -> Read:
    """Return the job as arrays: pieces of one length together, longest first; useless stock left out.

    Raises
    ------
    InputError
        Something cannot be cut as asked; every fault is named.
    """
    found = [*_figures(job), *_lengths(job)]
    if not found:
        found = _limits(job)
    if found:
        raise InputError(found)
    lengths = sorted({p.length for p in job.pieces if p.count}, reverse=True)
    places = tuple(tuple(n for n, p in enumerate(job.pieces) if p.length == x and p.count) for x in lengths)
    counts = [sum(job.pieces[n].count for n in together) for together in places]
    in_all = sum(counts)
    shortest = lengths[-1] if lengths else 0
    stocks = [n for n, s in enumerate(job.stocks) if usable(job, s) >= shortest and s.limit != 0]
    stocks.sort(key=lambda n: (job.stocks[n].price == 0, job.stocks[n].length, job.stocks[n].price, n))
    chosen = [job.stocks[n] for n in stocks]
    grid = Grid(
        widths=np.array(lengths, dtype=np.int64) + job.kerf,
        counts=np.array(counts, dtype=np.int64),
        rooms=np.array([usable(job, s) for s in chosen], dtype=np.int64) + job.kerf,
        prices=np.array([s.price for s in chosen], dtype=np.int64),
        limits=np.array([in_all if s.limit is None else min(in_all, s.limit) for s in chosen], dtype=np.int64),
    )
    return Read(grid=grid, piece_places=places, stock_places=tuple(stocks))


def _called(kind: str, place: int, thing: Piece | Stock) -> str:
    return f"{kind} {thing.name!r}" if thing.name else f"{kind} {place + 1}"


def _figures(job: BoardJob) -> list[Problem]:
    found: list[Problem] = []
    for name, value in (("kerf", job.kerf), ("trim cut", job.trim_cut), ("least offcut", job.least_offcut)):
        if value < 0:
            found.append(_problem(name, str(value), "0 or more", "Give the width that the saw takes, or 0."))
    for n, piece in enumerate(job.pieces):
        if piece.length <= 0:
            found.append(
                _problem(_called("piece", n, piece), f"length {piece.length}", "more than 0", "Mend its length.")
            )
        if piece.count < 0:
            found.append(_problem(_called("piece", n, piece), f"count {piece.count}", "0 or more", "Mend its count."))
    for n, stock in enumerate(job.stocks):
        called = _called("stock", n, stock)
        if stock.length <= 0:
            found.append(_problem(called, f"length {stock.length}", "more than 0", "Mend its length."))
        if stock.price < 0:
            found.append(_problem(called, f"price {stock.price}", "0 or more", "Mend its price."))
        if stock.limit is not None and stock.limit < 0:
            found.append(_problem(called, f"limit {stock.limit}", "0 or more, or none", "Mend its limit."))
    return [*found, *_twice(job)]


def _twice(job: BoardJob) -> list[Problem]:
    """Return stock that stands twice: an offcut of one name, a bought length with two prices."""
    found: list[Problem] = []
    names: set[str] = set()
    prices: dict[tuple[int, str], int] = {}
    for n, stock in enumerate(job.stocks):
        called = _called("stock", n, stock)
        if stock.offcut and stock.name:
            if stock.name in names:
                found.append(_problem(called, "it a second time", "each offcut once", "Take one of the two lines out."))
            names.add(stock.name)
        item = (stock.length, stock.name)
        if not stock.offcut and prices.setdefault(item, stock.price) != stock.price:
            other = prices[item]
            remedy = "Keep one of the two prices, or name the dearer boards apart."
            found.append(_problem(called, f"price {stock.price}", f"{other} as for the same length before", remedy))
    return found


def _lengths(job: BoardJob) -> list[Problem]:
    wanted = [(n, p) for n, p in enumerate(job.pieces) if p.count > 0]
    if not wanted:
        return []
    rooms = [usable(job, s) for s in job.stocks if s.limit != 0]
    if not rooms:
        remedy = "List the boards that can be bought, with length and price."
        return [_problem("stock", "none", "at least one board", remedy)]
    longest = max(rooms)
    remedy = f"Find stock of at least that length (the trim cut takes {job.trim_cut}), or join the piece from two."
    return [
        _problem(_called("piece", n, p), f"length {p.length}", f"at most {longest}, the longest stock's use", remedy)
        for n, p in wanted
        if p.length > longest
    ]


def _limits(job: BoardJob) -> list[Problem]:
    """Return a limit that cannot hold the pieces, where plain length shows it: from every length of piece upwards."""
    rooms = sorted(((usable(job, s) + job.kerf, s.limit) for s in job.stocks), reverse=True)
    wanted, shortest = 0, 0
    for piece in sorted((p for p in job.pieces if p.count > 0), key=lambda p: -p.length):
        wanted += piece.count * (piece.length + job.kerf)
        shortest = piece.length
        offers = [(room, limit) for room, limit in rooms if room >= shortest + job.kerf]
        if any(limit is None for _, limit in offers):
            continue
        offered = sum(room * (limit or 0) for room, limit in offers)
        if wanted > offered:
            expected = f"at least {wanted} of length with kerf for the pieces of {shortest} and longer"
            return [
                _problem("stock limits", f"{offered} in all", expected, "Allow more boards, or add another length.")
            ]
    return []


def _problem(place: str, found: str, expected: str, remedy: str) -> Problem:
    return Problem(place=place, found=found, expected=expected, remedy=remedy)
