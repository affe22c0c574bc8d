"""Strips: where every straight piece of moulding lies on its wall."""

from __future__ import annotations

import itertools
import math

import pytest
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.catalog import load_catalog, projection
from lathlight.mouldings import (
    CasingJob,
    EndToCover,
    FrameTier,
    FrameWall,
    MouldingFramesJob,
    MouldingLayout,
    OpeningToCase,
    WallToCase,
    lay_out_frames,
    plan_casing,
    plan_wall_ends,
    strips_of,
)
from lathlight.units import LengthStyle

CATALOG = load_catalog()
METRIC = LengthStyle.metric()
PANEL = CATALOG.profiles["panel 30"]


def frames(*, profile: bool = True, loose: bool = False) -> MouldingLayout:
    tier = FrameTier(
        name="panels",
        moulding=30.0,
        bottom=300.0,
        top=1500.0,
        gap=120.0,
        loose=loose,
        profile=PANEL if profile else None,
    )
    wall = FrameWall(name="back", start=0.0, end=1000.0, height=2440.0)
    return lay_out_frames(MouldingFramesJob(walls=(wall,), tiers=(tier,), grid=METRIC))


def test_nothing_gives_no_strips() -> None:
    assert strips_of(None, None) == ()


def test_a_moulding_frame_is_four_strips_that_meet_and_cover_its_ring() -> None:
    layout = frames()
    (frame,) = layout.frames
    strips = {s.id.rsplit("/", 1)[1]: s for s in strips_of(None, layout)}
    assert sorted(strips) == ["bottom", "left", "right", "top"]
    assert strips["left"].id == "back/panels/frame 1/left"
    assert (strips["left"].z0, strips["left"].z1, strips["left"].upright) == (300, 1500, True)
    assert (strips["top"].x0, strips["top"].x1) == (strips["left"].x1, strips["right"].x0)
    area = sum(s.length * s.broad for s in strips.values())
    assert area == pytest.approx(frame.width * frame.height - (frame.width - 60) * (frame.height - 60))
    assert {(s.use, s.kind, s.belongs_to, s.stands_out) for s in strips.values()} == {
        ("moulding frame", "panel", "panels", projection(PANEL))
    }


def test_a_loose_tier_gives_loose_strips() -> None:
    assert {s.loose for s in strips_of(None, frames(loose=True))} == {True}
    assert {s.loose for s in strips_of(None, frames())} == {False}


def test_frames_laid_out_without_a_profile_give_no_strips() -> None:
    with pytest.raises(ValueError, match="without its profile"):
        strips_of(None, frames(profile=False))


def test_trim_reaches_to_where_it_touches_the_wall() -> None:
    trim = made_up_trim()
    strips = {s.id: s for s in strips_of(trim, None)}
    assert sorted(strips) == sorted(p.id for p in trim.pieces)
    for piece in trim.pieces:
        strip = strips[piece.id]
        assert (strip.x0, strip.x1) == pytest.approx((piece.left.back, piece.right.back))
        assert (strip.z0, strip.z1, strip.upright) == (piece.bottom, piece.top, False)
    foot = [s for s in strips.values() if s.wall == "left return" and s.kind == "base"]
    assert (foot[0].x1, foot[0].loose) == (1220, True)  # into the inside corner


def test_pieces_of_one_line_follow_each_other_without_a_hole() -> None:
    strips = [s for s in strips_of(made_up_trim(), None) if s.wall == "back" and s.belongs_to == "rail"]
    assert len(strips) > 1
    for a, b in itertools.pairwise(strips):
        assert a.x1 == pytest.approx(b.x0)


def test_casing_and_blocks_become_strips() -> None:
    opening = OpeningToCase(
        name="door",
        kind="door",
        left=900.0,
        width=800.0,
        sill=0.0,
        height=2000.0,
        rise=0.0,
        reveal=5.0,
        profile=CATALOG.profiles["casing 57"],
        plinth_blocks=True,
    )
    wall = WallToCase(name="back", length=3000.0, height=2440.0, openings=(opening,))
    casings = plan_casing(CasingJob(walls=(wall,), grid=METRIC))
    strips = strips_of(None, None, casings)
    assert [(s.use, s.kind) for s in strips] == [("casing", "casing")] * 3 + [("block", "plinth block")] * 2
    assert [s.upright for s in strips[:3]] == [True, True, False]
    assert strips[3].profile is None
    assert strips[3].stands_out == 19


def test_a_cover_strip_stands_beside_the_face_and_a_painted_edge_gives_none() -> None:
    def end(side: str, finish: str) -> EndToCover:
        return EndToCover(
            wall="back",
            side="left" if side == "left" else "right",
            finish="return" if finish == "return" else "painted edge",
            length=3000.0,
            height=2440.0,
            sheet=CATALOG.sheets["ply 9 mm"],
            framing=CATALOG.lumber["38x63"],
            timbers=(),
        )

    ends = plan_wall_ends((end("left", "return"), end("right", "return"), end("right", "painted")), grid=METRIC)
    left, right = strips_of(None, None, (), ends)
    assert (left.x0, left.x1, left.z1, left.stands_out) == (-9, 0, 2440, 0)
    assert (right.x0, right.x1, right.kind) == (3000, 3009, "return")
    assert math.isclose(left.broad, 9)
