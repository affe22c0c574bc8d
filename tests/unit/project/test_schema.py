"""The JSON Schema accepts what the reader accepts, and underlines slips."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from lathlight.project import project_schema

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))


def as_editor_sees(text: str) -> Any:
    """Dates are text to an editor's schema."""
    return json.loads(json.dumps(tomllib.loads(text), default=str))


def test_it_is_a_schema_of_its_dialect() -> None:
    schema = project_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["title"] == "Lathlight project file"
    assert "$id" not in schema


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_demo_sets_fit(path: Path) -> None:
    jsonschema.validate(as_editor_sees(path.read_text(encoding="utf-8")), project_schema())


FIRST = EXAMPLES[0].read_text(encoding="utf-8")
SLIPS = [
    FIRST.replace("[[walls]]", "[[wals]]"),
    FIRST.replace('kind = "rail"', 'kind = "rial"'),
    FIRST.replace("coats = 2", "coats = 20"),
    FIRST.replace("angle_to_next = 90", "angle_to_next = [90]"),
    FIRST.replace("title = ", "titel = "),
]


@pytest.mark.parametrize("text", SLIPS)
def test_slips_are_underlined(text: str) -> None:
    assert text != FIRST
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(as_editor_sees(text), project_schema())


def test_a_length_may_be_text_or_a_number_and_is_described() -> None:
    length = project_schema()["$defs"]["Wall"]["properties"]["length"]
    assert length == {
        "anyOf": [{"type": "string"}, {"type": "number"}],
        "description": "Finished length of the face, from corner to corner.",
        "exclusiveMinimum": 0,
        "maximum": 40_000.0,
    }


def test_what_may_be_left_out_may_not_be_null() -> None:
    assert '"null"' not in json.dumps(project_schema())


def test_the_same_schema_comes_out_every_time() -> None:
    assert json.dumps(project_schema()) == json.dumps(project_schema())
