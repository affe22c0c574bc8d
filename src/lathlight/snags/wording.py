"""Figures in the words of the checks: the project's units, and never two equal figures where one is over the other."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from lathlight.catalog import US_GALLON
from lathlight.units import POUND, LengthStyle, drawing_length, drawing_mass, format_mass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.plan import Plan

FIGURE = re.compile(r"\{(\d+(?:\.\d+)?) (mm|m|kg)\}")  # a figure in a check's words
FRACTIONS_FROM = 12.7  # a shorter length is said in decimals of an inch [mm]


def length(mm: float, plan: Plan) -> str:
    r"""Return a length in a sentence: "2440 mm" or "8'-0\"" [mm]."""
    style = plan.brief.style
    if math.isinf(mm):
        return "any length"
    text = drawing_length(mm, style=style)
    return f"{text} mm" if style.system == "metric" else text


def lengths(figure: float, limit: float, plan: Plan) -> tuple[str, str]:
    """Return two lengths in a sentence, as finer decimals where rounding would make them look equal [mm]."""
    one, other = length(figure, plan), length(limit, plan)
    if one == other and figure != limit:
        return fine(figure, plan), fine(limit, plan)
    return one, other


def fine(mm: float, plan: Plan) -> str:
    """Return a length finer than the saw's step: to 0.1 mm or 0.01 in [mm]."""
    return f"{mm:.1f} mm" if plan.brief.style.system == "metric" else f"{mm / 25.4:.2f} in"


def mass(kg: float, plan: Plan) -> str:
    """Return a mass in a sentence [kg]."""
    return format_mass(kg, plan.brief.style)


def masses(figure: float, limit: float, plan: Plan) -> tuple[str, str]:
    """Return two masses in a sentence, as finer decimals where rounding would make them look equal [kg]."""
    one, other = mass(figure, plan), mass(limit, plan)
    if one == other and figure != limit:
        unit, name = (1.0, "kg") if plan.brief.style.system == "metric" else (float(POUND), "lb")
        return f"{figure / unit:.3f} {name}", f"{limit / unit:.3f} {name}"
    return one, other


def volumes(figure: float, limit: float, plan: Plan) -> tuple[str, str]:
    """Return two volumes in a sentence, litres or US gallons, finer where rounding would make them look equal [l]."""
    unit, name = (1.0, "l") if plan.brief.style.system == "metric" else (float(US_GALLON), "US gal")
    decimals = 2 if round(figure / unit, 2) != round(limit / unit, 2) else 4
    return f"{figure / unit:.{decimals}f} {name}", f"{limit / unit:.{decimals}f} {name}"


def in_units_of(words: str, style: LengthStyle) -> str:
    r"""Return a check's words with their figures in a project's own units.

    Examples
    --------
    >>> in_units_of("{150 mm} wide", LengthStyle.metric()), in_units_of("{150 mm} wide", LengthStyle.imperial())
    ('150 mm wide', '5 7/8" wide')
    >>> in_units_of("{15 kg} a flat, to {1 mm}", LengthStyle.imperial())
    '33 lb a flat, to 0.04 in'
    """
    return FIGURE.sub(lambda found: _figure(found, style), words)


def in_both_units(words: str) -> str:
    r"""Return a check's words with every figure metric, and imperial in brackets.

    Examples
    --------
    >>> in_both_units("{150 mm} wide")
    '150 mm (5 7/8") wide'
    """
    metric, imperial = LengthStyle.metric(), LengthStyle.imperial()
    return FIGURE.sub(lambda found: f"{_figure(found, metric)} ({_figure(found, imperial)})", words)


def _figure(found: re.Match[str], style: LengthStyle) -> str:
    figure, unit = float(found[1]), found[2]
    if style.system == "metric":
        return f"{found[1]} {unit}"
    if unit == "kg":
        return drawing_mass(figure, style)
    mm = figure * (1000 if unit == "m" else 1)
    return drawing_length(mm, style=style) if mm >= FRACTIONS_FROM else f"{mm / 25.4:.2f} in"


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    Examples
    --------
    >>> listed(["left"]), listed(["left", "right", "top"])
    ('left', 'left, right and top')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
