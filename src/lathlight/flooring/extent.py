"""How wide and deep the covering is: as stated, as the pictures see it, or as the walls reach, in that order.

A rectangle along the set's axes, its back at the faces, or under the flats where they stand on it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.flooring.faces import behind_faces, moved_faces
from lathlight.flooring.model import FloorFinding
from lathlight.flooring.sight import floor_seen
from lathlight.units import INCH, snap_down, snap_up

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.flooring.model import Basis, FloorJob, FloorSeen, Ring, Side
    from lathlight.layout import Point
    from lathlight.units import LengthStyle

MARGIN, MARGIN_US = 100.0, float(4 * INCH)  # beyond what the pictures see: common practice, no source
TOUCH = 0.5  # nearer than this is reached [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """The rectangle, what the pictures see of the floor, and where the faces stand; set axes [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float
    width_from: Basis
    depth_from: Basis
    seen: tuple[FloorSeen, ...]
    faces: tuple[Point, ...]
    behind: Ring  # the ground that the covering stops at

    @property
    def back(self) -> float:
        """The faces' hindmost place, y [mm]; stated depths begin here."""
        return max(y for _, y in self.faces)


def margin_of(grid: LengthStyle) -> float:
    """Return what is added beyond the pictures to each side and in front [mm]."""
    return MARGIN if grid.system == "metric" else MARGIN_US


def find_extent(job: FloorJob) -> Extent:
    """Return the covering's rectangle.

    Raises
    ------
    InputError
        No depth stated, no picture that sees the floor, no return and no sitter: nothing says how deep it is.
    """
    count = len(job.walls)
    faces = moved_faces(job.walls, [0.0] * count)
    before = behind_faces(job.walls, [0.0] * count)
    found = (floor_seen(picture, corners=faces, behind=before) for picture in job.pictures)
    seen = tuple(each for each in found if each is not None)
    offsets = [-depth for depth in job.depths] if job.under_flats else [job.gap] * count
    ends = moved_faces(job.walls, offsets)
    x0, x1, width_from = _sides(job, seen, faces, ends)
    y0, depth_from = _front(job, seen, faces, ends)
    return Extent(
        x0=x0,
        y0=y0,
        x1=x1,
        y1=max(y for _, y in (*faces, *ends)) if job.under_flats else max(y for _, y in faces),
        width_from=width_from,
        depth_from=depth_from,
        seen=seen,
        faces=faces,
        behind=behind_faces(job.walls, offsets),
    )


def _sides(
    job: FloorJob, seen: Sequence[FloorSeen], faces: Sequence[Point], ends: Sequence[Point]
) -> tuple[float, float, Basis]:
    if job.width is not None:
        return -job.width / 2, job.width / 2, "stated"
    margin, under = margin_of(job.grid), ends if job.under_flats else ()
    if seen:
        xs = [*(s.left - margin for s in seen), *(s.right + margin for s in seen), *(x for x, _ in under)]
        return snap_down(min(xs), job.grid), snap_up(max(xs), job.grid), "pictures"
    xs = [x for x, _ in (*faces, *under)]
    return snap_down(min(xs), job.grid), snap_up(max(xs), job.grid), "walls"


def _front(
    job: FloorJob, seen: Sequence[FloorSeen], faces: Sequence[Point], ends: Sequence[Point]
) -> tuple[float, Basis]:
    back = max(y for _, y in faces)
    if job.depth is not None:
        return back - job.depth, "stated"
    margin, under = margin_of(job.grid), [y for _, y in ends] if job.under_flats else []
    if seen:
        return snap_down(min([*(s.front - margin for s in seen), *under]), job.grid), "pictures"
    front = min([*(y for _, y in faces), *(y - margin for _, y in job.sitters), *under])
    if back - front <= TOUCH:
        raise InputError.of(
            place="floor depth",
            found=f'a covering "{job.covering}" without depth, and no picture that sees the floor',
            expected="the depth of the covering, a picture with the floor in it, or a return",
            remedy="Add depth to [floor], from the wall towards the camera.",
        )
    return snap_down(front, job.grid), "walls"


# --- what would go wrong -----------------------------------------------------------------------------------------


def extent_findings(job: FloorJob, extent: Extent) -> Iterator[FloorFinding]:
    """Yield where a stated covering is smaller than what a picture sees, and flats that stand on it by half."""
    for seen in extent.seen:
        yield from _short(seen, extent)
    if job.under_flats:
        yield from _half_on(job, extent)


def _short(seen: FloorSeen, extent: Extent) -> Iterator[FloorFinding]:
    reach: tuple[tuple[Side, float, float], ...] = (
        ("left", -extent.x0, -seen.left),
        ("right", extent.x1, seen.right),
        ("front", extent.back - extent.y0, extent.back - seen.front),
    )
    for side, found, limit in reach:
        if limit > found + TOUCH:
            yield FloorFinding(
                kind="floor short of the picture", what=seen.picture, side=side, found=found, limit=limit
            )


def _half_on(job: FloorJob, extent: Extent) -> Iterator[FloorFinding]:
    """Yield walls whose flats reach past the covering's edge: they would stand out of level by its thickness."""
    for wall, depth in zip(job.walls, job.depths, strict=True):
        foot = [wall.at(along=a, behind=b) for a in (0.0, wall.length) for b in (0.0, depth)]
        reach: tuple[tuple[Side, float, float], ...] = (
            ("left", -extent.x0, -min(x for x, _ in foot)),
            ("right", extent.x1, max(x for x, _ in foot)),
            ("front", extent.back - extent.y0, extent.back - min(y for _, y in foot)),
        )
        for side, found, limit in reach:
            if limit > found + TOUCH:
                yield FloorFinding(
                    kind="flats half on the covering", what=wall.name, side=side, found=found, limit=limit
                )
