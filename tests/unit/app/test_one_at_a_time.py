"""Writers wait for each other, and nobody is kept out for good."""

from __future__ import annotations

import os
import sys
import threading
from pathlib import Path

import pytest

from lathlight.app.one_at_a_time import in_turn


def test_a_second_writer_begins_when_the_first_is_done(tmp_path: Path) -> None:
    order: list[str] = []
    waiting = threading.Event()

    def second() -> None:
        waiting.set()
        with in_turn(tmp_path):
            order.append("second")

    with in_turn(tmp_path):
        thread = threading.Thread(target=second)
        thread.start()
        waiting.wait(10)
        thread.join(0.05)  # time to come in, were it not held
        order.append("first")
    thread.join(10)
    assert order == ["first", "second"]


def test_an_error_lets_the_folder_go(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), in_turn(tmp_path):
        raise ZeroDivisionError
    with in_turn(tmp_path):
        assert list(tmp_path.iterdir()) in ([], [tmp_path / ".lathlight.lock"])
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_not_held(tmp_path: Path) -> None:
    with in_turn(tmp_path / "missing"):
        pass
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="another way of locking is used there")
def test_a_disk_without_locks_holds_nobody_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import fcntl

    closed: list[int] = []
    really_close = os.close

    def no_locks(*_: object) -> None:
        raise OSError

    def close(handle: int) -> None:
        closed.append(handle)
        really_close(handle)

    monkeypatch.setattr(fcntl, "flock", no_locks)
    monkeypatch.setattr(os, "close", close)
    with in_turn(tmp_path):
        pass
    assert len(closed) == 1
