"""How a corner goes together, in words: what is stood first, what is screwed where, what both walls are made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.corner_sides import corner_label, corner_sides
from lathlight.drawings.listing import Listing
from lathlight.drawings.tables import Column
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import Corner
    from lathlight.catalog import Fastener
    from lathlight.drawings.corner_sides import Side
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle


def steps_listing(plan: Plan, corner: Corner, also: Sequence[Corner] = ()) -> Listing:
    """Return how a corner goes together, step by step."""
    others = "".join(f"; {corner_label(plan, other)} the same" for other in also)
    columns = (Column(heading="Step", width=12, align="right"), Column(heading="Do", width=150))
    rows = tuple((str(number), words) for number, words in enumerate(_steps(plan, corner), start=1))
    return Listing(title=f"Corner {corner_label(plan, corner)}, in order{others}", columns=columns, rows=rows)


def corner_notes(plan: Plan, corner: Corner) -> list[str]:
    """Return what both walls are made of."""
    return [
        f"Wall {side.wall.mark}: sheet {side.flat.sheet.name}, frame {side.flat.stock.name}, "
        f"{drawing_length(side.depth, style=plan.brief.style)} together."
        for side in corner_sides(plan, corner)
    ]


def _steps(plan: Plan, corner: Corner) -> list[str]:
    """Return what is done at a corner, in order."""
    left, right = corner_sides(plan, corner)
    if corner.screws is None:
        return _steps_apart(left, right, corner, plan.brief.style)
    butting, lapping = (left, right) if corner.screws.from_wall == corner.left else (right, left)
    style = plan.brief.style
    heights = ", ".join(drawing_length(height, style=style) for height in corner.screws.heights)
    steps = [
        f"Stand flat {lapping.flat.mark} (its frame runs past) and hold it; nobody lets go before it is braced.",
        f"Stand flat {butting.flat.mark} against it, bottoms level, until the faces meet in one line.",
        f"From the bay of {butting.flat.mark}, drive {len(corner.screws.heights)} × {fixing(corner.screws.screw)} "
        f"through its end stud into the end stud of {lapping.flat.mark}, at heights {heights} from the floor.",
    ]
    if any(side.end.sheet_front != side.end.sheet_back for side in (left, right)):
        steps.insert(0, "Bevel the sheet's edge as drawn before the flat is skinned.")
    return [*steps, "Check the corner with a square or a template, high and low, before it is let go."]


def fixing(fastener: Fastener) -> str:
    """Return a fastener's name with what it is."""
    return fastener.name if fastener.kind in fastener.name else f"{fastener.kind} {fastener.name}"


def _steps_apart(left: Side, right: Side, corner: Corner, style: LengthStyle) -> list[str]:
    """Return the steps where the frames do not touch."""
    steps = [
        f"Stand flat {left.flat.mark} and hold it; nobody lets go before it is braced.",
        f"Stand flat {right.flat.mark} beside it, bottoms level, until the faces meet in one line.",
    ]
    if corner.wedge is not None:
        wide, long = (drawing_length(v, style=style) for v in (corner.wedge.wide, corner.wedge.length))
        steps.append(
            f"Set the wedge (ripped to {format_angle(corner.wedge.angle)}, {wide} at its widest, {long} long) into the "
            "gap behind and screw it from both bays through the end studs."
        )
    return [*steps, "Check the angle with a template, high and low, before it is let go."]
