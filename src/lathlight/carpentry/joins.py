"""How built walls are held together at a corner: screws through one end stud into the other, or a loose wedge."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.carpentry.corners import LEAST_WEDGE, Thickness
from lathlight.carpentry.model import Corner, CornerScrews, Wedge
from lathlight.units import snap
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.corners import Side, Style
    from lathlight.carpentry.model import BuiltWall, Flat
    from lathlight.catalog import Fastener
    from lathlight.layout import Point, WallLine
    from lathlight.units import LengthStyle

FROM_ENDS = 150.0  # first and last screw [mm], common practice
BITE = 25.0  # a corner screw holds so deep in the second stud, where there is one so long [mm], common practice
SHY = 3.0  # its point stays so far inside the stud [mm], common practice
APART = 600.0  # screws at most this far apart [mm] (a screw about every 24 in), common practice


def join_corner(
    *,
    angle: float,
    style: Style,
    frame_laps: Side,
    sheet_laps: Side,
    left: BuiltWall,
    right: BuiltWall,
    left_thickness: Thickness,
    right_thickness: Thickness,
    right_line: WallLine,
    left_line: WallLine,
    screws: Sequence[Fastener],
    grid: LengthStyle,
    why: Working,
) -> Corner:
    """Return the corner with its screws or its wedge."""
    fixing = None
    if style == "lap":
        fixing = _screws(left, right, frame_laps, screws, grid)
    return Corner(
        id=f"{left.name}|{right.name}",
        left=left.name,
        right=right.name,
        angle=angle,
        style=style,
        frame_laps=frame_laps if style == "lap" else "neither",
        sheet_laps=sheet_laps if style == "lap" else "neither",
        left_end=left.right,
        right_end=right.left,
        screws=fixing,
        wedge=_wedge(left, right, style, left_thickness, right_thickness, left_line, right_line),
        why=why,
    )


def screw_heights(*, low: float, high: float, grid: LengthStyle) -> tuple[float, ...]:
    """Return heights of the corner screws over a stretch [mm]: near both ends and at most 600 mm apart between."""
    first, last = low + FROM_ENDS, high - FROM_ENDS
    if last <= first:
        return (snap((low + high) / 2, grid),)
    count = max(1, math.ceil((last - first) / APART - 1e-9))
    return tuple(snap(first + (last - first) * i / count, grid) for i in range(count + 1))


def choose_screw(screws: Sequence[Fastener], *, through: float, into: float) -> Fastener:
    """Return the shortest screw that holds well in the second stud without coming out of it.

    Parameters
    ----------
    screws
        What there is.
    through, into
        Timber that it passes, and depth of the stud that it holds in [mm].
    """
    within = [s for s in screws if s.length <= through + into - SHY + 1e-6]
    good = [s for s in within if s.length >= through + BITE - 1e-6]
    if good:
        return min(good, key=lambda s: (s.length, -s.diameter, s.name))
    if within:
        return max(within, key=lambda s: (s.length, s.diameter, s.name))
    return min(screws, key=lambda s: (s.length, s.diameter, s.name))


def _screws(
    left: BuiltWall, right: BuiltWall, frame_laps: Side, screws: Sequence[Fastener], grid: LengthStyle
) -> CornerScrews:
    left_flat, right_flat = _end_flat(left, at_right=True), _end_flat(right, at_right=False)
    left_stud, right_stud = f"{left_flat.id}/end stud/right", f"{right_flat.id}/end stud/left"
    butts_left = frame_laps == "right"
    high = min(left.height, right.height)
    heights = screw_heights(low=0.0, high=high, grid=grid)
    butting, lapping = (left, right) if butts_left else (right, left)
    end = butting.right if butts_left else butting.left
    stock, other = butting.flats[0].stock, lapping.flats[0].stock
    screw = choose_screw(
        screws, through=stock.width + (end.frame.wedge / 2 if end.frame.wedge >= LEAST_WEDGE else 0.0), into=other.depth
    )
    return CornerScrews(
        screw=screw,
        heights=heights,
        from_wall=left.name if butts_left else right.name,
        through=left_stud if butts_left else right_stud,
        into=right_stud if butts_left else left_stud,
        why=Working(
            formula="from the butting frame's bay through its end stud and wedge; near both ends, evenly between",
            inputs=(
                ("shared height", high, "mm"),
                ("screw", screw.name, ""),
                ("end stud and half its wedge", stock.width + end.frame.wedge / 2, "mm"),
                ("second stud's depth", other.depth, "mm"),
            ),
            source=COMMON_PRACTICE,
            value=len(heights),
        ),
    )


def _end_flat(wall: BuiltWall, *, at_right: bool) -> Flat:
    bottom = [f for f in wall.flats if f.z0 <= 0]
    return bottom[-1] if at_right else bottom[0]


def _wedge(
    left: BuiltWall,
    right: BuiltWall,
    style: Style,
    left_thickness: Thickness,
    right_thickness: Thickness,
    left_line: WallLine,
    right_line: WallLine,
) -> Wedge | None:
    """Return the strip between two square ends, arris to arris or mitred; None where it is a hair."""
    if style == "lap":
        return None
    front_left = 0.0 if style == "arris" else left_thickness.sheet
    front_right = 0.0 if style == "arris" else right_thickness.sheet
    left_along, right_along = left_line.length + left.right.frame_end, -right.left.frame_end
    corners = (
        left_line.at(along=left_along, behind=front_left),
        left_line.at(along=left_along, behind=left_thickness.total),
        right_line.at(along=right_along, behind=right_thickness.total),
        right_line.at(along=right_along, behind=front_right),
        *_sheet_corners(left, right, style, front_left, front_right, left_line, right_line),
    )
    outline = _without_twins(corners)
    wide = math.dist(corners[1], corners[2])
    if wide < LEAST_WEDGE:
        return None
    return Wedge(
        id=f"{left.name}|{right.name}/wedge",
        outline=tuple(reversed(outline)),
        length=min(left.height, right.height),
        angle=math.pi - left.right.angle,
        wide=wide,
        why=Working(
            formula="the space between two square ends, ripped to 180 degrees less the corner angle",
            inputs=(("corner angle", left.right.angle, "rad"),),
            source=GEOMETRY,
            value=wide,
            unit="mm",
        ),
    )


def _sheet_corners(
    left: BuiltWall,
    right: BuiltWall,
    style: Style,
    front_left: float,
    front_right: float,
    left_line: WallLine,
    right_line: WallLine,
) -> tuple[Point, ...]:
    """Return where the mitred sheets' back edges meet, right one first; the wedge must not cut into them."""
    if style != "mitre":
        return ()
    return (
        right_line.at(along=-right.left.frame.front, behind=front_right),
        left_line.at(along=left_line.length + left.right.frame.front, behind=front_left),
    )


def _without_twins(points: tuple[Point, ...]) -> tuple[Point, ...]:
    kept = [p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > 1e-3]
    return tuple(kept)
