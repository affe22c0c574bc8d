"""Elevations show the plan's own lengths, and never let the reader think that standing was checked."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import accumulate, pairwise

import pytest
from tests.unit.drawings.looks import chain_stops, covered_words
from tests.unit.drawings.made_up import Hole, WallWish, bay_wish, corner_wish, make_plan
from tests.unit.drawings.moulded import moulded_plan
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.carpentry import Seam
from lathlight.drawings.cautions import STANDING, STANDING_CAUTION
from lathlight.drawings.elevation import strip_view, wall_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Chain, Line, Path, Pen, Tone
from lathlight.drawings.text import boxes_overlap
from lathlight.plan import Plan
from lathlight.working import Working


@pytest.fixture(scope="module")
def bay() -> Plan:
    return make_plan(bay_wish())


def _strip(plan: Plan, scale: float = 25.0):
    return strip_view(plan, [wall.name for wall in plan.walls], scale=scale)


def test_the_strip_measures_every_wall_at_its_finished_length(bay: Plan) -> None:
    corners = (0.0, *accumulate(wall.length for wall in bay.walls))
    assert corners in chain_stops(_strip(bay))
    assert (0.0, corners[-1]) in chain_stops(_strip(bay))


def test_faces_stand_side_by_side_at_their_own_height() -> None:
    plan = make_plan(
        corner_wish(walls=(WallWish(name="tall", length=1500), WallWish(name="low", length=900, height=2000)))
    )
    boxes = [bounds_of(item.points) for item in _strip(plan).items if isinstance(item, Path) and item.fill is None]
    assert boxes[:2] == [(0.0, 0.0, 1500.0, 2400.0), (1500.0, 0.0, 2400.0, 2000.0)]


def test_every_inside_angle_is_noted(bay: Plan) -> None:
    words = [text.words for text in texts_of(_strip(bay).items)]
    assert words.count("inside 110°") == 2


def test_trim_is_struck_through_where_two_of_its_pieces_are_joined(plan_of) -> None:
    plan = replace(plan_of("parlour"), trim=made_up_trim())
    scarfs = {(p.end, p.bottom, p.top) for p in plan.trim.pieces if p.wall == "back" and p.right.kind == "scarf"}
    assert scarfs
    bare, drawn = (
        {(i.a[0], i.a[1], i.b[1]) for i in wall_view(each, "back", scale=25).items if isinstance(i, Line)}
        for each in (replace(plan, trim=None), plan)
    )
    assert drawn - bare == scarfs


def test_a_joint_is_solid_and_a_seam_that_stays_is_dashed(bay: Plan) -> None:
    back = bay.walls[1]
    joints = {joint.at for joint in back.joints}
    kept = {seam.at for seam in back.seams if seam.upright} - joints
    assert joints
    assert kept
    lines = [item for item in wall_view(bay, "back", scale=25).items if isinstance(item, Line)]
    upright = {(line.a[0], line.pen) for line in lines if line.a[0] == line.b[0]}
    assert {(at, Pen.OUTLINE) for at in joints} <= upright
    assert {(at, Pen.SEAM) for at in kept} <= upright


def test_a_seam_is_not_drawn_across_an_opening() -> None:
    wide = Hole(name="wide window", kind="window", left=300, width=2400, height=800, sill=1000)
    plan = make_plan(corner_wish(walls=(WallWish(name="w", length=3000, holes=(wide,)),), angles=()))
    under = [seam.at for seam in plan.walls[0].seams if seam.upright and 300 < seam.at < 2700]
    assert under  # a sheet is narrower than this window
    stretches = [
        sorted((line.a[1], line.b[1]))
        for line in wall_view(plan, "w", scale=25).items
        if isinstance(line, Line) and line.pen in (Pen.SEAM, Pen.OUTLINE) and line.a[0] == line.b[0] == under[0]
    ]
    assert sorted(stretches) == [[0.0, 1000.0], [1800.0, 2400.0]]


WINDOW = Hole(name="window", kind="window", left=900, width=1200, height=800, sill=1000)


def test_a_wall_alone_shows_where_its_openings_are_and_how_high() -> None:
    plan = make_plan(corner_wish(walls=(WallWish(name="w", length=3000, holes=(WINDOW,)),), angles=()))
    stops = chain_stops(wall_view(plan, "w", scale=25))
    assert (0.0, 900.0, 2100.0, 3000.0) in stops
    assert (0.0, 1000.0, 1800.0, 2400.0) in stops


def test_an_opening_carries_its_name_and_clear_size() -> None:
    plan = make_plan(corner_wish(walls=(WallWish(name="w", length=3000, holes=(WINDOW,)),), angles=()))
    words = [text.words for text in texts_of(wall_view(plan, "w", scale=25).items)]
    assert {"window", "1200 × 800 clear", "sill at 1000"} <= set(words)


def test_an_arch_is_drawn_round_with_its_crown_at_the_clear_height(bay: Plan) -> None:
    view = wall_view(bay, "right return", scale=25)
    ring = max((item for item in view.items if isinstance(item, Path)), key=lambda path: len(path.points)).points
    assert max(z for _, z in ring) == pytest.approx(1900)
    springing = [(x, z) for x, z in ring if z > 1]
    assert min(z for _, z in springing) == pytest.approx(1700)
    # second opinion: chord and sagitta give the radius
    radius = (300**2 + 200**2) / (2 * 200)
    assert all(math.dist((x, z), (600, 1900 - radius)) == pytest.approx(radius) for x, z in springing)


def test_trim_lines_are_measured_from_the_finished_floor(bay: Plan) -> None:
    assert (0.0, 880.0, 930.0, 2400.0) in chain_stops(_strip(bay))


def test_trim_stops_at_a_door() -> None:
    plan = make_plan(corner_wish())
    boxes = [bounds_of(item.points) for item in wall_view(plan, "left", scale=25).items if isinstance(item, Path)]
    rails = [(x0, x1) for x0, z0, x1, z1 in boxes if (z0, z1) == (880.0, 930.0)]
    assert (min(rails)[0], max(rails)[1]) == (0.0, 2200.0)
    assert {x for rail in rails for x in rail} >= {1400.0, 2000.0}
    assert not any(x0 < 2000.0 and x1 > 1400.0 for x0, x1 in rails)


def test_heights_count_from_the_finished_floor_and_the_foot_of_the_flats_is_measured() -> None:
    plan = moulded_plan()
    rise = plan.brief.floor.rise
    view = wall_view(plan, "back", scale=25)
    upright = [item for item in view.items if isinstance(item, Chain) and item.angle > 0]
    assert {chain.origin[1] for chain in upright} == {rise}
    assert any(chain.stops == (-rise, round(2438.4 - rise)) for chain in upright)
    trim = {round(z - rise, 6) for line in plan.brief.walls[1].trim for z in (line.bottom, line.top)}
    assert any(all(min(abs(z - stop) for stop in chain.stops) <= 0.5 for z in trim) for chain in upright)
    words = [text.words for text in texts_of(view.items)]
    assert {"sill at 1067", "flats 8 lower"} <= set(words)
    (floor,) = [item for item in view.items if isinstance(item, Line) and item.pen is Pen.PHANTOM]
    assert floor.a[1] == floor.b[1] == rise


def test_a_door_is_as_high_as_it_is_clear_over_the_finished_floor() -> None:
    plan = moulded_plan()
    level = make_plan(corner_wish())
    raised = replace(level, brief=replace(level.brief, floor=plan.brief.floor))
    before, after = (
        {text.words for text in texts_of(wall_view(each, "left", scale=25).items)} for each in (level, raised)
    )
    assert "600 × 1950 clear" in before
    assert "600 × 1942 clear" in after


def test_mouldings_cover_the_seams_behind_them() -> None:
    items = wall_view(moulded_plan(), "back", scale=25).items
    seams = [k for k, item in enumerate(items) if isinstance(item, Line) and item.pen in (Pen.SEAM, Pen.OUTLINE)]
    first = next(k for k, item in enumerate(items) if isinstance(item, Path) and item.fill is Tone.WHITE)
    assert min(seams) < first


def test_every_tier_and_trim_line_is_named_once() -> None:
    plan = moulded_plan()
    words = [text.words for text in texts_of(strip_view(plan, [w.name for w in plan.walls], scale=25).items)]
    for name in ("base", "rail", "cornice", "low", "high"):
        assert words.count(name) == 1


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("scale", [16.0, 25.0, 50.0])
def test_words_on_a_set_full_of_mouldings_do_not_cover_each_other(system: str, scale: float) -> None:
    plan = moulded_plan(system)
    assert not covered_words(strip_view(plan, [wall.name for wall in plan.walls], scale=scale))
    for wall in plan.walls:
        assert not covered_words(wall_view(plan, wall.name, scale=scale))


@pytest.mark.parametrize("wall", [None, "left return", "back", "right return"])
def test_every_elevation_says_that_standing_was_not_checked(bay: Plan, wall: str | None) -> None:
    view = _strip(bay) if wall is None else wall_view(bay, wall, scale=25)
    words = [text.words for text in texts_of(view.items)]
    assert STANDING in words
    assert STANDING_CAUTION in " ".join(words)


def test_chains_add_up_to_the_whole(bay: Plan) -> None:
    chains = [item for item in _strip(bay).items if isinstance(item, Chain) and item.angle == 0]
    sums = {sum(int(label.words) for label in chain.labels) for chain in chains}
    assert sums == {round(sum(wall.length for wall in bay.walls))}


@pytest.mark.parametrize("scale", [20.0, 25.0, 50.0])
def test_words_do_not_cover_each_other(bay: Plan, scale: float) -> None:
    assert not covered_words(_strip(bay, scale))
    for wall in bay.walls:
        assert not covered_words(wall_view(bay, wall.name, scale=scale))


def test_stops_of_a_chain_run_upwards(bay: Plan) -> None:
    assert all(a < b for stops in chain_stops(_strip(bay)) for a, b in pairwise(stops))


@pytest.mark.parametrize(("at", "upright"), [(450.0, True), (600.0, True), (1800.0, False)])
def test_a_seam_over_an_arch_ends_at_the_curve(bay: Plan, at: float, upright: bool) -> None:
    wall = bay.walls[2]
    x, z, w, h = wall.flats[0].openings[0].rough  # 600 wide, rise 200: radius 325
    centre = z + h - 325.0
    low, high = (z + h, wall.height) if upright else (x + w, wall.length)
    seam = Seam(
        id="made up",
        wall=wall.name,
        upright=upright,
        at=at,
        low=low,
        high=high,
        parts=False,
        covered_by=None,
        why=Working(formula="made up for a test"),
    )
    walls = (*bay.walls[:2], replace(wall, seams=(seam,)))
    view = wall_view(replace(bay, walls=walls), wall.name, scale=20)
    (line,) = [item for item in view.items if isinstance(item, Line) and item.pen is Pen.SEAM]
    assert math.dist(line.a, (x + w / 2, centre)) == pytest.approx(325.0)
    assert line.b == ((at, high) if upright else (high, at))


def test_names_keep_a_little_apart_where_there_is_room(plan_of) -> None:
    plan = plan_of("parlour")
    view = strip_view(plan, [wall.name for wall in plan.walls], scale=50)
    names = {line.name for wall in plan.brief.walls for line in wall.trim}
    names |= {flat.mark for flat in plan.flats}
    texts = [text for text in texts_of(view.items) if text.words in names or text.words.startswith("joint ")]
    assert len(texts) > len(plan.flats)
    close = [
        (a.words, b.words)
        for k, a in enumerate(texts)
        for b in texts[k + 1 :]
        if boxes_overlap(a.box, b.box, slack=-0.5 * view.scale)
    ]
    assert not close
