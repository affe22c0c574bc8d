"""Densities, volumes and spreading rates as a shop writes them."""

from __future__ import annotations

import pytest

from lathlight.catalog.measures import Measure, parse_measure
from lathlight.units import UnitError

READ: list[tuple[object, Measure, float]] = [
    (550, "density", 550),
    ("550", "density", 550),
    ("550 kg/m³", "density", 550),
    (2.5, "volume", 2.5),
    ("2,5 l", "volume", 2.5),
    ("310 ml", "volume", 0.31),
    ("1 US gal", "volume", 3.785411784),
    ("1 us qt", "volume", 0.946352946),
    (12, "spread", 12),
]


@pytest.mark.parametrize(("text", "measure", "value"), READ)
def test_a_measure_is_read(text: object, measure: Measure, value: float) -> None:
    assert parse_measure(text, measure=measure) == pytest.approx(value, rel=1e-6)


PRINTED: list[tuple[str, Measure, float, float, str, str]] = [  # text, what, value, half a digit, source, place
    ("1 lb/ft3", "density", 16.018, 0.001, "international pound and foot", "pound a cubic foot in kg/m3"),
    ("10.1 us fl oz", "volume", 0.2987, 0.0001, "sealant supplier's note", "cartridge of 10.1 US fluid ounces"),
    ("350 ft2/us gal", "spread", 8.59, 0.01, "exact unit definitions", "label range of 350 to 400 square feet"),
    ("400 ft2/us gal", "spread", 9.82, 0.01, "exact unit definitions", "label range of 350 to 400 square feet"),
]


@pytest.mark.published(source="unit definitions and trade notes, named in the table PRINTED", place="as named there")
@pytest.mark.parametrize(("text", "measure", "value", "digit", "source", "place"), PRINTED)
def test_a_printed_conversion_comes_out(
    text: str, measure: Measure, value: float, digit: float, source: str, place: str
) -> None:
    assert parse_measure(text, measure=measure) == pytest.approx(value, abs=digit), f"{source}: {place}"


@pytest.mark.parametrize(
    "text", [True, None, [], "", "l", "-1 l", "0 l", 0, -1, float("inf"), "1e3 l", "1 kg", "1 2 l", "1,000 ml", 10**400]
)
def test_what_is_no_volume_is_refused(text: object) -> None:
    with pytest.raises(UnitError) as refused:
        parse_measure(text, measure="volume")
    assert refused.value.remedy


def test_a_gallon_says_whose() -> None:
    with pytest.raises(UnitError, match="us gal"):
        parse_measure("1 gal", measure="volume")


def test_a_mistyped_unit_is_met_with_the_nearest() -> None:
    with pytest.raises(UnitError, match="Did you mean lb/ft3"):
        parse_measure("30 lbs/ft3", measure="density")
