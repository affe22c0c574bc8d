"""A fault is kept where the user can find it."""

from __future__ import annotations

from pathlib import Path

import pytest

from lathlight.app.log import KEPT, log_fault, log_folder


def a_fault() -> Exception:
    try:
        raise ZeroDivisionError("in the middle of the wall")  # noqa: TRY301
    except ZeroDivisionError as fault:
        return fault


def test_the_file_tells_what_happened_and_while_doing_what() -> None:
    path = log_fault(a_fault(), doing=("lathlight", "plan", "a.toml"))
    assert path is not None
    text = path.read_text(encoding="utf-8")
    assert "lathlight plan a.toml" in text
    assert "ZeroDivisionError: in the middle of the wall" in text
    assert "test_log.py" in text, "the traceback is in it"


def test_where_the_usual_place_cannot_be_written_another_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "state").write_text("a file, no folder")
    monkeypatch.setattr("lathlight.app.log.log_folder", lambda: tmp_path / "state")
    monkeypatch.setattr("tempfile.gettempdir", lambda: str(tmp_path / "else"))
    path = log_fault(a_fault(), doing=())
    assert path is not None
    assert path.parent == tmp_path / "else" / "lathlight"


def test_where_nothing_can_be_written_none_is_returned(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "state").write_text("a file, no folder")
    monkeypatch.setattr("lathlight.app.log.log_folder", lambda: tmp_path / "state")
    monkeypatch.setattr("tempfile.gettempdir", lambda: str(tmp_path / "state"))
    assert log_fault(a_fault(), doing=()) is None


def test_old_files_go() -> None:
    log_folder().mkdir(parents=True, exist_ok=True)
    for i in range(KEPT + 5):
        (log_folder() / f"fault-20200101-0000{i:02}-1.txt").write_text("old")
    newest = log_fault(a_fault(), doing=())
    left = sorted(log_folder().glob("fault-*.txt"))
    assert len(left) == KEPT
    assert left[-1] == newest
