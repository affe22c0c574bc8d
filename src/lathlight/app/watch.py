"""Waiting for a file to be saved.

Decides what counts as a save: the content differs, and has stopped changing. What is done then is left to the caller.
"""

from __future__ import annotations

import time
from hashlib import blake2b
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

POLL = 0.2  # [s] between two looks
Signature = tuple[int, int] | None


def each_save(path: Path, *, sleep: Callable[[float], None] = time.sleep) -> Iterator[None]:
    """Yield once at the start and again after every save of a file, without end.

    An editor that writes in several steps, or replaces the file, counts as one save; a save that changes nothing
    counts as none. A missing file is waited for; that it has gone is told once, like a save.

    Parameters
    ----------
    path
        The file to watch.
    sleep
        What waits; replaced in tests.
    """
    signature, content = _signature(path), _content(path)
    yield
    while True:
        sleep(POLL)
        latest = _signature(path)
        if latest == signature:
            continue
        signature = _settled(path, latest, sleep=sleep)
        before, content = content, _content(path)
        if content != before:
            yield


def _settled(path: Path, signature: Signature, *, sleep: Callable[[float], None]) -> Signature:
    """Wait until a file is the same at two looks; return how it looks then."""
    while True:
        sleep(POLL / 2)
        latest = _signature(path)
        if latest == signature:
            return latest
        signature = latest


def _signature(path: Path) -> Signature:
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_mtime_ns, status.st_size


def _content(path: Path) -> bytes | None:
    try:
        return blake2b(path.read_bytes()).digest()
    except OSError:
        return None
