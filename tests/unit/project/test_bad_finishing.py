"""Bad input of mouldings, floor, fixing and paint: one message with its line, what was found, expected, and a mend."""

from __future__ import annotations

import pytest
from tests.unit.project.made_up import BARE

from lathlight.catalog import load_catalog
from lathlight.errors import InputError, Problem
from lathlight.project import Brief, parse_project, resolve

FRAMES = """\
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = 300
top = 1800
gap = 100
"""
OPENING = '[[walls.openings]]\nname = "hatch"\nkind = "window"\nat = 400\nwidth = 600\nheight = 700\nsill = 100\n'
LEANING = """\
[[catalog.profiles]]
name = "leaning"
kind = "picture rail"
points = [[0, 0], [10, 0], [50, 40], [50, 50], [40, 50], [0, 10]]
lengths = ["2.4 m"]
density = 460
coping = true
"""
PORTRAIT = '[[pictures]]\nname = "portrait"\nlens = 85\n'
TRIM = '[[trim]]\nname = "line"\nkind = "{kind}"\nprofile = "{profile}"\n'


def problems_of(more: str, *, units: str = "metric") -> tuple[Problem, ...]:
    """Return what is told of a file, in the round in which it is read or in the one after."""
    text = BARE.format(units=units) + more
    with pytest.raises(InputError) as caught:
        resolve(parse_project(text, name="a.toml", catalog=load_catalog()), load_catalog(), place="a.toml", text=text)
    return caught.value.problems


def brief_of(more: str) -> Brief:
    text = BARE.format(units="metric") + more
    return resolve(
        parse_project(text, name="a.toml", catalog=load_catalog()), load_catalog(), place="a.toml", text=text
    )


FAULTS = [  # what is added to a bare file, key in words, words in found, in expected, in remedy
    (FRAMES.replace("top = 1800", "top = 300"), 'panels" top', "300 mm", "a top above the bottom", "Swap"),
    (FRAMES.replace("gap = 100", "gap = -5"), 'panels" gap', "-5 mm", "a length above 0", '"25 mm"'),
    (FRAMES.replace("gap = 100", "gap = 0"), 'panels" gap', "0 mm", "a length above 0", '"25 mm"'),
    (FRAMES + "end_gap = -1\n", 'panels" end_gap', "-1 mm", "a length above 0", '"25 mm"'),
    (
        FRAMES + 'centre_on = "portrat"\n' + PORTRAIT,
        'panels" centre_on',
        '"portrat"',
        "the name of a picture",
        'Did you mean "portrait"?',
    ),
    (FRAMES + 'walls = ["bakc"]\n', 'panels" walls[0]', '"bakc"', "the name of a wall", 'Did you mean "back"?'),
    (
        FRAMES.replace("1800", "350"),
        'panels" top',
        "50 mm high",
        "more than 60 mm, twice the height of panel 30",
        "narrower moulding",
    ),
    (FRAMES + "bought_width = 60\n", 'panels" bought_width', "60 mm wide", "more than 60 mm", "larger"),
    (
        FRAMES + "bought_width = 2200\n",
        'panels" bought_width',
        "at least 2200 mm wide",
        'less than wall "back", the longest it is on, 2200 mm',
        "narrower frames",
    ),
    (FRAMES.replace("1800", "2500"), 'panels" top', "2500 mm above the floor", "2400 mm high", "Lower it"),
    (
        "[finish]\nroller = 20\n",
        "finish roller",
        "roller of 20 mm and a narrowest brush of 25 mm",
        "brush",
        "narrowest",
    ),
    ("[finish]\nbrush = 120\n", "finish brush", "roller of 100 mm and a narrowest brush of 120 mm", "brush", "each"),
    ('[finish]\npaint = "primer"\n', "finish paint", '"primer", whose use is "primer"', "use is wall", '"flat paint"'),
    ('[finish]\nprimer = "satin paint"\n', "finish primer", 'use is "wall"', "primer or sealer", '"primer"'),
    ('[finish]\npaint = "flat pant"\n', "finish paint", 'unknown paint "flat pant"', "paints", '"flat paint"?'),
    ('[fixing]\nglue = "PVA glue"\n', "fixing glue", 'unknown glue "PVA glue"', "adhesives", '"PVA wood glue"?'),
    ('[fixing]\nmoulding_glue = "cauk"\n', "fixing moulding_glue", 'unknown glue "cauk"', "adhesives", '"caulk"?'),
    ('[fixing]\nweight = "stage wait"\n', "fixing weight", 'unknown weight "stage wait"', "weights", '"stage weight"?'),
    ('[fixing]\njoints = "nails"\n', "fixing joints", '"nails"', '"screws", "bolts", "connectors"', "Type one of"),
    ("[fixing]\nscrew_spacing = 0\n", "fixing screw_spacing", "0 mm", "from 25 mm", '"200 mm"'),
    (
        "[floor]\nthickness = 5\n",
        "floor",
        "thickness without a covering",
        "what the covering is",
        'covering = "boards"',
    ),
    ('[floor]\ncovering = ""\n', "floor covering", '""', "text", "Type"),
    (
        '[floor]\ncovering = "boards"\nwidth = 2000\nsheet_width = 2100\n',
        "floor sheet_width",
        "strips 2100 mm wide",
        "the covering's width, 2000 mm",
        "one strip",
    ),
    (
        '[floor]\ncovering = "boards"\nstrips = "along"\ndepth = 1000\nsheet_width = 1100\n',
        "floor sheet_width",
        "strips 1100 mm wide",
        "the covering's depth, 1000 mm",
        "one strip",
    ),
    ('[floor]\ncovering = "b"\nexpansion_gap = -3\n', "floor expansion_gap", "-3 mm", "0 or more", '"25 mm"'),
    ('[[catalog.paints]]\nname = "flat paint"\nspread = 0\n', 'flat paint" spread', "0", "a spread above 0", "above 0"),
    (
        '[[catalog.profiles]]\nname = "x"\nlike = "panel 30"\npoints = [[0, 0], [9, 9], [9, 0], [0, 9]]\n',
        'profiles[0] "x" points',
        "sides 1 and 3 cross",
        "nowhere meets itself",
        "in order",
    ),
    (
        OPENING + TRIM.format(kind="base", profile="base 120"),
        'trim[0] "line" profile',
        "a base up to 120 mm",
        'the sill of opening "hatch", 100 mm',
        "Choose a lower base",
    ),
    (
        OPENING + TRIM.format(kind="base", profile="base 70") + "height = 110\n",
        'trim[0] "line" height',
        "a base up to 110 mm",
        'the sill of opening "hatch", 100 mm',
        "Choose a lower base",
    ),
    (
        TRIM.format(kind="cornice", profile="base 95"),
        'trim[0] "line" profile',
        "no spring angle: its back lies flat on the wall",
        "leans on its back by the spring angle",
        "lathlight catalog cornice",
    ),
    (
        TRIM.format(kind="cornice", profile="panel 30") + "spring = 38\n",
        'trim[0] "line" profile',
        "no spring angle: its back lies flat on the wall",
        "leans on its back by the spring angle",
        "lathlight catalog cornice",
    ),
    (
        TRIM.format(kind="cornice", profile="cornice 92 at 38") + "spring = 60\n",
        'trim[0] "line" spring',
        "60° for cornice 92 at 38, whose section leans by 38°",
        "the angle of its section",
        "Take the line out",
    ),
    (
        TRIM.format(kind="cornice", profile="leaning") + LEANING,
        'trim[0] "line" profile',
        "no spring angle",
        "or the spring angle",
        "spring = 45.",
    ),
    (
        TRIM.format(kind="rail", profile="cornice 92 at 38") + "height = 900\n",
        'trim[0] "line" profile',
        "leans on its back as a cornice does, for a rail",
        "lies flat on the wall",
        "Choose another",
    ),
    (
        FRAMES.replace("panel 30", "cornice 92 at 38"),
        'moulding_frames[0] "panels" profile',
        "leans on its back as a cornice does, for moulding frames",
        "lies flat on the wall",
        "Choose another",
    ),
    (
        OPENING + 'casing = "cornice 92 at 38"\n',
        'walls[0] "back" openings[0] "hatch" casing',
        "leans on its back as a cornice does, for a casing",
        "lies flat on the wall",
        "Choose another",
    ),
    (
        TRIM.format(kind="rail", profile="rail 57") + "height = 2500\n",
        'trim[0] "line" height',
        "2500 mm above the floor",
        'wall "back", which is 2400 mm high',
        "Lower it",
    ),
    (
        "[fixing]\nscrew_spacing = 1\n",
        "fixing screw_spacing",
        "1 mm",
        "from 25 mm (1 in) to 610 mm (24 in)",
        '"200 mm"',
    ),
    ("[fixing]\nbrad_spacing = 9000\n", "fixing brad_spacing", "9000 mm", "to 610 mm (24 in)", '"300 mm"'),
    ("[finish]\nroller = 5000\n", "finish roller", "5000 mm", "at most 610 mm (24 in)", '"100 mm"'),
    ("[finish]\nbrush = 5000\n", "finish brush", "5000 mm", "at most 305 mm (12 in)", '"25 mm"'),
    (
        '[floor]\ncovering = "b"\nthickness = 3000\n' + TRIM.format(kind="rail", profile="rail 57") + "height = 900\n",
        "floor thickness",
        "3000 mm",
        "from 0 to 102 mm (4 in)",
        '"25 mm"',
    ),
    (
        '[floor]\ncovering = "b"\nsheet_width = 190\nsheet_length = 10\n',
        "floor sheet_length",
        "10 mm",
        "100 mm (4 in) or more",
        "Type",
    ),
    (
        '[floor]\ncovering = "b"\nsheet_length = 1800\n',
        "floor sheet_length",
        "boards without a width",
        "sheet_width beside sheet_length",
        "Add sheet_width",
    ),
    (
        FRAMES + "walls = []\n",
        'panels" walls',
        "an empty list",
        "at least one wall",
        "take the line out",
    ),
    (
        '[fixing]\nglue = "caulk"\n',
        "fixing glue",
        '"caulk", whose use is "seam"',
        "use is sheet to timber or moulding",
        "lathlight catalog glue",
    ),
    (
        '[fixing]\nmoulding_glue = "fine filler"\n',
        "fixing moulding_glue",
        '"fine filler", whose use is "filling"',
        "use is sheet to timber or moulding or joint",
        "lathlight catalog glue",
    ),
    (
        TRIM.format(kind="base", profile="base 120") + '[[trim]]\nname = "cap"\nkind = "base"\nprofile = "base 70"\n',
        'trim[1] "cap" profile',
        'a base from 0 mm to 70 mm above the floor, where "line" takes 0 mm to 120 mm',
        "clear of the others on its wall",
        "different walls",
    ),
    (
        TRIM.format(kind="cornice", profile="cornice 92 at 38")
        + '[[trim]]\nname = "high"\nkind = "rail"\nprofile = "rail 57"\nheight = 2350\n',
        'trim[1] "high" height',
        'a rail from 2293 mm to 2350 mm above the floor, where "line" takes 2327.5 mm to 2400 mm',
        "clear of the others on its wall",
        "Move one",
    ),
    ('[[openings]]\nname = "a"\n', "openings", "unknown key openings", "walls", "Write [[walls.openings]] below"),
    ('[[doors]]\nname = "a"\n', "doors", "unknown key doors", "room", "Write [[room.doors]]."),
    ("[flats]\nmax_width = 900\n", "flats", "unknown key flats", "set", "Write [set.flats]."),
]


@pytest.mark.parametrize(("more", "key", "found", "expected", "remedy"), FAULTS)
def test_a_fault_is_told_once_with_its_line_and_its_mend(
    more: str, key: str, found: str, expected: str, remedy: str
) -> None:
    (problem,) = problems_of(more)
    assert problem.place.endswith(key), str(problem)
    assert found in problem.found
    assert expected in problem.expected
    assert remedy in problem.remedy
    line = (BARE.format(units="metric") + more).splitlines()[int(problem.place.split(" ")[0].split(":")[1]) - 1]
    assert line.startswith((key.split(" ")[-1].split("[")[0], "[")), line


def test_a_base_before_a_sill_is_told_from_the_finished_floor_however_thick_it_is() -> None:
    floor = '[floor]\ncovering = "boards"\nthickness = 30\n'
    (problem,) = problems_of(OPENING + TRIM.format(kind="base", profile="base 120") + floor)
    assert (problem.found, "100 mm" in problem.expected) == ("a base up to 120 mm", True)


def test_a_base_as_high_as_the_sill_passes() -> None:
    text = BARE.format(units="metric") + OPENING + TRIM.format(kind="base", profile="base 95") + "height = 100\n"
    assert resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml").walls[0].trim[0].top == 100


def test_figures_are_told_in_the_files_own_system() -> None:
    (problem,) = problems_of('[finish]\nroller = "1/2 in"\n', units="imperial")
    assert "1/2" in problem.found
    assert "mm" not in problem.found


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("a = ", "neither text in quotation marks nor a number"),
        ("title = back", "neither text in quotation marks nor a number"),
        ('a = "back', "quotation marks that are not closed"),
        ("a = 'back", "quotation marks that are not closed"),
        ("[set]", "a table that stands twice"),
        ("a = 1\na = 2", "whose key has a value already"),
        ("a = [1, 2", "a square bracket that is not closed"),
        ("a = 5 6", "something after its end"),
        ('a = "\\q"', "a backslash that stands alone"),
        ("= 5", "begins with no key"),
        ("a b = 1", "a key without an equals sign"),
        ("[a", "a table without its closing bracket"),
    ],
)
def test_what_is_no_toml_is_told_in_our_own_words(line: str, words: str) -> None:
    (problem,) = problems_of(f"{line}\n")
    assert words in problem.found
    assert not {"statement", "array", "declare", "namespace", "document"} & set(problem.found.split())


def test_lines_that_rest_on_each_other_or_are_on_different_walls_take_no_place_twice() -> None:
    base = TRIM.format(kind="base", profile="base 120")
    cap = '[[trim]]\nname = "cap"\nkind = "rail"\nprofile = "rail 57"\nheight = {}\n'
    assert brief_of(base + cap.format(177)).walls[0].trim[1].bottom == 120
    assert "cap" in problems_of(base + cap.format(170))[0].place
    apart = 'trim = ["line"]\n[[walls]]\nname = "side"\nlength = 1400\ntrim = ["cap"]\n' + base + cap.format(170)
    assert [line.name for wall in brief_of(apart).walls for line in wall.trim] == ["line", "cap"]
