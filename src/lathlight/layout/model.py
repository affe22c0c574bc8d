"""Where the walls' finished faces stand: the frozen values of the layout.

Set axes: origin at the foot of the set's axis on its face, x to the right as the camera sees it, y away from the
camera, z up. Wall axes: ``along`` from the wall's left face corner, ``behind`` the finished face (in front of it is
negative), z up. The set's axis runs through the middle of the middle wall, square to it, or, with an even number of
walls, through the middle corner, halving its inside angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """The foot of one wall's finished face, in set axes [mm]."""

    name: str
    start: Point  # left face corner
    direction: Point  # unit vector from left to right
    length: float
    height: float

    @property
    def end(self) -> Point:
        """Right face corner [mm]."""
        return self.at(along=self.length, behind=0.0)

    def at(self, *, along: float, behind: float) -> Point:
        """Return the point of the plan at a place in wall axes [mm]."""
        (x, y), (dx, dy) = self.start, self.direction
        return x + along * dx - behind * dy, y + along * dy + behind * dx


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """Where the set's axes lie in the room's: origin [mm] and turn [rad], anticlockwise from above."""

    x: float
    y: float
    turn: float

    def to_room(self, point: Point) -> Point:
        """Return a point of the set's axes in the room's [mm]."""
        c, s = math.cos(self.turn), math.sin(self.turn)
        return self.x + c * point[0] - s * point[1], self.y + s * point[0] + c * point[1]

    def to_set(self, point: Point) -> Point:
        """Return a point of the room's axes in the set's [mm]."""
        c, s = math.cos(self.turn), math.sin(self.turn)
        dx, dy = point[0] - self.x, point[1] - self.y
        return c * dx + s * dy, -s * dx + c * dy


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """All walls in set axes, and the set in the room."""

    walls: tuple[WallLine, ...]
    pose: Pose

    def wall(self, name: str) -> WallLine:
        """Return the wall of that name; KeyError where there is none."""
        for wall in self.walls:
            if wall.name == name:
                return wall
        raise KeyError(name)
