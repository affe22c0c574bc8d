"""The catalogue of checks, and the one function that runs them all over a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.snags import (
    casing,
    edges,
    finish,
    fixing,
    floor,
    frames,
    framing,
    joints,
    lifting,
    pattern,
    room,
    seams,
    standing,
    stock,
    trim,
    way,
)
from lathlight.snags.check import snag_of

if TYPE_CHECKING:
    from lathlight.plan import Plan
    from lathlight.snags.check import Check
    from lathlight.snags.model import Snag

CHECKS: tuple[Check, ...] = (
    *room.CHECKS,
    *way.CHECKS,
    *edges.CHECKS,
    *framing.CHECKS,
    *trim.CHECKS,
    *casing.CHECKS,
    *frames.CHECKS,
    *pattern.CHECKS,
    *fixing.CHECKS,
    *floor.CHECKS,
    *finish.CHECKS,
    *stock.CHECKS,
    *seams.CHECKS,
    *joints.CHECKS,
    *lifting.CHECKS,
    *standing.CHECKS,
)


def find_snags(plan: Plan) -> tuple[Snag, ...]:
    """Return everything that the checks find in a plan, worst first.

    Equal severities stand in the order of the catalogue, and within a check from the left of the set to the right.
    Every id is there once.
    """
    found = [snag_of(entry, finding, plan.brief.style) for entry in CHECKS for finding in entry.find(plan)]
    assert len({snag.id for snag in found}) == len(found), "a check found two things at one place"
    return tuple(sorted(found, key=lambda snag: snag.severity))
