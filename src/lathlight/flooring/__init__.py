"""The floor covering: how far it reaches before the walls, its rows and seams, and how much of it there is."""

from lathlight.flooring.extent import margin_of
from lathlight.flooring.faces import behind_faces, moved_faces
from lathlight.flooring.floor import plan_floor
from lathlight.flooring.laying import lay_boards, lay_rows, row_edges
from lathlight.flooring.model import (
    FloorFinding,
    FloorJob,
    FloorPlan,
    FloorRow,
    FloorSeen,
    PictureFrame,
)
from lathlight.flooring.sight import camera_distance, floor_seen, nearest_floor

__all__ = [
    "FloorFinding",
    "FloorJob",
    "FloorPlan",
    "FloorRow",
    "FloorSeen",
    "PictureFrame",
    "behind_faces",
    "camera_distance",
    "floor_seen",
    "lay_boards",
    "lay_rows",
    "margin_of",
    "moved_faces",
    "nearest_floor",
    "plan_floor",
    "row_edges",
]
