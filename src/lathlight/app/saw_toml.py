"""A saw job written as TOML: tables [job], [[pieces]] and [[stock]], with the line of every key."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from typing import TYPE_CHECKING, Any, cast

from lathlight.app.saw_entries import Entry, Listed
from lathlight.app.saw_slips import shown
from lathlight.errors import InputError, nearest

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.app.saw_slips import Slips

TABLES = ("job", "pieces", "stock")
_PLACE = re.compile(r"\(at line (?P<line>[0-9]+), column (?P<column>[0-9]+)\)")
_HEAD = re.compile(r"\s*\[\[?\s*(?P<table>[A-Za-z_]+)\s*\]\]?")
_KEY = re.compile(r"\s*(?P<key>[A-Za-z_-]+)\s*=")

Lines = dict[tuple[str, int], dict[str, int]]  # by table and its number: the line of each key, "" for its head


def read_toml(text: str, *, file: str, stem: str, slips: Slips) -> Listed:
    """Return what a TOML text lists.

    Raises
    ------
    InputError
        It is not TOML. Whatever else is wrong goes to the slips.
    """
    raw = _tables(text, file=file)
    lines = _lines(text)
    for key in raw:
        if key not in TABLES:
            near = nearest(key, TABLES)
            line = lines.get((key, 0), {}).get("", 0)
            slips.add(
                line,
                place=f"{file}:{line} {key}" if line else f"{file} {key}",
                found="a table or key that is not known",
                expected="[job], [[pieces]] and [[stock]]",
                remedy=f'Did you mean "{near}"?' if near else "Take it out.",
            )
    job = raw.get("job", {})
    if not isinstance(job, dict):
        slips.add(0, place=f"{file} job", found=shown(job), expected="a table", remedy="Begin it with [job].")
        job = {}
    return Listed(
        file=file,
        stem=stem,
        job=_entry("job", "job", 0, cast("dict[str, Any]", job), lines),
        pieces=_entries("pieces", raw, lines, file=file, slips=slips),
        stocks=_entries("stock", raw, lines, file=file, slips=slips),
    )


def _tables(text: str, *, file: str) -> Mapping[str, Any]:
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        found = _PLACE.search(str(error))
        lines = text.splitlines() or [""]
        number = int(found["line"]) if found else len(lines)
        column = f", column {found['column']}" if found else ""
        raise InputError.of(
            place=f"{file}:{number}{column}",
            found=f"{shown(lines[min(number, len(lines)) - 1].strip())}, which is not TOML",
            expected="key = value, [job], [[pieces]] or [[stock]]",
            remedy='Put text in quotation marks, and type ft and in for the marks, as in "8ft 0 1/2in".',
        ) from error
    except (ValueError, RecursionError) as error:
        raise InputError.of(
            place=file,
            found="a number of thousands of digits, or brackets without end",
            expected="a TOML file",
            remedy="Take it out.",
        ) from error


def _lines(text: str) -> Lines:
    """Return where the keys of each table stand; tables within a line are not looked into."""
    lines: Lines = {}
    seen: dict[str, int] = {}
    here: dict[str, int] | None = None
    for number, line in enumerate(text.splitlines(), start=1):
        if head := _HEAD.match(line):
            table = head["table"]
            place = seen.get(table, 0)
            seen[table] = place + 1
            here = lines.setdefault((table, place), {"": number})
        elif key := _KEY.match(line):
            if here is None:
                lines.setdefault((key["key"], 0), {"": number})
            else:
                here.setdefault(key["key"], number)
    return lines


def _entries(table: str, raw: Mapping[str, Any], lines: Lines, *, file: str, slips: Slips) -> Sequence[Entry]:
    listed: object = raw.get(table, [])
    entries = cast("list[object]", listed) if isinstance(listed, list) else [listed]
    wrong = [each for each in entries if not isinstance(each, dict)] if isinstance(listed, list) else entries
    if wrong:
        line = lines.get((table, 0), {}).get("", 0)
        remedy = f"Begin each entry with [[{table}]], two brackets on each side."
        place = f"{file}:{line} {table}" if line else f"{file} {table}"
        slips.add(line, place=place, found=shown(wrong[0]), expected="a list of tables", remedy=remedy)
        return ()
    tables = cast("list[dict[str, Any]]", entries)
    return tuple(_entry(f"{table}[{n}]", table, n, values, lines) for n, values in enumerate(tables))


def _entry(place: str, table: str, number: int, values: Mapping[str, Any], lines: Lines) -> Entry:
    here = lines.get((table, number), {})
    return Entry(place=place, line=here.get("", 0), values=values, lines={k: n for k, n in here.items() if k})
