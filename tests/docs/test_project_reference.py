"""The reference of the project file holds every key, is written from the model, and tells the truth about use."""

from __future__ import annotations

import re
import runpy
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from lathlight.app import Planned, brief_of_text, make_files
from lathlight.plan import derive
from lathlight.project import Project, parse_project, project_schema
from lathlight.snags import find_snags

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "reference" / "project-file.md"
TOOL = runpy.run_path(str(ROOT / "tools" / "make_project_reference.py"))
SECTIONS = list(TOOL["sections"]())


def keys_in(heading: str) -> set[str]:
    """Return the keys that have a row under a heading."""
    page = PAGE.read_text(encoding="utf-8")
    body = page.split(f"\n## {heading}\n", maxsplit=1)[1].split("\n## ")[0]
    return set(re.findall(r"^\| `([a-z_]+)` \|", body, flags=re.MULTILINE))


def test_the_page_is_what_its_tool_writes() -> None:
    assert PAGE.read_text(encoding="utf-8") == TOOL["page"](), "run: python tools/make_project_reference.py"


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.heading)
def test_each_key_of_a_table_has_its_row(section: Any) -> None:
    assert keys_in(f"`{section.heading}`") == set(section.model.model_fields)


def test_each_key_above_all_tables_has_a_row_or_a_heading() -> None:
    tables = {section.path[0] for section in SECTIONS}
    assert keys_in("Above all tables") | tables == set(Project.model_fields)


def test_every_table_of_the_schema_has_its_section() -> None:
    in_schema = set(project_schema()["$defs"])  # another reading of the model, by another library
    assert {section.model.__name__ for section in SECTIONS} == in_schema


def test_every_key_says_what_it_means() -> None:
    models = [Project, *(section.model for section in SECTIONS)]
    assert [(m.__name__, key) for m in models for key, field in m.model_fields.items() if not field.description] == []


# --- what is not used yet ----------------------------------------------------------------------------------------

SET = """
[project]
title = "Two readings of one set"
date = 2025-05-05
units = "metric"
{project}
[room]
width = 6000
depth = 5000
ceiling = 2700
[[room.doors]]
name = "door"
clear_width = 830
clear_height = 2030
[set]
height = 2440
{set}
[[walls]]
name = "back"
length = 2600
[[walls.openings]]
name = "window"
kind = "window"
at = 700
width = 700
height = 900
sill = 900
{walls.openings}
[[walls]]
name = "side"
length = 1200
[[trim]]
name = "cornice"
kind = "cornice"
profile = "cornice 92 at 38"
{trim}
[finish]
colour = "chalk"
{finish}
[[sitters]]
name = "sitter"
{sitters}
[[pictures]]
name = "portrait"
lens = 85
{pictures}
[workshop]
people = 2
{workshop}
{tables}
"""

ONE = {
    "project": 'currency = "EUR"\ntax_percent = 20\nprices_include_tax = true',
    "set": "sittings = 20\nyears = 2",
    "walls.openings": 'reveal = 5\ncasing = "casing 57"',
    "trim": "spring = 38",
    "finish": "reflectance = 0.2",
    "sitters": "facing = 0",
    "pictures": 'aspects = ["4:5"]\nmargin = 10\naperture = 8\nmovement = 0\nfollows = true',
    "workshop": 'mitre_swing = 45\nstraight_edge = 2500\nleast_offcut = 100\nshelf = "a.toml"\nhours_a_day = 8\n'
    "temperature_c = 18\nhumidity_percent = 50",
    "tables": """
[[lights]]
name = "one"
role = "key"
head = "a"
shaper = "b"
grid = false
angle = 10
height = 2000
distance = 1000
aim = "face"
feather = 0
refers_to = "set"
power = 1
pictures = []
[[lights]]
name = "lamp"
role = "other"
at = [100, 200, 300]
[[targets]]
name = "face"
point = "face"
lights = ["one"]
reading = "f/8"
tolerance = 0.1
[meter]
constant = 250
iso = 100
shutter = "1/125"
working_aperture = 8
""",
}
OTHER = {
    "project": 'currency = "USD"\ntax_percent = 7\nprices_include_tax = false',
    "set": "sittings = 30\nyears = 3",
    "walls.openings": 'reveal = 5\ncasing = "casing 57"',
    "trim": "spring = 38",
    "finish": "reflectance = 0.3",
    "sitters": "facing = 20",
    "pictures": 'aspects = ["2:3"]\nmargin = 20\naperture = 11\nmovement = 200\nfollows = false',
    "workshop": 'mitre_swing = 45\nstraight_edge = 2500\nleast_offcut = 100\nshelf = "b.toml"\nhours_a_day = 6\n'
    "temperature_c = 12\nhumidity_percent = 70",
    "tables": """
[[lights]]
name = "two"
role = "key"
head = "c"
shaper = "d"
grid = true
angle = 100
height = 1800
distance = 1500
aim = "back"
feather = 10
refers_to = "camera"
power = 2
pictures = ["portrait"]
[[lights]]
name = "lamp"
role = "other"
at = [200, 300, 400]
[[targets]]
name = "hair"
point = "hair"
lights = ["two"]
reading = "f/4"
tolerance = 0.3
[meter]
constant = 300
iso = 200
shutter = "1/60"
working_aperture = 5.6
""",
}


def text_of(words: Mapping[str, str]) -> str:
    text = SET
    for place, lines in words.items():
        text = text.replace("{" + place + "}", lines)
    return text


def files_of(words: Mapping[str, str]) -> Mapping[str, bytes]:
    plan = derive(brief_of_text(text_of(words), name="two.toml"))
    return make_files(Planned(path=Path("two.toml"), plan=plan, snags=find_snags(plan)))


def differing(one: Any, other: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    """Yield table and key of all values that two projects state differently."""
    if isinstance(one, list) and one and isinstance(one[0], dict):
        for a, b in zip(one, other, strict=True):
            yield from differing(a, b, path)
    elif isinstance(one, dict):
        for key in one:
            yield from differing(one[key], other[key], (*path, key))
    elif one != other:
        yield ".".join(path[:-1]), path[-1]


def test_nothing_follows_from_keys_that_are_called_not_used_yet() -> None:
    ours, theirs = (
        parse_project(text_of(words), name="two.toml").model_dump(mode="json", exclude_none=True)
        for words in (ONE, OTHER)
    )
    differ = {
        (t, k) if not t.startswith("catalog.") else ("catalog", t.split(".")[1]) for t, k in differing(ours, theirs)
    }
    listed = {(table, key) for table, keys in TOOL["NOT_USED_YET"].items() for key in keys}
    assert differ == listed, "each key that is called not used yet has to differ between the two files, and no other"
    one, other = files_of(ONE), files_of(OTHER)
    changed = {name for name in one if one[name] != other[name]} | (set(one) ^ set(other))
    assert changed == set(), "something follows from a key by now: take it out of NOT_USED_YET"
