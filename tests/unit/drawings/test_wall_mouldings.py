"""Mouldings look like themselves: their own edges, mitres of 45 degrees, profiles at returned ends, seams covered."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from tests.unit.drawings.moulded import moulded_plan
from tests.unit.mouldings.made_up import PROFILES, made_up_trim

from lathlight.catalog import drop
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.wall_mouldings import LEAST_APART, MOST_EDGES, moulding_items, profile_edges
from lathlight.mouldings import strips_of


@pytest.mark.parametrize("scale", [5.0, 16.0, 25.0, 50.0])
@pytest.mark.parametrize("name", sorted(PROFILES))
def test_edges_of_a_profile_read_at_the_scale(name: str, scale: float) -> None:
    profile = PROFILES[name]
    low = min(up for _, up in profile.points)
    edges = profile_edges(profile, scale=scale)
    stops = [0.0, *edges, drop(profile)] if edges else []
    assert len(edges) <= MOST_EDGES
    assert all(b - a >= LEAST_APART * scale - 0.02 for a, b in pairwise(stops))
    assert all(any(abs(up - low - edge) < 0.01 for _, up in profile.points) for edge in edges)


def test_a_plain_board_has_no_edge_and_a_profile_with_a_step_shows_it() -> None:
    assert profile_edges(PROFILES["base 70"], scale=5.0) == (61.6,)  # its bevel begins there
    assert profile_edges(PROFILES["base 70"], scale=50.0) == ()  # nearer to its top than can be read


def test_a_moulding_frame_has_four_mitres_of_45_degrees() -> None:
    plan = moulded_plan()
    frame = plan.frames.frames[0]
    strips = [s for s in plan.strips if s.id.rpartition("/")[0] == frame.id]
    sides = [i for i in moulding_items(strips, scale=16.0) if isinstance(i, Path)]
    assert len(sides) == 4
    for side in sides:
        inner, outer = side.points[:2], side.points[:1:-1]
        for (ax, az), (bx, bz) in zip(inner, outer, strict=True):
            assert abs(bx - ax) == pytest.approx(abs(bz - az))
            assert abs(bx - ax) == pytest.approx(drop(strips[0].profile))
    assert bounds_of(p for side in sides for p in side.points) == pytest.approx(
        (frame.left, frame.bottom, frame.right, frame.top)
    )


def test_casing_is_mitred_and_runs_square_into_corner_blocks() -> None:
    for blocks in (False, True):
        plan = moulded_plan(blocks=blocks)
        own = [s for s in plan.strips if s.belongs_to == "hatch"]
        legs = [s for s in own if s.use == "casing" and s.upright]
        items = moulding_items(own, scale=16.0)
        rings = [i.points for i in items if isinstance(i, Path)]
        left = min(legs, key=lambda leg: leg.x0)
        (ring,) = [r for r in rings if bounds_of(r)[0] == left.x0 and bounds_of(r)[2] == left.x1 and _tall(r)]
        tops = sorted(z for _, z in ring)[-2:]
        assert (tops[1] - tops[0] > 1.0) is not blocks
        assert len(rings) == len(own)


def _tall(ring) -> bool:
    x0, z0, x1, z1 = bounds_of(ring)
    return z1 - z0 > 2 * (x1 - x0)


def test_a_returned_end_shows_the_profile() -> None:
    trim = made_up_trim()
    piece = next(p for p in trim.pieces if p.left.kind == "returned" and p.line == "rail")
    strips = [s for s in strips_of(trim, None) if s.id == piece.id]
    (ring,) = [i.points for i in moulding_items(strips, [piece], scale=5.0) if isinstance(i, Path)]
    for out, up in piece.profile.points:
        if out > 0:
            spot = (piece.left.back - out, piece.bottom + up)
            assert any(math.dist(spot, corner) < 0.01 for corner in ring)
    assert min(x for x, _ in ring) == pytest.approx(piece.left.station)


def test_mouldings_cover_what_stands_behind_them() -> None:
    plan = moulded_plan()
    items = moulding_items([s for s in plan.strips if s.wall == "back"], scale=16.0)
    rings = [i for i in items if isinstance(i, Path)]
    assert rings
    assert all(ring.fill is Tone.WHITE for ring in rings)


def test_joints_of_a_line_are_struck_through_its_moulding() -> None:
    trim = made_up_trim()
    own = [p for p in trim.pieces if p.wall == "back"]
    strips = [s for s in strips_of(trim, None) if s.wall == "back"]
    lines = [i for i in moulding_items(strips, own, scale=16.0) if isinstance(i, Line) and i.pen is Pen.OUTLINE]
    scarfs = {(p.end, p.bottom, p.top) for p in own if p.right.kind == "scarf"}
    assert scarfs
    assert {(line.a[0], line.a[1], line.b[1]) for line in lines} == scarfs
