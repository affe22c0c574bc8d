"""What the board cutter is measured against: two classic rules and two general-purpose solvers, on the same jobs.

Each takes a job and returns its cost (and a bound, where it has one). They are as plain as their authors print them.
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from typing import TYPE_CHECKING

import highspy
import numpy as np
from ortools.sat.python import cp_model

if TYPE_CHECKING:
    from lathlight.cutting import BoardJob

Bounded = tuple[float, float]  # cost (infinite where none was found) and bound


def decreasing(job: BoardJob, *, best: bool) -> float:
    """Return the cost of first-fit or best-fit decreasing (Johnson 1973), at its best over the stock bought first.

    A new bar is the shortest free one that fits, else the stock chosen for the run, else the cheapest by length.
    """
    bought = [n for n, s in enumerate(job.stocks) if s.price]
    return min(_decreasing(job, best=best, first=n) for n in [*bought, -1])


def _decreasing(job: BoardJob, *, best: bool, first: int) -> float:
    left = [math.inf if s.limit is None else s.limit for s in job.stocks]
    bars: list[int] = []
    cost = 0
    for length in sorted((p.length for p in job.pieces for _ in range(p.count)), reverse=True):
        width = length + job.kerf
        fits = [n for n, room in enumerate(bars) if room >= width]
        if fits:
            chosen = min(fits, key=lambda n: bars[n]) if best else fits[0]
        else:
            open_ = [n for n, s in enumerate(job.stocks) if left[n] > 0 and s.length >= length]
            if not open_:
                return math.inf
            n = min(open_, key=lambda n: (job.stocks[n].price > 0, n != first, _rate(job, n)))
            left[n] -= 1
            cost += job.stocks[n].price
            bars.append(job.stocks[n].length + job.kerf)
            chosen = len(bars) - 1
        bars[chosen] -= width
    return cost


def _rate(job: BoardJob, n: int) -> float:
    stock = job.stocks[n]
    return stock.price / stock.length if stock.price else stock.length


def arc_flow(job: BoardJob, *, seconds: float) -> Bounded:
    """Return cost and bound of the arc-flow program (Valerio de Carvalho 1999) solved by HiGHS."""
    rooms = [s.length + job.kerf for s in job.stocks]
    longest = max(rooms)
    arcs = _arcs(job, longest)
    nodes = {v: row for row, v in enumerate(sorted({v for tail, head, _ in arcs for v in (tail, head)} | set(rooms)))}
    columns = len(arcs) + len(rooms)
    in_all = sum(p.count for p in job.pieces)
    upper = [min(in_all, s.limit if s.limit is not None else in_all) for s in job.stocks]
    most = [job.pieces[n].count if n is not None else in_all for _, _, n in arcs]
    costs = [0.0] * len(arcs) + [float(s.price) for s in job.stocks]
    index, value, starts = [], [], []
    for tail, head, piece in arcs:  # row: what flows in less what flows out
        starts.append(len(index))
        index += [nodes[tail], nodes[head]]
        value += [-1.0, 1.0]
        if piece is not None:
            index.append(len(nodes) + piece)
            value.append(1.0)
    for room in rooms:  # a bar brings one unit in at 0 and takes it out at its end
        starts.append(len(index))
        index += [nodes[0], nodes[room]]
        value += [1.0, -1.0]
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("time_limit", seconds)
    rows = len(nodes) + len(job.pieces)
    wanted = np.array([0.0] * len(nodes) + [float(p.count) for p in job.pieces])
    above = np.array([0.0] * len(nodes) + [math.inf] * len(job.pieces))
    empty = np.empty(0, dtype=np.int32)
    solver.addRows(rows, wanted, above, 0, np.zeros(rows, dtype=np.int32), empty, np.empty(0))
    solver.addCols(
        columns, np.array(costs), np.zeros(columns), np.array([*most, *upper], dtype=float), len(index),
        np.array(starts, dtype=np.int32), np.array(index, dtype=np.int32), np.array(value),
    )  # fmt: skip
    solver.changeColsIntegrality(columns, np.arange(columns, dtype=np.int32), np.ones(columns, dtype=np.uint8))
    solver.run()
    info = solver.getInfo()
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    bound = info.mip_dual_bound if math.isfinite(info.mip_dual_bound) else 0.0
    return (info.objective_function_value if found else math.inf), bound


def _arcs(job: BoardJob, longest: int) -> list[tuple[int, int, int | None]]:
    """Return the arcs that bars cut longest piece first can use; None marks what is left over."""
    order = sorted(range(len(job.pieces)), key=lambda n: -job.pieces[n].length)
    reached = {0}
    arcs: set[tuple[int, int, int | None]] = set()
    for n in order:
        width = job.pieces[n].length + job.kerf
        for v in sorted(reached):
            at = v
            for _ in range(job.pieces[n].count):
                if at + width > longest:
                    break
                arcs.add((at, at + width, n))
                at += width
                reached.add(at)
    ends = sorted({s.length + job.kerf for s in job.stocks})
    stops = sorted(reached | set(ends))
    arcs.update((a, b, None) for a, b in itertools.pairwise(stops))
    return sorted(arcs, key=lambda arc: (arc[0], arc[1], -1 if arc[2] is None else arc[2]))


def cp_sat(job: BoardJob, *, seconds: float) -> Bounded:
    """Return cost and bound of the plain assignment model solved by CP-SAT."""
    model = cp_model.CpModel()
    bars = _bars(job)
    cut: dict[int, list[cp_model.IntVar]] = defaultdict(list)
    used = []
    before: tuple[int, cp_model.IntVar] | None = None
    for n in bars:
        is_used = model.new_bool_var("")
        room = job.stocks[n].length + job.kerf
        load = []
        for i, piece in enumerate(job.pieces):
            most = min(piece.count, room // (piece.length + job.kerf))
            if most:
                times = model.new_int_var(0, most, "")
                cut[i].append(times)
                load.append((piece.length + job.kerf) * times)
        model.add(sum(load) <= room * is_used)
        if before is not None and before[0] == n:
            model.add_implication(is_used, before[1])
        before = (n, is_used)
        used.append((n, is_used))
    for i, piece in enumerate(job.pieces):
        model.add(sum(cut[i]) >= piece.count)
    model.minimize(sum(job.stocks[n].price * is_used for n, is_used in used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return math.inf, solver.best_objective_bound
    return solver.objective_value, solver.best_objective_bound


def _bars(job: BoardJob) -> list[int]:
    """Return for each bar that may be used the place of its stock: as many as would hold everything twice over."""
    total = sum((p.length + job.kerf) * p.count for p in job.pieces)
    found: list[int] = []
    for n, stock in enumerate(job.stocks):
        most = 2 * -(-total // stock.length)
        found += [n] * (most if stock.limit is None else min(most, stock.limit))
    return found
