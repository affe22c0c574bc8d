"""The order in which all mouldings of a set go on."""

from __future__ import annotations

from tests.unit.mouldings.made_up import made_up_trim

from lathlight.catalog import load_catalog
from lathlight.mouldings import (
    CasingJob,
    EndToCover,
    FrameTier,
    FrameWall,
    MouldingFramesJob,
    OpeningToCase,
    WallToCase,
    all_in_order,
    lay_out_frames,
    plan_casing,
    plan_wall_ends,
)
from lathlight.units import LengthStyle

CATALOG = load_catalog()
METRIC = LengthStyle.metric()
TIER = FrameTier(name="panels", moulding=30.0, bottom=300.0, top=850.0, gap=120.0)
FRAMES = lay_out_frames(
    MouldingFramesJob(walls=(FrameWall(name="back", start=0.0, end=2000.0, height=2400.0),), tiers=(TIER,), grid=METRIC)
)
ARCH = OpeningToCase(
    name="arch",
    kind="arch",
    left=900.0,
    width=800.0,
    sill=0.0,
    height=2000.0,
    rise=400.0,
    reveal=5.0,
    profile=CATALOG.profiles["casing 57"],
    plinth_blocks=True,
)
DOOR = OpeningToCase(
    name="door",
    kind="door",
    left=2900.0,
    width=800.0,
    sill=0.0,
    height=2000.0,
    rise=0.0,
    reveal=5.0,
    profile=CATALOG.profiles["casing 57"],
    corner_blocks=True,
)
CASINGS = plan_casing(
    CasingJob(walls=(WallToCase(name="back", length=7000.0, height=2400.0, openings=(ARCH, DOOR)),), grid=METRIC)
)
END = EndToCover(
    wall="left return",
    side="left",
    finish="return",
    length=1220.0,
    height=2400.0,
    sheet=CATALOG.sheets["ply 9 mm"],
    framing=CATALOG.lumber["38x63"],
    timbers=(),
)


def test_casing_comes_before_trim_frames_after_the_rails_and_the_base_last() -> None:
    trim = made_up_trim()
    order = all_in_order(trim, FRAMES, CASINGS, plan_wall_ends((END,), grid=METRIC))
    kinds = {p.id: p.kind for p in trim.pieces}
    steps = [
        "end"
        if item == "left return/left end"
        else "casing"
        if item.startswith(("back/arch/", "back/door/"))
        else kinds.get(item, "frame")
        for item in order
    ]
    seen = list(dict.fromkeys(steps))
    assert seen == ["end", "casing", "cornice", "rail", "frame", "base"]
    assert steps == sorted(steps, key=seen.index)  # each kind stands together
    assert len(set(order)) == len(order) == 1 + 10 + len(trim.pieces) + len(FRAMES.frames)


def test_the_trims_own_order_is_kept() -> None:
    trim = made_up_trim()
    assert all_in_order(trim, None) == trim.order
    inside = [item for item in all_in_order(trim, FRAMES, CASINGS) if item in trim.order]
    assert tuple(inside) == trim.order


def test_casing_goes_up_from_its_feet() -> None:
    order = [item.rsplit("/", 1)[1] for item in all_in_order(None, None, CASINGS)]
    assert order == [
        "plinth block left",
        "plinth block right",
        "left leg",
        "right leg",
        "curve",
        "left leg",
        "right leg",
        "corner block left",
        "corner block right",
        "head",
    ]
