"""Marking out: every edge of every wall from one level line, and the same edges of flats lying down."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.marking.made_up import BACK, LOW, RISE, frame, job, line, mirrored

from lathlight.marking import HeightMark, plan_marking
from lathlight.plan import Memo
from lathlight.units import LengthStyle


def heights(*walls, **changes) -> dict[str, HeightMark]:
    return {mark.id: mark for mark in plan_marking(job(*walls, **changes)).heights}


# --- the standing set ----------------------------------------------------------------------------------------------


def test_every_line_and_frame_of_every_wall_is_marked() -> None:
    assert set(heights()) == {
        "low/base/top edge",
        "low/rail/top edge",
        "low/panels/bottom edge",
        "low/panels/top edge",
        "back/base/top edge",
        "back/rail/top edge",
        "back/picture rail/top edge",
        "back/crown/bottom edge",
        "back/crown/backing's bottom edge",
        "back/panels/bottom edge",
        "back/panels/top edge",
    }


def test_heights_are_those_above_the_finished_floor() -> None:
    found = heights()
    assert found["low/rail/top edge"].height == 900.0
    assert found["back/panels/bottom edge"].height == 300.0
    assert found["back/crown/bottom edge"].height == 2530.0 - RISE


def test_heights_above_the_flats_foot_are_more_by_the_rise_of_the_finished_floor() -> None:
    for mark in heights().values():
        assert mark.above_foot - mark.height == RISE


@pytest.mark.parametrize("grid", [LengthStyle.metric(), LengthStyle.imperial()])
def test_level_line_and_offset_add_up_to_the_height(grid) -> None:
    out = plan_marking(job(grid=grid))
    for mark in out.heights:
        assert out.level.height + mark.offset == pytest.approx(mark.height, abs=1e-9)


def test_what_lies_under_the_level_line_is_measured_down() -> None:
    out = plan_marking(job())
    assert {mark.offset < 0 for mark in out.heights if mark.name == "base"} == {True}
    assert {mark.offset > 0 for mark in out.heights if mark.name == "picture rail"} == {True}


def test_a_cornice_without_backing_is_marked_at_its_own_bottom_edge_alone() -> None:
    bare = replace(BACK, lines=(replace(BACK.lines[-1], backing=None),), frames=())
    assert set(heights(bare)) == {"back/crown/bottom edge"}


def test_frames_of_one_tier_at_two_heights_are_marked_at_both() -> None:
    over = replace(frame("low", 2, 700.0, 1100.0), bottom=500.0 + RISE)
    found = heights(replace(LOW, frames=(frame("low", 1, 100.0, 600.0), over)))
    assert found["low/panels/bottom edge"].height == 300.0
    assert found["low/panels/bottom edge/2"].height == 500.0
    assert found["low/panels/bottom edge/2"].stretches == ((700.0, 1100.0),)
    assert found["low/panels/top edge"].stretches == ((100.0, 1100.0),)


def test_imperial_figures_lie_on_sixteenths_and_what_that_leaves_is_stated() -> None:
    out = plan_marking(job(grid=LengthStyle.imperial()))
    sixteenth = 25.4 / 16
    for mark in out.heights:
        for figure in (mark.height, mark.offset, mark.above_foot):
            assert figure / sixteenth == pytest.approx(round(figure / sixteenth), abs=1e-9)
        assert abs(mark.rest) <= sixteenth / 2
    rail = next(mark for mark in out.heights if mark.id == "low/rail/top edge")
    assert rail.height + rail.rest == pytest.approx(900.0)
    assert out.most_left == max(abs(mark.rest) for mark in (*out.heights, *out.flats))


# --- flats lying down ----------------------------------------------------------------------------------------------


def test_a_flat_lying_down_is_measured_from_its_own_foot_with_the_covering_taken_in() -> None:
    out = plan_marking(job())
    (rail,) = [mark for mark in out.flats if (mark.flat, mark.name) == ("low/1", "rail")]
    assert rail.height == 900.0 + RISE
    assert rail.is_across


def test_a_flat_of_the_upper_storey_is_measured_from_its_own_bottom_edge() -> None:
    out = plan_marking(job())
    upper = {(mark.name, mark.edge): mark.height for mark in out.flats if mark.flat == "back/3"}
    assert upper == {
        ("picture rail", "top edge"): 2100.0 + RISE - 2000.0,
        ("crown", "bottom edge"): 530.0,
        ("crown", "backing's bottom edge"): 545.0,
    }


def test_a_line_on_a_level_joint_belongs_to_the_flat_below() -> None:
    wall = replace(BACK, lines=(line("rail", 2000.0 - RISE, (0.0, 2400.0)),), frames=())
    assert {mark.flat for mark in plan_marking(job(wall)).flats} == {"back/1", "back/2"}


def test_stretches_on_a_flat_count_from_the_left_edge_of_its_sheets() -> None:
    out = plan_marking(job())
    found = {mark.flat: mark for mark in out.flats if mark.name == "rail"}
    assert found["back/1"].stretches == ((9.0, 1229.0),)  # its sheets run 9 mm past the corner
    assert found["back/1"].is_across
    assert found["back/2"].stretches == ((0.0, 280.0), (980.0, 1180.0))  # a door lies between
    assert not found["back/2"].is_across


def test_no_line_is_left_outside_every_flat() -> None:
    out = plan_marking(job())
    assert {mark.mark for mark in out.flats} == {mark.id for mark in out.heights}


def test_stretches_on_flats_add_up_to_those_on_the_wall() -> None:
    out = plan_marking(job())
    for mark in out.heights:
        whole = sum(b - a for a, b in mark.stretches)
        parts = sum(b - a for each in out.flats if each.mark == mark.id for a, b in each.stretches)
        assert parts == pytest.approx(whole)


def test_a_frame_over_a_joint_has_one_upright_on_either_flat() -> None:
    out = plan_marking(job())
    found = {(mark.frame, mark.flat): (mark.left, mark.right) for mark in out.frames}
    assert found == {
        ("low/panels/1", "low/1"): (100.0, 1100.0),
        ("back/panels/1", "back/1"): (109.0, 709.0),
        ("back/panels/2", "back/1"): (809.0, None),
        ("back/panels/2", "back/2"): (None, 180.0),
    }
    assert {(m.left_along, m.right_along) for m in out.frames if m.frame == "back/panels/2"} == {(800.0, 1400.0)}


def test_a_mirrored_set_has_the_same_heights_and_mirrored_stretches() -> None:
    plain, turned = plan_marking(job()), plan_marking(job(mirrored(BACK), mirrored(LOW)))
    assert turned.level.height == plain.level.height
    lengths = {"low": LOW.length, "back": BACK.length}
    other = {mark.id: mark for mark in turned.heights}
    for mark in plain.heights:
        assert (other[mark.id].height, other[mark.id].offset) == (mark.height, mark.offset)
        mirror = tuple(sorted((lengths[mark.wall] - b, lengths[mark.wall] - a) for a, b in mark.stretches))
        assert other[mark.id].stretches == mirror
    assert turned.stick == plain.stick


def test_equal_jobs_are_marked_out_once() -> None:
    memo = Memo()
    assert memo.run("marking", plan_marking, job()) == memo.run("marking", plan_marking, job())
    assert (memo.runs["marking"], memo.hits["marking"]) == (1, 1)
