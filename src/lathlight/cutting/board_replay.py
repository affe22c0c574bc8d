"""The second pair of eyes: a cutting plan is sawn again, board by board, from the job alone.

Written apart from the solver and sharing nothing with it but the types: here boards have lengths and a saw takes its
kerf cut after cut; there is no widened piece and no pattern.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.cutting.board_model import BoardJob, BoardPlan, Layout


def _saw(job: BoardJob, layout: Layout, place: str) -> tuple[list[str], int, int]:
    """Return faults, cuts and what is left of one board."""
    stock = job.stocks[layout.stock]
    left, cuts = stock.length, 0
    if job.trim_cut and not stock.offcut:
        left -= job.trim_cut
        cuts += 1
    for n in layout.pieces:
        length = job.pieces[n].length
        if length > left:
            return [f"{place}: a piece of {length} is taken from {left}"], cuts, left
        if length < left:
            cuts += 1
            left = max(0, left - length - job.kerf)
        else:
            left = 0
    return [], cuts, left


def check_boards(job: BoardJob, plan: BoardPlan) -> list[str]:
    """Return what is wrong with a plan, in words; an empty list where it can be sawn as it stands.

    Checked are kerf and trim on each board, counts, limits, cost, cuts, leavings, the number of layouts and that the
    bound does not exceed the cost. That the bound is a bound is for `certificate.recheck`.
    """
    faults: list[str] = []
    cut: Counter[int] = Counter()
    used: Counter[int] = Counter()
    cost = cuts = longest = 0
    for number, layout in enumerate(plan.layouts, start=1):
        place = f"layout {number}"
        if layout.times < 1 or not layout.pieces:
            faults.append(f"{place}: cut {layout.times} times with {len(layout.pieces)} pieces")
        wrong, sawn, left = _saw(job, layout, place)
        faults.extend(wrong)
        if not wrong and (sawn, left) != (layout.cuts, layout.left):
            faults.append(f"{place}: says {layout.cuts} cuts and {layout.left} left, sawn {sawn} and {left}")
        cut.update(dict.fromkeys(layout.pieces, 0))
        for n in layout.pieces:
            cut[n] += layout.times
        used[layout.stock] += layout.times
        cost += job.stocks[layout.stock].price * layout.times
        cuts += sawn * layout.times
        longest = max(longest, left)
    for n, piece in enumerate(job.pieces):
        if cut[n] != piece.count:
            faults.append(f"piece {n + 1} of {piece.length}: {cut[n]} cut, {piece.count} wanted")
    for n, stock in enumerate(job.stocks):
        if stock.limit is not None and used[n] > stock.limit:
            faults.append(f"stock {n + 1} of {stock.length}: {used[n]} used, {stock.limit} to be had")
    alike = len({(x.stock, tuple(sorted(job.pieces[n].length for n in x.pieces))) for x in plan.layouts})
    usable = longest if longest >= max(1, job.least_offcut) else 0
    for name, said, is_so in (
        ("cost", plan.cost, cost),
        ("cuts", plan.cuts, cuts),
        ("different layouts", plan.different, alike),
        ("longest offcut", plan.longest_offcut, usable),
    ):
        if said != is_so:
            faults.append(f"{name}: the plan says {said}, sawn {is_so}")
    if plan.lower_bound > plan.cost or plan.proven != (plan.lower_bound == plan.cost):
        faults.append(f"bound {plan.lower_bound} beside cost {plan.cost}, proven {plan.proven}")
    return faults
