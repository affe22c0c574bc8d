"""Writes ``docs/reference/project-file.md`` from the tables of the project file, so that the two cannot part.

Run after a change of ``lathlight.project.model``: ``python tools/make_project_reference.py``. What a key means is its
docstring there; what is taken where a file says nothing comes from the model and from ``lathlight.project.defaults``.
"""

from __future__ import annotations

import datetime as dt
import types
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin, get_type_hints

from annotated_types import Ge, Gt, Le
from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from lathlight.project.defaults import IMPERIAL, METRIC
from lathlight.project.model import Project
from lathlight.units import LengthStyle, file_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

PAGE = Path(__file__).parents[1] / "docs" / "reference" / "project-file.md"
BY_VALIDATOR = {"_length": "length", "_angle": "angle", "_mass": "weight", "_volume": "volume"}
BY_TYPE = {str: "text", bool: "true or false", int: "whole number", float: "number", Decimal: "number", dt.date: "date"}
COUNTS = {2: "two", 3: "three"}

FILLED = {  # key: the usual thing that the resolver takes, by its name in lathlight.project.defaults
    "project.paper": "paper",
    "set.clear_behind": "clear_behind",
    "set.sheet": "sheet",
    "set.framing": "framing",
    "set.stud_spacing": "stud_spacing",
    "walls.openings.lining": "lining",
    "walls.openings.gap": "gap",
    "walls.openings.reveal": "reveal",
    "fixing.weight": "weight",
    "fixing.screw_spacing": "screw_spacing",
    "fixing.brad_spacing": "brad_spacing",
    "finish.paint": "paint",
    "finish.primer": "primer",
    "finish.roller": "roller",
    "finish.brush": "brush",
    "sitters.stature": "stature",
    "sitters.forward": "forward",
    "workshop.kerf": "kerf",
}

# Read, checked and kept, but nothing follows from it yet; tests/docs/test_project_reference.py holds each to that.
NOT_USED_YET = {
    "project": ("currency", "tax_percent", "prices_include_tax"),
    "set": ("sittings", "years"),
    "finish": ("reflectance",),
    "sitters": ("facing",),
    "pictures": ("aspects", "margin", "aperture", "movement", "follows"),
    "lights": (
        *("name", "head", "shaper", "grid", "angle", "height", "distance"),
        *("at", "aim", "feather", "refers_to", "power", "pictures"),
    ),
    "targets": ("name", "point", "lights", "reading", "tolerance"),
    "meter": ("constant", "iso", "shutter", "working_aperture"),
    "workshop": ("shelf", "hours_a_day", "temperature_c", "humidity_percent"),
}

OPENING = """# The project file

<!-- Written by tools/make_project_reference.py from the model; change the docstrings there, not this page. -->

A project file is plain text in [TOML](https://toml.io): tables in brackets, keys with values, remarks after `#`.
`lathlight new` writes one with remarks; `lathlight schema` prints its JSON Schema, with which an editor completes keys.
It is UTF-8, at most 1 MB.
A key that is not listed here is refused, and the nearest known one is named.

## How values are written

| kind | written as |
| --- | --- |
| length, metric | millimetres `2440`, or `"2.44 m"`, `"244 cm"`, `"38 mm"` |
| length, imperial | [feet and inches](../how-to/feet-and-inches.md): `"8 ft 0 1/2 in"`, `"7ft 6"`, `"95 1/2 in"` |
| angle | degrees: `110` or `"110 deg"` |
| weight | kilograms: `25` or `"25 kg"`; or pounds: `"55 lb"` |
| volume | litres: `2.5` or `"750 ml"`; or US measures: `"1 us gal"`, `"1 us qt"` |
| point | two lengths, `["0.6 m", "0 m"]` |
| name | 1 to 60 characters but `/` and `@`, no blank at either end; each name once in its list |
| date | `2025-03-03`, without quotation marks |

A table in single brackets, `[room]`, stands once.
A table in double brackets, `[[walls]]`, is an entry of a list and stands as often as there are entries, in order.

Where a default differs between the systems of units, the metric one stands first.
A dash means that there is none: the meaning says what follows then.
**Not used yet** marks what is read, checked and kept, although nothing is worked out from it so far.
Such keys keep the file whole for what comes: nothing that you write down now has to be written again.
Room axes run from the room's front left corner, the first figure to the right and the second away from the camera.
"""


class Section(NamedTuple):
    """One table of the file: its path, whether it is a list's entry, its model."""

    path: tuple[str, ...]
    listed: bool
    model: type[BaseModel]

    @property
    def heading(self) -> str:
        """The table's name as the file writes it."""
        name = ".".join(self.path)
        return f"[[{name}]]" if self.listed else f"[{name}]"


def main() -> None:
    """Write the page."""
    PAGE.write_text(page(), encoding="utf-8", newline="\n")


def page() -> str:
    """Return the whole page in Markdown."""
    parts = [OPENING, "## Above all tables\n\n" + _table(_rows(Section((), False, Project)))]
    for section in sections():
        about = [(section.model.__doc__ or "").strip(), *["Not used yet, as a whole."] * is_unused(section)]
        parts.append(f"## `{section.heading}`\n\n{chr(10).join(about)}\n\n{_table(_rows(section))}")
    return "\n".join(parts)


def is_unused(section: Section) -> bool:
    """Return True where nothing follows yet from any key of a table."""
    return set(section.model.model_fields) <= set(NOT_USED_YET.get(".".join(section.path), ()))


def sections(start: Section | None = None) -> Iterator[Section]:
    """Yield every table of the file, outer ones first."""
    outer = start or Section((), False, Project)
    for key in outer.model.model_fields:
        found = _table_of(_hints(outer.model)[key])
        if found is not None:
            section = Section((*outer.path, key), *found)
            yield section
            yield from sections(section)


def _hints(model: type[BaseModel]) -> dict[str, Any]:
    return get_type_hints(model, include_extras=True)


def _table_of(hint: Any) -> tuple[bool, type[BaseModel]] | None:
    """Return whether a key holds a list of tables, and their model; None where it holds values."""
    if get_origin(hint) is Annotated:
        return _table_of(get_args(hint)[0])
    if get_origin(hint) is tuple and len(get_args(hint)) == 2 and get_args(hint)[1] is Ellipsis:
        inner = _table_of(get_args(hint)[0])
        return None if inner is None else (True, inner[1])
    return (False, hint) if isinstance(hint, type) and issubclass(hint, BaseModel) else None


# --- rows --------------------------------------------------------------------------------------------------------


def _table(rows: Iterable[tuple[str, str, str, str]]) -> str:
    lines = ["| key | takes | default | meaning |", "| --- | --- | --- | --- |"]
    lines += ["| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |" for row in rows]
    return "\n".join(lines) + "\n"


def _rows(section: Section) -> Iterator[tuple[str, str, str, str]]:
    """Yield one row a key; the outermost tables have sections of their own."""
    path = ".".join(section.path)
    for key, field in section.model.model_fields.items():
        found = _table_of(_hints(section.model)[key])
        if found is not None and not section.path:
            continue
        takes = "see below" if found else kind_of(_hints(section.model)[key])
        if path == "catalog":
            takes = f"tables `[[catalog.{key}]]`"
        meaning = field.description or ""
        if key in NOT_USED_YET.get(path, ()) and not is_unused(section):
            meaning += " **Not used yet.**"
        yield f"`{key}`", takes, _default(path, key, field, is_table=found is not None), meaning


def _default(path: str, key: str, field: FieldInfo, *, is_table: bool) -> str:
    usual = FILLED.get(f"{path}.{key}")
    if usual is not None:
        texts = dict.fromkeys(_usual(getattr(each, usual), style) for each, style in _systems())
        return " or ".join(texts)
    value = field.get_default(call_default_factory=True)
    if value is PydanticUndefined:
        return "needed"
    if value is None or is_table or value == ():
        return "–"
    return f"`{_written(value)}`" if value != "" else "–"


def _systems() -> tuple[tuple[Any, LengthStyle], ...]:
    return (METRIC, LengthStyle.metric()), (IMPERIAL, LengthStyle.imperial())


def _usual(value: object, style: LengthStyle) -> str:
    return f'`"{file_length(value, style=style) if isinstance(value, float) else value}"`'


def _written(value: object) -> str:
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f'"{value}"'
        case tuple():
            return f"[{', '.join(_written(each) for each in value)}]"
        case _:
            return f"{float(str(value)):g}"


# --- kinds -------------------------------------------------------------------------------------------------------


def kind_of(hint: Any) -> str:
    """Return in words what a key takes."""
    origin, parts = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _annotated(parts[0], parts[1:])
    if origin is Literal:
        return " or ".join(f'`"{each}"`' for each in parts)
    if origin in (Union, types.UnionType):
        return " or ".join(kind_of(part) for part in parts if part is not type(None))
    if origin is tuple:
        return _listed(parts)
    if origin is dict:
        return "table"
    return BY_TYPE[hint]


def _listed(parts: tuple[Any, ...]) -> str:
    """Return the words for a list: of any length, or of two or three values."""
    if parts[1] is Ellipsis:
        return f"list of {_plural(kind_of(parts[0]))}"
    kinds = list(dict.fromkeys(kind_of(part) for part in parts))
    assert len(kinds) == 1, "a list of different things needs words of its own"
    if kinds == ["length"] and len(parts) == 2:
        return "point"
    return f"{COUNTS[len(parts)]} {_plural(kinds[0])}"


def _plural(kind: str) -> str:
    first, *rest = kind.split(" ", maxsplit=1)
    return " ".join([f"{first}s", *rest])


def _annotated(kind: Any, extras: tuple[Any, ...]) -> str:
    limits: list[object] = []
    word = None
    for extra in extras:
        if isinstance(extra, BeforeValidator):
            word = BY_VALIDATOR[getattr(extra.func, "__name__", "")]
        elif isinstance(extra, FieldInfo):
            limits += extra.metadata
    if kind is str:
        return _text(limits)
    return (word or kind_of(kind)) + _limits(limits)


def _text(limits: list[object]) -> str:
    patterns = [each.pattern for each in limits if getattr(each, "pattern", None)]
    if not patterns:
        return "text"
    return "name" if "/@" in patterns[0] else 'text such as `"4:5"`'


def _limits(limits: list[object]) -> str:
    words = {Gt: " above {}", Ge: " from {}", Le: " to {}"}
    return "".join(words[type(each)].format(_limit(each)) for each in limits if type(each) in words)


def _limit(limit: Any) -> str:
    return f"{next(float(getattr(limit, key)) for key in ('gt', 'ge', 'le') if hasattr(limit, key)):g}"


if __name__ == "__main__":
    main()
