"""The stages together: what a change re-runs, and what it renames."""

from __future__ import annotations

import math
from collections import Counter
from pathlib import Path

import pytest

from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.plan import Memo, derive
from lathlight.project import parse_project, resolve

HEAD = """
[project]
title = "three walls"
units = "metric"
[room]
width = 9000
depth = 8000
ceiling = 3000
[set]
height = 2400
sheet = "ply 9 mm"
framing = "38x38"
frame_laps = "next"
sheet_laps = "next"
"""
LIGHT = '\n[[lights]]\nname = "key"\nrole = "key"\nangle = 40\nheight = 2000\ndistance = {distance}\n'


def wall(name: str, length: int, more: str = "") -> str:
    return f'\n[[walls]]\nname = "{name}"\nlength = {length}\n{more}'


def plan_of(text: str, memo: Memo | None = None):
    brief = resolve(parse_project(text, name="set.toml"), load_catalog(), place="set.toml")
    return derive(brief, memo=memo)


def ids(plan) -> set[str]:
    return {m.id for m in plan.members} | {p.id for p in plan.pieces} | {f.id for f in plan.flats}


def test_an_inserted_wall_changes_no_other_id() -> None:
    before = plan_of(HEAD + wall("left", 1500) + wall("back", 3000) + wall("right", 1500))
    after = plan_of(HEAD + wall("left", 1500) + wall("back", 3000) + wall("nook", 1200) + wall("right", 1500))
    assert ids(before) <= ids(after)
    assert all(i.startswith("nook/") for i in ids(after) - ids(before))


def test_a_wall_put_last_changes_no_other_id() -> None:
    before = plan_of(HEAD + wall("left", 1500) + wall("back", 3000))
    after = plan_of(HEAD + wall("left", 1500) + wall("back", 3000) + wall("right", 1500))
    assert ids(before) <= ids(after)


def test_an_inserted_wall_leaves_the_other_flats_marks_alone() -> None:
    before = plan_of(HEAD + wall("left", 1500) + wall("back", 3000))
    after = plan_of(HEAD + wall("left", 1500) + wall("nook", 1000) + wall("back", 3000))
    marks = {f.id: f.mark for f in after.flats}
    assert all(marks[f.id] == f.mark for f in before.flats)


def test_a_comment_or_a_moved_light_re_runs_no_stage() -> None:
    walls = wall("left", 1500) + wall("back", 3000)
    memo = Memo()
    plan_of(HEAD + walls + LIGHT.format(distance=1500), memo)
    runs = Counter(memo.runs)
    plan_of("# a comment\n" + HEAD + walls + LIGHT.format(distance=1800), memo)
    assert memo.runs == runs
    assert memo.hits["wall"] >= 2


def test_one_changed_wall_leaves_the_others_alone() -> None:
    far = wall("left", 1500) + wall("back", 3000) + wall("right", 1500) + wall("end", 900)
    memo = Memo()
    plan_of(HEAD + far, memo)
    runs = memo.runs["wall"]
    plan_of(HEAD + far.replace("900", "950"), memo)
    changed = memo.runs["wall"] - runs
    assert 0 < changed < runs


def test_walls_that_run_into_each_other_are_refused() -> None:
    ring = "".join(wall(name, length, "angle_to_next = 61\n") for name, length in (("a", 3000), ("b", 2400)))
    with pytest.raises(InputError, match='running into wall "a"'):
        plan_of(HEAD + ring + wall("c", 2900))


def test_an_opening_that_leaves_no_timber_is_refused_with_its_figures() -> None:
    door = '[[walls.openings]]\nname = "door"\nkind = "door"\nat = 12\nwidth = 800\nheight = 2000\nlining = 12\n'
    with pytest.raises(InputError) as caught:
        plan_of(HEAD + wall("back", 3000, door))
    problem = caught.value.problems[0]
    assert 'walls "back" opening "door"' in problem.place
    assert "at least" in problem.expected


def test_openings_that_leave_no_timber_are_named_together_wall_by_wall() -> None:
    door = '[[walls.openings]]\nname = "{0}"\nkind = "door"\nat = {1}\nwidth = 800\nheight = 2000\nlining = 12\n'
    first = wall("left", 3000, door.format("near", 12) + door.format("close", 860))
    sound = wall("back", 3000, door.format("good", 900))
    last = wall("right", 3000, door.format("far", 2188))
    with pytest.raises(InputError) as caught:
        plan_of(HEAD + first + sound + last)
    places = [problem.place for problem in caught.value.problems]
    assert places == [
        'walls "left" opening "near"',
        'walls "left" opening "close"',
        'walls "right" opening "far"',
    ]


def test_two_sheets_side_by_side_are_split_at_their_seam_when_the_flats_must_be_narrow() -> None:
    text = HEAD + "\n[set.flats]\nmax_width = 1300\n" + wall("back", 2440)
    plan = plan_of(text)
    assert [f.width for f in plan.flats] == [1220, 1220]
    assert [s.parts for s in plan.walls[0].seams] == [True]


def test_the_weights_add_up() -> None:
    plan = plan_of(HEAD + wall("left", 1500) + wall("back", 3000))
    assert plan.quantity("set/weight").value == pytest.approx(sum(f.weight.value for f in plan.flats))
    assert math.isclose(plan.quantity("set/length").value, 4500)


def test_the_plan_of_a_demo_set_is_the_same_twice(tmp_path: Path) -> None:
    text = HEAD + wall("left", 1500) + wall("back", 3000)
    assert plan_of(text) == plan_of(text)


def test_a_wall_too_high_for_the_van_is_split_in_height() -> None:
    van = '\n[[room.way_in]]\nname = "van"\nkind = "vehicle"\nclear_width = 1500\nclear_height = 1300\nlength = 2100\n'
    room, rest = HEAD.split("[set]")
    plan = plan_of(room + van + "[set]" + rest + wall("back", 2440))
    assert {f.z0 for f in plan.flats} == {0.0, 1200.0}
    assert all(p.passes for p in plan.passages)
    assert not any(f.built_in_room for f in plan.flats)


def test_what_passes_at_no_size_is_built_in_the_room() -> None:
    hatch = '\n[[room.way_in]]\nname = "hatch"\nkind = "door"\nclear_width = 60\nclear_height = 300\n'
    room, rest = HEAD.split("[set]")
    plan = plan_of(room + hatch + "[set]" + rest + wall("back", 2440))
    assert all(f.built_in_room for f in plan.flats)
