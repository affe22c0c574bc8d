"""Reading and writing of lengths, angles, masses and areas, on cases worked by hand."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest

from lathlight.units import (
    LengthStyle,
    UnitError,
    drawing_length,
    drawing_mass,
    exact_degrees,
    file_length,
    format_angle,
    format_area,
    format_length,
    format_mass,
    parse_angle,
    parse_length,
    parse_mass,
    snap,
    snap_down,
    snap_up,
)

METRIC = LengthStyle.metric()
SIXTEENTHS = LengthStyle.imperial()
THIRTY_SECONDS = LengthStyle.imperial(32)

EITHER_FILE = [
    ("8' 0 1/2\"", 2451.1),
    ("8'-0 1/2\"", 2451.1),
    ("8' - 0 1/2\"", 2451.1),
    ("8'0-1/2\"", 2451.1),
    ("8ft 1/2in", 2451.1),
    ("8 ft 1/2 in.", 2451.1),
    ("8 feet, 0 1/2 inches", 2451.1),
    ("8′ 0½″", 2451.1),
    ("8’ 0 ½”", 2451.1),
    ("8' 0 1/2''", 2451.1),
    ("8' 0 1\N{FRACTION SLASH}2\"", 2451.1),
    ("95 1/2 in", 2425.7),
    ('95-1/2"', 2425.7),
    ("95.5 in", 2425.7),
    ("95½ inch", 2425.7),
    ("7'", 2133.6),
    ("7ft 6", 2286.0),
    ("7' 6", 2286.0),
    ("7.5 ft", 2286.0),
    ("7 1/2 ft", 2286.0),
    ('2-1/4"', 57.15),
    ('¼"', 6.35),
    ("⅛ in", 3.175),
    ('1\N{EN DASH}1/2"', 38.1),
    ("-8' 0 1/2\"", -2451.1),
    ("\N{MINUS SIGN}3 in", -76.2),
    ("2440 mm", 2440.0),
    ("38mm", 38.0),
    ("24.4 cm", 244.0),
    ("2.44 m", 2440.0),
    ("2,44 m", 2440.0),
    ("2.440 m", 2440.0),
    ("0,125 m", 125.0),
    ("3,5 mm", 3.5),
    ("2 metres", 2000.0),
    ("  2440\N{NO-BREAK SPACE}MM ", 2440.0),
    ("0", 0.0),
    (0, 0.0),
    (0.0, 0.0),
]


@pytest.mark.parametrize("style", [METRIC, SIXTEENTHS])
@pytest.mark.parametrize(("typed", "mm"), EITHER_FILE)
def test_a_length_with_its_unit_reads_alike_in_either_file(typed: object, mm: float, style: LengthStyle) -> None:
    assert parse_length(typed, style=style) == mm


@pytest.mark.parametrize(
    ("typed", "mm"), [("2440", 2440.0), (2440, 2440.0), (2440.5, 2440.5), ("38.1", 38.1), (-3, -3.0)]
)
def test_a_bare_number_is_millimetres_in_a_metric_file(typed: object, mm: float) -> None:
    assert parse_length(typed, style=METRIC) == mm


REFUSED = [
    # style, typed, words in found, words in the remedy: both readings
    (SIXTEENTHS, "8 1/2", '"8 1/2" without a unit', ["8 1/2 in", "8 ft 1/2 in"]),
    (METRIC, "8 1/2", '"8 1/2" without a unit', ["8 1/2 in", "8 ft 1/2 in"]),
    (SIXTEENTHS, "1/2", "without a unit", ["1/2 in", "1/2 ft"]),
    (SIXTEENTHS, "96", '"96" without a unit', ["96 in", "96 ft"]),
    (SIXTEENTHS, 96, "96 without a unit", ["96 in", "96 ft"]),
    (SIXTEENTHS, 7.5, "7.5 without a unit", ["7.5 in", "7.5 ft"]),
    (METRIC, "1,220", '"1,220"', ["1220 mm", "1.22 m"]),
    (SIXTEENTHS, "1,220", '"1,220"', ["1220 in", "1.22 in"]),
    (METRIC, "1.220", '"1.220"', ["1220 mm", "1.22 m"]),
    (METRIC, "1,220 mm", '"1,220 mm"', ["1220 mm", "1.22 mm"]),
    (METRIC, "2,440 m", '"2,440 m"', ["2440 m", "2.44 m"]),
    (METRIC, "2,44", "without a unit", ["2.44 m", "2.44 mm"]),
    (SIXTEENTHS, "8' 13\"", "8' 13", ["9ft 1in"]),
    (SIXTEENTHS, "2x4", '"2x4"', ["nominal", "actual sizes"]),
    (METRIC, "2 × 4", '"2 × 4"', ["nominal", "actual sizes"]),
    (METRIC, "38x89 mm", '"38x89 mm"', ["nominal", "actual sizes"]),
    (SIXTEENTHS, "tall", '"tall"', ["8 ft 0 1/2 in"]),
    (METRIC, "tall", '"tall"', ["2440 mm"]),
    (METRIC, "", '""', ["2440 mm"]),
    (METRIC, "3 1/0 in", '"3 1/0 in"', ["2440 mm"]),
    (METRIC, "٣ mm", '"٣ mm"', ["2440 mm"]),
    (METRIC, True, "true", ["2440 mm"]),
    (METRIC, None, "None", ["2440 mm"]),
    (METRIC, [1], "a list", ["2440 mm"]),
    (METRIC, {"mm": 1}, "a table", ["2440 mm"]),
    (METRIC, math.nan, "nan", ["2440 mm"]),
    (METRIC, math.inf, "inf", ["2440 mm"]),
    (METRIC, 10**400, "a number of over 30 digits", ["2440 mm"]),
    (METRIC, "9" * 5000, "999...", ["2440 mm"]),
    (METRIC, "2 km", '"2 km"', ["2440 mm"]),
    (METRIC, 2_000_000, "2000000", ["2440 mm"]),
]


@pytest.mark.parametrize(("style", "typed", "found", "readings"), REFUSED)
def test_what_is_doubtful_is_refused_with_every_reading(
    style: LengthStyle, typed: object, found: str, readings: list[str]
) -> None:
    with pytest.raises(UnitError) as caught:
        parse_length(typed, style=style)
    assert found in caught.value.found
    assert caught.value.expected
    assert [word for word in readings if word not in caught.value.remedy] == []


@pytest.mark.parametrize("typed", ["8 1/2", 96, "1,220", "1.220", "2,44"])
def test_every_reading_that_is_offered_can_be_typed(typed: object) -> None:
    for style in (METRIC, SIXTEENTHS):
        try:
            parse_length(typed, style=style)
        except UnitError as refused:
            offered = refused.remedy.removeprefix("Type ").split(" for ")[0].split(",")[0].split(" or ")
            assert [parse_length(each.rstrip("."), style=style) for each in offered]


WRITTEN = [
    (METRIC, 2440.0, "2440 mm", "2440 mm"),
    (METRIC, 2440.25, "2440.25 mm", "2440.25 mm"),
    (METRIC, 1e-7, "0.0000001 mm", "0.0000001 mm"),
    (METRIC, -0.0, "0 mm", "0 mm"),
    (SIXTEENTHS, 2451.1, "8' 0 1/2\"", "8ft 0 1/2in"),
    (SIXTEENTHS, 2438.4, "8' 0\"", "8ft 0in"),
    (SIXTEENTHS, 292.1, '11 1/2"', "11 1/2in"),
    (SIXTEENTHS, 12.7, '1/2"', "1/2in"),
    (SIXTEENTHS, 0.0, '0"', "0in"),
    (SIXTEENTHS, -2451.1, "-8' 0 1/2\"", "-8ft 0 1/2in"),
    (SIXTEENTHS, 11.1125, '7/16"', "7/16in"),
    (SIXTEENTHS, 8.73125, '11/32"', "11/32in"),
    (SIXTEENTHS, 0.396875, '1/64"', "1/64in"),
    (SIXTEENTHS, 2440.0, "2440 mm", "2440 mm"),
]


@pytest.mark.parametrize(("style", "mm", "shown", "typed"), WRITTEN)
def test_lengths_are_written_in_the_project_s_own_system(style: LengthStyle, mm: float, shown: str, typed: str) -> None:
    assert format_length(mm, style=style) == shown
    assert file_length(mm, style=style) == typed


def test_a_metric_length_can_go_without_its_unit() -> None:
    assert format_length(2440.0, style=METRIC, unit_mark=False) == "2440"
    assert format_length(2440.0, style=SIXTEENTHS, unit_mark=False) == "2440 mm"


DRAWN = [
    (METRIC, 2440.4, "2440"),
    (METRIC, 2440.5, "2441"),
    (METRIC, 2440.4999999, "2441"),  # half a millimetre, with noise of the arithmetic
    (METRIC, -2440.5, "-2441"),
    (METRIC, -0.2, "0"),
    (SIXTEENTHS, 292.1, '11 1/2"'),
    (SIXTEENTHS, 304.8, "1'-0\""),
    (SIXTEENTHS, 304.7, "1'-0\""),  # rounds up into the next foot
    (SIXTEENTHS, 2451.1, "8'-0 1/2\""),
    (SIXTEENTHS, 2438.4 + 0.75, "8'-0\""),
    (SIXTEENTHS, 2438.4 + 127 / 160, "8'-0 1/16\""),  # half a sixteenth goes up
    (SIXTEENTHS, -2451.1, "-8'-0 1/2\""),
    (THIRTY_SECONDS, 2438.4 + 127 / 160, "8'-0 1/32\""),
]


@pytest.mark.parametrize(("style", "mm", "text"), DRAWN)
def test_drawings_round_to_the_saw_s_step(style: LengthStyle, mm: float, text: str) -> None:
    assert drawing_length(mm, style=style) == text


def test_snapping_goes_to_the_nearest_step_and_halves_go_away_from_zero() -> None:
    assert [snap(mm, METRIC) for mm in (1.4, 1.5, -1.4, -1.5, 0.5)] == [1.0, 2.0, -1.0, -2.0, 1.0]
    assert snap(2451.0, SIXTEENTHS) == 2451.1
    assert snap(2451.0, THIRTY_SECONDS) == 2451.1


def test_what_is_on_the_grid_but_for_noise_stays_there_in_all_directions() -> None:
    noisy = 2451.1 + 5e-7
    assert snap(noisy, SIXTEENTHS) == snap_down(noisy, SIXTEENTHS) == snap_up(noisy, SIXTEENTHS) == 2451.1
    noisy = 2451.1 - 5e-7
    assert snap(noisy, SIXTEENTHS) == snap_down(noisy, SIXTEENTHS) == snap_up(noisy, SIXTEENTHS) == 2451.1


def test_snapping_down_and_up_take_the_next_step() -> None:
    assert (snap_down(12.9, METRIC), snap_up(12.1, METRIC)) == (12.0, 13.0)
    assert (snap_down(-12.1, METRIC), snap_up(-12.9, METRIC)) == (-13.0, -12.0)
    assert (snap_down(2452.0, SIXTEENTHS), snap_up(2452.0, SIXTEENTHS)) == (2451.1, 2452.6875)


def test_numbers_of_an_array_are_written_like_any_other() -> None:
    length = np.float64(2451.1)
    assert format_length(length, style=METRIC) == "2451.1 mm"
    assert drawing_length(length, style=SIXTEENTHS) == "8'-0 1/2\""


def test_a_style_follows_from_units_and_precision() -> None:
    assert LengthStyle.of("metric", None) == LengthStyle.of("metric", "1 mm") == METRIC
    assert LengthStyle.of("imperial", None) == LengthStyle.of("imperial", "1/16 in") == SIXTEENTHS
    assert LengthStyle.of("imperial", "1/32 in") == THIRTY_SECONDS
    assert (METRIC.step, SIXTEENTHS.step, THIRTY_SECONDS.step) == (1, Fraction(127, 80), Fraction(127, 160))


@pytest.mark.parametrize(("units", "precision"), [("metric", "1/16 in"), ("imperial", "1 mm"), ("cubits", None)])
def test_a_style_of_two_systems_is_refused(units: str, precision: str | None) -> None:
    with pytest.raises(ValueError, match="no such style"):
        LengthStyle.of(units, precision)


@pytest.mark.parametrize("typed", ["90", 90, 90.0, "90 deg", "90°", "90 degrees", " 90.0 ° "])
def test_a_right_angle_reads_as_half_of_pi(typed: object) -> None:
    assert parse_angle(typed) == math.pi / 2


@pytest.mark.parametrize("typed", ["right", "", True, None, "90 rad", math.inf, "9,0"])
def test_what_is_no_angle_is_refused(typed: object) -> None:
    with pytest.raises(UnitError) as caught:
        parse_angle(typed)
    assert "degrees" in caught.value.expected
    assert "110" in caught.value.remedy


def test_angles_are_shown_in_degrees_with_at_most_two_decimals() -> None:
    assert [format_angle(parse_angle(each)) for each in (110, 22.5, "33.333", -45, 0)] == [
        "110°",
        "22.5°",
        "33.33°",
        "-45°",
        "0°",
    ]


def test_exact_degrees_are_as_short_as_they_were_typed() -> None:
    assert [exact_degrees(parse_angle(each)) for each in (110, 22.5, "33.333", -45)] == ["110", "22.5", "33.333", "-45"]


def test_masses_are_kilograms_unless_they_say_pounds() -> None:
    assert parse_mass(25) == parse_mass("25") == parse_mass("25 kg") == parse_mass("25000 g") == 25.0
    assert parse_mass("100 lb") == parse_mass("100 lbs") == parse_mass("100 pounds") == 45.359237
    assert parse_mass("16 oz") == 0.45359237


@pytest.mark.parametrize("typed", ["heavy", "", "25 stone", False, None])
def test_what_is_no_mass_is_refused(typed: object) -> None:
    with pytest.raises(UnitError) as caught:
        parse_mass(typed)
    assert "mass" in caught.value.expected
    assert "55 lb" in caught.value.remedy


def test_masses_and_areas_are_shown_in_the_project_s_system() -> None:
    assert (format_mass(24.95, METRIC), format_mass(24.94758035, SIXTEENTHS)) == ("25.0 kg", "55.0 lb")
    assert (drawing_mass(24.5, METRIC), drawing_mass(2.45, METRIC), drawing_mass(24.5, SIXTEENTHS)) == (
        "25 kg",
        "2.5 kg",
        "54 lb",
    )
    assert (format_area(2.9768e6, style=METRIC), format_area(32 * 304.8**2, style=SIXTEENTHS)) == (
        "2.98 m²",
        "32.0 sq ft",
    )
