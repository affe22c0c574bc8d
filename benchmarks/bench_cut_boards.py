"""Somebody waits for the saw list: boards cut to proven cost, beside two classic rules and two general solvers.

Each plan is replayed and each bound shown again before it counts. The instances are read where they lie
(``--data``, by default ``../shared/data/cutting``); the samples are named in ``samples_boards_*.txt``.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from board_peers import arc_flow, cp_sat, decreasing
from lathlight.cutting import BoardJob, BoardPlan, Piece, Stock, check_boards, recheck, solve_boards
from measuring import ROOT, machine, table

HERE = Path(__file__).resolve().parent
TIERS = {"easy and medium": ("T1", "T2"), "hard": ("T3",), "very hard": ("T4", "T5")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One job, solved."""

    name: str
    job: BoardJob
    plan: BoardPlan
    taken: float
    optimum: int | None = None

    @property
    def good(self) -> bool:
        """True where the plan can be sawn and the bound was shown again."""
        again = recheck(self.job, self.plan.proof, bound=self.plan.lower_bound)
        return not check_boards(self.job, self.plan) and again == self.plan.lower_bound


def read_job(row: dict[str, Any], *, half: bool = False) -> BoardJob:
    """Return an instance as a job; on request with prices rounded to 0.50."""
    stocks = row.get("stocks") or [{"length": row["capacity"], "price": 1, "limit": None}]
    return BoardJob(
        pieces=tuple(Piece(length=length, count=count) for length, count in row["items"]),
        stocks=tuple(
            Stock(
                length=s["length"],
                price=50 * round(s["price"] / 50) if half else s["price"],
                limit=s["limit"],
                offcut=s.get("offcut", False),
            )
            for s in stocks
        ),
        kerf=row.get("kerf", 0),
    )


def solve(name: str, job: BoardJob, *, seconds: float, optimum: int | None = None) -> Run:
    start = time.perf_counter()
    plan = solve_boards(job, clock=seconds)
    return Run(name=name, job=job, plan=plan, taken=time.perf_counter() - start, optimum=optimum)


def realistic(data: Path, *, half: bool, seconds: float) -> list[Run]:
    wanted = set((HERE / "samples_boards_realistic.txt").read_text().split())
    lines = (data / "realistic" / "real1d.jsonl").read_text().splitlines()
    rows = [row for row in map(json.loads, lines) if row["id"] in wanted]
    return [solve(row["id"], read_job(row, half=half), seconds=seconds) for row in rows]


def published(data: Path, *, tiers: tuple[str, ...], seconds: float) -> list[Run]:
    lines = (HERE / "samples_boards_published.txt").read_text().splitlines()
    wanted = {tuple(line.split()) for line in lines if not line.startswith("#")}
    files = sorted((data / "1d_single").glob("*.jsonl"))
    rows = [json.loads(line) for file in files for line in file.read_text().splitlines()]
    chosen = [row for row in rows if (row["set"], row["id"]) in wanted and row["tier"][:2] in tiers]
    return [solve(row["id"], read_job(row), seconds=seconds, optimum=row["optimum"]) for row in chosen]


def summary(name: str, runs: list[Run]) -> list[str]:
    known = [run for run in runs if run.optimum is not None]
    return [
        name,
        str(len(runs)),
        str(sum(run.good for run in runs)),
        f"{sum(run.plan.proven for run in runs)} ({sum(run.plan.proven for run in runs) / len(runs):.0%})",
        f"{max(run.plan.gap for run in runs):.2%}",
        f"{sum(run.plan.cost == run.optimum for run in known)} of {len(known)}" if known else "-",
        f"{statistics.median(run.taken for run in runs):.3f}",
        f"{max(run.taken for run in runs):.2f}",
    ]


def beside_peers(runs: list[Run], *, count: int, seconds: float) -> list[list[str]]:
    """Return a row a peer: how much dearer, how often cheaper than the plan (never), how often proven."""
    rows: list[list[str]] = []
    step = max(1, len(runs) // count) if count else len(runs)
    for name, few, peer in (
        ("first-fit decreasing", runs, lambda job: (decreasing(job, best=False), 0.0)),
        ("best-fit decreasing", runs, lambda job: (decreasing(job, best=True), 0.0)),
        (f"arc-flow MIP, HiGHS, {seconds:g} s", runs[::step][:count], lambda job: arc_flow(job, seconds=seconds)),
        (f"CP-SAT, {seconds:g} s", runs[::step][:count], lambda job: cp_sat(job, seconds=seconds)),
    ):
        pairs = [(run, *peer(run.job)) for run in few]
        found = [(run, cost) for run, cost, _ in pairs if math.isfinite(cost)]
        if pairs:
            dearer = statistics.mean(cost / run.plan.cost - 1 for run, cost in found) if found else math.nan
            proven = sum(math.isfinite(cost) and bound >= cost - 0.5 for _, cost, bound in pairs)
            cheaper = sum(cost < run.plan.cost - 0.5 for run, cost in found)
            rows.append([name, str(len(pairs)), str(len(found)), f"{dearer:.2%}", str(cheaper), str(proven)])
    return rows


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, default=ROOT.parent / "shared" / "data" / "cutting")
    parser.add_argument("--peers", type=int, default=12, help="jobs that the general solvers get")
    parser.add_argument("--tiers", nargs="*", default=["easy and medium"], choices=list(TIERS))
    asked = parser.parse_args()
    print(machine())
    cents = realistic(asked.data, half=False, seconds=3.0)
    rows = [summary("realistic, penny prices, 3 s", cents)]
    rows.append(summary("realistic, prices rounded to 0.50, 3 s", realistic(asked.data, half=True, seconds=3.0)))
    rows += [
        summary(f"published, {tier}, 10 s", published(asked.data, tiers=TIERS[tier], seconds=10.0))
        for tier in asked.tiers
    ]
    head = (
        "work",
        "jobs",
        "replayed and shown again",
        "proven",
        "largest gap",
        "at the optimum",
        "median, s",
        "most, s",
    )
    table(head, rows)
    print()
    head = ("peer, penny prices", "jobs", "with a plan", "dearer on average", "cheaper than the plan", "proven")
    table(head, beside_peers(cents, count=asked.peers, seconds=4.0))


if __name__ == "__main__":
    main()
