"""Where the screws and pins of sheets sit, and which they are."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, Point, Polygon, box
from tests.unit.fixing.made_up import METRIC, RULES, fixed, level, mirrored, mirrored_strip, strips_on

from lathlight.fixing.lengths import fit_bolt, fit_fastener

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from typing import Literal

    from lathlight.carpentry import BuiltWall
    from lathlight.fixing import FixingPlan
    from lathlight.mouldings import Strip
    from lathlight.plan import Plan

Modes = pytest.mark.parametrize("mode", ["glue", "screws", "pins"])
SAME = 1e-6


@pytest.fixture
def strips(demo_plan: Plan) -> tuple[Strip, ...]:
    """Give base, picture rail and frames on every wall of a demo set."""
    return strips_on(demo_plan.walls)


def test_every_head_of_a_glued_sheet_lies_well_under_a_moulding(demo_plan: Plan, strips: tuple[Strip, ...]) -> None:
    by_id = {s.id: s for s in strips}
    heads = [h for s in fixed(demo_plan, *strips).sheets for h in s.heads]
    assert len(heads) > 5 * len(demo_plan.flats)
    for head in heads:
        strip = by_id[head.hidden_by or ""]
        x, z = head.at
        assert min(x - strip.x0, strip.x1 - x, z - strip.z0, strip.z1 - z) >= 5.0 - SAME


@Modes
def test_every_head_is_in_its_timber_and_clear_of_all_edges(
    demo_plan: Plan, strips: tuple[Strip, ...], mode: Literal["glue", "screws", "pins"]
) -> None:
    members = {m.id: m for m in demo_plan.members}
    pieces = {p.id: p for p in demo_plan.pieces}
    for sheet in fixed(demo_plan, *strips, rules=replace(RULES, sheets=mode)).sheets:
        piece = pieces[sheet.piece]
        face = Polygon(piece.outline, piece.holes)
        for head in sheet.heads:
            m, at = members[head.member], Point(head.at)
            assert face.contains(at)
            assert min(LinearRing(ring).distance(at) for ring in (piece.outline, *piece.holes)) >= 9.5 - SAME
            assert box(m.x, m.z, m.x + m.wide, m.z + m.high).exterior.distance(at) >= 8.0 - SAME
            assert box(m.x, m.z, m.x + m.wide, m.z + m.high).contains(at)


@Modes
def test_no_fastener_is_longer_than_what_it_enters(
    demo_plan: Plan, strips: tuple[Strip, ...], mode: Literal["glue", "screws", "pins"]
) -> None:
    members = {m.id: m for m in demo_plan.members}
    for head in fixed(demo_plan, *strips, rules=replace(RULES, sheets=mode)).heads:
        m = members[head.member]
        assert m.behind + 12.0 - SAME <= head.fastener.length <= m.behind + m.deep - 2.0 + SAME


@Modes
def test_two_heads_of_one_sheet_are_never_in_each_others_way(
    demo_plan: Plan, strips: tuple[Strip, ...], mode: Literal["glue", "screws", "pins"]
) -> None:
    for sheet in fixed(demo_plan, *strips, rules=replace(RULES, sheets=mode)).sheets:
        places = [h.at for h in sheet.heads]
        assert all(math.dist(a, b) >= 25.0 - SAME for a, b in itertools.combinations(places, 2))


def test_a_glued_sheet_without_mouldings_has_no_screw_and_a_bead_on_all_its_timber(demo_plan: Plan) -> None:
    plan = fixed(demo_plan)
    assert plan.heads == ()
    assert all(s.beads and s.bead_length > 1000.0 and s.clamping for s in plan.sheets)
    assert {s.piece for s in plan.sheets} == {p.id for p in demo_plan.pieces}


def test_a_screwed_sheet_has_no_glue_and_every_seen_head_is_counted_as_filled(
    demo_plan: Plan, strips: tuple[Strip, ...]
) -> None:
    plan = fixed(demo_plan, *strips, rules=replace(RULES, sheets="screws"))
    assert not any(s.beads or s.clamping for s in plan.sheets)
    seen = sum(len(s.seen) for s in plan.sheets)
    hidden = len(plan.heads) - seen
    assert seen > 0
    assert hidden > 0
    by_use = {h.use: 0 for h in plan.hardware}
    for count in plan.hardware:
        by_use[count.use] += count.number
    assert by_use["sheets, filled over"] == seen
    assert by_use["sheets, under mouldings"] == hidden


def test_screws_along_a_sheets_edge_are_never_further_apart_than_the_spacing(plan_of: Callable[[str], Plan]) -> None:
    plan = fixed(plan_of("corner-metric"), rules=replace(RULES, sheets="screws", screw_spacing=150.0))
    sheet = plan.sheets[0]
    edge = sorted(h.at[1] for h in sheet.heads if "end stud/left" in h.member)
    assert max(b - a for a, b in itertools.pairwise(edge)) <= 150.0 + SAME
    inner = sorted(h.at[1] for h in sheet.heads if "/stud/" in h.member)
    assert 150.0 < max(b - a for a, b in itertools.pairwise(inner)) <= 300.0 + SAME


def test_where_a_base_runs_along_the_bottom_plate_its_screws_keep_the_spacing(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("corner-metric")
    wall = demo.walls[0]
    plan = fixed(demo, level(wall.name, "base 120", bottom=0.0, x0=0.0, x1=wall.length))
    flat = wall.flats[0]
    row = sorted(h.at[0] for s in plan.sheets if s.flat == flat.id for h in s.heads if "bottom plate" in h.member)
    assert len(row) >= flat.width / 200.0
    assert max(b - a for a, b in itertools.pairwise(row)) <= 200.0 + SAME


def test_where_a_narrow_rail_crosses_a_stud_there_is_one_screw(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("corner-metric")
    wall = demo.walls[0]
    rail = level(wall.name, "picture rail 44", bottom=1200.0, x0=0.0, x1=wall.length)
    heads = fixed(demo, rail).heads
    studs = [m for f in wall.flats for m in f.members if m.upright and m.role != "wedge"]
    assert sorted(h.member for h in heads) == sorted(m.id for m in studs if m.role != "nailer")


def test_a_mirrored_wall_is_fixed_as_in_a_mirror(demo_plan: Plan) -> None:
    wall = demo_plan.walls[0]
    strips = strips_on((wall,))
    for mode in ("glue", "screws"):
        rules = replace(RULES, sheets=mode)
        there = fixed(demo_plan, *strips, rules=rules, walls=(wall,), corners=())
        back = fixed(
            demo_plan,
            *(mirrored_strip(s, wall.length) for s in strips),
            rules=rules,
            walls=(mirrored(wall),),
            corners=(),
        )
        assert len(there.heads) > 5
        assert same_places([h.at for h in there.heads], [h.at for h in back.heads], length=wall.length)
        assert Counter(h.fastener.name for h in there.heads) == Counter(h.fastener.name for h in back.heads)
        assert same_places(brads(there, wall), brads(back, wall), length=wall.length)


def same_places(there: Sequence[tuple[float, float]], back: Sequence[tuple[float, float]], *, length: float) -> bool:
    """Return True where every place has its mirror image within a hundredth of a millimetre."""
    return len(there) == len(back) and all(
        any(abs(length - x - a) < 0.01 and abs(z - b) < 0.01 for a, b in back) for x, z in there
    )


def brads(plan: FixingPlan, wall: BuiltWall) -> list[tuple[float, float]]:
    """Return the places of all brads but those in the wall's very middle: they make way to either side."""
    places = [b.at for s in plan.strips for b in s.brads]
    return [(x, z) for x, z in places if abs(x - wall.length / 2) > 11.0]


def test_a_sheet_that_no_screw_on_sale_fits_is_found_with_its_figures(plan_of: Callable[[str], Plan]) -> None:
    long_only = tuple(f for f in METRIC if f.kind != "screw" or f.length >= 80.0)
    plan = fixed(plan_of("corner-metric"), rules=replace(RULES, sheets="screws", fasteners=long_only))
    found = [f for f in plan.findings if f.kind == "fastener through the timber"]
    assert found
    assert all(f.found == 80.0 and f.limit == 9.0 + 38.0 - 2.0 for f in found)
    assert {f.place for f in plan.findings if f.kind == "sheet held by nothing"} == {s.piece for s in plan.sheets}
    assert not [f for f in fixed(plan_of("corner-metric")).findings if "sheet" in f.kind]


def test_a_sheets_screw_goes_twice_as_deep_as_the_sheet_is_thick_where_it_can() -> None:
    assert named(through=9.0, timber=38.0) == "screw 3.5x30"  # common practice, no source
    assert named(through=12.0, timber=38.0) == "screw 4x40"
    assert named(through=12.0, timber=19.0) == "screw 3.5x25"  # the longest that stays inside 29 mm
    assert named(through=25.0, timber=12.0) is None


def named(*, through: float, timber: float) -> str | None:
    """Return the name of the screw that fits."""
    fit = fit_fastener(METRIC, kinds=("screw",), through=through, timber=timber)
    return fit.fastener.name if fit.fastener else None


@given(through=st.floats(3.0, 40.0), timber=st.floats(5.0, 90.0))
def test_what_fits_holds_and_stays_inside(through: float, timber: float) -> None:
    fit = fit_fastener(METRIC, kinds=("pin", "brad", "screw"), through=through, timber=timber)
    holding = [f for f in METRIC if f.kind in ("pin", "brad", "screw") and f.length >= through + 12.0 + SAME]
    if fit.fastener is None:
        assert all(f.length > through + timber - 2.0 - SAME for f in holding)
    else:
        assert through + 12.0 - SAME <= fit.fastener.length <= through + timber - 2.0 + SAME


def test_a_bolt_leaves_room_for_its_nut() -> None:
    bolts = [f for f in METRIC if f.kind == "bolt"]
    chosen = fit_bolt(METRIC, timber=76.0).fastener
    assert chosen is not None
    assert chosen.length == min(b.length for b in bolts if b.length >= 88.0)
    assert fit_bolt(METRIC, timber=200.0).fastener is None
