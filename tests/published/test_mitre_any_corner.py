"""Flat mitres and their lengths at corners of any angle.

Source: plane geometry, worked outside the project: each of two pieces takes half of what the corner turns by, and an
outside mitre adds thickness times the tangent of that. Figures in degrees and inches, as they were worked.
"""

from __future__ import annotations

import math

import pytest

from lathlight.mouldings.mitres import mitre_angle, mitre_gap, mitre_lengths

CORNERS = [(90, 45), (91, 44.5), (120, 30), (135, 22.5), (157.5, 11.25)]
FRAMES = [(4, 45), (5, 36), (6, 30), (8, 22.5)]
OUTSIDE = [(90, 0.75), (135, 0.31066)]  # angle of the wall itself, what a base of 3/4 in adds at that end


@pytest.mark.published(source="plane geometry", place="saw setting from square, (180 - corner) / 2")
@pytest.mark.parametrize(("corner", "setting"), CORNERS)
def test_each_piece_takes_half_of_the_corner(corner: float, setting: float) -> None:
    assert math.degrees(mitre_angle(math.radians(corner))) == pytest.approx(setting, abs=1e-9)
    assert math.degrees(mitre_angle(math.radians(360 - corner))) == pytest.approx(setting, abs=1e-9)


@pytest.mark.published(source="plane geometry", place="closed frames of 4, 5, 6 and 8 pieces")
@pytest.mark.parametrize(("sides", "setting"), FRAMES)
def test_a_closed_frame_of_equal_pieces_turns_once(sides: int, setting: float) -> None:
    assert math.degrees(mitre_angle(math.pi - 2 * math.pi / sides)) == pytest.approx(setting, abs=1e-9)


@pytest.mark.published(source="plane geometry", place="base of 3/4 in round corners of 90 and 135 degrees")
@pytest.mark.parametrize(("wall", "adds"), OUTSIDE)
def test_an_outside_mitre_adds_the_projection_by_the_tangent(wall: float, adds: float) -> None:
    corner = math.radians(360 - wall)
    piece = mitre_lengths(face=48.0, projection=0.75, left=None, right=corner)
    assert piece.long_point - 48.0 == pytest.approx(adds, abs=1e-5)
    assert piece.short_point == 48.0


@pytest.mark.published(source="plane geometry", place="opening of a mitre 40 mm wide, 0.5 degree off; 90 mm, 1 degree")
@pytest.mark.parametrize(("width", "error", "gap", "digit"), [(40, 0.5, 0.49, 0.01), (90, 1.0, 2.2, 0.1)])
def test_a_mitre_gapes_by_its_slanting_length(width: float, error: float, gap: float, digit: float) -> None:
    got = mitre_gap(depth=width, corner=math.pi / 2, error=math.radians(error))
    assert got == pytest.approx(gap, abs=digit / 2)
