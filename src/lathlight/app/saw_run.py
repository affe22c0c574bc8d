"""Solving saw jobs one after the other, and the document that scripts read of each.

Decides nothing about cutting: the solvers plan, and every plan is sawn again by the checker before it is shown.
"""

from __future__ import annotations

import time
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from lathlight.app.saw_job import SawJob, Steps, board_job, figure, sheet_job, steps_of
from lathlight.cutting import (
    BoardJob,
    BoardPlan,
    CutSheet,
    SheetJob,
    SheetPlan,
    check_boards,
    check_sheets,
    solve_boards,
    solve_sheets,
)
from lathlight.errors import InputError, LathlightError, NoAnswerError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.progress import Progress

GAP_DIGITS = 4
CLOCK_DIGITS = 3
LAST_STEP, LAST_SHARE = 0.2, 0.1  # [s] kept back, at most so much of the limit: a step that is begun is finished


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """A job with its plan."""

    job: SawJob
    steps: Steps
    boards: tuple[BoardJob, BoardPlan] | None  # one of the two
    sheets: tuple[SheetJob, SheetPlan] | None
    seconds: float

    @property
    def plan(self) -> BoardPlan | SheetPlan:
        """The plan of either kind."""
        plan = self.boards or self.sheets
        assert plan is not None
        return plan[1]

    @property
    def gap_percent(self) -> float:
        """Cost above the lower bound [%]."""
        return round(100 * self.plan.gap, GAP_DIGITS)

    @property
    def was_stopped(self) -> bool:
        """True where the user asked to stop."""
        return self.plan.ended == "asked to stop"

    @property
    def alike_sheets(self) -> list[tuple[CutSheet, int]]:
        """The sheets' plans, each with how many sheets are cut so."""
        if self.sheets is None:
            return []
        return list(Counter(self.sheets[1].sheets).items())


def saw(job: SawJob, *, limit: float | None = None, progress: Progress | None = None) -> Sawn:
    """Return the cheapest plan found for a job, with its bound.

    Parameters
    ----------
    job
        What was read.
    limit
        Most seconds [s]; None: until the work that a search may do is done, so that equal jobs give equal plans.
    progress
        Receives the best cost and the bound; may stop the search.

    Raises
    ------
    NoAnswerError
        The stock that can be had does not hold the pieces.
    """
    steps, start = steps_of(job), time.perf_counter()
    clock = None if limit is None else limit - min(LAST_STEP, limit * LAST_SHARE)
    try:
        if job.is_sheets:
            sheets = sheet_job(job, steps)
            cut = solve_sheets(sheets, clock=clock, progress=progress)
            return _checked(check_sheets(sheets, cut), job, steps, start, sheets=(sheets, cut))
        boards = board_job(job, steps)
        plan = solve_boards(boards, clock=clock, progress=progress)
        return _checked(check_boards(boards, plan), job, steps, start, boards=(boards, plan))
    except (InputError, NoAnswerError) as error:
        raise _no_plan(job, error) from error


def _checked(
    faults: Sequence[str],
    job: SawJob,
    steps: Steps,
    start: float,
    *,
    boards: tuple[BoardJob, BoardPlan] | None = None,
    sheets: tuple[SheetJob, SheetPlan] | None = None,
) -> Sawn:
    assert not faults, f"{job.name}: {'; '.join(faults)}"
    seconds = round(time.perf_counter() - start, CLOCK_DIGITS)
    return Sawn(job=job, steps=steps, boards=boards, sheets=sheets, seconds=seconds)


def _no_plan(job: SawJob, error: LathlightError) -> LathlightError:
    """Return what is told where the solver refuses: the reader has refused all but too little stock before."""
    if isinstance(error, InputError) and not error.problems[0].place.startswith("stock limits"):
        return error
    return NoAnswerError.of(
        place=job.place,
        found="no way to cut all pieces from the stock that there is",
        expected="sheets enough for every piece" if job.is_sheets else "boards enough for every piece",
        remedy="Allow more sheets, more stages of cuts or a longer straight edge, or let pieces turn."
        if job.is_sheets
        else "Allow more boards of a length, or add another length.",
    )


# --- the document ------------------------------------------------------------------------------------------------


def saw_document(sawn: Sawn) -> dict[str, Any]:
    """Return a plan as one JSON document in the file's own units, with the stock entries as the file gives them.

    A board's pieces are lengths in the order of cutting. A sheet's are rectangles, x along the sheet's width and y
    along its length, from one corner.
    """
    plan = sawn.plan
    return {
        "id": sawn.job.name,
        "cost": figure(sawn.steps.price(plan.cost)),
        "lower_bound": figure(sawn.steps.price(plan.lower_bound)),
        "proven": plan.proven,
        "seconds": sawn.seconds,
        "plan": _boards(sawn) if sawn.boards is not None else _sheets(sawn),
    }


def _boards(sawn: Sawn) -> list[dict[str, Any]]:
    assert sawn.boards is not None
    job = sawn.job
    return [
        {
            "stock": dict(job.stocks[layout.stock].entry),
            "times": layout.times,
            "pieces": [figure(job.pieces[n].length) for n in layout.pieces],
        }
        for layout in sawn.boards[1].layouts
    ]


def _sheets(sawn: Sawn) -> list[dict[str, Any]]:
    def back(steps: int) -> int | float:
        return figure(Fraction(sawn.steps.back(steps)))

    return [
        {
            "stock": dict(sawn.job.stocks[sheet.stock].entry),
            "times": times,
            "pieces": [{"x": back(p.x), "y": back(p.y), "w": back(p.width), "h": back(p.length)} for p in sheet.pieces],
        }
        for sheet, times in sawn.alike_sheets
    ]
