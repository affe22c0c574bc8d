"""What joins two walls at their corner, ready for words: how many of what, at which heights, through which wedge.

What is taken is decided by ``lathlight.fixing``, so that a corner's page, the order of work and what is bought agree;
between which studs it goes is the carpentry's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.corner_cuts import screw_passes
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.carpentry import Corner
    from lathlight.catalog import Fastener
    from lathlight.plan import Plan

VERBS = {"screws": ("drive", "into"), "bolts": ("put", "and")}  # what is done with them, and how they reach the second


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerHold:
    """What joins two walls: words only, no figure to calculate with."""

    joined: str  # "screws", "bolts", "connectors"
    what: str | None  # "5 × bolt M6x120"; None: nothing on sale is long enough
    heights: tuple[str, ...]  # from the flats' foot, as printed
    between: str  # " and wedge B3-E", of the wedge that they go through, or nothing

    def sentence(self, bay: str, other: str) -> str:
        """Return the whole as one sentence; from the bay of one flat or wall to the other."""
        if self.what is None:
            return f"Nothing on sale is long enough to join {bay} and {other}: see the snags."
        places = f"at heights {', '.join(self.heights)} from the flats' foot"
        if self.joined == "connectors":
            return f"Fix {self.what} on the end studs of {bay} and {other}, half on each, {places}."
        verb, reach = VERBS[self.joined]
        return (
            f"From the bay of {bay}, {verb} {self.what} through its end stud{self.between} {reach} the end stud of "
            f"{other}, {places}."
        )


def corner_hold(plan: Plan, corner: Corner) -> CornerHold | None:
    """Return what joins the walls of a corner; None where the plan has nothing for it."""
    held = next((each for each in plan.fixing.corners if each.corner == corner.id), None)
    if held is None:
        return None
    passed = screw_passes(plan, corner)
    fastener = hold_fastener(plan, corner)
    name = held.hardware if fastener is None else fixing(fastener)
    return CornerHold(
        joined=held.joined,
        what=None if name is None else f"{len(held.heights)} × {name}",
        heights=tuple(drawing_length(height, style=plan.brief.style) for height in held.heights),
        between=" and the wedge" if held.wedge is not None else "" if passed is None else f" and wedge {passed}",
    )


def hold_fastener(plan: Plan, corner: Corner) -> Fastener | None:
    """Return the screw or bolt that joins the walls of a corner; None where it is a connector or nothing."""
    held = next((each for each in plan.fixing.corners if each.corner == corner.id), None)
    if held is None or held.hardware is None:
        return None
    if held.by_carpentry and corner.screws is not None:
        return corner.screws.screw
    return next((each for each in plan.brief.fixing.fasteners if each.name == held.hardware), None)


def fixing(fastener: Fastener) -> str:
    """Return a fastener's name with what it is."""
    return fastener.name if fastener.kind in fastener.name else f"{fastener.kind} {fastener.name}"
