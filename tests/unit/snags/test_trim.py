"""Snags of trim beside their limits: what they say, how many they are, what keeps them quiet."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.snags.cases import BASE, CASED, CHAIR_RAIL, MIDDLE, UNCOPED, lined, parted, trimmed, trimmed_corner
from tests.unit.snags.made_up import RAIL, WALL_BRIEF, found, plan

from lathlight.catalog import load_catalog
from lathlight.snags import Severity


def test_a_set_without_trim_has_no_snags_of_trim() -> None:
    assert plan().trim is None
    assert not found("trim-crosses-joint", plan())


def test_a_fixed_line_over_a_level_joint_says_how_far_it_lies_over_it() -> None:
    (snag,) = found("trim-crosses-joint", trimmed(CHAIR_RAIL, partings=parted(880, upright=False)))
    assert "lies 20 mm over a level joint" in snag.what
    assert not found("trim-crosses-joint", trimmed(CHAIR_RAIL, partings=parted(900, upright=False)))


def test_joints_of_both_kinds_are_one_snag_with_both_counted() -> None:
    partings = (*parted(500), *parted(1220), *parted(880, upright=False))
    (snag,) = found("trim-crosses-joint", trimmed(CHAIR_RAIL, partings=partings))
    assert snag.figure == 3
    assert "is cut at 2 joints and lies 20 mm over a level joint" in snag.what


def test_a_joint_that_a_picture_sees_first_is_told_once() -> None:
    seen = trimmed(CHAIR_RAIL, partings=(*parted(300), *parted(1220)), middles=(MIDDLE,))
    assert [s.figure for s in found("trim-crosses-joint", seen)] == [1]
    assert [s.figure for s in found("trim-joint-in-picture", seen)] == [0]


def test_a_mitre_that_is_coped_instead_is_only_worth_knowing() -> None:
    (coped,) = found("mitre-beyond-saw", trimmed_corner(CHAIR_RAIL, degrees=79))
    (by_hand,) = found("mitre-beyond-saw", trimmed_corner(UNCOPED, degrees=79))
    assert (coped.severity, by_hand.severity) == (Severity.KNOW, Severity.COSTS)
    assert "50.5°" in coped.what
    assert "coped" in coped.what
    assert "by hand" in by_hand.what
    assert ("along the wall", 2440.0, "mm") in coped.why.inputs


def test_lines_of_one_size_and_two_profiles_say_that_their_profiles_differ() -> None:
    other = replace(CHAIR_RAIL, profile=replace(CHAIR_RAIL.profile, name="rail of another mill"))
    (snag,) = found("trim-lines-miss", trimmed_corner(CHAIR_RAIL, other))
    assert "have different profiles" in snag.what


def test_two_casings_thinner_than_the_line_are_one_snag_that_gives_the_worse() -> None:
    thinner = replace(CASED, name="arch", left=1800, width=300, thickness=12)
    (snag,) = found("trim-thicker-than-casing", trimmed(CHAIR_RAIL, openings=(CASED, thinner)))
    assert (snag.figure, snag.limit) == (20, 12)
    assert "the worst of 2 places" in snag.what


def test_the_ends_of_a_base_beside_casing_as_thick_bring_no_snag() -> None:
    assert not found("trim-thicker-than-casing", trimmed(BASE, openings=(CASED,)))


def test_a_dado_of_any_height_is_let_pass_on_a_high_wall() -> None:
    high = replace(WALL_BRIEF, height=2751.0, trim=(replace(RAIL, top=1500),))
    assert not found("high-dado", plan(walls=(high,)))
    assert found("high-dado", plan(walls=(replace(high, height=2750.0),)))


def test_a_dado_on_two_walls_is_one_snag_at_the_lower_wall() -> None:
    walls = (replace(WALL_BRIEF, trim=(RAIL,)), replace(WALL_BRIEF, name="side", height=2250.0, trim=(RAIL,)))
    (snag,) = found("high-dado", plan(walls=walls))
    assert (snag.place, snag.limit) == ("side/rail", 750)


def test_a_picture_rail_is_no_dado_and_a_cornice_without_base_is_let_pass() -> None:
    cornice = replace(RAIL, name="cornice", kind="cornice", top=2400, bottom=2200)
    made = lined(replace(RAIL, kind="picture rail"), cornice)
    assert not found("high-dado", made)
    assert not found("heavy-cornice", made)


@pytest.mark.parametrize("degrees", [100, 260])
def test_a_sound_corner_of_catalogue_trim_has_no_snags_of_its_own(degrees: float) -> None:
    made = trimmed_corner(replace(CHAIR_RAIL, profile=load_catalog().profiles["rail 57"]), degrees=degrees)
    for name in ("trim-lines-miss", "mitre-beyond-saw", "cope-impossible", "no-room-for-trim"):
        assert found(name, made) == ()
    assert made.trim is not None
    assert all(math.isfinite(p.long_point) for p in made.trim.pieces)


def test_a_dado_is_measured_from_the_finished_floor() -> None:
    raised = replace(plan().brief.floor, covering="boards", thickness=30.0, stands_on="floor")
    line = replace(RAIL, top=821, bottom=764)  # 791 above the boards, where the wall shows 2370
    (snag,) = found("high-dado", plan(walls=(replace(WALL_BRIEF, trim=(replace(line, top=822),)),), floor=raised))
    assert (snag.figure, snag.limit) == (792, 790)
    assert "is 792 mm high" in snag.what
    assert not found("high-dado", plan(walls=(replace(WALL_BRIEF, trim=(line,)),), floor=raised))
