"""Mouldings as bodies in set axes: ids, groups and materials, returns, frames' edges. Second opinion: closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.mouldings.made_up import NAMES, PROFILES, made_up_trim

from lathlight.catalog import drop, projection
from lathlight.exports import set_glb
from lathlight.exports.gltf import MATERIALS
from lathlight.geometry import Part
from lathlight.layout import Layout, Pose, lay_out_walls
from lathlight.mouldings import MouldingLayout, moulding_parts
from lathlight.mouldings.frame_layout import MouldingFrame
from lathlight.mouldings.swept_frames import frame_bodies
from lathlight.mouldings.swept_trim import piece_body, return_body
from lathlight.mouldings.wall_ends import WallEndCover
from lathlight.working import Working

LAYOUT = Layout(
    walls=lay_out_walls(
        names=NAMES, lengths=(1220.0, 7000.0, 1220.0), heights=(2400.0,) * 3, angles=(math.pi / 2, 3 * math.pi / 2)
    ),
    pose=Pose(x=0.0, y=0.0, turn=0.0),
)
CASING = PROFILES["casing 57"]
FRAME = MouldingFrame(id="back/low/1", wall="back", tier="low", left=200.0, bottom=150.0, width=500.0, height=600.0)


def parts() -> tuple[Part, ...]:
    return moulding_parts(made_up_trim(), layout=LAYOUT)


def test_every_piece_return_and_strip_is_a_part_of_its_walls_mouldings() -> None:
    trim = made_up_trim()
    found = {p.id: p for p in parts()}
    assert list(found) == [x.id for x in (*trim.pieces, *trim.returns, *trim.strips)]
    assert {p.path for p in found.values()} == {(n, f"{n}/mouldings") for n in NAMES}
    assert {p.material for i, p in found.items() if i.endswith("/strip")} == {"timber"}
    assert {p.material for i, p in found.items() if not i.endswith("/strip")} == {"moulding"}


def test_the_model_takes_every_moulding() -> None:
    assert {p.material for p in parts()} <= set(MATERIALS)
    glb = set_glb(parts())
    assert all(p.id.encode() in glb for p in parts())
    assert glb == set_glb(parts())


def test_a_set_without_mouldings_has_no_parts() -> None:
    assert moulding_parts(None, layout=LAYOUT) == ()


def test_the_coped_end_of_the_made_up_rail_follows_its_neighbour() -> None:
    (piece,) = (p for p in made_up_trim().pieces if p.left.cope or p.right.cope)
    end = piece.right if piece.right.cope else piece.left
    body = piece_body(piece)
    assert body is not None
    gap = {
        round(z - piece.bottom, 6): abs(x - end.back) for x, y, z in body.points if y == 0 and abs(x - end.back) < 50
    }
    assert gap[0.0] == pytest.approx(8.0)  # as far out as the rail's foot
    assert max(gap.values()) == pytest.approx(projection(piece.profile)) == pytest.approx(end.cope)


def test_a_return_and_its_piece_fill_the_corner_together() -> None:
    trim = made_up_trim()
    pieces = {p.id: p for p in trim.pieces}
    small = next(r for r in trim.returns if pieces[r.piece].kind == "rail" and r.end == "left")
    piece = pieces[small.piece]
    body = return_body(small, piece)
    assert body is not None
    (x0, y0, z0), (x1, y1, z1) = body.box
    deep = projection(piece.profile)
    assert (x0, y0, z0) == pytest.approx((piece.start, -deep, piece.bottom))
    assert (x1, y1, z1) == pytest.approx((piece.start + deep, 0.0, piece.top))
    squares = sum(  # under the mitre a section of depth d leaves d * d / 2; heights by slices of the section's front
        reach_at(piece.profile.points, (k + 0.5) / 50) ** 2 / 2 / 50 for k in range(int(drop(piece.profile) * 50))
    )
    assert body.volume == pytest.approx(squares, rel=1e-4)


def reach_at(points: tuple[tuple[float, float], ...], up: float) -> float:
    sides = zip(points, (*points[1:], points[0]), strict=True)
    return max(a + (b - a) * (up - u) / (v - u) for (a, u), (b, v) in sides if min(u, v) <= up <= max(u, v) and u != v)


def test_casings_thick_edge_lies_outside() -> None:
    for role, body in frame_bodies(FRAME, CASING):
        thick = [p for p in body.points if p[1] < -0.9 * projection(CASING)]
        axis = 2 if role in ("top", "bottom") else 0
        outer = {"top": FRAME.top, "right": FRAME.right, "bottom": FRAME.bottom, "left": FRAME.left}[role]
        inner = outer - math.copysign(drop(CASING), outer - (425.0 if axis == 0 else 450.0))
        centre = sum(p[axis] for p in thick) / len(thick)
        assert abs(centre - outer) < abs(centre - inner)


def test_the_side_on_top_hangs_as_the_section_is_drawn() -> None:
    top = dict(frame_bodies(FRAME, CASING))["top"]
    foot = FRAME.top - drop(CASING)
    assert {(round(-y, 6), round(z - foot, 6)) for _, y, z in top.points} == set(CASING.points)


def test_a_frame_too_small_for_its_moulding_keeps_the_sides_that_have_room() -> None:
    small = replace(FRAME, width=100.0)
    assert [role for role, _ in frame_bodies(small, CASING)] == ["right", "left"]


def test_a_tier_without_its_profile_is_refused() -> None:
    layout = MouldingLayout(in_line=(), frames=(FRAME,), findings=())
    with pytest.raises(ValueError, match="without its profile"):
        moulding_parts(None, layout, layout=LAYOUT)


@pytest.mark.parametrize("finish", ["cover strip", "return", "painted edge"])
def test_what_covers_a_wall_end_lies_beside_the_face_and_behind_it(finish) -> None:
    cover = WallEndCover(
        id="left return/left end",
        wall="left return",
        side="left",
        finish=finish,
        at=0.0,
        bottom=0.0,
        top=2400.0,
        width=56.0,
        thickness=0.0 if finish == "painted edge" else 9.0,
        stock="",
        note="",
        why=Working(formula=""),
    )
    found = moulding_parts(None, ends=(cover,), layout=LAYOUT)
    if finish == "painted edge":
        assert found == ()
        return
    (part,) = found
    assert part.solid.volume == pytest.approx(9 * 56 * 2400)
    assert part.material == ("sheet" if finish == "return" else "moulding")
