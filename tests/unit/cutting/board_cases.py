"""What the tests of board cutting share: small jobs at random and a slow, plain answer to them."""

from __future__ import annotations

import functools

from hypothesis import strategies as st

from lathlight.cutting import BoardJob, Piece, Stock


def job(
    pieces: list[tuple[int, int]], stocks: list[tuple[int, int] | tuple[int, int, int]], *, kerf: int = 0, **more: int
) -> BoardJob:
    """Return a job of pieces (length, count) and stocks (length, price) or (length, price, limit), free: shelf."""
    return BoardJob(
        pieces=tuple(Piece(length=length, count=count) for length, count in pieces),
        stocks=tuple(
            Stock(length=s[0], price=s[1], limit=s[2] if len(s) > 2 else None, offcut=s[1] == 0) for s in stocks
        ),
        kerf=kerf,
        **more,
    )


def cheapest(job: BoardJob) -> int | None:
    """Return the least cost by trying every way to fill bar after bar; None where there is none. Small jobs only."""
    lengths = sorted((p.length for p in job.pieces for _ in range(p.count)), reverse=True)

    @functools.cache
    def best(left: tuple[int, ...], used: tuple[int, ...]) -> float:
        if not left:
            return 0.0
        least = float("inf")
        for n, stock in enumerate(job.stocks):
            room = stock.length - (0 if stock.offcut else job.trim_cut)
            if (stock.limit is not None and used[n] >= stock.limit) or left[0] > room:
                continue
            now_used = (*used[:n], used[n] + 1, *used[n + 1 :])
            for rest in rests(left[1:], room - left[0] - job.kerf):
                least = min(least, stock.price + best(rest, now_used))
        return least

    @functools.cache
    def rests(left: tuple[int, ...], room: int) -> frozenset[tuple[int, ...]]:
        """Return what may be left of the pieces once some more are cut from so much room."""
        found = {left}
        for n, length in enumerate(left):
            if length <= room:
                found |= {(*left[:n], *rest) for rest in rests(left[n + 1 :], room - length - job.kerf)}
        return frozenset(found)

    cost = best(tuple(lengths), (0,) * len(job.stocks))
    return None if cost == float("inf") else int(cost)


@st.composite
def small_jobs(draw: st.DrawFn, *, limits: bool = True) -> BoardJob:
    """Return jobs of at most eight pieces that one long stock can always hold."""
    pieces = draw(st.lists(st.tuples(st.integers(3, 40), st.integers(1, 3)), min_size=1, max_size=4))
    while sum(count for _, count in pieces) > 8:
        pieces.pop()
    stocks = draw(st.lists(st.tuples(st.integers(8, 60), st.integers(1, 40)), max_size=2, unique_by=lambda s: s[0]))
    shelf = draw(st.lists(st.tuples(st.integers(5, 40), st.just(0), st.just(1)), max_size=2))
    limited = [(length, price, draw(st.integers(0, 3))) if limits else (length, price) for length, price in stocks]
    endless = (61 + draw(st.integers(0, 20)), draw(st.integers(10, 60)))
    kerf, trim = draw(st.integers(0, 3)), draw(st.integers(0, 4))
    return job(pieces, [*limited, endless, *shelf], kerf=kerf, trim_cut=trim, least_offcut=draw(st.integers(0, 10)))
