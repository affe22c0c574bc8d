"""The longest panel that turns a corner between two corridors, at any angle."""

from __future__ import annotations

import itertools
import math
from functools import lru_cache

CORNER = "longest panel round a corner, from the panel's line at its thickness from the inner corner (derived)"
RIGHT_ANGLE = math.pi / 2
HALVINGS = 200  # at most; the last digit is reached long before


def longest_round_corner(*, a: float, b: float, thickness: float, angle: float) -> float:
    """Longest panel [mm] that turns from one corridor into the next, carried level and on edge.

    Parameters
    ----------
    a, b
        Widths of the two corridors [mm].
    thickness
        Of the panel [mm], not negative.
    angle
        Angle turned through [rad], 0 to pi: 0 is straight on and gives infinity.

    Returns
    -------
    float
        Zero where the panel is thicker than a corridor is wide.

    Raises
    ------
    ValueError
        A negative width or thickness, or an angle outside its range: a caller's mistake.

    Notes
    -----
    The panel touches the inner corner with its side and both outer walls with its ends. At an angle x to the first
    corridor, and y = angle - x to the second, its length is [1]_::

        L(x) = (a - t cos x) / sin x + (b - t cos y) / sin y

    and the shortest such L is the longest panel that passes. Where an end leans outwards (x or y above a right angle)
    its other edge touches first and the term in t falls away. For t = 0 and a right angle this is
    (a^(2/3) + b^(2/3))^(3/2) [2]_.

    References
    ----------
    .. [1] Derived from the panel's supporting line; compared in ``tests/published/test_passage.py``.
    .. [2] Calculus text problem, longest rod round a corner.

    Examples
    --------
    >>> round(longest_round_corner(a=3, b=4, thickness=0, angle=math.pi / 2), 3)
    9.866
    """
    if min(a, b, thickness) < 0 or not 0 <= angle <= math.pi:
        message = f"no such corner: {a} and {b} mm, panel {thickness} mm, angle {angle} rad"
        raise ValueError(message)
    if angle == 0:
        return math.inf
    if thickness >= min(a, b):
        return 0.0
    return _longest(a, b, thickness, angle)


@lru_cache(maxsize=256)
def _longest(a: float, b: float, t: float, angle: float) -> float:
    breaks = sorted({0.0, angle, *(x for x in (RIGHT_ANGLE, angle - RIGHT_ANGLE) if 0 < x < angle)})
    spans = itertools.pairwise(breaks)
    return min(_least(low, high, a=a, b=b, t=t, angle=angle) for low, high in spans)


def _least(low: float, high: float, *, a: float, b: float, t: float, angle: float) -> float:
    """Return the least length over a span of angles on which it is convex, by halving on its slope [mm]."""

    def length(x: float) -> float:
        return _reach(x, width=a, t=t) + _reach(angle - x, width=b, t=t)

    def slope(x: float) -> float:
        return _slope(x, width=a, t=t) - _slope(angle - x, width=b, t=t)

    left, right = low, high
    for _ in range(HALVINGS):
        middle = (left + right) / 2
        if middle in (left, right):
            break
        left, right = (left, middle) if slope(middle) > 0 else (middle, right)
    return length((left + right) / 2)


def _reach(x: float, *, width: float, t: float) -> float:
    """Return the panel's length from the foot of the inner corner to one outer wall, at an angle x to it [mm]."""
    return (width - t * max(math.cos(x), 0.0)) / math.sin(x)


def _slope(x: float, *, width: float, t: float) -> float:
    """Return how the reach grows with the angle [mm/rad]."""
    if math.cos(x) > 0:
        return (t - width * math.cos(x)) / math.sin(x) ** 2
    return -width * math.cos(x) / math.sin(x) ** 2
