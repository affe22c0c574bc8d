"""Outlines of parts: what is left beside openings, and where slanting ends are kept."""

from __future__ import annotations

import math

import pytest
from shapely import Polygon, box
from tests.unit.drawings.made_up import bay_wish, corner_wish, make_plan

from lathlight.drawings.outlines import (
    clipped,
    cuts_at,
    frame_plan,
    intervals_without,
    openings_of,
    piece_plan,
    sheet_plan,
)


@pytest.mark.parametrize(
    ("holes", "left"),
    [
        ([], ((0, 10),)),
        ([(0, 10)], ()),
        ([(2, 4), (3, 5)], ((0, 2), (5, 10))),
        ([(-5, 1), (9, 20)], ((1, 9),)),
    ],
)
def test_what_is_left_of_a_stretch(holes, left) -> None:
    assert intervals_without((0, 10), holes) == left


@pytest.mark.parametrize(("low", "high"), [(1.0, 3.0), (-1.0, 2.0), (2.0, 9.0), (-math.inf, 2.0), (5.0, 6.0)])
def test_clipping_agrees_with_the_geometry_library(low: float, high: float) -> None:
    ring = ((0.0, 0.0), (4.0, 0.0), (3.0, 2.0), (1.0, 3.0))
    wanted = Polygon(ring).intersection(box(max(low, -99), -99, min(high, 99), 99))
    got = clipped(ring, low, high)
    assert (Polygon(got).area if got else 0.0) == pytest.approx(wanted.area)


def test_a_door_is_left_out_low_and_closed_over_its_head() -> None:
    plan = make_plan(corner_wish())
    wall = plan.walls[0]
    (door,) = openings_of(wall)
    assert cuts_at([door], 1000.0, rough=False) == ((1400.0, 2000.0),)
    low = sum(Polygon(ring).area for ring in sheet_plan(wall, 1000.0))
    high = sum(Polygon(ring).area for ring in sheet_plan(wall, 2300.0))
    assert high - low == pytest.approx(600 * 9)


def test_frames_and_sheets_of_a_plan_do_not_overlap() -> None:
    plan = make_plan(bay_wish())
    for wall in plan.walls:
        frames = [Polygon(ring) for _, ring in frame_plan(wall, 1200.0)]
        sheets = [Polygon(ring) for ring in sheet_plan(wall, 1200.0)]
        assert all(a.intersection(b).area < 1e-6 for a in frames for b in sheets)


def test_a_bevelled_edge_slants_in_plan() -> None:
    plan = make_plan(bay_wish())
    bevelled = next(piece for piece in plan.pieces if piece.bevel_right)
    ring = piece_plan(bevelled)
    assert ring[2][0] - ring[1][0] == pytest.approx(bevelled.bevel_right)
