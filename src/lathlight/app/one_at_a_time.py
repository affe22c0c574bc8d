"""One process at a time among those that write into the same folder.

Decides how a writer waits for its turn. The system itself ends a turn when a process dies, so that nothing is left
behind that could keep others out.
"""

from __future__ import annotations

import contextlib
import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Generator
    from pathlib import Path


@contextlib.contextmanager
def in_turn(folder: Path) -> Generator[None, None, None]:
    """Hold a folder for one writer; others wait until it is let go.

    Parameters
    ----------
    folder
        The folder in which names come and go. One that is not there yet, or lies on a disk that knows no locks, is
        not held: what two writers then do to each other is told as any other failure.
    """
    handle = _held(folder)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)  # which lets it go


if sys.platform == "win32":

    def _held(folder: Path) -> int | None:
        import msvcrt

        try:  # folders cannot be opened there; this file goes with the last that holds it
            handle = os.open(folder / ".lathlight.lock", os.O_RDWR | os.O_CREAT | os.O_TEMPORARY)
        except OSError:
            return None
        return handle if _waited(handle, lambda: msvcrt.locking(handle, msvcrt.LK_LOCK, 1)) else None

else:

    def _held(folder: Path) -> int | None:
        import fcntl

        try:
            handle = os.open(folder, os.O_RDONLY)
        except OSError:
            return None
        return handle if _waited(handle, lambda: fcntl.flock(handle, fcntl.LOCK_EX)) else None


def _waited(handle: int, wait: Callable[[], object]) -> bool:
    """Wait for a lock; where there is none to be had, or the wait is broken off, the handle is closed."""
    try:
        wait()
    except OSError:
        os.close(handle)
        return False
    except BaseException:
        os.close(handle)
        raise
    return True
