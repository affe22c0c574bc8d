"""Asking the plain questions behind a new project on a terminal.

Decides how a question is put, asked again, and changed afterwards. Which questions there are is left to ``app``.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from lathlight.cli import show
from lathlight.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.app import Question


SKETCH_WIDTH = 48  # columns; about twenty lines


def gather_answers(given: Mapping[str, str], *, ask: bool) -> dict[str, str]:
    """Return an answer to every question.

    Parameters
    ----------
    given
        Answers from the command line, by the question's key.
    ask
        True: ask for what is not given. False: take the proposed answers.

    Raises
    ------
    InputError
        A given answer is none, answers no question, or the input ended.
    """
    from lathlight.app import next_question

    answers: dict[str, str] = {}
    while (question := next_question(answers)) is not None:
        answers[question.key] = _answer(question, given, number=len(answers) + 1, ask=ask)
    _refuse_unused(given, answers)
    return answers


def change_answers(answers: dict[str, str]) -> dict[str, str] | None:
    """Show the answers and let them be changed; return them once they are accepted, None where they are dropped."""
    while True:
        fits = _show_answers(answers)
        accepting = "Enter writes the file, a number" if fits else "A number"
        choice = _read_line(f"{accepting} changes that answer, q leaves without writing: ").strip()
        if not choice and fits:
            return answers
        if choice.lower() in ("q", "quit"):
            return None
        if choice:
            answers = _changed(answers, choice)


def _answer(question: Question, given: Mapping[str, str], *, number: int, ask: bool) -> str:
    if question.key not in given:
        return _ask(question, number=number) if ask else question.accept("")
    try:
        return question.accept(given[question.key])
    except InputError as error:
        if not ask:
            raise
        show.note(str(error))
        return _ask(question, number=number)


def _ask(question: Question, *, number: int) -> str:
    """Put a question until it is answered."""
    if question.choices:
        show.say(show.wrapped(", ".join(question.choices), first="    (", rest="     ") + ")")
    while True:
        line = _read_line(f"{number:2}. {question.words}? [{question.default}] ", about=question.words)
        try:
            return question.accept(line)
        except InputError as error:
            for problem in error.problems:
                show.say(
                    show.wrapped(f"Found {problem.found}, expected {problem.expected}.", first="    ", rest="    ")
                )
                show.say(show.wrapped(problem.remedy, first="    ", rest="    "))


def _read_line(prompt: str, *, about: str = "whether to write the file") -> str:
    try:
        return input(prompt)
    except EOFError as error:
        raise InputError.of(
            place="the answers",
            found="the end of the input",
            expected=f"an answer about: {about}",
            remedy="Say --yes to take the proposed answer wherever none is given.",
        ) from error


def choose_file(path: Path) -> tuple[Path, bool]:
    """Return where to write, and whether what is there may be replaced; asks while a name is taken."""
    while path.exists():
        line = _read_line(f"{path} is there already. Another name, or Enter to replace it: ").strip()
        if not line:
            return path, True
        path = Path(line)
    return path, False


def show_sketch(answers: Mapping[str, str]) -> None:
    """Show a small plan of the answers."""
    from lathlight.app import sketch_answers

    columns = min(show.width(), SKETCH_WIDTH)
    show.say(sketch_answers(answers, columns=columns, box_lines=show.takes_box_lines()))


def _show_answers(answers: Mapping[str, str]) -> bool:
    """Show the answers and the plan that follows from them; return whether one does."""
    fits = True
    show.say()
    try:
        show_sketch(answers)
    except InputError as error:
        fits = False
        show.say("These answers do not go together:")
        for problem in error.problems:
            text = f"{problem.found}, where {problem.expected} was expected. {problem.remedy}"
            show.say(show.wrapped(text, first="  ", rest="    "))
    show.say()
    for number, (key, answer) in enumerate(answers.items(), start=1):
        show.say(f"{number:2}. {key}: {answer}")
    return fits


def _changed(answers: Mapping[str, str], choice: str) -> dict[str, str]:
    """Return the answers with one asked again, and with whatever that brings up."""
    keys = list(answers)
    if not choice.isdecimal() or not 1 <= int(choice) <= len(keys):
        show.say(f"There is no answer {choice}; the numbers go from 1 to {len(keys)}.")
        return dict(answers)
    key = keys[int(choice) - 1]
    kept = {other: answer for other, answer in answers.items() if other != key}
    return _completed(kept)


def _completed(kept: Mapping[str, str]) -> dict[str, str]:
    """Return the answers in the questions' order, asking what has none; what is no longer asked is dropped."""
    from lathlight.app import next_question

    answers: dict[str, str] = {}
    while (question := next_question(answers)) is not None:
        known = kept.get(question.key)
        answers[question.key] = known if known is not None else _ask(question, number=len(answers) + 1)
    return answers


def _refuse_unused(given: Mapping[str, str], answers: Mapping[str, str]) -> None:
    unused = [key for key in given if key not in answers]
    if unused:
        raise InputError.of(
            place="command line",
            found=f"an answer about {' and '.join(unused)}",
            expected=f"answers about the {answers['walls']} walls and the corners between them",
            remedy="Give --wall once a wall, and --corner once for each corner between two walls.",
        )
