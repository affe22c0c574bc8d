"""The dozen plain questions behind a new project: what is asked, in which order, and what counts as an answer.

Decides the next question from the answers so far, and reads each answer. Asking is left to a face, and the file that
follows from the answers to ``lathlight.app.new``.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.catalog import load_catalog
from lathlight.errors import InputError, nearest
from lathlight.units import (
    LengthStyle,
    UnitError,
    exact_degrees,
    file_length,
    format_length,
    parse_angle,
    parse_length,
    snap_down,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

MOST_WALLS = 12
WALL_NAMES = {1: ("back",), 2: ("back", "side"), 3: ("left", "back", "right")}
SHORTEST = {"metric": 200.0, "imperial": 203.2}  # [mm] nothing asked for is smaller; a bare 2.4 was meant as metres
_WITH_UNIT = re.compile(r"[0-9 .,/-]+[a-z][0-9a-z .,/-]*")  # reads well in the file as it was typed
FRAMINGS = ("head and shoulders", "half length", "three-quarter length", "full length")
NARROWEST, WIDEST = math.radians(60), math.radians(179)
THICK = 13.0  # [mm] facing above this is heavy for a set: not offered, but taken
LONGEST_WORDS = 120  # characters of a title


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question, ready to be asked."""

    key: str  # "room width", "wall 2", "corner 1"
    words: str  # as it is put to the photographer
    default: str
    hint: str  # what an answer looks like
    choices: tuple[str, ...] = ()  # worth showing; other answers may be taken too
    read: Callable[[str], str]  # the answer in the file's notation

    def accept(self, answer: str) -> str:
        """Return the answer in the file's notation; no answer is the default.

        Raises
        ------
        InputError
            It is no answer to this question.
        """
        try:
            return self.read(answer.strip() or self.default)
        except UnitError as error:
            raise self._problem(found=error.found, expected=error.expected, remedy=error.remedy) from error
        except _UnfitError as error:
            raise self._problem(
                found=f'"{answer.strip()}"', expected=error.expected, remedy=f"Give {self.hint}."
            ) from error

    def _problem(self, *, found: str, expected: str, remedy: str) -> InputError:
        error = InputError.of(place=self.words, found=found, expected=expected, remedy=remedy)
        assert isinstance(error, InputError)
        return error


class _UnfitError(ValueError):
    """An answer that does not fit its question."""

    def __init__(self, expected: str) -> None:
        super().__init__(expected)
        self.expected = expected


def questions(answers: Mapping[str, str]) -> Iterator[Question]:
    """Yield the questions in order, as far as the answers so far decide what is to be asked.

    ``answers`` may grow while the questions are walked through: each depends on those before it only.
    """
    yield _choice("units", "Feet and inches, or metric", ("metric", "imperial"), default="metric")
    yield _words("title", "What is the set called", default="My first set", longest=LONGEST_WORDS)
    style = style_of(answers)
    metric = style.system == "metric"
    yield _length("room width", "How wide is the room", "4.8 m" if metric else "16 ft", style=style)
    yield _length(
        "room depth", "How deep is the room, away from the camera", "4.2 m" if metric else "14 ft", style=style
    )
    yield _length("ceiling", "How high is the room", "2.5 m" if metric else "8 ft 4 in", style=style)
    yield _length("door width", "How wide is its door, clear", "0.83 m" if metric else "2 ft 8 in", style=style)
    yield _length("door height", "How high is its door, clear", "2 m" if metric else "6 ft 8 in", style=style)
    yield _count("walls", "How many walls has the set", default="2", most=MOST_WALLS)
    yield from _wall_questions(answers, style=style)
    yield _length(
        "height",
        "How high are the walls",
        _default_height(answers, style=style),
        style=style,
        most=_ceiling(answers, style=style),
    )
    yield from _look_questions(style)
    yield from _picture_questions()


def next_question(answers: Mapping[str, str]) -> Question | None:
    """Return the first question that has no answer yet, None where all have."""
    return next((question for question in questions(answers) if question.key not in answers), None)


def style_of(answers: Mapping[str, str]) -> LengthStyle:
    """Return how the new project writes its lengths."""
    return LengthStyle.of(answers.get("units", "metric"), None)


def wall_names(count: int) -> tuple[str, ...]:
    """Return the names of so many walls, left to right."""
    return WALL_NAMES.get(count) or tuple(f"wall {i + 1}" for i in range(count))


def _wall_questions(answers: Mapping[str, str], *, style: LengthStyle) -> Iterator[Question]:
    names = wall_names(int(answers.get("walls", "2")))
    metric = style.system == "metric"
    angle = "90" if len(names) < 4 else f"{180 - 180 / len(names):.0f}"  # so that a long chain stays open
    long, longer, short = ("2.4 m", "3 m", "1.4 m") if metric else ("8 ft", "10 ft", "4 ft 6 in")
    for i, name in enumerate(names, start=1):
        default = short if name != "back" else long if len(names) == 2 else longer  # no seam behind the sitter
        yield _length(f"wall {i}", f"How long is wall {i} from the left, called {name}", default, style=style)
        if i < len(names):
            yield _angle(f"corner {i}", f"At what inside angle does wall {i + 1} follow", default=angle)


def _look_questions(style: LengthStyle) -> Iterator[Question]:
    catalog, metric = load_catalog(), style.system == "metric"
    sheets = tuple(
        name
        for name, sheet in catalog.sheets.items()
        if sheet.thickness <= THICK and _in_inches(sheet.width) is not metric
    )
    timbers = tuple(name for name, row in catalog.lumber.items() if (row.system == "metric") is metric)
    default = "ply 9 mm" if metric else "ply 3-8 in"
    yield _row("sheet", "What is it faced with", tuple(catalog.sheets), default=default, choices=sheets)
    default = "38x38" if metric else "2x2"
    yield _row("timber", "What is it framed in", tuple(catalog.lumber), default=default, choices=timbers)
    yield _words("colour", "What colour is it painted", default="warm grey", longest=60)


def _in_inches(mm: float) -> bool:
    return abs(mm / 25.4 - round(mm / 25.4)) < 1e-6


def _picture_questions() -> Iterator[Question]:
    yield _choice("framing", "How much of the sitter is in the picture", FRAMINGS, default="half length")
    yield _number("lens", "With which lens, true focal length in mm", default="85", least=8, most=1200)
    yield _number("swing", "How far to either side does the camera go, in degrees", default="10", least=0, most=80)


def _default_height(answers: Mapping[str, str], *, style: LengthStyle) -> str:
    """Return one whole sheet, or what can still be tilted up under a low ceiling."""
    whole, spare = (2440.0, 100.0) if style.system == "metric" else (2438.4, 101.6)
    ceiling = min(_ceiling(answers, style=style), whole + spare)
    return file_length(snap_down(max(ceiling - spare, spare), style), style=style)


def _ceiling(answers: Mapping[str, str], *, style: LengthStyle) -> float:
    return parse_length(answers["ceiling"], style=style) if "ceiling" in answers else math.inf


def _length(key: str, words: str, default: str, *, style: LengthStyle, most: float = math.inf) -> Question:
    def read(answer: str) -> str:
        length = parse_length(answer, style=style)
        least = SHORTEST[style.system]
        if length > most:
            highest, this = (format_length(each, style=style) for each in (most, length))
            raise _UnfitError(f"at most the room's height, {highest}, and this is {this}")
        if length < least:
            shortest, this = (format_length(each, style=style) for each in (least, length))
            raise _UnfitError(f"at least {shortest}, and this is {this}")
        return answer if _WITH_UNIT.fullmatch(answer) else file_length(length, style=style)

    return Question(key=key, words=words, default=default, hint=f"a length such as {default}", read=read)


def _angle(key: str, words: str, *, default: str) -> Question:
    def read(answer: str) -> str:
        angle = parse_angle(answer)
        if not NARROWEST <= angle <= WIDEST:
            raise _UnfitError("60 to 179 degrees (90 is square, more opens out)")
        return exact_degrees(angle)

    return Question(key=key, words=words, default=default, hint=f"an angle in degrees such as {default}", read=read)


def _number(key: str, words: str, *, default: str, least: float, most: float) -> Question:
    def read(answer: str) -> str:
        try:
            number = float(answer.lower().removesuffix("mm").replace(",", "."))
        except ValueError:
            number = math.nan
        if not least <= number <= most:
            raise _UnfitError(f"a number from {least:g} to {most:g}")
        return f"{number:g}"

    return Question(key=key, words=words, default=default, hint=f"a number such as {default}", read=read)


def _count(key: str, words: str, *, default: str, most: int) -> Question:
    def read(answer: str) -> str:
        if not (answer.isascii() and answer.isdecimal() and 1 <= int(answer[:9]) <= most):
            raise _UnfitError(f"a whole number from 1 to {most}")
        return str(int(answer))

    return Question(key=key, words=words, default=default, hint=f"a number such as {default}", read=read)


def _choice(key: str, words: str, choices: tuple[str, ...], *, default: str) -> Question:
    def read(answer: str) -> str:
        wanted = answer.casefold()
        begun = [choice for choice in choices if choice.startswith(wanted)]
        if len(begun) != 1:
            raise _UnfitError(" or ".join(choices))
        return begun[0]

    return Question(key=key, words=words, default=default, hint=" or ".join(choices), read=read, choices=choices)


def _row(key: str, words: str, names: tuple[str, ...], *, default: str, choices: tuple[str, ...]) -> Question:
    def read(answer: str) -> str:
        if answer in names:
            return answer
        near = nearest(answer, names)
        perhaps = f', perhaps "{near}"' if near else ""
        raise _UnfitError(f"a name of the catalogue{perhaps}")

    hint = f"a name such as {default} (lathlight catalog lists them)"
    return Question(key=key, words=words, default=default, hint=hint, read=read, choices=choices)


def _words(key: str, words: str, *, default: str, longest: int) -> Question:
    def read(answer: str) -> str:
        if len(answer) > longest or not answer.isprintable():
            raise _UnfitError(f"one line of at most {longest} characters")
        return answer

    return Question(key=key, words=words, default=default, hint=f"some words such as {default}", read=read)
