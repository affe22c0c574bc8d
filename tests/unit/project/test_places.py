"""What later stages find at a wall, an opening, a line, a tier or the floor is told with file, line and key."""

from __future__ import annotations

from lathlight.errors import InputError, Problem
from lathlight.project import relocated

TEXT = """\
# walls
[[walls]]
name = "back"

[[walls]]
name = 'the "blue" wall'
openings = [{ name = "hatch" }]

[[walls]]
name = "side"
  [[walls.openings]]
  name = "door"

[[trim]]
name = "dado"

[[moulding_frames]]
name = "low"
gap = 100

[floor]
covering = "boards"
"""


def problem(place: str) -> Problem:
    return Problem(place=place, found="f", expected="e", remedy="r")


def places(*told: str) -> list[str]:
    error = relocated(InputError([problem(each) for each in told]), name="s.toml", text=TEXT)
    assert {(each.found, each.expected, each.remedy) for each in error.problems} == {("f", "e", "r")}
    return [each.place for each in error.problems]


def test_walls_and_openings_get_their_line_and_key_in_the_order_of_the_file() -> None:
    assert places('walls "side" opening "door"', 'walls "side"', 'walls "back"') == [
        's.toml:2 walls[0] "back"',
        's.toml:9 walls[2] "side"',
        's.toml:11 walls[2] "side" openings[0] "door"',
    ]


def test_a_name_with_quotation_marks_is_found_and_so_is_an_opening_on_one_line() -> None:
    assert places('walls "the "blue" wall" opening "hatch"') == [
        's.toml:7 walls[1] "the "blue" wall" openings[0] "hatch"'
    ]


def test_a_place_that_the_file_does_not_have_stays_and_comes_last() -> None:
    assert places("the room", 'walls "back"') == ['s.toml:2 walls[0] "back"', "the room"]


def test_lines_of_trim_tiers_and_the_floor_get_their_line_also_for_a_key_that_is_not_stated() -> None:
    told = ('walls "back" trim "dado"', 'moulding_frames "low"', 'moulding_frames "low" gap', "floor", "floor depth")
    assert places(*told) == [
        's.toml:14 trim[0] "dado"',
        's.toml:17 moulding_frames[0] "low"',
        's.toml:19 moulding_frames[0] "low" gap',
        "s.toml:21 floor",
        "s.toml:21 floor depth",
    ]
