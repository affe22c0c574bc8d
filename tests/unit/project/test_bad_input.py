"""Every bad input of a project file: place with its line, what was found, what was expected, how to mend it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from lathlight.errors import InputError, Problem
from lathlight.project import parse_project, read_project

GOOD = """\
# a corner
format = 1
[project]
title = "Corner"
units = "metric"

[room]
width = "5 m"
depth = "4 m"
ceiling = "2.5 m"
  [[room.doors]]
  name = "shed door"
  clear_width = 900
  clear_height = 2000

[set]
height = 2250

[[walls]]
name = "back"
length = 2200   # finished face
angle_to_next = 90
trim = ["rail"]
  [[walls.openings]]
  name = "hatch"
  kind = "window"
  at = 300
  width = 600
  height = 500
  sill = 900
  [[walls.openings]]
  name = "door"
  kind = "door"
  at = 1100
  width = 700
  height = 2000

[[walls]]
name = "side"
length = 1400

[[trim]]
name = "rail"
kind = "rail"
profile = "rail 57"
height = 900

[[props]]
name = "shelf"
width = 900
height = 200
depth = 220
wall = "back"
along = 500
above_floor = 1500

[[sitters]]
name = "potter"

[[pictures]]
name = "hands"
lens = 85
angles = [-10, 10]
sitters = ["potter"]

[[lights]]
name = "key"
role = "key"
pictures = ["hands"]

[[targets]]
name = "face"
lights = ["key"]
reading = "f/8"
"""


def changed(before: str, after: str, *, text: str = GOOD) -> tuple[str, int]:
    """Return the text with one piece replaced, and the line on which the new piece ends."""
    assert text.count(before) == 1, before
    start = text.index(before)
    return text.replace(before, after), text.count("\n", 0, start) + after.rstrip("\n").count("\n") + 1


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InputError) as caught:
        parse_project(text, name="corner.toml")
    return caught.value.problems


def test_the_file_that_all_faults_are_planted_in_is_good() -> None:
    assert parse_project(GOOD, name="corner.toml").walls[0].openings[1].name == "door"


FAULTS = [
    # what is replaced, by what, key in words, words in found, in expected, in remedy
    ("height = 2250", "heigth = 2250", "set heigth", "unknown key heigth = 2250", "height", 'Did you mean "height"?'),
    (
        "height = 2250",
        "wibble = 2250\nheight = 2250",
        "set wibble",
        "unknown key",
        "one of the keys",
        "Take the line out.",
    ),
    ('title = "Corner"', "title = 7", "project title", "7", "text of 1 to 120 characters", '"words"'),
    ('units = "metric"', 'units = "metrik"', "project units", '"metrik"', '"metric", "imperial"', '"metric"?'),
    ('units = "metric"', 'units = "metric"\ntax_percent = "much"', "project tax_percent", '"much"', "0 to 100", "2"),
    ('units = "metric"', 'units = "metric"\ndate = "soon"', "project date", '"soon"', "a date", "2026-03-31"),
    (
        'units = "metric"',
        'units = "metric"\nprecision = "1/16 in"',
        "project precision",
        "metric units",
        "1 mm",
        "1 mm",
    ),
    ("ceiling = ", "ceiling = -1 # ", "room ceiling", "-1 mm", "a length above 0", "2.44 m"),
    ("length = 2200", "length = 0", 'walls[0] "back" length', "0 mm", "a length above 0", "2.44 m"),
    ("length = 2200", "length = -2200", 'walls[0] "back" length', "-2200 mm", "a length above 0", "2.44 m"),
    ("length = 2200", "length = true", 'walls[0] "back" length', "true", "a length above 0", "2.44 m"),
    ("length = 2200", "length = nan", 'walls[0] "back" length', "nan", "a length above 0", "2.44 m"),
    ("length = 2200", "length = 1e300", 'walls[0] "back" length', "e+300", "below one kilometre", "2440 mm"),
    ("length = 2200", 'length = "8 1/2"', 'walls[0] "back" length', "without a unit", "unit", "8 ft 1/2 in"),
    ("length = 2200", 'length = "1,220"', 'walls[0] "back" length', '"1,220"', "separator", "1220 mm or 1.22 m"),
    ("length = 2200", 'length = "2x4"', 'walls[0] "back" length', '"2x4"', "one actual length", "nominal"),
    ("length = 2200", "", 'walls[0] "back" length', "no length", "a length above 0", 'length = "2.44 m"'),
    ("lens = 85", "lens = 0", 'pictures[0] "hands" lens', "0", "a number above 0, or two values", "2"),
    ("lens = 85", 'lens = [35, "x"]', 'pictures[0] "hands" lens[1]', '"x"', "a number above 0", "2"),
    ("lens = 85", "lens = [35]", 'pictures[0] "hands" lens', "too few", "two values", "Add"),
    ("lens = 85", "lens = true", 'pictures[0] "hands" lens', "true", "a number above 0", "2"),
    (
        "lens = 85",
        "lens = [70, 35]",
        'pictures[0] "hands" lens',
        "70 mm to 35 mm",
        "smaller figure first",
        "35 mm to 70 mm",
    ),
    ("lens = 85", 'lens = 85\naspects = ["0:5"]', 'pictures[0] "hands" aspects[0]', '"0:5"', "above 0", "4:5"),
    ("lens = 85", 'lens = 85\naspects = ["tall"]', 'pictures[0] "hands" aspects[0]', '"tall"', "4:5", "4:5"),
    ("lens = 85", 'lens = 85\nframing = "measured"', 'pictures[0] "hands"', "measured", "framing_height", "Add"),
    ("angles = [-10, 10]", "angles = [10, -10]", 'pictures[0] "hands" angles', "10° to -10°", "first", "-10° to 10°"),
    (
        "angles = [-10, 10]",
        "angles = [-100, 100]",
        'pictures[0] "hands" angles',
        "-100° to 100°",
        "-90° to 90°",
        "sitter",
    ),
    ('trim = ["rail"]', 'trim = "rail"', 'walls[0] "back" trim', '"rail"', "a list", 'trim = ["rail"]'),
    ('trim = ["rail"]', 'trim = ["rial"]', 'walls[0] "back" trim[0]', '"rial"', "trim line", 'Did you mean "rail"?'),
    ('sitters = ["potter"]', 'sitters = ["poter"]', 'pictures[0] "hands" sitters[0]', '"poter"', "sitter", '"potter"?'),
    (
        'pictures = ["hands"]',
        'pictures = ["feet"]',
        'lights[0] "key" pictures[0]',
        '"feet"',
        "picture",
        'Known: "hands"',
    ),
    ('lights = ["key"]', 'lights = ["kee"]', 'targets[0] "face" lights[0]', '"kee"', "light", '"key"?'),
    ('wall = "back"', 'wall = "bakc"', 'props[0] "shelf" wall', '"bakc"', "wall", 'Did you mean "back"?'),
    ("along = 500\n", "", 'props[0] "shelf"', "without along", "along", "Add along"),
    ("along = 500", "along = 5000", 'props[0] "shelf" along', "5000 mm", "2200 mm", "centre"),
    ("along = 500", "along = 500\nat = [0, 500]", 'props[0] "shelf" at', "both at and wall", "hangs", "Take one"),
    ('name = "side"', 'name = "back"', 'walls[1] "back" name', 'second wall "back"', "own", '"back 2"'),
    (
        'name = "door"',
        'name = "hatch"',
        'walls[0] "back" openings[1] "hatch" name',
        "second opening",
        "own",
        '"hatch 2"',
    ),
    ('name = "side"', 'name = "a/b"', 'walls[1] "a/b" name', '"a/b"', "without / or @", '"back"'),
    ("angle_to_next = 90", "angle_to_next = 200", 'walls[0] "back" angle_to_next', "200°", "60° to 179°", "two sets"),
    (
        "angle_to_next = 90",
        "angle_to_next = 45",
        'walls[0] "back" angle_to_next',
        "45°",
        "60° to 179°",
        "Open the corner",
    ),
    ("angle_to_next = 90", "angle_to_next = 180", 'walls[0] "back" angle_to_next', "180°", "60° to 179°", "one wall"),
    (
        "length = 1400",
        "length = 1400\nangle_to_next = 90",
        'walls[1] "side" angle_to_next',
        "last wall",
        "after it",
        "next",
    ),
    (
        "length = 1400",
        'length = 1400\ncorner = "lap"',
        'walls[1] "side" corner',
        "corner on the last wall",
        "after it",
        "next",
    ),
    (
        "at = 300",
        "at = 1700",
        'walls[0] "back" openings[0] "hatch" at',
        "2300 mm from the left",
        "2200 mm long",
        "100 mm",
    ),
    (
        "height = 500",
        "height = 1500",
        'walls[0] "back" openings[0] "hatch" height',
        "2400 mm",
        "2250 mm high",
        "150 mm",
    ),
    ("at = 1100", "at = 850", 'walls[0] "back" openings[1] "door" at', "overlap by 50 mm", "own stretch", "50 mm"),
    (
        "  height = 2000\n",
        "  height = 2000\n  sill = 20\n",
        'walls[0] "back" openings[1] "door" sill',
        "20 mm",
        "floor",
        "window",
    ),
    (
        "sill = 900",
        "sill = 900\n  rise = 100",
        'walls[0] "back" openings[0] "hatch" rise',
        "a rise on a window",
        "arches",
        "arch",
    ),
    (
        'kind = "window"',
        'kind = "arch"\n  rise = 400',
        'walls[0] "back" openings[0] "hatch" rise',
        "rises 400 mm",
        "300 mm",
        'rise = "300 mm"',
    ),
    (
        "height = 900\n",
        "height = 2300\n",
        'trim[0] "rail" height',
        "2300 mm",
        '"back", which is 2250 mm high',
        "Lower it",
    ),
    ("height = 900\n", "", 'trim[0] "rail"', "a rail without height", "top edge", "900 mm"),
    ("height = 2250", "", 'walls[0] "back"', "no height", "[set]", "height ="),
    ('width = "5 m"\n', "", "room", "without width", "width and depth, or an outline", "Add width"),
    (
        "clear_width = 900",
        "clear_width = 900\n  at = 4500",
        'room doors[0] "shed door" at',
        "5400 mm",
        "5000 mm",
        "Measure",
    ),
    (
        "clear_height = 2000",
        "clear_height = 2600",
        'room doors[0] "shed door" clear_height',
        "2600 mm",
        "2500 mm",
        "Measure",
    ),
    (
        'role = "key"',
        'role = "key"\nat = [1, 2, 3]\nangle = 4',
        'lights[0] "key" at',
        "at and angle",
        "not both",
        "Take one",
    ),
    ("format = 1", "format = 2", "format", "format 2", "1 to 1", "newest"),
    ("format = 1", 'format = "new"', "format", '"new"', "1 to 1", "format = 1"),
]


@pytest.mark.parametrize(("before", "after", "key", "found", "expected", "remedy"), FAULTS)
def test_a_fault_is_told_with_its_place_and_its_mend(
    before: str, after: str, key: str, found: str, expected: str, remedy: str
) -> None:
    text, _ = changed(before, after)
    problems = problems_of(text)
    told = [each for each in problems if each.place.split(" ", 1)[1:] == [key]]
    assert len(told) == 1, [str(each) for each in problems]
    problem = told[0]
    assert found in problem.found
    assert expected in problem.expected
    assert remedy in problem.remedy
    line = int(problem.place.split(" ")[0].split(":")[1])
    _assert_line_shows(text.splitlines()[line - 1], key)


def _assert_line_shows(line: str, key: str) -> None:
    """The line is that of the key itself or, where the key is missing, of the table that lacks it."""
    last = key.split(" ")[-1].split("[")[0]
    assert line.strip().startswith((last, "[")), (line, key)


def test_the_line_is_that_of_the_key_itself() -> None:
    text, line = changed("length = 1400", "# a comment\n\nlength = 0")
    assert [each.place for each in problems_of(text)] == [f'corner.toml:{line} walls[1] "side" length']


def test_a_missing_key_is_told_at_its_table() -> None:
    text, line = changed('kind = "rail"\n', "")
    (problem,) = problems_of(text)
    assert problem.place == f'corner.toml:{line - 2} trim[0] "rail" kind'
    assert problem.remedy == 'Add a line such as kind = "base".'


def test_all_problems_come_at_once_in_the_order_of_the_file() -> None:
    text = GOOD
    for before, after in (
        ('reading = "f/8"', "reading = 8"),
        ('units = "metric"', 'units = "metric"\npaper = "A5"'),
        ("length = 1400", "length = -1"),
        ("at = 300", "at = 300\n  gap = -1"),
        ('sitters = ["potter"]', 'sitters = ["poter"]'),
    ):
        text, _ = changed(before, after, text=text)
    problems = problems_of(text)
    lines = [int(each.place.split(" ")[0].split(":")[1]) for each in problems]
    assert lines == sorted(lines)
    assert [each.place.split(" ", 1)[1] for each in problems] == [
        "project paper",
        'walls[0] "back" openings[0] "hatch" gap',
        'walls[1] "side" length',
        'pictures[0] "hands" sitters[0]',
        'targets[0] "face" reading',
    ]


def test_a_slip_in_one_wall_does_not_raise_false_alarms_about_the_others() -> None:
    text, _ = changed("length = 2200", "lenght = 2200")
    assert [each.place.split(" ", 1)[1] for each in problems_of(text)] == [
        'walls[0] "back" length',
        'walls[0] "back" lenght',
    ]


def test_no_word_of_the_validator_reaches_the_reader() -> None:
    jargon = (
        "Input should",
        "Extra inputs",
        "Field required",
        "valid string",
        "function-",
        "constrained",
        "tuple",
        "NoneType",
    )
    for before, after, *_ in FAULTS:
        text, _ = changed(before, after)
        said = "\n".join(str(each) for each in problems_of(text))
        assert [word for word in jargon if word in said] == [], said


def test_a_closed_ring_of_walls_is_refused() -> None:
    ring = "".join(f'[[walls]]\nname = "{n}"\nlength = 2000\n' for n in "abcd")
    head = GOOD[: GOOD.index("[[walls]]")]
    (problem,) = problems_of(head + ring)
    assert problem.found == 'wall "d" running into wall "a"'
    assert "neighbours only" in problem.expected
    assert "Shorten" in problem.remedy
    assert problem.place.endswith('walls[3] "d"')


def test_two_returns_that_lean_inwards_may_not_cross() -> None:
    def three(returns: int) -> str:
        sizes = zip("abc", (returns, 1000, returns), strict=True)
        return "".join(
            f'[[walls]]\nname = "{n}"\nlength = {s}\n' + "angle_to_next = 60\n" * (n != "c") for n, s in sizes
        )

    head = GOOD[: GOOD.index("[[walls]]")]
    assert len(parse_project(head + three(999), name="x").walls) == 3
    assert 'wall "c" running into wall "a"' in problems_of(head + three(1001))[0].found


def test_more_than_two_thousand_walls_are_refused() -> None:
    head = GOOD[: GOOD.index("[[walls]]")]
    walls = "".join(f'[[walls]]\nname = "w{n}"\nlength = 900\n' for n in range(2001))
    problem = problems_of(head + walls)[0]
    assert (problem.found, problem.expected) == ("2001 walls", "a list of tables, at most 2000")
    assert "several files" in problem.remedy


def test_a_file_without_walls_says_what_to_add() -> None:
    problems = problems_of(GOOD[: GOOD.index("[[walls]]")])
    assert [(each.found, each.remedy) for each in problems] == [("no [[walls]]", "Add a table [[walls]].")]


def test_an_empty_file_names_the_tables_that_it_needs() -> None:
    assert [each.found for each in problems_of("")] == ["no [project]", "no [room]", "no [[walls]]"]


ROOMS = [
    ("outline = [[0, 0], [4, 4], [4, 0], [0, 4]]", "cross or touch", "one after the other", "anticlockwise"),
    ("outline = [[0, 0], [4, 0], [8, 0]]", "without area", "not in one line", "in order"),
    ("outline = [[0, 0], [4, 0], [4, 4]]\nwidth = 5", "an outline and width", "not both", "outline"),
    ("outline = [[0, 0], [4, 0]]", "2 values", "at least 3", "Add"),
]


@pytest.mark.parametrize(("room", "found", "expected", "remedy"), ROOMS)
def test_a_room_needs_one_shape_that_can_be(room: str, found: str, expected: str, remedy: str) -> None:
    text = GOOD.replace('width = "5 m"\ndepth = "4 m"', room)
    problem = next(each for each in problems_of(text) if each.place.endswith("room outline"))
    assert found in problem.found
    assert expected in problem.expected
    assert remedy in problem.remedy


def test_moulding_frames_need_a_top_above_their_bottom_and_known_walls() -> None:
    tier = '\n[[moulding_frames]]\nname = "panels"\nprofile = "panel 30"\nbottom = 900\ntop = 300\ngap = 100\n'
    problems = problems_of(GOOD + tier + 'walls = ["sid"]\ncentre_on = "hand"\n')
    assert [(each.found, each.remedy) for each in problems] == [
        ("a top at 300 mm and a bottom at 900 mm", "Swap the two, or mend one of them."),
        ('"sid"', 'Did you mean "side"?'),
        ('"hand"', 'Did you mean "hands"?'),
    ]


def test_an_item_may_have_one_price_for_each_length() -> None:
    prices = '\n[[prices]]\nitem = "38x38"\nprice = 4\nlength = 2400\n'
    assert len(parse_project(GOOD + prices + prices.replace("2400", "3000"), name="x").prices) == 2
    (problem,) = problems_of(GOOD + prices + prices)
    assert problem.found == 'a second price of "38x38" at 2400 mm'
    assert "each length" in problem.expected


# --- files that are no project file at all --------------------------------------------------------------------------

BROKEN = [
    ("length = 2200", 'length = "8\' 0 1/2""', "An inch mark ends the text"),
    ("length = 2200", "length = 2,44", "quotation marks"),
    ("length = 2200", "length = 2.44 m", "quotation marks"),
    ('kind = "rail"', "kind = rail", "Put text in quotation marks"),
    ('name = "side"', 'name = "side"\nname = "side"', "Take one of the two lines out"),
    ("length = 2200", "length 2200", "Mend the line"),
    ('sitters = ["potter"]', 'sitters = [{name = "potter",\n  seated = true}]', "Close the braces on the same line"),
]


@pytest.mark.parametrize(("before", "after", "remedy"), BROKEN)
def test_a_file_that_is_not_toml_names_line_and_column(before: str, after: str, remedy: str) -> None:
    text, _ = changed(before, after)
    (problem,) = problems_of(text)
    place, column = problem.place.split(", column ")
    line = text.splitlines()[int(place.removeprefix("corner.toml:")) - 1]
    assert line.split("  #")[0].strip() in after
    assert 1 <= int(column) <= len(line) + 1
    assert line.strip()[:20] in problem.found
    assert "TOML" in problem.expected
    assert remedy in problem.remedy


def test_brackets_without_end_and_endless_numbers_are_refused() -> None:
    assert "brackets" in problems_of("a = " + "[" * 100_000)[0].found
    assert "digits" in problems_of("a = " + "9" * 10_000)[0].found


def problem_of_file(path: Path) -> Problem:
    with pytest.raises(InputError) as caught:
        read_project(path)
    (problem,) = caught.value.problems
    return problem


def test_a_good_file_is_read_with_its_text(tmp_path: Path) -> None:
    path = tmp_path / "corner.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    file = read_project(path)
    assert (file.project, file.path) == (parse_project(GOOD, name="x"), path)
    assert file.text.startswith("# a corner\r\n")


def test_a_missing_file_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    (tmp_path / "corner.toml").write_text(GOOD)
    problem = problem_of_file(tmp_path / "conrer.toml")
    assert (problem.place, problem.found) == ("conrer.toml", "no such file")
    assert problem.remedy == 'Did you mean "corner.toml"?'
    assert problem_of_file(tmp_path / "corner").remedy == 'Did you mean "corner.toml"?'
    assert "lathlight new" in problem_of_file(tmp_path / "nowhere" / "x.toml").remedy


@pytest.mark.parametrize("typed", ["nothere.toml", "other.toml", "c.toml"])
def test_a_missing_file_brings_up_no_name_that_has_only_its_ending_in_common(typed: str, tmp_path: Path) -> None:
    for other in ("t.toml", "corner.toml"):
        (tmp_path / other).write_text(GOOD)
    assert "lathlight new" in problem_of_file(tmp_path / typed).remedy


def test_a_folder_is_no_project_file(tmp_path: Path) -> None:
    problem = problem_of_file(tmp_path)
    assert (problem.found, problem.expected) == ("a folder", "a project file")
    assert ".toml" in problem.remedy


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes in this system's folders")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    assert problem_of_file(tmp_path / "pipe.toml").found == "something that is no file"


def test_a_file_that_may_not_be_read_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "corner.toml"
    path.write_text(GOOD)

    def refuse(self: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "read_bytes", refuse)
    problem = problem_of_file(path)
    assert problem.found == "a file that may not be read"
    assert "permissions" in problem.remedy


def test_a_file_over_one_megabyte_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "corner.toml"
    path.write_text("#" * 1_000_001)

    def fail(self: Path) -> bytes:
        raise AssertionError(self)

    monkeypatch.setattr(Path, "read_bytes", fail)
    problem = problem_of_file(path)
    assert (problem.found, problem.expected) == ("a file of 1.0 MB", "at most 1 MB")
    assert "several files" in problem.remedy


def test_a_text_over_one_megabyte_is_refused_too() -> None:
    assert problems_of("#" * 1_000_001)[0].expected == "at most 1 MB"


def test_a_file_that_is_not_utf_8_names_line_and_byte(tmp_path: Path) -> None:
    path = tmp_path / "corner.toml"
    path.write_bytes(GOOD.replace('"Corner"', '"Corner caf\xe9"').encode("latin-1"))
    problem = problem_of_file(path)
    assert problem.place == "corner.toml:4"
    assert "byte 0xe9 at place 20 of the line" in problem.found
    assert (problem.expected, "UTF-8" in problem.remedy) == ("text in UTF-8", True)
    path.write_bytes(GOOD.encode("utf-16"))
    assert problem_of_file(path).found == "a file in UTF-16"


def test_an_impossible_file_name_is_told_as_one(tmp_path: Path) -> None:
    assert "name" in problem_of_file(tmp_path / ("x" * 5000)).found


@pytest.mark.parametrize("name", ["a\\u0007b", "\\u001b[31mred", "\\u200b"])
def test_letters_that_print_as_nothing_are_refused(name: str) -> None:
    text = (
        '[project]\ntitle = "x"\nunits = "metric"\n[room]\nwidth = 5000\ndepth = 5000\nceiling = 3000\n'
        f'[set]\nheight = 2400\n[[walls]]\nname = "{name}"\nlength = 1000\n'
    )
    with pytest.raises(InputError, match="that can be seen"):
        parse_project(text, name="set.toml")


def test_tables_within_tables_without_end_are_refused() -> None:
    with pytest.raises(InputError, match="without end"):
        parse_project("[" + ".".join("a" * 2000) + "]\nb = 1\n", name="set.toml")
