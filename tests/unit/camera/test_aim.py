"""Where the middle of a picture falls on the walls."""

from __future__ import annotations

import math

import pytest

from lathlight.camera import Aim, middle_lines
from lathlight.layout import lay_out_walls

FLAT = lay_out_walls(names=["back"], lengths=[3000.0], heights=[2400.0], angles=[])
CORNER = lay_out_walls(names=["left", "right"], lengths=[2000.0, 2000.0], heights=[2400.0] * 2, angles=[math.pi / 2])


def along(walls, sitter, *degrees: float) -> list[tuple[str, float]]:
    aims = [Aim(picture="p", sitter=sitter, angles=tuple(math.radians(d) for d in degrees))]
    return [(m.wall, m.along) for m in middle_lines(walls, aims)]


def test_a_camera_on_the_axis_sees_the_middle_of_a_single_wall() -> None:
    assert along(FLAT, (0.0, -1500.0), 0.0) == [("back", 1500.0)]


def test_a_camera_to_the_right_sees_the_wall_further_left() -> None:
    assert along(FLAT, (0.0, -1000.0), 45.0) == [("back", pytest.approx(500.0))]


def test_a_camera_too_far_round_misses_the_wall() -> None:
    assert along(FLAT, (0.0, -1500.0), 80.0) == []


def test_the_axis_of_a_corner_falls_on_both_walls() -> None:
    assert along(CORNER, (0.0, -1500.0), 0.0) == [("left", pytest.approx(2000.0)), ("right", pytest.approx(0.0))]


def test_the_nearer_wall_hides_the_farther_one() -> None:
    bay = lay_out_walls(
        names=["left", "back", "right"],
        lengths=[1500.0, 3000.0, 1500.0],
        heights=[2400.0] * 3,
        angles=[math.pi / 2] * 2,
    )
    assert {wall for wall, _ in along(bay, (0.0, -1000.0), 70.0)} == {"left"}
