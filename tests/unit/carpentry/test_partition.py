"""Ways to divide a length."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.carpentry.partition import Limits, divisions, fewest
from lathlight.units import LengthStyle

GRID = LengthStyle.metric()
SHEET = Limits(first=1220.0, inner=1220.0, last=1220.0, least=150.0)


def test_a_wall_of_three_whole_sheets_is_cut_at_the_sheets() -> None:
    found = divisions(0.0, 3660.0, limits=SHEET, wanted=(), grid=GRID)
    assert found == ((0.0, 1220.0, 2440.0, 3660.0),)


def test_whole_sheets_in_the_middle_come_first() -> None:
    assert divisions(0.0, 3000.0, limits=SHEET, wanted=(), grid=GRID)[0] == (0.0, 890.0, 2110.0, 3000.0)


def test_a_sliver_is_avoided() -> None:
    found = divisions(0.0, 1225.0, limits=SHEET, wanted=(), grid=GRID)
    assert all(min(b - a for a, b in pairwise(cuts)) >= 150 for cuts in found)


def test_a_wanted_place_is_cut_at() -> None:
    found = divisions(0.0, 3600.0, limits=SHEET, wanted=(1000.0,), grid=GRID)
    assert any(1000.0 in cuts for cuts in found)


@given(st.integers(200, 9000), st.integers(200, 2440), st.lists(st.integers(0, 9000), max_size=4), st.booleans())
def test_every_division_keeps_its_limits_and_ends(length: int, most: int, wanted: list[int], pairs: bool) -> None:
    limits = Limits(first=float(most), inner=float(most), last=float(most), least=min(150.0, length / 4))
    found = divisions(0.0, float(length), limits=limits, wanted=wanted, grid=GRID, pairs=pairs)
    assert found
    for cuts in found:
        assert cuts[0] == 0
        assert cuts[-1] == length
        assert all(0 < b - a <= most + 0.5 for a, b in pairwise(cuts))
        assert fewest(float(length), limits) <= len(cuts) - 1 <= fewest(float(length), limits) + 2


@pytest.mark.parametrize(("length", "count"), [(1220.0, 1), (1221.0, 2), (2440.0, 2), (2441.0, 3), (12200.0, 10)])
def test_the_fewest_pieces_are_counted_exactly(length: float, count: int) -> None:
    assert fewest(length, SHEET) == count
