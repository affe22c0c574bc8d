"""What the validation found, said in plain words: what was typed, what may be typed, what to do.

Nothing of the validator's own language reaches the reader: what is expected comes from the model's annotations.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING, Any, cast

from lathlight.project.fields import (
    annotations_of,
    choices,
    field_at,
    in_words,
    is_list,
    kind_of,
    table_in,
    takes,
    words_of,
)
from lathlight.project.findings import Finding, did_you_mean, step_into
from lathlight.project.model import Project
from lathlight.units import LengthStyle, UnitError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pydantic import ValidationError

    from lathlight.project.lines import KeyPath

LONGEST_SHOWN = 60  # characters of a value in a message
SMALL = {  # lengths that nobody gives in metres, with what is usual of each
    **dict.fromkeys(("gap", "end_gap", "expansion_gap", "reveal", "lining", "thickness"), ("25 mm", "1 in")),
    **dict.fromkeys(("kerf", "trim_cut", "brush"), ("25 mm", "1 in")),
    "roller": ("100 mm", "4 in"),
    "screw_spacing": ("200 mm", "8 in"),
    "brad_spacing": ("300 mm", "12 in"),
}


def findings_of(error: ValidationError, *, raw: Mapping[str, Any], style: LengthStyle) -> list[Finding]:
    """Return what the validation found, one finding a key."""
    details: Sequence[Any] = error.errors(include_url=False)
    return [_finding(detail, path, style) for detail, path in _one_a_key(details, raw)]


def _one_a_key(details: Sequence[Any], raw: Mapping[str, Any]) -> Iterator[tuple[Any, KeyPath]]:
    """Return each error with its key's path; of a value that may be of two kinds, only the kind it comes nearest."""
    seen: dict[KeyPath, str] = {}
    for detail in details:
        path, kept, kind = _path_and_kind(detail["loc"], raw)
        if kind:
            wants_list = isinstance(_value_at(path[:kept], raw), list)
            if kind.startswith("tuple") != wants_list or seen.setdefault(path[:kept], kind) != kind:
                continue
        if _is_hollow(detail, path, raw):
            continue
        yield detail, path


def _path_and_kind(location: tuple[str | int, ...], raw: Mapping[str, Any]) -> tuple[KeyPath, int, str]:
    """Return the key's path without the validator's own steps, the length up to them, and which kind was tried."""
    path: list[str | int] = []
    here: Any = raw
    kept, kind = 0, ""
    for step in location:
        if isinstance(step, str) and not isinstance(here, dict):
            kept, kind = len(path), step
            continue
        path.append(step)
        here = step_into(here, step)
    return tuple(path), kept, kind


def _is_hollow(detail: Any, path: KeyPath, raw: Mapping[str, Any]) -> bool:
    """Return True for a list said to be too short only because its entries have faults of their own."""
    value = _value_at(path, raw)
    return detail["type"] == "too_short" and isinstance(value, list) and len(value) >= detail["ctx"]["min_length"]  # pyright: ignore[reportUnknownArgumentType]


def _value_at(path: KeyPath, raw: Mapping[str, Any]) -> Any:
    here: Any = raw
    for step in path:
        here = step_into(here, step)
    return here


def _finding(detail: Any, path: KeyPath, style: LengthStyle) -> Finding:
    match detail["type"], detail.get("ctx", {}).get("error"):
        case _, UnitError() as refused:
            return Finding(path=path, found=refused.found, expected=refused.expected, remedy=refused.remedy)
        case "extra_forbidden", _:
            return _unknown_key(path, detail["input"], style)
        case "missing", _:
            return _missing(path, style)
        case (("too_long" | "too_short"), _):
            return _wrong_count(path, detail["input"])
        case _:
            return _wrong_value(path, detail["input"], style)


def _unknown_key(path: KeyPath, value: object, style: LengthStyle) -> Finding:
    *above, key = path
    table = table_in(field_at(tuple(above))) if above else Project
    keys = list(annotations_of(table or Project))
    inner = "" if above else _inside_another(str(key))
    return Finding(
        path=path,
        found=f"unknown key {key} = {shown(value, style=style)}",
        expected=f"one of the keys {', '.join(keys)}",
        remedy=inner or did_you_mean(str(key), keys, otherwise="Take the line out."),
    )


def _inside_another(key: str) -> str:
    """Return how a table is written that belongs inside another one; nothing where there is none of that name."""
    for outer, annotation in annotations_of(Project).items():
        table = table_in(annotation)
        inner = None if table is None else annotations_of(table).get(key)
        if inner is not None and table_in(inner) is not None:
            whole = f"[[{outer}.{key}]]" if is_list(inner) else f"[{outer}.{key}]"
            below = f" below the one of [[{outer}]] that it belongs to" if is_list(annotation) else ""
            return f"Write {whole}{below}."
    return ""


def _missing(path: KeyPath, style: LengthStyle) -> Finding:
    annotation, key = field_at(path), path[-1]
    if isinstance(key, int):
        whole = field_at(path[:-1])
        return Finding(path=path[:-1], found="too few values", expected=in_words(whole), remedy="Add what is missing.")
    if table_in(annotation) is not None:
        head = f"[[{key}]]" if is_list(annotation) else f"[{key}]"
        return Finding(path=path, found=f"no {head}", expected=f"a table {head}", remedy=f"Add a table {head}.")
    return Finding(
        path=path,
        found=f"no {key}",
        expected=in_words(annotation),
        remedy=f"Add a line such as {key} = {example(annotation, style)}.",
    )


def _wrong_count(path: KeyPath, value: object) -> Finding:
    annotation = field_at(path)
    count = len(cast("Sequence[object]", value)) if isinstance(value, list | tuple) else 0
    what = "walls" if path == ("walls",) else "values"
    remedy = "Plan the set in several files." if path == ("walls",) and count else "Add or take out values."
    if path == ("walls",) and not count:
        remedy = "Add a table [[walls]] with a name and a length."
    return Finding(path=path, found=f"{count} {what}", expected=in_words(annotation), remedy=remedy)


def _wrong_value(path: KeyPath, value: object, style: LengthStyle) -> Finding:
    annotation = field_at(path)
    return Finding(
        path=path,
        found=shown(value, style=style, is_length=kind_of(annotation) == "length"),
        expected=in_words(annotation),
        remedy=_remedy(path, value, annotation, style),
    )


def _remedy(path: KeyPath, value: object, annotation: Any, style: LengthStyle) -> str:
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    words = words_of(annotation)
    if words and isinstance(value, str):
        return did_you_mean(value, words, otherwise=f"Type one of {choices(annotation)}.")
    if table_in(annotation) is not None and not isinstance(path[-1], int):
        return f"Write [[{key}]] above it." if is_list(annotation) else f"Write [{key}] and its keys below."
    if is_list(annotation) and not isinstance(value, list) and not takes(annotation, float):
        return f"Put it in square brackets: {key} = [{shown(value, style=style)}]."
    if in_words(annotation) == "a table":
        return f"Write [[{'.'.join(step for step in path if isinstance(step, str))}]] and its keys below."
    if key in SMALL and kind_of(annotation) == "length":
        metric, imperial = SMALL[key]
        return f'Type a value such as "{metric if style.system == "metric" else imperial}".'
    return f"Type a value such as {example(annotation, style)}."


def example(annotation: Any, style: LengthStyle) -> str:
    """Return a value as it may be typed for an annotation."""
    if words := words_of(annotation):
        return f'"{words[0]}"'
    match kind_of(annotation):
        case "length":
            one = '"2.44 m"' if style.system == "metric" else '"8ft 0 1/2in"'
        case "angle":
            one = "90"
        case "mass":
            one = '"25 kg"' if style.system == "metric" else '"55 lb"'
        case None:
            one = _plain_example(annotation)
    return f"[{one}, {one}]" if is_list(annotation) and not takes(annotation, float) else one


def _plain_example(annotation: Any) -> str:
    if takes(annotation, bool):
        return "true"
    if takes(annotation, dt.date):
        return "2026-03-31"
    words = in_words(annotation)
    if "from 0 to 1" in words and "100" not in words:
        return "0.5"
    return '"4:5"' if "4:5" in words else "2" if "number" in words else '"back"' if "name" in words else '"words"'


def odd_values(raw: Mapping[str, Any], *, style: LengthStyle) -> Iterator[Finding]:
    """Return values that the validation would take and nobody can mean: true as a number, a number without end."""
    yield from _odd_within(raw, (), style)


def _odd_within(value: object, path: KeyPath, style: LengthStyle) -> Iterator[Finding]:
    if isinstance(value, dict):
        for key, inner in cast("dict[str, object]", value).items():
            yield from _odd_within(inner, (*path, key), style)
    elif isinstance(value, list):
        for number, inner in enumerate(cast("list[object]", value)):
            yield from _odd_within(inner, (*path, number), style)
    elif isinstance(value, bool | float) and _is_odd(value, path):
        yield _wrong_value(path, value, style)


def _is_odd(value: bool | float, path: KeyPath) -> bool:
    annotation = field_at(path)
    if annotation is None:
        return False
    return not takes(annotation, bool) if isinstance(value, bool) else not math.isfinite(value)


def shown(value: object, *, style: LengthStyle, is_length: bool = False) -> str:
    """Return a value as it was typed, short enough for a message."""
    match value:
        case bool():
            text = str(value).lower()
        case str():
            text = f'"{value}"'
        case int() | float():
            text = str(value) if isinstance(value, float) or abs(value) < 10**30 else "a number of over 30 digits"
            text += " mm" if is_length and style.system == "metric" else ""
        case dict():
            text = "a table"
        case list():
            text = "a list"
        case None:
            text = "nothing"
        case _:
            text = str(value)
    return text if len(text) <= LONGEST_SHOWN else f'{text[: LONGEST_SHOWN - 4]}..."'
