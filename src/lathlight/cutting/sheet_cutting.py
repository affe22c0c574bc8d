"""Sheets: the plan of least cost with its bound, then fewer cuts and a larger offcut.

This module puts the parts together and turns the search's whole numbers back into the job's own entries.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.cutting.sheet_grid import grid_of
from lathlight.cutting.sheet_jobs import require_possible
from lathlight.cutting.sheet_plan import SheetInequality, SheetPlan, SheetProof
from lathlight.cutting.sheet_search import SheetSearch
from lathlight.cutting.sheet_watch import SheetWork, Watch
from lathlight.cutting.sheet_worth import STAGED

if TYPE_CHECKING:
    from lathlight.cutting.sheet_bound import Inequality, SheetBound
    from lathlight.cutting.sheet_jobs import SheetJob
    from lathlight.cutting.sheet_plan import CutSheet
    from lathlight.progress import Progress


def solve_sheets(
    job: SheetJob, *, work: SheetWork | None = None, clock: float | None = None, progress: Progress | None = None
) -> SheetPlan:
    """Return the cheapest plan found for the job's sheets, with a bound that no plan undercuts.

    Parameters
    ----------
    job
        Pieces, sheets, kerf and rules; sizes in whole numbers of one unit.
    work
        How much may be searched; the same work gives the same plan.
    clock
        Most seconds, where the user asked for a limit by the clock [s]; two such runs may differ. A first plan is
        made whatever the clock says.
    progress
        Receives the best cost and the bound; may stop the search, and the best plan so far is returned.

    Returns
    -------
    SheetPlan
        Sheets with their pieces and cuts; an empty job gives an empty plan that costs nothing.

    Raises
    ------
    InputError
        The job cannot be used: a piece larger than every sheet, no sheet, a negative kerf.
    NoAnswerError
        The sheets that can be had do not hold the pieces, or no plan was found that keeps the rules.

    Notes
    -----
    Order of the aims: cost, number of cuts, area of the largest offcut; `proven` speaks of the cost.

    Examples
    --------
    >>> from lathlight.cutting.sheet_jobs import SheetItem, SheetJob, SheetStock
    >>> board = SheetStock(width=1220, length=2440, price=3600)
    >>> doors = SheetItem(width=600, length=1200, count=5)
    >>> plan = solve_sheets(SheetJob(items=(doors,), stocks=(board,), kerf=3))
    >>> plan.cost, plan.lower_bound, plan.proven
    (7200, 7200, True)
    """
    require_possible(job)
    grid = grid_of(job)
    if not grid.pieces:
        proof = SheetProof(inequalities=(), stages=job.stages, step=1)
        return SheetPlan(sheets=(), cost=0, lower_bound=0, proven=True, proof=proof, ended="finished")
    search = SheetSearch(grid, Watch(work=work or SheetWork(), clock=clock, progress=progress))
    ended = search.run()
    bound = min(search.bound.cost, search.cost)
    return SheetPlan(
        sheets=_in_order(job, search.sheets),
        cost=search.cost,
        lower_bound=bound,
        proven=search.cost == bound,
        proof=_proof(job, search.bound),
        ended=ended,
    )


def _in_order(job: SheetJob, sheets: tuple[CutSheet, ...]) -> tuple[CutSheet, ...]:
    """Return offcuts first, then bought sheets, each stock as the job lists it, alike sheets together."""

    def key(sheet: CutSheet) -> tuple[bool, int, tuple[tuple[int, int, int, int, int], ...]]:
        pieces = tuple((p.item, p.x, p.y, p.width, p.length) for p in sheet.pieces)
        return job.stocks[sheet.stock].price > 0, sheet.stock, pieces

    return tuple(sorted(sheets, key=key))


def _proof(job: SheetJob, bound: SheetBound) -> SheetProof:
    found = tuple(_inequality(job, bound, bound.inequalities[n]) for n in sorted(bound.needed))
    staged = job.stages is not None and job.stages <= STAGED
    return SheetProof(inequalities=found, stages=job.stages if staged else None, step=bound.step)


def _inequality(job: SheetJob, bound: SheetBound, cut: Inequality) -> SheetInequality:
    """Return an inequality by the job's own entries; a stock that holds no piece holds no worth."""
    items, stocks = [0] * len(job.items), [0] * len(job.stocks)
    for piece, value in zip(bound.grid.pieces, cut.piece_values.tolist(), strict=True):
        items[piece.item] = value
    for sheet, value in zip(bound.grid.sheets, cut.sheet_values.tolist(), strict=True):
        stocks[sheet.stock] = value
    return SheetInequality(item_values=tuple(items), stock_values=tuple(stocks), wanted=cut.wanted)
