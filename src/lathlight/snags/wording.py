"""Figures in the words of the checks: the project's units, and never two equal figures where one is over the other."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.units import POUND, drawing_length, format_mass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.plan import Plan


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


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    Examples
    --------
    >>> listed(["left"]), listed(["left", "right", "top"])
    ('left', 'left, right and top')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
