"""Carpenters' squaring: diagonals, lean, sloping floors.

Sources: the 3-4-5 rectangle (a university mathematics answer; with correct sides, equal diagonals are necessary and
sufficient for a rectangle); diagonals of common flats (Pythagoras); the parallelogram law, d1^2 - d2^2 = 4 a e; similar
triangles and rigid rotation for sloping floors. Figures worked out outside the project, to the digits given.
"""

from __future__ import annotations

import math

import pytest

from lathlight.geometry import diagonals, joint_gap, lean_of, slope_of

DIGITS = 1e-4
FLATS = [(48, 96, 107.331), (1200, 2400, 2683.282), (5.5, 7.7, 9.4626), (600, 2400, 2473.863)]


@pytest.mark.published(source="university mathematics answer: 3-4-5 rectangle", place="30 x 40 ft has a 50 ft diagonal")
def test_the_three_four_five_rectangle_has_equal_diagonals() -> None:
    assert diagonals(base=30, side=40) == (50, 50)


@pytest.mark.published(source="Pythagoras", place="diagonals of common flats, in and mm")
@pytest.mark.parametrize(("base", "side", "diagonal"), FLATS)
def test_diagonals_of_common_flats(base: float, side: float, diagonal: float) -> None:
    assert diagonals(base=base, side=side) == pytest.approx((diagonal, diagonal), abs=1e-3)


@pytest.mark.published(source="parallelogram law", place="48 x 96 in flat leaning 1/4 in")
def test_a_lean_of_a_quarter_inch_shows_in_the_diagonals() -> None:
    longer, shorter = diagonals(base=48, side=96, lean=0.25)
    assert (longer, shorter) == pytest.approx((107.443, 107.2194), abs=DIGITS)
    assert longer - shorter == pytest.approx(0.2236, abs=DIGITS)
    assert lean_of(one=longer, other=shorter, base=48) == pytest.approx(0.25)
    assert math.degrees(slope_of(rise=0.25, run=96)) == pytest.approx(0.1492, abs=DIGITS)


@pytest.mark.published(source="parallelogram law", place="1/4 in between the diagonals of a 4 x 8 ft flat")
@pytest.mark.parametrize(("base", "lean"), [(48, 0.2795), (96, 0.1398)])
def test_a_quarter_inch_between_diagonals_tells_the_lean(base: float, lean: float) -> None:
    middle = math.hypot(48, 96)
    assert lean_of(one=middle + 0.125, other=middle - 0.125, base=base) == pytest.approx(lean, abs=1e-3)


@pytest.mark.published(source="similar triangles", place="1/2 in per 4 ft")
def test_half_an_inch_in_four_feet_is_an_inch_in_eight() -> None:
    slope = slope_of(rise=0.5, run=48)
    assert math.tan(slope) * 96 == pytest.approx(1.0)
    assert math.degrees(slope) == pytest.approx(0.5968, abs=DIGITS)


@pytest.mark.published(source="rigid rotation", place="two 4 x 8 ft flats, floor changing by 1/4 in per 4 ft")
def test_a_change_of_the_floors_slope_opens_the_joint_at_the_top() -> None:
    gap = joint_gap(height=96, rise=0.25, run=48)
    assert gap == pytest.approx(0.5, abs=DIGITS)
    assert gap * 48 / 96 == pytest.approx(0.25, abs=DIGITS)  # packing under the outer corner
