"""Marking out of a whole set: the level line, every wall, every flat lying down, the story stick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.marking.heights import flat_marks, frame_marks, wall_marks
from lathlight.marking.level_line import choose_level_line
from lathlight.marking.model import MarkingOut
from lathlight.marking.story_stick import make_stick

if TYPE_CHECKING:
    from lathlight.marking.model import MarkingJob


def plan_marking(job: MarkingJob) -> MarkingOut:
    """Return the marking out of a set.

    Parameters
    ----------
    job
        At least one wall; lengths in wall axes [mm].

    Notes
    -----
    Heights are measured from one level line, never from the floor. Each figure is rounded once, from its own start.
    """
    level = choose_level_line(job)
    heights = tuple(mark for wall in job.walls for mark in wall_marks(wall, level, job))
    flats = tuple(mark for wall in job.walls for flat in wall.flats for mark in flat_marks(wall, flat, job))
    return MarkingOut(
        level=level,
        rise=job.rise,
        heights=heights,
        flats=flats,
        frames=tuple(mark for wall in job.walls for flat in wall.flats for mark in frame_marks(wall, flat, job)),
        stick=make_stick(heights, level, job.grid),
        most_left=max((abs(mark.rest) for mark in (*heights, *flats)), default=0.0),
    )
