"""Older formats, brought up step by step."""

from __future__ import annotations

from typing import Any

import pytest

from lathlight.project import FORMAT, upgrade
from lathlight.project.upgrade import STEPS, format_of, is_readable


def rename_panels(tables: dict[str, Any]) -> dict[str, Any]:
    """Made up: format 2 calls the walls panels."""
    return {("panels" if key == "walls" else key): value for key, value in tables.items()}


def count_panels(tables: dict[str, Any]) -> dict[str, Any]:
    """Made up: format 3 counts them."""
    return {**tables, "count": len(tables["panels"])}


MADE_UP = {1: rename_panels, 2: count_panels}


def test_the_present_format_stays_as_it_is() -> None:
    raw = {"format": FORMAT, "walls": [1]}
    assert upgrade(raw, FORMAT) == raw


def test_every_older_format_has_a_step() -> None:
    assert sorted(STEPS) == list(range(1, FORMAT))


def test_steps_follow_each_other_up_to_the_newest_format() -> None:
    raw = {"walls": ["a", "b"]}
    assert upgrade(raw, 1, steps=MADE_UP, newest=3) == {"panels": ["a", "b"], "count": 2, "format": 3}
    assert upgrade({"panels": ["a"]}, 2, steps=MADE_UP, newest=3) == {"panels": ["a"], "count": 1, "format": 3}
    assert raw == {"walls": ["a", "b"]}


def test_a_file_without_a_format_is_the_first() -> None:
    assert format_of({}) == 1


@pytest.mark.parametrize(
    ("version", "readable"), [(1, True), (0, False), (FORMAT + 1, False), (True, False), ("1", False)]
)
def test_only_known_formats_are_readable(version: object, readable: bool) -> None:
    assert is_readable(version) is readable


def test_a_format_that_nobody_knows_is_a_fault_of_ours() -> None:
    with pytest.raises(ValueError, match="cannot be upgraded"):
        upgrade({}, FORMAT + 1)
