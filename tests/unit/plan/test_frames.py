"""Moulding frames, casing and wall ends from a project file: what stands in the way, joints, refusals."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest

from lathlight.camera import Aim, middle_lines
from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.mouldings import MouldingLayout, TrimPlan
from lathlight.plan import Memo, Plan, derive
from lathlight.plan.casing import derive_casings, derive_wall_ends
from lathlight.plan.frames import derive_frames
from lathlight.plan.trim import derive_proportions
from lathlight.project import Brief, parse_project, resolve

if TYPE_CHECKING:
    from collections.abc import Callable

HEAD = """
[project]
title = "frames"
units = "metric"
[room]
width = 9000
depth = 8000
ceiling = 3000
[set]
height = 2400
sheet = "ply 9 mm"
framing = "38x38"
flats.max_width = "1.22 m"
{more}
"""
PANELS = """
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = {bottom}
top = {top}
gap = {gap}
{more}
"""


def wall(name: str, length: int, more: str = "") -> str:
    return f'\n[[walls]]\nname = "{name}"\nlength = {length}\n{more}'


def panels(*, bottom: int = 300, top: int = 1500, gap: int = 120, more: str = "") -> str:
    return PANELS.format(bottom=bottom, top=top, gap=gap, more=more)


def brief_of(text: str, *, more: str = "") -> Brief:
    return resolve(parse_project(HEAD.format(more=more) + text, name="set.toml"), load_catalog(), place="set.toml")


def frames_of(plan: Plan) -> MouldingLayout:
    aims = [
        Aim(picture=p.name, sitter=(p.sitter.right, -p.sitter.forward), angles=(p.angles[0], 0.0, p.angles[1]))
        for p in plan.brief.pictures
    ]
    middles = middle_lines(plan.layout.walls, aims)
    layout = derive_frames(plan.brief, plan.walls, middles, plan.trim, plan.casings, Memo())
    assert layout is not None
    return layout


def laid(text: str, *, more: str = "") -> MouldingLayout:
    return frames_of(derive(brief_of(text, more=more)))


def kinds(layout: MouldingLayout) -> set[str]:
    return {f.kind for f in layout.findings}


# --- frames ------------------------------------------------------------------------------------------------------


def test_a_set_without_frames_has_no_layout() -> None:
    plan = derive(brief_of(wall("back", 3000)))
    assert derive_frames(plan.brief, plan.walls, (), plan.trim, plan.casings, Memo()) is None


def test_the_parlours_frames_keep_one_gap_and_stand_in_line(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("parlour")
    layout = frames_of(plan)
    (group,) = layout.in_line
    tier = plan.brief.frames[0]
    step = float(plan.brief.style.step)
    for filled in group.bays:
        assert filled.pattern.gaps == pytest.approx([tier.gap] * (filled.pattern.count + 1), abs=step)
    assert {f.wall for f in layout.frames} == {w.name for w in plan.walls}
    assert {(f.bottom, f.top) for f in layout.frames} == {(t.bottom, t.top) for t in plan.brief.frames}
    returns = [[(f.left, f.right) for f in layout.frames if f.wall == name] for name in ("left return", "right return")]
    assert returns[0] == returns[1]


def test_every_seam_and_joint_through_a_frame_of_the_parlour_is_said(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("parlour")
    layout = frames_of(plan)
    loose = plan.brief.frames[0].loose
    said = {(f.wall, round(f.at or 0.0, 3)) for f in layout.findings if f.kind in ("seam", "joint", "clear")}
    crossed = {
        (built.name, round(seam.at, 3))
        for built in plan.walls
        for seam in built.seams
        for frame in layout.frames
        if seam.upright and frame.wall == built.name and seam.low < frame.top and frame.bottom < seam.high
        if frame.left + (30.0 if loose or not seam.parts else 0.0) < seam.at
        and seam.at < frame.right - (30.0 if loose or not seam.parts else 0.0)
    }
    assert crossed <= said


def test_frames_keep_off_an_opening_with_its_casing() -> None:
    door = (
        '[[walls.openings]]\nname = "door"\nkind = "door"\nat = 1100\nwidth = 800\nheight = 2000\n'
        'casing = "casing 57"\nreveal = 5\ncorner_blocks = true\n'
    )
    layout = laid(wall("back", 3000, door) + panels())
    outer = 1100 - 5 - 57 - 3, 1900 + 5 + 57 + 3
    assert layout.frames
    assert all(f.right < outer[0] or f.left > outer[1] for f in layout.frames)
    gaps = [filled.pattern.gaps for group in layout.in_line for filled in group.bays]
    assert all(gap == pytest.approx(120, abs=1.5) for each in gaps for gap in each)


def test_what_hangs_on_a_wall_blocks_no_frame() -> None:
    glass = (
        '[[props]]\nname = "glass"\nwall = "back"\nalong = 1000\nabove_floor = 1200\n'
        "width = 400\nheight = 600\ndepth = 40\nmass = 6\n"
    )
    assert laid(wall("back", 2000) + panels() + glass).frames == laid(wall("back", 2000) + panels()).frames


def test_joints_part_bays_only_where_that_is_asked() -> None:
    set_ = wall("back", 3000)
    crossing, parted = laid(set_ + panels()), laid(set_ + panels(more="part_at_joints = true"))
    loose = laid(set_ + panels(more="loose = true"))
    assert "joint" in kinds(crossing)
    assert "joint" not in kinds(parted)
    assert "joint" not in kinds(loose)
    assert loose.in_line[0].tiers[0].loose


def test_a_rail_through_the_frames_is_said_with_its_name() -> None:
    rail = '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 900\n'
    findings = [f for f in laid(wall("back", 3000) + rail + panels()).findings if f.kind == "clear"]
    assert any("rail" in f.words for f in findings)


def test_a_bay_begins_past_the_neighbours_rail_where_that_runs_alone_into_the_corner() -> None:
    rail = '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 900\n'
    both = laid(wall("left", 1200) + wall("back", 3000) + panels(more='walls = ["back"]'))
    alone = laid(
        wall("left", 1200, 'trim = ["rail"]\n')
        + wall("back", 3000, "trim = []\n")
        + rail
        + panels(more='walls = ["back"]')
    )
    assert both.in_line[0].bays[0].bay.left == 0
    assert alone.in_line[0].bays[0].bay.left == pytest.approx(20)  # what the rail stands out
    assert alone.in_line[0].bays[0].bay.right == 3000


def test_a_pattern_centred_on_a_picture_has_a_frame_or_a_gap_on_its_middle_line() -> None:
    picture = (
        '[[sitters]]\nname = "a"\nright = 250\nforward = 1500\n'
        '[[pictures]]\nname = "one"\nlens = 85\nangles = [-10, 10]\nsitters = ["a"]\n'
    )
    plan = derive(brief_of(wall("back", 3000) + panels(more='centre_on = "one"') + picture))
    layout = frames_of(plan)
    line = plan.layout.wall("back").length / 2 + 250
    edges = sorted((f.left, f.right) for f in layout.frames)
    middles = [(a + b) / 2 for a, b in edges] + [(a[1] + b[0]) / 2 for a, b in itertools.pairwise(edges)]
    assert min(abs(m - line) for m in middles) <= 1.0


def test_heights_count_from_the_finished_floor() -> None:
    floor = '[floor]\ncovering = "boards"\nthickness = 8\nwidth = 3000\ndepth = 2000\n'
    assert {(f.bottom, f.top) for f in laid(wall("back", 3000) + panels() + floor).frames} == {(308, 1508)}


@pytest.mark.parametrize(
    ("tier", "words"),
    [
        (panels(gap=1300), 'moulding_frames "panels"'),
        (panels(top=2500), "2500 mm above the floor"),
    ],
)
def test_frames_that_cannot_be_drawn_are_refused_with_their_place(tier: str, words: str) -> None:
    with pytest.raises(InputError) as caught:
        laid(wall("back", 2400) + tier)
    assert words in str(caught.value)


# --- casing and wall ends ----------------------------------------------------------------------------------------

DOOR = (
    '[[walls.openings]]\nname = "door"\nkind = "door"\nat = 1100\nwidth = 800\nheight = 2000\n'
    'casing = "casing 57"\nreveal = 5\nplinth_blocks = true\n'
)
BASE = '[[trim]]\nname = "base"\nkind = "base"\nprofile = "base 120"\nloose = true\n'


def test_a_base_dies_into_the_plinth_blocks_of_its_door() -> None:
    plan = derive(brief_of(wall("back", 3000, DOOR) + BASE))
    (casing,) = derive_casings(plan.brief, Memo())
    assert isinstance(plan.trim, TrimPlan)
    left, right = plan.trim.pieces
    assert [b.thickness for b in casing.blocks] == [21, 21]
    assert (left.right.station, right.left.station) == (casing.blocks[0].x0, casing.blocks[1].x1)
    assert not [f for f in plan.trim.findings if f.kind == "trim thicker than casing"]


def test_trim_keeps_its_wishes_for_corners_and_ends() -> None:
    coped = BASE + 'inside = "cope"\nends = "square"\n'
    plan = derive(brief_of(wall("left", 1500) + wall("back", 3000) + coped))
    assert plan.trim is not None
    assert "cope" in {end.kind for p in plan.trim.pieces for end in (p.left, p.right)}
    assert (plan.trim.pieces[0].left.kind, plan.trim.pieces[-1].right.kind) == ("square", "square")


def test_a_gap_that_the_flats_stand_on_needs_no_base() -> None:
    floor = '[floor]\ncovering = "boards"\nthickness = 8\nexpansion_gap = 40\nwidth = 3000\ndepth = 2000\n'
    stops, under = (
        derive(brief_of(wall("back", 3000) + BASE + floor, more=f'stands_on = "{where}"'))
        for where in ("floor", "covering")
    )
    assert stops.trim is not None
    assert under.trim is not None
    assert "base does not cover the gap" in {f.kind for f in stops.trim.findings}
    assert "base does not cover the gap" not in {f.kind for f in under.trim.findings}


def test_openings_without_casing_give_none() -> None:
    bare = DOOR.replace('casing = "casing 57"\n', "").replace("plinth_blocks = true\n", "")
    assert derive_casings(brief_of(wall("back", 3000, bare)), Memo()) == ()


def test_the_two_free_ends_are_finished_as_wished() -> None:
    brief = brief_of(wall("left", 1500) + wall("back", 3000), more='left_end = "return"\nright_end = "cover strip"')
    left, right = derive_wall_ends(brief, Memo())
    assert (left.id, left.finish, left.at) == ("left/left end", "return", 0)
    assert (right.id, right.finish, right.at) == ("back/right end", "cover strip", 3000)
    assert brief.catalog.lumber[right.stock].system == "metric"


def test_proportions_count_from_the_finished_floor_and_take_in_casing() -> None:
    rail = '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 800\n'
    floor = '[floor]\ncovering = "boards"\nthickness = 8\nwidth = 3000\ndepth = 2000\n'
    brief = brief_of(wall("back", 3000, DOOR) + rail + floor)
    rows = derive_proportions(brief, derive_casings(brief, Memo()))
    assert [(r.line, r.measure) for r in rows] == [
        ("rail", "top edge to wall"),
        ("rail", "moulding to wall"),
        ("door", "moulding to wall"),
    ]
    assert rows[0].over == (800, 2392)
