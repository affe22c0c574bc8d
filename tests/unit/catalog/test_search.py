"""Finding rows by words, and listing them."""

from __future__ import annotations

import pytest

from lathlight.catalog import TABLES, load_catalog, rows_as_table, rows_of, search_catalog
from lathlight.units import LengthStyle

CATALOG = load_catalog()


def names(words: str, table: str | None = None) -> list[str]:
    return [found.row.name for found in search_catalog(CATALOG, words, table=table)]


def test_no_words_find_everything_in_the_catalogues_order() -> None:
    assert names("") == [name for table in TABLES for name in rows_of(CATALOG, table)]
    assert names("", "weights") == list(CATALOG.weights)


def test_all_words_must_be_there_in_any_letters() -> None:
    assert names("PLY 9", "sheets") == ["ply 9 mm", "ply 9 mm 3050"]
    assert names("9mm plywood") == ["ply 9 mm", "ply 9 mm 3050"]


def test_a_figure_stands_for_itself_alone() -> None:
    assert names("2x4", "lumber") == ["2x4"]
    assert "19x64" not in names("9")
    assert "ply 12 mm" in names("12", "sheets")
    assert "ply 12 mm" not in names("2", "sheets")
    assert "hardboard 3.2 mm" not in names("2", "sheets")


def test_a_fraction_may_be_typed_with_its_stroke() -> None:
    assert names("ply 1/4") == ["ply 1-4 in"]


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("skirting", "base 95"),
        ("baseboard", "base 95"),
        ("crown", "cornice 92 at 38"),
        ("architrave", "casing 57"),
        ("dado rail", "rail 57"),
        ("drywall", "gypsum board 1-2 in"),
        ("emulsion", "matt paint"),
    ],
)
def test_words_of_either_side_of_the_ocean_find_the_row(word: str, name: str) -> None:
    found = search_catalog(CATALOG, word)
    assert name in [each.row.name for each in found]
    assert all(each.exact for each in found)


def test_the_trade_name_finds_the_timber() -> None:
    assert names("cls") == ["38x63", "38x89"]


def test_the_nearest_names_are_offered_where_nothing_is_found() -> None:
    found = search_catalog(CATALOG, "sandbga 10 kg")
    assert [(each.row.name, each.exact) for each in found if each.table == "weights"] == [("sandbag 10 kg", False)]


def test_nonsense_finds_nothing() -> None:
    assert search_catalog(CATALOG, "xyzzy") == []


def test_a_table_that_is_not_there_is_the_callers_mistake() -> None:
    with pytest.raises(ValueError, match="sheet"):
        search_catalog(CATALOG, "ply", table="sheet")


def test_a_list_shows_lengths_in_the_projects_notation() -> None:
    header, lines = rows_as_table("lumber", [CATALOG.lumber["2x4"]], style=LengthStyle.imperial())
    shown = dict(zip(header, lines[0], strict=True))
    assert shown["width"] == '1 1/2"'
    assert shown["depth"] == '3 1/2"'
    assert shown["lengths"] == "8' 0\", 10' 0\", 12' 0\", 16' 0\""
    assert header[-1] == "source"


def test_a_list_of_metric_sheets_reads_in_millimetres() -> None:
    header, lines = rows_as_table("sheets", [CATALOG.sheets["ply 9 mm"]], style=LengthStyle.metric())
    shown = dict(zip(header, lines[0], strict=True))
    assert shown["thickness"] == "9 mm"
    assert shown["stud spacing"] == "610 mm"
    assert shown["grain"] == "no"
    assert shown["density"] == "550 kg/m3"


def test_a_moulding_is_listed_by_what_its_points_measure() -> None:
    header, lines = rows_as_table("profiles", [CATALOG.profiles["cornice 92 at 38"]], style=LengthStyle.metric())
    shown = dict(zip(header, lines[0], strict=True))
    assert "points" not in header
    assert shown["spring"] == "38°"
    assert shown["width"] == "92 mm"
    assert shown["projection"] == "57 mm"  # 92 sin 38 degrees is 56.6


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("style", [LengthStyle.metric(), LengthStyle.imperial()], ids=["metric", "imperial"])
def test_every_table_can_be_listed_in_either_notation(table: str, style: LengthStyle) -> None:
    rows = list(rows_of(CATALOG, table).values())
    header, lines = rows_as_table(table, rows, style=style)
    assert len(lines) == len(rows)
    assert all(len(line) == len(header) for line in lines)
    assert [line[0] for line in lines] == [row.name for row in rows]
