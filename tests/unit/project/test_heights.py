"""People measure from the finished floor; walls are planned from the foot of their flats.

Where flats stand beside the covering, its thickness is added to every height that the file states; where they stand on
it, or there is none, nothing is. What is expected is written out by hand.
"""

from __future__ import annotations

import pytest

from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.project import Brief, parse_project, resolve

METRIC = """\
[project]
title = "Heights"
units = "metric"
[room]
width = "5 m"
depth = "4 m"
ceiling = "3 m"
[set]
height = "2.4 m"
{set}
[[walls]]
name = "back"
length = "4.2 m"
[[walls.openings]]
name = "door"
kind = "door"
at = 200
width = 700
height = 2000
[[walls.openings]]
name = "window"
kind = "window"
at = 1200
width = 700
height = 900
sill = 1000
[[walls.openings]]
name = "niche"
kind = "arch"
at = 2200
width = 700
height = 1800
[[trim]]
name = "base"
kind = "base"
profile = "base 95"
[[trim]]
name = "rail"
kind = "rail"
profile = "rail 57"
height = 850
[[trim]]
name = "cornice"
kind = "cornice"
profile = "cornice 92 at 38"
[[trim]]
name = "frieze"
kind = "cornice"
profile = "cornice 67 at 45"
height = 2200
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = 1000
top = 2000
gap = 100
[floor]
covering = "{covering}"
thickness = {thickness}
[[props]]
name = "shelf"
wall = "back"
along = 3500
above_floor = 1500
width = 600
height = 200
depth = 200
mass = 8
[[sitters]]
name = "sitter"
[[pictures]]
name = "portrait"
lens = 85
"""


def brief(*, stands_on: str = "floor", covering: str = "boards", thickness: str = "12") -> Brief:
    line = f'stands_on = "{stands_on}"'
    text = METRIC.format(set=line, covering=covering, thickness=thickness)
    return resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml")


def heights(made: Brief) -> dict[str, tuple[float, ...]]:
    """Return every height above the foot of the flats by the name of what it belongs to."""
    (wall,), (tier,) = made.walls, made.frames
    return {
        **{line.name: (line.bottom, line.top) for line in wall.trim},
        **{opening.name: (opening.sill, opening.sill + opening.height) for opening in wall.openings},
        **{load.name: (load.height,) for load in wall.loads},
        tier.name: (tier.bottom, tier.top),
    }


ON_THE_FLOOR = {  # top less what the profile covers: 95, 57, 72.5 and 47.38 mm by their tables
    "base": (0, 95),
    "rail": (793, 850),
    "frieze": (2152.62, 2200),
    "cornice": (2327.5, 2400),
    "door": (0, 2000),
    "window": (1000, 1900),
    "niche": (0, 1800),
    "shelf": (1700,),
    "panels": (1000, 2000),
}
RAISED = {
    **{name: tuple(z + 12 for z in pair) for name, pair in ON_THE_FLOOR.items()},
    "cornice": (2327.5, 2400),  # it ends at the wall's top
    "door": (0, 2012),  # it runs to the foot of the flats
    "niche": (0, 1812),
}


@pytest.mark.parametrize(
    ("made", "expected"),
    [
        (brief(), RAISED),
        (brief(stands_on="covering"), ON_THE_FLOOR),
        (brief(covering="none"), ON_THE_FLOOR),
        (brief(thickness="0"), ON_THE_FLOOR),
    ],
    ids=["beside the covering", "on the covering", "no covering", "a covering without thickness"],
)
def test_heights_are_raised_by_the_covering_that_flats_stand_beside(
    made: Brief, expected: dict[str, tuple[float, ...]]
) -> None:
    found = heights(made)
    assert set(found) == set(expected)
    for name, pair in expected.items():
        assert found[name] == pytest.approx(pair), name


def test_a_base_stands_on_the_finished_floor() -> None:
    made = brief()
    (base,) = (line for line in made.walls[0].trim if line.name == "base")
    assert base.bottom == made.floor.rise == 12


def test_people_and_pictures_stay_above_the_finished_floor() -> None:
    raised, plain = brief(), brief(covering="none")
    assert raised.pictures == plain.pictures
    assert raised.sitters == plain.sitters


def test_a_thickness_off_the_grid_comes_to_the_nearest_step_of_the_saw() -> None:
    made = brief(thickness="3.4")
    assert made.floor.rise == 3
    assert heights(made)["window"] == (1003, 1903)


def test_heights_in_feet_and_inches_are_raised_by_inches() -> None:
    text = """\
[project]
title = "Heights"
units = "imperial"
[room]
width = "16 ft"
depth = "14 ft"
ceiling = "9 ft"
[set]
height = "8 ft"
[[walls]]
name = "back"
length = "10 ft"
[[trim]]
name = "rail"
kind = "rail"
profile = "rail 2 5-8 in"
height = "36 in"
[floor]
covering = "vinyl"
thickness = "3/16 in"
"""
    made = resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml")
    assert made.walls[0].trim[0].top == pytest.approx(36.1875 * 25.4, abs=1e-9)


# --- what no longer fits under the wall's top --------------------------------------------------------------------

TOO_HIGH = [
    ("height = 850", "height = 2390", 'trim[1] "rail" height', "2390 mm above the floor"),
    ("top = 2000", "top = 2390", 'moulding_frames[0] "panels" top', "2390 mm above the floor"),
    ("sill = 1000", "sill = 1490", 'walls[0] "back" openings[1] "window" height', "2390 mm above the floor"),
]


@pytest.mark.parametrize(("before", "after", "key", "found"), TOO_HIGH)
def test_what_ends_above_the_wall_is_told_from_the_finished_floor(
    before: str, after: str, key: str, found: str
) -> None:
    text = METRIC.format(set="", covering="boards", thickness="12").replace(before, after)
    with pytest.raises(InputError) as caught:
        parse_project(text, name="a.toml")
    (problem,) = caught.value.problems
    place, _, told = problem.place.partition(" ")
    assert told == key
    assert text.splitlines()[int(place.split(":")[1]) - 1].startswith(key.rsplit(" ", maxsplit=1)[1])
    assert found in problem.found
    assert "2400 mm high with 12 mm of floor covering in front of it: 2388 mm above the floor" in problem.expected


@pytest.mark.parametrize(("before", "after", "key", "found"), TOO_HIGH)
def test_on_the_covering_it_still_fits(before: str, after: str, key: str, found: str) -> None:
    text = METRIC.format(set='stands_on = "covering"', covering="boards", thickness="12").replace(before, after)
    assert parse_project(text, name="a.toml").floor.thickness == 12
