"""Kinds of value that a catalogue column holds: how each is read and how it is shown.

A reader takes what stands in the file and raises `UnitError`, which names no place: the caller knows it.
Which column holds which kind is decided in ``lathlight.catalog.columns``.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from lathlight.catalog.measures import parse_measure
from lathlight.errors import nearest
from lathlight.units import LONGEST, UnitError, format_angle, format_length, parse_angle, parse_length, parse_mass

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.catalog.measures import Measure
    from lathlight.units import LengthStyle

LARGEST = 1e12  # no figure of a catalogue is as large
LONGEST_SHOWN = 60  # characters of a text in a message
MOST_ENTRIES = 500  # longest list in one cell; a section has some dozens of points
_NAME = re.compile(r"[^\s/@](?:[^/@\n]*[^\s/@])?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of value."""

    words: str  # what is accepted, for documents and messages
    read: Callable[[object, LengthStyle], object]
    show: Callable[[object, LengthStyle], str]


def refusal(value: object, expected: str, remedy: str) -> UnitError:
    """Return the error for a value that is not what was expected."""
    return UnitError(found=as_typed(value), expected=expected, remedy=remedy)


def as_typed(value: object) -> str:
    """Return a value as it stands in a file."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return f'"{value}"' if len(value) <= LONGEST_SHOWN else f'"{value[:LONGEST_SHOWN]}..."'
        case int() | float():
            return "a far too large number" if abs(value) >= LARGEST else f"{value:g}"
        case list() | tuple():
            return f"a list of {len(cast('list[object]', value))}"
        case dict():
            return "a table"
        case _:
            return str(value)


def text(*, empty: bool = False) -> Kind:
    """Return the kind for words; empty only where allowed."""

    def read(value: object, style: LengthStyle) -> str:
        if not isinstance(value, str):
            raise refusal(value, "text", 'Put it in quotes: "...".')
        if not value.strip() and not empty:
            raise refusal(value, "text that is not empty", "Write it, or take the key out.")
        return value

    return Kind(words="text", read=read, show=lambda value, style: str(value))


def name() -> Kind:
    """Return the kind for a row's name; ids use the stroke and the at sign."""
    words = "1 to 60 characters without '/' and '@', no blank at either end"

    def read(value: object, style: LengthStyle) -> str:
        if not isinstance(value, str) or len(value) > 60 or not _NAME.fullmatch(value):
            hint = (
                f' such as "{value.strip().replace("/", "-")[:60]}"' if isinstance(value, str) and value.strip() else ""
            )
            raise refusal(value, words, f"Give it a short name{hint}.")
        return value

    return Kind(words=words, read=read, show=lambda value, style: str(value))


def choice(*options: str) -> Kind:
    """Return the kind for one of a closed list of words."""
    words = " or ".join(f'"{option}"' for option in options)

    def read(value: object, style: LengthStyle) -> str:
        if isinstance(value, str) and value in options:
            return value
        near = nearest(value.lower(), options) if isinstance(value, str) else None
        raise refusal(value, words, f'Did you mean "{near}"?' if near else "Take one of these words.")

    return Kind(words=words, read=read, show=lambda value, style: str(value))


def length() -> Kind:
    """Return the kind for a length above 0 [mm]."""
    return Kind(
        words="a length above 0",
        read=_length,
        show=lambda value, style: format_length(cast("float", value), style=style),
    )


def _length(value: object, style: LengthStyle) -> float:
    millimetres = parse_length(value, style=style)
    if millimetres <= 0:
        raise refusal(value, "a length above 0", "Give the size as it is in the hand.")
    return millimetres


def _as_list(value: object) -> list[object] | None:
    return list(cast("list[object]", value)) if isinstance(value, list | tuple) else None


def _listed(value: object, words: str, example: str) -> list[object]:
    entries = _as_list(value)
    if entries is None:
        raise refusal(value, words, f"Write it as a list: {example}.")
    if not entries:
        raise UnitError(found="an empty list", expected=words, remedy=f"Name at least one: {example}.")
    if len(entries) > MOST_ENTRIES:
        raise refusal(value, f"{words}, at most {MOST_ENTRIES}", "Leave the least useful ones out.")
    return entries


def lengths() -> Kind:
    """Return the kind for stock lengths, ascending [mm]."""
    words = "a list of lengths above 0"

    def read(value: object, style: LengthStyle) -> tuple[float, ...]:
        entries = _listed(value, words, '["2.4 m", "3.0 m"]')
        return tuple(sorted({_length(entry, style) for entry in entries}))

    def show(value: object, style: LengthStyle) -> str:
        return ", ".join(format_length(each, style=style) for each in cast("tuple[float, ...]", value))

    return Kind(words=words, read=read, show=show)


def points() -> Kind:
    """Return the kind for a closed polyline [mm]; its shape is judged with the whole row."""
    words = "a list of at least three points, each [out from the wall, up]"

    def read(value: object, style: LengthStyle) -> tuple[tuple[float, float], ...]:
        entries = _listed(value, words, "[[0, 0], [15, 0], [15, 95], [0, 95]]")
        if len(entries) < 3:
            raise refusal(value, words, "A section has at least three corners.")
        return tuple(_point(entry, style) for entry in entries)

    return Kind(words=words, read=read, show=lambda value, style: f"{len(cast('tuple[object, ...]', value))} points")


def _point(value: object, style: LengthStyle) -> tuple[float, float]:
    entries = _as_list(value)
    if entries is None or len(entries) != 2:
        raise refusal(value, "a point [out from the wall, up]", "Write two lengths: [15, 95].")
    out, up = entries
    return _millimetres(out, style), _millimetres(up, style)


def _millimetres(value: object, style: LengthStyle) -> float:
    if isinstance(value, int | float) and not isinstance(value, bool) and style.system == "metric":
        if abs(value) <= LONGEST:
            return float(value)
        raise refusal(value, "a length below one kilometre", "Write a number of millimetres.")
    return parse_length(value, style=style)


def measure(what: Measure) -> Kind:
    """Return the kind for a density, volume or spreading rate."""
    unit = {"density": "kg/m3", "volume": "l", "spread": "m2/l"}[what]
    return Kind(
        words=f"a {what} above 0 [{unit}]",
        read=lambda value, style: parse_measure(value, measure=what),
        show=lambda value, style: f"{cast('float', value):.4g} {unit}",
    )


def volumes() -> Kind:
    """Return the kind for containers on sale, ascending [l]."""
    words = "a list of volumes above 0 [l]"

    def read(value: object, style: LengthStyle) -> tuple[float, ...]:
        return tuple(sorted({parse_measure(each, measure="volume") for each in _listed(value, words, "[2.5, 5]")}))

    def show(value: object, style: LengthStyle) -> str:
        return ", ".join(f"{each:.4g} l" for each in cast("tuple[float, ...]", value))

    return Kind(words=words, read=read, show=show)


def mass() -> Kind:
    """Return the kind for a mass above 0 [kg]."""

    def read(value: object, style: LengthStyle) -> float:
        kilograms = parse_mass(value)
        if kilograms <= 0:
            raise refusal(value, "a mass above 0", "Weigh one.")
        return kilograms

    return Kind(words="a mass above 0", read=read, show=lambda value, style: f"{cast('float', value):.4g} kg")


def angle(*, below: float) -> Kind:
    """Return the kind for an angle above 0 and below a limit [rad]."""
    words = f"an angle above 0 and below {math.degrees(below):.0f} degrees"

    def read(value: object, style: LengthStyle) -> float:
        radians = parse_angle(value)
        if not 0 < radians < below:
            raise refusal(value, words, 'Write it in degrees, such as "38 deg".')
        return radians

    return Kind(
        words=words,
        read=read,
        show=lambda value, style: "" if value is None else format_angle(cast("float", value)),
    )


def number(*, low: float, high: float = math.inf, above: bool = False, unit: str = "") -> Kind:
    """Return the kind for a number from (or above) `low` to `high`."""
    words = f"a number {'above' if above else 'from'} {low:g}" + (f" to {high:g}" if high < math.inf else "")
    words += f" [{unit}]" if unit else ""

    def read(value: object, style: LengthStyle) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise refusal(value, words, "Write it without quotes.")
        if not (low <= value <= min(high, LARGEST)) or (above and value == low):
            raise refusal(value, words, "Mend the figure.")
        return float(value)

    return Kind(words=words, read=read, show=lambda value, style: f"{cast('float', value):.6g} {unit}".rstrip())


def count() -> Kind:
    """Return the kind for a whole number above 0."""
    words = "a whole number above 0"

    def read(value: object, style: LengthStyle) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise refusal(value, words, "Write it without quotes and without a point.")
        if not 0 < value < LARGEST:
            raise refusal(value, words, "Mend the figure.")
        return value

    return Kind(words=words, read=read, show=lambda value, style: str(value))


def flag() -> Kind:
    """Return the kind for true or false."""

    def read(value: object, style: LengthStyle) -> bool:
        if not isinstance(value, bool):
            raise refusal(value, "true or false", "Write true or false, without quotes.")
        return value

    return Kind(words="true or false", read=read, show=lambda value, style: "yes" if value else "no")
