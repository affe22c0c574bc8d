"""Nominal names and actual sizes."""

from __future__ import annotations

import pytest

from lathlight.catalog import Lumber, load_catalog, looks_nominal, nearest_row, nominal_actual, nominal_thickness

CATALOG = load_catalog()


@pytest.mark.parametrize("text", ["2x2", "2 x 2", "2X2", "2×2", '2" x 2"', "2 by 2", " 2x2 "])
def test_a_nominal_name_is_known_however_it_is_typed(text: str) -> None:
    row = nominal_actual(CATALOG, text)
    assert row is not None
    assert row.name == "2x2"


def test_a_trade_name_of_metric_timber_is_known() -> None:
    row = nominal_actual(CATALOG, "cls 3x2")
    assert row is not None
    assert row.name == "38x63"
    sawn = nominal_actual(CATALOG, "25x50")
    assert sawn is not None
    assert (sawn.width, sawn.depth) == (20, 45)


def test_another_text_is_nobodys_name() -> None:
    assert nominal_actual(CATALOG, "7x9") is None
    assert nominal_actual(CATALOG, "") is None


@pytest.mark.parametrize(
    ("width", "depth", "name"), [(50.8, 50.8, "2x2"), (101.6, 50.8, "2x4"), (25.4, 76.2, "1x3"), (25, 50, "20x45")]
)
def test_a_nominal_size_typed_as_an_actual_one_is_noticed_either_way_round(
    width: float, depth: float, name: str
) -> None:
    row = looks_nominal(CATALOG, width=width, depth=depth)
    assert row is not None
    assert row.name == name


@pytest.mark.parametrize("row", CATALOG.lumber.values(), ids=lambda row: row.name)
def test_no_rows_own_size_looks_nominal(row: Lumber) -> None:
    assert looks_nominal(CATALOG, width=row.width, depth=row.depth) is None


def test_a_size_that_is_nobodys_nominal_one_is_left_alone() -> None:
    assert looks_nominal(CATALOG, width=40, depth=60) is None


def test_three_quarters_of_an_inch_is_what_a_thinner_ply_is_called() -> None:
    row = nominal_thickness(CATALOG, material="plywood", thickness=19.05)
    assert row is not None
    assert row.name == "ply 3-4 in"


@pytest.mark.parametrize(
    ("material", "thickness"), [("plywood", 6.35), ("plywood", 9), ("MDF", 19.05), ("plywood", 15)]
)
def test_a_true_thickness_is_left_alone(material: str, thickness: float) -> None:
    assert nominal_thickness(CATALOG, material=material, thickness=thickness) is None


@pytest.mark.parametrize(
    ("typed", "name"), [("ply 1/4 in", "ply 1-4 in"), ("PLY 9 MM", "ply 9 mm"), ("pyl 9 mm", "ply 9 mm")]
)
def test_a_mistyped_sheet_leads_to_the_one_that_was_meant(typed: str, name: str) -> None:
    row = nearest_row(CATALOG.sheets, typed)
    assert row is not None
    assert row.name == name


def test_a_name_like_no_other_leads_nowhere() -> None:
    assert nearest_row(CATALOG.sheets, "chocolate") is None
