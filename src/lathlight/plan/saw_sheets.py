"""Sheets of one kind: the fewest that yield all pieces by straight cuts, with their bound.

Turns parts with ids into a job of whole steps and the solver's sheets back into sheets with parts, in the same order,
so that a sheet's way of the saw is found by its place. A part that no sheet holds is counted as a sheet of its own.
Very many parts are cut in batches, one after the other; their bound is that of all areas together.
"""

from __future__ import annotations

import math
from collections import Counter, deque
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.carpentry import CutSheet, PlacedPiece
from lathlight.cutting import SheetItem, SheetJob, SheetPlan, SheetStock, SheetWork, solve_sheets
from lathlight.errors import NoAnswerError
from lathlight.plan.saw_batches import in_batches
from lathlight.plan.saw_grid import FINE, common_step, fine_down, fine_up

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import SheetPart
    from lathlight.catalog import Sheet
    from lathlight.plan.cache import Memo
    from lathlight.units import LengthStyle

TOUCH = 1e-6
SIZES = 14  # parts of so many sizes are cut together at most
BATCH = 60  # and so many parts
WORK = SheetWork(bound_rounds=20, plans=16, generations=30, polish=2)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetBench:
    """How sheets are cut [mm]."""

    style: LengthStyle
    kerf: float
    straight_edge: float | None  # no cut longer than this; None: not stated


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSawing:
    """All sheets of one kind."""

    sheet: Sheet
    step: Fraction  # of the jobs' figures [mm]
    jobs: tuple[SheetJob, ...]
    plans: tuple[SheetPlan, ...]  # one a job; its trees are the saw's way through each sheet
    sheets: tuple[CutSheet, ...]  # the plans' sheets in order, each with its pieces in order, then those of `too_large`
    too_large: int  # parts that no sheet holds
    lower_bound: int  # sheets, `too_large` not among them
    past_straight_edge: bool  # True: some cut is longer than the straight edge, nothing else would do

    @property
    def number(self) -> int:
        """Sheets of the plans."""
        return len(self.sheets) - self.too_large

    @property
    def proven(self) -> bool:
        """Whether no fewer sheets will do, cut in three stages; parts larger than a sheet are left aside."""
        return self.number == self.lower_bound

    @property
    def gap(self) -> float:
        """Sheets above the bound, as a share of it."""
        return self.number / self.lower_bound - 1 if self.lower_bound else 0.0


def saw_sheets(sheet: Sheet, parts: Sequence[SheetPart], bench: SheetBench, memo: Memo) -> SheetSawing:
    """Return how the parts of one kind of sheet are cut: one at least, neighbours together."""
    fitting = [p for p in parts if _holds(sheet, p)]
    apart = [p for p in parts if not _holds(sheet, p)]
    step = _step(sheet, fitting, bench)
    batches = in_batches(fitting, lambda p: (p.width, p.height), sizes=SIZES, most=BATCH)
    solved = [_solved(_job(sheet, batch, bench, step), memo) for batch in batches]
    placed = [each for batch, one in zip(batches, solved, strict=True) for each in _placed(batch, *one, step, bench)]
    placed += [(_over(part),) for part in apart]
    number = len(placed) - len(apart)
    return SheetSawing(
        sheet=sheet,
        step=Fraction(step, FINE),
        jobs=tuple(job for job, _ in solved),
        plans=tuple(plan for _, plan in solved),
        sheets=tuple(CutSheet(sheet=sheet, number=n, pieces=own) for n, own in enumerate(placed, start=1)),
        too_large=len(apart),
        lower_bound=min(number, _bound([plan for _, plan in solved], _job(sheet, fitting, bench, step))),
        past_straight_edge=bench.straight_edge is not None and any(job.straight_edge is None for job, _ in solved),
    )


def _holds(sheet: Sheet, part: SheetPart) -> bool:
    upright = part.width <= sheet.width + TOUCH and part.height <= sheet.length + TOUCH
    return upright or (part.may_turn and part.height <= sheet.width + TOUCH and part.width <= sheet.length + TOUCH)


def _step(sheet: Sheet, parts: Sequence[SheetPart], bench: SheetBench) -> int:
    figures = {fine_down(sheet.width), fine_down(sheet.length), fine_up(bench.kerf, bench.style)}
    return common_step(figures.union(*(_size(part, 1, bench)[:2] for part in parts)))


def _size(part: SheetPart, step: int, bench: SheetBench) -> tuple[int, int, bool]:
    limits = fine_down(part.sheet.width), fine_down(part.sheet.length)
    width, height = (fine_up(mm, bench.style, limits) // step for mm in (part.width, part.height))
    return width, height, part.may_turn


def _job(sheet: Sheet, parts: Sequence[SheetPart], bench: SheetBench, step: int) -> SheetJob:
    counts = Counter(_size(part, step, bench) for part in parts)
    items = sorted(counts.items(), key=lambda pair: (-pair[0][0] * pair[0][1], pair[0]))
    edge = None if bench.straight_edge is None else fine_down(bench.straight_edge) // step
    return SheetJob(
        items=tuple(SheetItem(width=w, length=h, count=count, rotate=turn) for (w, h, turn), count in items),
        stocks=(SheetStock(width=fine_down(sheet.width) // step, length=fine_down(sheet.length) // step, price=1),),
        kerf=fine_up(bench.kerf, bench.style) // step,
        straight_edge=edge,
        place=sheet.name,
    )


def _solved(job: SheetJob, memo: Memo) -> tuple[SheetJob, SheetPlan]:
    """Return a batch's job and plan; where the straight edge is too short for any plan it is left aside."""
    try:
        return job, memo.run("saw sheets", solve_sheets, job, work=WORK)
    except NoAnswerError:
        if job.straight_edge is None:
            raise
    job = replace(job, straight_edge=None)
    return job, memo.run("saw sheets", solve_sheets, job, work=WORK)


def _placed(
    parts: Sequence[SheetPart], job: SheetJob, plan: SheetPlan, step: int, bench: SheetBench
) -> Iterator[tuple[PlacedPiece, ...]]:
    """Yield the parts of each sheet; parts of one size are handed out in order."""
    waiting: dict[tuple[int, int, bool], deque[SheetPart]] = {}
    for part in parts:
        waiting.setdefault(_size(part, step, bench), deque()).append(part)
    for sheet in plan.sheets:
        own: list[PlacedPiece] = []
        for piece in sheet.pieces:
            item = job.items[piece.item]
            part = waiting[item.width, item.length, item.rotate].popleft()
            sides = (part.height, part.width) if piece.turned else (part.width, part.height)
            own.append(
                PlacedPiece(
                    part=part,
                    x=piece.x * step / FINE,
                    y=piece.y * step / FINE,
                    width=sides[0],
                    height=sides[1],
                    turned=piece.turned,
                )
            )
        yield tuple(own)


def _over(part: SheetPart) -> PlacedPiece:
    return PlacedPiece(part=part, x=0.0, y=0.0, width=part.width, height=part.height, turned=False)


def _bound(plans: Sequence[SheetPlan], whole: SheetJob) -> int:
    """Return how many sheets are needed at least: proven where there is one batch, else by all areas together."""
    if len(plans) == 1:
        return plans[0].lower_bound
    wanted = sum(i.count * (i.width + whole.kerf) * (i.length + whole.kerf) for i in whole.items)
    (stock,) = whole.stocks
    return math.ceil(Fraction(wanted, (stock.width + whole.kerf) * (stock.length + whole.kerf)))
