"""Solids of parts. Second opinion: closed forms, and the volumes of the solid-geometry library."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lathlight.geometry import Solid, loft, placement, prism, transformed

SQUARE = ((0, 0), (38, 0), (38, 38), (0, 38))
ELL = ((0, 0), (1220, 0), (1220, 2000), (800, 2000), (800, 2440), (0, 2440))
WINDOW = ((200, 900), (600, 900), (600, 1800), (200, 1800))


def as_manifold(solid: Solid) -> manifold3d.Manifold:
    vertices, faces = solid.triangles()
    mesh = manifold3d.Mesh64(vert_properties=np.array(vertices), tri_verts=faces.astype(np.uint64))
    body = manifold3d.Manifold(mesh)
    assert body.status() == manifold3d.Error.NoError, "the surface is not closed"
    return body


def test_a_stud_has_its_volume_box_and_centre() -> None:
    stud = prism(SQUARE, low=38, high=2402, axis="height")
    assert stud.volume == pytest.approx(38 * 38 * 2364)
    assert stud.box == ((0, 0, 38), (38, 38, 2402))
    assert stud.centroid == pytest.approx((19, 19, 1220))


def test_a_sheet_stands_upright_and_runs_back_from_its_face() -> None:
    sheet = prism(ELL, [WINDOW], low=0, high=9, axis="depth")
    assert sheet.volume == pytest.approx((1220 * 2440 - 420 * 440 - 400 * 900) * 9)
    assert sheet.box == ((0, 0, 0), (1220, 9, 2440))
    assert as_manifold(sheet).volume() == pytest.approx(sheet.volume)


@pytest.mark.parametrize("axis", ["height", "depth"])
def test_every_face_looks_outwards(axis) -> None:
    solid = prism(ELL, [WINDOW], low=0, high=9, axis=axis)
    vertices, faces = solid.triangles()
    corners = vertices[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    just_outside = corners.mean(axis=1) + 1e-3 * normals
    for point, normal in zip(just_outside, normals, strict=True):
        assert inside(vertices, faces, point - 2e-3 * normal)
        assert not inside(vertices, faces, point)


def inside(vertices, faces, point) -> bool:
    """Solid angle of the whole surface as seen from the point: 4 pi inside, 0 outside (van Oosterom, Strackee 1983)."""
    a, b, c = np.moveaxis(vertices[faces] - point, 1, 0)
    la, lb, lc = (np.linalg.norm(v, axis=1) for v in (a, b, c))
    top = np.einsum("ij,ij->i", a, np.cross(b, c))
    dots = [np.einsum("ij,ij->i", u, v) for u, v in ((a, b), (a, c), (b, c))]
    bottom = la * lb * lc + dots[0] * lc + dots[1] * lb + dots[2] * la
    return abs(2 * np.arctan2(top, bottom).sum()) > 2 * math.pi


def test_a_bevelled_sheet_has_the_mean_of_both_faces_as_its_area() -> None:
    front = ((0, 0), (1000, 0), (1000, 2000), (0, 2000))
    back = ((-4, 0), (1009, 0), (1009, 2000), (-4, 2000))
    sheet = loft(front, back, low=0, high=9, axis="depth")
    assert sheet.volume == pytest.approx((1000 + 1013) / 2 * 2000 * 9)
    assert sheet.box == ((-4, 0, 0), (1009, 9, 2000))
    assert as_manifold(sheet).volume() == pytest.approx(sheet.volume)


def test_outlines_run_either_way_round() -> None:
    one = prism(ELL, [WINDOW], low=0, high=9, axis="depth")
    other = prism(ELL[::-1], [WINDOW[::-1]], low=0, high=9, axis="depth")
    assert other.volume == pytest.approx(one.volume)
    assert as_manifold(other).volume() == pytest.approx(one.volume)


def test_a_moved_solid_keeps_its_volume_and_moves_its_centre() -> None:
    sheet = prism(ELL, [WINDOW], low=0, high=9, axis="depth")
    matrix = placement(x=100, y=-200, z=5, turn=math.radians(110))
    moved = transformed(sheet, matrix)
    assert moved.volume == pytest.approx(sheet.volume)
    assert moved.centroid == pytest.approx((matrix @ (*sheet.centroid, 1.0))[:3])


def test_a_mirrored_solid_still_looks_outwards() -> None:
    sheet = prism(ELL, [WINDOW], low=0, high=9, axis="depth")
    mirrored = transformed(sheet, np.diag([-1.0, 1.0, 1.0, 1.0]))
    assert mirrored.volume == pytest.approx(sheet.volume)
    assert as_manifold(mirrored).volume() == pytest.approx(sheet.volume)


def test_neighbours_that_touch_do_not_overlap() -> None:
    left = as_manifold(prism(SQUARE, low=0, high=100, axis="height"))
    right = as_manifold(transformed(prism(SQUARE, low=0, high=100, axis="height"), placement(x=38, y=0)))
    assert (left ^ right).volume() == pytest.approx(0.0, abs=1e-9)


def test_a_solid_without_thickness_is_refused() -> None:
    with pytest.raises(ValueError, match="room between"):
        prism(SQUARE, low=10, high=10, axis="height")


def test_ends_that_do_not_match_are_refused() -> None:
    with pytest.raises(ValueError, match="same corners"):
        loft(SQUARE, ELL, low=0, high=9, axis="depth")


def test_a_matrix_that_flattens_is_refused() -> None:
    with pytest.raises(ValueError, match="flattens"):
        transformed(prism(SQUARE, low=0, high=9, axis="depth"), np.diag([1.0, 0.0, 1.0, 1.0]))


def test_equal_input_gives_equal_solids() -> None:
    assert prism(ELL, [WINDOW], low=0, high=9, axis="depth") == prism(ELL, [WINDOW], low=0, high=9, axis="depth")


@settings(max_examples=50, deadline=None)
@given(
    bevels=st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
    sill=st.floats(100, 900),
    turn=st.floats(0, math.tau),
)
def test_volume_and_closed_surface_agree_with_the_solid_library(bevels, sill, turn) -> None:
    front = ((0, 0), (1220, 0), (1220, 2440), (0, 2440))
    back = ((bevels[0], 0), (1220 + bevels[1], 0), (1220 + bevels[1], 2440), (bevels[0], 2440))
    window = ((300, sill), (900, sill), (900, 1900), (300, 1900))
    solid = transformed(
        loft(front, back, [window], [window], low=0, high=12, axis="depth"), placement(x=7, y=9, turn=turn)
    )
    assert as_manifold(solid).volume() == pytest.approx(solid.volume, rel=1e-9)
