"""What goes through doors, round corners, under ceilings and into vehicles.

Sources: longest rod round a right-angled corner (calculus text problem, 3 ft and 4 ft: printed 9.87 ft; part d allows
tilting under an 8 ft ceiling); the same by formula for other corners, and by minimising a/sin x + b/sin(60 - x) where
corridors meet at 120 degrees; thick panels by the support line; W. B. Carver, Problem E1225, American Mathematical
Monthly 64 (1957); Pythagoras for doors and tilting up; plain subtraction for load spaces.
"""

from __future__ import annotations

import math

import pytest

from lathlight.passage import (
    fits_rectangle,
    longest_round_corner,
    passes_vehicle,
    stacked,
    turned_up,
    walked_up,
    widest_fitting,
)
from lathlight.passage.rectangles import least_width

SQUARE = math.pi / 2
CORNERS = [(8, 27, SQUARE, 46.872), (5, 3, SQUARE, 11.195), (1, 1, SQUARE, 2.8284), (5, 5, math.radians(60), 20.0)]
PANELS = [(1.0, 1.0, 0.09, 2.6484), (0.9, 1.2, 0.09, 2.7788), (1.0, 1.0, 0.6, 1.6284)]
DOORS = [(30, 80, 85.44), (36, 80, 87.727), (760, 1980, 2120.85)]
CARVER = [  # p, q, fits into 2400 x 1200, least width of the opening
    (2420, 100, True, 523.09),
    (2500, 100, True, 896.54),
    (2600, 150, False, 1280.48),
    (2620, 60, True, 1161.38),
    (2660, 50, False, 1237.47),
    (2683, 1, False, 1201.16),
]


@pytest.mark.published(source="calculus text problem, rod round a corner", place="3 ft and 4 ft: 9.87 ft")
def test_the_longest_rod_round_a_right_angled_corner() -> None:
    assert longest_round_corner(a=3, b=4, thickness=0, angle=SQUARE) == pytest.approx(9.87, abs=0.005)


@pytest.mark.published(
    source="the same formula; 120 degrees by minimising a/sin x + b/sin(60 - x)", place="four corners"
)
@pytest.mark.parametrize(("a", "b", "angle", "longest"), CORNERS)
def test_rods_round_other_corners(a: float, b: float, angle: float, longest: float) -> None:
    assert longest_round_corner(a=a, b=b, thickness=0, angle=angle) == pytest.approx(longest, abs=1e-3)


@pytest.mark.published(source="calculus text problem, rod round a corner", place="part d: tilted under 8 ft")
def test_a_tilted_rod_is_longer_by_the_ceiling() -> None:
    level = longest_round_corner(a=3, b=4, thickness=0, angle=SQUARE)
    assert widest_fitting(q=0, a=level, b=8) == pytest.approx(12.702, abs=1e-3)


@pytest.mark.published(source="support-line construction", place="panels round a right-angled corner [m]")
@pytest.mark.parametrize(("a", "b", "thickness", "longest"), PANELS)
def test_thick_panels_round_a_corner(a: float, b: float, thickness: float, longest: float) -> None:
    assert longest_round_corner(a=a, b=b, thickness=thickness, angle=SQUARE) == pytest.approx(longest, abs=1e-4)


@pytest.mark.published(source="Pythagoras", place="diagonals of common doors")
@pytest.mark.parametrize(("width", "height", "diagonal"), DOORS)
def test_the_thinnest_panel_goes_through_a_door_on_its_diagonal(width: float, height: float, diagonal: float) -> None:
    assert widest_fitting(q=0, a=width, b=height) == pytest.approx(diagonal, abs=0.01)


@pytest.mark.published(source="Pythagoras", place="tilting a flat up")
@pytest.mark.parametrize(("height", "depth", "sweep"), [(2400, 90, 2401.69), (96, 4.25, 96.094)])
def test_walking_a_flat_up_sweeps_its_sides_diagonal(height: float, depth: float, sweep: float) -> None:
    assert walked_up(height=height, depth=depth) == pytest.approx(sweep, abs=0.01)
    assert turned_up(width=depth, height=height) == pytest.approx(sweep, abs=0.01)


@pytest.mark.published(source="Carver 1957, Problem E1225, American Mathematical Monthly", place="opening 2400 x 1200")
@pytest.mark.parametrize(("p", "q", "fits", "least"), CARVER)
def test_a_rectangle_in_a_rectangle(p: float, q: float, fits: bool, least: float) -> None:
    assert fits_rectangle(p=p, q=q, a=2400, b=1200) is fits
    assert fits_rectangle(p=q, q=p, a=1200, b=2400) is fits
    assert least_width(p=p, q=q, a=2400) == pytest.approx(least, abs=0.01)


@pytest.mark.published(source="subtraction", place="1220 mm between arches of 1340 mm; 2440 mm in 2500 mm")
@pytest.mark.parametrize(("length", "spare"), [(None, 2 * 60), (2500, 60)])
def test_a_sheet_lies_between_the_arches_with_room_to_spare(length: float | None, spare: float) -> None:
    passing = passes_vehicle(
        name="van",
        width=2440,
        height=1220,
        depth=90,
        load_width=1340,
        load_height=100,
        load_length=length,
        clearance=0,
    )
    assert passing.passes
    assert passing.how == "lying on its back"
    assert passing.limit - passing.figure == spare


@pytest.mark.published(source="multiplication", place="30 flats 90 mm thick")
def test_thirty_flats_side_by_side_need_their_thickness_thirty_times() -> None:
    assert stacked([90.0] * 30) == 2700
