"""What holds flats and walls together, and what keeps the set off the room's walls."""

from __future__ import annotations

import itertools
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from tests.unit.fixing.made_up import METRIC, RULES, fixed

from lathlight.app import brief_of_text
from lathlight.fixing import place_bumpers
from lathlight.fixing.joints import connector_places
from lathlight.layout import Layout, Pose
from lathlight.plan import derive
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Literal

    from lathlight.fixing import Bumper
    from lathlight.plan import Plan

GRID = LengthStyle.of("metric", None)
EXAMPLES = Path(__file__).parents[3] / "examples"
SAME = 1e-6


@pytest.mark.parametrize("joined", ["screws", "bolts", "connectors"])
def test_every_joint_and_corner_is_held_by_two_at_least_and_has_two_temporary_brackets(
    demo_plan: Plan, joined: Literal["screws", "bolts", "connectors"]
) -> None:
    plan = fixed(demo_plan, rules=replace(RULES, joints=joined))
    joints = [j for wall in demo_plan.walls for j in wall.joints]
    assert [j.joint for j in plan.joints] == [j.id for j in joints]
    assert [c.corner for c in plan.corners] == [c.id for c in demo_plan.corners]
    assert all(len(j.places) >= 2 and len(j.temporary) == 2 and j.hardware for j in plan.joints)
    assert all(len(c.heights) >= 2 and len(c.temporary) == 2 and c.hardware for c in plan.corners)
    brackets = next(h.number for h in plan.hardware if h.name == RULES.bracket.name)
    assert brackets == 2 * (len(plan.joints) + len(plan.corners))
    screws = sum(h.number for h in plan.hardware if h.use == "temporary brackets, four each")
    assert screws == 4 * brackets


def test_screws_of_a_joint_go_from_stud_to_stud_about_every_600_mm(demo_plan: Plan) -> None:
    members = {m.id: m for m in demo_plan.members}
    rows = {f.name: f for f in METRIC}
    for joint in fixed(demo_plan).joints:
        through, into = members[joint.through], members[joint.into]
        assert through.role == into.role == "end stud"
        assert through.x + through.wide == pytest.approx(into.x, abs=1.0)
        gaps = [b - a for a, b in itertools.pairwise(joint.places)]
        assert max(gaps) <= 660.0  # 600 mm, and what it takes to make way for a noggin
        assert joint.places[0] <= through.z + 200.0 + 38.0
        assert through.wide + 12.0 <= rows[joint.hardware or ""].length <= through.wide + into.wide - 2.0


def test_joint_screws_keep_clear_of_what_ends_at_the_stud(demo_plan: Plan) -> None:
    for joint in fixed(demo_plan).joints:
        for stud in (joint.through, joint.into):
            flat = next(f for f in demo_plan.flats if any(m.id == stud for m in f.members))
            own = next(m for m in flat.members if m.id == stud)
            noggins = [m for m in flat.members if m.role in ("noggin", "backing", "seam noggin")]
            ends = [m for m in noggins if min(abs(m.x - own.x - own.wide), abs(m.x + m.wide - own.x)) < 1.0]
            assert not [z for z in joint.places for m in ends if m.z < z < m.z + m.high]


def test_a_lapped_corners_own_screws_are_not_counted_twice(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("parlour")
    own = fixed(demo)
    assert all(c.by_carpentry for c in own.corners)
    assert not [h for h in own.hardware if h.use == "corners"]
    bolted = fixed(demo, rules=replace(RULES, joints="bolts"))
    assert not any(c.by_carpentry for c in bolted.corners)
    (count,) = [h for h in bolted.hardware if h.use == "corners"]
    assert count.number == sum(len(c.heights) for c in bolted.corners)
    assert count.what == "bolt"


def test_a_bolt_that_no_shop_has_long_enough_is_found(plan_of: Callable[[str], Plan]) -> None:
    short = tuple(f for f in METRIC if f.kind != "bolt" or f.length <= 80.0)
    plan = fixed(plan_of("corner-metric"), rules=replace(RULES, joints="bolts", fasteners=short))
    found = [f for f in plan.findings if f.kind == "joint fastener too short"]
    assert {f.place for f in found} >= {j.joint for j in plan.joints}
    assert all(f.found == 80.0 < f.limit for f in found)
    assert not fixed(plan_of("corner-metric"), rules=replace(RULES, joints="bolts")).findings


def test_two_connectors_an_eight_foot_joint_about_two_feet_from_its_ends() -> None:
    """Common practice, no source: two hidden locks per 8 ft edge, about 2 ft from each end, at least."""
    assert connector_places(0.0, 2440.0, GRID) == (600.0, 1840.0)
    assert connector_places(0.0, 1200.0, GRID) == (300.0, 900.0)
    assert len(connector_places(0.0, 3600.0, GRID)) == 3


def test_walls_of_two_storeys_at_a_wide_corner_are_held_through_the_wedge_and_clear_of_the_plates() -> None:
    text = (EXAMPLES / "parlour.toml").read_text(encoding="utf-8")
    for old, new in (
        ('height = "2.44 m"', 'height = "3.6 m"'),
        ("angle_to_next = 110", "angle_to_next = 150"),
        ('ceiling = "2.75 m"', 'ceiling = "4 m"'),
        ('max_width = "1.22 m"', 'max_width = "1.22 m"\nmax_height = "2 m"'),
    ):
        assert old in text
        text = text.replace(old, new)
    demo = derive(brief_of_text(text, name="two storeys"))
    plan = fixed(demo)
    assert all(c.wedge and not c.by_carpentry and c.hardware for c in plan.corners)
    assert {j.upright for j in plan.joints} == {True, False}
    levels = {f.z0 for f in demo.flats if f.z0 > 0.0}
    assert levels
    for corner in plan.corners:
        assert all(abs(z - level) > 38.0 for z in corner.heights for level in levels)
    members = {m.id: m for m in demo.members}
    for joint in (j for j in plan.joints if not j.upright):
        assert (members[joint.through].role, members[joint.into].role) == ("top plate", "bottom plate")
        assert len(joint.places) >= 2


# --- bumpers ---------------------------------------------------------------------------------------------------------


def bumpers_at(demo: Plan, away: float, *, pillars: tuple[tuple[tuple[float, float], ...], ...] = ()) -> list[Bumper]:
    """Return the bumpers of the one wall of the schoolhall set, its back so far from the room's wall [mm]."""
    wall = demo.walls[0]
    back = max(f.depth for f in wall.flats)
    layout = Layout(walls=demo.layout.walls, pose=Pose(x=0.0, y=0.0, turn=0.0))
    room = ((-9e3, -9e3), (9e3, -9e3), (9e3, back + away), (-9e3, back + away))
    return list(place_bumpers(demo.walls, layout, room=room, pillars=pillars))


def test_bumpers_stand_where_the_set_comes_nearer_than_300_mm_and_not_at_300(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("schoolhall")
    near = bumpers_at(demo, 299.0)
    assert len(near) == 2 * (len(demo.flats) + 1)  # two at both ends and at every joint
    assert {b.face for b in near} == {"back"}
    assert all(b.distance == pytest.approx(299.0, abs=0.01) and b.near == "room" for b in near)
    assert bumpers_at(demo, 300.001) == []


def test_two_flats_share_one_pad_where_they_meet(plan_of: Callable[[str], Plan]) -> None:
    spots = [(round(b.x), round(b.z)) for b in bumpers_at(plan_of("schoolhall"), 100.0)]
    assert len(set(spots)) == len(spots) == 8
    assert {x for x, _ in spots} == {0, 1219, 2438, 3658}


def test_a_pillar_behind_one_end_gets_its_two_bumpers_there(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("schoolhall")
    line, flat = demo.layout.walls[0], demo.walls[0].flats[-1]
    x, y = line.at(along=flat.sheet_x1, behind=flat.depth + 100.0)
    pillar = ((x, y), (x + 200.0, y), (x + 200.0, y + 200.0), (x, y + 200.0))
    found = bumpers_at(demo, 5000.0, pillars=(pillar,))
    assert [(b.flat, b.end, b.near) for b in found] == [(flat.id, "right", "pillar 1")] * 2
    assert found[0].z < found[1].z
    assert found[0].distance == pytest.approx(100.0)


def test_a_pillar_behind_the_middle_of_a_flat_is_not_missed(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("schoolhall")
    line, flat = demo.layout.walls[0], demo.walls[0].flats[1]
    middle = (flat.sheet_x0 + flat.sheet_x1) / 2
    x, y = line.at(along=middle, behind=flat.depth + 50.0)
    found = bumpers_at(demo, 5000.0, pillars=(((x, y), (x + 50.0, y + 300.0), (x - 50.0, y + 300.0)),))
    assert [(b.flat, b.end) for b in found] == [(flat.id, "between")] * 2
    assert found[0].x == pytest.approx(middle)


def test_a_set_close_to_a_side_wall_has_its_bumpers_on_the_flats_end(plan_of: Callable[[str], Plan]) -> None:
    demo = plan_of("schoolhall")
    line = demo.layout.walls[0]
    right = line.end[0] + 120.0
    layout = Layout(walls=demo.layout.walls, pose=Pose(x=0.0, y=0.0, turn=0.0))
    room = ((-9e3, -9e3), (right, -9e3), (right, 9e3), (-9e3, 9e3))
    found = place_bumpers(demo.walls, layout, room=room, pillars=())
    assert [(b.flat, b.end, b.face) for b in found] == [(demo.walls[0].flats[-1].id, "right", "end")] * 2
