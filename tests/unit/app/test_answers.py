"""The plain questions take what a photographer would type, and say what is wrong with what they cannot take."""

from __future__ import annotations

import pytest

from lathlight.app.answers import next_question, questions, wall_names
from lathlight.errors import InputError


def answered(**given: str) -> dict[str, str]:
    """Answer everything, with the proposed answer where none is given."""
    wanted = {key.replace("_", " "): answer for key, answer in given.items()}
    answers: dict[str, str] = {}
    while (question := next_question(answers)) is not None:
        answers[question.key] = question.accept(wanted.get(question.key, ""))
    return answers


def test_about_a_dozen_questions_are_asked() -> None:
    assert 12 <= len(answered()) <= 18


@pytest.mark.parametrize(("count", "corners"), [("1", 0), ("2", 1), ("3", 2), ("5", 4)])
def test_every_wall_and_every_corner_between_two_is_asked_for(count: str, corners: int) -> None:
    answers = answered(walls=count)
    assert sum(key.startswith("wall ") for key in answers) == int(count)
    assert sum(key.startswith("corner ") for key in answers) == corners


@pytest.mark.parametrize(
    ("units", "typed", "kept"),
    [
        ("metric", "4.8 m", "4.8 m"),
        ("metric", "4,8 m", "4,8 m"),
        ("metric", "2200", "2200 mm"),
        ("metric", "2.2M", "2200 mm"),
        ("metric", "8 ft", "8 ft"),
        ("imperial", "8 ft 1/2 in", "8 ft 1/2 in"),
        ("imperial", "7' 2 1/2\"", "7ft 2 1/2in"),
        ("imperial", "95½ in", "7ft 11 1/2in"),
    ],
)
def test_a_length_is_kept_as_it_was_typed_or_in_the_files_notation(units: str, typed: str, kept: str) -> None:
    assert answered(units=units, wall_1=typed)["wall 1"] == kept


def test_choices_may_be_shortened_and_angles_may_have_their_sign() -> None:
    answers = answered(units="m", framing="three", corner_1="110°")
    assert (answers["units"], answers["framing"], answers["corner 1"]) == ("metric", "three-quarter length", "110")


def test_the_proposed_height_is_a_whole_sheet_or_what_stands_up_under_the_ceiling() -> None:
    assert answered(ceiling="3 m")["height"] == "2440 mm"
    assert answered(ceiling="2.3 m")["height"] == "2200 mm"
    assert answered(units="imperial", ceiling="9 ft")["height"] == "8ft 0in"


def test_a_wall_may_be_as_high_as_its_room() -> None:
    assert answered(ceiling="2.3 m", height="2.3 m")["height"] == "2.3 m"


def test_a_wall_higher_than_its_room_is_refused() -> None:
    with pytest.raises(InputError) as caught:
        answered(ceiling="2.5 m", height="2.6 m")
    (problem,) = caught.value.problems
    assert problem.expected == "at most the room's height, 2500 mm, and this is 2600 mm"


@pytest.mark.parametrize(
    ("key", "answer", "says"),
    [
        ("units", "furlongs", "metric or imperial"),
        ("room width", "wide", "a length"),
        ("room width", "-2 m", "at least"),
        ("room width", "0", "at least"),
        ("wall 1", "2.4", "this is 2.4 mm"),
        ("walls", "0", "1 to 12"),
        ("walls", "13", "1 to 12"),
        ("walls", "two", "1 to 12"),
        ("walls", "²", "1 to 12"),
        ("corner 1", "200", "60 to 179"),
        ("corner 1", "30", "60 to 179"),
        ("sheet", "ply 9mm", 'perhaps "ply 9 mm"'),
        ("timber", "oak beam", "catalogue"),
        ("lens", "long", "8 to 1200"),
        ("lens", "nan", "8 to 1200"),
        ("swing", "95", "0 to 80"),
        ("framing", "h", "head and shoulders or half length"),
        ("title", "x" * 121, "120 characters"),
        ("title", "two\nlines", "one line"),
    ],
)
def test_what_is_no_answer_is_refused_with_what_would_be_one(key: str, answer: str, says: str) -> None:
    question = next(each for each in questions({}) if each.key == key)
    with pytest.raises(InputError) as caught:
        question.accept(answer)
    (problem,) = caught.value.problems
    assert problem.place == question.words
    assert says in f"{problem.expected} {problem.remedy}"


def test_every_proposed_answer_is_taken() -> None:
    for units in ("metric", "imperial"):
        for question in questions({"units": units}):
            question.accept(question.default)


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_offered_timber_and_sheets_are_of_the_projects_own_system(units: str) -> None:
    offered = {each.key: each.choices for each in questions({"units": units})}
    other = {"metric": {"2x2", "ply 3-8 in"}, "imperial": {"38x38", "ply 9 mm"}}[units]
    assert offered["timber"]
    assert offered["sheet"]
    assert not other & {*offered["timber"], *offered["sheet"]}


def test_walls_have_names_of_their_own() -> None:
    for count in range(1, 13):
        assert len(set(wall_names(count))) == count
