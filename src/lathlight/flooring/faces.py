"""Where the floor ends at the walls: the chain of faces, moved forward by a gap or back under the flats.

Beside the set's free ends the floor that counts ends level with them: what lies behind a return's end is seen by no
picture that the return closes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.geometry import area, cut_out

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.flooring.model import Ring
    from lathlight.layout import Point, WallLine

FAR = 1e6  # beyond all floors [mm]
PARALLEL = 1e-9  # sine of an angle between two walls that run on in one line


def behind_faces(walls: Sequence[WallLine], offsets: Sequence[float]) -> Ring:
    """Return the ground behind a chain of faces as a ring, far out to the sides and the back.

    Parameters
    ----------
    walls
        Finished faces, left to right.
    offsets
        How far each face is moved towards the camera [mm]; negative: back.
    """
    chain = moved_faces(walls, offsets)
    first, last = chain[0], chain[-1]
    high = FAR + max(y for _, y in chain)
    return (*chain, (FAR, last[1]), (FAR, high), (-FAR, high), (-FAR, first[1]))


def moved_faces(walls: Sequence[WallLine], offsets: Sequence[float]) -> tuple[Point, ...]:
    """Return the corners of the faces, each face moved square to itself; neighbours meet where their lines cross."""
    first, last = walls[0], walls[-1]
    corners = [_crossing(a, p, b, q) for a, p, b, q in zip(walls, offsets, walls[1:], offsets[1:], strict=False)]
    return (
        first.at(along=0.0, behind=-offsets[0]),
        *corners,
        last.at(along=last.length, behind=-offsets[-1]),
    )


def gap_swallows_a_wall(walls: Sequence[WallLine], gap: float) -> bool:
    """Return True where faces moved forward by a gap [mm] leave nothing of a wall: its ends have passed each other."""
    chain = moved_faces(walls, [gap] * len(walls))
    return any(
        (end[0] - start[0]) * wall.direction[0] + (end[1] - start[1]) * wall.direction[1] <= 0
        for wall, start, end in zip(walls, chain, chain[1:], strict=False)
    )


def _crossing(a: WallLine, a_offset: float, b: WallLine, b_offset: float) -> Point:
    (ax, ay), (bx, by) = a.at(along=a.length, behind=-a_offset), b.at(along=0.0, behind=-b_offset)
    (dx, dy), (ex, ey) = a.direction, b.direction
    sine = dx * ey - dy * ex
    if abs(sine) < PARALLEL:
        return ax, ay
    along = ((bx - ax) * ey - (by - ay) * ex) / sine
    return ax + along * dx, ay + along * dy


def in_front(ring: Ring, behind: Ring) -> Ring:
    """Return the part of a ring that lies before the faces, the largest where there are several; () for none."""
    parts = [outline for outline, _ in cut_out(ring, (behind,))]
    return max(parts, key=area, default=())
