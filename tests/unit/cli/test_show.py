"""What is shown fits the width, survives any encoding, and keeps out of pipes."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from lathlight.cli import show

SOURCE = Path(__file__).parents[3] / "src"


def test_a_table_lines_its_columns_up() -> None:
    drawn = show.table(("name", "mm"), [("stud", "2174"), ("top plate", "1100")]).splitlines()
    assert drawn == ["name       mm", "---------  ----", "stud       2174", "top plate  1100"]


@pytest.mark.parametrize("columns", [40, 60, 100])
def test_a_table_wraps_to_the_width_and_loses_no_word(columns: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    words = "a rather long remark about where the figures of this row come from and who measured them"
    drawn = show.table(("name", "source"), [("2x2", words), ("2x4", words)])
    assert all(len(line) <= columns for line in drawn.splitlines())
    assert drawn.split().count("measured") == 2


def test_a_table_far_too_wide_becomes_blocks_of_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    header = tuple(f"column {i}" for i in range(6))
    drawn = show.table(header, [tuple(f"a longish cell {i}" for i in range(6))] * 2)
    assert drawn.splitlines()[0] == "column 0: a longish cell 0"
    assert drawn.count("\n\n") == 1


def test_a_table_in_a_pipe_is_not_wrapped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    assert len(show.table(("name",), [("x" * 500,)]).splitlines()) == 3


def test_a_table_without_rows_is_its_head() -> None:
    assert show.table(("name", "mm"), []) == "name  mm\n----  --"


@pytest.mark.parametrize(
    ("encoding", "takes"), [("utf-8", True), ("cp437", True), ("ascii", False), ("no such", False)]
)
def test_box_lines_are_drawn_where_the_encoding_has_them(encoding: str, takes: bool) -> None:
    assert show.takes_box_lines(encoding) is takes


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_short_work_shows_no_progress(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    with show.progress() as progress:
        progress.report(done=0.5, text="cutting")
    assert screen.getvalue() == ""


def test_long_work_draws_one_line_and_takes_it_away(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(show, "SLOW", -1.0)
    monkeypatch.setenv("COLUMNS", "60")
    with show.progress() as progress:
        progress.report(done=0.5, text="cutting")
        progress.report(done=2.0, text="x" * 200)
    states = screen.getvalue().split("\r")
    assert states[1] == "[############............] cutting"
    assert states[2].startswith("[########################] x")
    assert all(len(state) <= 60 for state in states)
    assert states[-2].strip() == states[-1] == ""


def test_no_progress_where_nobody_looks(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(show, "SLOW", -1.0)
    with show.progress() as progress:
        progress.report(done=0.5, text="cutting")
    assert capsys.readouterr() == ("", "")


def child(code: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-c", f"from lathlight.cli import show\nshow.prepare_streams()\n{code}"],
        capture_output=True,
        env={**os.environ, "PYTHONPATH": str(SOURCE), **environment},
        check=True,
    )


@pytest.mark.skipif(os.name == "nt", reason="there is no C locale there")
def test_output_is_utf_8_even_where_the_locale_knows_no_letters() -> None:
    done = child(r"show.say('\xbd Gr\xf6\xdfe')", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    assert done.stdout == "½ Größe\n".encode()


@pytest.mark.skipif(os.name == "nt", reason="names there are not bytes")
def test_a_file_name_that_is_not_utf_8_is_printed_as_it_is() -> None:
    assert child(r"show.say(b'\xff.toml'.decode('utf-8', 'surrogateescape'))").stdout == b"\xff.toml\n"


@pytest.mark.skipif(os.name == "nt", reason="pipes end in another way there")
def test_a_reader_that_goes_away_is_no_error() -> None:
    code = "import sys\nfor _ in range(100_000): show.say('a line of some length')\nsys.exit(7)"
    with subprocess.Popen(
        [sys.executable, "-c", f"from lathlight.cli import show\n{code}"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(SOURCE)},
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() == 7, "the work went on to its own end"
