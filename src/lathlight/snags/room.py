"""The set in its room: too large for it, through what stands there, in the way, or with no room behind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.passage import UNDER_CEILING
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.ground import apart, gap_behind, outside, overlap, sides, strips
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.plan import Plan
    from lathlight.project import ClearArea
    from lathlight.snags.ground import Segment, Strip

FAMILY = "the room"
LAID_OUT = 1.0  # the floor is marked out no finer [mm]
BEHIND = 450.0  # body space to work behind a wall [mm], common practice
EXIT_LEAST = 711.0  # 28 in: width of exit access quoted from one US rule, 29 CFR 1910.36(g)(2) [mm]
EXIT_WANTED = 1200.0  # route to an exit on professional stages [mm]


@check(
    name="set-larger-than-room",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Set reaches outside the room",
    why="it cannot stand there",
    limit="sheet, frame and corner plates inside the room's outline, to {1 mm}",
    source="outline of the room in the project file",
    remedy="Shorten the wall, turn or move the set ([set] at, turn), or close its corners.",
)
def set_larger_than_room(plan: Plan) -> Iterable[Finding]:
    """Find walls that reach outside the room."""
    for strip in strips(plan):
        beyond = outside(strip.outline, plan.brief.room.outline)
        if beyond > LAID_OUT:
            yield Finding(
                place=strip.wall,
                what=f"Wall {strip.wall} reaches {length(beyond, plan)} outside the room",
                figure=beyond,
                limit=0.0,
                inputs=(("length", strip.length, "mm"), ("depth", strip.depth, "mm")),
            )


@check(
    name="set-through-pillar",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Wall runs through a pillar",
    why="it cannot stand there",
    limit="no overlap, to {1 mm}",
    source="pillars in the project file",
    remedy="Move or turn the set, or split the wall so that it passes in front of the pillar.",
)
def set_through_pillar(plan: Plan) -> Iterable[Finding]:
    """Find walls that run through pillars."""
    for strip, area, depth in _overlaps(plan, plan.brief.room.pillars):
        yield Finding(
            place=f"{strip.wall}/{area.name}",
            what=f"Wall {strip.wall} runs through {area.name} and would have to move by {length(depth, plan)}",
            figure=depth,
            limit=0.0,
        )


@check(
    name="over-keep-clear",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Wall stands over a place that is kept clear",
    why="exits, panels, heaters, alarms and extinguishers have to stay within reach; local rules govern",
    limit="no overlap, to {1 mm}",
    source="keep-clear areas in the project file",
    remedy="Move or turn the set, or shorten the wall.",
)
def over_keep_clear(plan: Plan) -> Iterable[Finding]:
    """Find walls over keep-clear areas."""
    for strip, area, depth in _overlaps(plan, plan.brief.room.keep_clear):
        reason = f" ({area.why})" if area.why else ""
        yield Finding(
            place=f"{strip.wall}/{area.name}",
            what=f"Wall {strip.wall} stands over {area.name}{reason} and would have to move by {length(depth, plan)}",
            figure=depth,
            limit=0.0,
        )


def _overlaps(plan: Plan, areas: Sequence[ClearArea]) -> Iterator[tuple[Strip, ClearArea, float]]:
    if not areas:
        return
    for strip in strips(plan):
        for area in areas:
            depth = overlap(strip.outline, area.outline)
            if depth > LAID_OUT:
                yield strip, area, depth


@check(
    name="wall-over-ceiling",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Wall too high for the room",
    why="it cannot stand up there",
    limit="the ceiling less {20 mm}, and less the floor covering where flats stand on it",
    source=COMMON_PRACTICE,
    remedy="Lower the wall.",
)
def wall_over_ceiling(plan: Plan) -> Iterable[Finding]:
    """Find walls that reach the ceiling."""
    floor = plan.brief.floor
    under = floor.thickness - floor.rise if floor.covering != "none" else 0.0  # flats that stand on it stand higher
    limit = plan.brief.room.ceiling - UNDER_CEILING - under
    for wall in plan.walls:
        if wall.height > limit + 1e-6:
            found, wanted = lengths(wall.height, limit, plan)
            yield Finding(
                place=wall.name,
                what=f"Wall {wall.name} is {found} high where the ceiling leaves {wanted}",
                figure=wall.height,
                limit=limit,
                inputs=(("ceiling", plan.brief.room.ceiling, "mm"), ("covering under the wall", under, "mm")),
            )


@check(
    name="no-access-behind",
    family=FAMILY,
    severity=Severity.COSTS,
    title="No room to work behind a wall",
    why="joints, corner screws, braces and their weights are fixed from behind",
    limit="{450 mm} behind every wall that is fixed from behind",
    source=COMMON_PRACTICE,
    remedy="Move the set forward ([set] clear_behind), or join and brace it in the open and push it back.",
)
def no_access_behind(plan: Plan) -> Iterable[Finding]:
    """Find walls that are fixed from behind but leave no room there."""
    room = plan.brief.room
    obstacles: list[Segment] = list(sides(room.outline))
    for pillar in room.pillars:
        obstacles += sides(pillar.outline)
    screwed = {c.screws.from_wall for c in plan.corners if c.screws is not None}
    for strip, wall in zip(strips(plan), plan.walls, strict=True):
        alone = wall.left.kind == "free" and wall.right.kind == "free"
        if not (wall.joints or alone or wall.name in screwed):
            continue
        gap = gap_behind(strip, obstacles)
        if gap < BEHIND - LAID_OUT:
            found, wanted = lengths(max(gap, 0.0), BEHIND, plan)
            yield Finding(
                place=wall.name,
                what=f"Wall {wall.name} has {found} behind it where {wanted} is wanted",
                figure=max(gap, 0.0),
                limit=BEHIND,
            )


@check(
    name="exit-narrowed",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Set stands close to a door of the room",
    why="people have to get out past it, in the dark and in a hurry; local rules govern",
    limit="{1200 mm} between the set and every door; under {711 mm} it stops the job",
    source="1.2 m: route to exits on professional stages, as published; 28 in: 29 CFR 1910.36(g)(2), as quoted",
    remedy="Move the set away from the door.",
)
def exit_narrowed(plan: Plan) -> Iterable[Finding]:
    """Find doors that the set stands close to."""
    doors = plan.brief.room.doors
    ground = strips(plan) if doors else ()
    for door in doors:
        distance, wall = min(((apart(s.outline, (door.a, door.b)), s.wall) for s in ground), default=(EXIT_WANTED, ""))
        if distance < EXIT_WANTED - LAID_OUT:
            found, wanted = lengths(distance, EXIT_WANTED, plan)
            stops = distance < EXIT_LEAST - LAID_OUT
            yield Finding(
                place=door.name,
                what=f"Wall {wall} leaves {found} in front of {door.name} where {wanted} is wanted",
                figure=distance,
                limit=EXIT_WANTED,
                severity=Severity.STOPS if stops else Severity.KNOW,
            )


CHECKS: tuple[Check, ...] = (
    set_larger_than_room,
    set_through_pillar,
    wall_over_ceiling,
    over_keep_clear,
    exit_narrowed,
    no_access_behind,
)
