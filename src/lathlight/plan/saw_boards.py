"""Boards and moulding lengths of one section: the cheapest way to cut them, with its bound.

Turns pieces with ids into a job of whole steps and the solver's layouts back into boards with ids. A piece longer than
anything sold stands apart; one as long as a stock length is taken whole where factory ends are trimmed. Very large
sections are cut in batches, one after the other, so that the work grows with the set and no faster: their bound is that
of all lengths together, and seldom proves the plan.
"""

from __future__ import annotations

import math
from collections import Counter, deque
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.cutting import BoardJob, BoardPlan, Piece, Stock, WorkLimit, solve_boards
from lathlight.errors import InputError, NoAnswerError
from lathlight.plan.saw_batches import in_batches
from lathlight.plan.saw_grid import FINE, common_step, fine_down, fine_up
from lathlight.plan.stock_prices import sold_lengths

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.plan.cache import Memo
    from lathlight.plan.stock_prices import SoldLengths
    from lathlight.project import Price
    from lathlight.units import LengthStyle

TOUCH = 1e-6
SIZES = 24  # pieces of so many lengths are cut together at most
BATCH = 300  # and so many pieces
WORK = WorkLimit(
    rounds=2_000,
    dives=2,
    turns=1,
    patterns=2_000,
    nodes=100,
    aim_patterns=200,
    aim_layouts=60,
    aim_thrifty=50,
    aim_nodes=4,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """One piece that is wanted."""

    id: str
    length: float  # [mm]
    may_be_offcut: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """How boards are cut: what the saw takes, and what is worth keeping [mm]."""

    style: LengthStyle
    kerf: float
    trim_cut: float  # off the factory end of a bought board
    least_offcut: float  # 0: any


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnBoard:
    """One board and what is cut from it, in order."""

    length: float  # [mm]
    pieces: tuple[Length, ...]
    cuts: int  # the trim cut among them
    left: float  # [mm]
    job: int | None  # place among the section's jobs; None: taken whole, or longer than anything sold


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionSawing:
    """All boards of one section, or all lengths of one moulding."""

    stock: str
    sold: SoldLengths | None  # None: the catalogue has no such stock
    step: Fraction  # of the jobs' figures [mm]
    jobs: tuple[BoardJob, ...]
    plans: tuple[BoardPlan, ...]  # one a job
    boards: tuple[SawnBoard, ...]
    too_long: tuple[SawnBoard, ...]  # pieces longer than anything sold, each a board of its own
    cost: int  # of `boards`, as `sold` counts
    lower_bound: int

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper can be cut; pieces longer than anything sold are left aside."""
        return self.cost == self.lower_bound

    @property
    def gap(self) -> float:
        """Cost above the bound, as a share of it."""
        return self.cost / self.lower_bound - 1 if self.lower_bound else 0.0

    @property
    def short_in_shop(self) -> tuple[float, ...]:
        """Lengths of which more are taken than the shop is said to have [mm]."""
        used = Counter(board.length for board in self.boards)
        sold = self.sold.lengths if self.sold is not None else ()
        return tuple(x.length for x in sold if x.limit is not None and used[x.length] > x.limit)


def saw_section(
    stock: str,
    pieces: Sequence[Length],
    on_sale: Sequence[float],
    bench: Bench,
    prices: Iterable[Price],
    memo: Memo,
) -> SectionSawing:
    """Return how the pieces of one section are cut.

    Parameters
    ----------
    stock
        Name of the section or moulding.
    pieces
        One at least, neighbours together.
    on_sale
        Stock lengths [mm]; none: nothing is known, and boards are taken to be as long as the longest piece.
    bench, prices
        As the project has them.
    memo
        Solved jobs are remembered by their content: pieces that change their names alone are not cut anew.
    """
    if not on_sale:
        bench, lengths = replace(bench, trim_cut=0.0), (max(p.length for p in pieces),)
    else:
        lengths = tuple(on_sale)
    fitting = [p for p in pieces if _comes_out(p.length, max(lengths), bench.trim_cut)]
    longest = max((p.length for p in fitting), default=0.0)
    sold = sold_lengths(stock, lengths, prices, longest=longest, trim_cut=bench.trim_cut)
    saw = _Saw(fitting, sold, bench)
    solved = tuple(saw.solved(batch, memo) for batch in saw.batches)
    boards = (*saw.whole, *(board for n, each in enumerate(solved) for board in saw.boards(n, *each)))
    cost = sum(plan.cost for _, plan in solved) + sum(saw.weights[board.length] for board in saw.whole)
    apart = sorted((p for p in pieces if p not in fitting), key=lambda p: -p.length)
    return SectionSawing(
        stock=stock,
        sold=sold if on_sale else None,
        step=Fraction(saw.step, FINE),
        jobs=tuple(job for job, _ in solved),
        plans=tuple(plan for _, plan in solved),
        boards=boards,
        too_long=tuple(SawnBoard(length=p.length, pieces=(p,), cuts=0, left=0.0, job=None) for p in apart),
        cost=cost,
        lower_bound=min(cost, saw.bound([plan for _, plan in solved], memo)),
    )


def _comes_out(need: float, board: float, trim_cut: float) -> bool:
    return need <= board - trim_cut + TOUCH or abs(need - board) <= TOUCH


class _Saw:
    """One section in whole steps, and the way back."""

    def __init__(self, pieces: Sequence[Length], sold: SoldLengths, bench: Bench) -> None:
        self.sold, self.bench = sold, bench
        self.weights = {each.length: each.weight for each in sold.lengths}
        lengths, trim = [fine_down(each.length) for each in sold.lengths], fine_up(bench.trim_cut, bench.style)
        self.limits = (*lengths, *(each - trim for each in lengths))
        taken = (bench.kerf, bench.trim_cut, *(p.length for p in pieces))
        self.step = common_step({*lengths, *(self._fine(mm) for mm in taken)})
        self.all = pieces
        self.whole = tuple(_whole(p, sold) for p in pieces if self._taken_whole(p))
        cut = [p for p in pieces if not self._taken_whole(p)]
        self.batches = in_batches(cut, lambda p: p.length, sizes=SIZES, most=BATCH)

    def _taken_whole(self, piece: Length) -> bool:
        """Return whether a piece is as long as a board whose end would be trimmed."""
        return self.bench.trim_cut > 0 and any(abs(piece.length - x.length) <= TOUCH for x in self.sold.lengths)

    def steps(self, mm: float) -> int:
        """Return a length that is taken, in steps of the job."""
        return -(-self._fine(mm) // self.step)

    def _fine(self, mm: float) -> int:
        return fine_up(mm, self.bench.style, self.limits)

    def job(self, pieces: Sequence[Length], *, limited: bool, trim_cut: float) -> BoardJob:
        """Return the job of some pieces, longest first."""
        counts = Counter(self.steps(p.length) for p in pieces)
        return BoardJob(
            pieces=tuple(Piece(length=length, count=counts[length]) for length in sorted(counts, reverse=True)),
            stocks=tuple(
                Stock(
                    length=fine_down(each.length) // self.step,
                    price=each.weight,
                    limit=each.limit if limited else None,
                )
                for each in self.sold.lengths
            ),
            kerf=self.steps(self.bench.kerf),
            trim_cut=self.steps(trim_cut),
            least_offcut=self.steps(self.bench.least_offcut),
        )

    def solved(self, pieces: Sequence[Length], memo: Memo) -> tuple[BoardJob, BoardPlan]:
        """Return a batch's job and plan; what the shop has is left aside where it is too little."""
        limited = len(self.batches) == 1 and any(each.limit is not None for each in self.sold.lengths)
        job = self.job(pieces, limited=limited, trim_cut=self.bench.trim_cut)
        try:
            return job, memo.run("saw boards", solve_boards, job, work=WORK)
        except (InputError, NoAnswerError):
            if not limited:
                raise
        job = self.job(pieces, limited=False, trim_cut=self.bench.trim_cut)
        return job, memo.run("saw boards", solve_boards, job, work=WORK)

    def boards(self, number: int, job: BoardJob, plan: BoardPlan) -> Iterator[SawnBoard]:
        """Yield the boards of a batch; of pieces of one length the firm ones come first, else in order."""
        waiting: dict[int, deque[Length]] = {}
        for piece in sorted(self.batches[number], key=lambda p: p.may_be_offcut):
            waiting.setdefault(self.steps(piece.length), deque()).append(piece)
        for layout in plan.layouts:
            for _ in range(layout.times):
                yield SawnBoard(
                    length=self.sold.lengths[layout.stock].length,
                    pieces=tuple(waiting[job.pieces[n].length].popleft() for n in layout.pieces),
                    cuts=layout.cuts,
                    left=layout.left * self.step / FINE,
                    job=number,
                )

    def bound(self, plans: Sequence[BoardPlan], memo: Memo) -> int:
        """Return what no way of cutting all pieces undercuts."""
        if len(plans) == 1 and not self.whole:
            return plans[0].lower_bound
        if len(plans) <= 1:  # boards taken whole: nothing costs less than if no end needed trimming
            free = self.job(self.all, limited=False, trim_cut=0.0)
            return memo.run("saw boards", solve_boards, free, work=WORK).lower_bound if free.pieces else 0
        job = self.job(self.all, limited=False, trim_cut=0.0 if self.whole else self.bench.trim_cut)
        wanted = sum(piece.count * (piece.length + job.kerf) for piece in job.pieces)
        rates = (Fraction(s.price, s.length - job.trim_cut + job.kerf) for s in job.stocks if s.length > job.trim_cut)
        return math.ceil(wanted * min(rates))


def _whole(piece: Length, sold: SoldLengths) -> SawnBoard:
    length = next(each.length for each in sold.lengths if abs(piece.length - each.length) <= TOUCH)
    return SawnBoard(length=length, pieces=(piece,), cuts=0, left=0.0, job=None)
