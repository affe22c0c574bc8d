"""Walls on the floor plan, with the plane-geometry library as second opinion."""

from __future__ import annotations

import itertools
import math
import random

import pytest
import shapely
from tests.unit.snags.made_up import plan

from lathlight.layout import Pose
from lathlight.snags.ground import Strip, apart, from_segment, gap_behind, is_inside, outside, overlap, sides, strips

ROOM = ((0.0, 0.0), (4800.0, 0.0), (4800.0, 4200.0), (0.0, 4200.0))
BREAST = (  # the same room with a chimney breast 400 deep in the middle of its back
    (0.0, 0.0),
    (4800.0, 0.0),
    (4800.0, 4200.0),
    (3000.0, 4200.0),
    (3000.0, 3800.0),
    (1800.0, 3800.0),
    (1800.0, 4200.0),
    (0.0, 4200.0),
)


def quad(x: float, y: float, wide: float, deep: float, turn: float) -> tuple[tuple[float, float], ...]:
    pose = Pose(x=x, y=y, turn=turn)
    return tuple(pose.to_room(p) for p in ((0, 0), (wide, 0), (wide, deep), (0, deep)))


def random_quads(count: int) -> list[tuple[tuple[float, float], ...]]:
    dice = random.Random(7)
    return [
        quad(
            dice.uniform(-500, 5000),
            dice.uniform(-500, 4500),
            dice.uniform(200, 3000),
            dice.uniform(30, 300),
            dice.uniform(0, 6),
        )
        for _ in range(count)
    ]


@pytest.mark.parametrize("room", [ROOM, BREAST])
def test_what_reaches_outside_is_what_the_library_finds_outside(room: tuple[tuple[float, float], ...]) -> None:
    polygon = shapely.Polygon(room)
    for ring in random_quads(400):
        inside = polygon.buffer(1e-6).contains(shapely.Polygon(ring))
        assert (outside(ring, room) <= 1e-3) is inside


def test_how_far_a_wall_reaches_out_of_a_plain_room_is_its_farthest_corner() -> None:
    polygon = shapely.Polygon(ROOM)
    for ring in random_quads(200):
        farthest = max(polygon.distance(shapely.Point(p)) for p in ring)
        assert outside(ring, ROOM) == pytest.approx(farthest, abs=1e-6)


def test_a_thin_wall_through_a_chimney_breast_is_outside_though_its_ends_are_inside() -> None:
    wall = quad(1000, 3900, 2600, 70, 0)
    assert all(is_inside(p, BREAST) for p in wall)
    assert outside(wall, BREAST) == pytest.approx(170)  # its back lies that far behind the breast's front


def test_rings_overlap_where_the_library_says_so_and_a_move_of_that_depth_parts_them() -> None:
    quads = random_quads(60)
    for one, other in itertools.pairwise(quads):
        depth = overlap(one, other)
        meet = shapely.Polygon(one).intersection(shapely.Polygon(other)).area > 1e-6
        assert (depth > 1e-6) is meet
        if meet:
            moves = [
                tuple((x + depth * math.cos(w), y + depth * math.sin(w)) for x, y in one)
                for w in (2 * math.pi * i / 720 for i in range(720))
            ]
            left = min(shapely.Polygon(m).intersection(shapely.Polygon(other)).area for m in moves)
            assert left < 0.01 * shapely.Polygon(one).area


def test_distances_are_the_librarys() -> None:
    quads = random_quads(80)
    for ring, other in itertools.pairwise(quads):
        segment = (other[0], other[1])
        assert apart(ring, segment) == pytest.approx(
            shapely.Polygon(ring).distance(shapely.LineString(segment)), abs=1e-6
        )
        assert from_segment(ring[0], segment) == pytest.approx(
            shapely.LineString(segment).distance(shapely.Point(ring[0])), abs=1e-6
        )


def test_the_gap_behind_a_wall_is_the_nearest_thing_straight_behind_it() -> None:
    strip = Strip("back", quad(1000, 3000, 2600, 72, 0), 2600, 72)
    assert gap_behind(strip, sides(ROOM)) == pytest.approx(4200 - 3072)
    assert gap_behind(strip, sides(BREAST)) == pytest.approx(3800 - 3072)
    assert gap_behind(strip, ()) == math.inf


def test_what_stands_beside_a_wall_is_not_behind_it() -> None:
    strip = Strip("back", quad(3000, 3000, 1500, 72, 0), 1500, 72)
    assert gap_behind(strip, sides(BREAST)) == pytest.approx(4200 - 3072)


def test_a_turned_wall_has_its_gap_at_the_end_that_is_nearer() -> None:
    turned = Strip("back", quad(1000, 3000, 2000, 72, 0.1), 2000, 72)
    by_rays = min(
        (4200 - (3000 + a * math.sin(0.1))) / math.cos(0.1) - 72 for a in (i * 2000 / 500 for i in range(501))
    )
    assert gap_behind(turned, sides(ROOM)) == pytest.approx(by_rays)


def test_strips_stand_where_the_set_stands() -> None:
    (strip,) = strips(plan(pose=Pose(x=2400, y=3000, turn=math.pi / 2)))
    assert strip.outline[0] == pytest.approx((2400, 1780))
    assert strip.outline[2] == pytest.approx((2400 - 72, 4220))
