"""Names looked up, defaults filled in with their reason, lengths on the saw's grid."""

from __future__ import annotations

import math

import pytest

from lathlight.catalog import load_catalog
from lathlight.errors import InputError, Problem
from lathlight.project import Brief, parse_project, resolve

HEAD = """\
[project]
title = "Corner"
units = "{units}"
[room]
width = "5 m"
depth = "4 m"
ceiling = "3 m"
[set]
height = "2.4 m"
"""
WALL = '[[walls]]\nname = "back"\nlength = "2.2 m"\n'


def brief_of(text: str, *, units: str = "metric", head: str = HEAD) -> Brief:
    text = head.format(units=units) + text
    return resolve(parse_project(text, name="c.toml"), load_catalog(), place="c.toml", text=text)


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InputError) as caught:
        brief_of(text)
    return caught.value.problems


def test_a_wall_that_states_nothing_gets_the_usual_things_with_their_reason() -> None:
    (wall,) = brief_of(WALL).walls
    assert (wall.sheet.name, wall.framing.name, wall.stud_spacing) == ("ply 9 mm", "38x38", 610.0)
    assert sorted(wall.assumed) == ["framing", "sheet", "stud_spacing"]
    assert wall.assumed["sheet"].source == "common practice, no source"
    assert wall.assumed["stud_spacing"].inputs == (("usual spacing", 610.0, "mm"), ("ply 9 mm allows", 610.0, "mm"))


def test_an_imperial_project_gets_the_usual_things_of_its_own_system() -> None:
    brief = brief_of(WALL, units="imperial")
    (wall,) = brief.walls
    assert (wall.sheet.name, wall.framing.name, wall.stud_spacing) == ("ply 3-8 in", "2x2", pytest.approx(609.6))
    assert brief.title.paper == "Letter"
    assert brief.saw.kerf == pytest.approx(3.175)
    assert brief.hardware.corner_plate.name == "corner plate 6 in"
    assert brief.hardware.sill_strap.name == "sill strap 3-4 in"


def test_thin_sheet_brings_the_studs_closer() -> None:
    (wall,) = brief_of(WALL + 'sheet = "ply 4 mm"\n').walls
    assert wall.stud_spacing == 305.0


def test_what_is_stated_is_not_assumed() -> None:
    (wall,) = brief_of(WALL + 'sheet = "ply 12 mm"\nframing = "38x63"\nstud_spacing = 400\nheight = 2000\n').walls
    assert (wall.sheet.name, wall.framing.name, wall.stud_spacing, wall.height) == ("ply 12 mm", "38x63", 400.0, 2000.0)
    assert wall.assumed == {}


def test_lengths_are_brought_to_the_saw_s_grid() -> None:
    (wall,) = brief_of(WALL.replace('"2.2 m"', '"8ft"') + 'height = "7ft 1/2in"\n').walls
    assert (wall.length, wall.height) == (2438.0, 2146.0)
    (wall,) = brief_of(WALL.replace('"2.2 m"', '"2438 mm"'), units="imperial").walls
    assert wall.length == 2438.4


OPENING = '[[walls.openings]]\nname = "hatch"\nkind = "{kind}"\nat = 500\nwidth = 700\nheight = 1500\n'


def test_a_door_gets_a_lining_as_deep_as_sheet_and_frame() -> None:
    (wall,) = brief_of(WALL + OPENING.format(kind="door")).walls
    (door,) = wall.openings
    assert (door.left, door.width, door.height, door.sill, door.rise) == (500, 700, 1500, 0, 0)
    assert (door.lining, door.lining_depth, door.gap, door.reveal) == (18.0, 9.0 + 38.0, 6.0, 0.0)
    assert {"openings/hatch/lining", "openings/hatch/lining_depth", "openings/hatch/gap"} <= set(wall.assumed)


def test_an_opening_without_a_lining_has_no_gap_either() -> None:
    (wall,) = brief_of(WALL + OPENING.format(kind="window") + "lining = 0\n").walls
    assert (wall.openings[0].lining, wall.openings[0].lining_depth, wall.openings[0].gap) == (0.0, 0.0, 0.0)


def test_an_arch_rises_half_its_width_and_is_lined_only_on_request() -> None:
    (wall,) = brief_of(WALL + OPENING.format(kind="arch")).walls
    assert (wall.openings[0].rise, wall.openings[0].lining) == (350.0, 0.0)
    assert wall.assumed["openings/hatch/rise"].value == 350.0


def test_openings_lie_left_to_right_whatever_their_order_in_the_file() -> None:
    second = (
        OPENING.format(kind="window").replace("hatch", "slit").replace("at = 500", "at = 100").replace("700", "300")
    )
    (wall,) = brief_of(WALL + OPENING.format(kind="door") + second).walls
    assert [opening.name for opening in wall.openings] == ["slit", "hatch"]


TRIM = """
[[trim]]
name = "rail"
kind = "rail"
profile = "rail 57"
height = 900
[[trim]]
name = "base"
kind = "base"
profile = "base 95"
[[trim]]
name = "crown"
kind = "cornice"
profile = "cornice 92 at 38"
"""


def test_trim_lines_lie_bottom_to_top_with_base_and_cornice_in_their_places() -> None:
    (wall,) = brief_of(WALL + TRIM).walls
    assert [(line.name, line.bottom, line.top) for line in wall.trim[:2]] == [
        ("base", 0.0, 95.0),
        ("rail", 843.0, 900.0),
    ]
    crown = wall.trim[2]
    assert crown.top == 2400.0
    assert 0 < crown.top - crown.bottom < 92  # upright it covers less than across its face


def test_a_wall_can_leave_trim_lines_out() -> None:
    (wall,) = brief_of(WALL + 'trim = ["base"]\n' + TRIM).walls
    assert [line.name for line in wall.trim] == ["base"]


def test_what_hangs_on_a_wall_is_a_load_at_its_top() -> None:
    shelf = '[[props]]\nname = "shelf"\nwidth = 900\nheight = 200\ndepth = 220\nmass = 12\n'
    (wall,) = brief_of(WALL + shelf + 'wall = "back"\nalong = 750\nabove_floor = 1500\n').walls
    (load,) = wall.loads
    assert (load.along, load.width, load.height, load.mass) == (750.0, 900.0, 1700.0, 12.0)


def test_corners_take_the_wall_s_word_then_the_set_s() -> None:
    walls = WALL + 'angle_to_next = 110\nframe_laps = "this"\n' + WALL.replace("back", "side")
    (corner,) = brief_of('corner = "mitre"\nframe_laps = "next"\n' + walls).corners
    assert (corner.left, corner.right, corner.style) == ("back", "side", "mitre")
    assert (corner.frame_laps, corner.sheet_laps) == ("this", "auto")
    assert corner.angle == pytest.approx(math.radians(110))


def test_a_corner_is_square_where_it_states_nothing() -> None:
    (corner,) = brief_of(WALL + WALL.replace("back", "side")).corners
    assert corner.angle == math.pi / 2


def test_a_flat_weighs_at_most_what_the_crew_lifts() -> None:
    limits = brief_of(WALL + "[workshop]\npeople = 3\nlift_per_person = 20\n").limits
    assert (limits.max_weight, limits.max_width, limits.max_height) == (30.0, math.inf, math.inf)
    assert limits.assumed["max_weight"].inputs == (("people", 3, ""), ("lift of each", 20.0, "kg"))
    stated = brief_of(WALL.replace("[[walls]]", '[set.flats]\nmax_weight = "40 kg"\n[[walls]]')).limits
    assert (stated.max_weight, dict(stated.assumed)) == (40.0, {})


def test_corner_screws_do_not_come_out_of_the_second_stud() -> None:
    for units, screw in (("metric", "screw 5x70"), ("imperial", "screw no 8 x 2 1-2 in")):
        brief = brief_of(WALL, units=units)
        assert brief.hardware.corner_screw.name == screw
        assert brief.hardware.corner_screw.length < 2 * brief.walls[0].framing.width
        assert brief.hardware.frame_screw.length >= 2 * brief.walls[0].framing.width


def test_the_room_is_drawn_anticlockwise_with_its_doors_in_its_sides() -> None:
    doors = "".join(
        f'[[room.doors]]\nname = "{side}"\nclear_width = 800\nclear_height = 2000\nside = "{side}"\nat = 100\n'
        for side in ("front", "back", "left", "right")
    )
    room = brief_of(WALL, head=HEAD.replace("[set]", doors + "[set]")).room
    assert room.outline == ((0, 0), (5000, 0), (5000, 4000), (0, 4000))
    assert {door.name: (door.a, door.b, door.run_inside) for door in room.doors} == {
        "front": ((100, 0), (900, 0), 4000),
        "back": ((100, 4000), (900, 4000), 4000),
        "left": ((0, 100), (0, 900), 5000),
        "right": ((5000, 100), (5000, 900), 5000),
    }


def test_an_outline_the_wrong_way_round_is_turned() -> None:
    outline = "outline = [[0, 0], [0, 4000], [5000, 4000], [5000, 0]]\n"
    room = brief_of(WALL, head=HEAD.replace('width = "5 m"\ndepth = "4 m"\n', outline)).room
    assert room.outline == ((5000, 0), (5000, 4000), (0, 4000), (0, 0))


def test_the_way_in_turns_square_and_stairs_have_a_pitch() -> None:
    stages = "".join(
        f'[[room.way_in]]\nname = "{kind}"\nkind = "{kind}"\nclear_width = 1000\nclear_height = 2000\n'
        for kind in ("turn", "stairs", "corridor")
    )
    way_in = brief_of(WALL, head=HEAD.replace("[set]", stages + "[set]")).room.way_in
    assert way_in[0].turn_angle == math.pi / 2
    assert [round(math.degrees(stage.slope)) for stage in way_in] == [0, 38, 0]


PICTURES = """
[[sitters]]
name = "he"
stature = 1800
right = -300
forward = 1000
[[sitters]]
name = "she"
right = 500
seated = true
[[pictures]]
name = "both"
lens = [35, 70]
sitters = ["he", "she"]
[[pictures]]
name = "her"
lens = 85
framing = "measured"
framing_height = 700
camera_height = 1200
angles = [-20, 30]
sitters = ["she"]
[[pictures]]
name = "far"
lens = 50
sensor = [24, 36]
distance = 3000
sitters = ["he"]
"""


def test_a_group_is_aimed_at_in_its_middle() -> None:
    both = brief_of(WALL + PICTURES).pictures[0]
    assert (both.sitter.name, both.sitter.right, both.sitter.forward) == ("he and she", 100.0, 1250.0)
    assert (both.sitter.stature, both.sitter.seated, both.lens, both.angles) == (
        1800.0,
        False,
        (35.0, 70.0),
        (0.0, 0.0),
    )
    assert both.camera_height == (1800.0 - 113.0,) * 2


def test_a_picture_keeps_what_it_states() -> None:
    her = brief_of(WALL + PICTURES).pictures[1]
    assert (her.frame_height, her.camera_height, her.lens) == (700.0, (1200.0, 1200.0), (85.0, 85.0))
    assert [round(math.degrees(angle)) for angle in her.angles] == [-20, 30]
    assert (her.sitter.forward, her.sitter.stature) == (1500.0, 1700.0)


def test_a_distance_gives_the_frame_by_similar_triangles() -> None:
    assert brief_of(WALL + PICTURES).pictures[2].frame_height == pytest.approx(36 * 3000 / 50)


def test_a_picture_of_nobody_shows_somebody_usual() -> None:
    (picture,) = brief_of(WALL + '[[pictures]]\nname = "p"\nlens = 50\n').pictures
    assert (picture.sitter.name, picture.sitter.stature) == ("sitter", 1700.0)


FRAMINGS = ["head and shoulders", "half length", "three-quarter length", "full length"]


@pytest.mark.parametrize("seated", ["true", "false"])
def test_each_framing_shows_more_than_the_one_before(seated: str) -> None:
    pictures = "".join(f'[[pictures]]\nname = "{each}"\nlens = 50\nframing = "{each}"\n' for each in FRAMINGS)
    brief = brief_of(WALL + f'[[sitters]]\nname = "she"\nseated = {seated}\n' + pictures)
    heights = [picture.frame_height for picture in brief.pictures]
    assert heights == sorted(heights)
    assert len(set(heights)) == len(heights)


UNKNOWN = [
    (WALL + 'sheet = "ply 9mm"\n', 'walls[0] "back" sheet', 'unknown sheet "ply 9mm"', "sheets", '"ply 9 mm"?'),
    (WALL + 'framing = "2 x 2"\n', 'walls[0] "back" framing', 'unknown timber "2 x 2"', "lumber", '"2x2"?'),
    (WALL + 'framing = "zzz"\n', 'walls[0] "back" framing', '"zzz"', "lumber", "lathlight catalog timber"),
    (WALL + TRIM.replace("rail 57", "rail 75"), 'trim[0] "rail" profile', '"rail 75"', "profiles", '"rail 57"?'),
    (WALL + '[finish]\npaint = "mat paint"\n', "finish paint", 'paint "mat paint"', "paints", '"matt paint"?'),
    (WALL + '[finish]\nprimer = "pimer"\n', "finish primer", 'paint "pimer"', "paints", '"primer"?'),
    (
        WALL + OPENING.format(kind="window") + 'casing = "casing 75"\n',
        'walls[0] "back" openings[0] "hatch" casing',
        'moulding "casing 75"',
        "profiles",
        '"casing 57"?',
    ),
    (
        WALL + '[[moulding_frames]]\nname = "p"\nprofile = "panel"\nbottom = 1\ntop = 2\ngap = 1\n',
        'moulding_frames[0] "p" profile',
        'moulding "panel"',
        "profiles",
        '"panel ',
    ),
    (
        WALL + TRIM.replace("cornice 92 at 38", "base 95"),
        'trim[2] "crown" profile',
        "no spring angle",
        "spring",
        "cornice",
    ),
    (WALL + TRIM.replace("height = 900", "height = 40"), 'trim[0] "rail" height', "40 mm", "57 mm", "greater"),
    (WALL.replace("2.2 m", "70 mm"), 'walls[0] "back" length', "70 mm", "76 mm (two end studs of 38x38)", "1200 mm"),
    (WALL + "height = 76\n", 'walls[0] "back" height', "76 mm", "76 mm (two plates of 38x38)", "1200 mm"),
    (
        WALL + '[[catalog.sheets]]\nname = "ply 9 mm"\nwidht = 1000\n',
        'catalog sheets[0] "ply 9 mm" widht',
        "unknown column",
        "a column of sheets",
        '"width"?',
    ),
]


@pytest.mark.parametrize(("text", "key", "found", "expected", "remedy"), UNKNOWN)
def test_what_cannot_be_looked_up_or_built_is_told(text: str, key: str, found: str, expected: str, remedy: str) -> None:
    (problem,) = problems_of(text)
    place, told = problem.place.split(" ", 1)
    assert told == key
    line = (HEAD + text).splitlines()[int(place.removeprefix("c.toml:")) - 1]
    assert line.strip().startswith(key.split(" ")[-1])
    assert found in problem.found
    assert expected in problem.expected
    assert remedy in problem.remedy


def test_all_problems_come_at_once_in_the_order_of_the_file() -> None:
    text = WALL + 'sheet = "pli 9 mm"\n' + TRIM.replace("rail 57", "x") + '[finish]\npaint = "x"\n'
    assert [each.place.split(" ", 1)[1] for each in problems_of(text)] == [
        'walls[0] "back" sheet',
        'trim[0] "rail" profile',
        "finish paint",
    ]


def test_broken_rules_wrong_values_and_unknown_names_come_in_one_round() -> None:
    text = HEAD.format(units="metric") + WALL + 'sheet = "pli 9 mm"\nhieght = 3\n' + OPENING.format(kind="wndow")
    text += 'casing = "casing 75"\n' + WALL + 'framing = "38x83"\n' + TRIM.replace("rail 57", "rail 75")
    with pytest.raises(InputError) as caught:
        parse_project(text, name="c.toml", catalog=load_catalog())
    assert [each.place.split(" ", 1)[1] for each in caught.value.problems] == [
        'walls[0] "back" sheet',
        'walls[0] "back" hieght',
        'walls[0] "back" openings[0] "hatch" kind',
        'walls[0] "back" openings[0] "hatch" casing',
        'walls[1] "back" name',  # the same name twice
        'walls[1] "back" framing',
        'trim[0] "rail" profile',
    ]
    lines = [int(each.place.split(":")[1].split(" ")[0]) for each in caught.value.problems]
    assert lines == sorted(lines)


def test_a_wall_too_short_for_its_timber_is_told_beside_a_slip_elsewhere() -> None:
    text = HEAD.format(units="metric") + WALL.replace("2.2 m", "70 mm") + '[finish]\ncoats = "two"\n'
    with pytest.raises(InputError) as caught:
        parse_project(text, name="c.toml", catalog=load_catalog())
    assert [each.place.split(" ", 1)[1] for each in caught.value.problems] == ['walls[0] "back" length', "finish coats"]


@pytest.mark.parametrize("rows", ["[catalog]\nsheet = 1\n", "[catalog]\nsheets = 1\n", "[catalog]\nlumber = [1]\n"])
def test_a_catalogue_that_cannot_be_read_hides_no_unknown_name_and_no_slip(rows: str) -> None:
    text = HEAD.format(units="metric") + WALL + 'sheet = "pli 9 mm"\n' + rows
    with pytest.raises(InputError) as caught:
        parse_project(text, name="c.toml", catalog=load_catalog())
    first, *others = caught.value.problems
    assert 'unknown sheet "pli 9 mm"' in first.found
    assert len(others) == 1


def test_a_name_of_a_row_in_another_table_is_unknown() -> None:
    row = '[[catalog.lumber]]\nname = "thin"\nlike = "38x38"\n'
    (problem,) = problems_of(WALL + 'sheet = "thin"\n' + row)
    assert problem.found == 'unknown sheet "thin"'


def test_one_unknown_sheet_of_the_whole_set_is_told_once() -> None:
    assert len(problems_of('sheet = "x"\n' + WALL + WALL.replace("back", "side"))) == 1


def test_a_row_of_the_project_can_be_used_by_its_name() -> None:
    row = '[[catalog.sheets]]\nname = "thin"\nlike = "ply 9 mm"\nthickness = 5\n'
    (wall,) = brief_of(WALL + 'sheet = "thin"\n' + row).walls
    assert (wall.sheet.thickness, wall.sheet.width) == (5.0, 1220.0)


def test_a_row_with_a_fault_is_told_and_not_the_wall_that_uses_it() -> None:
    row = '[[catalog.sheets]]\nname = "thin"\nlike = "ply 99 mm"\n'
    (problem,) = problems_of(WALL + 'sheet = "thin"\n' + row)
    assert problem.place.endswith('catalog sheets[0] "thin" like')


def test_without_the_text_places_have_no_lines() -> None:
    text = HEAD.format(units="metric") + WALL + 'sheet = "x"\n'
    with pytest.raises(InputError) as caught:
        resolve(parse_project(text, name="c.toml"), load_catalog(), place="c.toml")
    assert caught.value.problems[0].place == 'c.toml walls[0] "back" sheet'
