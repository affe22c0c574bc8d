"""Every command and every option stands in the reference."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import typer.main

from lathlight.cli.commands import app

PAGE = (Path(__file__).parents[3] / "docs" / "reference" / "commands.md").read_text(encoding="utf-8")
GROUP: Any = typer.main.get_command(app)
COMMANDS = {"": GROUP, **GROUP.commands}


def section(name: str) -> str:
    parts = re.split(r"^## lathlight ?(\S*)$", PAGE, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))[name]


@pytest.mark.parametrize("name", COMMANDS)
def test_each_option_of_a_command_stands_in_its_section(name: str) -> None:
    options = {option for each in COMMANDS[name].params for option in each.opts if option.startswith("--")}
    assert "--json" in options, "every command serves scripts"
    assert {option for option in options if f"`{option}" not in section(name)} == set()


def test_the_reference_names_no_command_or_option_that_is_not_there() -> None:
    named = set(re.findall(r"^## lathlight ?(\S*)$", PAGE, flags=re.MULTILINE))
    assert named == set(COMMANDS)
    real = {option for command in COMMANDS.values() for each in command.params for option in each.opts} | {"--help"}
    assert set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", PAGE)) <= real
