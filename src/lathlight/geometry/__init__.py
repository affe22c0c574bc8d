"""Plane and solid geometry [mm]: polygons, prisms and lofts."""

from lathlight.geometry.plane import Ring, area, cut_out, rectangle
from lathlight.geometry.solid import Axis, Box, Part, Place, Solid, loft, placement, prism, transformed

__all__ = [
    "Axis",
    "Box",
    "Part",
    "Place",
    "Ring",
    "Solid",
    "area",
    "cut_out",
    "loft",
    "placement",
    "prism",
    "rectangle",
    "transformed",
]
