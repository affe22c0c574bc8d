"""Where a sheet lies on timber that a screw may enter, as rectangles that keep clear of every edge.

Decides edge distances; which places in a land are taken, and by what, is left to ``sheet_heads``. Ripped wedges and
packing carry glue but no screw: they are too thin for one.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.finishing import front_of, stretches_on

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Member, SheetPiece
    from lathlight.fixing.model import Point

SHEET_EDGE = 9.5  # least distance of a head from a sheet's edge [mm], 3/8 in: common practice, no source
TIMBER_EDGE = 8.0  # least timber beside a screw [mm]: common practice, no source
RIM = 50.0  # timber within this of a sheet's edge holds that edge [mm]: common practice, no source
TOUCH = 1e-3
NO_SCREW = frozenset({"wedge", "packing"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Land:
    """One stretch of one member behind one sheet piece, edge distances taken off [mm]."""

    member: Member
    upright: bool
    low: float  # across the member
    high: float
    start: float  # along it
    end: float
    at_edge: bool  # True: it holds an edge of the sheet


def lands_of(piece: SheetPiece, members: Iterable[Member]) -> tuple[Land, ...]:
    """Return the lands of a piece: those along its edges first, level before upright, then from the middle out."""
    middle = (_middle(piece, 0), _middle(piece, 1))
    found = [
        land
        for member in members
        if member.role not in NO_SCREW and abs(member.behind - piece.sheet.thickness) < TOUCH
        for land in _on_member(piece, member)
    ]

    def order(land: Land) -> tuple[bool, bool, float, float]:
        from_middle = abs((land.low + land.high) / 2 - middle[0 if land.upright else 1])
        return not land.at_edge, land.upright, round(from_middle, 3), land.start

    return tuple(sorted(found, key=order))


def _middle(piece: SheetPiece, axis: int) -> float:
    along = [p[axis] for p in piece.outline]
    return (min(along) + max(along)) / 2


def _on_member(piece: SheetPiece, member: Member) -> Iterator[Land]:
    """Yield the lands on one member; an opening's edge that lies on it divides it."""
    axis = 1 if member.upright else 0
    low, high = front_of(member)
    first, size = (member.z, member.high) if member.upright else (member.x, member.wide)
    first, last = _within(piece, axis, first, first + size)
    if last - first < 2 * SHEET_EDGE or not _reaches(piece, 1 - axis, low, high):
        return
    cuts = _cuts(piece, axis, low, high, first, last)
    for begin, stop in itertools.pairwise(cuts):
        for one, other in stretches_on(piece, (begin + stop) / 2, 1 - axis):
            if other <= low or one >= high:
                continue
            across = max(one + SHEET_EDGE, low + TIMBER_EDGE), min(other - SHEET_EDGE, high - TIMBER_EDGE)
            if across[1] < across[0] - TOUCH:
                continue
            edge = low - one < RIM or other - high < RIM
            for a, b in stretches_on(piece, sum(across) / 2, axis):
                start, end = max(a, begin) + SHEET_EDGE, min(b, stop) - SHEET_EDGE
                if end >= start:
                    yield Land(
                        member=member, upright=member.upright, low=across[0], high=across[1], start=start, end=end,
                        at_edge=edge,
                    )  # fmt: skip


def _within(piece: SheetPiece, axis: int, first: float, last: float) -> tuple[float, float]:
    along = [p[axis] for p in piece.outline]
    return max(first, min(along)), min(last, max(along))


def _reaches(piece: SheetPiece, axis: int, low: float, high: float) -> bool:
    across = [p[axis] for p in piece.outline]
    return min(high, max(across)) - max(low, min(across)) > TIMBER_EDGE


def _cuts(piece: SheetPiece, axis: int, low: float, high: float, first: float, last: float) -> list[float]:
    """Return where a member is divided: at the ends of sheet edges that run along it, on it or close beside it."""
    found = {first, last}
    for a, b in edges_of(piece):
        if abs(a[1 - axis] - b[1 - axis]) < TOUCH and low - SHEET_EDGE < a[1 - axis] < high + SHEET_EDGE:
            found |= {p for p in (a[axis], b[axis]) if first + TOUCH < p < last - TOUCH}
    return sorted(found)


def edges_of(piece: SheetPiece) -> Iterator[tuple[Point, Point]]:
    """Yield every edge of a piece: its outline's and its openings'."""
    for ring in (piece.outline, *piece.holes):
        yield from zip(ring, (*ring[1:], ring[0]), strict=True)


def is_plain(piece: SheetPiece) -> bool:
    """Return True where a piece is one whole rectangle, so that a land's own edges keep every distance."""
    return not piece.holes and len(piece.outline) == 4 and _square(piece.outline)


def _square(ring: Sequence[Point]) -> bool:
    return all(a[0] == b[0] or a[1] == b[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def edge_distance(point: Point, piece: SheetPiece) -> float:
    """Distance from a point to the nearest edge of a piece or of an opening in it [mm]."""
    return min(distance(point, a, b) for a, b in edges_of(piece))


def distance(point: Point, a: Point, b: Point) -> float:
    """Distance from a point to the stretch between two others."""
    return math.dist(point, nearest_on(point, a, b))


def nearest_on(point: Point, a: Point, b: Point) -> Point:
    """Return the place on the stretch between two points that is nearest to another one."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    share = 0.0 if length == 0 else max(0.0, min(1.0, ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / length))
    return a[0] + share * dx, a[1] + share * dy
