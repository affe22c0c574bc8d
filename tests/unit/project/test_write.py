"""Values changed in a file with everything else kept, and whole files."""

from __future__ import annotations

import math
from decimal import Decimal
from pathlib import Path

import pytest

from lathlight.project import Change, dump_project, parse_project, read_project, set_values
from lathlight.units import parse_mass

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))

TEXT = """\
# A corner. Mind the stove!
[project]
title = "Corner" # on every page
units = "imperial"

[room]
width = "15ft"
depth = "12ft"
ceiling = "8ft"

[set]
height = "7ft 6in"   # under the beam
sheet = "ply 3-8 in"

# the long one
[[walls]]
name = "back"
length = "8ft 0 1/2in" # measured twice
angle_to_next = 100

[[walls]]
name = "side"
length = "4ft"
"""


def change(*path: str | int, to: object) -> Change:
    return Change(path=path, value=to, why="asked for")


def test_a_length_is_written_in_the_file_s_own_system_with_its_comment_kept() -> None:
    text = set_values(TEXT, [change("walls", "back", "length", to=2743.2)])
    assert text == TEXT.replace('"8ft 0 1/2in" # measured twice', '"9ft 0in" # measured twice')


def test_an_entry_is_called_by_name_or_by_number() -> None:
    assert set_values(TEXT, [change("walls", 1, "length", to=1524.0)]) == set_values(
        TEXT, [change("walls", "side", "length", to=1524.0)]
    )


def test_an_angle_is_written_in_degrees_and_a_mass_in_pounds() -> None:
    text = set_values(
        TEXT,
        [
            change("walls", "back", "angle_to_next", to=math.pi / 2),
            change("workshop", "lift_per_person", to=parse_mass("55 lb")),
        ],
    )
    assert "angle_to_next = 90\n" in text
    assert text.endswith('\n[workshop]\nlift_per_person = "55 lb"\n')


def test_a_new_key_joins_its_table_and_everything_else_stays() -> None:
    text = set_values(TEXT, [change("set", "stud_spacing", to=406.4)])
    assert [line for line in text.splitlines() if line not in TEXT.splitlines()] == ['stud_spacing = "1ft 4in"']
    assert parse_project(text, name="x").set.stud_spacing == 406.4
    assert all(line in text.splitlines() for line in TEXT.splitlines())


def test_a_value_can_be_taken_out() -> None:
    text = set_values(TEXT, [change("walls", "back", "angle_to_next", to=None)])
    assert text == TEXT.replace("angle_to_next = 100\n", "")
    assert set_values(text, [change("walls", "back", "angle_to_next", to=None)]) == text


def test_a_new_entry_is_added_to_a_list() -> None:
    text = set_values(
        TEXT,
        [
            change("walls", "side", "openings", 0, "name", to="hatch"),
            change("walls", "side", "openings", 0, "kind", to="window"),
            change("walls", "side", "openings", "hatch", "at", to=304.8),
            change("walls", "side", "openings", "hatch", "width", to=304.8),
            change("walls", "side", "openings", "hatch", "height", to=304.8),
        ],
    )
    (opening,) = parse_project(text, name="x").walls[1].openings
    assert (opening.name, opening.at, opening.width) == ("hatch", 304.8, 304.8)
    assert "[[walls.openings]]" in text


def test_a_place_is_written_as_two_lengths() -> None:
    assert 'at = ["3ft 0in", "-1ft 0in"]' in set_values(TEXT, [change("set", "at", to=(914.4, -304.8))])


@pytest.mark.parametrize(
    "path", [("walls", "bakc", "length"), ("walls", 0, "wibble"), ("wibble", "x"), ("set", "x", "y")]
)
def test_a_path_to_nothing_is_a_fault_of_ours(path: tuple[str | int, ...]) -> None:
    with pytest.raises(KeyError):
        set_values(TEXT, [Change(path=path, value=1.0, why="")])


def test_a_text_without_changes_stays_byte_for_byte() -> None:
    for path in EXAMPLES:
        text = path.read_text(encoding="utf-8")
        assert set_values(text, []) == text


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_demo_set_reads_back_from_a_fresh_file(path: Path) -> None:
    project = read_project(path).project
    assert parse_project(dump_project(project), name="fresh.toml") == project


def test_a_fresh_file_leaves_defaults_out_and_keeps_the_figures_of_money() -> None:
    project = parse_project(TEXT + '\n[[prices]]\nitem = "2x2"\nprice = "3.80"\n', name="x")
    fresh = dump_project(project)
    assert fresh.startswith("format = 1\n\n[project]\ntitle =")
    assert "currency" not in fresh
    assert 'price = "3.80"' in fresh
    assert parse_project(fresh, name="x").prices[0].price == Decimal("3.80")


# --- comments and line ends ----------------------------------------------------------------------------------------

NOTED = """\
[project]
title = "noted"
units = "metric"

# the left one
[[walls]]
name = "a"
length = 1000

# the back
[[walls]]
name = "b"
length = 2000
# about b

# how it is sawn
[workshop]
kerf = 3
"""
EVERY_KIND = [
    Change(path=("walls", "b", "height"), value=2100.0, why=""),
    Change(path=("project", "precision"), value="1 mm", why=""),
    Change(path=("walls", "a", "openings", 0, "name"), value="door", why=""),
    Change(path=("room", "ceiling"), value=2600.0, why=""),
    Change(path=("walls", "a", "length"), value=1200.0, why=""),
    Change(path=("workshop", "kerf"), value=None, why=""),
]


def test_a_file_of_windows_line_ends_keeps_them_in_every_line() -> None:
    windows = NOTED.replace("\n", "\r\n")
    changed = set_values(windows, EVERY_KIND)
    assert changed.count("\n") == changed.count("\r\n")
    assert changed.replace("\r\n", "\n") == set_values(NOTED, EVERY_KIND)
    assert set_values(windows, []) == windows


@pytest.mark.parametrize(
    ("gone", "head"), [(("walls", "b"), "[workshop]"), (("walls", "a"), "[[walls]]"), (("walls", 1), "[workshop]")]
)
def test_an_entry_taken_out_leaves_the_next_tables_comment(gone: tuple[str | int, ...], head: str) -> None:
    changed = set_values(NOTED, [Change(path=gone, value=None, why="")])
    comment = "# how it is sawn" if head == "[workshop]" else "# the back"
    assert f"\n\n{comment}\n{head}\n" in changed
    assert changed.count("[[walls]]") == 1
    assert "# about b" not in changed or gone[1] == "a"


def test_a_comment_close_above_the_next_table_stays_too() -> None:
    close = NOTED.replace("# about b\n\n", "")
    changed = set_values(close, [Change(path=("walls", "b"), value=None, why="")])
    assert "# how it is sawn\n[workshop]\n" in changed


def test_a_new_key_stands_before_the_next_tables_comment() -> None:
    changed = set_values(NOTED, EVERY_KIND[:3])
    assert 'precision = "1 mm"\n\n# the left one\n[[walls]]\nname = "a"' in changed
    assert '# about b\nheight = "2100 mm"\n\n# how it is sawn\n[workshop]' in changed
    assert 'name = "door"\n\n# the back\n[[walls]]\nname = "b"' in changed
