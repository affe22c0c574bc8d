"""The layout of the mouldings gives the plan's own gaps and heights, and its chains add up to the wall."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.unit.drawings.looks import covered_words, crowded, false_chains, off_page
from tests.unit.drawings.moulded import moulded_plan

from lathlight.drawings.composing import Setting
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Chain, Line, Path, Pen
from lathlight.drawings.trim_layout import trim_layout_pages, trim_layout_view
from lathlight.units import drawing_length

SYSTEMS = ("metric", "imperial")
WALLS = ("left", "back", "right")


def _level(view) -> list[Chain]:
    return [i for i in view.items if isinstance(i, Chain) and i.angle == 0.0]


@pytest.mark.parametrize("wall", WALLS)
@pytest.mark.parametrize("system", SYSTEMS)
def test_gaps_and_frames_are_those_of_the_layout_and_add_up_to_the_wall(system: str, wall: str) -> None:
    plan = moulded_plan(system)
    built = next(w for w in plan.walls if w.name == wall)
    view = trim_layout_view(plan, wall, scale=16.0)
    rows = [chain.stops for chain in _level(view)]
    for group in plan.frames.in_line:
        for filled in group.bays:
            if filled.bay.wall != wall:
                continue
            edges = [filled.bay.left]
            for left, gap in zip(filled.pattern.lefts, filled.pattern.gaps, strict=False):
                assert left - edges[-1] == pytest.approx(gap)
                edges += [left, left + filled.pattern.width]
            edges.append(filled.bay.right)
            assert any(all(min(abs(e - s) for s in stops) < 1.0 for e in edges) for stops in rows)
    for stops in rows:
        assert stops[0] == 0.0
        assert sum(b - a for a, b in pairwise(stops)) == pytest.approx(built.length, abs=0.5)


@pytest.mark.parametrize("system", SYSTEMS)
def test_heights_count_from_the_finished_floor(system: str) -> None:
    plan = moulded_plan(system)
    rise = plan.brief.floor.rise
    assert rise > 0
    view = trim_layout_view(plan, "back", scale=16.0)
    upright = [i for i in view.items if isinstance(i, Chain) and i.angle == pytest.approx(math.pi / 2)]
    assert all(chain.origin[1] == rise and chain.stops[0] == 0.0 for chain in upright)
    style = plan.brief.style
    words = {text.words for text in texts_of(view.items)}
    assert {drawing_length(mm, style=style) for mm in (863.6, 228.6, 736.6, 965.2, 2133.6)} <= words
    floor = [i for i in view.items if isinstance(i, Line) and i.pen is Pen.PHANTOM]
    assert [line.a[1] for line in floor] == [rise]


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_frame_says_its_outside_size_once(system: str) -> None:
    plan = moulded_plan(system)
    style = plan.brief.style
    for wall in WALLS:
        words = [text.words for text in texts_of(trim_layout_view(plan, wall, scale=12.0).items)]
        for frame in plan.frames.frames:
            if frame.wall == wall:
                size = [drawing_length(mm, style=style) for mm in (frame.width, frame.height)]
                assert f"{size[0]} × {size[1]}" in words or f"{size[0]} ×" in words
        sizes = sum(" ×" in word and "clear" not in word for word in words)
        assert sizes == sum(frame.wall == wall for frame in plan.frames.frames)


@pytest.mark.parametrize("scale", [16.0, 24.0])
def test_every_tier_is_named_once_on_its_wall(scale: float) -> None:
    for wall in WALLS:
        words = [text.words for text in texts_of(trim_layout_view(moulded_plan(), wall, scale=scale).items)]
        assert (words.count("low"), words.count("high")) == (1, 1)


def test_frames_are_drawn_where_they_stand() -> None:
    plan = moulded_plan()
    rings = [bounds_of(i.points) for i in trim_layout_view(plan, "back", scale=16.0).items if isinstance(i, Path)]
    for frame in plan.frames.frames:
        if frame.wall == "back":
            assert any(r[0] == frame.left and r[3] == frame.top for r in rings)
            assert any(r[2] == frame.right and r[1] == frame.bottom for r in rings)


def test_the_middle_of_each_bay_is_drawn() -> None:
    plan = moulded_plan()
    middles = [
        i.a[0] for i in trim_layout_view(plan, "back", scale=16.0).items if isinstance(i, Line) and i.pen is Pen.CENTRE
    ]
    bays = {(b.bay.left + b.bay.right) / 2 for g in plan.frames.in_line for b in g.bays if b.bay.wall == "back"}
    assert middles == pytest.approx(sorted(bays))


@pytest.mark.parametrize("scale", [16.0, 24.0, 50.0])
@pytest.mark.parametrize("system", SYSTEMS)
def test_words_stand_apart_and_chains_say_the_truth(system: str, scale: float) -> None:
    plan = moulded_plan(system)
    for view in (trim_layout_view(plan, wall, scale=scale) for wall in WALLS):
        assert not covered_words(view)
        assert not false_chains(view, plan.brief.style)


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_page_for_every_wall_with_mouldings_and_nothing_off_it(system: str) -> None:
    plan = moulded_plan(system)
    pages = trim_layout_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style))
    assert [page.name for page in pages] == ["mouldings-L", "mouldings-B", "mouldings-R", "trim-pieces"]
    for page in pages:
        assert not crowded(page)
        assert not off_page(page)


def test_a_wall_without_mouldings_has_no_page() -> None:
    plan = moulded_plan()
    bare = replace(plan, strips=tuple(s for s in plan.strips if s.wall != "back"), trim=None)
    pages = trim_layout_pages(bare, Setting(heading=plan.brief.title, style=plan.brief.style))
    assert [page.name for page in pages] == ["mouldings-L", "mouldings-R"]


def test_only_a_wall_with_moulding_frames_has_a_note_about_them() -> None:
    plan = moulded_plan()
    setting = Setting(heading=plan.brief.title, style=plan.brief.style)
    for shown, has_frames in ((plan, True), (replace(plan, frames=None), False)):
        words = [text.words for page in trim_layout_pages(shown, setting)[:3] for text in page.texts]
        assert any(each.startswith("Frames:") for each in words) is has_frames
        assert any("top edges of trim" in each for each in words)


def test_the_layout_can_be_written_as_dxf() -> None:
    plan = moulded_plan()
    view = trim_layout_view(plan, "back", scale=25.0)
    assert view_dxf(view, style=plan.brief.style, title="x") == view_dxf(view, style=plan.brief.style, title="x")
