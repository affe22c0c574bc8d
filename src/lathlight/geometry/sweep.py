"""Mouldings as bodies: a section swept along a straight run between two cuts, or through rows of corners.

Decides the corners and faces; where a cut lies is told by whoever asks. A section's points are (out, up) [mm], out of
the wall and up it. A body's axes are those of a wall: (along, behind, up), so that behind is less than nothing in front
of the face.

A coped end follows the front of the neighbour's section, which is the same section: at every height it stands off by
how far the section reaches out there. It is exact for the section as it is given: between two heights at which the
section has corners its front is straight, so that the end is plane there, and where the front jumps the end has a level
ledge. Of a section that is undercut the foremost reach counts.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.geometry.plane import area
from lathlight.geometry.polyhedron import Polyhedron, joined_faces
from lathlight.geometry.solid import Solid
from lathlight.geometry.triangulation import triangulate

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.geometry.polyhedron import Place
    from lathlight.geometry.triangulation import Triangle

Point = tuple[float, float]
Face = tuple["Place", ...]

TOUCH = 1e-6  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """Where a run ends along itself, over its section: ``at + out * by_out + up * by_up + front * by_front`` [mm].

    ``front`` is how far the section reaches out at that height: with it the end is coped, without it the end is plane.
    """

    at: float
    by_out: float = 0.0
    by_up: float = 0.0
    by_front: float = 0.0

    def along(self, out: float, up: float) -> float:
        """Return the place of a plane end at a point of the section [mm]."""
        return self.at + out * self.by_out + up * self.by_up

    def reversed(self) -> EndCut:
        """Return the cut for a run that is measured the other way."""
        return EndCut(at=-self.at, by_out=-self.by_out, by_up=-self.by_up, by_front=-self.by_front)


def swept(section: Sequence[Point], *, left: EndCut, right: EndCut) -> Solid | Polyhedron | None:
    """Return the body of a section swept from its left cut to its right cut; None where they leave nothing.

    Parameters
    ----------
    section
        Simple ring without the closing point, either way round, (out, up) [mm].
    left, right
        The left cut lies to the left all over the section; both may meet in a point or an edge of it. Plane cuts that
        cross within the section leave nothing; of coped ones the stretches in which they cross are left out.

    Examples
    --------
    >>> board = [(0, 0), (20, 0), (20, 100), (0, 100)]
    >>> swept(board, left=EndCut(at=0, by_out=1), right=EndCut(at=1000, by_out=-1)).volume
    1960000.0
    """
    ring = tuple(section) if area(tuple(section)) > 0 else tuple(section)[::-1]
    if left.by_front or right.by_front:
        return _stepped(ring, left, right)
    lengths = [right.along(*p) - left.along(*p) for p in ring]
    if min(lengths) < -TOUCH or max(lengths) < TOUCH:
        return None
    at_left, at_right = ([(cut.along(out, up), -out, up) for out, up in ring] for cut in (left, right))
    triangles = triangulate(ring)
    if min(lengths) > TOUCH:
        return Solid(points=tuple(at_right + at_left), rings=(len(ring),), foot=triangles, head=triangles)
    ends = [tuple(at_left[n] for n in t) for t in triangles] + [tuple(at_right[n] for n in t[::-1]) for t in triangles]
    pairs = list(zip(at_left, at_right, strict=True))
    sides = [(a, c, d, b) for (a, c), (b, d) in zip(pairs, [*pairs[1:], pairs[0]], strict=True)]
    return joined_faces([*ends, *sides])


def swept_through(section: Sequence[Point], rows: Sequence[Sequence[Place]]) -> Polyhedron:
    """Return the body of a section that passes through rows of corners: round an arc, for one.

    Parameters
    ----------
    section
        As for `swept`, anticlockwise.
    rows
        From the left end of the run to its right end, at least two, none of which touch [mm]; each has the section's
        corners in their order. The two outermost are plane. What lies between two corners of one row and the next
        counts as one face, also where it is slightly twisted.

    Raises
    ------
    ValueError
        Rows that do not match the section.
    """
    count = len(section)
    if len(rows) < 2 or any(len(row) != count for row in rows):
        raise ValueError("every row of a run has the corners of its section, and a run has two ends")
    triangles = triangulate(section)
    last = count * (len(rows) - 1)
    faces: list[tuple[Triangle, ...]] = [triangles, tuple((c + last, b + last, a + last) for a, b, c in triangles)]
    for start in range(0, last, count):
        for k in range(count):
            a, b = start + k, start + (k + 1) % count
            faces.append(((a, a + count, b + count), (a, b + count, b)))
    return Polyhedron(points=tuple(place for row in rows for place in row), faces=tuple(faces))


# --- coped ends: the section in level bands, each between plane cuts -----------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """One stretch of the section between two heights without a corner between them, and its cuts."""

    low: float
    high: float
    back: tuple[float, float]  # out at the foot and at the head
    front: tuple[float, float]
    left: EndCut
    right: EndCut

    def level(self, *, top: bool) -> _Span:
        """Return the cell's own level face, its head or its foot."""
        k, up = (1, self.high) if top else (0, self.low)
        return _Span(back=self.back[k], front=self.front[k], up=up, left=self.left, right=self.right)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    """A level face of a cell."""

    back: float
    front: float
    up: float
    left: EndCut
    right: EndCut


def _stepped(ring: tuple[Point, ...], left: EndCut, right: EndCut) -> Polyhedron | None:
    """Return the body of a section whose cuts follow its front."""
    cells = list(_cells(ring, left, right))
    if not cells:
        return None
    faces = [face for cell in cells for face in _upright_faces(cell)]
    for up in sorted({c.low for c in cells} | {c.high for c in cells}):
        below = [c.level(top=True) for c in cells if c.high == up]
        above = [c.level(top=False) for c in cells if c.low == up]
        faces += [face[::-1] for face in _level_faces(above, below)]
        faces += _level_faces(below, above)
    return joined_faces(faces)


def _cells(ring: tuple[Point, ...], left: EndCut, right: EndCut) -> Iterator[_Cell]:
    """Yield the section's stretches from the bottom up, from the wall outwards; those cut away are left out."""
    heights = sorted({up for _, up in ring})
    for low, high in itertools.pairwise(heights):
        crossing = _crossing(ring, low, high)
        front = crossing[-1]
        cuts = _plane(left, front, low, high), _plane(right, front, low, high)
        for back, fore in zip(crossing[::2], crossing[1::2], strict=True):
            cell = _Cell(low=low, high=high, back=back, front=fore, left=cuts[0], right=cuts[1])
            if _has_room(cell):
                yield cell


def _crossing(ring: tuple[Point, ...], low: float, high: float) -> list[tuple[float, float]]:
    """Return out at two heights of every side that runs from one to the other, from the wall outwards."""
    found: list[tuple[float, float]] = []
    for (a, u), (b, v) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if min(u, v) <= low and max(u, v) >= high:
            slope = (b - a) / (v - u)
            found.append((a + slope * (low - u), a + slope * (high - u)))
    return sorted(found, key=lambda side: (side[0] + side[1], side))


def _plane(cut: EndCut, front: tuple[float, float], low: float, high: float) -> EndCut:
    """Return a cut as the plane that it is between two heights."""
    slope = (front[1] - front[0]) / (high - low)
    return replace(
        cut,
        at=cut.at + cut.by_front * (front[0] - slope * low),
        by_up=cut.by_up + cut.by_front * slope,
        by_front=0.0,
    )


def _has_room(cell: _Cell) -> bool:
    corners = itertools.product((0, 1), (cell.back, cell.front))
    return all(
        cell.right.along(side[k], (cell.low, cell.high)[k]) - cell.left.along(side[k], (cell.low, cell.high)[k]) > TOUCH
        for k, side in corners
    )


def _upright_faces(cell: _Cell) -> tuple[Face, ...]:
    """Return a cell's left end, right end, front and back."""
    section = (
        (cell.back[0], cell.low),
        (cell.front[0], cell.low),
        (cell.front[1], cell.high),
        (cell.back[1], cell.high),
    )
    a, b, c, d = ((cell.left.along(out, up), -out, up) for out, up in section)
    e, f, g, h = ((cell.right.along(out, up), -out, up) for out, up in section)
    return (a, b, c, d), (e, h, g, f), (b, f, g, c), (e, a, d, h)


def _level_faces(own: Sequence[_Span], other: Sequence[_Span]) -> list[Face]:
    """Return what of level faces the others do not cover, anticlockwise seen from above.

    Both kinds end along parallel lines, so that between two corners, from the wall outwards, each is a plain strip.
    """
    outs = sorted({out for s in (*own, *other) for out in (s.back, s.front)})
    faces: list[Face] = []
    for near, far in itertools.pairwise(outs):
        middle = (near + far) / 2
        covers = next((s for s in other if s.back < middle < s.front), None)
        for span in (s for s in own if s.back < middle < s.front):
            for left, right in _uncovered(span, covers, middle):
                corners = ((left, far), (right, far), (right, near), (left, near))
                faces.append(tuple((cut.along(out, span.up), -out, span.up) for cut, out in corners))
    return faces


def _uncovered(span: _Span, cover: _Span | None, out: float) -> list[tuple[EndCut, EndCut]]:
    if cover is None:
        return [(span.left, span.right)]
    up = span.up
    found: list[tuple[EndCut, EndCut]] = []
    if span.left.along(out, up) < cover.left.along(out, up) - TOUCH:
        found.append((span.left, cover.left))
    if cover.right.along(out, up) < span.right.along(out, up) - TOUCH:
        found.append((cover.right, span.right))
    return found
