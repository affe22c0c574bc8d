"""The way in: a Ctrl-C before any command is known ends without a word."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

POSIX_ONLY = pytest.mark.skipif(sys.platform == "win32", reason="the system there has no such signal to send")
INTERRUPTS_ITSELF = "import os, signal, time\nos.kill(os.getpid(), signal.SIGINT)\ntime.sleep(5)\n"


def start(*ways: str, first: Path | None = None) -> subprocess.Popen[str]:
    """Start a program as one of its ways in does, where given with a folder whose modules come first."""
    given = dict(os.environ)
    if first is not None:
        given["PYTHONPATH"] = str(first)
    return subprocess.Popen(
        [sys.executable, *ways], env=given, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


WAYS = pytest.mark.parametrize(
    "way",
    [("-m", "lathlight"), ("-c", "from lathlight.__main__ import main; main()")],
    ids=["python -m lathlight", "lathlight"],
)


@POSIX_ONLY
@WAYS
def test_an_interrupt_while_the_command_line_library_is_loaded_is_silent(way: tuple[str, ...], tmp_path: Path) -> None:
    (tmp_path / "typer.py").write_text(INTERRUPTS_ITSELF, encoding="utf-8")
    with start(*way, first=tmp_path) as process:
        out, err = process.communicate(timeout=60)
    assert (process.returncode, out, err) == (130, "", "")


@POSIX_ONLY
def test_an_interrupt_that_the_shell_has_ignored_stays_ignored(tmp_path: Path) -> None:
    (tmp_path / "typer.py").write_text(
        "import os, signal\nos.kill(os.getpid(), signal.SIGINT)\nraise SystemExit(7)\n", encoding="utf-8"
    )
    ignore = "import signal; signal.signal(signal.SIGINT, signal.SIG_IGN)"
    with start("-c", f"{ignore}; from lathlight.__main__ import main; main()", first=tmp_path) as process:
        process.communicate(timeout=60)
    assert process.returncode == 7


@POSIX_ONLY
def test_a_running_command_is_interrupted_as_ever() -> None:
    """The handling of imports is over once a command runs: Ctrl-C is told, and nothing is left half-written."""
    running = (
        "import os, signal, sys\n"
        "import lathlight.cli.commands as commands\n"
        "def interrupted(*_, **__):\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "commands.app = interrupted\n"
        "sys.argv = ['lathlight', 'schema']\n"
        "from lathlight.__main__ import main\n"
        "main()\n"
    )
    with start("-c", running) as process:
        out, err = process.communicate(timeout=60)
    assert process.returncode == 130
    assert (out, err) == ("", "Stopped. Nothing was left half-written.\n")
