"""The chain of faces, and the set's place in the room."""

from __future__ import annotations

import itertools
import math

import pytest

from lathlight.layout import Pose, colliding, footprint, lay_out_walls, place_set

ROOM = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 5000.0), (0.0, 5000.0))


def bay(degrees: float = 110.0):
    return lay_out_walls(
        names=["left", "back", "right"],
        lengths=[1200.0, 3000.0, 1200.0],
        heights=[2400.0] * 3,
        angles=[math.radians(degrees)] * 2,
    )


def test_each_wall_begins_where_the_last_one_ends() -> None:
    walls = bay()
    for one, two in itertools.pairwise(walls):
        assert math.dist(one.end, two.start) < 1e-9


def test_the_inside_angle_between_faces_is_the_one_that_was_asked_for() -> None:
    left, back, _ = bay(117.0)
    a = (-left.direction[0], -left.direction[1])
    assert math.degrees(math.acos(a[0] * back.direction[0] + a[1] * back.direction[1])) == pytest.approx(117.0)


def test_returns_come_towards_the_camera() -> None:
    left, _, right = bay()
    assert left.start[1] < 0
    assert right.end[1] < 0


def test_the_middle_wall_lies_across_the_axis() -> None:
    back = bay()[1]
    assert back.start == pytest.approx((-1500.0, 0.0))
    assert back.end == pytest.approx((1500.0, 0.0))


def test_behind_a_wall_is_away_from_the_camera() -> None:
    assert bay()[1].at(along=1500.0, behind=50.0) == pytest.approx((0.0, 50.0))


def test_a_pose_goes_to_the_room_and_back() -> None:
    pose = Pose(x=3000.0, y=4200.0, turn=0.7)
    assert pose.to_set(pose.to_room((123.0, -456.0))) == pytest.approx((123.0, -456.0))


def test_a_set_without_a_place_stands_in_the_middle_with_its_back_kept_clear() -> None:
    walls = bay()
    layout = place_set(walls, depths=[47.0] * 3, room=ROOM, at=None, turn=0.0, clear_behind=450.0)
    points = [layout.pose.to_room(p) for strip in footprint(walls, [47.0] * 3) for p in strip]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    assert min(xs) + max(xs) == pytest.approx(6000.0, abs=2.0)
    assert 5000.0 - max(ys) == pytest.approx(450.0, abs=1.0)


def test_walls_that_cross_are_found_and_neighbours_are_not() -> None:
    crossing = lay_out_walls(
        names=["a", "b", "c"], lengths=[3000.0, 1000.0, 3000.0], heights=[2400.0] * 3, angles=[math.radians(60)] * 2
    )
    assert colliding(footprint(crossing, [50.0] * 3)) == ((0, 2),)
    assert colliding(footprint(bay(), [50.0] * 3)) == ()
