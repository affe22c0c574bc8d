"""Solids of parts: an outline, perhaps with holes, extruded or lofted between two parallel planes.

Decides the triangles, volume, centroid and box; which outline a part has is the carpentry's business. A solid is plain
data: its corners, and which of them make up its two ends. Axes are right-handed with z up; y runs away from the camera,
so that wall axes (along, behind, up) and set axes serve alike.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal, overload

import numpy as np

from lathlight.geometry.plane import area
from lathlight.geometry.polyhedron import Box, Place, Polyhedron, box_of, centroid_of, moments, surface_of
from lathlight.geometry.triangulation import Triangle, triangulate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

Point = tuple[float, float]
Axis = Literal["height", "depth"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """A body between two ends of equally many corners.

    ``points`` holds the corners of the foot, then those of the head in the same order [mm]; ``rings`` says how many of
    them belong to the outline and to each hole. Seen from the head's side the outline runs anticlockwise.
    """

    points: tuple[Place, ...]
    rings: tuple[int, ...]
    foot: tuple[Triangle, ...]  # indices into the foot's corners, anticlockwise seen from the head's side
    head: tuple[Triangle, ...]  # the same for the head's corners, counted from the head's first

    @property
    def volume(self) -> float:
        """Volume [mm3]."""
        return moments(*self.triangles())[0]

    @property
    def centroid(self) -> Place:
        """Centre of the volume [mm]."""
        return centroid_of(*self.triangles())

    @property
    def box(self) -> Box:
        """Lowest and highest corner of the smallest upright box around it [mm]."""
        return box_of(self.points)

    @property
    def shape(self) -> tuple[object, ...]:
        """What two bodies with the same corners must share to be the same."""
        return self.rings, self.foot, self.head

    def triangles(self) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
        """Return the closed surface.

        Returns
        -------
        vertices
            (n, 3) mm, each corner once.
        faces
            (m, 3) indices, anticlockwise seen from outside.
        """
        return surface_of(self.points, self.facets())

    def facets(self) -> tuple[tuple[Triangle, ...], ...]:
        """Return the triangles grouped by the plane they lie in: foot, head, then the sides ring by ring."""
        half = len(self.points) // 2
        ends = [
            tuple((c, b, a) for a, b, c in self.foot),
            tuple((a + half, b + half, c + half) for a, b, c in self.head),
        ]
        sides: list[tuple[Triangle, ...]] = []
        start = 0
        for index, count in enumerate(self.rings):
            corners = range(start, start + count)
            for i, j in zip(corners, (*corners[1:], start), strict=True):
                a, b = (i, j) if index == 0 else (j, i)  # holes are stored anticlockwise and face inwards
                sides.append(((a, b, b + half), (a, b + half, a + half)))
            start += count
        return (*ends, *sides)


Body = Solid | Polyhedron


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of the set as a solid: what an export needs to know of it."""

    id: str  # "back/1/stud/610"
    path: tuple[str, ...]  # what it belongs to, from the outside in: wall, flat
    material: str  # "timber", "sheet", "plate", "lining", "moulding", "floor"
    solid: Body  # set axes


def prism(
    outline: Sequence[Point], holes: Sequence[Sequence[Point]] = (), *, low: float, high: float, axis: Axis
) -> Solid:
    """Return an outline extruded square to its plane.

    Parameters
    ----------
    outline, holes
        Simple rings, either way round, without the closing point [mm]: (x, y) for ``"height"``, (x, z) for
        ``"depth"``.
    low, high
        Where it begins and ends along the axis [mm].
    axis
        ``"height"``: a plan outline from z = low to z = high; ``"depth"``: an elevation outline from its front
        y = low to its back y = high.

    Raises
    ------
    ValueError
        Nothing between low and high, or a hole that lies outside the outline.

    Examples
    --------
    >>> prism([(0, 0), (38, 0), (38, 38), (0, 38)], low=0, high=2400, axis="height").volume
    3465600.0
    """
    return loft(outline, outline, holes, holes, low=low, high=high, axis=axis)


def loft(
    front: Sequence[Point],
    back: Sequence[Point],
    front_holes: Sequence[Sequence[Point]] = (),
    back_holes: Sequence[Sequence[Point]] = (),
    *,
    low: float,
    high: float,
    axis: Axis,
) -> Solid:
    """Return the body between two matched outlines in parallel planes: a sheet with bevelled edges, for one.

    Parameters
    ----------
    front, back
        Outline at ``low`` and at ``high``, corner by corner, the same way round [mm].
    front_holes, back_holes
        Holes, matched in the same way; straight ones where both are the same.
    low, high, axis
        As for `prism`: for ``"height"`` the front is the bottom.

    Raises
    ------
    ValueError
        Outlines that do not match, nothing between low and high, or a hole that lies outside the outline.
    """
    if not high > low:
        msg = f"a solid needs room between {low} and {high}"
        raise ValueError(msg)
    fronts, backs = [tuple(r) for r in (front, *front_holes)], [tuple(r) for r in (back, *back_holes)]
    rings = tuple(len(ring) for ring in fronts)
    if rings != tuple(len(ring) for ring in backs):
        msg = "the two ends of a solid must have the same corners"
        raise ValueError(msg)
    for index, ring in enumerate(fronts):
        if area(ring) < 0:
            fronts[index], backs[index] = ring[::-1], backs[index][::-1]
    if axis == "height":
        return _between(fronts, backs, [_level(fronts, low), _level(backs, high)], rings)
    return _between(backs, fronts, [_upright(backs, high), _upright(fronts, low)], rings)


@overload
def transformed(solid: Solid, matrix: ArrayLike) -> Solid: ...
@overload
def transformed(solid: Body, matrix: ArrayLike) -> Body: ...
def transformed(solid: Body, matrix: ArrayLike) -> Body:
    """Return a body turned, moved, stretched or mirrored.

    Parameters
    ----------
    matrix
        (4, 4), acts on columns (x, y, z, 1); its last row is 0, 0, 0, 1.

    Raises
    ------
    ValueError
        A matrix that is not affine, or that flattens the solid.
    """
    m = np.asarray(matrix, dtype=np.float64)
    if m.shape != (4, 4) or not np.array_equal(m[3], (0.0, 0.0, 0.0, 1.0)):
        msg = "a solid is moved by a (4, 4) matrix whose last row is 0, 0, 0, 1"
        raise ValueError(msg)
    turn = float(np.linalg.det(m[:3, :3]))
    if turn == 0.0:
        msg = "the matrix flattens the solid"
        raise ValueError(msg)
    moved = np.array(solid.points) @ m[:3, :3].T + m[:3, 3]
    points = tuple((float(x), float(y), float(z)) for x, y, z in moved)
    if turn > 0:
        return replace(solid, points=points)
    if isinstance(solid, Polyhedron):
        return replace(solid, points=points, faces=tuple(tuple((c, b, a) for a, b, c in f) for f in solid.faces))
    half = len(points) // 2  # a mirrored body shows its foot where its head was
    return replace(solid, points=points[half:] + points[:half], foot=solid.head, head=solid.foot)


def placement(*, x: float, y: float, z: float = 0.0, turn: float = 0.0) -> NDArray[np.float64]:
    """Return the matrix that turns about the upright axis and then moves: from wall axes to set axes, for one.

    Parameters
    ----------
    x, y, z
        Where the origin goes [mm].
    turn
        Anticlockwise seen from above [rad].
    """
    c, s = math.cos(turn), math.sin(turn)
    matrix = np.array([[c, -s, 0.0, x], [s, c, 0.0, y], [0.0, 0.0, 1.0, z], [0.0, 0.0, 0.0, 1.0]])
    matrix.flags.writeable = False
    return matrix


Rings = list[tuple[Point, ...]]


def _between(foot: Rings, head: Rings, ends: list[list[Place]], rings: tuple[int, ...]) -> Solid:
    below = triangulate(foot[0], foot[1:])
    above = below if head == foot else triangulate(head[0], head[1:])
    return Solid(points=tuple(ends[0] + ends[1]), rings=rings, foot=below, head=above)


def _level(rings: Rings, height: float) -> list[Place]:
    return [(float(x), float(y), float(height)) for ring in rings for x, y in ring]


def _upright(rings: Rings, depth: float) -> list[Place]:
    return [(float(x), float(depth), float(z)) for ring in rings for x, z in ring]
