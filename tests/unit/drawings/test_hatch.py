"""Section lining stays inside what it fills; the second opinion is shapely's."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, affinity

from lathlight.drawings.hatch import hatch
from lathlight.drawings.sheets import Hatch

SQUARE = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
HOLE = [(30.0, 30.0), (30.0, 60.0), (70.0, 60.0), (70.0, 30.0)]


@st.composite
def stars(draw: st.DrawFn) -> list[tuple[float, float]]:
    """A simple polygon, seldom convex: radii at rising bearings round a middle."""
    radii = draw(st.lists(st.floats(20.0, 300.0), min_size=3, max_size=12))
    turn = 2 * math.pi / len(radii)
    return [(500.0 + r * math.cos(i * turn), -200.0 + r * math.sin(i * turn)) for i, r in enumerate(radii)]


def length(made: Hatch) -> float:
    return sum(math.dist(a, b) for a, b in made.lines)


@given(stars(), st.floats(0.0, math.pi), st.floats(1.0, 4.0))
def test_every_line_lies_inside_and_none_is_missing(
    ring: list[tuple[float, float]], angle: float, spacing: float
) -> None:
    made = hatch(ring, scale=5.0, spacing=spacing, angle=angle)
    polygon = Polygon(ring)
    lines = MultiLineString([LineString(pair) for pair in made.lines])
    assert lines.difference(polygon.buffer(1e-6)).length == pytest.approx(0.0, abs=1e-6)
    # A second way to the same lines: turn the polygon level and cut it with shapely at each multiple of the spacing.
    level = affinity.rotate(polygon, -angle, origin=(0, 0), use_radians=True)
    low, high = level.bounds[1], level.bounds[3]
    step = 5.0 * spacing
    levels = [k * step for k in range(math.ceil(low / step), math.floor(high / step) + 1)]
    wanted = sum(level.intersection(LineString([(-9e3, y), (9e3, y)])).length for y in levels)
    assert length(made) == pytest.approx(wanted, abs=0.3 * max(len(levels), 1))  # lines too short to see are left out


def test_holes_stay_empty() -> None:
    made = hatch(SQUARE, scale=2.0, holes=[HOLE])
    inside = Polygon(SQUARE, [HOLE])
    assert all(LineString(pair).difference(inside.buffer(1e-6)).length < 1e-6 for pair in made.lines)
    assert length(made) < length(hatch(SQUARE, scale=2.0))


def test_lines_run_at_the_angle_with_the_spacing_of_the_paper() -> None:
    made = hatch(SQUARE, scale=4.0, spacing=2.0, angle=math.pi / 4)
    for (ax, ay), (bx, by) in made.lines:
        assert math.atan2(by - ay, bx - ax) == pytest.approx(math.pi / 4)
    offsets = [(a[1] - a[0]) * math.sqrt(0.5) for a, _ in made.lines]
    assert [b - a for a, b in pairwise(offsets)] == pytest.approx([8.0] * (len(offsets) - 1))


def test_two_halves_are_lined_as_one() -> None:
    left, right = [(0.0, 0.0), (50.0, 0.0), (50.0, 100.0), (0.0, 100.0)], [(50.0, 0.0), *SQUARE[1:3], (50.0, 100.0)]
    halves = length(hatch(left, scale=2.0)) + length(hatch(right, scale=2.0))
    assert halves == pytest.approx(length(hatch(SQUARE, scale=2.0)), abs=0.5)


def test_a_sliver_between_two_lines_has_none() -> None:
    assert hatch([(0.0, 0.1), (50.0, 0.1), (50.0, 0.2), (0.0, 0.2)], scale=1.0, angle=0.0).lines == ()
