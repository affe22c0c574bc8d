"""Folders and files are written whole or not at all."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from lathlight.app import save
from lathlight.app.save import replace_folder, write_file
from lathlight.errors import OutputError

OURS = {
    "plan.json": b'{"format": "lathlight-plan"}',
    "set-book.pdf": b"%PDF",
    "drawings/elevation-A.svg": b"<svg/>",
    "lists/timber.csv": b"x",
}
NEWER = {"plan.json": b'{"format": "lathlight-plan", "newer": true}', "drawings/elevation-B.svg": b"<svg/>"}


def contents(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder).as_posix()): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def failing_after(count: int, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the disk fail with an error number after so many files."""
    written: list[Path] = []
    really_write = save._write

    def write(path: Path, data: bytes) -> None:
        if len(written) >= count:
            path.write_bytes(data[:1])  # half a file stays behind, as on a real disk
            raise OSError(number, os.strerror(number), str(path))
        written.append(path)
        really_write(path, data)

    monkeypatch.setattr(save, "_write", write)


def test_a_folder_is_written_with_all_its_files(tmp_path: Path) -> None:
    place = replace_folder(tmp_path / "book", OURS)
    assert contents(place) == OURS
    assert names(tmp_path) == ["book"]


def test_folders_above_are_made(tmp_path: Path) -> None:
    place = replace_folder(tmp_path / "a" / "b" / "book", OURS)
    assert place == tmp_path / "a" / "b" / "book"
    assert contents(place) == OURS


def test_an_older_set_book_is_replaced_and_its_stale_drawings_go(tmp_path: Path) -> None:
    replace_folder(tmp_path / "book", OURS)
    replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == NEWER
    assert names(tmp_path) == ["book"]


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    replace_folder(tmp_path / "book", OURS)
    assert contents(tmp_path / "book") == OURS


def test_what_the_user_keeps_in_the_folder_stays(tmp_path: Path) -> None:
    book = replace_folder(tmp_path / "book", OURS)
    (book / "notes.txt").write_text("ring the hall")
    (book / "photographs").mkdir()
    (book / "photographs" / "one.jpg").write_bytes(b"jpg")
    (book / "drawings" / "mine.png").write_bytes(b"png")
    replace_folder(book, NEWER)
    kept = {"notes.txt": b"ring the hall", "photographs/one.jpg": b"jpg", "drawings/mine.png": b"png"}
    assert contents(book) == NEWER | kept


@pytest.mark.skipif(os.name == "nt", reason="making links needs a right there")
def test_a_link_that_the_user_keeps_stays_a_link(tmp_path: Path) -> None:
    book = replace_folder(tmp_path / "book", OURS)
    (tmp_path / "elsewhere").mkdir()
    (book / "link").symlink_to(tmp_path / "elsewhere")
    replace_folder(book, NEWER)
    assert (book / "link").readlink() == tmp_path / "elsewhere"


def test_somebody_elses_folder_is_refused_and_left_alone(tmp_path: Path) -> None:
    folder = tmp_path / "photographs"
    folder.mkdir()
    (folder / "one.jpg").write_bytes(b"jpg")
    with pytest.raises(OutputError, match="a folder with other things in it"):
        replace_folder(folder, OURS)
    assert contents(folder) == {"one.jpg": b"jpg"}
    assert names(tmp_path) == ["photographs"]


def test_a_plan_json_of_another_program_does_not_make_a_folder_ours(tmp_path: Path) -> None:
    folder = tmp_path / "other"
    folder.mkdir()
    (folder / "plan.json").write_text('{"flight": "plan"}')
    with pytest.raises(OutputError, match="a folder with other things in it"):
        replace_folder(folder, OURS)


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "book").write_text("mine")
    with pytest.raises(OutputError, match="a file of that name"):
        replace_folder(tmp_path / "book", OURS)
    assert (tmp_path / "book").read_text() == "mine"


def test_a_file_where_a_folder_above_should_be_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("mine")
    with pytest.raises(OutputError, match="a file where a folder is needed"):
        replace_folder(tmp_path / "a" / "book", OURS)
    with pytest.raises(OutputError, match="a file where a folder is needed"):
        replace_folder(tmp_path / "a" / "b" / "book", OURS)
    assert (tmp_path / "a").read_text() == "mine"


def test_the_folder_one_stands_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(OutputError, match="the folder you are working in"):
        replace_folder(Path(), OURS)
    with pytest.raises(OutputError, match="the folder you are working in"):
        replace_folder(Path(".."), OURS)


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS])
@pytest.mark.parametrize("count", [0, 2])
def test_a_failing_disk_leaves_the_old_folder_and_no_trace(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, count: int
) -> None:
    replace_folder(tmp_path / "book", OURS)
    failing_after(count, number, monkeypatch)
    with pytest.raises(OutputError, match="Nothing was changed"):
        replace_folder(tmp_path / "book", OURS | NEWER)
    assert contents(tmp_path / "book") == OURS
    assert names(tmp_path) == ["book"]


def test_a_full_disk_is_called_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failing_after(1, errno.ENOSPC, monkeypatch)
    with pytest.raises(OutputError, match="a full disk"):
        replace_folder(tmp_path / "deep" / "book", OURS)
    assert names(tmp_path) == [], "the folder above was taken away again"


def test_an_interrupt_while_writing_leaves_no_trace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    replace_folder(tmp_path / "book", OURS)

    def interrupted(path: Path, data: bytes) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(save, "_write", interrupted)
    with pytest.raises(KeyboardInterrupt):
        replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == OURS
    assert names(tmp_path) == ["book"]


@pytest.mark.parametrize("moment", [0, 1])
def test_an_interrupt_between_the_two_renames_counts_after_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, moment: int
) -> None:
    replace_folder(tmp_path / "book", OURS)
    really_rename, renames = save._rename, []

    def rename(source: Path, target: Path) -> None:
        really_rename(source, target)
        renames.append(source)
        if len(renames) == moment + 1:
            signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(save, "_rename", rename)
    with pytest.raises(KeyboardInterrupt):
        replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == NEWER
    assert names(tmp_path) == ["book"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_a_file_held_open_in_the_old_folder_is_undone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    replace_folder(tmp_path / "book", OURS)

    def held(source: Path, target: Path) -> None:
        raise PermissionError(errno.EACCES, "in use", str(source))

    monkeypatch.setattr(save, "_rename", held)
    with pytest.raises(OutputError, match="Close whatever has files of it open"):
        replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == OURS
    assert names(tmp_path) == ["book"]


def test_a_second_rename_that_fails_puts_the_old_folder_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    replace_folder(tmp_path / "book", OURS)
    really_rename = save._rename

    def rename(source: Path, target: Path) -> None:
        if ".new-" in source.name:
            raise PermissionError(errno.EACCES, "in use", str(source))
        really_rename(source, target)

    monkeypatch.setattr(save, "_rename", rename)
    with pytest.raises(OutputError, match="Nothing was changed"):
        replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == OURS
    assert names(tmp_path) == ["book"]


DEAD = 2**22 + 1  # above the largest process number that Linux gives


def test_what_a_killed_run_left_is_cleared_away(tmp_path: Path) -> None:
    replace_folder(tmp_path / "book", OURS)
    (tmp_path / f".book.new-{DEAD}").mkdir()
    (tmp_path / f".book.new-{DEAD}" / "half").write_bytes(b"")
    (tmp_path / f".book.old-{DEAD}").mkdir()
    replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == NEWER
    assert names(tmp_path) == ["book"]


def test_a_folder_that_a_killed_run_had_moved_aside_is_put_back_first(tmp_path: Path) -> None:
    replace_folder(tmp_path / "book", OURS)
    (tmp_path / "book" / "notes.txt").write_text("mine")
    (tmp_path / "book").rename(tmp_path / f".book.old-{DEAD}")
    replace_folder(tmp_path / "book", NEWER)
    assert contents(tmp_path / "book") == NEWER | {"notes.txt": b"mine"}
    assert names(tmp_path) == ["book"]


def test_the_temporary_of_a_running_process_is_left_alone(tmp_path: Path) -> None:
    other = tmp_path / f".book.new-{os.getppid()}"
    other.mkdir()
    replace_folder(tmp_path / "book", OURS)
    assert other.exists()


def test_a_file_is_not_overwritten_without_being_told(tmp_path: Path) -> None:
    path = tmp_path / "set.toml"
    path.write_text("mine")
    with pytest.raises(OutputError, match="already there"):
        write_file(path, b"new", overwrite=False)
    assert path.read_text() == "mine"
    write_file(path, b"new", overwrite=True)
    assert path.read_bytes() == b"new"
    assert names(tmp_path) == ["set.toml"]


def test_a_failing_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "set.toml"
    path.write_text("mine")
    failing_after(0, errno.ENOSPC, monkeypatch)
    with pytest.raises(OutputError, match="a full disk"):
        write_file(path, b"new", overwrite=True)
    assert path.read_text() == "mine"
    assert names(tmp_path) == ["set.toml"]


def test_a_users_own_drawing_and_list_are_carried_over(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    marker = {"plan.json": b'{"format": "lathlight-plan"}'}
    replace_folder(folder, {**marker, "drawings/set.svg": b"1", "lists/boards.csv": b"1"})
    (folder / "drawings" / "my-sketch.svg").write_bytes(b"mine")
    (folder / "lists" / "budget.csv").write_bytes(b"mine")
    replace_folder(folder, {**marker, "drawings/room.svg": b"2"})
    assert (folder / "drawings" / "my-sketch.svg").read_bytes() == b"mine"
    assert (folder / "lists" / "budget.csv").read_bytes() == b"mine"
    assert not (folder / "drawings" / "set.svg").exists()


# --- several processes at once -----------------------------------------------------------------------------------


@pytest.mark.skipif(sys.platform == "win32", reason="folders are not locked there but a file in them")
def test_no_other_process_comes_between_the_two_renames(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import fcntl

    replace_folder(tmp_path / "book", OURS)
    really_rename = save._rename
    kept_out: list[bool] = []

    def rename(source: Path, target: Path) -> None:
        other = os.open(tmp_path, os.O_RDONLY)  # as another process would open it
        try:
            fcntl.flock(other, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            kept_out.append(True)
        else:
            kept_out.append(False)
        finally:
            os.close(other)
        really_rename(source, target)

    monkeypatch.setattr(save, "_rename", rename)
    replace_folder(tmp_path / "book", NEWER)
    assert kept_out == [True, True]


@pytest.mark.parametrize("number", [errno.ENOENT, errno.ENOTEMPTY, errno.EEXIST])
def test_a_folder_taken_by_another_program_is_told_in_our_words(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a disk without locks another writer may come in between: nothing is lost, and the message says what to do."""
    book = replace_folder(tmp_path / "book", OURS)
    (book / "notes.txt").write_text("mine")

    def taken(source: Path, target: Path) -> None:
        if target == book and ".new-" in source.name:
            raise OSError(number, os.strerror(number), str(target))
        source.rename(target)

    monkeypatch.setattr(save, "_rename", taken)
    with pytest.raises(OutputError) as caught:
        replace_folder(book, NEWER)
    assert len(caught.value.problems) == 1
    assert os.strerror(number) not in str(caught.value)
    assert "Nothing was changed" in str(caught.value)
    assert contents(book) == {**OURS, "notes.txt": b"mine"}
    assert names(tmp_path) == ["book"]


def test_writers_in_two_processes_both_win_and_the_folder_is_one_of_theirs(tmp_path: Path) -> None:
    replace_folder(tmp_path / "book", OURS)
    (tmp_path / "book" / "notes.txt").write_text("mine")
    code = (
        "import sys, pathlib\nfrom lathlight.app.save import replace_folder\n"
        "for n in range(10):\n"
        "    marker = b'\"lathlight-plan\"' + sys.argv[2].encode()\n"
        "    replace_folder(pathlib.Path(sys.argv[1]), {'plan.json': marker, 'lists/timber.csv': marker})\n"
    )
    writers = [
        subprocess.Popen([sys.executable, "-c", code, str(tmp_path / "book"), who], stderr=subprocess.PIPE, text=True)
        for who in ("a", "b")
    ]
    errors = [writer.communicate(timeout=60)[1] for writer in writers]
    assert errors == ["", ""]
    found = contents(tmp_path / "book")
    assert found.pop("notes.txt") == b"mine"
    assert set(found) == {"plan.json", "lists/timber.csv"}
    assert len(set(found.values())) == 1
    assert names(tmp_path) == ["book"]
