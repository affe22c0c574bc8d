"""A value that says how it came about: unit, formula in words, inputs and source.

Hangs on members and quantities, never on bare numbers. Turned into words only when asked for; a memo key
never includes it (``lathlight.plan.cache``).
"""

from __future__ import annotations

from dataclasses import dataclass

COMMON_PRACTICE = "common practice, no source"
GEOMETRY = "geometry of the set"
USER = "the project file"


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """How one value came about."""

    formula: str  # in words: "height less two plates"
    inputs: tuple[
        tuple[str, float | str, str], ...
    ] = ()  # name, value, unit ("mm", "kg", "rad", "" for a count or text)
    source: str = GEOMETRY
    value: float | str | None = None  # None: the value of the thing it hangs on
    unit: str = ""  # "mm", "kg", "rad", "m2", "" for a count or text


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A number that the set book shows, with its working."""

    id: str  # "set/weight"
    label: str
    value: float
    unit: str  # "mm", "kg", "m2", "m", "" for a count
    why: Working
