"""Questions are put until they are answered, and answers can be changed before anything is written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from lathlight.cli.ask import change_answers, choose_file, gather_answers
from lathlight.errors import InputError

Typing = Callable[..., list[str]]


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> Typing:
    """Give what types lines; it returns the prompts that were shown."""

    def type_lines(*lines: str) -> list[str]:
        left, prompts = list(lines), []

        def read(prompt: str) -> str:
            prompts.append(prompt)
            if not left:
                raise EOFError
            return left.pop(0)

        monkeypatch.setattr("builtins.input", read)
        return prompts

    return type_lines


def test_enter_takes_the_proposed_answers(typed: Typing) -> None:
    typed(*[""] * 30)
    assert gather_answers({}, ask=True) == gather_answers({}, ask=False)


def test_a_question_is_put_again_until_it_is_answered(typed: Typing, capsys: pytest.CaptureFixture[str]) -> None:
    prompts = typed("furlongs", "imperial", *[""] * 30)
    answers = gather_answers({}, ask=True)
    assert answers["units"] == "imperial"
    assert prompts[0] == prompts[1]
    assert "metric or imperial" in capsys.readouterr().out


def test_what_is_given_is_not_asked(typed: Typing) -> None:
    prompts = typed(*[""] * 30)
    gather_answers({"title": "Bay", "wall 1": "3 m"}, ask=True)
    assert not [prompt for prompt in prompts if "called?" in prompt or "wall 1" in prompt]


def test_a_given_answer_that_is_none_is_refused_or_asked_anew(typed: Typing) -> None:
    with pytest.raises(InputError, match="a length"):
        gather_answers({"wall 1": "long"}, ask=False)
    typed(*[""] * 30)
    assert gather_answers({"wall 1": "long"}, ask=True)["wall 1"] == "2.4 m"


def test_an_answer_about_a_wall_that_is_not_there_is_refused() -> None:
    with pytest.raises(InputError, match="an answer about corner 2"):
        gather_answers({"walls": "2", "corner 2": "90"}, ask=False)


def test_the_end_of_the_input_says_what_was_asked_and_how_to_do_without(typed: Typing) -> None:
    typed("metric", "Bay")
    with pytest.raises(InputError, match=r"How wide is the room.*--yes"):
        gather_answers({}, ask=True)


def test_an_answer_can_be_changed_and_new_walls_are_asked_for(typed: Typing) -> None:
    answers = gather_answers({}, ask=False)
    walls = list(answers).index("walls") + 1
    prompts = typed(str(walls), "3", "120", "1.1 m", "")
    changed = change_answers(answers)
    assert changed is not None
    assert (changed["walls"], changed["corner 2"], changed["wall 3"]) == ("3", "120", "1.1 m")
    assert changed["wall 1"] == answers["wall 1"], "what was answered stays"
    assert len(prompts) == 5


def test_answers_that_do_not_go_together_cannot_be_accepted(typed: Typing, capsys: pytest.CaptureFixture[str]) -> None:
    answers = gather_answers({"door height": "4 m"}, ask=False)
    number = list(answers).index("door height") + 1
    typed("", str(number), "2 m", "")
    changed = change_answers(answers)
    assert changed is not None
    assert changed["door height"] == "2 m"
    assert "do not go together" in capsys.readouterr().out


def test_leaving_drops_the_answers(typed: Typing) -> None:
    typed("99", "q")
    assert change_answers(gather_answers({}, ask=False)) is None


def test_a_taken_file_name_is_asked_about(typed: Typing, tmp_path: Path) -> None:
    taken, free = tmp_path / "taken.toml", tmp_path / "free.toml"
    taken.write_text("mine")
    typed(str(free))
    assert choose_file(taken) == (free, False)
    typed("")
    assert choose_file(taken) == (taken, True)
    assert choose_file(free) == (free, False)
