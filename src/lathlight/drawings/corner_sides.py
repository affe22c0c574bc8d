"""What of two walls lies near their corner, for everything that shows or describes it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.outlines import bounds_of, cuts_at, member_plan, openings_of, placed, rectangle

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall, Corner, Flat, Member, WallEnd
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Point
    from lathlight.layout import WallLine
    from lathlight.plan import Plan

SHOWN = 2.2  # length of each wall that is shown, as a multiple of its depth; common practice
LEAST_SHOWN = 130.0  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One wall at the corner: what is shown of it, along the wall [mm]."""

    wall: BuiltWall
    line: WallLine
    flat: Flat
    end: WallEnd
    low: float
    high: float
    corner: float  # where the corner line lies along this wall
    out: int  # 1: the wall ends towards larger figures

    @property
    def depth(self) -> float:
        """Sheet and frame together [mm]."""
        return self.flat.sheet.thickness + self.flat.stock.depth

    @property
    def broken(self) -> float:
        """Where the wall is broken off [mm]."""
        return self.low if self.out > 0 else self.high


def corner_sides(plan: Plan, corner: Corner) -> tuple[Side, Side]:
    """Return both walls as far as they are shown, the left one first."""
    walls = {wall.name: wall for wall in plan.walls}
    left, right = walls[corner.left], walls[corner.right]
    last = max(left.flats, key=lambda f: (f.x1, -f.z0))
    first = min(right.flats, key=lambda f: (f.x0, f.z0))
    shown = [max(LEAST_SHOWN, SHOWN * (f.sheet.thickness + f.stock.depth)) for f in (last, first)]
    reach = max(shown)
    return (
        Side(
            wall=left,
            line=plan.layout.wall(left.name),
            flat=last,
            end=corner.left_end,
            low=left.length - reach,
            high=math.inf,
            corner=left.length,
            out=1,
        ),
        Side(
            wall=right,
            line=plan.layout.wall(right.name),
            flat=first,
            end=corner.right_end,
            low=-math.inf,
            high=reach,
            corner=0.0,
            out=-1,
        ),
    )


def section_height(side: Side) -> float:
    """Return a height at which no opening cuts what is shown of a wall: half way up where that is one."""
    openings = openings_of(side.wall)
    low = max(side.low, 0.0) - side.flat.stock.width
    high = min(side.high, side.wall.length) + side.flat.stock.width
    for share in (0.5, 0.3, 0.7, 0.15, 0.85, 0.06):
        height = side.flat.z0 + share * side.flat.height
        if not any(a < high and b > low for a, b in cuts_at(openings, height, rough=True)):
            return height
    return side.flat.z0 + side.flat.height / 2


def uprights(side: Side) -> tuple[Member, ...]:
    """Return the uprights that the cut goes through near the corner, along the wall."""
    height = section_height(side)
    near = [
        m
        for m in side.flat.members
        if m.upright and m.z <= height < m.z + m.high and m.x + m.wide > side.low and m.x < side.high
    ]
    return tuple(sorted(near, key=lambda m: (m.x, m.behind)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewRun:
    """Where a corner's screws run, along the wall from whose bay they are driven [mm]."""

    side: Side
    head: float  # along the wall
    behind: float  # behind its face
    point: float  # along the wall


def screw_run(sides: tuple[Side, Side], corner: Corner) -> ScrewRun | None:
    """Return how the screws of a corner run: in the middle of what both studs share; None where there are none."""
    if corner.screws is None:
        return None
    side, other = sides if corner.screws.from_wall == corner.left else sides[::-1]
    studs = {member.id: member for each in sides for member in each.flat.members}
    through, into = studs.get(corner.screws.through), studs.get(corner.screws.into)
    if through is None or into is None:
        return None
    head = through.x if side.out > 0 else through.x + through.wide
    behind = _shared_depth(through, into, side, other)
    return ScrewRun(side=side, head=head, behind=behind, point=head + side.out * corner.screws.screw.length)


def _shared_depth(through: Member, into: Member, side: Side, other: Side) -> float:
    """Return how far behind the first wall's face the middle lies of what both studs share [mm]."""
    (x, y), (dx, dy) = side.line.start, side.line.direction
    corners = placed(member_plan(into), other.line)
    behinds = [(py - y) * dx - (px - x) * dy for px, py in corners]
    low = max(min(behinds), through.behind)
    high = min(max(behinds), through.behind + through.deep)
    return (low + high) / 2 if high > low else through.behind + through.deep / 2


def strip(side: Side) -> Ring:
    """Return what is shown of a wall as one four-cornered outline."""
    end = side.corner + side.out * max(side.end.frame_end, side.end.sheet_front, side.end.sheet_back)
    a, b = sorted((side.broken, end))
    return placed(rectangle(a, 0.0, b, side.depth), side.line)


def corner_size(plan: Plan, corner: Corner) -> Point:
    """Return how wide and high the detail of a corner is, words and dimensions left out [mm]."""
    x0, y0, x1, y1 = bounds_of(point for side in corner_sides(plan, corner) for point in strip(side))
    return x1 - x0, y1 - y0


def alike(plan: Plan) -> tuple[tuple[Corner, ...], ...]:
    """Return the corners in groups that look the same cut level, in order of their first."""
    groups: dict[tuple[object, ...], list[Corner]] = {}
    for corner in plan.corners:
        groups.setdefault(_likeness(plan, corner), []).append(corner)
    return tuple(tuple(group) for group in groups.values())


def _likeness(plan: Plan, corner: Corner) -> tuple[object, ...]:
    """Return what a detail shows, rounded, counted from the corner line."""
    seen: list[object] = [round(corner.angle, 6), corner.style, corner.frame_laps, corner.sheet_laps]
    for side in corner_sides(plan, corner):
        flat = side.flat
        seen += [flat.sheet.name, flat.stock.name, round(side.end.sheet_front, 2), round(side.end.frame_end, 2)]
        for member in uprights(side):
            x0, y0, x1, y1 = bounds_of(member_plan(member))
            seen.append(tuple(round(v, 2) for v in (x0 - side.corner, y0, x1 - side.corner, y1)))
    return tuple(seen)


def corner_label(plan: Plan, corner: Corner) -> str:
    """Return the marks of both walls."""
    marks = {wall.name: wall.mark for wall in plan.walls}
    return f"{marks[corner.left]} | {marks[corner.right]}"
