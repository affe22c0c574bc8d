"""Plane and solid geometry [mm]: polygons, prisms and lofts."""

from lathlight.geometry.plane import Ring, anticlockwise, area, cut_out, overlapping, rectangle, visible_parts
from lathlight.geometry.solid import Axis, Box, Part, Place, Solid, loft, placement, prism, transformed
from lathlight.geometry.squaring import diagonals, joint_gap, lean_of, slope_of

__all__ = [
    "Axis",
    "Box",
    "Part",
    "Place",
    "Ring",
    "Solid",
    "anticlockwise",
    "area",
    "cut_out",
    "diagonals",
    "joint_gap",
    "lean_of",
    "loft",
    "overlapping",
    "placement",
    "prism",
    "rectangle",
    "slope_of",
    "transformed",
    "visible_parts",
]
