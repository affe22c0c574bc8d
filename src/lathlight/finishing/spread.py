"""How far a litre or a gallon of paint goes, from its solids and the film it leaves, and back.

Decides nothing about a set; refuses figures that no tin can have.
"""

from __future__ import annotations

import math
from fractions import Fraction

from lathlight.errors import InputError
from lathlight.units import FOOT, INCH

CUBIC_INCHES = 231  # in a US gallon: NIST SP 811 appendix B.8
MILS = 1000  # in an inch
SQUARE_INCHES = 144  # in a square foot
ONE_GALLON = float(Fraction(CUBIC_INCHES * MILS, SQUARE_INCHES))  # [ft2 mil/US gal], 1604.17; printed as 1604
LITRES = float(CUBIC_INCHES * (INCH / 100) ** 3)  # in a US gallon
SQUARE_METRES = float((FOOT / 1000) ** 2)  # in a square foot


def us_spread(*, solids: float, mils: float) -> float:
    """How many square feet a US gallon covers at a dry film thickness [ft2/US gal], one coat, nothing lost.

    Parameters
    ----------
    solids
        Share of the volume that stays, above 0, at most 1.
    mils
        Dry film [thousandths of an inch], above 0.

    Raises
    ------
    InputError
        A share or a film outside its range.

    Notes
    -----
    A US gallon is 231 cubic inches; laid out one mil thick it covers 231 / 0.001 / 144 = 1604 square feet::

        spread = 1604 x solids / mils

    References
    ----------
    Coating data sheets, theoretical coverage; compared with their tables in ``tests/published/test_paint_spread.py``.

    Examples
    --------
    >>> round(us_spread(solids=0.65, mils=5.0), 1)
    208.5
    """
    return ONE_GALLON * _share(solids) / _film(mils, "mil")


def metric_spread(*, solids: float, micrometres: float) -> float:
    """How many square metres a litre covers at a dry film thickness [m2/l], one coat, nothing lost.

    A litre laid out one micrometre thick covers 1000 m2. Bad figures are refused as in `us_spread`.

    Examples
    --------
    >>> metric_spread(solids=0.65, micrometres=125)
    5.2
    """
    return 1000 * _share(solids) / _film(micrometres, "\N{MICRO SIGN}m")


def wet_film(*, dry: float, solids: float) -> float:
    """How thick the paint is laid on to leave a dry film, in the dry film's unit; refused as in `us_spread`.

    Examples
    --------
    >>> round(wet_film(dry=2.8, solids=0.35), 9)
    8.0
    """
    return _film(dry, "of dry film") / _share(solids)


def film_of_spread(spread: float) -> float:
    """How thick the wet film is at a spreading rate [mm], from the rate [m2/l]; a litre over its area.

    Examples
    --------
    >>> round(film_of_spread(12.0), 4)
    0.0833
    """
    return 1 / checked_spread(spread, place="spreading rate")


def metric_of_us(spread: float) -> float:
    """Turn square feet a US gallon [ft2/US gal] into square metres a litre [m2/l], exactly."""
    return spread * SQUARE_METRES / LITRES


def us_of_metric(spread: float) -> float:
    """Turn square metres a litre [m2/l] into square feet a US gallon [ft2/US gal], exactly."""
    return spread * LITRES / SQUARE_METRES


def checked_spread(spread: float, *, place: str) -> float:
    """Return a spreading rate [m2/l]; refuse what no paint has.

    Raises
    ------
    InputError
        Zero, negative, or no number.
    """
    if not 0 < spread < math.inf:
        raise InputError.of(
            place=place,
            found=f"{spread:g} m2/l",
            expected="a spreading rate above 0 m2/l",
            remedy="Take it from the tin; wall paints spread 8 to 14 m2/l a coat.",
        )
    return spread


def _share(solids: float) -> float:
    if not 0 < solids <= 1:
        raise InputError.of(
            place="volume solids",
            found=f"{solids:g}",
            expected="a share above 0, at most 1",
            remedy="Write 38 % as 0.38; the data sheet calls it solids by volume.",
        )
    return solids


def _film(thickness: float, unit: str) -> float:
    if not 0 < thickness < math.inf:
        raise InputError.of(
            place="film thickness",
            found=f"{thickness:g} {unit}",
            expected="a thickness above 0",
            remedy="Take the dry film from the data sheet; wall paints leave 25 to 50 \N{MICRO SIGN}m (1 to 2 mil).",
        )
    return thickness
