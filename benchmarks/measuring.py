"""What the benchmarks share: medians, the machine's name, made-up sets of any number of walls."""

from __future__ import annotations

import platform
import statistics
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ROOT = Path(__file__).resolve().parent.parent
EXAMPLES = ROOT / "examples"
DEMOS = ("corner-metric", "corner-imperial", "parlour", "schoolhall")


def machine() -> str:
    """Return what the figures were taken on."""
    return f"Python {platform.python_version()}, {platform.system()} {platform.machine()}"


def seconds(work: Callable[[], object], *, runs: int) -> float:
    """Return the median time of some runs [s]."""
    taken: list[float] = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def python(*arguments: str) -> None:
    """Run the interpreter on something; fail where it fails."""
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True)


def set_of_walls(count: int) -> str:
    """Return a project file of so many walls along a widening spiral; every third has a door."""
    lines = [
        '[project]\ntitle = "growth"\nunits = "metric"',
        "[room]\nwidth = 900000\ndepth = 900000\nceiling = 3000",
        '[set]\nheight = 2400\nsheet = "ply 9 mm"\nframing = "38x38"',
    ]
    for i in range(count):
        lines.append(f'[[walls]]\nname = "wall {i + 1}"\nlength = {1500 + i}')
        if i < count - 1:
            lines.append(f"angle_to_next = {(179, 178)[i % 2]}")
        if i % 3 == 0:
            lines.append('[[walls.openings]]\nname = "door"\nkind = "door"\nat = 600\nwidth = 800\nheight = 2000')
    return "\n".join(lines) + "\n"


def table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Print a table that can be pasted into the docs."""
    print("| " + " | ".join(header) + " |")
    print("| " + " | ".join("---" for _ in header) + " |")
    for row in rows:
        print("| " + " | ".join(row) + " |")
