"""What sits at a key of the project file, read off the model: its kind of value, its table, its words.

The one place that takes the model's annotations apart; messages, the writer and the schema ask here.
"""

from __future__ import annotations

import datetime as dt
import functools
import types
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic.fields import FieldInfo

from lathlight.project.model import Angle, AnyLength, Mass, Project, Table

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lathlight.project.lines import KeyPath

Kind = Literal["length", "angle", "mass"]
_READERS: tuple[tuple[Any, Kind], ...] = (
    (get_args(AnyLength)[1], "length"),
    (get_args(Angle)[1], "angle"),
    (get_args(Mass)[1], "mass"),
)
_PLAIN_WORDS: Mapping[Any, str] = {
    int: "a whole number",
    float: "a number",
    Decimal: "a number",
    str: "text in quotation marks",
    bool: "true or false",
    dt.date: "a date such as 2026-03-31",
    dict: "a table",
}
_COUNTS = {2: "two", 3: "three", 4: "four"}


@functools.cache
def annotations_of(table: type[Table]) -> Mapping[str, Any]:
    """Return a table's keys, each with its annotation, constraints included."""
    hints = get_type_hints(table, include_extras=True)
    return {key: hints[key] for key in table.model_fields}


@functools.lru_cache(maxsize=4096)
def field_at(path: KeyPath) -> Any:
    """Return the annotation of the value at a path, None where the model has no such key."""
    here: Any = Project
    for step in path:
        if isinstance(step, int):
            here = _entry(here, step)
        else:
            table = table_in(here)
            here = annotations_of(table).get(step) if table is not None else None
        if here is None:
            return None
    return here


def _entry(annotation: Any, number: int) -> Any:
    """Return the annotation of one entry of a list."""
    for part in _parts(annotation):
        if get_origin(part) is tuple:
            entries = get_args(part)
            return entries[0] if entries[-1] is Ellipsis else entries[min(number, len(entries) - 1)]
    return None


def _parts(annotation: Any) -> Iterator[Any]:
    """Return what an annotation may be, without None and constraints."""
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _parts(get_args(annotation)[0])
    elif origin in (Union, types.UnionType):
        for part in get_args(annotation):
            yield from _parts(part)
    elif annotation is not type(None):
        yield annotation


@functools.cache
def table_in(annotation: Any) -> type[Table] | None:
    """Return the table that an annotation holds, alone or as the entries of a list."""
    for part in _parts(annotation):
        if isinstance(part, type) and issubclass(part, Table):
            return part
        if get_origin(part) is tuple and (table := table_in(get_args(part)[0])) is not None:
            return table
    return None


def is_list(annotation: Any) -> bool:
    """Return True where the value is written in square brackets, or as tables with two brackets."""
    return any(get_origin(part) is tuple for part in _parts(annotation))


def takes(annotation: Any, kind: type) -> bool:
    """Return True where a value of this plain type is one of those meant."""
    return any(part is kind for part in _parts(annotation))


@functools.cache
def kind_of(annotation: Any) -> Kind | None:
    """Return whether the numbers in a value are lengths, angles or masses; None where they are plain."""
    for mark in getattr(annotation, "__metadata__", ()):
        for reader, kind in _READERS:
            if mark == reader:
                return kind
    for part in get_args(annotation):
        if _is_annotation(part) and (within := kind_of(part)) is not None:
            return within
    return None


def _is_annotation(part: Any) -> bool:
    return isinstance(part, type) or get_origin(part) is not None


def in_words(annotation: Any) -> str:
    """Return what may be typed for an annotation.

    Examples
    --------
    >>> in_words(field_at(("walls", 0, "openings", 0, "kind")))
    'one of "door", "window", "arch"'
    >>> in_words(field_at(("pictures", 0, "lens")))
    'a number above 0, or two values in square brackets, each a number above 0'
    """
    origin: Any = get_origin(annotation)
    inner = get_args(annotation)
    if origin is Annotated:
        return _constrained(inner[0], inner[1:])
    if origin in (Union, types.UnionType):
        return ", or ".join(dict.fromkeys(in_words(part) for part in inner if part is not type(None)))
    if origin is Literal:
        return f"one of {choices(annotation)}" if len(inner) > 1 else choices(annotation)
    if origin is tuple:
        return _list_in_words(inner)
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return "a table"
    return _PLAIN_WORDS.get(annotation if origin is None else origin, "another kind of value")


def choices(annotation: Any) -> str:
    """Return the words that an annotation allows, each in quotation marks."""
    return ", ".join(f'"{word}"' for word in words_of(annotation))


def words_of(annotation: Any) -> tuple[str, ...]:
    """Return the words that an annotation allows, none where it is no closed choice."""
    return tuple(word for part in _parts(annotation) if get_origin(part) is Literal for word in get_args(part))


def _list_in_words(entries: tuple[Any, ...]) -> str:
    if entries[-1] is not Ellipsis:
        return f"{_COUNTS.get(len(entries), len(entries))} values in square brackets, each {in_words(entries[0])}"
    if table_in(entries[0]) is not None:
        return "a list of tables"
    return f"a list in square brackets, each {in_words(entries[0])}"


def _constrained(base: Any, marks: tuple[Any, ...]) -> str:
    """Return the words for a value with limits."""
    limits = [limit for mark in marks for limit in (mark.metadata if isinstance(mark, FieldInfo) else [mark])]
    of = {key: value for limit in limits for key in _LIMITS if (value := getattr(limit, key, None)) is not None}
    what = _measure_in_words(base, marks)
    if "pattern" in of:
        if "@" in of["pattern"]:
            return "a name of up to 60 characters that can be seen, without / or @"
        if "200b" in of["pattern"]:
            return f"text of {of.get('min_length', 0)} to {of['max_length']} characters that can be seen"
        return 'two numbers such as "4:5"'
    if "max_length" in of and base is str:
        return f"text of {of.get('min_length', 0)} to {of['max_length']} characters"
    if "max_length" in of:
        return f"{what}, at most {of['max_length']}"
    if "min_length" in of:
        return f"{what}, at least {of['min_length']}"
    return f"{what}{_range_in_words(of, both_systems=kind_of(Annotated[base, *marks]) == 'length')}"


METRE, FOOT, INCH = 1000.0, 304.8, 25.4  # [mm]
_LIMITS = ("gt", "ge", "lt", "le", "min_length", "max_length", "pattern")


def _measure_in_words(base: Any, marks: tuple[Any, ...]) -> str:
    for mark in marks:
        for reader, kind in _READERS:
            if mark == reader:
                return {"length": "a length", "angle": "an angle in degrees", "mass": "a mass in kg or lb"}[kind]
    return in_words(base)


def _range_in_words(of: Mapping[str, Any], *, both_systems: bool) -> str:
    """Return the words for limits; of lengths in both systems, as the file's is not known."""

    def at(limit: float) -> str:
        return _in_both_systems(limit) if both_systems and limit else f"{limit:g}"

    if "ge" in of:
        return f" from {at(of['ge'])} to {at(of['le'])}" if "le" in of else f" of {at(of['ge'])} or more"
    if "gt" in of:
        return f" above {at(of['gt'])}" + (f", at most {at(of['le'])}" if "le" in of else "")
    return ""


def _in_both_systems(mm: float) -> str:
    if mm >= METRE:
        return f"{mm / METRE:g} m ({mm / FOOT:.0f} ft)"
    return f"{mm:g} mm ({mm / INCH:.0f} in)"
