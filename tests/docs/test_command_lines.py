"""Every command line that the documents show could be typed: the command is there, and so is each option."""

from __future__ import annotations

import re
import shlex
from typing import TYPE_CHECKING, Any

import pytest
import typer.main
from tests.docs.pages import DOCS, PAGES, ROOT, all_blocks, blocks_of, command_lines, prose_of

from lathlight.cli.commands import app, run

if TYPE_CHECKING:
    from pathlib import Path

GROUP: Any = typer.main.get_command(app)
INLINE = re.compile(r"`(lathlight [^`]+)`")
SHOWN = [*PAGES, ROOT / "README.md", ROOT / "CONTRIBUTING.md"]


def shown_on(page: Path) -> list[str]:
    """Return what a page tells its reader to type, in the text and in fenced blocks."""
    blocks = [block for block in blocks_of(page) if block.info[:1] in ((), ("sh",))]
    lines = [line for block in blocks for line in command_lines(block.text)]
    starts = [re.sub(r"^(\.venv/bin/|\.venv\\Scripts\\)", "", line) for line in lines]
    return [line for line in (*starts, *INLINE.findall(prose_of(page))) if line.startswith("lathlight ")]


def wrong_words(line: str) -> list[str]:
    """Return the command, or the options, of a line that there are not."""
    _, *words = shlex.split(line.replace("'", "’"), comments=True)
    command, options = GROUP, set[str]()
    if words and not words[0].startswith("-") and not words[0].isupper():
        if words[0] not in GROUP.commands:
            return [words[0]]
        command = GROUP.commands[words[0]]
    options = {name for each in command.params for name in each.opts} | {"--help"}
    return [word for word in re.findall(r"(?<![\w-])--[a-z][a-z-]*", " ".join(words)) if word not in options]


@pytest.mark.parametrize("page", SHOWN, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_commands_and_options_that_a_page_shows_are_there(page: Path) -> None:
    assert {line: wrong_words(line) for line in shown_on(page) if wrong_words(line)} == {}


def test_slips_would_be_noticed() -> None:
    assert wrong_words("lathlight paln set.toml") == ["paln"]
    assert wrong_words("lathlight plan set.toml --outt folder") == ["--outt"]


def test_every_command_of_the_help_is_shown_somewhere(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--help"]) == 0
    listed = capsys.readouterr().out.split("Commands:")[1]
    names = set(re.findall(r"^\W{1,4}([a-z]+)\b", listed, flags=re.MULTILINE))
    assert names == set(GROUP.commands)
    elsewhere = [page for page in PAGES if page.parent != DOCS / "reference"]
    shown = {shlex.split(line.replace("'", "’"))[1] for page in elsewhere for line in shown_on(page)}
    assert names <= shown


def test_blocks_are_found_at_all() -> None:
    assert len(all_blocks("sh")) > len(GROUP.commands)
