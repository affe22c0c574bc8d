"""Densities, volumes and spreading rates as a shop writes them; lengths and masses are read by ``lathlight.units``."""

from __future__ import annotations

import re
from typing import Literal

from lathlight.errors import nearest
from lathlight.units import FOOT, INCH, POUND, UnitError

FOOT_M = FOOT / 1000  # [m]
US_GALLON = 231 * (INCH / 100) ** 3  # [l]: 231 cubic inches, NIST SP 811 appendix B.8

Measure = Literal["density", "volume", "spread"]
UNITS: dict[Measure, dict[str, float]] = {
    "density": {"kg/m3": 1.0, "lb/ft3": float(POUND / FOOT_M**3)},
    "volume": {
        "l": 1.0,
        "ml": 0.001,
        "us gal": float(US_GALLON),
        "us qt": float(US_GALLON / 4),
        "us fl oz": float(US_GALLON / 128),
    },
    "spread": {"m2/l": 1.0, "ft2/us gal": float(FOOT_M**2 / US_GALLON)},
}
_TEXT = re.compile(r"\s*(\d+(?:\.\d+|,\d{1,2}(?!\d))?|\.\d+)\s*([^\d\s.,].*?)?\s*")  # "1,000" could be either
LARGEST = 1e6  # no measure of a shop is as large, in any of the units
_BARE = {"gal": "us gal", "qt": "us qt", "fl oz": "us fl oz", "ft2/gal": "ft2/us gal"}


def parse_measure(value: object, *, measure: Measure) -> float:
    """Read a density [kg/m3], a volume [l] or a spreading rate [m2/l], above 0.

    Parameters
    ----------
    value
        A number in the unit above, or a text of number and unit, as in ``"48 lb/ft3"`` or ``"10.1 us fl oz"``.
    measure
        Which of the three it is.

    Raises
    ------
    UnitError
        No such number or unit; gallons that do not say whose.

    Examples
    --------
    >>> round(parse_measure("1 lb/ft3", measure="density"), 3)
    16.018
    >>> round(parse_measure("10.1 us fl oz", measure="volume"), 4)
    0.2987
    """
    units = UNITS[measure]
    base = next(iter(units))
    expected = f"a {measure} above 0 in {base}, or text with {', '.join(units)}"
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise UnitError(
            found=str(value), expected=expected, remedy=f'Write a number such as 2, or a text such as "2 {base}".'
        )
    if not isinstance(value, str):
        return _positive(
            value, found=f"{value}" if abs(value) < LARGEST else "a far too large number", expected=expected
        )
    match = _TEXT.fullmatch(value)
    if match is None:
        raise UnitError(found=f'"{value}"', expected=expected, remedy=f'Write a number and a unit, such as "2 {base}".')
    return _positive(
        float(match[1].replace(",", ".")) * _factor(match[2], text=value, units=units, expected=expected),
        found=f'"{value}"',
        expected=expected,
    )


def _factor(unit: str | None, *, text: str, units: dict[str, float], expected: str) -> float:
    if unit is None:
        return 1.0
    plain = " ".join(unit.lower().translate(str.maketrans("²³", "23", "^")).split())
    if plain in _BARE and _BARE[plain] in units:
        raise UnitError(
            found=f'"{text}"', expected=expected, remedy=f"Say whose: {_BARE[plain]} (231 cubic inches a gallon)."
        )
    if plain in units:
        return units[plain]
    near = nearest(plain, units)
    remedy = f"Did you mean {near}?" if near else f"The units are {', '.join(units)}."
    raise UnitError(found=f'"{text}"', expected=expected, remedy=remedy)


def _positive(value: float, *, found: str, expected: str) -> float:
    if not 0 < value < LARGEST:  # false for what is no number
        raise UnitError(found=found, expected=expected, remedy="Give a figure above 0 that a shop would know.")
    return float(value)
