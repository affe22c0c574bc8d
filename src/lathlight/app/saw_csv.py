"""A saw job written as CSV: pieces, stock, offcuts and settings in one table, told apart by the column ``kind``.

A setting (kerf, trim cut, least offcut, straight edge, stages, units, currency) has its figure in the column ``value``.
Commas, semicolons and tabs part the columns; the first line names them.
"""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any

from lathlight.app.saw_entries import JOB_KEYS, PIECE_KEYS, Entry, Listed
from lathlight.app.saw_slips import shown
from lathlight.errors import InputError, nearest

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.app.saw_slips import Slips

COLUMNS = ("kind", *dict.fromkeys((*PIECE_KEYS, "price", "value")))
STOCK_KINDS = ("stock", "moulding", "offcut")
KINDS = ("piece", *STOCK_KINDS, *(key.replace("_", " ") for key in JOB_KEYS))


def read_csv(text: str, *, file: str, stem: str, slips: Slips) -> Listed:
    """Return what a CSV text lists.

    Raises
    ------
    InputError
        Its first line does not name the columns. Whatever else is wrong goes to the slips.
    """
    first = text.split("\n", maxsplit=1)[0]
    delimiter = max(",;\t", key=first.count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    try:
        header = _header(next(rows), file=file)
        read = [(rows.line_num, row) for row in rows if any(cell.strip() for cell in row)]
    except csv.Error as error:
        raise _not_csv(file, rows.line_num, str(error)) from error
    settings: dict[str, Any] = {}
    lines: dict[str, int] = {}
    pieces: list[Entry] = []
    stocks: list[Entry] = []
    for line, row in read:
        values = {key: cell.strip() for key, cell in zip(header, row, strict=False) if cell.strip()}
        if len(row) > len(header) and any(cell.strip() for cell in row[len(header) :]):
            remedy = "Put a cell that holds the delimiter in quotation marks."
            _slip(slips, file, line, "", f"{len(row)} cells", f"at most {len(header)}", remedy)
        kind = values.pop("kind", "").lower().replace("_", " ")
        if kind == "piece":
            pieces.append(Entry(place="piece", line=line, values=values))
        elif kind in STOCK_KINDS:
            mark = {} if kind == "stock" else {kind: True}
            stocks.append(Entry(place=kind, line=line, values={**values, **mark}))
        elif kind in KINDS:
            _setting(kind, values, settings, lines, file=file, line=line, slips=slips)
        else:
            near = nearest(kind, KINDS)
            remedy = f'Did you mean "{near}"?' if near else "Say in the column kind what the line is."
            _slip(slips, file, line, "kind", shown(kind), f"one of {', '.join(KINDS)}", remedy)
    job = Entry(place="setting", line=0, values=settings, lines=lines)
    return Listed(file=file, stem=stem, job=job, pieces=pieces, stocks=stocks)


def _header(row: Sequence[str], *, file: str) -> Sequence[str]:
    """Return the names of the columns."""
    names = [cell.strip().lower().replace(" ", "_") for cell in row]
    wrong = next((name for name in names if name and name not in COLUMNS), None)
    if wrong is None and "kind" in names and len(set(names)) == len(names):
        return names
    found = f'a column "{wrong}"' if wrong is not None else "a column twice" if "kind" in names else "no column kind"
    near = nearest(wrong, COLUMNS) if wrong is not None else None
    raise InputError.of(
        place=f"{file}:1",
        found=found,
        expected=f"the names of the columns: {', '.join(COLUMNS)}",
        remedy=f'Did you mean "{near}"?'
        if near
        else "Begin the file with a line such as kind,name,length,number,price.",
    )


def _not_csv(file: str, line: int, reason: str) -> InputError:
    error = InputError.of(
        place=f"{file}:{line}",
        found=f"a line that cannot be read ({reason})",
        expected="cells parted by commas, semicolons or tabs",
        remedy="Save the table as CSV in UTF-8 once more.",
    )
    assert isinstance(error, InputError)
    return error


def _setting(
    kind: str,
    values: dict[str, Any],
    settings: dict[str, Any],
    lines: dict[str, int],
    *,
    file: str,
    line: int,
    slips: Slips,
) -> None:
    key = kind.replace(" ", "_")
    value = values.pop("value", None)
    if value is None or values:
        found = "no value" if value is None else f"a figure under {', '.join(values)}"
        _slip(slips, file, line, kind, found, "its figure in the column value", "Move the figure there.")
    elif key in settings:
        remedy = "Take one of the two lines out."
        _slip(slips, file, line, kind, "it a second time", "each setting once", remedy)
    else:
        settings[key], lines[key] = value, line


def _slip(slips: Slips, file: str, line: int, what: str, found: str, expected: str, remedy: str) -> None:
    slips.add(line, place=f"{file}:{line} {what}".rstrip(), found=found, expected=expected, remedy=remedy)
