"""Angles and lengths of mitred mouldings, and how the saw is set for them, at any corner.

A corner is told by its inside angle [rad], measured on the camera's side between the finished faces: below pi an inside
corner, above pi an outside corner. A cut is told by its *slant*: the angle from square in plan, positive where the end
is longer at the back (against the wall) than at the front. So one formula serves both kinds of corner::

    slant = (pi - corner) / 2            the plane that halves the corner
    inset = projection * tan(slant)      how far the front stops short of the back; negative: runs past it

A moulding without spring stands on the saw as it hangs, its back against the fence and its bottom edge on the table. A
sprung moulding (cornice) lies flat on its back, face up, on a saw whose blade tilts to the left. Which corner a piece
meets, whether it is coped instead, and on which grid it is cut are left to ``lathlight.mouldings.trim``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

End = Literal["left", "right"]
Turn = Literal["left", "right", "none"]
Fence = Literal["back", "bottom edge", "top edge", "outer edge"]  # the last: casing, flat on its back

SQUARE_CUT = 1e-9  # a slant below this is a square cut [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class MitreLengths:
    """Lengths of one piece, end to end [mm]."""

    back: float  # against the wall
    front: float  # at its full projection
    long_point: float  # from the outermost point of one end to that of the other: what the stock must give
    short_point: float  # from the innermost point of one end to that of the other


@dataclass(frozen=True, slots=True, kw_only=True)
class SawSetting:
    """How one end is cut: the operator faces the fence, the end that stays is told by its side of the blade."""

    mitre: float  # swing of the saw from square [rad]
    bevel: float  # tilt of the blade from upright, to the left [rad]; 0 unless sprung
    swing: Turn  # where the near end of the cut lies from its far end, that is where the handle goes
    fence: Fence  # what lies against the fence
    kept: End  # side of the blade on which the piece lies


def mitre_angle(corner: float) -> float:
    """Swing of the saw from square [rad] for a flat mitre at a corner; 0 at a straight joint.

    Parameters
    ----------
    corner
        Inside angle between the two finished faces [rad], above 0, below 2 pi.

    Raises
    ------
    ValueError
        An angle outside its range.

    Notes
    -----
    Each piece takes half of what the corner turns by: ``|pi - corner| / 2`` (geometry).

    Examples
    --------
    >>> [round(math.degrees(mitre_angle(math.radians(w))), 2) for w in (90, 110, 135, 180, 270)]
    [45.0, 35.0, 22.5, 0.0, 45.0]
    """
    return abs(mitre_slant(corner))


def mitre_slant(corner: float) -> float:
    """Slant of the mitre [rad]: positive at an inside corner (longer at the back), negative at an outside one."""
    if not 0 < corner < 2 * math.pi:
        message = f"corner must lie between 0 and 2 pi, not {corner}"
        raise ValueError(message)
    return (math.pi - corner) / 2


def face_slant(corner: float) -> float:
    """Slant [rad] of an end that stops against the neighbour's face; positive: longer at the back."""
    if not 0 < corner < math.pi:
        message = f"an inside corner lies between 0 and pi, not {corner}"
        raise ValueError(message)
    return math.pi / 2 - corner


def inset(*, projection: float, slant: float) -> float:
    """How far the front of an end stops short of its back [mm]; negative: it runs past it.

    Examples
    --------
    >>> round(inset(projection=19.0, slant=mitre_slant(math.pi / 2)), 6)
    19.0
    >>> round(inset(projection=0.75, slant=mitre_slant(math.radians(225))), 5)
    -0.31066
    """
    return projection * math.tan(slant)


def mitre_lengths(*, face: float, projection: float, left: float | None, right: float | None) -> MitreLengths:
    """Lengths of a piece that fills a wall's face between two mitred corners.

    Parameters
    ----------
    face
        Length of the finished face between the two ends [mm].
    projection
        How far the moulding stands out from the wall [mm].
    left, right
        Inside angle of the corner at either end [rad]; None where the end is square.

    Notes
    -----
    An inside mitre keeps the back at the face's length; its front is less by ``projection * cot(corner / 2)``. An
    outside mitre adds ``projection * tan((pi - included) / 2)`` with ``included = 2 pi - corner``, one projection at
    90 degrees: both are ``projection * tan((pi - corner) / 2)`` with its sign (geometry).

    Examples
    --------
    >>> piece = mitre_lengths(face=2000.0, projection=20.0, left=math.pi / 2, right=math.radians(270))
    >>> round(piece.back, 6), round(piece.front, 6), round(piece.long_point, 6), round(piece.short_point, 6)
    (2000.0, 2000.0, 2020.0, 1980.0)
    """
    insets = [0.0 if c is None else inset(projection=projection, slant=mitre_slant(c)) for c in (left, right)]
    return MitreLengths(
        back=face,
        front=face - math.fsum(insets),
        long_point=face - math.fsum(min(0.0, i) for i in insets),
        short_point=face - math.fsum(max(0.0, i) for i in insets),
    )


def mitre_gap(*, depth: float, corner: float, error: float) -> float:
    """Width of the wedge that opens in a mitre whose two cuts together miss the corner by an error [mm].

    Parameters
    ----------
    depth
        Size of the moulding across the cut: its projection, or its face's width in a moulding frame [mm].
    corner
        Angle that the mitre was cut for [rad], above 0, at most pi.
    error
        By how much the corner differs from that [rad].

    Notes
    -----
    The cut is ``depth / sin(corner / 2)`` long and its two faces stand ``error`` apart, closed at one end: the open end
    gapes by ``2 * length * sin(error / 2)``. The rule of thumb ``2 * depth * tan(error / 2)`` leaves out that the cut
    slants and says three tenths less at 90 degrees.

    Examples
    --------
    >>> round(mitre_gap(depth=40, corner=math.pi / 2, error=math.radians(0.5)), 2)
    0.49
    """
    return 2 * depth / math.sin(corner / 2) * math.sin(abs(error) / 2)


def compound_mitre(*, spring: ArrayLike, corner: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Saw settings for a sprung moulding that lies flat on its back.

    Parameters
    ----------
    spring
        Angle between the moulding's back and the wall [rad], 0 (base board) to pi/2; any shape.
    corner
        Angle between the two walls [rad], above 0, at most pi; broadcast against `spring`. At an outside corner the
        angle of the wall itself, 2 pi less the inside angle: the settings are the same, the other side is kept.

    Returns
    -------
    mitre, bevel
        Swing of the saw from square, tilt of the blade from upright [rad], broadcast shape.

    Raises
    ------
    ValueError
        An angle outside its range: a caller's mistake, the project reader has refused it before.

    Notes
    -----
    The cut lies where the moulding's back meets the upright plane that halves the corner [1]_::

        tan(mitre) = sin(spring) / tan(corner / 2)
        sin(bevel) = cos(spring) * cos(corner / 2)

    With x along the wall, y out of it and z up, the back holds x and b = (0, sin s, cos s), the cut holds z and
    d = (cos c/2, sin c/2, 0). The plane with normal z x d = (-sin c/2, cos c/2, 0) cuts the back along ``u x + b`` with
    ``u sin c/2 = sin s cos c/2``, which is the swing. The blade's plane and the back's normal n = (0, -cos s, sin s)
    enclose the tilt: ``sin(bevel) = |n . (z x d)| = cos s cos c/2``.

    References
    ----------
    .. [1] Derived from the two planes' normals; compared with printed compound-mitre tables
       (common practice) in ``tests/published/test_compound_mitre.py``.

    Examples
    --------
    >>> [round(float(np.degrees(angle)), 2) for angle in compound_mitre(spring=np.radians(38), corner=np.radians(90))]
    [31.62, 33.86]
    """
    s, c = np.asarray(spring, dtype=np.float64), np.asarray(corner, dtype=np.float64)
    if not bool(np.all((s >= 0) & (s <= math.pi / 2))):
        message = "spring must lie between 0 and pi/2"
        raise ValueError(message)
    if not bool(np.all((c > 0) & (c <= math.pi))):
        message = "corner must lie above 0 and at most at pi"
        raise ValueError(message)
    mitre = np.arctan2(np.sin(s) * np.cos(c / 2), np.sin(c / 2))
    bevel = np.arcsin(np.cos(s) * np.cos(c / 2))
    return np.asarray(mitre), np.asarray(bevel)


def saw_setting(*, slant: float, end: End, spring: float | None) -> SawSetting:
    """How one end of a piece is cut.

    Parameters
    ----------
    slant
        Angle of the cut from square in plan [rad]; positive: longer at the back.
    end
        Which end of the piece it is, seen from the camera's side as it hangs.
    spring
        Angle between a cornice's back and the wall [rad]; None: the moulding stands with its back to the fence.

    Notes
    -----
    On the bench the moulding lies or stands with its face to the operator. Back to the fence, its left end is to the
    left; an end that is longer at the back has its near point towards the middle of the piece, so that the handle goes
    that way. Flat on its back with the top edge to the fence, left and right are exchanged; the edge is chosen so that
    the blade tilts to the left. Tested against the planes themselves in ``tests/unit/mouldings/test_mitres.py``.
    """
    if spring is None:
        return _standing(slant, end)
    mitre, bevel = compound_mitre(spring=spring, corner=math.pi - 2 * abs(slant))
    return _lying(slant, end, mitre=float(mitre), bevel=float(bevel))


def _standing(slant: float, end: End) -> SawSetting:
    kept: End = "right" if end == "left" else "left"
    swing: Turn = "none"
    if abs(slant) > SQUARE_CUT:
        swing = kept if slant > 0 else end
    return SawSetting(mitre=abs(slant), bevel=0.0, swing=swing, fence="back", kept=kept)


def _lying(slant: float, end: End, *, mitre: float, bevel: float) -> SawSetting:
    if abs(slant) <= SQUARE_CUT:
        return SawSetting(
            mitre=0.0, bevel=0.0, swing="none", fence="bottom edge", kept="right" if end == "left" else "left"
        )
    top_to_fence = (end == "left") == (slant > 0)
    return SawSetting(
        mitre=mitre,
        bevel=bevel,
        swing="right" if top_to_fence else "left",
        fence="top edge" if top_to_fence else "bottom edge",
        kept="left" if slant > 0 else "right",
    )
