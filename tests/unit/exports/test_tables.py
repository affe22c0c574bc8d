"""How lists are written. Second opinions: the csv module, and the spreadsheet library reading its own file back."""

from __future__ import annotations

import csv
import datetime as dt
import hashlib
import io
import re
import subprocess
import sys
import zipfile

import openpyxl  # noqa: TID251 - reads back what was written
import pytest

from lathlight.exports import UNDATED, Column, Table, csv_bytes, workbook_bytes

HOSTILE = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"]
DATE = dt.date(2025, 4, 7)


def table(*rows, name="timber") -> Table:
    columns = (
        Column(title="Mark"),
        Column(title="Number", kind="count"),
        Column(title="Length [mm]", kind="mm"),
        Column(title="Length [in]", kind="in"),
    )
    return Table(name=name, title="Timber", columns=columns, rows=tuple(rows))


def read_csv(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_csv_begins_with_a_byte_order_mark_and_ends_lines_as_the_standard_says() -> None:
    data = csv_bytes(table(("A", 1, 2440.0, 96.0)))
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\r\n") == data.count(b"\n") == 2


def test_csv_gives_back_marks_quotes_and_commas() -> None:
    words = 'Wall "B", 8\'-0 1/2" × 4\nsecond line'
    assert read_csv(csv_bytes(table((words, 1, 1.0, 1.0))))[1][0] == words


def test_csv_numbers_have_a_point_and_no_noise() -> None:
    assert read_csv(csv_bytes(table(("A", 3, 0.1 + 0.2, 95.5), ("B", 1, 2440.0, -0.0))))[1:] == [
        ["A", "3", "0.3", "95.5"],
        ["B", "1", "2440", "0"],
    ]


def test_an_empty_cell_stays_empty() -> None:
    assert read_csv(csv_bytes(table(("A", 1, None, None))))[1] == ["A", "1", "", ""]


@pytest.mark.parametrize("words", HOSTILE)
def test_words_that_would_run_as_a_formula_are_made_harmless(words) -> None:
    assert read_csv(csv_bytes(table((words, 1, 1.0, 1.0))))[1][0] == f"'{words}"
    sheet = opened(workbook_bytes([table((words, 1, 1.0, 1.0))], date=DATE))["timber"]
    assert sheet["A2"].data_type == "s"


def test_a_negative_number_stays_a_number() -> None:
    assert read_csv(csv_bytes(table(("A", 1, -4.5, 1.0))))[1][2] == "-4.5"


def opened(data: bytes) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(data))


def test_the_workbook_has_a_sheet_a_table_with_a_frozen_head() -> None:
    book = opened(workbook_bytes([table(("A", 1, 2440.5, 96.0)), table(name="boards")], date=DATE))
    assert book.sheetnames == ["timber", "boards"]
    sheet = book["timber"]
    assert sheet.freeze_panes == "A2"
    assert [cell.value for cell in sheet[1]] == ["Mark", "Number", "Length [mm]", "Length [in]"]
    assert sheet["A1"].font.bold
    assert [cell.value for cell in sheet[2]] == ["A", 1, 2440.5, 96]
    assert sheet["C2"].data_type == "n"
    assert sheet["D2"].number_format == "0.0000"
    assert sheet.column_dimensions["A"].width > 5


def test_characters_that_xml_cannot_hold_are_left_out() -> None:
    sheet = opened(workbook_bytes([table(("bell \x07 here", 1, 1.0, 1.0))], date=DATE))["timber"]
    assert sheet["A2"].value == "bell   here"


def test_the_same_tables_give_the_same_workbook_in_another_process() -> None:
    code = (
        "import datetime as dt, hashlib\n"
        "from lathlight.exports import Column, Table, workbook_bytes\n"
        "t = Table(name='timber', title='T', columns=(Column(title='A'),), rows=(('x',), ('=y',)))\n"
        "print(hashlib.sha256(workbook_bytes([t], date=dt.date(2025, 4, 7))).hexdigest())\n"
    )
    here = Table(name="timber", title="T", columns=(Column(title="A"),), rows=(("x",), ("=y",)))
    wanted = hashlib.sha256(workbook_bytes([here], date=DATE)).hexdigest()
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == wanted


@pytest.mark.parametrize(("date", "wanted"), [(DATE, DATE), (None, UNDATED)])
def test_the_projects_date_is_the_only_date_in_the_workbook(date, wanted) -> None:
    with zipfile.ZipFile(io.BytesIO(workbook_bytes([table()], date=date))) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(wanted.year, wanted.month, wanted.day, 0, 0, 0)}
        core = archive.read("docProps/core.xml").decode()
    assert set(re.findall(r"\d{4}-\d\d-\d\dT[\d:]+Z", core)) == {f"{wanted.isoformat()}T00:00:00Z"}


def test_a_date_before_archives_knew_dates_is_no_fault() -> None:
    assert opened(workbook_bytes([table()], date=dt.date(1900, 1, 1))).sheetnames == ["timber"]


@pytest.mark.parametrize("words", ["-271.9 mm", '-10 21/32"', "-2'-6 27/64\"", "-0.5 m²"])
def test_a_negative_figure_is_left_as_it_is(words: str) -> None:
    table = Table(name="t", title="t", columns=(Column(title="figure"),), rows=((words,),))
    assert f"'{words}" not in csv_bytes(table).decode("utf-8-sig")
