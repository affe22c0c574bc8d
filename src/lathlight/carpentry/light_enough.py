"""A wall whose flats keep the weight limit as built.

Flats are split by an estimate of their weight. Where one comes out too heavy all the same, this module decides how the
wall is divided again: for a smaller weight, and at last in height.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.carpentry.walls import build_wall
from lathlight.units import snap_up

if TYPE_CHECKING:
    from lathlight.carpentry.jobs import WallJob
    from lathlight.carpentry.model import BuiltWall

STRICTER = ((0.95, 1), (0.88, 1), (0.8, 1), (0.95, 2), (0.8, 2), (0.95, 3))  # shares of the weight limit, storeys


def build_light_wall(job: WallJob) -> BuiltWall:
    """Return the wall as built; the lightest of its divisions where none keeps the weight limit.

    Raises
    ------
    InputError
        An opening that cannot be framed: it leaves no timber beside, above or below it.
    """
    wall = build_wall(job)
    for share, storeys in STRICTER:
        if _heaviest(wall) <= job.max_weight:
            return wall
        trial = build_wall(_stricter(job, share, storeys))
        if _heaviest(trial) < _heaviest(wall):
            wall = trial
    return wall


def _stricter(job: WallJob, share: float, storeys: int) -> WallJob:
    """Return the job with a smaller weight to keep, in one storey or in several of equal height."""
    lower = snap_up(min(job.wall.height, job.max_height) / storeys, job.grid)
    return replace(
        job,
        sheeting=None,
        max_weight=job.max_weight * share,
        max_height=job.max_height if storeys == 1 else lower,
    )


def _heaviest(wall: BuiltWall) -> float:
    return max(flat.weight.value for flat in wall.flats)
