"""What is further away is drawn first."""

from __future__ import annotations

import math
import random

import pytest

from lathlight.drawings.order import Sight, back_to_front

STRAIGHT = Sight(turn=0.0, rise=0.6)


def _box(x: float, y: float, w: float = 100.0, d: float = 50.0):
    return ((x, y), (x + w, y), (x + w, y + d), (x, y + d))


def test_from_the_front_the_farther_of_two_boxes_comes_first() -> None:
    assert back_to_front([_box(0, 0), _box(20, 300)], STRAIGHT) == (1, 0)


def test_from_the_right_the_left_one_is_farther() -> None:
    right = Sight(turn=math.radians(89), rise=0.6)
    assert back_to_front([_box(500, 0), _box(0, 0)], right) == (1, 0)


def test_a_long_wall_behind_a_short_one_near_its_end_comes_first() -> None:
    long_wall = ((0.0, 0.0), (3000.0, 1500.0), (2980.0, 1540.0), (-20.0, 40.0))  # its middle is nearer than the box
    near_box = _box(2500, 1000)
    assert back_to_front([near_box, long_wall], STRAIGHT) == (1, 0)


@pytest.mark.parametrize("seed", range(20))
def test_along_every_line_of_sight_depth_falls(seed: int) -> None:
    """Second opinion: rays through scattered boxes meet them in the reverse of the order of drawing."""
    dice = random.Random(seed)
    boxes = [
        _box(x * 200 + dice.uniform(0, 60), y * 120 + dice.uniform(0, 40), dice.uniform(40, 130), dice.uniform(20, 70))
        for x in range(6)
        for y in range(6)
    ]
    sight = Sight(turn=dice.uniform(-1, 1), rise=0.6)
    place = {index: k for k, index in enumerate(back_to_front(boxes, sight))}
    assert sorted(place) == list(range(len(boxes)))
    for _ in range(60):
        across = dice.uniform(-600, 1500)
        met = []
        for index, box in enumerate(boxes):
            depths = [
                sight.away(a)
                + (across - sight.across(a)) / (sight.across(b) - sight.across(a)) * (sight.away(b) - sight.away(a))
                for a, b in zip(box, (*box[1:], box[0]), strict=True)
                if (sight.across(a) - across) * (sight.across(b) - across) < 0
            ]
            if depths:
                met.append((max(depths), index))
        nearest_last = [place[index] for _, index in sorted(met, reverse=True)]
        assert nearest_last == sorted(nearest_last)


def test_no_solids_make_no_order() -> None:
    assert back_to_front([], STRAIGHT) == ()
