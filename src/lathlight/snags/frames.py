"""Moulding frames: what crosses them, what they come too near to, and a pattern that does not look meant.

What could not be had is found where the frames are laid out (``lathlight.mouldings``); here it gets its words, one snag
for tiers that stand in line. Shapes and evenness are taste: worth knowing, unless they are far out. How a pattern lies
in the pictures is left to ``lathlight.snags.pattern``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.mouldings import FilledBay, FrameFinding, FrameTier, MouldingFrame, TiersInLine
    from lathlight.plan import Plan

FAMILY = "moulding frames"
TOUCH = 1e-6
NOTHING = 0.9  # [mm] room that is not worth a figure: less than either system's step
PLAINLY_UNEVEN = 2.0  # widths that differ by this many limits spoil the picture, our choice
OR_NONE = "Or leave them out on that wall (walls), or that stretch bare if it is meant."
KEEP_OFF_JOINTS = "State part_at_joints = true for the frames, or fill the joint anew at every set-up."


@check(
    name="joint-through-frame",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Moulding frame across a joint that is taken apart",
    why="a frame that is fixed to both flats breaks when they part",
    limit="no fixed frame across a joint",
    source=COMMON_PRACTICE,
    remedy="State part_at_joints = true for the frames so that they keep off the joints, or loose = true so that they "
    "come off for a move.",
)
def joint_through_frame(plan: Plan) -> Iterable[Finding]:
    """Find fixed frames over joints that part, one finding for tiers in line."""
    for group, worst, more in _told(plan, "joint"):
        yield _finding(group, worst, f"{_of(worst)} lies {length(worst.found, plan)} over {worst.with_what}{more}")


@check(
    name="seam-through-frame",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Seam inside a moulding frame",
    why="a frame draws the eye to the field in it, and filling and sanding the line flat takes time",
    limit="no seam inside a frame",
    source=COMMON_PRACTICE,
    remedy="Change the gap, or the wall's length, so that the seam lies under a moulding or between two frames, or "
    "fill and sand it before the frame goes on.",
)
def seam_through_frame(plan: Plan) -> Iterable[Finding]:
    """Find seams in the fields of frames, one finding for tiers in line."""
    joints = {joint.id for wall in plan.walls for joint in wall.joints}
    for group, worst, more in _told(plan, "seam"):
        where = f"{length(worst.found, plan)} inside a moulding frame of {listed(worst.tiers)} on wall {worst.wall}"
        if worst.with_what in joints:  # the frames come off for a move: the joint is no harm to them, but it shows
            yield _finding(group, worst, f"Joint {worst.with_what} shows {where}{more}", remedy=KEEP_OFF_JOINTS)
        else:
            yield _finding(group, worst, f"Seam {worst.with_what} lies {where}{more}")


@check(
    name="frame-too-near",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Moulding frame too near to a line, casing or corner",
    why="the two crowd each other, and it reads as a mistake",
    limit="{40 mm} clear of rails, casings, joints and corners",
    source=COMMON_PRACTICE,
    remedy="Move one of the two (bottom or top of the frames, height of the line), or change the frames' end_gap.",
)
def frame_too_near(plan: Plan) -> Iterable[Finding]:
    """Find frames without clear wall round them, one finding for tiers in line."""
    for group, worst, more in _told(plan, "clear"):
        if worst.found < -TOUCH:
            what = f"{_of(worst)} overlaps {worst.with_what} by {length(-worst.found, plan)}"
        else:
            found, wanted = lengths(abs(worst.found), worst.limit, plan)
            stands = f"stands {found} from" if worst.found > NOTHING else "stands right at"
            what = f"{_of(worst)} {stands} {worst.with_what} where {wanted} is wanted"
        yield _finding(group, worst, f"{what}{more}")


@check(
    name="no-room-for-frame",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="A stretch of wall without room for a moulding frame",
    why="it stays bare beside its neighbours",
    limit="the bought width, or four widths of the moulding, between the end gaps",
    source="common practice, no source; least width of a mitred frame: our choice",
    remedy="Take a smaller end_gap or a narrower frame, or leave the frames out on that wall (walls).",
)
def no_room_for_frame(plan: Plan) -> Iterable[Finding]:
    """Find stretches of wall without a frame, one finding a wall and tiers in line."""
    for group, worst, more in _told(plan, "no room", by_wall=True):
        found, needed = lengths(max(worst.found, 0.0), worst.limit, plan)
        left = found if worst.found > NOTHING else "nothing"
        what = f"The gaps leave {left} of wall {worst.wall} for {listed(worst.tiers)} where a frame takes {needed}"
        place, remedy = f"{worst.wall}/{name_of(group)}", f"{worst.remedy} {OR_NONE}"
        yield _finding(group, worst, f"{what}{more}", place=place, remedy=remedy)


@check(
    name="odd-frame",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="One odd moulding frame",
    why="one narrow frame among wide ones looks like what was left over",
    limit="no frame below 0.6 of the widest",
    source=COMMON_PRACTICE,
    remedy="Leave the frames out on that wall (walls), or change its length.",
)
def odd_frame(plan: Plan) -> Iterable[Finding]:
    """Find a frame that is far narrower than the others, one finding for tiers in line."""
    for group, worst, more in _told(plan, "odd"):
        bay = _bay_at(group, worst)
        width = f" {length(bay.pattern.width, plan)}" if bay is not None else ""
        frames = f"moulding frame of {listed(worst.tiers)} on wall {worst.wall}"
        yield _finding(
            group, worst, f"A{width} wide {frames} is {100 * worst.found:.0f} % of the widest{more}", unit=""
        )


@check(
    name="bought-frame-end-gap",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Bought moulding frames leave a wide gap at an end",
    why="the bare stretch at the end looks like a frame that is missing",
    limit="at most twice the wished gap at the end",
    source="our choice",
    remedy="Take another bought_width or gap, or frames mitred from lengths (no bought_width).",
)
def bought_frame_end_gap(plan: Plan) -> Iterable[Finding]:
    """Find end gaps of bought frames that are too wide, one finding for tiers in line."""
    for group, worst, more in _told(plan, "end gap"):
        found, most = lengths(worst.found, worst.limit, plan)
        tiers = f"Bought frames of {listed(worst.tiers)}"
        yield _finding(
            group, worst, f"{tiers} leave {found} at an end of wall {worst.wall} where {most} is the most{more}"
        )


@check(
    name="frames-uneven",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Widths of moulding frames differ over the set",
    why="on walls that meet, the eye compares them",
    limit="{25.4 mm} between the narrowest and the widest; above twice that it spoils the picture",
    source="common practice; twice that: our choice",
    remedy="Change the gap, a wall's length, or the walls that the frames are on (walls).",
)
def frames_uneven(plan: Plan) -> Iterable[Finding]:
    """Find visibly unequal widths, one finding for tiers in line."""
    for group, worst, _ in _told(plan, "uneven"):
        found, limit = lengths(worst.found, worst.limit, plan)
        kept = group.spread - group.spread_without_seams
        because = f", {length(kept, plan)} of which keeps frames off seams" if kept > worst.limit else ""
        yield _finding(
            group,
            worst,
            f"Moulding frames of {listed(worst.tiers)} differ by {found} in width over the set where {limit} "
            f"hardly shows{because}",
            severity=Severity.SPOILS if worst.found > PLAINLY_UNEVEN * worst.limit + TOUCH else None,
        )


@check(
    name="frames-slim-or-wide",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Moulding frames slimmer or wider than usual",
    why="such frames look stretched, though a tall room may want them",
    limit="one side at most 2.2 times the other",
    source=COMMON_PRACTICE,
    remedy="Change their height, the gap or the walls that they are on, if it shows in the pictures.",
)
def frames_slim_or_wide(plan: Plan) -> Iterable[Finding]:
    """Find frames of an unusual shape, one finding for tiers in line."""
    for group, worst, more in _told(plan, "shape"):
        bay = _bay_at(group, worst)
        if bay is None:
            continue
        height = max(t.height for t in group.tiers if t.name in worst.tiers)
        size = f"{length(bay.pattern.width, plan)} by {length(height, plan)} high"
        dodging = bay.unseamed != bay.pattern.count
        because = f"; {bay.unseamed} instead would put seams or joints inside frames" if dodging else ""
        yield _finding(
            group,
            worst,
            f"Moulding frames of {listed(worst.tiers)} on wall {worst.wall} are {size}, 1 to {worst.found:.2f} where "
            f"1 to {worst.limit:.2f} is the most{more}{because}",
            unit="",
            remedy="State part_at_joints = true or loose = true for them, so that wider frames keep off the joints."
            if dodging
            else None,
        )


@check(
    name="outer-gaps-differ",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Pattern centred on a picture leaves unequal ends",
    why="the pictures taken straight on gain, all others show the wall off balance",
    limit="{25.4 mm} between the gaps at the two ends of a wall",
    source=COMMON_PRACTICE,
    remedy="Set centre_on = 'wall', or move the sitter sideways by half the difference.",
)
def outer_gaps_differ(plan: Plan) -> Iterable[Finding]:
    """Find patterns that a picture pulls off the wall's middle, one finding for tiers in line."""
    for group, worst, more in _told(plan, "outer gaps"):
        bays = [b for b in group.bays if b.bay.wall == worst.wall and set(b.bay.tiers) >= set(worst.tiers)]
        widest = max(bays, key=lambda b: abs(b.pattern.ends[0] - b.pattern.ends[1]), default=None)
        if widest is None:
            continue
        left, right = (length(gap, plan) for gap in widest.pattern.ends)
        tiers = f"The pattern of {listed(worst.tiers)} on wall {worst.wall}"
        yield _finding(group, worst, f"{tiers} leaves {left} at its left end and {right} at its right{more}")


@check(
    name="tiers-not-in-line",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Tiers of moulding frames do not stand in line",
    why="the eye runs up from one tier to the next, and the step shows",
    limit="one gap, end gap, bought width and middle for tiers on one wall",
    source=COMMON_PRACTICE,
    remedy="Give the tiers one gap, end_gap, bought_width and centre_on, and the same wishes at joints.",
)
def tiers_not_in_line(plan: Plan) -> Iterable[Finding]:
    """Find tiers on one wall with other gaps, widths or middles, one finding a pair of tiers."""
    told = [f for f in _findings(plan) if f.kind == "not in line"]
    for pair in dict.fromkeys(f.tiers for f in told):
        walls = [f.wall for f in told if f.tiers == pair and f.wall is not None]
        named = f"wall {walls[0]}" if len(walls) == 1 else f"walls {listed(walls)}"
        yield Finding(
            place="|".join(pair),
            what=f"Moulding frames of {listed(pair)} do not stand in line on {named}",
            figure=float(len(walls)),
            limit=0.0,
            unit="",
        )


@check(
    name="frame-longer-than-stock",
    family=FAMILY,
    severity=Severity.STOPS,
    title="No length of moulding reaches along a frame's side",
    why="the side of a frame takes no joint, and no length on sale is long enough",
    limit="the moulding's longest length in the catalogue, less trim_cut",
    source="the profile's row in the catalogue",
    remedy="Give the moulding longer lengths in the catalogue, or make the frames lower or more of them.",
)
def frame_longer_than_stock(plan: Plan) -> Iterable[Finding]:
    """Find mitred frames with a side longer than the stock, one finding for tiers in line."""
    for group in groups_of(plan):
        over = [
            (max(frame.width, frame.height), longest, frame)
            for tier in group.tiers
            if tier.profile is not None and tier.bought_width is None
            for longest in (max(tier.profile.lengths, default=math.inf) - plan.brief.saw.trim_cut,)
            for frame in frames_of(plan, tier)
            if max(frame.width, frame.height) > longest + TOUCH
        ]
        if over:
            side, longest, frame = max(over, key=lambda each: each[0] - each[1])
            found, most = lengths(side, longest, plan)
            yield Finding(
                place=f"{frame.wall}/{name_of(group)}",
                what=f"A moulding frame of {frame.tier} on wall {frame.wall} has a side {found} long where the longest "
                f"length gives {most}{_more(len(over))}",
                figure=side,
                limit=longest,
            )


# --- what the checks share ---------------------------------------------------------------------------------------


def _findings(plan: Plan) -> tuple[FrameFinding, ...]:
    return () if plan.frames is None else plan.frames.findings


def groups_of(plan: Plan) -> tuple[TiersInLine, ...]:
    """Return the tiers that stand in line, together; none without moulding frames."""
    return () if plan.frames is None else plan.frames.in_line


def frames_of(plan: Plan, tier: FrameTier) -> list[MouldingFrame]:
    """Return the frames of a tier, along the walls."""
    return [] if plan.frames is None else [f for f in plan.frames.frames if f.tier == tier.name]


def name_of(group: TiersInLine) -> str:
    """Return the names of tiers in line as one: "upper|lower"."""
    return "|".join(tier.name for tier in group.tiers)


def _told(plan: Plan, kind: str, *, by_wall: bool = False) -> Iterator[tuple[TiersInLine, FrameFinding, str]]:
    """Yield the worst finding of a kind for all tiers in line (on each wall), and words for how many there are."""
    for group in groups_of(plan):
        own = {tier.name for tier in group.tiers}
        found = [f for f in _findings(plan) if f.kind == kind and set(f.tiers) <= own]
        for wall in dict.fromkeys(f.wall for f in found) if by_wall else (None,):
            here = [f for f in found if not by_wall or f.wall == wall]
            if here:
                yield group, max(here, key=lambda f: abs(f.found - f.limit)), _more(len(here))


def _more(number: int) -> str:
    return "" if number == 1 else f", the worst of {number} places"


def _of(found: FrameFinding) -> str:
    return f"A moulding frame of {listed(found.tiers)} on wall {found.wall}"


def _bay_at(group: TiersInLine, found: FrameFinding) -> FilledBay | None:
    """Return the bay whose first frame a finding tells of."""
    here = (b for b in group.bays if b.bay.wall == found.wall and b.pattern.lefts[0] == found.at)
    return next(here, None)


def _finding(
    group: TiersInLine,
    found: FrameFinding,
    what: str,
    *,
    unit: str = "mm",
    place: str | None = None,
    severity: Severity | None = None,
    remedy: str | None = None,
) -> Finding:
    own = name_of(group) if found.wall is None else f"{found.wall}/{name_of(group)}"
    return Finding(
        place=place or own,
        what=what,
        figure=found.found,
        limit=found.limit,
        unit=unit,
        severity=severity,
        remedy=remedy,
        inputs=(("at", found.at, "mm"),) if found.at is not None else (),
    )


CHECKS: tuple[Check, ...] = (
    frame_longer_than_stock,
    joint_through_frame,
    frame_too_near,
    no_room_for_frame,
    odd_frame,
    bought_frame_end_gap,
    seam_through_frame,
    frames_uneven,
    outer_gaps_differ,
    tiers_not_in_line,
    frames_slim_or_wide,
)
