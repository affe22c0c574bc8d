"""Marking out: heights from one level line, the same lines for flats lying down, and the story stick."""

from lathlight.marking.figures import plan_marking
from lathlight.marking.heights import FRAME, edges_of, flat_marks, frame_marks, wall_marks
from lathlight.marking.level_line import choose_level_line
from lathlight.marking.model import (
    FlatMark,
    FrameMark,
    HeightMark,
    LevelLine,
    MarkedFlat,
    MarkedFrame,
    MarkedLine,
    MarkedWall,
    MarkingJob,
    MarkingOut,
    StickMark,
    StoryStick,
)
from lathlight.marking.story_stick import make_stick

__all__ = [
    "FRAME",
    "FlatMark",
    "FrameMark",
    "HeightMark",
    "LevelLine",
    "MarkedFlat",
    "MarkedFrame",
    "MarkedLine",
    "MarkedWall",
    "MarkingJob",
    "MarkingOut",
    "StickMark",
    "StoryStick",
    "choose_level_line",
    "edges_of",
    "flat_marks",
    "frame_marks",
    "make_stick",
    "plan_marking",
    "wall_marks",
]
