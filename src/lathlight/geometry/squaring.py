"""Carpenters' squaring: what the two diagonals of a frame say, and what an uneven floor does to upright flats.

Two sides of the right lengths are taken for granted; all six tape lengths of a frame are left to the as-built part.
"""

from __future__ import annotations

import math


def diagonals(*, base: float, side: float, lean: float = 0.0) -> tuple[float, float]:
    """Return the two diagonals of a frame, the longer one first where it leans to its side [mm].

    Parameters
    ----------
    base, side
        Lengths of the foot and of the upright sides [mm].
    lean
        How far the top stands out of square along the foot [mm]; 0: a rectangle, both diagonals equal.

    Examples
    --------
    >>> diagonals(base=30, side=40)
    (50.0, 50.0)
    """
    rise = math.sqrt(side**2 - lean**2)
    return math.hypot(base + lean, rise), math.hypot(base - lean, rise)


def lean_of(*, one: float, other: float, base: float) -> float:
    """Return how far a frame's top stands out of square along its foot, from its diagonals [mm].

    Notes
    -----
    Parallelogram law: one^2 - other^2 = 4 x base x lean, exactly.
    """
    return (one**2 - other**2) / (4 * base)


def slope_of(*, rise: float, run: float) -> float:
    """Return the angle of a rise over a run [rad]."""
    return math.atan2(rise, run)


def joint_gap(*, height: float, rise: float, run: float) -> float:
    """Return the gap (or clash) at the top of the joint of two flats where the floor's slope changes [mm].

    Parameters
    ----------
    height
        Of the flats [mm].
    rise, run
        Change of the floor's slope between them, as a rise over a run [mm]. Packing of that rise under the outer
        corner of a flat ``run`` wide closes it.
    """
    return height * rise / run
