"""Actual sizes of softwood lumber.

Source: American Softwood Lumber Standard PS 20, dry, dressed sizes (tables 1 to 3), as reproduced in a trade table
that gives inches and whole millimetres. The standard itself was not read; that the trade table equals it is taken on
trust. British sizes: answers of an industry body in a trade journal, citing BS EN 1313-1:2010.
"""

from __future__ import annotations

import pytest

from lathlight.catalog import extended, load_catalog, looks_nominal, nominal_actual
from lathlight.units import LengthStyle

PS_20 = "American Softwood Lumber Standard PS 20, through a trade table reproducing it"
EN_1313 = "trade-journal answer of an industry body, citing BS EN 1313-1:2010"
EXACT = 1e-9  # [mm]

PRINTED_INCHES = [  # nominal, thickness, width
    ("1x2", 0.75, 1.5),
    ("1x3", 0.75, 2.5),
    ("1x4", 0.75, 3.5),
    ("1x6", 0.75, 5.5),
    ("2x2", 1.5, 1.5),
    ("2x4", 1.5, 3.5),
    ("2x6", 1.5, 5.5),
]
PRINTED_MILLIMETRES = [("1x2", 19, 38), ("1x3", 19, 64), ("1x4", 19, 89), ("1x6", 19, 140), ("2x4", 38, 89)]
DRESSED = {"1": 0.75, "2": 1.5, "3": 2.5, "4": 3.5, "5": 4.5, "6": 5.5}  # nominal inches: inches as a width
THICK = {"1": 0.75, "2": 1.5}


@pytest.mark.published(source=PS_20, place="nominal to dressed size, inches")
@pytest.mark.parametrize(("name", "thickness", "width"), PRINTED_INCHES)
def test_a_nominal_name_has_the_printed_inches(name: str, thickness: float, width: float) -> None:
    row = load_catalog().lumber[name]
    assert (row.width, row.depth) == pytest.approx((thickness * 25.4, width * 25.4), abs=EXACT)


@pytest.mark.published(source=PS_20, place="the same sizes in whole millimetres")
@pytest.mark.parametrize(("name", "thickness", "width"), PRINTED_MILLIMETRES)
def test_a_nominal_name_has_the_printed_millimetres(name: str, thickness: int, width: int) -> None:
    row = load_catalog().lumber[name]
    assert (round(row.width), round(row.depth)) == (thickness, width)


@pytest.mark.published(source=PS_20, place="rule that the table follows: 2 to 6 in wide loses 1/2 in")
def test_every_american_row_follows_the_rule_of_the_table() -> None:
    rows = [row for row in load_catalog().lumber.values() if row.system == "us"]
    assert len(rows) == 8
    for row in rows:
        thick, wide = row.name.split("x")
        assert (row.width, row.depth) == pytest.approx((THICK[thick] * 25.4, DRESSED[wide] * 25.4), abs=EXACT)


@pytest.mark.published(source=EN_1313, place="CLS 3x2: 64 x 38 mm, labelled 63 x 38")
def test_a_cls_three_by_two_has_its_official_or_its_labelled_size() -> None:
    row = nominal_actual(load_catalog(), "CLS 3x2")
    assert row is not None
    assert row.width == 38
    assert row.depth in (63, 64)


@pytest.mark.published(source=EN_1313, place="CLS 3x2: the label and the standard differ by 1 mm")
def test_a_project_can_state_the_other_of_the_two_sizes() -> None:
    mine = extended(
        load_catalog(), {"lumber": [{"name": "38x63", "depth": "64 mm"}]}, style=LengthStyle.metric(), place="set.toml"
    )
    assert mine.lumber["38x63"].depth == 64
    assert mine.lumber["38x63"].width == 38


@pytest.mark.published(source="UK trade reference for the width, PS 20 for the thickness", place="CLS 4x2")
def test_a_cls_four_by_two_is_a_two_by_four() -> None:
    catalog = load_catalog()
    row = nominal_actual(catalog, "CLS 4x2")
    assert row is not None
    assert (row.width, row.depth) == (38, 89)
    american = catalog.lumber["2x4"]
    assert (round(american.width), round(american.depth)) == (38, 89)


@pytest.mark.published(source=PS_20, place="a 2x4 is not 2 by 4 inches")
def test_the_nominal_inches_of_a_two_by_four_are_noticed() -> None:
    row = looks_nominal(load_catalog(), width=2 * 25.4, depth=4 * 25.4)
    assert row is not None
    assert row.name == "2x4"
