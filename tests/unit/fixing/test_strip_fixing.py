"""How mouldings are held."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.unit.fixing.made_up import CATALOG, METRIC, RULES, fixed, level, strips_on

from lathlight.fixing.strip_lines import fix_lines, foot_of, hollow_depth

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.plan import Plan

SAME = 1e-6


@pytest.fixture
def corner(plan_of: Callable[[str], Plan]) -> Plan:
    """Give the corner set."""
    return plan_of("corner-metric")


def test_no_brad_is_longer_than_what_it_enters(demo_plan: Plan) -> None:
    members = {m.id: m for m in demo_plan.members}
    flats = {m.id: f for f in demo_plan.flats for m in f.members}
    skin = demo_plan.flats[0].sheet.thickness
    strips = {s.id: s for s in strips_on(demo_plan.walls)}
    shot = [b for s in fixed(demo_plan, *strips.values()).strips for b in s.shot]
    assert shot
    for brad in shot:
        thick = max(line.thickness for line in fix_lines(strips[brad.run]))
        deep = 0.0 if brad.timber is None else members[brad.timber].deep
        assert brad.choice.fastener is not None
        assert brad.choice.fastener.length <= thick + skin + deep - 2.0 + SAME
        if brad.timber is not None:
            m = members[brad.timber]
            assert flats[m.id].sheet.thickness == skin
            assert m.x + 8.0 - SAME <= brad.at[0] <= m.x + m.wide - 8.0 + SAME


def test_brads_keep_the_spacing_and_stay_clear_of_the_screws_underneath(demo_plan: Plan) -> None:
    plan = fixed(demo_plan, *strips_on(demo_plan.walls))
    heads: dict[str, list[tuple[float, float]]] = {}
    for head in plan.heads:
        heads.setdefault(head.hidden_by or "", []).append(head.at)
    compared = 0
    for strip in plan.strips:
        for brad in strip.brads:
            for at in heads.get(strip.strip, []):
                compared += 1
                assert math.dist(brad.at, at) >= 10.0 - SAME
        rows: dict[float, list[float]] = {}
        upright = strip.strip.endswith(("left", "right"))
        for brad in strip.brads:
            across, along = brad.at if upright else (brad.at[1], brad.at[0])
            rows.setdefault(round(across, 3), []).append(along)
        for row in rows.values():  # a brad that makes way for a screw moves by 10.5 mm
            assert max((b - a for a, b in itertools.pairwise(sorted(row))), default=0.0) <= 300.0 + 21.0 + SAME
    assert compared > 100


def test_a_rail_has_a_brad_in_every_stud_that_it_crosses(corner: Plan) -> None:
    wall = corner.walls[0]
    rail = level(wall.name, "picture rail 44", bottom=1200.0, x0=0.0, x1=wall.length)
    (one,) = fixed(corner, rail).strips
    held = {b.timber for b in one.shot}
    studs = {m.id for f in wall.flats for m in f.members if m.role in ("stud", "seam stud")}
    assert studs
    assert studs <= held


def test_a_moulding_that_stays_is_glued_and_its_glue_named_with_its_hours(corner: Plan) -> None:
    wall = corner.walls[0]
    broad = level(wall.name, "base 120", bottom=0.0, x0=0.0, x1=1000.0)
    narrow = level(wall.name, "picture rail 44", bottom=1200.0, x0=0.0, x1=1000.0)
    plan = fixed(corner, broad, narrow)
    assert [s.glue for s in plan.strips] == [2000.0, 1000.0]
    assert {(s.held, s.hours) for s in plan.strips} == {("brads", RULES.moulding_glue.clamp_hours)}
    glue = next(g for g in plan.glues if g.adhesive == RULES.moulding_glue)
    assert glue.length == 3000.0


def test_a_piece_that_comes_off_is_screwed_to_timber_without_glue_or_brads(demo_plan: Plan) -> None:
    members = {m.id: m for m in demo_plan.members}
    plan = fixed(demo_plan, *strips_on(demo_plan.walls, loose=True))
    loose = [s for s in plan.strips if s.belongs_to != "panels"]
    assert all(s.held == "screws that come out" and not s.brads and s.glue == 0.0 for s in loose)
    for screw in (h for s in loose for h in s.screws):
        m = members[screw.member]
        assert m.x + 8.0 - SAME <= screw.at[0] <= m.x + m.wide - 8.0 + SAME
        assert screw.fastener.length <= 20.0 + m.behind + m.deep - 2.0  # no moulding here is thicker than 20 mm
    number = sum(c.number for c in plan.hardware if c.use == "mouldings that come off")
    assert number == sum(len(s.screws) for s in loose)


def test_where_every_brad_would_come_out_of_the_skin_the_glue_holds_alone(corner: Plan) -> None:
    wall = corner.walls[0]
    long_only = tuple(f for f in METRIC if f.kind not in ("brad", "pin") or f.length >= 40.0)
    studs = [m for f in wall.flats for m in f.members if m.upright]
    clear = studs[0].x + studs[0].wide + 20.0
    rail = level(wall.name, "picture rail 44", bottom=1200.0, x0=clear, x1=clear + 200.0)
    plan = fixed(corner, rail, rules=replace(RULES, fasteners=long_only))
    (one,) = plan.strips
    assert one.held == "glue, taped until it sets"
    assert one.shot == ()
    (found,) = [f for f in plan.findings if f.kind == "brad through the skin"]
    assert found.found >= 40.0 > found.limit
    assert (found.place, found.number) == (rail.belongs_to, 1)
    crossing = replace(rail, x0=0.0, x1=wall.length)
    (same,) = fixed(corner, crossing).strips
    assert same.held == "brads"
    assert {b.timber for b in same.shot} == {b.timber for b in same.brads} - {None}


def test_a_panel_moulding_on_a_thin_skin_takes_a_pin_that_stops_inside(plan_of: Callable[[str], Plan]) -> None:
    """12 mm of moulding and 9 mm of plywood leave room for a pin of 18 or 19 mm and no other."""
    plan = plan_of("parlour")
    frames = {s.id: s for s in plan.strips if s.use == "moulding frame"}
    on_skin = [b for s in plan.fixing.strips if s.strip in frames for b in s.brads if b.timber is None]
    assert on_skin
    assert {b.choice.fastener and b.choice.fastener.name for b in on_skin} == {"pin 23 ga 18 mm"}
    assert all(s.held == "brads" for s in plan.fixing.strips if s.strip in frames)


def test_a_cornice_whose_strip_is_screwed_to_the_plate_is_not_called_loose(corner: Plan) -> None:
    """The foot of a low cornice lies where the studs end against the plate; its strip holds in the plate itself."""
    wall = corner.walls[0]
    cornice = level(wall.name, "cornice 67 at 45", bottom=wall.height - 47.38, x0=0.0, x1=wall.length)
    plan = fixed(corner, cornice)
    (one,) = plan.strips
    assert len(one.screws) >= 2
    assert "no timber under the trim" not in [f.kind for f in plan.findings]


def test_a_loose_base_whose_lower_line_misses_plate_and_studs_is_screwed_along_the_upper_one(corner: Plan) -> None:
    """On a floor of 10 mm the lower line of a 95 mm base runs at 34 mm: past the plate's, below the studs' edge."""
    wall = corner.walls[0]
    base = level(wall.name, "base 95", bottom=10.0, x0=0.0, x1=wall.length, loose=True)
    plan = fixed(corner, base)
    (one,) = plan.strips
    uprights = [m for f in wall.flats for m in f.members if m.upright and m.role != "wedge"]
    assert len(one.screws) >= len(wall.flats) * 2
    assert {h.member for h in one.screws} <= {m.id for m in uprights}
    assert plan.findings == ()


def test_a_screw_that_makes_room_for_another_stays_in_its_timber(corner: Plan) -> None:
    """With sheets screwed all round, a loose base's screws step aside of the sheets' but not out of the stud."""
    wall = corner.walls[0]
    members = {m.id: m for f in wall.flats for m in f.members}
    for bottom in range(16):
        for x0 in (0.0, 7.0, 15.0):
            base = level(wall.name, "base 95", bottom=float(bottom), x0=x0, x1=wall.length - x0, loose=True)
            (one,) = fixed(corner, base, rules=replace(RULES, sheets="screws")).strips
            for screw in one.screws:
                m = members[screw.member]
                assert m.x + 8 - 1e-6 <= screw.at[0] <= m.x + m.wide - 8 + 1e-6


def test_a_screw_through_a_moulding_is_as_thin_as_one_would_take(corner: Plan) -> None:
    """19 mm of rail and the sheet behind it: a 4 mm screw with at least 25 mm in the stud, not one of 80 mm."""
    wall = corner.walls[0]
    rail = level(wall.name, "picture rail 44", bottom=1200.0, x0=0.0, x1=wall.length, loose=True)
    (one,) = fixed(corner, rail).strips
    assert one.screws
    for screw in (h.fastener for h in one.screws):
        assert screw.diameter <= 4.0
        assert 25.0 <= screw.length - 16.15 - wall.flats[0].sheet.thickness < 40.0


def test_a_loose_cornice_is_screwed_into_its_strip_and_the_strip_to_the_wall(corner: Plan) -> None:
    wall = corner.walls[0]
    cornice = level(wall.name, "cornice 92 at 38", bottom=wall.height - 72.5, x0=0.0, x1=wall.length, loose=True)
    (one,) = fixed(corner, cornice).strips
    into_strip = [h for h in one.screws if h.member == f"{cornice.id}/strip"]
    strips_own = [h for h in one.screws if h.hidden_by == cornice.id]
    _, middle = fix_lines(cornice)
    assert len(into_strip) >= 2
    assert all(h.fastener.length <= middle.thickness + middle.hollow - 2.0 for h in into_strip)
    assert len(strips_own) >= 2
    assert one.glue == 0.0


def test_a_loose_rail_without_timber_behind_it_is_found(corner: Plan) -> None:
    wall = corner.walls[0]
    studs = [m for f in wall.flats for m in f.members if m.upright]
    clear = studs[0].x + studs[0].wide + 5.0
    short = level(wall.name, "picture rail 44", bottom=1200.0, x0=clear, x1=clear + 400.0, loose=True)
    kinds = [f.kind for f in fixed(corner, short).findings]
    assert kinds == ["no timber under the trim"]
    whole = replace(short, x0=0.0, x1=wall.length)
    assert fixed(corner, whole).findings == ()


def test_a_cornice_is_held_through_its_foot_and_into_the_strip_behind_it(corner: Plan) -> None:
    wall = corner.walls[0]
    cornice = level(wall.name, "cornice 92 at 38", bottom=wall.height - 72.5, x0=0.0, x1=wall.length)
    foot, top = fix_lines(cornice)
    assert foot.into == "wall"
    assert wall.height - 72.5 < foot.at < wall.height - 72.5 + 9.88
    assert top.into == "strip"
    (one,) = fixed(corner, cornice).strips
    into_strip = [b for b in one.brads if b.timber == f"{cornice.id}/strip"]
    assert into_strip
    assert all(b.choice.longest == pytest.approx(top.thickness + top.hollow - 2.0) for b in into_strip)
    assert one.screws
    assert all(h.hidden_by == cornice.id for h in one.screws)


def test_the_hollow_behind_a_cornice_is_as_deep_as_the_wall_or_its_top_allows() -> None:
    """Second opinion: the length of the normal from the middle of the triangle's slope to its legs."""
    from shapely import LineString, Point

    profile = CATALOG.profiles["cornice 92 at 38"]
    assert profile.spring is not None
    high = 72.5 - foot_of(profile)
    wide = high * math.tan(profile.spring)
    middle = (wide / 2, high / 2)
    far = (middle[0] - 200 * math.cos(profile.spring), middle[1] + 200 * math.sin(profile.spring))
    legs = LineString([(0.0, 0.0), (0.0, high), (wide, high)])
    meets = legs.intersection(LineString([middle, far]))
    assert hollow_depth(high, profile.spring) == pytest.approx(Point(middle).distance(meets))


def test_a_wall_ends_cover_is_fixed_into_the_end_stud(corner: Plan) -> None:
    wall = corner.walls[0]
    rail = level(wall.name, "picture rail 44", bottom=0.0, x0=-6.0, x1=0.0)
    cover = replace(
        rail,
        id=f"{wall.name}/left end",
        use="wall end",
        kind="cover strip",
        belongs_to="left end",
        profile=None,
        upright=True,
        z1=wall.height,
        stands_out=0.0,
    )
    plan = fixed(corner, cover)
    (one,) = plan.strips
    assert {b.timber for b in one.shot} >= {f"{wall.flats[0].id}/end stud/left"}
    assert all(b.choice.fastener is not None and b.choice.fastener.length <= 6.0 + 38.0 - 2.0 for b in one.shot)
    painted = replace(cover, x0=0.0)
    (bare,) = fixed(corner, painted).strips
    assert (bare.held, bare.glue, bare.brads) == ("nothing", 0.0, ())
