"""Finished faces as elevations show them: outline, seams and joints, openings, and the mouldings over them.

Places along a wall count from its left face corner, seen from the camera's side, heights from the foot of the flats.
Words and figures are left to the views. A joint that is taken apart is an outline, a seam that stays is dashed; both
end where a moulding covers them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.outlines import arch_across, arch_up, opening_ring, openings_of, rectangle
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import boxes_overlap
from lathlight.drawings.wall_mouldings import curve_items, moulding_items

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import BuiltWall, FramedOpening, Seam
    from lathlight.drawings.sheets import Item, Text
    from lathlight.mouldings import Casing, MouldingFrame, Strip, TrimPiece
    from lathlight.plan import Plan
    from lathlight.project import TrimLine

NEAR = 0.01  # two places that differ less are one [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One finished face, its mouldings, and where its left corner lies on the drawing [mm]."""

    wall: BuiltWall
    floor: float  # height of the finished floor above the foot of the flats
    trim: tuple[TrimLine, ...]
    pieces: tuple[TrimPiece, ...]
    strips: tuple[Strip, ...]
    casings: tuple[Casing, ...]
    frames: tuple[MouldingFrame, ...]
    left: float

    @property
    def right(self) -> float:
        """Where its right corner lies [mm]."""
        return self.left + self.wall.length


def faces_of(plan: Plan, walls: Sequence[str]) -> list[Face]:
    """Return the faces of walls that follow each other, side by side from 0."""
    faces: list[Face] = []
    left = 0.0
    for built, brief in zip(plan.walls, plan.brief.walls, strict=True):
        if built.name not in walls:
            continue
        own = built.name
        faces.append(
            Face(
                wall=built,
                floor=plan.brief.floor.rise,
                trim=brief.trim,
                pieces=tuple(p for p in plan.trim.pieces if p.wall == own) if plan.trim else (),
                strips=tuple(s for s in plan.strips if s.wall == own),
                casings=tuple(c for c in plan.casings if c.wall == own),
                frames=tuple(f for f in plan.frames.frames if f.wall == own) if plan.frames else (),
                left=left,
            )
        )
        left += built.length
    return faces


def face_items(face: Face, scale: float, *, seams: bool = True) -> list[Item]:
    """Return a face's outline, seams and joints, openings and mouldings."""
    wall = face.wall
    items: list[Item] = [Path(points=rectangle(face.left, 0.0, face.right, wall.height), closed=True, pen=Pen.OUTLINE)]
    joints = {(joint.upright, round(joint.at, 3)) for joint in wall.joints}
    for seam in wall.seams if seams else ():
        pen = Pen.OUTLINE if (seam.upright, round(seam.at, 3)) in joints else Pen.SEAM
        items.append(_seam_line(face, seam, pen))
    for opening in openings_of(wall):
        ring = tuple((face.left + x, z) for x, z in opening_ring(opening))
        items.append(Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.FAINT))
    items += moulding_items(face.strips, face.pieces, left=face.left, scale=scale)
    for casing in face.casings:
        if casing.curve is not None:
            items += curve_items(casing.curve, casing.profile, left=face.left, scale=scale)
    return items


def _seam_line(face: Face, seam: Seam, pen: Pen) -> Line:
    """Return a seam's stretch as far as it lies on the finished face; at an arch it ends at the curve."""
    low, high = max(seam.low, 0.0), min(seam.high, face.wall.height if seam.upright else face.wall.length)
    for opening in openings_of(face.wall):
        if opening.radius is not None:
            low, high = _to_curve(seam, opening, low, high)
    if seam.upright:
        return Line(a=(face.left + seam.at, low), b=(face.left + seam.at, high), pen=pen)
    return Line(a=(face.left + low, seam.at), b=(face.left + high, seam.at), pen=pen)


def _to_curve(seam: Seam, arch: FramedOpening, low: float, high: float) -> tuple[float, float]:
    """Return the ends of a seam's stretch, on to the edge of the sheet where it ended at the box round an arch."""
    x, z, w, h = arch.rough
    if seam.upright:
        return (arch_up(arch, seam.at), high) if abs(low - z - h) < NEAR and x <= seam.at <= x + w else (low, high)
    half = arch_across(arch, seam.at)
    if half is None:
        return low, high
    middle = x + w / 2
    return middle + half if abs(low - x - w) < NEAR else low, middle - half if abs(high - x) < NEAR else high


def is_in_opening(x: float, z: float, openings: Iterable[FramedOpening], near: float) -> bool:
    """Return True where a place of the wall lies in a clear opening, or nearer to it than so much [mm]."""
    return any(
        o.clear[0] - near < x < o.clear[0] + o.clear[2] + near
        and o.clear[1] - near < z < o.clear[1] + o.clear[3] + near
        for o in openings
    )


def covers_moulding(text: Text, faces: Iterable[Face]) -> bool:
    """Return True where words stand on a moulding."""
    rings = (rectangle(face.left + s.x0, s.z0, face.left + s.x1, s.z1) for face in faces for s in face.strips)
    return any(boxes_overlap(text.box, ring) for ring in rings)
