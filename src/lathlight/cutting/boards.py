"""Boards: the plan of least cost with its proof, then fewer cuts, fewer layouts, a longer offcut.

This module puts the parts together and turns patterns back into layouts; it decides nothing of its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.cutting.board_aims import settle_aims
from lathlight.cutting.board_input import Read, read_job, usable
from lathlight.cutting.board_model import BoardPlan, Inequality, Layout, Proof, WorkLimit
from lathlight.cutting.board_search import BoardSearch, Found
from lathlight.cutting.certificate import recheck
from lathlight.cutting.effort import Effort
from lathlight.errors import NoAnswerError
from lathlight.progress import Progress, Quiet

if TYPE_CHECKING:
    from lathlight.cutting.board_aims import Aims
    from lathlight.cutting.board_model import BoardJob
    from lathlight.cutting.patterns import Cutting

EMPTY = Proof(cuts=(), searched=(), by_cuts=0)


def solve_boards(
    job: BoardJob, *, work: WorkLimit | None = None, clock: float | None = None, progress: Progress | None = None
) -> BoardPlan:
    """Return the cheapest way to cut the job, with a bound that no plan undercuts.

    Parameters
    ----------
    job
        Pieces, stock, kerf; lengths on one grid of whole numbers.
    work
        How much may be searched; the same work gives the same plan.
    clock
        Most seconds, where the user asked for a limit by the clock [s]; two such runs may differ.
    progress
        Receives the best cost and the bound; may stop the search, and the best plan so far is returned.

    Returns
    -------
    BoardPlan
        The plan; an empty job gives an empty plan that costs nothing.

    Raises
    ------
    InputError
        The job cannot be read: a piece longer than all stock, no stock, a negative kerf.
    NoAnswerError
        The limits of the stock cannot hold the pieces, or no plan that keeps them was found.

    Notes
    -----
    Order of the aims: cost, number of cuts, number of different layouts, longest usable offcut. `proven` speaks of the
    cost; each later aim says for itself whether it is proven.

    Examples
    --------
    >>> from lathlight.cutting import BoardJob, Piece, Stock
    >>> four = BoardJob(pieces=(Piece(length=24 * 8, count=4),), stocks=(Stock(length=96 * 8, price=300),), kerf=1)
    >>> plan = solve_boards(four)
    >>> plan.cost, plan.proven, [layout.left for layout in plan.layouts]
    (600, True, [382])
    """
    read = read_job(job)
    if not len(read.grid.counts):
        return _no_pieces()
    effort = Effort(work=work or WorkLimit(), clock=clock, progress=progress or Quiet())
    found = BoardSearch(read.grid, effort).run()
    if found.cutting is None or found.cost is None:
        raise _no_plan(found)
    aims = settle_aims(read.grid, found, effort, kerf=job.kerf, trims=_trims(job, read), least=job.least_offcut)
    return _plan(job, read, found, aims)


def _no_pieces() -> BoardPlan:
    return BoardPlan(
        layouts=(),
        cost=0,
        lower_bound=0,
        proven=True,
        cuts=0,
        cuts_proven=True,
        different=0,
        different_proven=True,
        longest_offcut=0,
        longest_offcut_proven=True,
        proof=EMPTY,
        ended="finished",
    )


def _no_plan(found: Found) -> Exception:
    sure = "these boards cannot hold the pieces" if found.impossible else f"no plan was found ({found.ended})"
    return NoAnswerError.of(
        place="stock limits",
        found=sure,
        expected="boards enough for every piece",
        remedy="Allow more boards of a length, or add another length.",
    )


def _trims(job: BoardJob, read: Read) -> tuple[int, ...]:
    """Return for each stock of the grid the trim cuts that one board needs."""
    return tuple(int(job.trim_cut > 0 and not job.stocks[n].offcut) for n in read.stock_places)


def _plan(job: BoardJob, read: Read, found: Found, aims: Aims) -> BoardPlan:
    assert found.cost is not None
    layouts = _layouts(job, read, aims.cutting)
    longest = max((layout.left for layout in layouts), default=0)
    return BoardPlan(
        layouts=layouts,
        cost=found.cost,
        lower_bound=found.bound,
        proven=found.proven,
        cuts=sum(layout.cuts * layout.times for layout in layouts),
        cuts_proven=aims.cuts_proven,
        different=len(aims.cutting),
        different_proven=aims.different_proven,
        longest_offcut=longest if longest >= max(1, job.least_offcut) else 0,
        longest_offcut_proven=aims.longest_proven,
        proof=_proof(job, read, found),
        ended=found.ended,
    )


def _proof(job: BoardJob, read: Read, found: Found) -> Proof:
    """Return the inequalities and the searched choices in the job's own order, checked again."""
    cuts: list[Inequality] = []
    row_of = {n: row for row, places in enumerate(read.piece_places) for n in places}
    column_of = {n: column for column, n in enumerate(read.stock_places)}
    for cut in found.cuts:
        pieces, bars = cut.piece_values.tolist(), cut.bar_values.tolist()
        values = tuple(pieces[row_of[n]] if n in row_of else 0 for n in range(len(job.pieces)))
        holds = tuple(bars[column_of[n]] if n in column_of else 0 for n in range(len(job.stocks)))
        cuts.append(Inequality(piece_values=values, bar_values=holds, wanted=cut.wanted))
    searched: list[tuple[int, ...]] = []
    for vector in found.searched:
        bars = read.grid.bars(vector).tolist()
        searched.append(tuple(bars[column_of[n]] if n in column_of else 0 for n in range(len(job.stocks))))
    proof = Proof(cuts=tuple(cuts), searched=tuple(searched), by_cuts=0)
    by_cuts = recheck(job, Proof(cuts=proof.cuts, searched=(), by_cuts=0), bound=found.bound)
    return Proof(cuts=proof.cuts, searched=proof.searched, by_cuts=by_cuts)


def _layouts(job: BoardJob, read: Read, cutting: Cutting) -> tuple[Layout, ...]:
    """Return the patterns as layouts; equal lengths of different pieces are handed out in the job's order."""
    waiting = [[n for n in places for _ in range(job.pieces[n].count)] for places in read.piece_places]
    boards: dict[tuple[int, tuple[int, ...]], int] = {}
    for pattern, times in cutting:
        for _ in range(times):
            pieces = tuple(waiting[row].pop(0) for row, count in enumerate(pattern.counts) for _ in range(count))
            key = (read.stock_places[pattern.stock], pieces)
            boards[key] = boards.get(key, 0) + 1
    layouts = [_layout(job, stock, pieces, times) for (stock, pieces), times in boards.items()]
    return tuple(sorted(layouts, key=lambda x: (-job.stocks[x.stock].length, x.stock, x.pieces)))


def _layout(job: BoardJob, stock: int, pieces: tuple[int, ...], times: int) -> Layout:
    board = job.stocks[stock]
    trims = int(job.trim_cut > 0 and not board.offcut)
    room = usable(job, board) + job.kerf - sum(job.pieces[n].length + job.kerf for n in pieces)
    cuts = trims + len(pieces) - int(room == 0)  # no last cut where the last piece ends with the board
    return Layout(stock=stock, pieces=pieces, times=times, cuts=cuts, left=max(0, room - job.kerf))
