"""Swept sections. Second opinion: closed forms, and the volumes of the solid-geometry library."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.geometry import EndCut, Polyhedron, Solid, joined_faces, swept, swept_through, transformed

BOARD = ((0.0, 0.0), (20.0, 0.0), (20.0, 100.0), (0.0, 100.0))
STEPPED = ((0.0, 0.0), (10.0, 0.0), (10.0, 30.0), (16.0, 30.0), (16.0, 50.0), (0.0, 60.0))
HOOKED = ((0.0, 0.0), (12.0, 0.0), (12.0, 20.0), (8.0, 20.0), (8.0, 8.0), (4.0, 8.0), (4.0, 20.0), (0.0, 20.0))
SQUARE, FAR = EndCut(at=0.0), EndCut(at=1000.0)


def as_manifold(body: Solid | Polyhedron) -> manifold3d.Manifold:
    vertices, faces = body.triangles()
    made = manifold3d.Manifold(manifold3d.Mesh64(np.array(vertices), faces.astype(np.uint64)))
    assert made.status() == manifold3d.Error.NoError, "the surface is not closed"
    return made


def made(section: tuple[tuple[float, float], ...], left: EndCut, right: EndCut) -> Solid | Polyhedron:
    body = swept(section, left=left, right=right)
    assert body is not None
    assert as_manifold(body).volume() == pytest.approx(body.volume, rel=1e-9)
    return body


def test_a_square_length_has_its_sections_area_times_its_length_and_stands_before_the_wall() -> None:
    body = made(BOARD, SQUARE, FAR)
    assert body.volume == pytest.approx(20 * 100 * 1000)
    assert body.box == ((0, -20, 0), (1000, 0, 100))


def test_a_section_may_run_either_way_round() -> None:
    assert made(STEPPED[::-1], SQUARE, FAR).volume == pytest.approx(made(STEPPED, SQUARE, FAR).volume)


@given(left=st.floats(-1.2, 1.2), right=st.floats(-1.2, 1.2), up=st.floats(-1.0, 1.0))
def test_plane_ends_take_their_mean_over_the_section(left: float, right: float, up: float) -> None:
    body = made(BOARD, EndCut(at=0.0, by_out=left, by_up=up), EndCut(at=1000.0, by_out=right))
    assert body.volume == pytest.approx(2000 * (1000 + 10 * (right - left) - 50 * up), rel=1e-9)


def test_an_end_may_run_out_to_an_edge() -> None:
    body = made(BOARD, SQUARE, EndCut(at=0.0, by_out=1.0))
    assert body.volume == pytest.approx(20 * 20 / 2 * 100)
    assert len(body.points) == 6


def test_cuts_that_cross_leave_nothing() -> None:
    assert swept(BOARD, left=SQUARE, right=EndCut(at=5.0, by_out=-1.0)) is None
    assert swept(BOARD, left=EndCut(at=5.0, by_front=1.0), right=EndCut(at=20.0)) is None


def test_a_cope_stands_off_by_the_sections_front_and_has_a_ledge_where_it_jumps() -> None:
    body = made(STEPPED, EndCut(at=0.0, by_front=1.0), FAR)
    below, above = 30 * 10 * (1000 - 10), 20 * 16 * (1000 - 16)
    sloping = 10 * (1000 * 16 / 2 - 16**2 / 3)  # the front f runs from 16 to nothing: f * (1000 - f) over its height
    assert body.volume == pytest.approx(below + above + sloping)
    ledge = {(x, y) for x, y, z in body.points if z == pytest.approx(30.0)}
    assert {(10.0, 0.0), (16.0, 0.0), (10.0, -10.0), (16.0, -10.0), (16.0, -16.0)} <= ledge


def test_both_ends_may_be_coped() -> None:
    one = made(STEPPED, EndCut(at=0.0, by_front=1.0), FAR).volume
    both = made(STEPPED, EndCut(at=0.0, by_front=1.0), EndCut(at=1000.0, by_front=-1.0)).volume
    assert made(STEPPED, SQUARE, FAR).volume - both == pytest.approx(
        2 * (made(STEPPED, SQUARE, FAR).volume - one), rel=1e-9
    )


def test_of_an_undercut_section_the_foremost_reach_counts() -> None:
    body = made(HOOKED, EndCut(at=0.0, by_front=1.0), FAR)
    assert body.volume == pytest.approx((12 * 20 - 4 * 12) * (1000 - 12))


def test_an_end_that_is_reversed_is_the_same_end_from_the_other_side() -> None:
    cut = EndCut(at=5.0, by_out=1.0, by_up=-2.0, by_front=0.5)
    assert cut.reversed().along(2.0, 3.0) == -cut.along(2.0, 3.0)
    assert cut.reversed().reversed() == cut


def test_a_section_through_rows_round_a_quarter_circle_nears_its_ring() -> None:
    def row(angle: float) -> list[tuple[float, float, float]]:
        return [((500 + up) * math.cos(angle), -out, (500 + up) * math.sin(angle)) for out, up in BOARD]

    body = swept_through(BOARD, [row(math.pi / 2 * (1 - k / 200)) for k in range(201)])
    assert as_manifold(body).volume() == pytest.approx(body.volume)
    assert body.volume == pytest.approx(math.pi / 4 * (600**2 - 500**2) * 20, rel=1e-4)


def test_rows_that_do_not_match_the_section_are_refused() -> None:
    with pytest.raises(ValueError, match="corners of its section"):
        swept_through(BOARD, [[(0.0, 0.0, 0.0)] * 3] * 2)


def test_a_body_with_a_corner_on_an_edge_is_closed() -> None:
    low, high = 0.0, 1.0
    a, b, c, d = (low, low), (high, low), (high, high), (low, high)
    faces = [[(x, y, low) for x, y in (d, c, b, a)]]
    for (x0, y0), (x1, y1) in ((a, b), (b, c), (c, d), (d, a)):
        faces.append([(x0, y0, low), (x1, y1, low), (x1, y1, high), (x0, y0, high)])
    halves = ((a, (0.5, low), (0.5, high), d), ((0.5, low), b, c, (0.5, high)))
    faces += [[(x, y, high) for x, y in half] for half in halves]
    body = joined_faces(faces)
    assert body.volume == pytest.approx(1.0)
    assert body.centroid == pytest.approx((0.5, 0.5, 0.5))
    assert as_manifold(body).volume() == pytest.approx(1.0)


def test_a_mirrored_polyhedron_still_looks_outwards() -> None:
    body = made(STEPPED, EndCut(at=0.0, by_front=1.0), FAR)
    mirrored = transformed(body, np.diag([-1.0, 1.0, 1.0, 1.0]))
    assert as_manifold(mirrored).volume() == pytest.approx(body.volume)


def test_equal_input_gives_equal_bodies() -> None:
    cope = EndCut(at=0.0, by_front=1.0)
    assert swept(STEPPED, left=cope, right=FAR) == swept(STEPPED, left=cope, right=FAR)
