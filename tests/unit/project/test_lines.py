"""Lines of keys, in every way that TOML lets a key be written."""

from __future__ import annotations

import pytest

from lathlight.project.lines import line_numbers

TEXT = """\
# line 1
project.title = "dotted"

[room]
width = "5 m"
outline = [
  [0, 0],
  [4, 0],
  [4, 4],
]
doors = [{name = "a", clear_width = 1}, {name = "b"}]

[[walls]]
name = '''
long
name'''
length = 1
trim = [
  "base",
  "rail",
]
  [[walls.openings]]
  name = "hatch"

  [[walls.openings]]
  name = "door"

[[walls]]
name = "side" # [[walls]] in a comment

[[room.pillars]]
name = "post"

[set.flats]
max_width = 1
"""

PLACES = [
    (("project", "title"), 2),
    (("room",), 4),
    (("room", "width"), 5),
    (("room", "outline"), 6),
    (("room", "outline", 1), 8),
    (("room", "outline", 1, 1), 8),
    (("room", "outline", 2, 0), 9),
    (("room", "doors", 0, "clear_width"), 11),
    (("room", "doors", 1), 11),
    (("walls", 0), 13),
    (("walls", 0, "name"), 14),
    (("walls", 0, "length"), 17),
    (("walls", 0, "trim", 1), 20),
    (("walls", 0, "openings", 0), 22),
    (("walls", 0, "openings", 1, "name"), 26),
    (("walls", 1), 28),
    (("walls", 1, "name"), 29),
    (("room", "pillars", 0), 31),
    (("room", "pillars", 0, "name"), 32),
    (("set", "flats", "max_width"), 35),
    (("walls", 1, "length"), 28),  # not there: the table that lacks it
    (("walls", 0, "openings", 0, "width"), 22),
    (("room", "doors", 1, "clear_width"), 11),
]


@pytest.mark.parametrize(("path", "line"), PLACES)
def test_a_key_is_found_on_its_line(path: tuple[str | int, ...], line: int) -> None:
    assert line_numbers(TEXT, [path]) == {path: line}


def test_many_keys_are_found_at_once_and_alike() -> None:
    assert line_numbers(TEXT, [path for path, _ in PLACES]) == dict(PLACES)


def test_lines_of_other_line_ends_count_alike() -> None:
    assert line_numbers(TEXT.replace("\n", "\r\n"), [path for path, _ in PLACES]) == dict(PLACES)


def test_what_is_not_there_at_all_has_no_line() -> None:
    assert line_numbers(TEXT, [("lights",), (), ("lights", 0, "name")]) == {}


def test_a_text_that_cannot_be_read_has_no_lines() -> None:
    assert line_numbers("a = [", [("a",)]) == {}
