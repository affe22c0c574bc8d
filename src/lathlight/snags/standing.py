"""What a wall's shape alone says about standing; tipping and bracing are not computed here."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.plan import Plan

FAMILY = "standing"
LONG = 2.0  # length over height of a wall that wants a return or a tie, common practice
RETURN_TURN = math.radians(135)  # a corner wider than this is no return [rad], common practice
TALL = 2500.0  # a higher wall asks for a qualified person [mm], common practice (about 8 ft)


@check(
    name="long-wall-no-return",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Long straight wall without a return",
    why="nothing but braces keeps it from falling forwards, and it bows along its top; standing is not checked here",
    limit="length at most twice the height, unless a wall joins at 135 degrees or less",
    source=COMMON_PRACTICE,
    remedy="Add a short return at one end, a batten along the top, and braces with weights at every joint.",
)
def long_wall_no_return(plan: Plan) -> Iterable[Finding]:
    """Find long walls that no return holds."""
    held = {n for c in plan.corners if c.angle <= RETURN_TURN + 1e-9 for n in (c.left, c.right)}
    for wall in plan.walls:
        ratio = wall.length / wall.height
        if wall.name not in held and ratio > LONG + 1e-9:
            yield Finding(
                place=wall.name,
                what=f"Wall {wall.name} is {length(wall.length, plan)} long and {length(wall.height, plan)} high, "
                f"{ratio:.1f} to 1, and has no return",
                figure=ratio,
                limit=LONG,
                unit="",
            )


@check(
    name="tall-wall",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Tall walls",
    why="they fall further and harder, and exhibition rules and local codes commonly ask for more from this height on",
    limit="{2.5 m}",
    source="common practice, no source: extra rules commonly begin between 2.5 and 4 m",
    remedy="Have a qualified person look at how it is braced before anybody stands in front of it.",
)
def tall_wall(plan: Plan) -> Iterable[Finding]:
    """Find whether any wall asks for a qualified person; one finding for the set."""
    tall = [wall for wall in plan.walls if wall.height > TALL + 1e-6]
    if tall:
        highest = max(wall.height for wall in tall)
        found, wanted = lengths(highest, TALL, plan)
        many = "1 wall is" if len(tall) == 1 else f"{len(tall)} walls are"
        yield Finding(
            place="set",
            what=f"{many} higher than {wanted}, the highest {found}",
            figure=highest,
            limit=TALL,
            inputs=tuple((wall.name, wall.height, "mm") for wall in tall),
        )


CHECKS: tuple[Check, ...] = (long_wall_no_return, tall_wall)
