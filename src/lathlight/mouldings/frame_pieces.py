"""The pieces of moulding frames: four mitred lengths to a frame, or whole frames to buy.

Decides lengths, mitres and hands. Which stock lengths they come out of is left to the cutting. A frame's size is
outside to outside; a piece is measured along its outer edge (long points) and its inner edge (short points).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterable

MITRE = math.pi / 4  # [rad] from square, both ends of every piece

PieceRole = Literal["top", "right", "bottom", "left"]
CLOCKWISE: tuple[PieceRole, ...] = ("top", "right", "bottom", "left")
Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePiece:
    """One side of a mitred frame, seen from its face with its outer edge up."""

    role: PieceRole
    long_points: float  # along the outer edge [mm]
    short_points: float  # along the inner edge [mm]
    mitres: tuple[float, float] = (MITRE, MITRE)  # [rad] from square
    hands: tuple[Hand, Hand] = ("left", "right")  # both ends lean in: one cut of each hand on the same face


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLine:
    """Pieces of the same size, for the list: each has one cut of either hand."""

    long_points: float  # [mm]
    short_points: float
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtLine:
    """Frames of the same size to buy whole [mm]."""

    width: float
    height: float
    number: int


def frame_pieces(*, width: float, height: float, moulding: float) -> tuple[FramePiece, ...]:
    """Return the four pieces of a mitred frame, clockwise from the top.

    The long points are the outside sizes; the short points are less by the moulding's width at either end
    (two mitres of 45 degrees).

    Parameters
    ----------
    width, height
        Outside to outside [mm].
    moulding
        Width of the moulding's face [mm].

    Raises
    ------
    ValueError
        The moulding leaves no opening: the layout has refused it before.

    Examples
    --------
    >>> [(p.role, p.long_points, p.short_points) for p in frame_pieces(width=400, height=600, moulding=30)[:2]]
    [('top', 400, 340), ('right', 600, 540)]
    """
    if min(width, height) <= 2 * moulding:
        raise ValueError(f"a moulding of {moulding} mm leaves no opening in a frame of {width} x {height} mm")
    outside = {"top": width, "right": height, "bottom": width, "left": height}
    return tuple(
        FramePiece(role=role, long_points=outside[role], short_points=outside[role] - 2 * moulding)
        for role in CLOCKWISE
    )


def outside_size(*, opening: float, moulding: float) -> float:
    """Return a frame's outside size round an opening [mm]: one moulding's width more at either end."""
    return opening + 2 * moulding


def piece_lines(frames: Iterable[tuple[float, float]], *, moulding: float) -> tuple[PieceLine, ...]:
    """Return the pieces of frames of given width and height [mm], longest first."""
    count: dict[tuple[float, float], int] = {}
    for width, height in frames:
        for piece in frame_pieces(width=width, height=height, moulding=moulding):
            key = (piece.long_points, piece.short_points)
            count[key] = count.get(key, 0) + 1
    return tuple(
        PieceLine(long_points=long, short_points=short, number=count[long, short])
        for long, short in sorted(count, reverse=True)
    )


def bought_lines(frames: Iterable[tuple[float, float]]) -> tuple[BoughtLine, ...]:
    """Return how many frames of each width and height [mm] are bought whole, largest first."""
    count: dict[tuple[float, float], int] = {}
    for size in frames:
        count[size] = count.get(size, 0) + 1
    return tuple(BoughtLine(width=w, height=h, number=count[w, h]) for w, h in sorted(count, reverse=True))
