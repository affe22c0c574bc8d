"""Reading the shelf of offcuts: a TOML file of its own, with all its problems named.

The file has a version (``format``), its own system of lengths (``units``), the names of the jobs that have used it
(``jobs``) and a table ``offcuts`` an offcut: ``id``, ``section`` (timber or moulding) or ``sheet``, ``length``, for a
sheet ``width``, ``note``, and the marks ``taken_by`` and ``left_by``. Works on text; files are left to the caller,
writing to ``lathlight.buying.shelf_writing``.
"""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any, cast

from lathlight.buying.shelf import Offcut, Shelf
from lathlight.errors import InputError, Problem, nearest
from lathlight.units import LengthStyle, UnitError, format_length, parse_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from lathlight.catalog import Catalog

FORMAT = 1  # the shelf file's own version
TOP = ("format", "units", "jobs", "offcuts")
KEYS = ("id", "section", "sheet", "length", "width", "note", "taken_by", "left_by")
SYSTEMS = ("metric", "imperial")
LONGEST_ID = 40  # characters
_HEAD = re.compile(r"^[ \t]*\[\[[ \t]*offcuts[ \t]*\]\]", re.MULTILINE)
CRLF = "\r\n"


def read_shelf(text: str, *, catalog: Catalog, name: str = "shelf.toml") -> Shelf:
    """Return the shelf of a file's text.

    Parameters
    ----------
    catalog
        With the project's own rows: sections, mouldings and sheets are called by its names.
    name
        The file's name, for messages.

    Raises
    ------
    InputError
        Every problem of the file, in its order: no TOML, a newer format, an unknown key, an offcut listed twice, an
        unknown section or sheet, no size.
    """
    try:
        raw = tomllib.loads(text.replace(CRLF, "\n"))
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise InputError.of(
            place=name, found=f"text that is no TOML ({error})", expected="a file of offcuts", remedy="Mend that place."
        ) from None
    found = list(_top_faults(raw, name))
    if found:
        raise InputError(found)
    reader = _Reader(catalog=catalog, style=LengthStyle.of(raw["units"], None), name=name, heads=_heads(text, raw))
    offcuts = tuple(reader.offcuts(raw.get("offcuts", [])))
    if reader.found:
        raise InputError(reader.found)
    return Shelf(system=raw["units"], offcuts=offcuts, jobs=tuple(raw.get("jobs", [])))


def _problem(place: str, found: str, expected: str, remedy: str) -> Problem:
    return Problem(place=place, found=found, expected=expected, remedy=remedy)


def _top_faults(raw: Mapping[str, Any], name: str) -> Iterator[Problem]:
    version, units = raw.get("format"), raw.get("units")
    if type(version) is not int or not 1 <= version <= FORMAT:
        shown = "nothing" if version is None else f"{version}"
        yield _problem(f"{name} format", shown, f"{FORMAT}", f"Write format = {FORMAT} as the first line.")
    if units not in SYSTEMS:
        shown = "nothing" if units is None else f"{units}"
        yield _problem(f"{name} units", shown, '"metric" or "imperial"', 'Write units = "metric", or "imperial".')
    yield from _unknown_keys(raw, TOP, name)
    if not _is_list_of(raw.get("offcuts", []), dict):
        yield _problem(f"{name} offcuts", "no list of tables", "a table [[offcuts]] an offcut", "Write them so.")
    jobs: Any = raw.get("jobs", [])
    if not _is_list_of(jobs, str):
        yield _problem(f"{name} jobs", "no list of names", 'a list such as ["parlour"]', "Write it so, or take it out.")
    elif len(set(jobs)) < len(jobs):
        yield _problem(f"{name} jobs", "a job twice", "each job once", "Take one of the two out.")


def _is_list_of(value: object, kind: type) -> bool:
    return isinstance(value, list) and all(isinstance(each, kind) for each in cast("list[object]", value))


def _unknown_keys(raw: Mapping[str, Any], known: tuple[str, ...], where: str) -> Iterator[Problem]:
    for key in raw:
        if key not in known:
            near = nearest(key, known)
            remedy = f'Did you mean "{near}"?' if near else "Take it out."
            yield _problem(f"{where} {key}", f'an unknown key "{key}"', f"one of {', '.join(known)}", remedy)


def _heads(text: str, raw: Mapping[str, Any]) -> tuple[int, ...]:
    """Return the line that each offcut begins on; none where they are not written under heads of their own."""
    lines = tuple(text.count("\n", 0, head.start()) + 1 for head in _HEAD.finditer(text.replace(CRLF, "\n")))
    return lines if len(lines) == len(raw.get("offcuts", [])) else ()


class _Reader:
    """Reads offcuts and gathers what is wrong with them."""

    def __init__(self, *, catalog: Catalog, style: LengthStyle, name: str, heads: tuple[int, ...]) -> None:
        self.found: list[Problem] = []
        self._catalog, self._style, self._name, self._heads = catalog, style, name, heads

    def offcuts(self, entries: Iterable[Mapping[str, Any]]) -> Iterator[Offcut]:
        """Yield every offcut that could be read."""
        seen: set[str] = set()
        for number, raw in enumerate(entries):
            before = len(self.found)
            offcut = self._offcut(raw, self._where(number, raw))
            if offcut.id and offcut.id in seen:
                self._fault(
                    self._where(number, raw) + " id",
                    f'offcut "{offcut.id}" a second time',
                    "each offcut once",
                    "Take one of the two out, or chalk another id on it.",
                )
            seen.add(offcut.id)
            if len(self.found) == before:
                yield offcut

    def _where(self, number: int, raw: Mapping[str, Any]) -> str:
        line = f":{self._heads[number]}" if self._heads else ""
        called = raw.get("id")
        return f"{self._name}{line} offcuts[{number}]" + (f' "{called}"' if isinstance(called, str) and called else "")

    def _fault(self, place: str, found: str, expected: str, remedy: str) -> None:
        self.found.append(_problem(place, found, expected, remedy))

    def _offcut(self, raw: Mapping[str, Any], where: str) -> Offcut:
        self.found += _unknown_keys(raw, KEYS, where)
        stock, is_sheet = self._stock(raw, where)
        length = self._size(raw, "length", where)
        width = self._size(raw, "width", where) if is_sheet else None
        if not is_sheet and "width" in raw:
            self._fault(f"{where} width", "a width", "a length only, for a section", "Take it out, or name a sheet.")
        return Offcut(
            id=self._id(raw, where),
            stock=stock,
            length=length,
            width=width,
            note=self._text(raw, "note", where) or "",
            taken_by=self._text(raw, "taken_by", where),
            left_by=self._text(raw, "left_by", where),
        )

    def _id(self, raw: Mapping[str, Any], where: str) -> str:
        value = raw.get("id")
        if isinstance(value, int) and not isinstance(value, bool):
            value = str(value)
        if isinstance(value, str) and value.strip() == value and 0 < len(value) <= LONGEST_ID:
            return value
        shown = "nothing" if value is None else f"{value}"[:LONGEST_ID]
        self._fault(f"{where} id", shown, "what is chalked on the piece", 'Give it one of its own, such as id = "7".')
        return ""

    def _text(self, raw: Mapping[str, Any], key: str, where: str) -> str | None:
        value = raw.get(key)
        if value is None or isinstance(value, str):
            return value
        self._fault(f"{where} {key}", f"{value}", "text", "Put it in quotation marks.")
        return None

    def _stock(self, raw: Mapping[str, Any], where: str) -> tuple[str, bool]:
        """Return the name of the section or sheet, and whether it is a sheet."""
        given = [key for key in ("section", "sheet") if key in raw]
        if len(given) != 1:
            shown = "a section and a sheet" if given else "neither a section nor a sheet"
            self._fault(where, shown, "one of the two", 'Write section = "..." for timber and mouldings, or sheet.')
            return "", len(given) == 2 or "width" in raw
        key = given[0]
        rows = self._catalog.sheets if key == "sheet" else {**self._catalog.lumber, **self._catalog.profiles}
        name = raw[key]
        if not isinstance(name, str) or name not in rows:
            near = nearest(name, rows) if isinstance(name, str) else None
            self._fault(
                f"{where} {key}",
                f'unknown {key} "{name}"',
                f"a {key} of the catalogue",
                f'Did you mean "{near}"?' if near else "Look it up (lathlight catalog), or add a row of your own.",
            )
        return f"{name}", key == "sheet"

    def _size(self, raw: Mapping[str, Any], key: str, where: str) -> float:
        example = format_length(914.4 if self._style.system == "imperial" else 900.0, style=self._style)
        if key not in raw:
            self._fault(f"{where} {key}", f"no {key}", f"the offcut's {key}", f"Measure it; write it as {example}.")
            return 0.0
        try:
            size = parse_length(raw[key], style=self._style)
        except UnitError as error:
            self._fault(f"{where} {key}", error.found, error.expected, error.remedy)
            return 0.0
        if size <= 0:
            shown = format_length(size, style=self._style)
            self._fault(f"{where} {key}", shown, "a length above 0", f"Measure it; write it as {example}.")
        return size
