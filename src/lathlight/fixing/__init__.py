"""How sheets, mouldings and flats are held: screws, pins, glue, brads, clamping, joining hardware."""

from lathlight.fixing.bumpers import NEARER, place_bumpers
from lathlight.fixing.model import (
    Bumper,
    CornerFixing,
    FixingFinding,
    FixingJob,
    FixingPlan,
    GlueRound,
    HardwareCount,
    Head,
    JointFixing,
    SheetFixing,
    StripFixing,
)
from lathlight.fixing.whole import plan_fixing

__all__ = [
    "NEARER",
    "Bumper",
    "CornerFixing",
    "FixingFinding",
    "FixingJob",
    "FixingPlan",
    "GlueRound",
    "HardwareCount",
    "Head",
    "JointFixing",
    "SheetFixing",
    "StripFixing",
    "place_bumpers",
    "plan_fixing",
]
