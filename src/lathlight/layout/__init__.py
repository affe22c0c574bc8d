"""Where the walls' finished faces stand, and the set in the room."""

from lathlight.layout.collide import colliding
from lathlight.layout.model import Layout, Point, Pose, WallLine
from lathlight.layout.room import footprint, place_set
from lathlight.layout.walls import lay_out_walls

__all__ = ["Layout", "Point", "Pose", "WallLine", "colliding", "footprint", "lay_out_walls", "place_set"]
