"""Sizes, areas and weights of sheets.

Sources: the international inch, 25.4 mm exactly (1959); a US plywood trade weight chart (sanded softwood: nominal and
actual thickness, weight of a 4 x 8 ft sheet, said to vary by 15 %); a trade statement of the weight of 3/4 in MDF
(another page gives 65 to 70 lb for it, which is a plywood's weight); metric panel masses worked out by hand from
volume and typical densities.
"""

from __future__ import annotations

import pytest

from lathlight.catalog import Sheet, load_catalog
from lathlight.units import LengthStyle, parse_length

POUND = 0.45359237  # [kg]
CHART = "US plywood trade weight chart, sanded softwood"
VARIES = 0.15  # as the chart says of itself
DIGITS_M2 = 1e-4

AREAS = [("ply 3-4 in", 2.9729), ("ply 18 mm", 2.9768)]  # [m2]
SIZES = [("1250 mm", "2500 mm", 3.125), ("5 ft", "5 ft", 2.32258)]
WEIGHTS = [  # name, actual thickness [in], weight of a 4 x 8 ft sheet [lb]
    ("ply 1-4 in", 1 / 4, 22.0),
    ("ply 3-8 in", 11 / 32, 28.5),
    ("ply 1-2 in", 15 / 32, 40.6),
    ("ply 5-8 in", 19 / 32, 48.0),
    ("ply 3-4 in", 23 / 32, 60.8),
]
MASSES = [("mdf 18 mm", 40.19), ("ply 9 mm", 14.74), ("hardboard 3.2 mm", 9.05)]  # [kg]


def sheet(name: str) -> Sheet:
    return load_catalog().sheets[name]


def mass(row: Sheet) -> float:
    return row.width * row.length * row.thickness * 1e-9 * row.density


@pytest.mark.published(source="international inch, 25.4 mm", place="area of a 4 x 8 ft and of a 1220 x 2440 mm sheet")
@pytest.mark.parametrize(("name", "square_metres"), AREAS)
def test_a_sheet_has_the_area_of_its_trade_size(name: str, square_metres: float) -> None:
    row = sheet(name)
    assert row.width * row.length * 1e-6 == pytest.approx(square_metres, abs=DIGITS_M2)


@pytest.mark.published(source="international inch, 25.4 mm", place="area of a 1250 x 2500 mm and of a 5 x 5 ft sheet")
@pytest.mark.parametrize(("width", "length", "square_metres"), SIZES)
def test_sizes_typed_in_a_row_give_the_area(width: str, length: str, square_metres: float) -> None:
    style = LengthStyle.metric()
    area = parse_length(width, style=style) * parse_length(length, style=style)
    assert area * 1e-6 == pytest.approx(square_metres, abs=DIGITS_M2)


@pytest.mark.published(source="international inch, 25.4 mm", place="1220 x 2440 mm against 4 x 8 ft")
def test_a_metric_sheet_is_a_little_larger_than_four_by_eight_feet() -> None:
    metric, feet = sheet("ply 18 mm"), sheet("ply 3-4 in")
    assert metric.width - feet.width == pytest.approx(0.8)
    assert metric.length - feet.length == pytest.approx(1.6)


@pytest.mark.published(source=CHART, place="actual thickness")
@pytest.mark.parametrize(("name", "inches", "pounds"), WEIGHTS)
def test_softwood_ply_has_the_actual_thickness_of_the_chart(name: str, inches: float, pounds: float) -> None:
    assert sheet(name).thickness == pytest.approx(inches * 25.4, abs=1e-9)


@pytest.mark.published(source=CHART, place="weight of a 4 x 8 ft sheet, within the 15 % it says it varies by")
@pytest.mark.parametrize(("name", "inches", "pounds"), WEIGHTS)
def test_softwood_ply_weighs_what_the_chart_says(name: str, inches: float, pounds: float) -> None:
    assert mass(sheet(name)) / POUND == pytest.approx(pounds, rel=VARIES)


@pytest.mark.published(source="trade weight statement", place="3/4 in MDF, 4 x 8 ft: about 96 lb")
def test_three_quarter_inch_mdf_weighs_about_ninety_six_pounds() -> None:
    assert mass(sheet("mdf 3-4 in")) / POUND == pytest.approx(96, abs=2)


@pytest.mark.published(source="volume x typical density, worked out by hand", place="1220 x 2440 mm panels")
@pytest.mark.parametrize(("name", "kilograms"), MASSES)
def test_a_metric_panel_has_the_mass_of_its_volume(name: str, kilograms: float) -> None:
    assert mass(sheet(name)) == pytest.approx(kilograms, abs=0.01)
