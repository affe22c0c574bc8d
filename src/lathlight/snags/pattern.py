"""The pattern of moulding frames in the pictures: how far its centre lies beside a picture's middle line.

Found here, since the layout knows no picture but the one that it was centred on. Only walls that a picture sees nearly
square on are looked at, and only frames that it shows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.camera import Aim, middle_lines
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.frames import FAMILY, frames_of, groups_of, name_of
from lathlight.snags.model import Severity
from lathlight.snags.wording import lengths, listed
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.camera import MiddleLine
    from lathlight.mouldings import MouldingFrame, TiersInLine
    from lathlight.plan import Plan
    from lathlight.project import PictureBrief

TOUCH = 1e-6
OFF_CENTRE = 0.02  # share of a picture's width on the wall, common practice
SQUARE_ENOUGH = math.radians(30)  # a wall seen more askew than this has no middle that the eye looks for, our choice


@dataclass(frozen=True, slots=True, kw_only=True)
class _Beside:
    """How far a pattern's centre line lies from a picture's middle line, along the wall [mm]."""

    picture: str
    off: float
    limit: float
    wide: float  # of the picture, along the wall

    @property
    def share(self) -> float:
        """Of the picture's width on the wall."""
        return self.off / self.wide


@check(
    name="pattern-off-picture",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Pattern of moulding frames off the picture's centre",
    why="a pattern that is even on the wall looks uneven behind the sitter",
    limit="2 % of the picture's width where it meets the wall; walls within 30 degrees of square to the camera",
    source=COMMON_PRACTICE,
    remedy="Set centre_on to the name of that picture, move the sitter sideways, or leave it if it is meant.",
)
def pattern_off_picture(plan: Plan) -> Iterable[Finding]:
    """Find patterns centred on their wall that a picture sees off its middle, one finding a wall and tiers in line."""
    aims = [_aim(picture) for picture in plan.brief.pictures]
    met = middle_lines(plan.layout.walls, aims)
    for group in groups_of(plan):
        for wall in dict.fromkeys(line.wall for line in met):
            here = [line for line in met if line.wall == wall]
            off = [found for line in here for found in _beside(plan, group, line)]
            if off:
                worst = max(off, key=lambda each: each.share)
                yield _off_picture(plan, group, wall, worst, len(off))


def _off_picture(plan: Plan, group: TiersInLine, wall: str, worst: _Beside, number: int) -> Finding:
    found, limit = lengths(worst.off, worst.limit, plan)
    more = "" if number == 1 else f", the worst of {number} pictures"
    return Finding(
        place=f"{wall}/{name_of(group)}",
        what=f"The pattern of {listed([t.name for t in group.tiers])} on wall {wall} has its centre {found} "
        f"({100 * worst.share:.0f} % of the picture's width) beside the middle of picture {worst.picture}, where "
        f"{limit} goes unseen{more}",
        figure=worst.off,
        limit=worst.limit,
        inputs=(("the picture's width on the wall", worst.wide, "mm"),),
    )


def _aim(picture: PictureBrief) -> Aim:
    angle = sum(picture.angles) / 2
    return Aim(picture=picture.name, sitter=(picture.sitter.right, -picture.sitter.forward), angles=(angle,))


def _beside(plan: Plan, group: TiersInLine, line: MiddleLine) -> Iterator[_Beside]:
    """Yield how far a pattern lies off a picture's middle line, where that is too far and the picture shows it."""
    if group.tiers[0].middles:
        return
    picture = next(p for p in plan.brief.pictures if p.name == line.picture)
    wall = next(w for w in plan.layout.walls if w.name == line.wall)
    angle, sitter = sum(picture.angles) / 2, picture.sitter
    facing = wall.direction[0] * math.cos(angle) + wall.direction[1] * math.sin(angle)
    if facing < math.cos(SQUARE_ENOUGH) - TOUCH:
        return
    x, y = wall.at(along=line.along, behind=0.0)
    behind = math.hypot(x - sitter.right, y + sitter.forward)
    distance = max(picture.lens) * (1 + picture.frame_height / picture.sensor[1])
    larger = (distance + behind) / distance  # the picture on the wall over the picture at the sitter
    shown = [
        f for t in group.tiers for f in frames_of(plan, t) if f.wall == line.wall and _shows(plan, picture, f, larger)
    ]
    if not shown:
        return
    centre = (min(f.left for f in shown) + max(f.right for f in shown)) / 2
    wide = picture.frame_height * picture.sensor[0] / picture.sensor[1] * larger / facing
    off = abs(centre - line.along)
    if off > OFF_CENTRE * wide + TOUCH:
        yield _Beside(picture=line.picture, off=off, limit=OFF_CENTRE * wide, wide=wide)


def _shows(plan: Plan, picture: PictureBrief, frame: MouldingFrame, larger: float) -> bool:
    """Return True where some of a frame lies between a picture's upper and lower edge."""
    camera, rise = sum(picture.camera_height) / 2, plan.brief.floor.rise
    top = camera + (picture.frame_top - camera) * larger
    bottom = camera + (picture.frame_top - picture.frame_height - camera) * larger
    return frame.bottom - rise < top and frame.top - rise > bottom


CHECKS: tuple[Check, ...] = (pattern_off_picture,)
