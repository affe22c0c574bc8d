"""Random walls with an opening, casing, blocks, lines and frames: no two mouldings cover the same stretch of wall."""

from __future__ import annotations

from itertools import combinations

from hypothesis import assume, given
from hypothesis import strategies as st
from tests.properties.strategies import METRIC

from lathlight.catalog import load_catalog, projection, width
from lathlight.errors import InputError
from lathlight.mouldings import (
    Block,
    CasedOpening,
    CasingJob,
    FrameTier,
    FrameWall,
    Moulding,
    MouldingFramesJob,
    OpeningToCase,
    Strip,
    TrimBand,
    TrimRules,
    TrimWall,
    WallToCase,
    block_bands,
    casing_box,
    lay_out_frames,
    plan_casing,
    plan_trim,
    strips_of,
)

PROFILES = load_catalog().profiles
CASING, PANEL = PROFILES["casing 57"], PROFILES["panel 30"]
HEIGHT = 2440.0
NOISE = 1e-6


def lines(floor: float) -> tuple[Moulding, ...]:
    base, rail = PROFILES["base 95"], PROFILES["rail 44"]
    return (
        Moulding(name="base", kind="base", profile=base, top=floor + 95.0, spring=None),
        Moulding(name="rail", kind="rail", profile=rail, top=floor + 900.0, spring=None),
    )


@st.composite
def openings(draw: st.DrawFn, *, floor: float) -> OpeningToCase:
    kind = draw(st.sampled_from(("door", "window", "arch")))
    wide = draw(st.integers(600, 1000))
    return OpeningToCase(
        name="opening",
        kind=kind,
        left=float(draw(st.integers(100, 2900 - wide))),
        width=float(wide),
        sill=floor + 1000.0 if kind == "window" else 0.0,
        height=900.0 if kind == "window" else floor + 2000.0,
        rise=float(draw(st.integers(100, wide // 2))) if kind == "arch" else 0.0,
        reveal=float(draw(st.integers(0, 8))),
        profile=CASING,
        plinth_blocks=draw(st.booleans()),
        corner_blocks=draw(st.booleans()),
    )


@st.composite
def covered(draw: st.DrawFn) -> list[Strip]:
    """Return every strip of one wall."""
    floor = float(draw(st.sampled_from((0, 8))))
    own, opening = lines(floor), draw(openings(floor=floor))
    base = own[0]
    wall = WallToCase(
        name="w", length=3000.0, height=HEIGHT, openings=(opening,), base_top=base.top, base_thickness=base.projection
    )
    (casing,) = plan_casing(CasingJob(walls=(wall,), grid=METRIC, floor=floor))
    cased = CasedOpening(
        name=opening.name,
        left=opening.left,
        width=opening.width,
        sill=opening.sill,
        height=opening.height,
        reveal=opening.reveal,
        casing=width(CASING),
        thickness=projection(CASING),
        blocks=block_bands(casing),
    )
    trim_wall = TrimWall(name="w", length=3000.0, height=HEIGHT, lines=own, openings=(cased,))
    trim = plan_trim((trim_wall,), corners=(), rules=TrimRules(grid=METRIC, floor=floor))
    left, bottom, right, top = casing_box(cased)
    frame_wall = FrameWall(
        name="w",
        start=0.0,
        end=3000.0,
        height=HEIGHT,
        blocks=(Block(name="opening", left=left, right=right, bottom=bottom, top=top),),
        bands=tuple(TrimBand(name=line.name, bottom=line.bottom, top=line.top) for line in own),
    )
    tier = FrameTier(
        name="t",
        moulding=30.0,
        bottom=floor + 200.0,
        top=floor + 780.0,
        gap=float(draw(st.integers(50, 150))),
        profile=PANEL,
    )
    job = MouldingFramesJob(walls=(frame_wall,), tiers=(tier, high(tier)), grid=METRIC, floor=floor)
    try:
        frames = lay_out_frames(job)
    except InputError:
        assume(False)
        raise
    assert not [f for f in trim.findings if f.kind == "trim thicker than casing" and opening.plinth_blocks]
    return list(strips_of(trim, frames, (casing,)))


def high(tier: FrameTier) -> FrameTier:
    return FrameTier(
        name="high", moulding=30.0, bottom=tier.top + 170.0, top=tier.top + 1400.0, gap=tier.gap, profile=PANEL
    )


def overlap(a: Strip, b: Strip) -> bool:
    return min(a.x1, b.x1) - max(a.x0, b.x0) > NOISE and min(a.z1, b.z1) - max(a.z0, b.z0) > NOISE


@given(covered())
def test_no_two_mouldings_lie_over_each_other_but_mitred_casing(strips: list[Strip]) -> None:
    for a, b in combinations(strips, 2):
        if not (a.use == b.use == "casing"):
            assert not overlap(a, b), f"{a.id} lies over {b.id}"


@given(covered())
def test_every_strip_lies_on_its_wall_with_a_length_and_a_breadth(strips: list[Strip]) -> None:
    for strip in strips:
        assert -NOISE <= strip.x0 < strip.x1 <= 3000 + NOISE
        assert -NOISE <= strip.z0 < strip.z1 <= HEIGHT + NOISE
        assert strip.stands_out > 0
