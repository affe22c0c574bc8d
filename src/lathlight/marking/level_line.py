"""Where the level line lies: at a handy height that is clear of all that will be fixed or ends there.

Heights here count from the finished floor. Openings break the line and do not move it: a laser or a water level passes
them. What is marked from the line is left to ``lathlight.marking.heights``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.marking.model import LevelLine
from lathlight.units import drawing_length, snap
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.marking.model import MarkedWall, MarkingJob

INCH = 25.4  # [mm]
HANDY = {"metric": 1000.0, "imperial": 42 * INCH}  # hip to chest height [mm], common practice, no source
STEPS = {"metric": 50.0, "imperial": 2 * INCH}  # by which it moves [mm], our choice
CLEAR = 30.0  # least distance from an edge [mm]: pencil, tape and rule keep apart, common practice, no source
LOWEST, HIGHEST = 600.0, 1500.0  # still handy for tape and eye [mm], common practice, no source


@dataclass(frozen=True, slots=True)
class _Band:
    """What the line keeps clear of, from its bottom to its top [mm above the finished floor]."""

    low: float
    high: float
    what: str

    def away(self, height: float) -> float:
        """Return how far a height lies from the band; 0 within it."""
        return max(self.low - height, height - self.high, 0.0)


def choose_level_line(job: MarkingJob) -> LevelLine:
    """Level line for a set.

    Parameters
    ----------
    job
        The walls with their lines, frames, flats and openings.

    Returns
    -------
    LevelLine
        The clear height nearest to the handy one; of two as near, the higher. Where none between `LOWEST` and `HIGHEST`
        is clear, the one that is clearest; where a wall is too low for any of these, one that lies on it.
    """
    handy, bands = HANDY[job.grid.system], _bands(job)
    lowest_top = min(wall.height for wall in job.walls) - job.rise
    heights = _candidates(handy, STEPS[job.grid.system], lowest_top)
    usual = [h for h in heights if LOWEST <= h <= HIGHEST] or heights or [lowest_top / 2]
    clear = [h for h in usual if all(band.away(h) >= CLEAR for band in bands)]
    best = clear[0] if clear else max(usual, key=lambda h: min((band.away(h) for band in bands), default=0.0))
    height = snap(best, job.grid)
    return LevelLine(
        height=height, above_foot=height + job.rise, why=_why(job, handy, height, bands, clear=bool(clear))
    )


def _candidates(handy: float, step: float, lowest_top: float) -> list[float]:
    """Return heights step by step from the handy one, the nearest first, that lie on every wall."""
    most = int(max(handy, lowest_top) / step) + 1
    heights = [handy + sign * k * step for k in range(most + 1) for sign in ((1, -1) if k else (1,))]
    return [h for h in heights if CLEAR <= h <= lowest_top - CLEAR]


def _bands(job: MarkingJob) -> list[_Band]:
    """Return all that the line keeps clear of, wall by wall."""
    return [_Band(low - job.rise, high - job.rise, what) for wall in job.walls for low, high, what in _edges(wall)]


def _edges(wall: MarkedWall) -> list[tuple[float, float, str]]:
    found = [(line.bottom, line.top, line.name) for line in wall.lines]
    found += [(z, z, line.name) for line in wall.lines for z in [line.backing] if z is not None]
    found += [(z, z, frame.tier) for frame in wall.frames for z in (frame.bottom, frame.top)]
    found += [(z, z, "an opening's edge") for z in wall.sills]
    found += [(flat.foot, flat.foot, "a level joint") for flat in wall.flats if flat.foot > 0]
    return found


def _why(job: MarkingJob, handy: float, height: float, bands: Sequence[_Band], *, clear: bool) -> Working:
    moved = [band.what for band in bands if band.away(handy) < CLEAR]
    least = drawing_length(snap(CLEAR, job.grid), style=job.grid)
    if height == snap(handy, job.grid) and clear:
        formula = f"a handy height, clear of every edge by {least}"
    elif clear:
        formula = f"the height nearest to the handy one that is clear of every edge by {least} and lies on every wall"
    else:
        formula = f"no height in reach is clear of every edge by {least}: the clearest"
    reasons = [("it would lie at", ", ".join(sorted(set(moved))), "")] if moved else []
    return Working(formula=formula, inputs=(("handy height", handy, "mm"), *reasons), source=COMMON_PRACTICE)
