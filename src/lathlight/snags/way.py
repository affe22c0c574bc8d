"""The way in: flats that do not pass, do not stand up, or do not go in one load."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.passage import stacked
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.passage import Passing
    from lathlight.plan import Plan

FAMILY = "the way in"


@check(
    name="passes-no-door",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Flat does not pass the way in",
    why="it would have to be taken apart, or stays where it was built",
    limit="every stage of the way in, {15 mm} kept free of its clear sizes; where it is built in the room: costs money",
    source="rectangle in a rectangle (Carver 1957), panel round a corner; clearance: common practice, no source",
    remedy="Split the wall ([set.flats] max_width, max_height), or build the flat in the room.",
)
def passes_no_door(plan: Plan) -> Iterable[Finding]:
    """Find flats that some stage keeps out, one finding a flat."""
    flats = {flat.id: flat for flat in plan.flats}
    for passage in plan.passages:
        stuck = [stage for stage in passage.stages if not stage.passes]
        if not stuck:
            continue
        flat, stage = flats[passage.flat], stuck[0]
        inside = ", and is built in the room" if flat.built_in_room else ""
        yield Finding(
            place=flat.id,
            what=f"Flat {flat.id} does not pass {stage.through}{inside}: {_sizes(stage, plan)}",
            figure=stage.figure,
            limit=stage.limit,
            severity=Severity.COSTS if flat.built_in_room else Severity.STOPS,
            remedy="Build it where it stands, and plan to take it apart for the next move." if inside else None,
            inputs=tuple(("does not pass", s.through, "") for s in stuck),
        )


def _sizes(passing: Passing, plan: Plan) -> str:
    found, wanted = lengths(passing.figure, passing.limit, plan)
    return f"{passing.how}, it needs {found} where {wanted} passes"


@check(
    name="leans-through-door",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Flat passes only leaning in the opening",
    why="two people turn it there by hand, with nothing to spare, past fresh paint",
    limit="the clear height less {15 mm} for one side of the face, upright",
    source="rectangle in a rectangle (Carver 1957); clearance: common practice, no source",
    remedy="Try it with an offcut frame before the walls are painted, or split the flat.",
)
def leans_through_door(plan: Plan) -> Iterable[Finding]:
    """Find flats that pass a stage only tilted, one finding a flat."""
    loads = {stage.name for stage in plan.brief.room.way_in if stage.kind == "vehicle"}  # flats may well lean there
    for passage in plan.passages:
        tilted = [s for s in passage.stages if s.passes and s.through not in loads and _is_tilted(s)]
        if tilted and passage.passes:
            stage = tilted[0]
            yield Finding(
                place=passage.flat,
                what=f"Flat {passage.flat} passes {stage.through} only {stage.how}: "
                f"{length(stage.figure, plan)} where {length(stage.limit, plan)} is the most",
                figure=stage.figure,
                limit=stage.limit,
            )


def _is_tilted(passing: Passing) -> bool:
    return "leaning" in passing.how or "raised" in passing.how


@check(
    name="cannot-tilt-up",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Flat cannot be stood up under the ceiling",
    why="its corner meets the ceiling on the way up",
    limit="the ceiling less {20 mm}, walked up over the bottom edge or turned up in its own plane",
    source="sweep of a box about its bottom edge (Pythagoras); clearance: common practice, no source",
    remedy="Lower the wall, split its height, or build the flat standing.",
)
def cannot_tilt_up(plan: Plan) -> Iterable[Finding]:
    """Find flats that sweep the ceiling."""
    for passage in plan.passages:
        raising = passage.raises
        if not raising.passes:
            yield Finding(
                place=passage.flat,
                what=f"Flat {passage.flat} cannot be stood up: {_sizes(raising, plan)} under the ceiling",
                figure=raising.figure,
                limit=raising.limit,
                inputs=raising.why.inputs,
            )


@check(
    name="way-in-not-stated",
    family=FAMILY,
    severity=Severity.KNOW,
    title="No door and no way in are stated",
    why="nothing was checked between the workshop and the room",
    limit="one door of the room, or one stage of the way in",
    source="the project file",
    remedy="Measure the doors and turns on the way and add them as [[room.doors]] and [[room.way_in]].",
)
def way_in_not_stated(plan: Plan) -> Iterable[Finding]:
    """Find rooms of which no way in is known."""
    if not plan.brief.room.doors and not plan.brief.room.way_in:
        yield Finding(place="set", what="The room has no door and no way in", figure=0.0, limit=1.0, unit="")


@check(
    name="more-than-one-load",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Flats do not go in one load",
    why="the vehicle has to go twice, or a larger one is hired",
    limit="depths of all flats side by side, at most the load's width",
    source="sum of depths",
    remedy="Lay some flats on their backs on top, hire a wider vehicle, or plan two loads.",
)
def more_than_one_load(plan: Plan) -> Iterable[Finding]:
    """Find vehicles that all flats on edge do not go into at once."""
    total = stacked([flat.depth for flat in plan.flats])
    for passage in plan.brief.room.way_in:
        if passage.kind == "vehicle" and total > passage.clear_width:
            loads = math.ceil(total / passage.clear_width)
            yield Finding(
                place=passage.name,
                what=f"{len(plan.flats)} flats side by side take {length(total, plan)} and {passage.name} is "
                f"{length(passage.clear_width, plan)} wide, which makes {loads} loads on edge",
                figure=total,
                limit=passage.clear_width,
            )


CHECKS: tuple[Check, ...] = (
    passes_no_door,
    cannot_tilt_up,
    more_than_one_load,
    leans_through_door,
    way_in_not_stated,
)
