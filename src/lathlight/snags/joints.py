"""Corners and joints between flats: whether anything holds them, and whether many flats add up."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.carpentry import WIDEST_LAP
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.plan import Plan

WORDS = {"lap": "a lap", "arris": "arris to arris", "mitre": "a mitre"}
FAMILY = "corners and joints"
TOUCH = 1e-6
HOLD = 20.0  # least length of screw in the timber that it holds in [mm], common practice
SHY = 3.0  # a screw's point stays this far from the far side [mm], common practice
EACH = 1.5  # what a flat's width is off by [mm], common practice
ALL_TOGETHER = 6.0  # what a wall's gaps take up [mm], common practice
FEW = 3  # flats; fewer may well be all different


@check(
    name="corner-not-held",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Nothing holds a corner together",
    why="the walls part at the face, and neither steadies the other",
    limit="screws through one frame into the other, or a wedge between them",
    source=COMMON_PRACTICE,
    remedy="Lap the corner, or clamp the flats with hinges or brackets from behind.",
)
def corner_not_held(plan: Plan) -> Iterable[Finding]:
    """Find corners without screws or wedge."""
    for corner in plan.corners:
        if corner.screws is None and corner.wedge is None:
            yield Finding(
                place=corner.id,
                what=f"Corner {corner.id} has neither screws nor a wedge",
                figure=0.0,
                limit=1.0,
                unit="",
            )


@check(
    name="corner-style-changed",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Corner made in another way than wished",
    why="a lap above 135 degrees is a feather edge, and arris to arris below 90 degrees the sheets collide",
    limit="the wish of the project file",
    source=COMMON_PRACTICE,
    remedy="State corner = 'auto', or another angle, for that corner.",
)
def corner_style_changed(plan: Plan) -> Iterable[Finding]:
    """Find corners whose wish could not be had."""
    wishes = {(c.left, c.right): c.style for c in plan.brief.corners}
    for corner in plan.corners:
        wish = wishes.get((corner.left, corner.right), "auto")
        if wish not in ("auto", corner.style):
            yield Finding(
                place=corner.id,
                what=f"Corner {corner.id} was wished as {WORDS[wish]} and is made as {WORDS[corner.style]}",
                figure=corner.angle,
                limit=WIDEST_LAP if wish == "lap" else math.pi / 2,
                unit="rad",
            )


@check(
    name="corner-screw-length",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Corner screws too short or too long",
    why="a short screw pulls out and a long one comes through the face",
    limit="{20 mm} of hold in the second stud, the point {3 mm} short of its far side",
    source=COMMON_PRACTICE,
    remedy="Give [[catalog.fasteners]] a screw of that length, or frame the two walls in stock that is nearer alike.",
)
def corner_screw_length(plan: Plan) -> Iterable[Finding]:
    """Find corner screws that hold too little or come through."""
    ends = {m.id: m for m in plan.members if m.role == "end stud"}
    for corner in plan.corners:
        screws = corner.screws
        through = ends.get(screws.through) if screws is not None else None
        into = ends.get(screws.into) if screws is not None else None
        if screws is None or through is None or into is None:
            continue
        end = corner.left_end if corner.frame_laps == "right" else corner.right_end
        passed = through.wide + end.frame.wedge / 2
        least, most = passed + HOLD, passed + into.deep - SHY
        if least - TOUCH <= screws.screw.length <= most + TOUCH:
            continue
        limit = least if screws.screw.length < least else most
        word = "at least" if screws.screw.length < least else "at most"
        found, wanted = lengths(screws.screw.length, limit, plan)
        yield Finding(
            place=corner.id,
            what=f"The screws of corner {corner.id} are {found} long where {word} {wanted} is right",
            figure=screws.screw.length,
            limit=limit,
            inputs=(("stud and half the wedge they go through", passed, "mm"), ("stud they hold in", into.deep, "mm")),
        )


@check(
    name="many-flats-add-up",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Many flats side by side",
    why="each is a little off, and together they come out longer or shorter than the wall",
    limit="{6 mm} over a wall, at {1.5 mm} a flat",
    source=COMMON_PRACTICE,
    remedy="Build the last flat of the wall last, to the length that is left.",
)
def many_flats_add_up(plan: Plan) -> Iterable[Finding]:
    """Find walls of many flats."""
    for wall in plan.walls:
        side_by_side = len({flat.x0 for flat in wall.flats})
        adds_up = side_by_side * EACH
        if adds_up > ALL_TOGETHER + TOUCH:
            yield Finding(
                place=wall.name,
                what=f"Wall {wall.name} is {side_by_side} flats long, which may add up to "
                f"{length(adds_up, plan)} where its gaps take up {length(ALL_TOGETHER, plan)}",
                figure=adds_up,
                limit=ALL_TOGETHER,
                inputs=(("flats side by side", float(side_by_side), ""),),
            )


@check(
    name="distinct-flat-sizes",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Every flat has a size of its own",
    why="flats of one size go together again in other sets, odd ones seldom do",
    limit="two flats of a set alike, from three flats up",
    source=COMMON_PRACTICE,
    remedy="Shift a seam or a wall's length so that flats come out alike.",
)
def distinct_flat_sizes(plan: Plan) -> Iterable[Finding]:
    """Find sets in which no two flats are alike."""
    sizes = {(round(flat.width), round(flat.height)) for flat in plan.flats}
    count = len(plan.flats)
    if count >= FEW and len(sizes) == count:
        yield Finding(
            place="set",
            what=f"The set's {count} flats have {len(sizes)} different sizes",
            figure=float(len(sizes)),
            limit=float(count - 1),
            unit="",
        )


CHECKS: tuple[Check, ...] = (
    corner_not_held,
    corner_screw_length,
    corner_style_changed,
    many_flats_add_up,
    distinct_flat_sizes,
)
