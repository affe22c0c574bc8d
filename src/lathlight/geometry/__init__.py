"""Plane and solid geometry [mm]: polygons, prisms, lofts and swept sections."""

from lathlight.geometry.plane import Ring, anticlockwise, area, cut_out, overlapping, rectangle, visible_parts
from lathlight.geometry.polyhedron import Box, Place, Polyhedron, joined_faces
from lathlight.geometry.solid import Axis, Body, Part, Solid, loft, placement, prism, transformed
from lathlight.geometry.squaring import diagonals, joint_gap, lean_of, slope_of
from lathlight.geometry.sweep import EndCut, swept, swept_through

__all__ = [
    "Axis",
    "Body",
    "Box",
    "EndCut",
    "Part",
    "Place",
    "Polyhedron",
    "Ring",
    "Solid",
    "anticlockwise",
    "area",
    "cut_out",
    "diagonals",
    "joined_faces",
    "joint_gap",
    "lean_of",
    "loft",
    "overlapping",
    "placement",
    "prism",
    "rectangle",
    "slope_of",
    "swept",
    "swept_through",
    "transformed",
    "visible_parts",
]
