"""Weight and size in people's hands: flats too heavy for the crew, over the user's own limits, without holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project import TEAM, team_lift
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import lengths, mass, masses
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.carpentry import Flat
    from lathlight.catalog import Sheet
    from lathlight.plan import Plan

FAMILY = "lifting"
TOUCH = 1e-6
HEAVY_SHEET = 20.0  # one person does not handle a heavier sheet [kg], common practice
HOLDS = 15.0  # a heavier flat wants two hand holds [kg], common practice


@check(
    name="flat-too-heavy",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Flat too heavy for the crew",
    why="backs and feet get hurt, and a flat that is dropped breaks; the figure is a guide, not a limit to trust",
    limit="what one lifts alone; two: 2/3 of the sum; three and more: 1/2 of the sum of three",
    source=TEAM,
    remedy="Split the wall ([set.flats] max_weight), take a thinner sheet, or get more hands or a dolly.",
)
def flat_too_heavy(plan: Plan) -> Iterable[Finding]:
    """Find flats that the crew together does not lift."""
    crew = plan.brief.crew
    limit = team_lift(people=crew.people, each=crew.lift_per_person)
    who = "one person" if crew.people == 1 else f"{crew.people} people"
    for flat in plan.flats:
        if flat.weight.value > limit + TOUCH:
            found, wanted = masses(flat.weight.value, limit, plan)
            yield Finding(
                place=flat.id,
                what=f"Flat {flat.id} weighs {found} and {who} together lift {wanted}",
                figure=flat.weight.value,
                limit=limit,
                unit="kg",
                inputs=(("people", float(crew.people), ""), ("each lifts", crew.lift_per_person, "kg")),
            )


@check(
    name="flat-over-limit",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Flat over a limit that the project states",
    why="the limit was stated because something does not take more",
    limit="max_width, max_height and max_weight of [set.flats], where they are stated",
    source="the project file",
    remedy="Raise the limit if it is wider than you thought, or let the wall have another seam there.",
)
def flat_over_limit(plan: Plan) -> Iterable[Finding]:
    """Find flats that break the user's own limits, one finding a flat: the limit that is broken most."""
    for flat in plan.flats:
        broken = [b for b in _against_limits(flat, plan) if b[1] > b[2] + TOUCH]
        if not broken:
            continue
        word, figure, limit, unit = max(broken, key=lambda b: b[1] / b[2])
        found, wanted = (masses if unit == "kg" else lengths)(figure, limit, plan)
        yield Finding(
            place=flat.id,
            what=f"Flat {flat.id} has a {word} of {found} where the project allows {wanted}",
            figure=figure,
            limit=limit,
            unit=unit,
        )


def _against_limits(flat: Flat, plan: Plan) -> Iterator[tuple[str, float, float, str]]:
    limits = plan.brief.limits
    for word, figure, limit, unit in (
        ("width", flat.width, limits.max_width, "mm"),
        ("height", flat.height, limits.max_height, "mm"),
        ("weight", flat.weight.value, limits.max_weight, "kg"),
    ):
        if f"max_{word}" not in limits.assumed:
            yield word, figure, limit, unit


@check(
    name="heavy-sheet",
    family=FAMILY,
    severity=Severity.KNOW,
    title="One sheet is heavy by itself",
    why="a whole sheet is wide, catches the air and slips; two people carry it on edge, with gloves",
    limit="{20 kg} a sheet",
    source=COMMON_PRACTICE,
    remedy="Have the shop cut it, or carry it with two people and a sheet hook.",
)
def heavy_sheet(plan: Plan) -> Iterable[Finding]:
    """Find kinds of sheet that one person does not handle."""
    used: dict[str, Sheet] = {piece.sheet.name: piece.sheet for piece in plan.pieces}
    for name in sorted(used):
        sheet = used[name]
        weight = sheet.width * sheet.length * sheet.thickness * 1e-9 * sheet.density
        if weight > HEAVY_SHEET + TOUCH:
            found, wanted = masses(weight, HEAVY_SHEET, plan)
            yield Finding(
                place=name,
                what=f"A whole sheet of {name} weighs {found}, more than the {wanted} one person handles",
                figure=weight,
                limit=HEAVY_SHEET,
                unit="kg",
            )


@check(
    name="no-hand-holds",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Flats heavy enough to want hand holds",
    why="fingers slip on a bare stud, and a flat is dropped on its corner",
    limit="{15 kg} a flat",
    source=COMMON_PRACTICE,
    remedy="Screw two battens as hand holds to the back of each, at its centre of gravity.",
)
def no_hand_holds(plan: Plan) -> Iterable[Finding]:
    """Find whether any flat wants hand holds; one finding for the set."""
    heavy = [flat for flat in plan.flats if flat.weight.value > HOLDS + TOUCH]
    if heavy:
        worst = max(flat.weight.value for flat in heavy)
        many = "1 flat weighs" if len(heavy) == 1 else f"{len(heavy)} flats weigh"
        yield Finding(
            place="set",
            what=f"{many} more than {mass(HOLDS, plan)}, the heaviest {mass(worst, plan)}, and none has hand holds",
            figure=worst,
            limit=HOLDS,
            unit="kg",
        )


CHECKS: tuple[Check, ...] = (flat_too_heavy, flat_over_limit, heavy_sheet, no_hand_holds)
