"""Lengths in whole steps, as the cutting counts them: exact where they are, else rounded to the side that holds.

Millimetres in tenths and inches in 64ths share one fine grid; a job is then counted in its own largest common step,
which keeps the solver's tables short.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.units import LengthStyle

FINE = 320  # steps in a millimetre: 0.1 mm is 32 of them, 1/64 in is 127
COARSE = {"metric": 32, "imperial": 127}  # what a length off the grid is rounded up to
TOUCH = 1e-4  # [mm] a length so near to a step is on it


def fine_up(mm: float, style: LengthStyle, limits: Iterable[int] = ()) -> int:
    """Return a length that is taken, in fine steps: exact, or rounded up to 0.1 mm or 1/64 in.

    Never past one of the limits [fine steps] that it keeps within as it is.
    """
    near = round(mm * FINE)
    if abs(near / FINE - mm) <= TOUCH:
        return near
    coarse = COARSE[style.system]
    rounded = math.ceil(mm * FINE / coarse) * coarse
    return min((each for each in limits if mm * FINE <= each < rounded), default=rounded)


def fine_down(mm: float) -> int:
    """Return a length that is offered, in fine steps, rounded down where it is off the grid."""
    return math.floor((mm + TOUCH) * FINE)


def common_step(figures: Iterable[int]) -> int:
    """Return the largest step that all figures are multiples of [fine steps]; 1 where there is none."""
    return math.gcd(*figures) or 1
