"""Somebody waits for the sheet list: sheets cut to proven cost, beside shelves, a rectangle packer and CP-SAT.

Each plan is sawn again by the checker and each bound proved again before it counts. The instances are read where they
lie (``--data``, by default ``../shared/data/cutting``); the samples are named in ``samples_sheets_*.txt``.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lathlight.cutting.sheet_certificate import recheck_sheets
from lathlight.cutting.sheet_cutting import solve_sheets
from lathlight.cutting.sheet_jobs import SheetItem, SheetJob, SheetStock
from lathlight.cutting.sheet_plan import SheetPlan
from lathlight.cutting.sheet_replay import check_sheets
from measuring import ROOT, machine, table
from sheet_peers import cp_sat, free_rectangles, shelves

HERE = Path(__file__).resolve().parent
SMALL = 26  # pieces in a job that CP-SAT is given


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One job, solved."""

    name: str
    job: SheetJob
    plan: SheetPlan
    taken: float
    known: tuple[int, int] | None = None  # least and greatest that the optimum can be, as published

    @property
    def faults(self) -> list[str]:
        """Whatever the checker and the proof's second reader find."""
        found = [*check_sheets(self.job, self.plan), *recheck_sheets(self.job, self.plan)]
        if self.known is not None and self.plan.lower_bound > self.known[1]:
            found.append(f"bound {self.plan.lower_bound} above the known {self.known[1]}")
        return found


def sample(name: str) -> list[str]:
    lines = (HERE / f"samples_sheets_{name}.txt").read_text().splitlines()
    return [line for line in lines if not line.startswith("#")]


def rows_of(file: Path, key: str, wanted: list[str]) -> list[dict[str, Any]]:
    rows = [json.loads(line) for line in file.read_text().splitlines()]
    return [row for row in rows if row[key] in wanted]


def realistic_job(row: dict[str, Any]) -> SheetJob:
    items = (SheetItem(width=i["w"], length=i["l"], count=i["qty"], rotate=i["rotate"]) for i in row["items"])
    stocks = (SheetStock(width=s["w"], length=s["l"], price=s["price"], limit=s["limit"]) for s in row["stocks"])
    return SheetJob(items=tuple(items), stocks=tuple(stocks), kerf=row["kerf"])


def classic_job(row: dict[str, Any], *, rotate: bool) -> SheetJob:
    items = tuple(SheetItem(width=w, length=h, count=count, rotate=rotate) for w, h, count in row["pieces"])
    stock = SheetStock(width=row["W"], length=row["H"], price=1)
    return SheetJob(items=items, stocks=(stock,), kerf=row.get("kerf", 0), stages=None)


def solve(name: str, job: SheetJob, *, seconds: float, known: tuple[int, int] | None = None) -> Run:
    start = time.perf_counter()
    plan = solve_sheets(job, clock=seconds)
    return Run(name=name, job=job, plan=plan, taken=time.perf_counter() - start, known=known)


def summary(name: str, runs: list[Run]) -> list[str]:
    wrong = [f"{run.name}: {fault}" for run in runs for fault in run.faults]
    for fault in wrong:
        print(fault)
    gaps = [run.plan.gap for run in runs if not run.plan.proven]
    times = [run.taken for run in runs]
    return [
        name,
        str(len(runs)),
        str(sum(run.plan.proven for run in runs)),
        f"{100 * statistics.mean(gaps):.1f} %" if gaps else "-",
        f"{statistics.median(times):.2f}",
        f"{max(times):.2f}",
        "all hold" if not wrong else f"{len(wrong)} FAULTS",
    ]


def peers(runs: list[Run]) -> list[list[str]]:
    """Return for each plain rule its total cost against ours, and on how many jobs it is dearer or cheaper."""
    rows: list[list[str]] = []
    for name, rule in (("shelves, first fit, largest first", shelves), ("free rectangles, no saw", free_rectangles)):
        start = time.perf_counter()
        costs = [rule(run.job) for run in runs]
        taken = (time.perf_counter() - start) / len(runs)
        rows.append([name, *against(runs, costs), f"{taken * 1e3:.1f} ms"])
    return rows


def against(runs: list[Run], costs: list[int]) -> list[str]:
    ours = [run.plan.cost for run in runs]
    dearer = sum(cost > own for cost, own in zip(costs, ours, strict=True))
    cheaper = sum(cost < own for cost, own in zip(costs, ours, strict=True))
    return [str(len(runs)), f"{sum(costs) / sum(ours):.3f}", str(dearer), str(cheaper)]


def general_solver(runs: list[Run], *, seconds: float, most: int) -> list[str]:
    """Return CP-SAT beside us on the smallest jobs."""
    small = sorted(runs, key=lambda run: sum(i.count for i in run.job.items))[:most]
    small = [run for run in small if sum(i.count for i in run.job.items) <= SMALL]
    answers = [cp_sat(run.job, seconds=seconds, most=len(run.plan.sheets) + 1) for run in small]
    solved = [(run, cost) for run, (cost, _) in zip(small, answers, strict=True) if cost is not None]
    proven = sum(cost == bound for cost, bound in answers)
    row = against([run for run, _ in solved], [cost for _, cost in solved]) if solved else ["0", "-", "-", "-"]
    return [f"CP-SAT, no saw, {proven} of {len(small)} proven", *row, f"{seconds:.0f} s"]


def classic(data: Path, *, seconds: float) -> list[list[str]]:
    found: list[list[str]] = []
    rows = rows_of(data / "2d_b" / "class.jsonl", "name", sample("classic"))
    for rotate, key in ((False, "guillotine_fixed"), (True, "guillotine_rot")):
        known = [(row, row[key]) for row in rows if key in row]
        runs = [
            solve(row["name"], classic_job(row, rotate=rotate), seconds=seconds, known=(k["lb"], k["ub"]))
            for row, k in known
        ]
        sheets = [(run.plan.cost, run.plan.lower_bound, run.known) for run in runs if run.known]
        line = summary(f"bin packing classes, {'turned' if rotate else 'fixed'}", runs)
        worse = sum(cost > k[1] for cost, _, k in sheets)
        closed = sum(cost == bound and k[0] < k[1] for cost, bound, k in sheets)
        still = sum(k[0] < k[1] for *_, k in sheets)
        print(f"{line[0]}: above the known best on {worse}, closed {closed} of {still} open ones")
        found.append(line)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description="Sheets beside other ways to cut them.")
    parser.add_argument("--data", type=Path, default=ROOT.parent / "shared" / "data" / "cutting")
    parser.add_argument("--seconds", type=float, default=3.0)
    parser.add_argument("--small", type=int, default=6, help="jobs given to CP-SAT")
    options = parser.parse_args()
    print(machine())
    rows = rows_of(options.data / "realistic" / "real2d.jsonl", "id", sample("realistic"))
    runs = [solve(row["id"], realistic_job(row), seconds=options.seconds) for row in rows]
    for run in runs:
        if not run.plan.proven:
            print(f"{run.name}: cost {run.plan.cost}, bound {run.plan.lower_bound}")
    waste = rows_of(options.data / "2d_b" / "perfect_sheets.jsonl", "name", sample("zero_waste"))
    zero = [
        solve(row["name"], classic_job(row, rotate=False), seconds=5.0, known=(row["optimum_sheets"],) * 2)
        for row in waste
    ]
    lines = [summary("realistic, at most three stages", runs), summary("zero waste, any stages", zero)]
    lines += classic(options.data, seconds=options.seconds)
    table(
        ("work", "jobs", "proven", "mean gap of the rest", "median, s", "longest, s", "replayed, proved again"), lines
    )
    beside = [*peers(runs), general_solver(runs, seconds=options.seconds, most=options.small)]
    table(("peer on the realistic jobs", "jobs", "cost / ours", "dearer on", "cheaper on", "time each"), beside)


if __name__ == "__main__":
    main()
