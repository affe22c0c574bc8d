"""Figures in words, wherever they are said: rounded once, in the project's units, with their unit.

The one place that does so above the plan: lists, the set book, and the working of any value use the same words.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.catalog import US_GALLON
from lathlight.units import SQUARE_FOOT, LengthStyle, drawing_length, format_angle, format_area, format_mass, snap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.working import Working

SQUARE = math.radians(0.005)  # what prints as 0 degrees is square
MANY_INPUTS = 6  # more than this are counted, not listed
US_SPREAD = float(US_GALLON / SQUARE_FOOT * 1_000_000)  # one m2/l [sq ft/US gal]
ML_PER_US_FL_OZ = float(US_GALLON) * 1000 / 128
OFF_GRID = 1e-6  # [mm] nearer than this to the project's step is on it: noise of the arithmetic


def length_words(mm: float, style: LengthStyle) -> str:
    r"""Return a length with its unit: on the project's step as it is, off it one step finer.

    Off the step a metric length has one decimal, an imperial one the next finer fraction.

    Examples
    --------
    >>> metric, imperial = LengthStyle.metric(), LengthStyle.imperial()
    >>> length_words(2440.0, metric), length_words(3957.9435, metric)
    ('2440 mm', '3957.9 mm')
    >>> length_words(2451.1, imperial), length_words(29.4, imperial)
    ('8\'-0 1/2"', '1 5/32"')
    """
    if style.system == "imperial":
        return drawing_length(mm, style=style if _is_on_grid(mm, style) else LengthStyle("imperial", style.step / 2))
    return f"{drawing_length(mm, style=style) if _is_on_grid(mm, style) else _tenths(mm)} mm"


def _is_on_grid(mm: float, style: LengthStyle) -> bool:
    return abs(mm - snap(mm, style)) < OFF_GRID


def _tenths(mm: float) -> str:
    """Return millimetres to one decimal, which is left out where it is 0."""
    return drawing_length(mm, style=LengthStyle("metric", Fraction(1, 10)))


def figure_words(value: float | str, unit: str, style: LengthStyle) -> str:
    """Return a value of any of the program's units in words; text stays as it is.

    Examples
    --------
    >>> [figure_words(*each, LengthStyle.metric()) for each in ((2440.0, "mm"), (12, ""), (6.05e6, "mm2"), (1.5, ""))]
    ['2440 mm', '12', '6.05 m²', '1.5']
    """
    if isinstance(value, str):
        return f"{value} {unit}".rstrip()
    if not math.isfinite(value):
        return "no limit"
    match unit:
        case "mm":
            return length_words(value, style)
        case "m":
            return length_words(value * 1000, style)
        case "kg":
            return format_mass(value, style)
        case "rad":
            return format_angle(value)
        case "mm2":
            return format_area(value, style=style)
        case "m2":
            return format_area(value * 1e6, style=style)
        case "l":
            return f"{value:.2f} l" if style.system == "metric" else f"{value / float(US_GALLON):.2f} US gal"
        case "ml" if style.system == "imperial":
            return f"{value / ML_PER_US_FL_OZ:.2g} US fl oz"
        case "m2/l":
            return f"{value:.4g} m²/l" if style.system == "metric" else f"{value * US_SPREAD:.0f} sq ft/US gal"
        case "share":
            return f"{value:.0%}".replace("%", " %")
        case _:
            return f"{round(value, 3):.10g} {unit}".rstrip()


def ends_words(ends: tuple[float, float]) -> str:
    """Return how both ends of a piece are cut: square, or by how many degrees from square.

    Examples
    --------
    >>> ends_words((0.0, 0.0)), ends_words((0.0, math.radians(20)))
    ('square', 'square / 20°')
    """
    words = ["square" if abs(end) < SQUARE else format_angle(end) for end in ends]
    return words[0] if words[0] == words[1] else " / ".join(words)


def working_words(why: Working, style: LengthStyle) -> str:
    """Return how a value came about as one line: formula, inputs, source."""
    words = [why.formula]
    if why.inputs:
        words.append(_inputs(why.inputs, style))
    return f"{'; '.join(words)} ({why.source})"


def _inputs(inputs: Sequence[tuple[str, float | str, str]], style: LengthStyle) -> str:
    if len(inputs) > MANY_INPUTS:
        return f"from {len(inputs)} figures"
    return ", ".join(f"{name} {figure_words(value, unit, style)}" for name, value, unit in inputs)
