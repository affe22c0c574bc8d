"""Whatever is written reads back exactly, and the saw's grid is a grid."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lathlight.units import (
    LengthStyle,
    UnitError,
    drawing_length,
    exact_degrees,
    file_length,
    format_length,
    parse_angle,
    parse_length,
    parse_mass,
    snap,
    snap_down,
    snap_up,
)

styles = st.sampled_from([LengthStyle.metric(), LengthStyle.imperial(), LengthStyle.imperial(32)])
lengths = st.floats(min_value=-900_000, max_value=900_000)
steps = st.integers(min_value=-400_000, max_value=400_000)


@given(lengths, styles)
@example(0.1 + 0.2, LengthStyle.imperial())
@example(5e-324, LengthStyle.metric())
def test_every_length_reads_back_as_it_was_written(mm: float, style: LengthStyle) -> None:
    written = format_length(mm, style=style)
    if len(written) <= 60:
        assert parse_length(written, style=style) == mm
        assert parse_length(file_length(mm, style=style), style=style) == mm


@given(steps, styles)
def test_a_length_on_the_grid_is_written_in_the_project_s_own_notation(count: int, style: LengthStyle) -> None:
    mm = float(count * style.step)
    written = format_length(mm, style=style)
    assert parse_length(written, style=style) == mm
    assert written.endswith(" mm" if style.system == "metric" else '"')


@given(steps, styles)
def test_a_drawing_shows_a_length_on_the_grid_exactly(count: int, style: LengthStyle) -> None:
    mm = float(count * style.step)
    assert parse_length(drawing_length(mm, style=style), style=style) == mm


@given(lengths, styles)
def test_snapping_stays_within_half_a_step_and_is_done_once(mm: float, style: LengthStyle) -> None:
    step = float(style.step)
    near, low, high = snap(mm, style), snap_down(mm, style), snap_up(mm, style)
    assert abs(near - mm) <= step / 2 + 2e-6
    assert low - 2e-6 <= mm <= high + 2e-6
    assert high - low <= step + 1e-9
    for value in (near, low, high):
        assert value == float(round(Fraction(value) / style.step) * style.step)
        assert snap(value, style) == snap_down(value, style) == snap_up(value, style) == value


@given(lengths, styles)
def test_a_mirrored_length_snaps_to_the_mirrored_place(mm: float, style: LengthStyle) -> None:
    assert snap(-mm, style) == -snap(mm, style)


@given(st.floats(min_value=-20, max_value=20))
def test_every_angle_reads_back_as_it_was_written(rad: float) -> None:
    if abs(rad) > 1e-15 or rad == 0:
        assert parse_angle(exact_degrees(rad)) == rad


@given(st.integers(min_value=-360_00, max_value=360_00))
def test_degrees_stay_as_short_as_they_were_typed(hundredths: int) -> None:
    typed = Fraction(hundredths, 100)
    assert Fraction(exact_degrees(parse_angle(hundredths / 100))) == typed
    assert math.isclose(parse_angle(hundredths / 100), math.radians(hundredths / 100), rel_tol=1e-15)


@given(st.text(max_size=80), styles)
@example("8' 0 1/2\"", LengthStyle.metric())
@example("1,220", LengthStyle.metric())
@example("٣'", LengthStyle.imperial())
@example("²/₃ in", LengthStyle.imperial())
def test_any_text_is_a_measure_or_a_plain_refusal(text: str, style: LengthStyle) -> None:
    for read in (lambda: parse_length(text, style=style), lambda: parse_angle(text), lambda: parse_mass(text)):
        outcome = _outcome(read)
        if isinstance(outcome, UnitError):
            assert all((outcome.found, outcome.expected, outcome.remedy))
        else:
            assert math.isfinite(outcome)


def _outcome(read: Callable[[], float]) -> float | UnitError:
    try:
        return read()
    except UnitError as refused:
        return refused


@given(st.integers(0, 90), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_add_up(feet: int, inches: int, sixteenths: int) -> None:
    exact = float(Fraction(254, 10) * (12 * feet + inches + Fraction(sixteenths, 16)))
    style = LengthStyle.imperial()
    for text in (f"{feet}' {inches} {sixteenths}/16\"", f"{feet}ft {inches}-{sixteenths}/16in"):
        assert parse_length(text, style=style) == pytest.approx(exact, abs=0)
