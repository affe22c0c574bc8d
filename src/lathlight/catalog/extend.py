"""A project's own rows laid over the catalogue: they change rows of the same name and add new ones.

All problems of all rows are collected, in the order of the file. Nothing is changed in place.
"""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from lathlight.catalog.columns import TABLES, make_row, missing, read_cells, rows_of, settled
from lathlight.catalog.nominal import nearest_row
from lathlight.errors import InputError, Problem, nearest
from lathlight.working import USER

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from lathlight.catalog.columns import Row
    from lathlight.catalog.rows import Catalog
    from lathlight.units import LengthStyle

    Key = tuple[str | int, ...]

LIKE = "like"  # key of a project's row: the row whose other columns it takes over


def extended(
    catalog: Catalog,
    rows: Mapping[str, Sequence[Mapping[str, object]]],
    *,
    style: LengthStyle,
    place: str | Callable[[Key], str],
) -> Catalog:
    """Return the catalogue with a project's rows in it.

    Parameters
    ----------
    catalog
        What the rows are laid over; stays as it is.
    rows
        For each table's name its rows. A row whose `name` is known changes the columns that it states; another adds
        a row and states every column that has no default, or names a row to be `like`.
    style
        How lengths are written in the file.
    place
        The file's name, which stands before each key; or a function from a key's path, such as
        ``("catalog", "sheets", 0, "width")``, to the words that say where that is.

    Raises
    ------
    InputError
        Unknown table, column or row to be like; missing column; value of the wrong kind; two rows of one name;
        a row that cannot be as a whole (a section that crosses itself, a cornice without spring angle).
    """
    where = _placer(place)
    tables: dict[str, Any] = {}
    problems: list[Problem] = []
    for table, entries in rows.items():
        if table not in TABLES:
            problems.append(_unknown_table(table, where))
        elif entries:
            tables[table], found = _laid_over(rows_of(catalog, table), entries, table=table, style=style, where=where)
            problems += found
    if problems:
        raise InputError(problems)
    return replace(catalog, **tables) if tables else catalog


def _placer(place: str | Callable[[Key], str]) -> Callable[[Key], str]:
    if not isinstance(place, str):
        return place

    def where(path: Key) -> str:
        keys = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
        return f"{place} {keys.removeprefix('.')}"

    return where


def _unknown_table(table: str, where: Callable[[Key], str]) -> Problem:
    near = nearest(table, TABLES)
    remedy = f'Did you mean "{near}"?' if near else f"The tables are {', '.join(TABLES)}."
    return Problem(
        place=where(("catalog", table)), found=f'"{table}"', expected="a table of the catalogue", remedy=remedy
    )


def _laid_over(
    known: Mapping[str, Row],
    entries: Sequence[Mapping[str, object]],
    *,
    table: str,
    style: LengthStyle,
    where: Callable[[Key], str],
) -> tuple[dict[str, Row], list[Problem]]:
    rows = dict(known)
    problems: list[Problem] = []
    seen: set[str] = set()
    for number, entry in enumerate(entries):
        row, found = _row(entry, table=table, rows=rows, style=style)
        if row is not None:
            found += _twice(row.name, seen)
            seen.add(row.name)
            rows[row.name] = row
        problems += [replace(each, place=where(_path(table, number, each.place))) for each in found]
    return rows, problems


def _path(table: str, number: int, column: str) -> Key:
    return ("catalog", table, number, column) if column else ("catalog", table, number)


def _twice(name: str, seen: set[str]) -> list[Problem]:
    if name not in seen:
        return []
    remedy = "Take one of them out, or give it another name."
    return [Problem(place="name", found=f'a second row "{name}"', expected="one row of each name", remedy=remedy)]


def _row(
    entry: Mapping[str, object], *, table: str, rows: Mapping[str, Row], style: LengthStyle
) -> tuple[Row | None, list[Problem]]:
    """Return the row that an entry makes, or None, and what is wrong with it, each with its column as the place."""
    cells, problems = read_cells(table, {key: value for key, value in entry.items() if key != LIKE}, style=style)
    base, unknown = _base(entry, table=table, rows=rows)
    problems += unknown
    if not problems:
        problems += _incomplete(entry, cells, table=table, base=base, rows=rows)
    if problems:
        return None, _in_order(problems, entry)
    stated = [key for key in entry if key not in ("name", LIKE)]
    cells.setdefault("source", USER if base is None else f"{USER} ({', '.join(stated) or LIKE}); else {base.source}")
    changed: dict[str, Any] = cells
    row = make_row(table, cells) if base is None else replace(base, **changed)
    problems = TABLES[table].judge(row)
    return (None if problems else settled(row)), problems


def _base(entry: Mapping[str, object], *, table: str, rows: Mapping[str, Row]) -> tuple[Row | None, list[Problem]]:
    if LIKE not in entry:
        name = entry.get("name")
        return (rows.get(name) if isinstance(name, str) else None), []
    like = entry[LIKE]
    if isinstance(like, str) and like in rows:
        return rows[like], []
    near = nearest_row(rows, like) if isinstance(like, str) else None
    remedy = f'Did you mean "{near.name}"?' if near else "Name a row of this table."
    return None, [Problem(place=LIKE, found=_quoted(like), expected=f"the name of a row of {table}", remedy=remedy)]


def _incomplete(
    entry: Mapping[str, object],
    cells: Mapping[str, object],
    *,
    table: str,
    base: Row | None,
    rows: Mapping[str, Row],
) -> list[Problem]:
    lacks = [key for key in missing(table, cells) if key != "source"]
    if base is not None:
        lacks = [key for key in lacks if key == "name"]
    if not lacks:
        return []
    name = entry.get("name")
    near = nearest_row(rows, name) if isinstance(name, str) else None
    hint = (
        f' say like = "{near.name}" to take over the rest.' if near else " say like = ... to take over another row's."
    )
    remedy = "Give it one." if lacks == ["name"] else f"Add them, or{hint}"
    found = f"a row without {', '.join(lacks)}" if name is None else f'a new row "{name}" without {", ".join(lacks)}'
    return [Problem(place="", found=found, expected=f"all columns of {table}", remedy=remedy)]


def _in_order(problems: list[Problem], entry: Mapping[str, object]) -> list[Problem]:
    order = {key: number for number, key in enumerate(entry)}
    return sorted(problems, key=lambda problem: order.get(problem.place, -1))


def _quoted(value: object) -> str:
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else str(value)
