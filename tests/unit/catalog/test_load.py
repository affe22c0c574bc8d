"""The catalogue that comes with the program."""

from __future__ import annotations

import dataclasses
import math
import tomllib

import pytest

from lathlight.catalog import TABLES, Profile, Sheet, load_catalog, rows_of
from lathlight.catalog.load import FOLDER, trade_words

ROWS = [(table, name) for table in TABLES for name in rows_of(load_catalog(), table)]


@pytest.mark.parametrize("table", TABLES)
def test_every_table_has_rows(table: str) -> None:
    assert len(rows_of(load_catalog(), table)) >= 7


@pytest.mark.parametrize(("table", "name"), ROWS)
def test_every_row_names_its_source(table: str, name: str) -> None:
    assert len(rows_of(load_catalog(), table)[name].source.split()) >= 2


@pytest.mark.parametrize(("table", "name"), ROWS)
def test_every_row_stands_under_its_own_name_without_the_signs_that_ids_use(table: str, name: str) -> None:
    assert rows_of(load_catalog(), table)[name].name == name
    assert not set(name) & set("/@\n")
    assert name == name.strip()


@pytest.mark.parametrize(("table", "name"), ROWS)
def test_every_shipped_row_stands_up_to_the_judgement_on_projects_rows(table: str, name: str) -> None:
    assert TABLES[table].judge(rows_of(load_catalog(), table)[name]) == []


@pytest.mark.parametrize("table", TABLES)
def test_the_columns_of_a_table_are_the_fields_of_its_rows(table: str) -> None:
    row = next(iter(rows_of(load_catalog(), table).values()))
    fields = [field.name for field in dataclasses.fields(row)]
    columns = [key for key in TABLES[table].columns if key not in ("specific_gravity", "moisture")]
    assert columns == fields


def test_the_catalogue_is_read_once() -> None:
    assert load_catalog() is load_catalog()


def test_stock_lengths_ascend_and_tins_ascend() -> None:
    catalog = load_catalog()
    for lengths in [row.lengths for rows in (catalog.lumber, catalog.profiles) for row in rows.values()]:
        assert list(lengths) == sorted(set(lengths))
    for paint in catalog.paints.values():
        assert list(paint.containers) == sorted(set(paint.containers))


def test_studs_divide_a_sheet_evenly_at_its_stated_spacing() -> None:
    def bays(row: Sheet) -> int:
        return math.ceil(row.width / row.stud_spacing - 1e-9)

    for row in load_catalog().sheets.values():
        loose = row.stud_spacing - row.width / bays(row)
        assert 0 <= loose + 1e-9 <= 5, row.name


def test_a_thicker_sheet_of_one_material_never_needs_closer_studs() -> None:
    sheets = sorted(load_catalog().sheets.values(), key=lambda row: row.thickness)
    for thin in sheets:
        for thick in sheets:
            if thin.material == thick.material and thin.length == thick.length and thin.thickness < thick.thickness:
                assert thin.stud_spacing <= thick.stud_spacing


def test_the_upper_side_of_a_cornices_back_makes_its_spring_angle() -> None:
    def back(row: Profile) -> float:
        (out, up), (wall, low) = row.points[-2], row.points[-1]
        assert wall == 0
        return math.atan2(out, up - low)

    cornices = [row for row in load_catalog().profiles.values() if row.spring is not None]
    assert sorted({round(math.degrees(row.spring or 0)) for row in cornices}) == [38, 45]
    for row in cornices:
        assert back(row) == pytest.approx(row.spring, abs=math.radians(0.05))


def test_a_corner_plate_is_a_small_triangle_of_ply() -> None:
    plate = load_catalog().brackets["corner plate 150"]
    assert (plate.width, plate.height, plate.thickness) == (150, 150, 6)
    assert plate.mass == pytest.approx(0.15 * 0.15 / 2 * 0.006 * 550, abs=0.001)


def test_steel_fittings_weigh_what_their_steel_weighs() -> None:
    brackets = load_catalog().brackets
    for name in ("sill strap 19x4", "sill strap 3-4 in"):
        strap = brackets[name]
        assert strap.mass == pytest.approx(strap.width * strap.height * strap.thickness * 7850e-9, rel=0.005)


def test_every_trade_word_leads_to_rows() -> None:
    catalog = load_catalog()
    texts = [f"{table} {row}".lower() for table in TABLES for row in rows_of(catalog, table).values()]
    for word, ours in trade_words().items():
        assert any(ours.lower() in text for text in texts), word


def test_no_table_file_lies_unused() -> None:
    assert {path.stem for path in FOLDER.glob("*.toml")} == {*TABLES, "words"}
    for path in FOLDER.glob("*.toml"):
        assert tomllib.loads(path.read_text(encoding="utf-8"))
