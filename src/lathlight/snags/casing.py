"""Casing: pieces that find no room on their wall, and pieces longer than the moulding is sold.

What finds no room is found where casing is laid out (``lathlight.mouldings``); here it gets its words, one snag an
opening.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed
from lathlight.working import COMMON_PRACTICE, GEOMETRY

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.mouldings import Casing
    from lathlight.plan import Plan

FAMILY = "casing"
TOUCH = 1e-6
OFF = ("past the wall's end", "over the wall's top", "under the floor")


@check(
    name="casing-longer-than-stock",
    family=FAMILY,
    severity=Severity.STOPS,
    title="No length of casing reaches along a side of an opening",
    why="casing takes no joint in sight, and no length on sale is long enough",
    limit="the casing's longest length in the catalogue, less trim_cut",
    source="the profile's row in the catalogue",
    remedy="Give the casing longer lengths in the catalogue, choose another profile, or make the opening smaller.",
)
def casing_longer_than_stock(plan: Plan) -> Iterable[Finding]:
    """Find straight pieces of casing longer than the stock, one finding an opening."""
    for casing in plan.casings:
        stock = casing.profile.lengths
        if not casing.pieces or not stock:
            continue
        longest = max(stock) - plan.brief.saw.trim_cut
        worst = max(casing.pieces, key=lambda piece: piece.long_point)
        if worst.long_point > longest + TOUCH:
            found, most = lengths(worst.long_point, longest, plan)
            yield Finding(
                place=f"{casing.wall}/{casing.opening}",
                what=f"The {worst.part} of {_titled(casing)} is {found} long and {casing.profile.name} gives at most "
                f"{most}",
                figure=worst.long_point,
                limit=longest,
                inputs=(("piece", worst.id, ""),),
            )


@check(
    name="casing-off-the-wall",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Casing that runs off its wall",
    why="it is cut off there, and the opening looks unfinished",
    limit="casing, blocks included, that ends on its wall and above the finished floor",
    source=GEOMETRY,
    remedy="Move the opening, take a narrower casing, or a smaller reveal.",
)
def casing_off_the_wall(plan: Plan) -> Iterable[Finding]:
    """Find casing that runs past its wall or under the floor, one finding an opening."""
    for casing in plan.casings:
        off = [f for f in casing.findings if f.kind in OFF]
        if off:
            runs = listed([f"{length(f.found, plan)} {f.kind}" for f in off])
            worst = max(off, key=lambda f: f.found)
            yield Finding(
                place=f"{casing.wall}/{casing.opening}",
                what=f"The casing of {_titled(casing)} runs {runs}",
                figure=worst.found,
                limit=0.0,
            )


@check(
    name="casings-overlap",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Casings of two openings lie over each other",
    why="neither can be cut to its size, and the wall between looks pinched",
    limit="wall, or at least nothing, between two casings",
    source=COMMON_PRACTICE,
    remedy="Move the openings apart, or give both a narrower casing.",
)
def casings_overlap(plan: Plan) -> Iterable[Finding]:
    """Find casings that need the same wall, one finding for the left opening of two."""
    for casing in plan.casings:
        over = [f for f in casing.findings if f.kind == "into other casing"]
        if over:
            worst = max(over, key=lambda f: f.found)
            others = listed([f.with_what for f in over])
            yield Finding(
                place=f"{casing.wall}/{casing.opening}",
                what=f"The casing of {_titled(casing)} runs {length(worst.found, plan)} into that of {others}",
                figure=worst.found,
                limit=0.0,
            )


def _titled(casing: Casing) -> str:
    return f"{casing.kind} {casing.opening} on wall {casing.wall}"


CHECKS: tuple[Check, ...] = (casing_longer_than_stock, casing_off_the_wall, casings_overlap)
