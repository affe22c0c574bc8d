"""A flat on its way into the room: doors, corridors, turns, stairs, vehicles, standing up."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from lathlight.passage import (
    Passing,
    flat_passage,
    passes_corridor,
    passes_door,
    passes_stairs,
    passes_turn,
    passes_vehicle,
    raises,
    widest_that_passes,
)
from lathlight.project.brief import DoorBrief, Passage, RoomBrief

DOOR = DoorBrief(name="door", clear_width=830, clear_height=1980, a=(0, 0), b=(830, 0), run_inside=5000)
ROOM = RoomBrief(
    outline=((0, 0), (4800, 0), (4800, 5000), (0, 5000)),
    ceiling=2500,
    doors=(DOOR,),
    pillars=(),
    keep_clear=(),
    way_in=(),
)
STAGE = Passage(
    name="stage",
    kind="corridor",
    clear_width=900,
    clear_height=2100,
    length=None,
    next_width=None,
    turn_angle=math.pi / 2,
    slope=0.0,
)


def through_door(width: float, height: float = 2440, depth: float = 60, run: float = 5000) -> Passing:
    return passes_door(
        name="door", width=width, height=height, depth=depth, door_width=830, door_height=1980, run_inside=run
    )


def test_a_flat_goes_through_a_door_on_edge() -> None:
    passing = through_door(1220)
    assert passing.passes
    assert passing.how == "on edge, its width upright"
    assert (passing.figure, passing.limit) == (1220, 1965)


def test_the_clear_height_less_fifteen_is_the_last_that_passes_upright() -> None:
    assert through_door(1965).how == "on edge, its width upright"
    assert through_door(1966).how == "on edge, its width upright, leaning in the opening"


def test_a_flat_as_wide_as_it_is_high_does_not_pass_a_low_door() -> None:
    passing = through_door(2440)
    assert not passing.passes
    assert passing.figure == 2440
    assert passing.limit < 2440


def test_a_low_wide_flat_goes_through_with_its_height_upright() -> None:
    assert through_door(3000, height=1800).how == "on edge, its height upright"


def test_a_flat_thicker_than_the_door_is_wide_does_not_pass() -> None:
    passing = through_door(1220, depth=820)
    assert not passing.passes
    assert (passing.figure, passing.limit) == (820, 815)


def test_a_flat_longer_than_the_room_inside_may_turn_there_or_stays_out() -> None:
    turned = through_door(1220, height=2440, run=2000)
    assert turned.passes
    assert not through_door(1220, height=4000, run=1500).passes


def test_the_working_names_the_sizes_of_the_door() -> None:
    inputs = {name: value for name, value, _ in through_door(1220).why.inputs}
    assert inputs["clear width"] == 830
    assert inputs["clear height"] == 1980
    assert inputs["kept free"] == 15


def test_a_corridor_limits_only_what_stands_upright_and_across() -> None:
    passing = passes_corridor(name="hall", width=9000, height=2000, depth=80, clear_width=900, clear_height=2100)
    assert passing.passes
    assert not passes_corridor(
        name="hall", width=9000, height=2600, depth=80, clear_width=900, clear_height=2100
    ).passes


@pytest.mark.parametrize(("slope", "passes"), [(0.0, True), (40.0, False)])
def test_stairs_take_from_the_headroom_by_their_pitch(slope: float, passes: bool) -> None:
    passing = passes_stairs(
        name="stairs",
        width=1900,
        height=2440,
        depth=60,
        clear_width=400,
        clear_height=2000,
        slope=math.radians(slope),
    )
    assert passing.passes is passes
    if not passes:
        assert 2000 * math.cos(math.radians(slope)) - 15 <= passing.limit < 1700


def test_a_long_flat_does_not_turn_a_narrow_corner_until_an_end_is_raised() -> None:
    def turn(width: float, clear_height: float) -> Passing:
        return passes_turn(
            name="bend",
            width=width,
            height=600,
            depth=60,
            clear_width=900,
            next_width=900,
            clear_height=clear_height,
            angle=math.pi / 2,
        )

    level = turn(2300, 2400)
    assert level.passes
    assert "raised" not in level.how
    raised = turn(2600, 2400)
    assert raised.passes
    assert raised.how == "on edge, one end raised"
    assert not turn(2600, 700).passes


def test_a_vehicle_takes_a_flat_lying_down_where_it_does_not_stand() -> None:
    lying = passes_vehicle(
        name="van",
        width=1220,
        height=2440,
        depth=60,
        load_width=1340,
        load_height=1000,
        load_length=2500,
    )
    assert lying.passes
    assert lying.how == "lying on its back"
    short = passes_vehicle(
        name="van",
        width=1220,
        height=2700,
        depth=60,
        load_width=1340,
        load_height=1000,
        load_length=2500,
    )
    assert not short.passes
    assert short.figure == 2700


def test_a_vehicle_of_unknown_length_limits_only_height_and_width() -> None:
    passing = passes_vehicle(
        name="van", width=1220, height=9000, depth=60, load_width=400, load_height=1500, load_length=None
    )
    assert passing.passes


def test_a_flat_is_walked_up_under_the_ceiling() -> None:
    passing = raises(width=1220, height=2440, depth=60, ceiling=2500)
    assert passing.passes
    assert passing.how == "walked up over its bottom edge"
    assert passing.figure == pytest.approx(math.hypot(2440, 60))
    assert passing.limit == 2480


def test_a_narrow_flat_with_a_deep_brace_is_turned_up_in_its_own_plane() -> None:
    passing = raises(width=600, height=2400, depth=810, ceiling=2500)
    assert passing.passes
    assert passing.how == "turned up in its own plane"


def test_a_flat_that_sweeps_the_ceiling_is_not_raised() -> None:
    assert not raises(width=1220, height=2480, depth=60, ceiling=2500).passes


def test_every_stage_and_one_door_stand_in_the_passage_in_order() -> None:
    room = replace(
        ROOM, way_in=(replace(STAGE, name="hall"), replace(STAGE, name="bend", kind="turn", clear_width=1000))
    )
    passage = flat_passage("back/1", width=1220, height=2440, depth=60, room=room)
    assert [s.through for s in passage.stages] == ["hall", "bend", "door"]
    assert passage.flat == "back/1"
    assert passage.passes
    assert passage.raises.passes


def test_any_one_door_of_the_room_will_do() -> None:
    narrow = replace(DOOR, name="narrow", clear_width=60)
    passage = flat_passage("a/1", width=1220, height=2440, depth=60, room=replace(ROOM, doors=(narrow, DOOR)))
    assert [s.through for s in passage.stages] == ["door"]
    assert passage.passes


def test_a_door_that_the_way_in_names_is_not_passed_twice() -> None:
    room = replace(ROOM, way_in=(replace(STAGE, name="door", kind="door"),))
    passage = flat_passage("a/1", width=1220, height=2440, depth=60, room=room)
    assert [s.through for s in passage.stages] == ["door"]


def test_the_widest_flat_is_the_last_that_passes() -> None:
    widest = widest_that_passes(height=2440, depth=60, room=ROOM)
    assert 1965 < widest < 2150  # leaning in the opening
    assert flat_passage("a/1", width=widest, height=2440, depth=60, room=ROOM).passes
    assert not flat_passage("a/1", width=widest + 0.01, height=2440, depth=60, room=ROOM).passes


def test_a_flat_low_enough_to_go_upright_is_limited_by_the_room_inside_alone() -> None:
    free = replace(ROOM, doors=(replace(DOOR, run_inside=math.inf),))
    assert widest_that_passes(height=1800, depth=60, room=free) == math.inf


def test_nothing_limits_a_flat_where_no_way_in_is_known() -> None:
    assert widest_that_passes(height=2440, depth=60, room=replace(ROOM, doors=())) == math.inf


def test_no_width_passes_where_the_height_alone_is_too_long() -> None:
    van = replace(STAGE, name="van", kind="vehicle", clear_width=1200, clear_height=1200, length=1500)
    assert widest_that_passes(height=2440, depth=60, room=replace(ROOM, way_in=(van,))) == 0
