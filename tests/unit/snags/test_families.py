"""What the checks do beside their limits: other severities, places, reasons to keep quiet."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.unit.snags.cases import door_flat, hung, limited, many, own_rows, screwed
from tests.unit.snags.made_up import (
    DOOR,
    PICTURE,
    SHEET,
    SIDE,
    SITTER,
    WALL,
    block,
    corner,
    flat,
    found,
    plan,
    renamed,
    room,
    seam,
    stage,
    wall_of,
    wedge,
)

from lathlight.catalog import Catalog
from lathlight.layout import Pose
from lathlight.project import team_lift
from lathlight.snags import Severity, find_snags

if TYPE_CHECKING:
    from lathlight.plan import Plan

SECOND = flat("2", x0=1220, x1=2440)


def seen(at: float, *, high: float = 2400, low: float = 0, angles: tuple[float, float] = (0.0, 0.0)) -> Plan:
    """A picture with an upright seam at this place along the wall."""
    picture = replace(PICTURE, angles=angles)
    return plan(replace(WALL, seams=(seam(at, low=low, high=high),)), pictures=(picture,), sitters=(SITTER,))


def test_the_demo_sets_have_no_two_snags_of_one_id_and_the_worst_first(demo_plan: Plan) -> None:
    snags = find_snags(demo_plan)
    assert len({s.id for s in snags}) == len(snags)
    assert [s.severity for s in snags] == sorted(s.severity for s in snags)
    assert all(math.isfinite(s.figure) and math.isfinite(s.limit) for s in snags)


def test_a_seam_above_the_head_is_not_behind_it() -> None:
    assert found("seam-on-axis", seen(1220)) != ()
    # the camera is lower than the crown: what shows just above it lies higher up on the wall
    edge = 1500 + (1800 - 1500) * 3410 / 2210
    assert found("seam-on-axis", seen(1220, low=edge + 1)) == ()
    assert found("seam-on-axis", seen(1220, low=edge - 1)) != ()


def test_a_camera_to_the_right_sees_the_wall_to_the_left_behind_the_head() -> None:
    angle = math.radians(20)
    behind = 1220 - 1200 * math.tan(angle)
    (snag,) = found("seam-on-axis", seen(behind, angles=(angle, angle)))
    assert snag.figure == pytest.approx(0, abs=1e-9)
    assert found("seam-on-axis", seen(1220, angles=(angle, angle))) == ()


def test_a_family_of_angles_is_looked_at_from_both_ends_and_its_middle() -> None:
    ends = (math.radians(-30), math.radians(30))
    for angle in (ends[0], 0.0, ends[1]):
        assert found("seam-on-axis", seen(1220 - 1200 * math.tan(angle), angles=ends)) != ()


def test_a_sitter_without_a_picture_is_looked_at_along_the_axis() -> None:
    alone = plan(sitters=(SITTER,))  # the set's one seam lies on its axis
    (snag,) = found("seam-on-axis", alone)
    assert snag.what.startswith("On the axis past potter,")
    assert snag.figure == 0


def test_a_seam_on_a_wall_that_turns_its_back_is_not_seen() -> None:
    away = plan(sitters=(replace(SITTER, forward=-1000),))  # the sitter stands behind the wall
    assert found("seam-on-axis", away) == ()


def test_a_flat_built_in_the_room_costs_money_and_stops_nothing() -> None:
    narrow = room(way_in=(stage("door", wide=60, high=1000),))
    (out, _) = found("passes-no-door", plan(room=narrow))
    assert out.severity is Severity.STOPS
    built = wall_of(flat("1", built_in_room=True), SECOND)
    (_, inside) = found("passes-no-door", plan(built, room=narrow))  # worst first
    assert inside.severity is Severity.COSTS
    assert "built in the room" in inside.what


def test_a_flat_that_passes_no_door_is_not_said_to_lean_through_another() -> None:
    stages = (stage("door", wide=500, high=1234), replace(stage("door", wide=60), name="hatch"))
    made = plan(room=room(way_in=stages))
    assert found("leans-through-door", made) == ()
    assert found("passes-no-door", made)[0].what.startswith("Flat back/1 does not pass hatch")


def test_flats_may_lean_in_a_vehicle() -> None:
    van = stage("vehicle", wide=1000, high=1000, length=3000)
    made = plan(room=room(way_in=(van,)))
    assert "leaning" in made.passages[0].stages[0].how
    assert found("leans-through-door", made) == ()


def test_a_set_right_in_front_of_a_door_stops_the_job() -> None:
    (far,) = found("exit-narrowed", plan(pose=Pose(x=2400, y=1000, turn=0.0)))
    assert far.severity is Severity.KNOW
    (near,) = found("exit-narrowed", plan(pose=Pose(x=2400, y=700, turn=0.0)))
    assert near.severity is Severity.STOPS


def test_a_door_far_from_the_set_is_left_alone() -> None:
    assert found("exit-narrowed", plan(room=room(doors=(DOOR,)))) == ()


def test_a_wall_that_leans_on_its_neighbours_screws_needs_no_room_behind() -> None:
    left = replace(renamed(WALL, "left"), right=replace(WALL.right, kind="lap"), joints=())
    near = Pose(x=2400, y=4100, turn=0.0)
    assert found("no-access-behind", plan(left, pose=near)) == ()
    assert found("no-access-behind", plan(replace(left, right=WALL.right), pose=near)) != ()


def test_a_pillar_behind_a_wall_takes_its_room_too() -> None:
    (snag,) = found("no-access-behind", plan(room=room(pillars=(block(1000, 3900, 1300, 4200),))))
    assert snag.figure == pytest.approx(228)


def test_a_limit_that_was_assumed_is_not_the_users() -> None:
    assert found("flat-over-limit", limited(1219)) != ()
    assert found("flat-over-limit", limited(1219, assumed=True)) == ()


@pytest.mark.parametrize(("people", "kg"), [(1, 20.0), (2, 26.7), (3, 30.0), (4, 30.0), (9, 30.0)])
def test_a_team_lifts_less_than_the_sum_of_its_people(people: int, kg: float) -> None:
    assert team_lift(people=people, each=20) == pytest.approx(kg, abs=0.04)


@pytest.mark.parametrize(("length", "word"), [(57, "at least 58"), (99, "at most 98")])
def test_corner_screws_may_be_too_short_or_too_long(length: float, word: str) -> None:
    (snag,) = found("corner-screw-length", screwed(length))
    assert word in snag.what


def test_a_return_holds_a_long_wall_and_a_slight_bend_does_not() -> None:
    long = replace(WALL, length=6000)
    assert found("long-wall-no-return", plan(long, SIDE, corners=(corner(degrees=135),))) == ()
    assert found("long-wall-no-return", plan(long, SIDE, corners=(corner(degrees=136),))) != ()


def test_a_sharp_wedge_is_past_the_saw_where_even_half_its_angle_is() -> None:
    def corner_of(degrees: float) -> Plan:
        return plan(WALL, SIDE, corners=(corner(style="mitre", screws=None, wedge=wedge(degrees)),))

    assert found("bevel-past-saw", corner_of(90)) == ()
    (snag,) = found("bevel-past-saw", corner_of(92))
    assert snag.place == "back|side/wedge"


def test_sheets_of_two_thicknesses_in_one_wall_meet_with_a_lip() -> None:
    thicker = replace(SECOND.pieces[0], sheet=replace(SHEET, thickness=9.5))
    (snag,) = found("sheets-differ-flush", plan(wall_of(flat("1"), replace(SECOND, pieces=(thicker,)))))
    assert (snag.place, snag.figure) == ("back", pytest.approx(0.5))


def test_a_nominal_sheet_thickness_is_noticed_too() -> None:
    shop = replace(SHEET, name="ply 3-4 in", nominal="3/4 in", thickness=18.26)
    typed = replace(SHEET, name="my ply", nominal="", thickness=19.05)
    made = plan(
        catalog=Catalog(sheets={s.name: s for s in (SHEET, shop, typed)}),
        project=own_rows(sheets=[{"name": "my ply"}]),
    )
    (snag,) = found("nominal-as-actual", made)
    assert (snag.place, snag.figure, snag.limit) == ("my ply", 19.05, 18.26)


def test_the_catalogues_own_rows_are_not_doubted() -> None:
    typed = replace(SHEET, name="my ply", nominal="", thickness=19.05)
    assert found("nominal-as-actual", plan(catalog=Catalog(sheets={"my ply": typed}))) == ()


def test_flats_on_top_of_each_other_do_not_add_up_sideways() -> None:
    storeys = tuple(replace(f, id=f"{f.id}.2") for f in many(4).walls[0].flats)
    tall = wall_of(*many(4).walls[0].flats, *storeys)
    made = replace(plan(), walls=(tall,))
    assert found("many-flats-add-up", made) == ()


def test_an_opening_that_reaches_the_top_of_its_flat_asks_for_no_header_there() -> None:
    tall = door_flat(header=False)
    hole = replace(tall.flats[0].openings[0], rough=(300.0, 0.0, 600.0, 2400.0))
    made = plan(wall_of(replace(tall.flats[0], openings=(hole,)), SECOND))
    assert found("opening-without-header", made) == ()


def test_what_reaches_above_its_wall_is_told_so_and_how_far_to_lower_it() -> None:
    (snag,) = found("load-without-backing", hung(610, height=WALL.height + 60))
    assert f"reaches 60 mm above wall back, which is {WALL.height:g} mm high" in snag.what
    assert "lower by at least 60 mm (above_floor)" in snag.remedy


def test_the_remedy_of_a_load_on_sheet_alone_is_something_the_user_can_do() -> None:
    (snag,) = found("load-without-backing", hung(800))
    assert "backing" not in snag.remedy
    assert "along the wall" in snag.remedy
    assert "batten" in snag.remedy


def test_a_wall_longer_and_higher_than_whole_sheets_by_a_hair_is_one_finding() -> None:
    wall = replace(wall_of(flat("1", x0=0, x1=1220), flat("2", x0=1220, x1=2441)), height=2441.0)
    (found,) = (s for s in find_snags(plan(wall)) if s.check == "just-over-whole-sheets")
    assert "longer than 2 whole sheets and 1 mm higher than 1 whole sheets" in found.what


def test_heights_of_level_seams_count_from_the_finished_floor() -> None:
    raised = replace(plan().brief.floor, covering="boards", thickness=20.0, stands_on="floor")
    level = replace(WALL, seams=(seam(1520, upright=False, high=2440),))
    (snag,) = found("open-level-seam", plan(level, floor=raised))
    assert "1500 mm above the finished floor" in snag.what


def test_a_sitter_stands_on_the_finished_floor_and_a_seam_on_the_flats_foot() -> None:
    raised = replace(plan().brief.floor, covering="boards", thickness=20.0, stands_on="floor")
    edge = 1500 + (1800 - 1500) * 3410 / 2210
    for low, is_found in ((edge + 19, True), (edge + 21, False)):
        made = plan(replace(WALL, seams=(seam(1220, low=low),)), pictures=(PICTURE,), sitters=(SITTER,), floor=raised)
        assert bool(found("seam-on-axis", made)) is is_found


def test_flats_that_stand_on_the_covering_have_less_room_under_the_ceiling() -> None:
    on = replace(plan().brief.floor, covering="boards", thickness=8.0, stands_on="covering")
    beside = replace(on, stands_on="floor")
    wall = replace(WALL, height=2573.0)  # 2600 less 20 and 8 leaves 2572
    assert [s.limit for s in found("wall-over-ceiling", plan(wall, floor=on))] == [2572]
    assert not found("wall-over-ceiling", plan(wall, floor=beside))
