"""Where the middle line of each picture meets the walls.

Needs walls only, so that seams can be placed away from the pictures' centres. Coverage of whole frames is not decided
here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.layout import Point, WallLine


@dataclass(frozen=True, slots=True, kw_only=True)
class MiddleLine:
    """The upright line on a wall that lies behind the sitter in a picture's middle."""

    wall: str
    picture: str
    along: float  # from the wall's left face corner [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """A picture's name, the sitter's place in set axes [mm], and camera angles at the sitter [rad]."""

    picture: str
    sitter: Point
    angles: tuple[float, ...]


def middle_lines(walls: Sequence[WallLine], aims: Sequence[Aim]) -> tuple[MiddleLine, ...]:
    """Return the middle lines of all pictures on the walls they meet, sorted by wall, place and picture.

    A ray runs from the camera through the sitter to the first wall whose face it meets from the front. Angles are
    measured at the sitter from the set's axis, to the right positive: a camera at 0 looks along +y.
    """
    found: set[tuple[int, float, str]] = set()
    for aim in aims:
        for angle in aim.angles:
            hit = _first_wall(walls, aim.sitter, (-math.sin(angle), math.cos(angle)))
            if hit is not None:
                found.add((hit[0], round(hit[1], 3), aim.picture))
    return tuple(MiddleLine(wall=walls[i].name, picture=picture, along=along) for i, along, picture in sorted(found))


def _first_wall(walls: Sequence[WallLine], origin: Point, ray: Point) -> tuple[int, float] | None:
    best: tuple[float, int, float] | None = None
    for index, wall in enumerate(walls):
        (dx, dy), (rx, ry) = wall.direction, ray
        facing = dx * ry - dy * rx  # positive where the ray meets the face from the camera's side
        if facing <= 1e-9:
            continue
        px, py = wall.start[0] - origin[0], wall.start[1] - origin[1]
        distance = (dx * py - dy * px) / facing
        along = distance * (rx * dx + ry * dy) - (px * dx + py * dy)
        if distance > 0 and -1e-6 <= along <= wall.length + 1e-6 and (best is None or distance < best[0]):
            best = (distance, index, along)
    return None if best is None else (best[1], best[2])
