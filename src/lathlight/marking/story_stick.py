"""The story stick: one strip with every height of the set, held to the level line.

Its foot is the finished floor where that is highest, so that it never has to touch it; equal heights share one mark.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.marking.level_line import STEPS
from lathlight.marking.model import StickMark, StoryStick
from lathlight.units import snap, snap_up
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.marking.model import HeightMark, LevelLine
    from lathlight.units import LengthStyle

BEYOND = 20.0  # least that the stick runs past its highest mark [mm], our choice


def make_stick(heights: Sequence[HeightMark], level: LevelLine, grid: LengthStyle) -> StoryStick:
    """Story stick with the marks of all walls.

    Parameters
    ----------
    heights
        What is marked on the walls.
    level
        The level line, which is a mark of its own.
    grid
        What the stick's length is rounded up to, in the level line's own steps.
    """
    at = sorted({mark.height for mark in heights})
    marks = tuple(
        StickMark(at=height, offset=snap(height - level.height, grid), names=_names_at(heights, height))
        for height in at
    )
    step = STEPS[grid.system]
    highest = max(level.height, *at) if at else level.height
    length = snap_up(-(-(highest + BEYOND) // step) * step, grid)
    why = Working(
        formula="the highest mark and a little more, in whole steps",
        inputs=(("highest mark", highest, "mm"), ("least beyond it", BEYOND, "mm"), ("step", step, "mm")),
        source=COMMON_PRACTICE,
    )
    return StoryStick(marks=marks, length=length, level=level.height, why=why)


def _names_at(heights: Sequence[HeightMark], height: float) -> tuple[str, ...]:
    """Return what lies at a height; with its walls where the same edge lies elsewhere on another wall."""
    found: list[str] = []
    for mark in heights:
        if mark.height != height:
            continue
        same = [other for other in heights if (other.name, other.edge) == (mark.name, mark.edge)]
        words = f"{mark.name}, {mark.edge}"
        if len({other.height for other in same}) > 1:
            words += f" ({', '.join(dict.fromkeys(other.wall for other in same if other.height == height))})"
        found.append(words)
    return tuple(dict.fromkeys(found))
