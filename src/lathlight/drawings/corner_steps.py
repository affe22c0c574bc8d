"""How a corner goes together, in words: what is bevelled, what is stood first, what joins it where.

Angles and wedges are put into words by ``lathlight.drawings.corner_cuts``, what joins it by ``corner_hold``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.corner_cuts import bevel_lines, wedge_lines
from lathlight.drawings.corner_hold import corner_hold
from lathlight.drawings.corner_sides import corner_label, corner_sides
from lathlight.drawings.listing import Listing
from lathlight.drawings.tables import Column
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import Corner
    from lathlight.drawings.corner_hold import CornerHold
    from lathlight.drawings.corner_sides import Side
    from lathlight.plan import Plan


def steps_listing(plan: Plan, corner: Corner, also: Sequence[Corner] = ()) -> Listing:
    """Return how a corner goes together, step by step."""
    others = "".join(f"; {corner_label(plan, other)} the same" for other in also)
    columns = (Column(heading="Step", width=12, align="right"), Column(heading="Do", width=150))
    rows = tuple((str(number), words) for number, words in enumerate(_steps(plan, corner, also), start=1))
    return Listing(title=f"Corner {corner_label(plan, corner)}, in order{others}", columns=columns, rows=rows)


def corner_notes(plan: Plan, corner: Corner) -> list[str]:
    """Return what both walls are made of."""
    return [
        f"Wall {side.wall.mark}: sheet {side.flat.sheet.name}, frame {side.flat.stock.name}, "
        f"{drawing_length(side.depth, style=plan.brief.style)} together."
        for side in corner_sides(plan, corner)
    ]


def _steps(plan: Plan, corner: Corner, also: Sequence[Corner]) -> list[str]:
    """Return what is done at a corner, in order; what is sawn beforehand also for those that are built the same."""
    bevels = [line for each in (corner, *also) for line in bevel_lines(plan, each)]
    wedges = [line for each in (corner, *also) for line in wedge_lines(plan, each)]
    first = [f"Before skinning, edges as seen from the front: {line}." for line in bevels]
    left, right = corner_sides(plan, corner)
    hold = corner_hold(plan, corner)
    if corner.screws is None:
        return [*first, *_steps_apart(left, right, wedges, hold)]
    butting, lapping = (left, right) if corner.screws.from_wall == corner.left else (right, left)
    steps = [
        f"Stand flat {lapping.flat.mark} (its frame runs past) and hold it; nobody lets go before it is braced.",
        f"Stand flat {butting.flat.mark} against it, bottoms level, until the faces meet in one line.",
        *([] if hold is None else [hold.sentence(butting.flat.mark, lapping.flat.mark)]),
    ]
    fitted = [f"Before standing: {line}." for line in wedges]
    return [*first, *fitted, *steps, "Check the corner with a square or a template, high and low, before it is let go."]


def _steps_apart(left: Side, right: Side, wedges: Sequence[str], hold: CornerHold | None) -> list[str]:
    """Return the steps where the frames do not touch."""
    steps = [
        f"Stand flat {left.flat.mark} and hold it; nobody lets go before it is braced.",
        f"Stand flat {right.flat.mark} beside it, bottoms level, until the faces meet in one line.",
    ]
    if wedges:
        steps.append(f"In the gap behind: {wedges[0]}.")
    if hold is not None:
        steps.append(hold.sentence(left.flat.mark, right.flat.mark))
    return [*steps, "Check the angle with a template, high and low, before it is let go."]
