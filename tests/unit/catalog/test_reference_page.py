"""The reference page names every table, column and choice, and its example works."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from lathlight.catalog import TABLES, extended, load_catalog, rows_of
from lathlight.units import LengthStyle

PAGE = (Path(__file__).parents[3] / "docs" / "reference" / "catalogue.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("table", TABLES)
def test_every_column_and_every_choice_stands_in_its_tables_line(table: str) -> None:
    (line,) = [each for each in PAGE.splitlines() if each.startswith(f"| `{table}` |")]
    for key, column in TABLES[table].columns.items():
        if key not in ("name", "source"):
            assert f"`{key}`" in line
        for choice in re.findall(r'"[^"]+"', column.kind.words):
            assert f"`{choice}`" in line


def test_the_example_works_and_does_what_it_says() -> None:
    (example,) = re.findall(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL)
    rows = tomllib.loads(example)["catalog"]
    catalog = extended(load_catalog(), rows, style=LengthStyle.metric(), place="set.toml")
    assert (catalog.lumber["38x63"].width, catalog.lumber["38x63"].depth) == (38, 64)
    assert catalog.lumber["40x60"].lengths == (2400, 3000)
    assert catalog.sheets["poplar ply 10 mm"].source == "weighed at the yard"
    assert catalog.profiles["plain rail 40"].source == "the project file"


def test_the_names_that_the_page_gives_as_examples_are_in_the_catalogue() -> None:
    names = {name for table in TABLES for name in rows_of(load_catalog(), table)}
    section = PAGE.split("## Names")[1].split("## Tables")[0]
    examples = set(re.findall(r"`([^`]+)`", section)) - {"US"}
    assert examples <= names
