"""Openings that leave no timber to frame them with: refused with their figures."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.carpentry.uprights import THINNEST, TOUCH
from lathlight.errors import InputError, Problem
from lathlight.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.jobs import FlatBox, WallJob
    from lathlight.carpentry.openings import Rough


def refuse_unframable(job: WallJob, box: FlatBox, inside: Sequence[Rough]) -> None:
    """Raise for openings that leave no timber to frame them with."""
    problems = [p for o in inside for p in _opening_problems(job, box, o)]
    ordered = sorted(inside, key=lambda o: o.left)
    for a, b in pairwise(ordered):
        apart = b.left - a.right
        least = 2 * job.wall.framing.width
        level = a.bottom < b.top and b.bottom < a.top
        if level and apart < least - TOUCH:
            problems.append(_unframable(job, b, "its distance from the next opening", apart, least, "Move it"))
    if problems:
        raise InputError(problems)


def _opening_problems(job: WallJob, box: FlatBox, o: Rough) -> list[Problem]:
    s = job.wall.framing.width
    found: list[Problem] = []
    beside = min(o.left - box.x0, box.x1 - o.right)
    if beside < THINNEST - TOUCH:
        found.append(_unframable(job, o, "the timber beside its rough edge", beside, THINNEST, "Move it inwards"))
    if box.z1 - s - o.top < -TOUCH:
        found.append(_unframable(job, o, "the timber above its rough top", box.z1 - o.top, s, "Lower it"))
    if o.bottom > TOUCH and o.bottom - box.z0 < s - TOUCH:
        found.append(
            _unframable(job, o, "the timber below its rough bottom", o.bottom - box.z0, s, "Raise it or start at 0")
        )
    return found


def _unframable(job: WallJob, o: Rough, what: str, found: float, least: float, remedy: str) -> Problem:
    def show(mm: float) -> str:
        return format_length(mm, style=job.grid)

    return Problem(
        place=f'walls "{job.wall.name}" opening "{o.name}"',
        found=f"{what} {show(found)} (lining and gap included)",
        expected=f"at least {show(least)}",
        remedy=f"{remedy}, or give the wall another framing.",
    )
