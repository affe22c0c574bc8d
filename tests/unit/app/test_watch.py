"""A save is seen once it is over, and only when it changed something."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from lathlight.app.watch import each_save


class Clock:
    """Stands in for waiting: at each wait the next thing happens to the file."""

    def __init__(self, *happenings: Callable[[], object] | None) -> None:
        self.left = list(happenings)
        self.ticks = 0

    def __call__(self, seconds: float) -> None:
        assert seconds > 0
        if not self.left:
            raise KeyboardInterrupt
        self.ticks += 1
        happening = self.left.pop(0)
        if happening is not None:
            happening()


def write(path: Path, text: str, at: int) -> Callable[[], object]:
    def happen() -> None:
        path.write_text(text)
        os.utime(path, ns=(at, at))

    return happen


def count(saves: Iterator[None]) -> int:
    seen = 0
    try:
        for _ in saves:
            seen += 1
    except KeyboardInterrupt:  # the clock ran out
        return seen
    raise AssertionError("a watch has no end of its own")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "set.toml"
    write(path, "one", 1)()
    return path


def test_the_start_counts_without_waiting(file: Path) -> None:
    clock = Clock()
    next(each_save(file, sleep=clock))
    assert clock.ticks == 0


def test_each_save_that_changes_something_counts(file: Path) -> None:
    clock = Clock(None, write(file, "two", 2), None, None, write(file, "three", 3), None, None)
    assert count(each_save(file, sleep=clock)) == 3


def test_a_save_that_changes_nothing_does_not_count(file: Path) -> None:
    clock = Clock(write(file, "one", 2), None, None)
    assert count(each_save(file, sleep=clock)) == 1


def test_a_save_in_several_steps_counts_once(file: Path) -> None:
    clock = Clock(write(file, "", 2), write(file, "t", 3), write(file, "two", 4), None, None, None)
    assert count(each_save(file, sleep=clock)) == 2


def test_a_file_that_goes_and_comes_back_is_waited_for(file: Path) -> None:
    clock = Clock(file.unlink, None, None, write(file, "two", 2), None, None)
    assert count(each_save(file, sleep=clock)) == 3


def test_an_editor_that_replaces_the_file_counts_once(file: Path, tmp_path: Path) -> None:
    def replace() -> None:
        write(tmp_path / "beside", "two", 5)()
        (tmp_path / "beside").replace(file)

    clock = Clock(file.unlink, replace, None, None, None)
    assert count(each_save(file, sleep=clock)) == 2
