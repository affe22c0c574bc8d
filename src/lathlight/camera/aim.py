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

PARALLEL = 1e-9  # sine of the angle between a ray and a face that it never meets
TOUCH = 1e-6  # places this near are the same [mm]


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
            hits = _first_walls(walls, aim.sitter, (-math.sin(angle), math.cos(angle)))
            found.update((index, round(along, 3), aim.picture) for index, along in hits)
    return tuple(MiddleLine(wall=walls[i].name, picture=picture, along=along) for i, along, picture in sorted(found))


def _first_walls(walls: Sequence[WallLine], origin: Point, ray: Point) -> list[tuple[int, float]]:
    """Return the wall that a ray meets first, by index, with the place along it; both walls in a corner line."""
    hits: list[tuple[float, int, float]] = []
    for index, wall in enumerate(walls):
        (dx, dy), (rx, ry) = wall.direction, ray
        facing = dx * ry - dy * rx  # positive where the ray meets the face from the camera's side
        if facing <= PARALLEL:
            continue
        px, py = wall.start[0] - origin[0], wall.start[1] - origin[1]
        distance = (dx * py - dy * px) / facing
        along = distance * (rx * dx + ry * dy) - (px * dx + py * dy)
        if distance > 0 and -TOUCH <= along <= wall.length + TOUCH:
            hits.append((distance, index, along))
    nearest = min((distance for distance, _, _ in hits), default=0.0)
    return [(index, along) for distance, index, along in hits if distance - nearest <= TOUCH]
