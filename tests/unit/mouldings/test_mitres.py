"""Mitres: lengths, and the saw's settings against the planes themselves."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
import pytest
from numpy.typing import NDArray

from lathlight.mouldings.mitres import (
    SawSetting,
    compound_mitre,
    face_slant,
    mitre_gap,
    mitre_lengths,
    mitre_slant,
    saw_setting,
)

Vector = NDArray[np.float64]
ENDS: tuple[Literal["left", "right"], ...] = ("left", "right")


def cut_on_the_bench(saw: SawSetting) -> Vector:
    """Normal of the blade's plane, to the operator's right: x to the right, y to the fence, z up."""
    swing = {"left": -1.0, "right": 1.0, "none": 0.0}[saw.swing] * saw.mitre
    along = np.array([-math.sin(swing), math.cos(swing), 0.0])  # along the blade, from the operator to the fence
    up = np.array([0.0, 0.0, 1.0]) * math.cos(saw.bevel) - np.cross(along, [0.0, 0.0, 1.0]) * math.sin(saw.bevel)
    return np.cross(along, up)  # tilted to the left: its top lies on the left


def on_the_wall(saw: SawSetting, spring: float | None, bench: Vector) -> Vector:
    """The same direction as the moulding hangs: x along the wall, y out of it, z up."""
    if spring is None:  # back to the fence, bottom on the table
        return np.array([bench[0], -bench[1], bench[2]])
    across = np.array([0.0, math.sin(spring), math.cos(spring)])  # along the back, from its bottom edge up
    face = np.array([0.0, math.cos(spring), -math.sin(spring)])  # out of the face
    side = 1.0 if saw.fence == "bottom edge" else -1.0
    return side * bench[0] * np.array([1.0, 0.0, 0.0]) - side * bench[1] * across + bench[2] * face


def plane_of(slant: float, end: Literal["left", "right"]) -> Vector:
    """Normal of the upright cut, pointing into the piece."""
    inwards = 1.0 if end == "left" else -1.0
    return np.array([inwards * math.cos(slant), -math.sin(slant), 0.0])


@pytest.mark.parametrize("spring", [None, math.radians(38), math.radians(45), math.radians(52)])
@pytest.mark.parametrize("corner", [60, 90, 110, 135, 200, 270, 290])
@pytest.mark.parametrize("end", ENDS)
def test_the_saw_as_set_cuts_the_plane_that_halves_the_corner_and_keeps_the_piece(
    spring: float | None, corner: float, end: Literal["left", "right"]
) -> None:
    slant = mitre_slant(math.radians(corner))
    saw = saw_setting(slant=slant, end=end, spring=spring)
    normal = on_the_wall(saw, spring, cut_on_the_bench(saw))
    kept = normal if saw.kept == "right" else -normal
    np.testing.assert_allclose(kept, plane_of(slant, end), atol=1e-12)


@pytest.mark.parametrize("spring", [None, math.radians(38)])
@pytest.mark.parametrize("slant", [-0.7, -0.2, 0.2, 0.7])
def test_the_two_ends_of_one_slant_are_mirrored(spring: float | None, slant: float) -> None:
    left, right = (saw_setting(slant=slant, end=end, spring=spring) for end in ENDS)
    assert (left.mitre, left.bevel) == (right.mitre, right.bevel)
    assert {left.swing, right.swing} == {"left", "right"}
    assert left.kept != right.kept or left.fence != right.fence


def test_a_square_end_needs_no_swing() -> None:
    saw = saw_setting(slant=0.0, end="left", spring=None)
    assert (saw.mitre, saw.swing, saw.kept) == (0.0, "none", "right")


def test_without_spring_the_compound_mitre_is_the_bevel_of_a_board_that_lies_on_its_back() -> None:
    mitre, bevel = compound_mitre(spring=0.0, corner=math.radians(110))
    assert (float(mitre), math.degrees(float(bevel))) == (0.0, pytest.approx(35))


def test_compound_mitres_take_arrays_of_corners() -> None:
    mitre, bevel = compound_mitre(spring=np.radians([[38.0], [45.0]]), corner=np.radians([60.0, 90.0, 120.0]))
    assert mitre.shape == bevel.shape == (2, 3)
    assert np.all(np.diff(mitre, axis=1) < 0)


@pytest.mark.parametrize(("spring", "corner"), [(-0.1, 1.0), (1.6, 1.0), (0.5, 0.0), (0.5, 3.2), (math.nan, 1.0)])
def test_angles_out_of_range_are_a_callers_fault(spring: float, corner: float) -> None:
    with pytest.raises(ValueError, match="must lie"):
        compound_mitre(spring=spring, corner=corner)


@pytest.mark.parametrize("corner", [0.0, -1.0, 2 * math.pi])
def test_a_corner_that_is_none_is_refused(corner: float) -> None:
    with pytest.raises(ValueError, match="corner"):
        mitre_slant(corner)
    with pytest.raises(ValueError, match="corner"):
        face_slant(corner)


def test_between_two_inside_corners_the_back_keeps_the_face_and_the_front_loses_by_the_cotangent() -> None:
    corner = math.radians(110)
    piece = mitre_lengths(face=3000, projection=20, left=corner, right=corner)
    assert piece.long_point == piece.back == 3000
    assert piece.short_point == pytest.approx(3000 - 2 * 20 / math.tan(corner / 2))


def test_at_an_error_of_nothing_the_mitre_is_closed() -> None:
    assert mitre_gap(depth=20, corner=math.pi / 2, error=0.0) == 0
    assert mitre_gap(depth=20, corner=math.pi / 2, error=-0.01) == mitre_gap(depth=20, corner=math.pi / 2, error=0.01)
