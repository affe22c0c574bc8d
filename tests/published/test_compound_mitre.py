"""Compound mitres of sprung cornice that lies flat on its back.

Sources: a public carpentry table for cornice of 38 degrees spring (to 0.001 degree, partly cut off instead of rounded);
the owners' manuals of three compound mitre saws for a square corner (to 0.1 or 0.01 degree); a public crown table whose
angle is counted from the other face (to 0.00001 degree); settings at ten corners for both springs, worked outside the
project from the planes' normals (to 0.01 degree). One manual prints a bevel of 33.85 where 33.8629 is exact.
"""

from __future__ import annotations

import numpy as np
import pytest

from lathlight.mouldings.mitres import compound_mitre

CUT_OFF = 1e-3  # [degree] the table's rows are cut off, not rounded
HALF_A_DIGIT = 0.05  # [degree]
TABLE = [(45, 56.067, 46.721), (90, 31.619, 33.8629), (135, 14.3064, 17.5512)]  # corner, mitre, bevel, as printed
MANUALS = [(38, 31.6, 33.9), (45, 35.3, 30.0)]  # spring, mitre, bevel at a square corner, as printed

OTHER_CORNERS = [  # corner, then mitre and bevel for springs of 38 and of 45 degrees
    (60, 46.84, 43.03, 50.77, 37.76),
    (75, 38.74, 38.69, 42.66, 34.12),
    (85, 33.90, 35.52, 37.66, 31.42),
    (88, 32.52, 34.53, 36.21, 30.57),
    (90, 31.62, 33.86, 35.26, 30.00),
    (92, 30.73, 33.19, 34.33, 29.42),
    (95, 29.43, 32.17, 32.94, 28.54),
    (120, 19.57, 23.20, 22.21, 20.70),
    (135, 14.31, 17.55, 16.32, 15.70),
    (150, 9.37, 11.77, 10.73, 10.55),
]


def settings_of(spring: float, corner: float) -> tuple[float, float]:
    mitre, bevel = np.degrees(compound_mitre(spring=np.radians(spring), corner=np.radians(corner)))
    return float(mitre), float(bevel)


@pytest.mark.published(source="public carpentry table, 38 degrees spring", place="corners of 45, 90, 135 degrees")
@pytest.mark.parametrize(("corner", "mitre", "bevel"), TABLE)
def test_cornice_of_38_degrees_spring_follows_the_printed_table(corner: float, mitre: float, bevel: float) -> None:
    assert settings_of(38, corner) == pytest.approx((mitre, bevel), abs=CUT_OFF)


@pytest.mark.published(source="public carpentry table, 38 degrees spring", place="corner of 179 degrees")
def test_an_almost_straight_corner_follows_the_printed_table() -> None:
    assert settings_of(38, 179) == pytest.approx((0.307, 0.396), abs=3e-3)  # exact: 0.3078, 0.3940


@pytest.mark.published(source="owners' manuals of three compound mitre saws", place="square corner, 52/38 and 45/45")
@pytest.mark.parametrize(("spring", "mitre", "bevel"), MANUALS)
def test_a_square_corner_follows_the_saws_manuals(spring: float, mitre: float, bevel: float) -> None:
    assert settings_of(spring, 90) == pytest.approx((mitre, bevel), abs=HALF_A_DIGIT)


@pytest.mark.published(source="public crown table counted from the other face", place="52 degrees, corner of 1 degree")
def test_the_same_moulding_counted_from_the_other_face_is_another_row() -> None:
    assert settings_of(52, 1) == pytest.approx((89.36550, 37.99830), abs=1e-5)
    assert settings_of(52, 90) == pytest.approx((38.24, 25.81), abs=HALF_A_DIGIT)  # not those of 38 degrees


@pytest.mark.published(source="vector geometry, worked outside the project", place="springs of 38 and 45, ten corners")
@pytest.mark.parametrize(("corner", "mitre_38", "bevel_38", "mitre_45", "bevel_45"), OTHER_CORNERS)
def test_other_corners_follow_from_the_planes(
    corner: float, mitre_38: float, bevel_38: float, mitre_45: float, bevel_45: float
) -> None:
    assert settings_of(38, corner) == pytest.approx((mitre_38, bevel_38), abs=0.01)
    assert settings_of(45, corner) == pytest.approx((mitre_45, bevel_45), abs=0.01)
