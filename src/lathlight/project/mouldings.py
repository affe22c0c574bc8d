"""Lines and frames of moulding as the file wishes them, with their heights above the foot of the flats.

How frames are shared out along a wall, where pieces are cut and how they meet is left to ``lathlight.mouldings``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import drop
from lathlight.project.brief import FramesBrief, TrimLine
from lathlight.project.defaults import usual
from lathlight.units import snap
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.project.defaults import Filled
    from lathlight.project.known import Known
    from lathlight.project.model import MouldingFrames, Trim, Wall


def trim_lines(known: Known, wall: Wall, *, height: float) -> tuple[TrimLine, ...]:
    """Return the lines of moulding that run on a wall of this height [mm], bottom to top."""
    lines = [
        _trim_line(known, trim, height) for trim in known.project.trim if wall.trim is None or trim.name in wall.trim
    ]
    return tuple(sorted(lines, key=lambda line: (line.top, line.name)))


def keep_unstated_of_trim(known: Known, filled: Filled) -> None:
    """Keep why each line of moulding is worked as it is where the file does not say."""
    for trim in known.project.trim:
        own = filled.within(f"trim/{trim.name}")
        own.unstated(trim, "inside", usual("way to meet in inside corners", trim.inside))
        own.unstated(trim, "ends", usual("end that is seen, turned back to the wall", trim.ends))


def _trim_line(known: Known, trim: Trim, height: float) -> TrimLine:
    """Return a line: a base without height stands on the finished floor, a cornice ends at the wall's top."""
    covers = drop(known.catalog.profiles[trim.profile])
    top = height if trim.kind == "cornice" else known.rise + covers
    if trim.height is not None:
        top = known.raised(trim.height)
    return TrimLine(
        name=trim.name,
        kind=trim.kind,
        profile=trim.profile,
        top=top,
        bottom=max(top - covers, known.rise),
        loose=trim.loose,
        inside=trim.inside,
        ends=trim.ends,
    )


def frames_briefs(known: Known, filled: Filled) -> tuple[FramesBrief, ...]:
    """Return the tiers of moulding frames as wished, in the order of the file."""
    return tuple(
        _tier(known, tier, filled.within(f"moulding_frames/{tier.name}")) for tier in known.project.moulding_frames
    )


def _tier(known: Known, tier: MouldingFrames, filled: Filled) -> FramesBrief:
    if tier.end_gap is None:
        formula = "the same as the gap between neighbours, as that comes out"
        filled.keep("end_gap", Working(formula=formula, source=COMMON_PRACTICE, value="as the gap"))
    filled.unstated(tier, "centre_on", usual("centre of the pattern, the wall's", tier.centre_on))
    return FramesBrief(
        name=tier.name,
        profile=known.catalog.profiles[tier.profile],
        bottom=known.raised(tier.bottom),
        top=known.raised(tier.top),
        gap=snap(tier.gap, known.style),
        end_gap=None if tier.end_gap is None else snap(tier.end_gap, known.style),
        bought_width=None if tier.bought_width is None else snap(tier.bought_width, known.style),
        centre_on=tier.centre_on,
        walls=tier.walls,
        part_at_joints=tier.part_at_joints,
        loose=tier.loose,
    )
