"""Sizes in words that read back exactly: containers of a shop in litres, or in US gallons, quarts and fluid ounces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import US_GALLON, parse_measure

if TYPE_CHECKING:
    from lathlight.units import LengthStyle

US_UNITS = (("us gal", 1), ("us qt", 4), ("us fl oz", 128))  # how many of each are in a gallon: NIST SP 811, B.8


def volume_text(litres: float, *, style: LengthStyle) -> str:
    """Return a volume [l] in words that :func:`lathlight.catalog.parse_measure` reads back exactly.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> volume_text(2.5, style=LengthStyle.metric()), volume_text(3.785411784, style=LengthStyle.imperial())
    ('2.5 l', '1 us gal')
    >>> volume_text(0.946352946, style=LengthStyle.imperial())
    '1 us qt'
    """
    if style.system == "imperial":
        for unit, number in US_UNITS:
            figure = round(litres * number / US_GALLON, 1)
            whole = figure.is_integer() or unit == US_UNITS[-1][0]
            if figure > 0 and whole and parse_measure(f"{figure:g} {unit}", measure="volume") == litres:
                return f"{figure:g} {unit}"
    return f"{litres:.17g} l" if float(f"{litres:.12g}") != litres else f"{litres:.12g} l"
