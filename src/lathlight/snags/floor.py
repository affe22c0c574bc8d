"""The floor covering: too small for what the pictures see, and flats that stand on it by half.

How far it reaches and how far it is wanted is found where the floor is laid (``lathlight.flooring``); here it gets its
words, one snag a picture or wall.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed
from lathlight.working import GEOMETRY

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.flooring import FloorFinding
    from lathlight.plan import Plan

FAMILY = "floor"
SIDES = {"left": "on the left", "right": "on the right", "front": "at the front"}
TOWARDS = {
    "left": "to the left of the set's axis",
    "right": "to the right of the set's axis",
    "front": "forward of the hindmost face",
}


@check(
    name="floor-short-of-picture",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Floor covering ends inside a picture",
    why="the studio's floor shows at its edge",
    limit="as far as any angle, focal length and camera height of the picture sees the floor",
    source=GEOMETRY,
    remedy="Give [floor] more width or depth, take both out so that they follow from the pictures, or crop nearer.",
)
def floor_short_of_picture(plan: Plan) -> Iterable[Finding]:
    """Find pictures that see past the covering, one finding a picture."""
    for picture, found in _told(plan, "floor short of the picture"):
        short = listed([f"{length(f.limit - f.found, plan)} {SIDES[f.side]}" for f in found])
        yield _finding(picture, found, f"In the picture {picture} the floor covering is short by {short}")


@check(
    name="flats-half-on-covering",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Flats stand half on the floor covering",
    why="a flat that has one foot on it leans, and its wall is not level",
    limit="the whole foot of a wall on the covering, or all of it beside it",
    source=GEOMETRY,
    remedy="Give [floor] more width or depth, or let it stop at the flats (stands_on = 'floor' under [set]).",
)
def flats_half_on_covering(plan: Plan) -> Iterable[Finding]:
    """Find walls whose foot reaches past the covering, one finding for the whole set: the covering is one."""
    told = dict(_told(plan, "flats half on the covering"))
    if told:
        worst = max((f for found in told.values() for f in found), key=lambda f: f.limit - f.found)
        reach, wanted = lengths(worst.found, worst.limit, plan)
        more = "" if len(told) == 1 else f", the worst of {len(told)} walls"
        what = f"Wall {worst.what} reaches {wanted} {TOWARDS[worst.side]} and the covering under it only {reach}"
        yield _finding(worst.what, [worst], f"{what}{more}")


def _told(plan: Plan, kind: str) -> Iterator[tuple[str, list[FloorFinding]]]:
    """Yield every picture or wall with its findings of a kind."""
    told = [f for f in (() if plan.floor is None else plan.floor.findings) if f.kind == kind]
    for what in dict.fromkeys(f.what for f in told):
        yield what, [f for f in told if f.what == what]


def _finding(place: str, found: list[FloorFinding], what: str) -> Finding:
    worst = max(found, key=lambda f: f.limit - f.found)
    return Finding(place=place, what=what, figure=worst.found, limit=worst.limit, inputs=(("side", worst.side, ""),))


CHECKS: tuple[Check, ...] = (floor_short_of_picture, flats_half_on_covering)
