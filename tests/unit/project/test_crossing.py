"""Chains of walls that run into themselves: against every pair tried with an independent library."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lathlight.project.crossing import area, chain, first_crossing, meet, outline_crossing

walls = st.lists(st.tuples(st.integers(100, 3000), st.integers(60, 179)), min_size=1, max_size=40)
points = st.tuples(st.integers(-5, 5).map(float), st.integers(-5, 5).map(float))


def slow_first_crossing(corners: list[tuple[float, float]]) -> tuple[int, int] | None:
    lines = [shapely.LineString(pair) for pair in itertools.pairwise(corners)]
    for later in range(len(lines)):
        for earlier in range(later - 1):
            if lines[earlier].distance(lines[later]) <= 1e-6:
                return earlier, later
    return None


@settings(max_examples=200)
@given(walls)
@example([(1000, 90)] * 4)
@example([(1000, 60)] * 3)
@example([(1000, 60), (1000, 60), (999, 90)])
@example([(3000, 179)] * 40)
def test_the_first_crossing_is_that_of_a_plain_search(sizes: list[tuple[int, int]]) -> None:
    lengths = [float(length) for length, _ in sizes]
    angles = [math.radians(angle) for _, angle in sizes[:-1]]
    corners = chain(lengths, angles)
    wanted = slow_first_crossing(corners)
    assert first_crossing(corners) == wanted
    assert first_crossing(corners, turning=sum(math.pi - angle for angle in angles)) == wanted


def test_the_walls_of_a_square_corner_turn_towards_the_camera() -> None:
    corners = chain([2000.0, 1000.0], [math.pi / 2])
    assert corners == [(0.0, 0.0), (2000.0, 0.0), pytest.approx((2000.0, -1000.0))]


def test_a_straight_run_of_two_thousand_walls_does_not_meet_itself() -> None:
    corners = chain([1000.0] * 2000, [math.radians(179.95)] * 1999)
    assert first_crossing(corners) is None


def test_an_outline_may_not_cross_itself_or_touch() -> None:
    assert outline_crossing([(0, 0), (4, 0), (4, 4), (0, 4)]) is None
    assert outline_crossing([(0, 0), (4, 0), (0, 4), (4, 4)]) == (1, 3)
    assert outline_crossing([(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)]) == (0, 2)


def test_an_area_is_positive_anticlockwise() -> None:
    assert area([(0, 0), (4, 0), (4, 3)]) == 6
    assert area([(4, 3), (4, 0), (0, 0)]) == -6


@given(points, points, points, points)
def test_two_lines_meet_where_their_distance_is_nothing(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    assert meet((a, b), (c, d)) == (shapely.LineString([a, b]).distance(shapely.LineString([c, d])) <= 1e-6)
