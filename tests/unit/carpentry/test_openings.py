"""Openings: rough sizes, arches, linings, straps."""

from __future__ import annotations

import itertools
import math

import pytest

from lathlight.carpentry.lining import framed_opening
from lathlight.carpentry.openings import arch_height, arch_ordinates, arch_radius, hole_outline, rough_opening
from lathlight.catalog import load_catalog
from lathlight.geometry import area
from lathlight.project.brief import OpeningBrief
from lathlight.units import LengthStyle

GRID = LengthStyle.metric()
SHEET = load_catalog().sheets["ply 9 mm"]


def opening(**more: object) -> OpeningBrief:
    values: dict[str, object] = {
        "name": "door",
        "kind": "door",
        "left": 500.0,
        "width": 800.0,
        "height": 2000.0,
        "sill": 0.0,
        "rise": 0.0,
        "lining": 12.0,
        "lining_depth": 47.0,
        "gap": 3.0,
        "reveal": 5.0,
        "casing": None,
    }
    return OpeningBrief(**(values | more))


def framed(o: OpeningBrief):
    rough = rough_opening(o, grid=GRID)
    return framed_opening(rough, wall="back", flat="1", x0=0.0, x1=2440.0, z0=0.0, sheet=SHEET, grid=GRID)


def test_a_rough_door_is_wider_by_two_linings_and_gaps_and_higher_by_one() -> None:
    assert framed(opening()).rough == (485.0, 0.0, 830.0, 2015.0)


def test_a_rough_window_has_lining_and_gap_all_round() -> None:
    assert framed(opening(kind="window", sill=900.0, height=1000.0)).rough == (485.0, 885.0, 830.0, 1030.0)


def test_without_a_lining_rough_and_clear_are_the_same() -> None:
    assert framed(opening(lining=0.0)).rough == (500.0, 0.0, 800.0, 2000.0)


def test_a_door_gets_a_strap_under_both_plates_and_a_window_none() -> None:
    strap = framed(opening()).strap
    assert strap is not None
    assert strap >= 830 + 2 * 150
    assert framed(opening(kind="window", sill=900.0, height=1000.0)).strap is None


def test_a_door_is_lined_on_three_sides_and_a_window_on_four() -> None:
    assert [p.side for p in framed(opening()).lining] == ["left", "right", "head"]
    assert [p.side for p in framed(opening(kind="window", sill=900.0, height=900.0)).lining] == [
        "left",
        "right",
        "head",
        "sill",
    ]


def test_the_head_runs_over_the_sides() -> None:
    by_side = {p.side: p.length for p in framed(opening()).lining}
    assert by_side == {"left": 2000.0, "right": 2000.0, "head": 824.0}


def test_a_semicircle_has_half_its_width_as_radius() -> None:
    assert arch_radius(width=900.0, rise=450.0) == 450.0


@pytest.mark.parametrize("rise", [50.0, 200.0, 450.0])
def test_every_point_of_an_arch_lies_on_one_circle(rise: float) -> None:
    radius = arch_radius(width=900.0, rise=rise)
    for x in (0.0, 100.0, 450.0, 700.0, 900.0):
        height = arch_height(x, width=900.0, rise=rise)
        assert math.hypot(x - 450.0, height - (rise - radius)) == pytest.approx(radius)


def test_ordinates_begin_and_end_at_the_springing_line_and_crown_in_the_middle() -> None:
    points = arch_ordinates(width=900.0, rise=300.0, grid=GRID)
    assert (points[0], points[-1]) == ((0.0, 0.0), (900.0, 0.0))
    assert max(points, key=lambda p: p[1]) == (450.0, 300.0)
    assert [p[1] for p in points] == [p[1] for p in reversed(points)]


def test_the_hole_of_a_round_arch_has_the_area_of_a_rectangle_and_a_half_circle() -> None:
    rough = rough_opening(opening(kind="arch", lining=0.0, width=900.0, rise=450.0), grid=GRID)
    exact = 900.0 * 1550.0 + math.pi * 450.0**2 / 2
    assert area(hole_outline(rough)) == pytest.approx(exact, rel=2e-3)


def test_the_bent_strip_of_a_half_circle_is_pi_times_its_radius() -> None:
    strip = next(p for p in framed(opening(kind="arch", width=900.0, rise=450.0)).lining if p.side == "arch")
    assert strip.length == math.ceil(math.pi * 450.0)


@pytest.mark.parametrize("rise", [400.0, 150.0, 20.0])
def test_no_chord_of_an_arch_leaves_its_circle_by_as_much_as_a_saw_cut(rise: float) -> None:
    rough = rough_opening(opening(kind="arch", rise=rise, lining=0.0), grid=GRID)
    radius = arch_radius(width=800.0, rise=rise)
    middle, foot = 900.0, rough.spring + rise - radius
    curve = [p for p in hole_outline(rough) if p[1] >= rough.spring - 1e-9]
    halves = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in itertools.pairwise(curve)]
    away = [radius - math.hypot(x - middle, z - foot) for x, z in halves]
    assert max(map(abs, away)) < 1.0
