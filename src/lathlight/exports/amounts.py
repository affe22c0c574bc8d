"""Amounts in words as they are bought and measured out: litres or gallons, metres or feet, areas, counts.

The lists and the set book say the same. Lengths that are marked or sawn are not among them; they are those of
``lathlight.units``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import US_GALLON
from lathlight.exports.figures import figure_words
from lathlight.units import FOOT, METRE, SQUARE_FOOT, drawing_length, run_length

if TYPE_CHECKING:
    from lathlight.finishing import Pack, TakeoffRow
    from lathlight.units import LengthStyle

GALLON = float(US_GALLON)  # [l]
FEET = float(FOOT)  # [mm]
SAME_TIN = 0.01  # [l] tins nearer than this to a quart or a gallon are one
METRIC: dict[str, float] = {}
IMPERIAL = {"l": GALLON, "m": FEET / METRE, "m2": float(SQUARE_FOOT) / 1e6}  # one of the unit, metric
UNITS, UNITS_US = {"m2": "m²"}, {"l": "US gal", "m": "ft", "m2": "sq ft"}
NOISE = 1e-6  # of the arithmetic
FRACTION = 0.05  # a count nearer than this to a whole one is whole


def volume_words(litres: float, style: LengthStyle) -> str:
    """Return a volume in litres or US gallons, to what can be poured.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> volume_words(2.295, LengthStyle.metric()), volume_words(2.85, LengthStyle.imperial())
    ('2.3 l', '0.75 US gal')
    """
    return f"{litres:.1f} l" if style.system == "metric" else f"{litres / GALLON:.2f} US gal"


def amount_words(value: float, unit: str, style: LengthStyle) -> str:
    """Return an amount of the takeoff: a count, a run [m], an area [m2] or a volume [l].

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> [amount_words(x, unit, LengthStyle.metric()) for x, unit in ((14.0, ""), (11.93, ""), (7.2, "m"), (2.3, "l"))]
    ['14', '11.9', '7.2 m', '2.3 l']
    """
    match unit:
        case "l":
            return volume_words(value, style)
        case "m":
            return run_length(value * METRE, style=style)
        case "":
            return _count_words(value)
        case _:
            return figure_words(value, unit, style)


def _count_words(value: float) -> str:
    if NOISE < value < FRACTION:
        return "under 0.1"
    return str(round(value)) if abs(value - round(value)) < FRACTION else f"{value:.1f}"


def own_amount(value: float, unit: str, style: LengthStyle) -> tuple[float, str]:
    """Return an amount and its unit in the project's own system: l or US gal, m or ft, m² or sq ft.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> own_amount(3.785411784, "l", LengthStyle.imperial()), own_amount(2.0, "m2", LengthStyle.metric())
    ((1.0, 'US gal'), (2.0, 'm²'))
    """
    sizes, units = (METRIC, UNITS) if style.system == "metric" else (IMPERIAL, UNITS_US)
    return value / sizes.get(unit, 1.0), units.get(unit, unit)


def tin_words(litres: float, style: LengthStyle) -> str:
    """Return the size of a tin as it is asked for.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> tin_words(0.75, LengthStyle.metric()), tin_words(0.946352946, LengthStyle.imperial())
    ('0.75 l', 'US quart')
    """
    for size, name in ((GALLON, "US gallon"), (GALLON / 4, "US quart")):
        if style.system == "imperial" and abs(litres - size) < SAME_TIN:
            return name
    return f"{litres:.4g} l" if style.system == "metric" else f"{litres / GALLON:.3g} US gal"


def pack_words(pack: Pack, style: LengthStyle) -> str:
    """Return whole pieces of one size: how many, and the size of one, or how many are in a box."""
    match pack.unit:
        case "l":
            size = tin_words(pack.size, style)
        case "mm":
            size = drawing_length(pack.size, style=style)
        case "":
            size = f"box of {pack.size:.0f}"
    return f"{pack.number} × {size}"


def packs_words(row: TakeoffRow, style: LengthStyle) -> str:
    """Return what a row is bought in; a thing that is bought by its size says that."""
    words = [pack_words(pack, style) for pack in row.packs]
    if row.size is not None:
        words.append(" × ".join(drawing_length(mm, style=style) for mm in row.size))
    return ", ".join(words)
