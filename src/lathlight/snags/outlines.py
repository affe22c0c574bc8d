"""The edges of a sheet piece, straight and curved, each with the side on which its sheet lies."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.geometry import area

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.carpentry import SheetPiece

STRAIGHT = 1e-6

Side = Literal["left", "right", "bottom", "top"]


@dataclass(frozen=True, slots=True)
class Edge:
    """One straight edge of a piece at its back, wall axes [mm]; the sheet lies towards ``inwards`` (1 or -1)."""

    side: Side
    at: float  # x of an upright edge, z of a level one
    low: float
    high: float
    inwards: int

    @property
    def upright(self) -> bool:
        """True for a left or right edge."""
        return self.side in ("left", "right")


def edges_of(piece: SheetPiece) -> Iterator[Edge]:
    """Yield the straight edges of a piece, those of its openings included, where its back ends."""
    xs = [x for x, _ in piece.outline]
    ends = (min(xs), max(xs))
    for ring, solid in ((piece.outline, True), *((hole, False) for hole in piece.holes)):
        turn = 1 if (area(ring) > 0) is solid else -1
        for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if abs(x1 - x0) <= STRAIGHT:
                inwards = -turn if z1 > z0 else turn
                yield Edge(
                    "right" if inwards < 0 else "left", _back(x0, ends, piece), min(z0, z1), max(z0, z1), inwards
                )
            elif abs(z1 - z0) <= STRAIGHT:
                inwards = turn if x1 > x0 else -turn
                yield Edge("bottom" if inwards > 0 else "top", z0, min(x0, x1), max(x0, x1), inwards)


@dataclass(frozen=True, slots=True)
class Chord:
    """One straight piece of a curved or slanting edge, wall axes [mm]."""

    middle: tuple[float, float]  # (x, z)
    inwards: tuple[float, float]  # unit vector into the sheet
    length: float


def chords_of(piece: SheetPiece) -> Iterator[Chord]:
    """Yield the edges of a piece that run neither upright nor level: those of arches."""
    for ring, solid in ((piece.outline, True), *((hole, False) for hole in piece.holes)):
        turn = 1 if (area(ring) > 0) is solid else -1
        for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            dx, dz = x1 - x0, z1 - z0
            if abs(dx) > STRAIGHT and abs(dz) > STRAIGHT:
                long = math.hypot(dx, dz)
                yield Chord(((x0 + x1) / 2, (z0 + z1) / 2), (-turn * dz / long, turn * dx / long), long)


def _back(x: float, ends: tuple[float, float], piece: SheetPiece) -> float:
    """Return where an upright edge lies at the back of a piece whose ends may be bevelled."""
    if x == ends[0]:
        return x - piece.bevel_left
    if x == ends[1]:
        return x + piece.bevel_right
    return x


def thinnest(piece: SheetPiece) -> float:
    """Return the least distance between two edges of a piece that face each other over sheet, both ends level [mm].

    Its own width or height where it is a plain rectangle.
    """
    edges = list(edges_of(piece))
    best = float("inf")
    for one in edges:
        if one.inwards < 0:
            continue
        for other in edges:
            if other.upright is one.upright and other.inwards < 0 and other.low < one.high and other.high > one.low:
                across = other.at - one.at
                if across > STRAIGHT:
                    best = min(best, across)
    return best
