"""Lists as plain tables, and the two ways they are written: CSV and one spreadsheet.

Decides how cells are written; what stands in them is ``lathlight.exports.contents``. The one place that knows the
spreadsheet library. Text that a spreadsheet would run as a formula is made harmless: in the spreadsheet by its cell's
type, in CSV by an apostrophe before it.
"""
# pyright: reportUnknownMemberType=false, reportMissingTypeStubs=false, reportMissingModuleSource=false

from __future__ import annotations

import csv
import datetime as dt
import io
import re
import zipfile
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

Cell = str | int | float | None
Kind = Literal["text", "count", "mm", "in", "kg", "lb", "degree", "amount", "number"]

UNDATED = dt.date(2000, 1, 1)  # stands in files that must carry some date where the project states none
FORMATS: dict[Kind, str] = {
    "text": "@",
    "count": "0",
    "mm": "General",
    "in": "0.0000",
    "kg": "0.0",
    "lb": "0.0",
    "degree": "0.0",
    "amount": "0.00",
    "number": "General",
}
DECIMALS: dict[Kind, int] = {"mm": 3, "in": 5, "kg": 3, "lb": 3, "degree": 2, "amount": 3, "number": 6}
FIGURE = re.compile(r"""-[\d.,'/ -]+(["']| [^\W\d_]+[²³]?)""")  # a negative length or weight, which runs as nothing
RUNS_AS_FORMULA = ("=", "+", "-", "@", "\t", "\r")
CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")  # what XML cannot hold
NARROWEST, WIDEST = 6, 60  # columns [characters]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table."""

    title: str
    kind: Kind = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One list: as many cells a row as there are columns; None is an empty cell."""

    name: str  # file name without ending, and the spreadsheet's tab
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


def rounded(value: Cell, kind: Kind) -> Cell:
    """Return a number to the decimals its kind is written with; everything else as it is.

    Examples
    --------
    >>> rounded(2451.1000000000004, "mm"), rounded("2451", "mm"), rounded(3, "count")
    (2451.1, '2451', 3)
    """
    if not isinstance(value, float):
        return value
    figure = round(value, DECIMALS.get(kind, 6)) + 0.0
    return int(figure) if figure.is_integer() else figure


def csv_bytes(table: Table) -> bytes:
    """Return a table as CSV: RFC 4180, commas, UTF-8 with a byte order mark so that spreadsheets know the encoding.

    Numbers have a decimal point. A program set to a decimal comma reads the spreadsheet file better than this one.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([column.title for column in table.columns])
    for row in table.rows:
        writer.writerow([_harmless(rounded(v, c.kind)) for v, c in zip(row, table.columns, strict=True)])
    return text.getvalue().encode("utf-8-sig")


def workbook_bytes(tables: Sequence[Table], *, date: dt.date | None) -> bytes:
    """Return one XLSX file with a sheet a table; equal tables and date give equal bytes.

    Parameters
    ----------
    tables
        At least one; names differ and fit on a tab (31 characters).
    date
        The project's date, written as the file's own; `UNDATED` where there is none.
    """
    from openpyxl import Workbook

    book: Any = Workbook(write_only=True)
    for table in tables:
        _write_sheet(book, table)
    book.properties.creator = "Lathlight"
    stream = io.BytesIO()
    book.save(stream)
    return _dated(stream.getvalue(), date or UNDATED)


def _harmless(value: Cell) -> Cell:
    runs = isinstance(value, str) and value.startswith(RUNS_AS_FORMULA) and not FIGURE.fullmatch(value)
    return f"'{value}" if runs else value


def _write_sheet(book: Any, table: Table) -> None:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    sheet: Any = book.create_sheet(table.name)
    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    for number, width in enumerate(_widths(table), start=1):
        sheet.column_dimensions[get_column_letter(number)].width = width

    def cell(value: Cell, kind: Kind) -> Any:
        made: Any = WriteOnlyCell(sheet, value=None)
        if isinstance(value, str):
            made.value = CONTROL.sub(" ", value)
            made.data_type = "s"  # never a formula
        else:
            made.value = rounded(value, kind)
        made.number_format = FORMATS[kind]
        return made

    head = [cell(column.title, "text") for column in table.columns]
    for made in head:
        made.font, made.alignment = Font(bold=True), Alignment(wrap_text=True, vertical="top")
    sheet.append(head)
    for row in table.rows:
        sheet.append([cell(v, c.kind) for v, c in zip(row, table.columns, strict=True)])


def _widths(table: Table) -> list[int]:
    """Return column widths that show the longest cell, and the longest word of the heading [characters]."""
    widths: list[int] = []
    for index, column in enumerate(table.columns):
        cells = [len(str(rounded(row[index], column.kind) or "")) for row in table.rows]
        words = [len(word) for word in column.title.split()]
        widths.append(min(WIDEST, max(NARROWEST, *words, *cells) + 2))
    return widths


def _dated(workbook: bytes, date: dt.date) -> bytes:
    """Return the file with one date everywhere: in the archive's entries and in its properties."""
    stamp = f"{date.isoformat()}T00:00:00Z"
    moment = (max(date.year, 1980), date.month, date.day, 0, 0, 0)  # an archive knows no earlier year
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(workbook)) as source, zipfile.ZipFile(stream, "w") as target:
        for entry in source.infolist():
            data = source.read(entry)
            if entry.filename == "docProps/core.xml":
                data = re.sub(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*", rb"\g<1>" + stamp.encode(), data)
            info = zipfile.ZipInfo(entry.filename, date_time=moment)
            info.create_system, info.external_attr = 3, 0o600 << 16  # the same on every system
            target.writestr(info, data, compress_type=zipfile.ZIP_DEFLATED, compresslevel=6)
    return stream.getvalue()
