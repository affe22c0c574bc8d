"""A new project file plans at once, says what was answered, and explains itself."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from lathlight.app.answers import next_question
from lathlight.app.new import compose_project, file_name, sketch_answers
from lathlight.app.open import brief_of_text
from lathlight.app.sketch import sketch_plan
from lathlight.errors import InputError
from lathlight.plan import derive
from lathlight.snags import Severity, find_snags


def answers(**given: str) -> dict[str, str]:
    wanted = {key.replace("_", " "): answer for key, answer in given.items()}
    made: dict[str, str] = {}
    while (question := next_question(made)) is not None:
        made[question.key] = question.accept(wanted.get(question.key, ""))
    return made


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize("walls", ["1", "2", "3"])
def test_the_proposed_answers_plan_at_once_into_a_set_that_can_be_built(units: str, walls: str) -> None:
    brief = brief_of_text(compose_project(answers(units=units, walls=walls), file="new.toml"), name="new.toml")
    plan = derive(brief)
    assert len(plan.walls) == int(walls)
    assert not [snag for snag in find_snags(plan) if snag.severity <= Severity.SPOILS]


def test_the_file_says_what_was_answered() -> None:
    text = compose_project(
        answers(title='The "blue" room', wall_1="3 m", corner_1="110", height="2.3 m", lens="50"), file="blue room.toml"
    )
    said = tomllib.loads(text)
    assert said["project"]["title"] == 'The "blue" room'
    assert [wall["length"] for wall in said["walls"]] == ["3 m", "1.4 m"]
    assert said["walls"][0]["angle_to_next"] == 110
    assert said["set"]["height"] == "2.3 m"
    assert said["pictures"][0]["lens"] == 50
    assert '# lathlight plan "blue room.toml"' in text.replace("#     ", "# ")


@pytest.mark.parametrize("title", ["back\\slash", "ümläut", "{braces}", "# no remark", "'single'", "日本"])
def test_any_title_survives(title: str) -> None:
    text = compose_project(answers(title=title, colour=title), file="new.toml")
    assert tomllib.loads(text)["project"]["title"] == title
    assert tomllib.loads(text)["finish"]["colour"] == title


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_what_is_commented_out_can_be_taken_in(units: str) -> None:
    text = compose_project(answers(units=units, walls="3"), file="new.toml")
    lines = text.splitlines()
    first = next(i for i, line in enumerate(lines) if "[[walls.openings]]" in line)
    window = [line.removeprefix("# ") for line in lines[first : first + 7]]
    rail = next(i for i, line in enumerate(lines) if "[[trim]]" in line)
    trim = [line.removeprefix("# ") for line in lines[rail : rail + 5]]
    taken_in = [*lines[:first], *window, *lines[first + 7 : rail], *trim, *lines[rail + 5 :]]
    brief = brief_of_text("\n".join(taken_in), name="new.toml")
    assert [opening.name for opening in brief.walls[-1].openings] == ["window"]
    assert brief.walls[0].trim[0].kind == "rail"


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_moulding_frames_can_be_taken_in_and_have_room(units: str) -> None:
    lines = compose_project(answers(units=units), file="new.toml").splitlines()
    first = next(i for i, line in enumerate(lines) if "[[moulding_frames]]" in line)
    tier = [line.removeprefix("# ") for line in lines[first : first + 6]]
    brief = brief_of_text("\n".join([*lines[:first], *tier, *lines[first + 6 :]]), name="new.toml")
    assert [each.name for each in brief.frames] == ["panels"]
    assert brief.frames[0].top < min(wall.height for wall in brief.walls)


@pytest.mark.parametrize(("units", "paint"), [("metric", "flat paint"), ("imperial", "flat paint US")])
def test_the_file_names_paint_and_fixing_of_its_own_system(units: str, paint: str) -> None:
    brief = brief_of_text(compose_project(answers(units=units), file="new.toml"), name="new.toml")
    assert brief.finish.paint is not None
    assert brief.finish.paint.name == paint
    assert (brief.fixing.sheets, brief.fixing.joints, brief.floor.covering) == ("glue", "screws", "none")


def test_answers_that_do_not_go_together_are_refused_with_the_place() -> None:
    with pytest.raises(InputError, match="walls"):
        compose_project(answers(walls="3", corner_1="60", corner_2="60", wall_1="9 m", wall_2="1 m", wall_3="9 m"),
                        file="new.toml")  # fmt: skip


def test_the_sketch_shows_room_walls_door_and_camera() -> None:
    drawn = sketch_answers(answers(walls="3", corner_1="110", corner_2="110"), columns=60, box_lines=True)
    for part in ("┌", "┐", "└", "┘", "█", "=", "^", "L left: ", "B back: ", "R right: "):
        assert part in drawn
    assert all(len(line) <= 60 for line in drawn.splitlines())


def test_the_sketch_does_without_box_lines() -> None:
    assert sketch_answers(answers(), columns=50, box_lines=False).isascii()


def test_a_set_larger_than_its_room_is_sketched_all_the_same() -> None:
    drawn = sketch_answers(answers(wall_1="9 m", room_width="3 m"), columns=50, box_lines=False)
    assert "9000 mm" in drawn


def test_walls_have_the_same_marks_as_on_the_drawings() -> None:
    brief = brief_of_text(compose_project(answers(walls="5"), file="new.toml"), name="new.toml")
    drawn = sketch_plan(brief, columns=60)
    marks = [wall.mark for wall in derive(brief).walls]
    assert marks == ["W1", "W2", "W3", "W4", "W5"]
    for mark, wall in zip(marks, brief.walls, strict=True):
        assert f"{mark} {wall.name}: " in drawn
        assert mark in drawn.split("^")[0]


def test_a_sketch_says_lengths_as_the_drawings_do() -> None:
    drawn = sketch_answers(answers(units="imperial", wall_1="8 ft 0 1/2 in"), columns=60, box_lines=False)
    assert "8'-0 1/2\" long" in drawn


def test_left_is_left_and_the_back_is_at_the_top() -> None:
    drawn = sketch_answers(answers(walls="3", wall_1="1 m", wall_3="1 m"), columns=60, box_lines=True).splitlines()
    rows = {letter: next(i for i, line in enumerate(drawn) if letter in line) for letter in "LBR"}
    assert rows["B"] < rows["L"] == rows["R"] < next(i for i, line in enumerate(drawn) if "=" in line)
    assert drawn[rows["L"]].index("L") < drawn[rows["L"]].index("R")


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("My first set", "my-first-set.toml"),
        ("Größe", "grosse.toml"),
        ("../../etc", "etc.toml"),
        ("CON", "set-con.toml"),
    ],
)
def test_a_title_becomes_a_plain_file_name(title: str, name: str) -> None:
    assert file_name(title) == name
    assert Path(file_name(title)).name == file_name(title)
