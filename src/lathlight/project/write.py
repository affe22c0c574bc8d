"""Writing project files: single values changed with every comment kept, or a whole project as a fresh file.

Decides how values stand in the file; what is changed, and why, is decided by whoever proposes it. Nothing is written
to disk here.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Any, cast

from lathlight.project.fields import annotations_of, field_at, is_list, kind_of, table_in
from lathlight.project.findings import step_into
from lathlight.project.model import Project, Table
from lathlight.project.read import style_of
from lathlight.project.whole_lines import CRLF, comments_kept, uses_crlf, with_line_ends_of
from lathlight.units import LengthStyle, exact_degrees, file_length, file_mass, parse_angle

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.project.lines import KeyPath


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One value of the project file that is to be another."""

    path: tuple[str | int, ...]  # ("walls", "back", "length"): an entry by its number or by its name
    value: object  # mm, rad, kg or text, as in the model; None takes the line out
    why: str  # for the list of changes that the user is shown


def set_values(text: str, changes: Sequence[Change]) -> str:
    r"""Return the text of a project file with other values; comments, order, line ends and everything else stay.

    Parameters
    ----------
    text
        A project file that could be read.
    changes
        In any order; a table that is missing is added, and so is the next entry of a list.

    Raises
    ------
    KeyError
        A path that leads through an entry or key that the file or the model does not have.

    Examples
    --------
    >>> set_values('[set]\nturn = 5 # degrees\n', [Change(path=("set", "turn"), value=0.0, why="")])
    '[set]\nturn = 0 # degrees\n'
    """
    from tomlkit import parse

    now = text.replace(CRLF, "\n") if uses_crlf(text) else text
    style = style_of(parse(now).unwrap())
    for change in changes:
        document = parse(now)
        _set_value(document, change, style)
        now = comments_kept(now, document.as_string())
    return with_line_ends_of(text, now)


def dump_project(project: Project) -> str:
    """Return a whole project as a fresh file, defaults left out, lengths in its own system; it reads back the same."""
    from tomlkit import document, dumps

    style = LengthStyle.of(project.project.units, project.project.precision)
    fresh = document()
    for key, value in {"format": project.format, **_stated(project, (), style)}.items():
        fresh.add(key, _item(value))
    return dumps(fresh)


# --- one value -----------------------------------------------------------------------------------------------------


def _set_value(document: Any, change: Change, style: LengthStyle) -> None:
    *above, last = change.path
    container: Any = document
    path: KeyPath = ()
    for number, step in enumerate(above):
        following = change.path[number + 1]
        key = _number_of(container, step)
        path = (*path, key)
        container = _child(container, key, path, makes_list=isinstance(following, int))
    last = _number_of(container, last)
    annotation = field_at((*path, last))
    if annotation is None:
        message = f"no such key: {change.path}"
        raise KeyError(message)
    _put(container, last, change.value, (*path, last), style)


def _number_of(container: Any, step: str | int) -> str | int:
    """Return the number of an entry that is called by its name."""
    if isinstance(step, int) or not isinstance(container, list):
        return step
    for number, entry in enumerate(cast("list[Any]", container)):
        if step_into(entry, "name") == step:
            return number
    message = f"no entry called {step}"
    raise KeyError(message)


def _child(container: Any, step: str | int, path: KeyPath, *, makes_list: bool) -> Any:
    """Return the table or list under a key, added where it is missing."""
    from tomlkit import aot, array, table

    if isinstance(step, int):
        if step == len(container) and table_in(field_at(path)) is not None:
            container.append(table())
        return container[step]
    if step not in container:
        annotation = field_at(path)
        within = table_in(annotation)
        if annotation is None or (within is None and not is_list(annotation)):
            message = f"no such table: {path}"
            raise KeyError(message)
        container.append(
            step, aot() if within and is_list(annotation) and makes_list else table() if within else array()
        )
    return container[step]


def _put(container: Any, last: str | int, value: object, path: KeyPath, style: LengthStyle) -> None:
    if value is None:
        if isinstance(last, int) or last in container:
            del container[last]
        return
    written = _item(_written(value, path, style))
    if isinstance(last, int) and last == len(container):
        container.append(written)
    elif isinstance(last, str) and last not in container:
        container.append(last, written)
    else:
        container[last] = _with_comment(container[last], written)


def _with_comment(before: Any, written: Any) -> Any:
    """Return a new item with the spaces and the comment of the one it replaces."""
    from tomlkit.items import AoT, Item, Table

    if isinstance(before, Item) and isinstance(written, Item) and not isinstance(before, Table | AoT):
        for part in ("indent", "comment_ws", "comment", "trail"):
            setattr(written.trivia, part, getattr(before.trivia, part))
    return written


# --- how values stand in the file ----------------------------------------------------------------------------------


def _stated(table: Table, path: KeyPath, style: LengthStyle) -> dict[str, object]:
    """Return a table's values that are not the default, as they stand in the file."""
    fields = type(table).model_fields
    return {
        key: _written(value, (*path, key), style)
        for key in annotations_of(type(table))
        if (value := getattr(table, key)) is not None and (fields[key].is_required() or value != fields[key].default)
    }


def _written(value: object, path: KeyPath, style: LengthStyle) -> object:
    """Return a value as it stands in the file, in the project's own notation."""
    match value:
        case Table():
            return _stated(value, path, style)
        case tuple() | list():
            entries = cast("Sequence[object]", value)
            return [_written(entry, (*path, number), style) for number, entry in enumerate(entries)]
        case dict():
            entries = cast("Mapping[str, object]", value)
            return {key: _written(entry, (*path, key), style) for key, entry in entries.items()}
        case Decimal():
            return _decimal(value)
        case float() | int() if not isinstance(value, bool):
            return _figure(float(value), path, style) if kind_of(field_at(path)) else _plain(value)
        case _:
            return value


def _figure(value: float, path: KeyPath, style: LengthStyle) -> object:
    """Return a length, angle or mass."""
    match kind_of(field_at(path)):
        case "length":
            return file_length(value, style=style)
        case "angle":
            text = exact_degrees(value)
            number = _plain(float(text))
            return number if parse_angle(number) == value else text
        case _:
            return file_mass(value, style=style)


def _plain(value: float) -> float:
    """Return a number without needless decimals."""
    return int(value) if isinstance(value, float) and value.is_integer() and abs(value) < 1e15 else value


def _decimal(value: Decimal) -> object:
    """Return an exact number, as text where a plain one would not show the same figures."""
    number = _plain(float(value))
    return number if str(number) == str(value) else str(value)


def _item(value: object) -> Any:
    """Return a value as an item of the document: tables and lists of tables with heads, the rest on one line."""
    from tomlkit import aot, array, item, table

    made: Any
    match value:
        case dict():
            made = table()
            entries = cast("Mapping[str, object]", value)
            for key in sorted(entries, key=lambda key: _has_head(entries[key])):
                made.add(key, _item(entries[key]))
        case list():
            made = aot() if _has_head(cast("list[object]", value)) else array()
            for entry in cast("list[object]", value):
                made.append(_item(entry))
        case _:
            made = cast("Any", item(cast("Any", value)))
    return made


def _has_head(value: object) -> bool:
    """Return True for what stands under a head of its own: a table, or a list of nothing but tables."""
    if isinstance(value, list):
        entries = cast("list[object]", value)
        return bool(entries) and all(isinstance(entry, dict) for entry in entries)
    return isinstance(value, dict)
