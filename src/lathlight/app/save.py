"""Files written whole or not at all: a set book's folder, or a single file.

Decides how what was there before stays untouched when anything goes wrong: everything is written beside, then two
renames with undo. What the files hold is left to ``lathlight.app.export``, the turns of several processes that
write at once to ``lathlight.app.one_at_a_time``.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import shutil
import signal
import sys
import threading
import time
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from lathlight.app.one_at_a_time import in_turn
from lathlight.errors import LathlightError, OutputError

if TYPE_CHECKING:
    from collections.abc import Generator, Iterable, Iterator, Mapping

MARKER = "plan.json"  # its first bytes say whether a folder is ours
MARKER_WORD = b'"lathlight-plan"'
MARKER_BYTES = 4096
_OWN_FILES = frozenset(("set-book.pdf", "lists.xlsx", "set.glb", MARKER))
_OWN_NAMES = {  # what earlier plans may have written; whatever else lies in these folders is the user's
    "drawings": re.compile(
        r"(set|room|cut-sheets|elevation|framing|sheets|corner|mouldings|trim|profiles|fixing|marking-out|story-stick"
        r"|floor)(-.+)?\.(svg|dxf)"
    ),
    "lists": re.compile(
        r"(boards|casing|finish-schedule|flats|floor|frame-pieces|gluing|hardware|joints|linings|marking-frames"
        r"|marking-out|moulding-fixing|moulding-frames|openings|paint|quantities|sheet-fixing|sheet-pieces|sheets|snags"
        r"|story-stick|takeoff|timber|trim|wall-ends)\.csv"
    ),
}
_PAUSES = (0.05, 0.2, 0.5)  # [s] between tries where a virus scanner may hold a fresh file for a moment


def replace_folder(folder: Path, files: Mapping[str, bytes]) -> Path:
    """Write a set book's folder, or replace one, whole or not at all.

    Parameters
    ----------
    folder
        Where it is to lie; folders above it are made where they are missing.
    files
        Content by path within the folder, with forward slashes: ``{"drawings/plan.svg": b"..."}``.

    Returns
    -------
    Path
        The folder's full path. Whatever else lay in the old folder (notes, photographs) lies in the new one too.

    Raises
    ------
    OutputError
        The folder is not ours, or cannot be written; what was there before is untouched.

    Notes
    -----
    Where several processes write one folder at once, each replaces it whole; the one that finishes last stays.
    """
    place = Path(os.path.realpath(folder))
    try:
        with in_turn(place.parent):
            _refuse_foreign(place)
    except LathlightError:
        raise
    except OSError as error:  # a name that the system cannot even look up
        raise _output_error(place, error) from error
    fresh = _beside(place, "new")
    with _made_parents(place):
        try:
            with in_turn(place.parent):
                _sweep(place)
            _fill(fresh, files)
            with in_turn(place.parent):
                _carry_over(place, fresh)
                _swap(fresh, place)
        except OSError as error:
            raise _output_error(place, error) from error
        finally:
            shutil.rmtree(fresh, ignore_errors=True)
    return place


def write_file(path: Path, data: bytes, *, overwrite: bool) -> Path:
    """Write one file whole or not at all; return its full path.

    Raises
    ------
    OutputError
        It exists and may not be overwritten, or it cannot be written.
    """
    refuse_existing(path, overwrite=overwrite)
    place = Path(os.path.realpath(path))
    fresh = _beside(place, "new")
    with _made_parents(place):
        try:
            with in_turn(place.parent):
                _sweep(place)
            _write(fresh, data)
            os.replace(fresh, place)  # noqa: PTH105  # one of a family: os.rename, os.link, os.replace
        except OSError as error:
            raise _output_error(place, error) from error
        finally:
            fresh.unlink(missing_ok=True)
    return place


def refuse_existing(path: Path, *, overwrite: bool) -> None:
    """Raise OutputError where a file could not be written under a name because of what is there."""
    if path.is_dir():
        raise OutputError.of(
            place=str(path), found="a folder of that name", expected="a file", remedy="Choose another name."
        )
    if path.exists() and not overwrite:
        raise OutputError.of(
            place=str(path),
            found="a file that is already there",
            expected="a new name",
            remedy="Choose another name, or say --overwrite to replace it.",
        )


def is_ours(folder: Path) -> bool:
    """Return True where a folder was written by this program, or is empty."""
    try:
        with (folder / MARKER).open("rb") as marker:
            return MARKER_WORD in marker.read(MARKER_BYTES)
    except OSError:
        return not any(folder.iterdir())


def _refuse_foreign(place: Path) -> None:
    """Refuse what must not be replaced: a file, somebody else's folder, the folder one stands in."""
    if not place.exists():
        return
    if not place.is_dir():
        raise OutputError.of(
            place=str(place),
            found="a file of that name",
            expected="a folder, or nothing",
            remedy="Choose another folder with --out.",
        )
    here = Path(os.path.realpath(Path.cwd()))
    if place == here or place in here.parents:
        raise OutputError.of(
            place=str(place),
            found="the folder you are working in, or one above it",
            expected="a folder that can be replaced as a whole",
            remedy=f"Choose a folder inside it with --out, such as {place / 'set-book'}.",
        )
    try:
        ours = is_ours(place)
    except OSError as error:
        raise _output_error(place, error) from error
    if not ours:
        raise OutputError.of(
            place=str(place),
            found="a folder with other things in it",
            expected="an empty folder, or one that an earlier plan wrote",
            remedy="Choose another folder with --out; nothing in this one was touched.",
        )


def _fill(fresh: Path, files: Mapping[str, bytes]) -> None:
    """Write all files into a new folder and make sure that they are on the disk."""
    fresh.mkdir()
    folders = {fresh}
    for name, data in sorted(files.items()):
        path = fresh.joinpath(*PurePosixPath(name).parts)
        path.parent.mkdir(parents=True, exist_ok=True)
        folders.add(path.parent)
        _write(path, data)
    for folder in sorted(folders):
        _sync_folder(folder)


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _sync_folder(folder: Path) -> None:
    if sys.platform == "win32":
        return  # folders cannot be opened there
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _carry_over(place: Path, fresh: Path) -> None:
    """Put what the user keeps in the old folder into the new one as well."""
    for kept in _foreign_files(place):
        target = fresh / kept
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(place / kept, target, follow_symlinks=False)
        except OSError:  # another file system, or one without links
            shutil.copy2(place / kept, target, follow_symlinks=False)


def _foreign_files(place: Path) -> Iterator[Path]:
    """Yield the paths, within a folder of ours, of files that we did not write."""
    if not place.exists():
        return
    for root, folders, names in os.walk(place, onerror=_raise):
        links = [name for name in folders if (Path(root) / name).is_symlink()]
        for name in [*names, *links]:
            path = (Path(root) / name).relative_to(place)
            if not _is_own(path):
                yield path


def _raise(error: OSError) -> None:
    raise error


def _is_own(path: Path) -> bool:
    match path.parts:
        case (name,):
            return name in _OWN_FILES
        case (folder, name) if folder in _OWN_NAMES:
            return _OWN_NAMES[folder].fullmatch(name) is not None
        case _:
            return False


def _swap(fresh: Path, place: Path) -> None:
    """Put the new folder in the old one's place; on failure the old one is put back."""
    old = _beside(place, "old")
    with _interrupts_held():
        had = place.exists()
        if had:
            _rename(place, old)
        try:
            _rename(fresh, place)
        except OSError:
            if had:
                _rename(old, place)
            raise
        shutil.rmtree(old, ignore_errors=True)


def _rename(source: Path, target: Path) -> None:
    """Rename a folder; where somebody may hold a file of it open for a moment, try again."""
    for pause in _PAUSES if sys.platform == "win32" else ():
        try:
            source.rename(target)
        except PermissionError:
            time.sleep(pause)
        else:
            return
    source.rename(target)


@contextlib.contextmanager
def _interrupts_held() -> Generator[None, None, None]:
    """Let nobody interrupt the two renames: a Ctrl-C counts after them."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    caught: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _frame: caught.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
    if caught:
        raise KeyboardInterrupt


@contextlib.contextmanager
def _made_parents(place: Path) -> Generator[None, None, None]:
    """Make the folders above a place; take them away again where the work in them fails."""
    missing = [parent for parent in place.parents if not parent.exists()]
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        _take_away(missing)
        blocked = isinstance(error, FileExistsError)  # some folder above is a file
        raise _output_error(place, OSError(errno.ENOTDIR, "") if blocked else error) from error
    try:
        yield
    except BaseException:
        _take_away(missing)
        raise


def _take_away(folders: Iterable[Path]) -> None:
    for folder in folders:
        with contextlib.suppress(OSError):
            folder.rmdir()


def _beside(place: Path, state: str) -> Path:
    """Return the name of a temporary beside a place, which tells the process that writes it."""
    return place.with_name(f".{place.name}.{state}-{os.getpid()}")


def _sweep(place: Path) -> None:
    """Clear away what a killed run left beside a place; a folder it had moved aside is put back first."""
    for state in ("old", "new"):
        stem = f".{place.name}.{state}-"
        leftovers = [entry for entry in place.parent.iterdir() if entry.name.startswith(stem)]
        for leftover in sorted(leftovers):
            number = leftover.name.removeprefix(stem)
            if not number.isdecimal() or _is_running(int(number)):
                continue
            if state == "old" and not place.exists():
                leftover.rename(place)
            elif leftover.is_dir() and not leftover.is_symlink():
                shutil.rmtree(leftover, ignore_errors=True)
            else:
                leftover.unlink(missing_ok=True)


def _is_running(process: int) -> bool:
    """Return True where another process of that number is at work."""
    if process == os.getpid():
        return False
    if sys.platform == "win32":
        import ctypes

        query_limited_information = 0x1000
        handle = ctypes.windll.kernel32.OpenProcess(query_limited_information, False, process)
        if handle:
            ctypes.windll.kernel32.CloseHandle(handle)
        return bool(handle)
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


_ANOTHER_DISK = "Free some space, or choose a place on another disk."
_CLOSE_IT = "Close whatever has files of it open, or choose another place."
_ANOTHER = "Choose another place."
_AGAIN = "Wait until the other is done, then try again."
_IN_WORDS = {
    errno.ENOSPC: ("a full disk", _ANOTHER_DISK),
    errno.EDQUOT: ("a used-up quota", _ANOTHER_DISK),
    errno.EACCES: ("no permission to write", _CLOSE_IT),
    errno.EPERM: ("no permission to write", _CLOSE_IT),
    errno.EBUSY: ("a folder in use", _CLOSE_IT),
    errno.EROFS: ("a disk that can only be read", "Choose a place on another disk."),
    errno.ENOTDIR: ("a file where a folder is needed", _ANOTHER),
    errno.EEXIST: ("something of that name in the way", _ANOTHER),
    errno.ENOENT: ("that another program moved it at the same moment", _AGAIN),
    errno.ENOTEMPTY: ("that another program wrote it at the same moment", _AGAIN),
    errno.ENAMETOOLONG: ("a name that is too long", "Choose a shorter name."),
}


def _output_error(place: Path, error: OSError) -> LathlightError:
    """Return the error in words: what the disk said, and that nothing was changed."""
    found, remedy = _IN_WORDS.get(error.errno or 0, (error.strerror or type(error).__name__, _ANOTHER))
    return OutputError.of(
        place=str(place),
        found=found,
        expected="a place that can be written",
        remedy=f"{remedy} Nothing was changed.",
    )
