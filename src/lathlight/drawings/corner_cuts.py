"""What is sawn to an angle at a corner: bevelled sheet edges and ripped wedges, as values and in words.

The words are those of the cut list, so that nobody has to translate. Edges are named as seen from the front, like the
sheet pieces' own; how wide the parts are is decided by the carpentry.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.drawings.corner_sides import corner_sides, screw_run
from lathlight.drawings.outlines import bounds_of, member_plan
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from lathlight.carpentry import Corner, Member, SheetPiece
    from lathlight.drawings.corner_sides import Side
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LEAST_BEVEL = 0.05  # a smaller one is none [mm], as in the cut list
HAIR = 0.5  # a wedge thinner than this where the screw runs is not met by it [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel:
    """A sheet's edge that is sawn at an angle."""

    marks: tuple[str, ...]  # of the pieces that have it
    edge: Literal["left", "right"]  # seen from the front
    tilt: float  # of the saw from square [rad]
    long_point: Literal["face", "back"]  # on which side the sheet runs further

    @property
    def words(self) -> str:
        """What is sawn, as on the cut list."""
        return f"{self.edge} edge bevelled {self.tilt_words} from square, long point on the {self.long_point}"

    @property
    def tilt_words(self) -> str:
        """The tilt in degrees, to a tenth."""
        return f"{math.degrees(self.tilt):.1f}°"


def bevel_of(side: Side) -> Bevel | None:
    """Return the bevel of a wall's sheets at a corner; None where they end square."""
    edge: Literal["left", "right"] = "right" if side.out > 0 else "left"
    found = [
        (f"{flat.mark}-{piece.mark}", piece)
        for flat in side.wall.flats
        for piece in flat.pieces
        if abs(_bevelled(piece, edge)) > LEAST_BEVEL
    ]
    if not found:
        return None
    piece = found[0][1]
    by = _bevelled(piece, edge)
    return Bevel(
        marks=tuple(mark for mark, _ in found),
        edge=edge,
        tilt=math.atan2(abs(by), piece.sheet.thickness),
        long_point="back" if by > 0 else "face",
    )


def bevel_lines(plan: Plan, corner: Corner) -> tuple[str, ...]:
    """Return every bevelled sheet edge at a corner: "B1-S1: left edge bevelled 10.0° from square, …"."""
    bevels = (bevel_of(side) for side in corner_sides(plan, corner))
    return tuple(f"{', '.join(bevel.marks)}: {bevel.words}" for bevel in bevels if bevel is not None)


def wedge_lines(plan: Plan, corner: Corner) -> tuple[str, ...]:
    """Return every wedge at a corner: which it is, the angle it is ripped to, how wide it is, how it is fixed."""
    style = plan.brief.style
    lines = [line for side in corner_sides(plan, corner) for line in _end_wedge(side, style)]
    if corner.wedge is not None:
        wide, long = (drawing_length(v, style=style) for v in (corner.wedge.wide, corner.wedge.length))
        lines.append(
            f"wedge between the frames, ripped to {format_angle(corner.wedge.angle)}, {wide} at its widest, {long} "
            "long, thick edge at the back, glued and screwed in when the corner is assembled"
        )
    return tuple(lines)


def end_wedges(side: Side) -> tuple[tuple[str, Member], ...]:
    """Return the wedges that fill a wall's square frame ends at a corner, each with its full mark."""
    ending = "right" if side.out > 0 else "left"
    return tuple(
        (f"{flat.mark}-{member.mark}", member)
        for flat in side.wall.flats
        for member in flat.members
        if member.role == "wedge" and member.id.endswith(f"/{ending}")
    )


def screw_passes(plan: Plan, corner: Corner) -> str | None:
    """Return the mark of the wedge that the corner's screws go through; None where they meet none."""
    sides = corner_sides(plan, corner)
    run = screw_run(sides, corner)
    if run is None:
        return None
    return next((mark for mark, m in end_wedges(run.side) if _thickness_at(m, run.behind) > HAIR), None)


def _bevelled(piece: SheetPiece, edge: Literal["left", "right"]) -> float:
    return piece.bevel_left if edge == "left" else piece.bevel_right


def _end_wedge(side: Side, style: LengthStyle) -> list[str]:
    """Return the words for the wedges on a frame's end, those of flats over each other in one line."""
    wedges = end_wedges(side)
    if not wedges:
        return []
    marks, member = ", ".join(mark for mark, _ in wedges), wedges[0][1]
    taper = format_angle(abs(side.end.angle - math.pi / 2))
    wide = drawing_length(member.wide, style=style)
    thick = "back" if side.end.angle < math.pi / 2 else "sheet"
    return [
        f"wedge {marks} on the end stud, ripped to {taper}, {wide} at its widest, thick edge at the {thick}, glued and "
        "screwed in"
    ]


def _thickness_at(member: Member, behind: float) -> float:
    """Return how thick a wedge is along the wall at a depth behind the face [mm]; 0 outside it."""
    ring = member_plan(member)
    _, low, _, high = bounds_of(ring)
    if not low < behind < high:
        return 0.0
    crossed = [
        ax + (bx - ax) * (behind - ay) / (by - ay)
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (ay <= behind) != (by <= behind)
    ]
    return max(crossed) - min(crossed) if crossed else 0.0
