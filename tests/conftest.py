"""What all tests share: the demo sets, golden files, no network, and the table of published checks."""

from __future__ import annotations

import os
import socket
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from lathlight.plan import Plan
    from lathlight.project import Brief

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
CHECKS = ROOT / "docs" / "reference" / "checks.md"
DEMO_SETS = ("corner-imperial", "corner-metric", "parlour", "schoolhall")
LOCAL = ("127.0.0.1", "::1", "localhost")

PUBLISHED = pytest.StashKey[str]()  # the table of published checks, as the tests at hand give it

settings.register_profile("same every time", derandomize=True, deadline=None, max_examples=60)
settings.register_profile("searching", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same every time"))


# --- options -----------------------------------------------------------------------------------------------------


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--write-checks", action="store_true", help="write docs/reference/checks.md anew")
    parser.addoption("--write-golden", action="store_true", help="write the golden files anew")


# --- the table of published checks -------------------------------------------------------------------------------


@pytest.hookimpl(tryfirst=True)  # before -m and -k take tests away
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Gather what is compared with values from outside the project."""
    config.stash[PUBLISHED] = checks_page(items)
    if config.getoption("--write-checks"):
        CHECKS.parent.mkdir(parents=True, exist_ok=True)
        CHECKS.write_text(config.stash[PUBLISHED], encoding="utf-8")


def checks_page(items: Iterable[pytest.Item]) -> str:
    """Return the page that lists every published check: what, source, place in it, test."""
    rows = sorted({_row(item, mark) for item in items for mark in item.iter_markers("published")})
    head = (
        "# Published checks",
        "",
        "Each line compares what Lathlight computes with a value from outside the project.",
        "The table is written from the tests themselves (`make checks`).",
        "",
        "| what | source | place | test |",
        "| --- | --- | --- | --- |",
    )
    return "\n".join((*head, *("| " + " | ".join(row) + " |" for row in rows))) + "\n"


def _row(item: pytest.Item, mark: pytest.Mark) -> tuple[str, str, str, str]:
    function = item.nodeid.split("[", maxsplit=1)[0]
    file, _, name = function.partition("::")
    what = name.split("::")[-1].removeprefix("test_").replace("_", " ")
    return what, *(_cell(mark.kwargs[key]) for key in ("source", "place")), f"`{Path(file).name}`"


def _cell(text: object) -> str:
    return " ".join(str(text).split()).replace("|", "\\|")


# --- no network, no home -----------------------------------------------------------------------------------------


@pytest.fixture(autouse=True)
def _stay_at_home(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Refuse connections to other machines, and keep log files out of the developer's home."""
    connect = socket.socket.connect

    def guarded(self: socket.socket, address: Any) -> None:
        if self.family != getattr(socket, "AF_UNIX", None) and address[0] not in LOCAL:
            pytest.fail(f"a test tried to reach {address[0]}")
        connect(self, address)

    monkeypatch.setattr(socket.socket, "connect", guarded)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path_factory.getbasetemp() / "state"))


# --- demo sets ---------------------------------------------------------------------------------------------------


@pytest.fixture(scope="session")
def plan_of() -> Callable[[str], Plan]:
    """Give a demo set's plan by its name; made once, since nothing can change it."""
    from lathlight.plan import derive

    made: dict[str, Plan] = {}

    def plan(name: str) -> Plan:
        if name not in made:
            made[name] = derive(read_demo(name))
        return made[name]

    return plan


def read_demo(name: str) -> Brief:
    """Return a demo set's brief."""
    from lathlight.app import read_brief

    return read_brief(EXAMPLES / f"{name}.toml")


@pytest.fixture(scope="session", params=DEMO_SETS)
def demo_name(request: pytest.FixtureRequest) -> str:
    """Give each demo set's name in turn."""
    return request.param


@pytest.fixture(scope="session")
def demo_brief(demo_name: str) -> Brief:
    """Give each demo set's brief in turn."""
    return read_demo(demo_name)


@pytest.fixture(scope="session")
def demo_plan(demo_name: str, plan_of: Callable[[str], Plan]) -> Plan:
    """Give each demo set's plan in turn."""
    return plan_of(demo_name)


# --- golden files ------------------------------------------------------------------------------------------------


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Give what compares text with a file of tests/golden, or writes it with --write-golden."""
    rewrite = request.config.getoption("--write-golden")

    def compare(name: str, text: str) -> None:
        path = ROOT / "tests" / "golden" / name
        if rewrite:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="\n")
        assert path.exists(), f"{name} is not there yet: make golden"
        assert text == path.read_text(encoding="utf-8"), f"{name} differs: look, then make golden"

    return compare
