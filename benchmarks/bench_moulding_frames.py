"""Somebody changes a gap: moulding frames laid out anew on invented sets like the demos, and on more and more walls.

Baseline in the same run: trying every set of numbers in plain loops (``itertools.product``), where that ends today.
Quality beside time: the spread of widths that both find.
"""

from __future__ import annotations

import itertools
import math

from lathlight.mouldings.frame_bays import Block, FrameTier, FrameWall, SeamLine, TrimBand
from lathlight.mouldings.moulding_frames import MouldingFramesJob, lay_out_frames
from lathlight.units import LengthStyle
from measuring import machine, seconds, table

MOST_PATTERNS = 2_000_000  # the baseline is left out above this
INCH = 25.4
HEIGHT = 2440.0
PANELS = FrameTier(name="panels", moulding=30.0, bottom=300.0, top=1850.0, gap=120.0)


def bay_set() -> MouldingFramesJob:
    """Return a splayed bay of three walls with two joints."""
    joints = tuple(SeamLine(name=str(x), left=x, right=x, bottom=0.0, top=HEIGHT, parts=True) for x in (890.0, 2110.0))
    lengths = (("left", 1220.0, ()), ("back", 3000.0, joints), ("right", 1220.0, ()))
    walls = tuple(FrameWall(name=n, start=0.0, end=length, height=HEIGHT, seams=s) for n, length, s in lengths)
    return MouldingFramesJob(walls=walls, tiers=(PANELS,), grid=LengthStyle.metric())


def window_wall() -> MouldingFramesJob:
    """Return one wall with a window and two tiers in line."""
    window = Block(name="window", left=53.5 * INCH, right=90.5 * INCH, bottom=33.5 * INCH, top=78.5 * INCH)
    rail = TrimBand(name="rail", bottom=29.4 * INCH, top=32 * INCH)
    wall = FrameWall(name="back", start=0.0, end=144 * INCH, height=96 * INCH, blocks=(window,), bands=(rail,))
    low = FrameTier(name="low", moulding=30.0, bottom=6 * INCH, top=26 * INCH, gap=4 * INCH)
    high = FrameTier(name="high", moulding=30.0, bottom=36 * INCH, top=84 * INCH, gap=4 * INCH)
    return MouldingFramesJob(walls=(wall,), tiers=(low, high), grid=LengthStyle.imperial())


def many_walls(count: int) -> MouldingFramesJob:
    """Return so many walls, no two alike."""
    walls = tuple(FrameWall(name=str(n), start=0.0, end=1500.0 + 137.0 * n % 2900, height=HEIGHT) for n in range(count))
    return MouldingFramesJob(walls=walls, tiers=(PANELS,), grid=LengthStyle.metric())


def plain(job: MouldingFramesJob) -> float:
    """Return the least spread beyond an inch, by trying every set of numbers: free walls, mitred frames [mm]."""
    return min(max(0.0, max(pick) - min(pick) - INCH) for pick in itertools.product(*plain_widths(job)))


def plain_widths(job: MouldingFramesJob) -> list[list[float]]:
    """Return for each wall the widths that its numbers of frames give [mm]."""
    (tier,) = job.tiers
    slim = tier.height / job.rules.slimmest
    found = [[(w.end - tier.gap * (n + 1)) / n for n in range(1, 40)] for w in job.walls]
    return [[width for width in widths if width >= slim] for widths in found]


def main() -> None:
    print(machine())
    rows: list[list[str]] = []
    for name, job, free in (
        ("splayed bay, joints", bay_set(), False),
        ("window wall, two tiers", window_wall(), False),
        *((f"{count} walls", many_walls(count), True) for count in (1, 3, 6, 10, 100)),
    ):
        runs = 5 if len(job.walls) < 100 else 1
        taken = seconds(lambda job=job: lay_out_frames(job), runs=runs)
        (group,) = lay_out_frames(job).in_line
        row = [name, str(len(group.bays)), f"{taken * 1e3:.2f}", str(group.windows), f"{group.spread:.1f}"]
        if free and math.prod(map(len, plain_widths(job))) <= MOST_PATTERNS:
            slow = seconds(lambda job=job: plain(job), runs=1)
            same = abs(plain(job) - max(0.0, group.spread - INCH)) < 1e-5
            row += [f"{slow * 1e3:.2f}", f"{slow / taken:.1f}", "yes" if same else "NO"]
        else:
            row += ["-", "-", "-"]
        rows.append(row)
    table(
        (
            "set",
            "bays",
            "layout, ms",
            "windows",
            "spread, mm",
            "plain loops, ms",
            "ratio",
            "same spread beyond an inch",
        ),
        rows,
    )


if __name__ == "__main__":
    main()
