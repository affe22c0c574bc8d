"""Figures, points and workings as ``plan.json`` writes them: millimetres, degrees, rounded once."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.working import Working

Json = dict[str, Any]


def to_number(value: float, decimals: int) -> float | int:
    """Return a figure to so many decimals; a whole one without a point."""
    figure = round(value, decimals)
    return int(figure) if figure.is_integer() else figure


def to_mm(value: float) -> float | int:
    """Return a length [mm], or an area [mm2], to a ten-thousandth."""
    return to_number(float(value), 4)


def to_degrees(radians: float) -> float | int:
    """Return an angle [rad] in degrees, to a millionth."""
    return to_number(math.degrees(radians), 6)


def to_figure(value: float | str, unit: str) -> tuple[float | int | str | None, str]:
    """Return a value and its unit as the document writes them: degrees for radians, null where nothing limits."""
    if isinstance(value, str):
        return value, unit
    if not math.isfinite(value):
        return None, unit
    return (to_degrees(value), "degree") if unit == "rad" else (to_number(float(value), 4), unit)


def to_points(points: Sequence[tuple[float, float]]) -> list[list[float | int]]:
    """Return points [mm]."""
    return [[to_mm(x), to_mm(y)] for x, y in points]


def to_box(low: tuple[float, float, float], size: tuple[float, float, float]) -> list[list[float | int]]:
    """Return the lowest and the highest corner of a box [mm]."""
    return [[to_mm(v) for v in low], [to_mm(a + b) for a, b in zip(low, size, strict=True)]]


def to_working(why: Working) -> Json:
    """Return how a value came about."""
    entry: Json = {"formula": why.formula, "source": why.source}
    if why.inputs:
        entry["inputs"] = [
            {"name": name, "value": shown, "unit": unit}
            for name, (shown, unit) in ((name, to_figure(value, unit)) for name, value, unit in why.inputs)
        ]
    return entry


def to_amount(value: float) -> float | int:
    """Return an amount in litres, metres, square metres or pieces, or hours or kilograms, to a ten-thousandth."""
    return to_number(float(value), 4)


def to_maybe_mm(value: float | None) -> float | int | None:
    """Return a length [mm], or null where there is none."""
    return None if value is None else to_mm(value)


def to_mms(values: Iterable[float]) -> list[float | int]:
    """Return lengths [mm]."""
    return [to_mm(value) for value in values]
