"""Bodies between plane faces of any shape, put together from convex faces.

For what is no body between two ends of equally many corners (``lathlight.geometry.solid``): the coped end of a
moulding, a return that runs out to an edge. Decides which corners are one, and the triangles; the faces are given.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from lathlight.geometry.triangulation import Triangle

Place = tuple[float, float, float]
Box = tuple[Place, Place]

SAME = 1e-5  # corners nearer than this are one [mm]; sections are written to 0.01 mm
QUAD = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyhedron:
    """A closed body, its triangles grouped by the plane face they lie in."""

    points: tuple[Place, ...]  # each corner once [mm]
    faces: tuple[tuple[Triangle, ...], ...]  # indices into the points, anticlockwise seen from outside

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
        return self.faces

    def facets(self) -> tuple[tuple[Triangle, ...], ...]:
        """Return the triangles grouped by the plane they lie in."""
        return self.faces

    def triangles(self) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
        """Return the closed surface: vertices (n, 3) mm, and faces (m, 3), anticlockwise seen from outside."""
        return surface_of(self.points, self.faces)


def joined_faces(faces: Iterable[Sequence[Place]]) -> Polyhedron:
    """Return the closed body that plane faces enclose.

    Parameters
    ----------
    faces
        Convex outlines, anticlockwise seen from outside [mm]; corners may coincide, a face may have shrunk to a line.
        Each stretch of an edge borders two faces, however many corners others have upon it.

    Examples
    --------
    >>> o, a, b, c = (0, 0, 0), (6, 0, 0), (0, 6, 0), (0, 0, 6)
    >>> body = joined_faces([(o, b, a), (o, a, c), (o, c, b), (a, b, c), (o, o, a)])
    >>> body.volume, len(body.points), len(body.faces)
    (36.0, 4, 4)
    """
    corners = _Corners()
    loops = [_open_loop([corners.number(p) for p in face]) for face in faces]
    loops = [loop for loop in loops if len(loop) > 2]
    full = _with_all_corners(loops, np.array(corners.places))
    points = list(corners.places)
    triangles = tuple(_triangles(loop, len(short), points) for loop, short in zip(full, loops, strict=True))
    return Polyhedron(points=tuple(points), faces=triangles)


def surface_of(
    points: Sequence[Place], facets: Iterable[Iterable[Triangle]]
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Return corners and triangles as read-only arrays: (n, 3) mm, (m, 3) indices."""
    vertices = np.array(points, dtype=np.float64)
    faces = np.array([t for facet in facets for t in facet], dtype=np.int64)
    vertices.flags.writeable = faces.flags.writeable = False
    return vertices, faces


def moments(vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> tuple[float, Place]:
    """Return volume [mm3] and first moments [mm4] about the first corner, by the divergence theorem."""
    corners = (vertices - vertices[0])[faces]
    sixths = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    first = (sixths[:, None] * corners.sum(axis=1)).sum(axis=0) / 24.0
    return float(sixths.sum()) / 6.0, (float(first[0]), float(first[1]), float(first[2]))


def centroid_of(vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> Place:
    """Return the centre of a closed surface's volume [mm]."""
    volume, (x, y, z) = moments(vertices, faces)
    ox, oy, oz = (float(v) for v in vertices[0])
    return ox + x / volume, oy + y / volume, oz + z / volume


def box_of(points: Sequence[Place]) -> Box:
    """Return the lowest and highest corner of the smallest upright box around points [mm]."""
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


class _Corners:
    """Corners found so far; those that lie together are one."""

    def __init__(self) -> None:
        self.places: list[Place] = []
        self._cells: dict[tuple[int, int, int], list[int]] = {}

    def number(self, place: Place) -> int:
        x, y, z = (round(v / (2 * SAME)) for v in place)
        near = [(i, j, k) for i in (x - 1, x, x + 1) for j in (y - 1, y, y + 1) for k in (z - 1, z, z + 1)]
        for cell in near:
            for number in self._cells.get(cell, ()):
                if max(abs(a - b) for a, b in zip(self.places[number], place, strict=True)) <= SAME:
                    return number
        self._cells.setdefault((x, y, z), []).append(len(self.places))
        self.places.append((float(place[0]), float(place[1]), float(place[2])))
        return len(self.places) - 1


def _open_loop(loop: Sequence[int]) -> list[int]:
    """Return a loop without corners that repeat the one before them."""
    return [n for k, n in enumerate(loop) if n != loop[k - 1]]


def _with_all_corners(loops: Sequence[Sequence[int]], places: NDArray[np.float64]) -> list[list[int]]:
    """Return loops with every other corner that lies on one of their edges."""
    pairs = [(a, b) for loop in loops for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)]
    starts, ends = places[[a for a, _ in pairs]], places[[b for _, b in pairs]]
    edges = ends - starts
    lengths = np.linalg.norm(edges, axis=1)
    from_start = places[None, :, :] - starts[:, None, :]
    along = np.einsum("evk,ek->ev", from_start, edges) / lengths[:, None]  # [mm]
    off = np.linalg.norm(from_start - (along / lengths[:, None])[:, :, None] * edges[:, None, :], axis=2)
    on = (off <= SAME) & (along > SAME) & (along < lengths[:, None] - SAME)
    full: list[list[int]] = []
    edge = 0
    for loop in loops:
        found: list[int] = []
        for a in loop:
            upon = np.flatnonzero(on[edge])
            found += [a, *(int(n) for n in upon[np.argsort(along[edge, upon], kind="stable")])]
            edge += 1
        full.append(found)
    return full


def _triangles(loop: Sequence[int], corners: int, points: list[Place]) -> tuple[Triangle, ...]:
    """Return a convex face's triangles; with corners on its edges they fan out from a point in its middle."""
    if len(loop) == corners <= QUAD:
        return tuple((loop[0], loop[k], loop[k + 1]) for k in range(1, corners - 1))
    x, y, z = zip(*(points[n] for n in loop), strict=True)
    middle = len(points)
    points.append((sum(x) / len(x), sum(y) / len(y), sum(z) / len(z)))
    return tuple((middle, a, b) for a, b in zip(loop, (*loop[1:], loop[0]), strict=True))
