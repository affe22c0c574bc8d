"""What the documents show works: project files plan, sessions run and print what stands there, examples hold.

``pytest tests/docs --write-golden`` writes anew what sessions print; then look at what changed, in the text around it.
"""

from __future__ import annotations

import doctest
import itertools
import json
import shlex
import subprocess
import sys
import tomllib
from typing import TYPE_CHECKING, Any, cast

import jsonschema
import pytest
from tests.docs.pages import ROOT, Block, all_blocks, blocks_of, command_lines

from lathlight.app import brief_of_text
from lathlight.cli.commands import run
from lathlight.plan import derive
from lathlight.project import project_schema
from lathlight.snags import Severity, find_snags

if TYPE_CHECKING:
    from pathlib import Path

HOME = "/home/me/sets"  # stands for the session's folder in what the pages show
RUNNING = sorted({block.page for block in all_blocks("sh", "run")})
KINDS = {
    ("sh",),
    ("sh", "run"),
    ("python", "run"),
    ("pycon", "doctest"),
    ("toml",),
    ("toml", "plan"),
    ("text",),
    ("text", "output"),
    ("json",),
    ("{toctree}",),
    (),
}


def place(value: Any) -> str:
    return value.place if isinstance(value, Block) else value.stem


# --- project files -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("block", all_blocks("toml", "plan"), ids=place)
def test_a_project_file_on_a_page_plans_and_nothing_stops_the_job(block: Block) -> None:
    plan = derive(brief_of_text(block.text, name="page.toml"))
    assert plan.members
    assert [snag.id for snag in find_snags(plan) if snag.severity is Severity.STOPS] == []


FRAGMENTS = [block for block in all_blocks("toml") if not {"plan", "saw"} & set(block.info)]


@pytest.mark.parametrize("block", FRAGMENTS, ids=place)
def test_a_part_of_a_project_file_has_keys_and_values_that_the_file_takes(block: Block) -> None:
    document = json.loads(json.dumps(tomllib.loads(block.text), default=str))  # a date is text to a schema
    jsonschema.validate(document, cast("dict[str, Any]", without_needs(project_schema())))


def without_needs(node: object) -> object:
    """Return a schema in which nothing has to be there."""
    if isinstance(node, dict):
        return {key: without_needs(value) for key, value in node.items() if key != "required"}
    return [without_needs(each) for each in node] if isinstance(node, list) else node


def test_the_schema_without_needs_still_refuses_a_misspelt_key() -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({"set": {"heigth": 2400}}, cast("dict[str, Any]", without_needs(project_schema())))


# --- sessions ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("page", RUNNING, ids=place)
def test_a_session_runs_and_prints_what_the_page_shows(
    page: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    request: pytest.FixtureRequest,
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    shown: list[tuple[Block, str]] = []
    blocks = blocks_of(page)
    for block, following in itertools.zip_longest(blocks, blocks[1:]):
        printed = do(block, tmp_path, capsys).replace(str(tmp_path), HOME)
        if following is not None and following.info == ("text", "output"):
            shown.append((following, printed))
    if request.config.getoption("--write-golden"):
        rewrite(page, shown)
        return
    assert [(block.place, printed) for block, printed in shown] == [(block.place, block.text) for block, _ in shown]


def do(block: Block, folder: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """Do one step of a session; return what it prints on the standard output. Other blocks are passed over."""
    match block.info:
        case ("sh", "run"):
            for line in command_lines(block.text):
                program, *arguments = shlex.split(line, comments=True)
                assert program == "lathlight"
                code = run(arguments)
                printed = capsys.readouterr()
                assert code == 0, f"{block.place}: {line}\n{printed.err}"
            return printed.out
        case ("python", "run"):
            command = [sys.executable, "-c", block.text]
            done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, encoding="utf-8")
            assert done.returncode == 0, f"{block.place}: {done.stderr}"
            return done.stdout
        case ("diff", edit):
            change(folder / edit.removeprefix("edit="), block.text)
        case ("toml", "plan" | "saw", name):
            (folder / name.removeprefix("file=")).write_text(block.text, encoding="utf-8")
        case _:
            pass
    return ""


def change(path: Path, text: str) -> None:
    """Change lines of a file as a diff without line numbers says."""
    old = "".join(f"{line[1:]}\n" for line in text.splitlines() if not line.startswith("+"))
    new = "".join(f"{line[1:]}\n" for line in text.splitlines() if not line.startswith("-"))
    whole = path.read_text(encoding="utf-8")
    assert whole.count(old) == 1, f"{path.name} holds these lines {whole.count(old)} times:\n{old}"
    path.write_text(whole.replace(old, new), encoding="utf-8")


def rewrite(page: Path, shown: list[tuple[Block, str]]) -> None:
    lines = page.read_text(encoding="utf-8").splitlines()
    for block, printed in reversed(shown):
        lines[block.first : block.last] = printed.splitlines()
    page.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


# --- examples ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("page", sorted({block.page for block in all_blocks("pycon", "doctest")}), ids=place)
def test_the_examples_of_a_page_hold(page: Path) -> None:
    text = "".join(f"{block.text}\n" for block in blocks_of(page) if block.info == ("pycon", "doctest"))
    example = doctest.DocTestParser().get_doctest(text, {}, page.stem, str(page), 0)
    assert example.examples
    report: list[str] = []
    doctest.DocTestRunner(verbose=False).run(example, out=report.append)
    assert report == []


# --- the blocks themselves ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("block", all_blocks(), ids=place)
def test_every_block_is_of_a_kind_that_is_looked_after(block: Block) -> None:
    if block.info[:1] == ("diff",):
        assert block.info[1].startswith("edit=")
    elif block.info[:2] in (("toml", "plan"), ("toml", "saw")) and len(block.info) > 2:
        assert block.info[2].startswith("file=")
    else:
        assert block.info in KINDS


@pytest.mark.parametrize("folder", ["tutorials", "how-to"])
def test_every_page_of_a_folder_shows_a_project_file_or_a_session_that_is_tried(folder: str) -> None:
    tried = {block.page for info in (("toml", "plan"), ("sh", "run")) for block in all_blocks(*info)}
    pages = {page for page in (ROOT / "docs" / folder).glob("*.md") if page.stem != "index"}
    assert pages
    assert pages <= tried
