"""Openings that leave no timber to frame them with: refused with their figures, all of them at once."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.carpentry.uprights import THINNEST, TOUCH
from lathlight.errors import InputError, Problem
from lathlight.units import format_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from lathlight.carpentry.jobs import FlatBox, WallJob
    from lathlight.carpentry.openings import Rough


def refuse_unframable(job: WallJob, flats: Sequence[tuple[FlatBox, Sequence[Rough]]]) -> None:
    """Raise for a wall's openings that leave no timber to frame them with: each flat and what lies inside it."""
    problems = dict.fromkeys(p for box, inside in flats for p in _flat_problems(job, box, inside))
    if problems:
        raise InputError(tuple(problems))


def problems_of_all(jobs: Iterable[WallJob], build: Callable[[WallJob], object]) -> tuple[Problem, ...]:
    """Return what keeps walls from being built, wall by wall; empty where all of them can be."""
    found: dict[Problem, None] = {}
    for job in jobs:
        try:
            build(job)
        except InputError as error:
            found |= dict.fromkeys(error.problems)
    return tuple(found)


def _flat_problems(job: WallJob, box: FlatBox, inside: Sequence[Rough]) -> Iterator[Problem]:
    for o in inside:
        yield from _opening_problems(job, box, o)
    for a, b in pairwise(sorted(inside, key=lambda o: o.left)):
        apart = b.left - a.right
        least = 2 * job.wall.framing.width
        level = a.bottom < b.top and b.bottom < a.top
        if level and apart < least - TOUCH:
            yield _unframable(job, b, "its distance from the next opening", apart, least, "Move it")


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
