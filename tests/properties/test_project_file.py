"""Whatever project is written to a file reads back the same; any text is a project or a list of plain problems."""

from __future__ import annotations

import datetime as dt
import math
from decimal import Decimal
from typing import Any

import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.project import Change, Project, dump_project, parse_project, set_values
from lathlight.project.lines import line_numbers
from lathlight.units import LengthStyle

LETTERS = st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Z"), exclude_characters="/@\x7f")
names = st.text(LETTERS, min_size=1, max_size=12)
words = st.text(st.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=20)
masses = st.floats(0.001, 500)
degrees = st.floats(-180, 180).map(lambda angle: angle if abs(angle) > 1e-9 else 0.0)


def lengths(least: float, most: float) -> st.SearchStrategy[str]:
    """Any length [mm], as text that means exactly this."""
    return st.floats(least, most).map(lambda mm: f"{mm:.17f} mm")


def places(count: int) -> st.SearchStrategy[list[str]]:
    return st.lists(lengths(-9000, 9000), min_size=count, max_size=count)


def tables(required: dict[str, Any], **optional: Any) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(required, optional=optional)


def named(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Entries with names of their own."""
    return [{**entry, "name": f"{entry['name']}{number}"[:60]} for number, entry in enumerate(entries)]


def lists(entry: st.SearchStrategy[dict[str, Any]], most: int = 3) -> st.SearchStrategy[list[dict[str, Any]]]:
    return st.lists(entry, max_size=most).map(named)


openings = tables(
    {"name": names, "kind": st.just("window"), "height": lengths(10, 900)},
    sill=lengths(0, 900),
    lining=lengths(0, 30),
    gap=lengths(0, 10),
    casing=words,
    plinth_blocks=st.booleans(),
)


def beside_each_other(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{**each, "at": f"{100 + 300 * number} mm", "width": "250 mm"} for number, each in enumerate(named(entries))]


walls = tables(
    {"name": names, "length": lengths(1200, 4000)},
    height=lengths(2000, 3000),
    corner=st.sampled_from(["auto", "lap", "arris", "mitre"]),
    frame_laps=st.sampled_from(["auto", "this", "next"]),
    sheet=words,
    stud_spacing=lengths(100, 900),
    openings=st.lists(openings, max_size=3).map(beside_each_other),
    trim=st.just([]),
)


@st.composite
def chains(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Up to three walls that do not meet."""
    entries = named(draw(st.lists(walls, min_size=1, max_size=3)))
    for entry in entries[:-1]:
        entry["angle_to_next"] = draw(st.floats(100, 179))
    for key in ("corner", "frame_laps"):
        entries[-1].pop(key, None)
    return entries


projects = tables(
    {
        "project": tables(
            {"title": st.text(LETTERS, min_size=1, max_size=40), "units": st.sampled_from(["metric", "imperial"])},
            date=st.dates(dt.date(1990, 1, 1)),
            revision=st.text(LETTERS, max_size=12),
            tax_percent=st.decimals(0, 100, places=2),
            paper=st.sampled_from(["A4", "Tabloid"]),
            notes=words,
        ),
        "room": tables(
            {"width": lengths(2000, 9000), "depth": lengths(2000, 9000), "ceiling": lengths(2500, 6000)},
            pillars=lists(tables({"name": names, "at": places(2), "width": lengths(1, 500), "depth": lengths(1, 500)})),
            way_in=lists(
                tables(
                    {
                        "name": names,
                        "kind": st.sampled_from(["door", "turn", "stairs"]),
                        "clear_width": lengths(1, 2000),
                        "clear_height": lengths(1, 2000),
                    },
                    turn_angle=degrees,
                    slope=degrees,
                )
            ),
        ),
        "walls": chains(),
        "set": tables(
            {"height": lengths(2000, 3000)},
            at=places(2),
            turn=degrees,
            sheet=words,
            flats=tables({}, max_width=lengths(1, 3000), max_weight=masses),
            sittings=st.integers(1, 500),
            years=st.floats(0.1, 50),
        ),
    },
    props=lists(
        tables(
            {"name": names, "width": lengths(1, 9), "height": lengths(1, 9), "depth": lengths(1, 9), "at": places(2)},
            mass=masses,
        )
    ),
    sitters=lists(tables({"name": names}, stature=lengths(400, 2200), right=lengths(-900, 900), facing=degrees)),
    pictures=lists(
        tables(
            {"name": names, "lens": st.floats(8, 300) | st.just([35, 70])},
            camera_height=lengths(1, 2000) | st.just(["1 m", "6ft"]),
            angles=st.floats(1e-9, 80).map(lambda angle: [-angle, angle]),
            aspects=st.lists(st.sampled_from(["4:5", "1.5:1"]), max_size=2),
            margin=lengths(0, 100),
        )
    ),
    lights=lists(tables({"name": names, "role": st.just("key")}, at=places(3), power=st.floats(-9, 9))),
    workshop=tables({}, people=st.integers(1, 40), lift_per_person=masses, mitre_swing=degrees, shelf=words),
    prices=st.lists(tables({"item": names, "price": st.decimals(0, 10**6, places=2).map(str)}), max_size=1),
    catalog=tables({}, sheets=st.lists(tables({"name": names}, width=lengths(1, 9), grain=st.booleans()), max_size=2)),
)


def project_of(raw: dict[str, Any]) -> Project:
    style = LengthStyle.of(raw["project"]["units"], None)
    return Project.model_validate(raw, context={"style": style})


@settings(max_examples=150, deadline=None)
@given(projects)
def test_a_project_reads_back_from_the_file_that_it_is_written_to(raw: dict[str, Any]) -> None:
    project = project_of(raw)
    text = dump_project(project)
    again = parse_project(text, name="fresh.toml")
    assert again == project
    assert dump_project(again) == text


@settings(max_examples=60, deadline=None)
@given(projects, st.floats(300, 4000), st.floats(60, 179))
def test_a_change_changes_its_own_value_only(raw: dict[str, Any], length: float, angle: float) -> None:
    project = project_of(raw)
    text = "# kept\n" + dump_project(project)
    changes = [
        Change(path=("walls", 0, "length"), value=length, why=""),
        Change(path=("set", "turn"), value=math.radians(angle), why=""),
    ]
    changed = tomlkit.parse(set_values(text, changes)).unwrap()
    again = project_of(changed)
    wall = project.walls[0].model_copy(update={"length": length})
    wanted = project.model_copy(
        update={
            "walls": (wall, *project.walls[1:]),
            "set": project.set.model_copy(update={"turn": math.radians(angle)}),
        }
    )
    assert again == wanted
    assert set_values(text, changes).startswith("# kept\n")


@settings(max_examples=60, deadline=None)
@given(projects)
def test_every_key_is_found_on_the_line_that_shows_it(raw: dict[str, Any]) -> None:
    text = dump_project(project_of(raw))
    lines = text.split("\n")
    paths = list(_keys(tomlkit.parse(text).unwrap(), ()))
    found = line_numbers(text, paths)
    assert sorted(map(str, found)) == sorted(map(str, paths))
    for path, line in found.items():
        assert lines[line - 1].startswith(f"{path[-1]} = "), (path, line)


def _keys(value: Any, path: tuple[str | int, ...]) -> Any:
    """Return the path of every value that is no table."""
    for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
        if isinstance(inner, dict) or (isinstance(inner, list) and inner and isinstance(inner[0], dict)):
            yield from _keys(inner, (*path, key))
        elif isinstance(key, str):
            yield (*path, key)


scalars = st.booleans() | st.integers() | st.floats() | words
junk = st.recursive(
    scalars,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(names | st.sampled_from(list(Project.model_fields)), inner)
    ),
    max_leaves=8,
)
KEYS = [
    "name",
    "length",
    "kind",
    "at",
    "openings",
    "height",
    "lens",
    "units",
    "title",
    "width",
    "trim",
    "angle_to_next",
]
bent = st.dictionaries(
    st.sampled_from(list(Project.model_fields)),
    junk
    | st.dictionaries(st.sampled_from(KEYS), junk)
    | st.lists(st.dictionaries(st.sampled_from(KEYS), junk), max_size=3),
)


@settings(max_examples=200, deadline=None)
@given(bent)
def test_whatever_stands_in_a_file_ends_in_a_project_or_in_plain_problems(raw: dict[str, Any]) -> None:
    text = tomlkit.dumps(raw)
    problems = _problems(text)
    assert all(problem.found and problem.expected and problem.remedy for problem in problems)
    assert [problem for problem in problems if "nput should" in str(problem) or "object at" in str(problem)] == []


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=200))
def test_any_text_ends_in_a_project_or_in_plain_problems(text: str) -> None:
    assert all(problem.place.startswith("any.toml") for problem in _problems(text))


def _problems(text: str) -> tuple[Any, ...]:
    try:
        parse_project(text, name="any.toml", catalog=load_catalog())
    except InputError as error:
        return error.problems
    return ()


def test_money_keeps_its_figures() -> None:
    project = project_of(
        {
            "project": {"title": "t", "units": "metric"},
            "room": {"width": 1, "depth": 1, "ceiling": 1},
            "walls": [{"name": "a", "length": 1000, "height": 1000}],
            "prices": [{"item": "x", "price": "10.10"}],
        }
    )
    assert parse_project(dump_project(project), name="x").prices[0].price.as_tuple() == Decimal("10.10").as_tuple()
