"""Bad input of mouldings, floor, fixing and paint: one message with its line, what was found, expected, and a mend."""

from __future__ import annotations

import pytest
from tests.unit.project.made_up import BARE

from lathlight.catalog import load_catalog
from lathlight.errors import InputError, Problem
from lathlight.project import parse_project, resolve

FRAMES = """\
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = 300
top = 1800
gap = 100
"""
OPENING = '[[walls.openings]]\nname = "hatch"\nkind = "window"\nat = 400\nwidth = 600\nheight = 700\nsill = 100\n'
PORTRAIT = '[[pictures]]\nname = "portrait"\nlens = 85\n'
TRIM = '[[trim]]\nname = "line"\nkind = "{kind}"\nprofile = "{profile}"\n'


def problems_of(more: str, *, units: str = "metric") -> tuple[Problem, ...]:
    """Return what is told of a file, in the round in which it is read or in the one after."""
    text = BARE.format(units=units) + more
    with pytest.raises(InputError) as caught:
        resolve(parse_project(text, name="a.toml", catalog=load_catalog()), load_catalog(), place="a.toml", text=text)
    return caught.value.problems


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
    ("[fixing]\nscrew_spacing = 0\n", "fixing screw_spacing", "0 mm", "above 0", '"25 mm"'),
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
        "no spring angle",
        "the spring angle",
        "spring = 38",
    ),
    (
        TRIM.format(kind="rail", profile="rail 57") + "height = 2500\n",
        'trim[0] "line" height',
        "2500 mm above the floor",
        'wall "back", which is 2400 mm high',
        "Lower it",
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
