"""The set book's files are made in memory, told about while they are made, and written only when all are there."""

from __future__ import annotations

from pathlib import Path

import pytest

from lathlight.app import StoppedError, plan_project, set_book_folder, write_set_book
from lathlight.app.export import _free, make_files
from lathlight.app.run import Part
from lathlight.app.save import _OWN_FILES, _OWN_NAMES

EXAMPLE = Path(__file__).parents[3] / "examples" / "schoolhall.toml"


class Listener:
    """Takes reports, and asks to stop after so many of them."""

    def __init__(self, *, patience: int = 1000) -> None:
        self.done: list[float] = []
        self.patience = patience

    def report(self, *, done: float, text: str) -> None:
        assert text
        self.done.append(done)

    def stop_requested(self) -> bool:
        return len(self.done) > self.patience


def test_progress_only_goes_forward_from_0_to_1(tmp_path: Path) -> None:
    listener = Listener()
    write_set_book(plan_project(EXAMPLE, progress=listener), tmp_path / "book", progress=listener)
    assert listener.done == sorted(listener.done)
    assert listener.done[0] >= 0.0
    assert listener.done[-1] <= 1.0
    assert len(listener.done) > 8


@pytest.mark.parametrize("patience", [0, 1])
def test_planning_stops_when_it_is_asked_to(patience: int) -> None:
    with pytest.raises(StoppedError):
        plan_project(EXAMPLE, progress=Listener(patience=patience))


@pytest.mark.parametrize("patience", [0, 3])
def test_a_stop_while_the_files_are_made_writes_nothing(patience: int, tmp_path: Path) -> None:
    planned = plan_project(EXAMPLE)
    with pytest.raises(StoppedError):
        write_set_book(planned, tmp_path / "book", progress=Listener(patience=patience))
    assert list(tmp_path.iterdir()) == []


def test_a_part_of_the_work_reports_its_share_of_the_whole() -> None:
    listener = Listener()
    Part(listener, start=0.2, end=0.6).report(done=0.5, text="half of the part")
    assert listener.done == [pytest.approx(0.4)]


def test_two_drawings_whose_names_differ_only_in_letters_lie_in_two_files() -> None:
    taken: set[str] = set()
    names = [
        _free(f"drawings/{name}", ".svg", taken) for name in ("elevation-Back", "elevation-back", "elevation-BACK")
    ]
    assert names == ["drawings/elevation-Back.svg", "drawings/elevation-back-2.svg", "drawings/elevation-BACK-3.svg"]


@pytest.mark.parametrize("name", ["parlour", "schoolhall", "corner-metric"])
def test_every_file_of_a_book_is_known_as_our_own_so_that_none_goes_stale(name: str) -> None:
    files = make_files(plan_project(EXAMPLE.with_name(f"{name}.toml")))
    foreign = [
        path
        for path in files
        for folder, _, file in (path.rpartition("/"),)
        if not (_OWN_NAMES[folder].fullmatch(file) if folder else file in _OWN_FILES)
    ]
    assert foreign == []


def test_the_folder_lies_beside_the_project_and_is_named_after_it() -> None:
    assert set_book_folder(Path("sets") / "old.hall.toml") == Path("sets") / "old.hall-set-book"
