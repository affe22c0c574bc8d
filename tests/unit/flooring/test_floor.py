"""The floor covering: as stated, as the pictures see it, at the walls, in rows, and what would go wrong."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.flooring.made_up import IMPERIAL, METRIC, PICTURE, floor_job

from lathlight.errors import InputError
from lathlight.flooring import (
    FloorJob,
    FloorPlan,
    camera_distance,
    lay_boards,
    lay_rows,
    nearest_floor,
    plan_floor,
    row_edges,
)
from lathlight.geometry import area, rectangle

STATED = {"width": 3600.0, "depth": 2400.0}


def planned(job: FloorJob) -> FloorPlan:
    plan = plan_floor(job)
    assert plan is not None
    return plan


def test_no_covering_is_no_plan() -> None:
    assert plan_floor(floor_job(covering="none")) is None


# --- extent ------------------------------------------------------------------------------------------------------


def test_a_stated_covering_lies_before_the_wall() -> None:
    plan = planned(floor_job(**STATED))
    assert plan.extent == (-1800.0, -2400.0, 1800.0, 0.0)
    assert plan.area == pytest.approx(3600.0 * 2400.0)
    assert (plan.width_from, plan.depth_from) == ("stated", "stated")


@pytest.mark.parametrize(("lens", "metres"), [(35, 2.13), (50, 3.05), (70, 4.27), (85, 5.18), (105, 6.41), (135, 8.23)])
def test_a_full_length_of_2_16_m_is_taken_from_so_far(lens: float, metres: float) -> None:
    """Second opinion: the trade's own table for a frame 36 mm high."""
    assert camera_distance(lens=lens, field=2160.0, sensor=36.0) == pytest.approx(1000 * metres, abs=10.0)


def test_the_bottom_ray_meets_the_floor_before_the_sitter() -> None:
    """By hand: 0.68 m before the toes with 85 mm, and 1.2 m / tan(half the angle of a level 50 mm lens)."""
    distance = camera_distance(lens=85.0, field=2160.0, sensor=36.0)
    nearest = nearest_floor(distance=distance, camera=1200.0, bottom=-180.0)
    assert nearest is not None
    assert distance - nearest == pytest.approx(680.0, abs=5.0)
    level = 1200.0 / math.tan(math.atan(36.0 / (2 * 50.0)))
    assert nearest_floor(distance=3000.0, camera=1200.0, bottom=1200.0 - 3000.0 * 18 / 50) == pytest.approx(level)


def test_a_picture_that_looks_up_sees_no_floor() -> None:
    assert nearest_floor(distance=3000.0, camera=1000.0, bottom=1000.0) is None
    low = replace(PICTURE, camera=(400.0, 400.0), bottom=500.0)
    plan = planned(floor_job(pictures=(low,), depth=2000.0))
    assert plan.seen == ()
    assert plan.width_from == "walls"


def test_the_covering_reaches_as_far_as_the_picture_and_a_margin() -> None:
    """By hand: the ray meets the floor 2400 mm from a camera at y = -4500; at the wall the frame is 1770 mm wide."""
    plan = planned(floor_job(pictures=(PICTURE,)))
    (seen,) = plan.seen
    assert seen.front == pytest.approx(-2100.0)
    wide = 1770.0 * 20 / 30 * 4500.0 / 3000.0
    assert (seen.left, seen.right) == pytest.approx((-wide / 2, wide / 2))
    assert plan.extent == pytest.approx((-985.0, -2200.0, 985.0, 0.0))
    us = planned(floor_job(pictures=(PICTURE,), grid=IMPERIAL))
    assert us.extent[1] == pytest.approx(-2201.6, abs=25.4 / 16)
    assert us.extent[1] <= -2201.6


def test_a_zoom_and_a_range_of_heights_see_as_much_as_both_their_ends() -> None:
    both = replace(PICTURE, lens=(35.0, 70.0), camera=(900.0, 1500.0))
    (seen,) = planned(floor_job(pictures=(both,))).seen
    each = [
        planned(floor_job(pictures=(replace(both, lens=(f, f), camera=(h, h)),))).seen[0]
        for f in (35.0, 70.0)
        for h in (900.0, 1500.0)
    ]
    assert seen.front == pytest.approx(min(s.front for s in each))
    assert seen.right == pytest.approx(max(s.right for s in each))


def test_an_angle_turns_the_frame_about_the_sitter() -> None:
    (straight,) = planned(floor_job(pictures=(PICTURE,))).seen
    (right,) = planned(floor_job(pictures=(replace(PICTURE, angles=(0.0, math.radians(20))),))).seen
    (left,) = planned(floor_job(pictures=(replace(PICTURE, angles=(math.radians(-20), 0.0)),))).seen
    assert right.left < straight.left - 300.0  # a camera on the right looks to the left
    assert (right.left, right.right) == pytest.approx((-left.right, -left.left))
    assert right.front < straight.front


def test_a_camera_along_the_wall_asks_for_no_floor_beyond_the_set() -> None:
    (seen,) = planned(floor_job(pictures=(replace(PICTURE, angles=(0.0, math.pi / 2)),))).seen
    half_a_frame_there = 1770.0 / 2 * 20 / 30 * (3000.0 + 1500.0 + 1500.0) / 3000.0
    assert -1500.0 - half_a_frame_there < seen.left < -1500.0


def test_where_no_picture_sees_the_floor_it_reaches_to_the_returns_ends() -> None:
    plan = planned(floor_job(1000.0, 3000.0, 1200.0))
    assert (plan.width_from, plan.depth_from) == ("walls", "walls")
    assert plan.extent == pytest.approx((-1500.0, -1200.0, 1500.0, 0.0))
    sitting = planned(floor_job(sitters=((0.0, -1500.0),)))
    assert sitting.extent[1] == -1600.0


def test_a_covering_that_nothing_gives_a_depth_is_refused() -> None:
    with pytest.raises(InputError, match=r"without depth.*Add depth"):
        plan_floor(floor_job())


# --- at the walls ------------------------------------------------------------------------------------------------


def test_splayed_returns_cut_the_covering() -> None:
    """By hand: a rectangle of 3.6 m less two triangles of 300 mm across at 70 degrees to the back wall."""
    plan = planned(floor_job(1220.0, 3000.0, 1220.0, corner=110.0, **STATED))
    off = 300.0 * 300.0 * math.tan(math.radians(70))
    assert plan.area == pytest.approx(3600.0 * 2400.0 - off)


def test_the_gap_keeps_the_covering_off_every_face() -> None:
    plan = planned(floor_job(1000.0, 3000.0, 1000.0, gap=10.0, **STATED))
    back = [p for p in plan.outline if p[1] > -999.0]
    assert [y for _, y in back] == pytest.approx([-10.0, -10.0])
    assert [abs(x) for x, _ in back] == pytest.approx([1490.0, 1490.0])
    with pytest.raises(InputError, match="expansion gap"):
        plan_floor(floor_job(gap=3000.0, **STATED))
    with pytest.raises(InputError, match=r"floor expansion_gap: .* 2440 mm"):  # the back is 3000 mm long
        plan_floor(floor_job(1220.0, 3000.0, 1220.0, corner=110.0, gap=2440.0, **STATED))


def test_a_covering_under_the_flats_runs_back_below_them() -> None:
    plan = planned(floor_job(under_flats=True, gap=10.0, **STATED))
    assert plan.extent[3] == 50.0
    assert plan.gap == 0.0
    assert plan.area == pytest.approx(3600.0 * 2450.0)


def test_flats_that_stand_on_the_covering_by_half_are_found() -> None:
    deep = floor_job(1000.0, 3000.0, 1000.0, under_flats=True, width=3600.0, depth=2400.0)
    assert planned(deep).findings == ()
    found = planned(replace(deep, depth=600.0)).findings
    assert [(f.kind, f.what, f.side) for f in found] == [
        ("flats half on the covering", "wall 1", "front"),
        ("flats half on the covering", "wall 3", "front"),
    ]
    assert (found[0].found, found[0].limit) == pytest.approx((600.0, 1000.0))
    assert planned(replace(deep, depth=600.0, under_flats=False)).findings == ()


def test_a_floor_short_of_the_picture_says_by_how_much() -> None:
    short = planned(floor_job(pictures=(PICTURE,), width=1700.0, depth=2000.0)).findings
    assert [(f.kind, f.what, f.side) for f in short] == [
        ("floor short of the picture", "standing", side) for side in ("left", "right", "front")
    ]
    assert (short[2].found, short[2].limit) == pytest.approx((2000.0, 2100.0))
    assert planned(floor_job(pictures=(PICTURE,), width=1770.0, depth=2100.0)).findings == ()


# --- rows --------------------------------------------------------------------------------------------------------


@given(across=st.integers(60, 9000), strip=st.integers(60, 1400), inches=st.booleans())
def test_rows_cover_the_extent_and_none_is_wider_than_a_strip(across: int, strip: int, inches: bool) -> None:
    grid = IMPERIAL if inches else METRIC
    edges = row_edges(float(across), strip=float(strip), grid=grid)
    widths = [b - a for a, b in itertools.pairwise(edges)]
    assert (edges[0], edges[-1]) == (0.0, across)
    assert sum(widths) == pytest.approx(across)
    assert all(0 < w <= strip + 1e-6 for w in widths)
    assert len(widths) * strip >= across
    if 100 <= strip <= 600 and len(widths) > 1:
        assert min(widths) >= 50.0 - 1.0


def test_a_narrow_last_row_is_shared_with_the_first() -> None:
    assert row_edges(1010.0, strip=200.0, grid=METRIC) == pytest.approx((0, 105, 305, 505, 705, 905, 1010))
    assert row_edges(1060.0, strip=200.0, grid=METRIC) == pytest.approx((0, 200, 400, 600, 800, 1000, 1060))
    assert row_edges(4010.0, strip=2000.0, grid=METRIC) == pytest.approx((0, 2000, 4000, 4010))  # off a roll


def test_rows_run_along_the_set_from_the_back_or_away_from_the_left() -> None:
    away = planned(floor_job(strip_width=1200.0, **STATED))
    assert [(r.low, r.high, r.start, r.end) for r in away.rows] == [
        (-1800.0, -600.0, -2400.0, 0.0),
        (-600.0, 600.0, -2400.0, 0.0),
        (600.0, 1800.0, -2400.0, 0.0),
    ]
    assert away.seams == (((-600.0, -2400.0), (-600.0, 0.0)), ((600.0, -2400.0), (600.0, 0.0)))
    along = planned(floor_job(strip_width=1200.0, strips="along", **STATED))
    assert [(r.low, r.high, r.start, r.end) for r in along.rows] == [
        (-1200.0, 0.0, -1800.0, 1800.0),
        (-2400.0, -1200.0, -1800.0, 1800.0),
    ]
    assert along.seams == (((-1800.0, -1200.0), (1800.0, -1200.0)),)


def test_a_row_beside_a_splayed_return_is_as_long_as_its_longer_side() -> None:
    plan = planned(floor_job(1220.0, 3000.0, 1220.0, corner=110.0, strip_width=200.0, **STATED))
    first = plan.rows[0]  # from 300 to 100 mm beyond the back wall's end
    assert first.length == pytest.approx(2400.0 - 100.0 * math.tan(math.radians(70)))
    assert plan.rows[9].length == pytest.approx(2400.0)


@given(
    length=st.integers(700, 9000),
    rows=st.integers(2, 12),
    board=st.integers(1500, 3000),
)
def test_boards_make_up_every_row_and_no_row_takes_more_than_there_is(length: int, rows: int, board: int) -> None:
    ring = rectangle(0.0, 0.0, 190.0 * rows, float(length))
    bare = lay_rows(ring, away=True, strip=190.0, grid=METRIC)
    laid, number = lay_boards(bare, board=float(board), kerf=3.0)
    assert len(laid) == rows
    for row in laid:
        stops = [row.start, *row.joints, row.end]
        assert all(0 < b - a <= board + 1e-6 for a, b in itertools.pairwise(stops))
    assert number * board >= rows * length
    assert number <= rows * math.ceil(length / board) + rows


@pytest.mark.parametrize(("length", "board"), [(2500.0, 2400.0), (3400.0, 2000.0), (3800.0, 1800.0), (4100.0, 2000.0)])
def test_an_offcut_that_would_bring_two_joints_together_does_not_begin_the_row(length: float, board: float) -> None:
    bare = lay_rows(rectangle(0.0, 0.0, 180.0 * 8, length), away=True, strip=180.0, grid=METRIC)
    laid, _ = lay_boards(bare, board=board, kerf=3.0)
    assert all(abs(p - q) >= 300.0 - 1e-6 for a, b in itertools.pairwise(laid) for p in a.joints for q in b.joints)


def test_end_joints_of_neighbouring_rows_are_staggered() -> None:
    plan = planned(floor_job(strip_width=190.0, strip_length=2000.0, width=3600.0, depth=3500.0))
    assert plan.goods == "boards"
    for a, b in zip(plan.rows, plan.rows[1:], strict=False):
        assert all(abs(p - q) >= 300.0 - 1e-6 for p in a.joints for q in b.joints)
    assert sum(len(r.joints) for r in plan.rows) + len(plan.rows) - 1 == len(plan.seams)


# --- quantity ----------------------------------------------------------------------------------------------------


def test_a_covering_of_no_known_strips_gets_a_tenth_for_cutting() -> None:
    (line,) = planned(floor_job(**STATED)).lines
    assert (line.unit, line.net, line.gross) == ("m2", pytest.approx(8.64), pytest.approx(9.504))
    assert line.reason == "10 % for cutting"


def test_strips_cut_to_splayed_walls_waste_what_they_waste() -> None:
    plan = planned(floor_job(2000.0, 1000.0, 2000.0, corner=100.0, width=1600.0, depth=1800.0, strip_width=300.0))
    (line,) = plan.lines
    assert line.gross * 1e6 == pytest.approx(sum(r.length for r in plan.rows) * 300.0)
    assert "ripped" in line.reason


def test_whole_boards_are_counted() -> None:
    """By hand: 18 rows of 2.4 m out of boards of 1.2 m; with a kerf, two halves do not come out of one board."""
    plan = planned(floor_job(strip_width=200.0, strip_length=1200.0, kerf=0.0, **STATED))
    by_area, count = plan.lines
    assert plan.number == count.gross == count.net == 36
    assert by_area.gross == pytest.approx(8.64)
    sawn = planned(floor_job(strip_width=200.0, strip_length=1200.0, **STATED))
    assert sawn.number == 37
    assert "not proven" in sawn.lines[1].reason


def test_a_roll_is_bought_in_whole_drops() -> None:
    plan = planned(floor_job(covering="vinyl", strip_width=2000.0, **STATED))
    by_area, run = plan.lines
    assert (plan.goods, plan.number) == ("roll", 2)
    assert (run.unit, run.net, run.gross) == ("m", pytest.approx(4.8), pytest.approx(5.0))
    assert by_area.gross == pytest.approx(10.0)
    assert "2" in by_area.reason


def test_strips_too_thin_to_be_meant_are_refused() -> None:
    with pytest.raises(InputError, match="strips of which at most"):
        plan_floor(floor_job(strip_width=1.0, **STATED))


# --- properties --------------------------------------------------------------------------------------------------


@given(
    left=st.integers(500, 2500),
    back=st.integers(1500, 4000),
    right=st.integers(500, 2500),
    corner=st.integers(80, 170),
    gap=st.integers(0, 20),
    away=st.booleans(),
)
def test_a_mirrored_set_has_a_mirrored_floor(
    left: int, back: int, right: int, corner: int, gap: int, away: bool
) -> None:
    more = {"corner": float(corner), "gap": float(gap), "strips": "away" if away else "along", "width": 3600.0}
    plan = planned(floor_job(left, back, right, depth=3000.0, **more))
    mirrored = planned(floor_job(right, back, left, depth=3000.0, **more))
    assert plan.area == pytest.approx(mirrored.area)
    assert 0 < plan.area <= 3600.0 * 3000.0 + 1e-3
    assert area(plan.outline) > 0


def test_equal_jobs_give_equal_floors() -> None:
    job = floor_job(1220.0, 3000.0, 1220.0, corner=110.0, strip_width=190.0, pictures=(PICTURE,))
    assert plan_floor(job) == plan_floor(replace(job))
