"""The fixing of a whole set from what it follows from: sheets, mouldings, joints, corners, bumpers, glue, counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.fixing.behind import behind
from lathlight.fixing.bumpers import place_bumpers
from lathlight.fixing.counts import Fixed, glues_of, hardware_of, takeoff_of
from lathlight.fixing.frame_hardware import frame_hardware
from lathlight.fixing.gluing import plan_gluing
from lathlight.fixing.joints import fix_corner, fix_joint
from lathlight.fixing.model import FixingPlan
from lathlight.fixing.sheets import fix_sheets
from lathlight.fixing.strip_fixing import fix_strips

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.carpentry import BuiltWall
    from lathlight.fixing.model import (
        CornerFixing,
        FixingFinding,
        FixingJob,
        JointFixing,
        Point,
        SheetFixing,
        StripFixing,
    )
    from lathlight.mouldings import Strip


def plan_fixing(job: FixingJob) -> FixingPlan:
    """Return how everything of a set is held.

    Sheets are glued and screwed where mouldings hide the heads, or screwed or pinned all round; mouldings are glued
    and bradded, or screwed where they come off; flats and corners get their hardware, and temporary brackets low and
    high. What would go wrong stands in the findings, wall by wall.
    """
    by_wall: dict[str, list[Strip]] = {}
    for strip in job.strips:
        by_wall.setdefault(strip.wall, []).append(strip)
    sheets: list[SheetFixing] = []
    strips: list[StripFixing] = []
    findings: list[FixingFinding] = []
    for wall in job.walls:
        own_sheets, own_strips, own_findings = _wall(job, wall, by_wall.get(wall.name, []))
        sheets += own_sheets
        strips += own_strips
        findings += own_findings
    joints, corners, in_joints = _joined(job)
    flats = tuple(flat for wall in job.walls for flat in wall.flats)
    fixed = Fixed(
        flats=flats,
        sheets=tuple(sheets),
        strips=tuple(strips),
        joints=joints,
        corners=corners,
        bumpers=place_bumpers(job.walls, job.layout, room=job.room, pillars=job.pillars),
        busiest=(days := plan_gluing(sheets, hours_a_day=job.hours_a_day)).busiest,
        rules=job.rules,
        frames=frame_hardware(flats, job.corners, corners, job.fittings),
    )
    glues = glues_of(fixed)
    return FixingPlan(
        sheets=fixed.sheets,
        strips=fixed.strips,
        joints=joints,
        corners=corners,
        bumpers=fixed.bumpers,
        rounds=days.rounds,
        busiest=days.busiest,
        glues=glues,
        hardware=hardware_of(fixed),
        takeoff=takeoff_of(fixed, glues),
        findings=(*findings, *in_joints),
        why_rounds=days.why,
    )


def _wall(
    job: FixingJob, wall: BuiltWall, strips: list[Strip]
) -> tuple[list[SheetFixing], Iterable[StripFixing], list[FixingFinding]]:
    done = [fix_sheets(flat, _beside(strips, flat.sheet_x0, flat.sheet_x1), job.rules) for flat in wall.flats]
    taken: dict[str, list[Point]] = {}
    for head in (h for flat in done for sheet in flat.sheets for h in sheet.heads):
        if head.hidden_by is not None:
            taken.setdefault(head.hidden_by, []).append(head.at)
    mouldings = fix_strips(strips, behind(wall), job.rules, taken=taken)
    return (
        [sheet for flat in done for sheet in flat.sheets],
        mouldings.strips,
        [*(each for flat in done for each in flat.findings), *mouldings.findings],
    )


def _beside(strips: list[Strip], x0: float, x1: float) -> list[Strip]:
    return [s for s in strips if s.x0 < x1 and s.x1 > x0]


def _joined(job: FixingJob) -> tuple[tuple[JointFixing, ...], tuple[CornerFixing, ...], list[FixingFinding]]:
    walls = {wall.name: wall for wall in job.walls}
    joints: list[JointFixing] = []
    corners: list[CornerFixing] = []
    findings: list[FixingFinding] = []
    for wall in job.walls:
        flats = {flat.name: flat for flat in wall.flats}
        for joint in wall.joints:
            fixed, found = fix_joint(joint, flats, job.rules, job.grid)
            joints.append(fixed)
            findings += found
    for corner in job.corners:
        held, found = fix_corner(corner, walls, job.rules, job.grid)
        corners.append(held)
        findings += found
    return tuple(joints), tuple(corners), findings
