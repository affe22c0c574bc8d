"""Which rectangle goes into which, turned as it may be: the plane question behind every doorway and turn."""

from __future__ import annotations

import math

TOUCH = 1e-6  # nearer than this is touching, not colliding [mm]
CARVER = (
    "rectangle in a rectangle: Carver 1957, Problem E1225, American Mathematical Monthly; clearance: common practice"
)
HALVINGS = 60  # of an interval of a few metres: far finer than TOUCH


def fits_rectangle(*, p: float, q: float, a: float, b: float) -> bool:
    """Return True where a rectangle p x q goes into a rectangle a x b, turned in the plane as it may be.

    Parameters
    ----------
    p, q
        Sides of the rectangle that goes in [mm], either order, not negative.
    a, b
        Sides of the opening [mm], either order; an opening of nothing or less takes nothing.

    Notes
    -----
    With p >= q and a >= b it fits where p <= a and q <= b, and for p > a where q <= b and [1]_::

        b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)) / (p^2 + q^2)

    References
    ----------
    .. [1] W. B. Carver, solution of Problem E1225, American Mathematical Monthly 64 (1957), 114-116.

    Examples
    --------
    >>> fits_rectangle(p=2500, q=100, a=2400, b=1200), fits_rectangle(p=2600, q=150, a=2400, b=1200)
    (True, False)
    """
    p, q, a, b = max(p, q), min(p, q), max(a, b), min(a, b)
    if b <= 0 or q > b + TOUCH:
        return False
    if p <= a + TOUCH:
        return True
    return b + TOUCH >= least_width(p=p, q=q, a=a)


def least_width(*, p: float, q: float, a: float) -> float:
    """Return the least width of an opening ``a`` long that a rectangle p x q with p > a goes into, turned [mm]."""
    square = p**2 + q**2
    return (2 * p * q * a + (p**2 - q**2) * math.sqrt(square - a**2)) / square


def widest_fitting(*, q: float, a: float, b: float) -> float:
    """Return the longest side p with which a rectangle p x q still goes into a x b, turned as it may be [mm].

    Zero where not even the side ``q`` goes in. Infinite sides of the opening are allowed.

    Examples
    --------
    >>> widest_fitting(q=0, a=3.0, b=4.0), widest_fitting(q=3.5, a=3.0, b=4.0)
    (5.0, 3.0)
    """
    a, b = max(a, b), min(a, b)
    if b <= 0 or not fits_rectangle(p=0.0, q=q, a=a, b=b):
        return 0.0
    if math.isinf(a):
        return a if q <= b + TOUCH else b
    if b < q <= a:
        return b  # both sides longer than the opening's short side never fit
    low, high = (a, math.hypot(a, b)) if q <= b else (0.0, b)
    if fits_rectangle(p=high, q=q, a=a, b=b):
        return high
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if fits_rectangle(p=middle, q=q, a=a, b=b) else (low, middle)
    return low
