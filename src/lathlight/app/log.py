"""A fault of ours, kept in a file that the user can send.

Decides where such files lie and what they tell. That a fault becomes one line on the screen is left to the faces.
"""

from __future__ import annotations

import datetime as dt
import os
import platform
import sys
import tempfile
import traceback
from pathlib import Path
from typing import TYPE_CHECKING

import lathlight

if TYPE_CHECKING:
    from collections.abc import Sequence

KEPT = 20  # fault files kept; older ones go


def log_fault(fault: BaseException, *, doing: Sequence[str]) -> Path | None:
    """Write a fault with its traceback into a new file; return where it lies, None where nothing can be written.

    Parameters
    ----------
    fault
        What went wrong.
    doing
        The command line, or the request, that led to it.
    """
    now = dt.datetime.now(dt.UTC)
    name = f"fault-{now:%Y%m%d-%H%M%S}-{os.getpid()}.txt"
    text = _report(fault, doing=doing, now=now)
    for folder in (log_folder(), Path(tempfile.gettempdir()) / "lathlight"):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", errors="backslashreplace")
        except OSError:
            continue
        _forget_old(folder)
        return folder / name
    return None


def log_folder() -> Path:
    """Return where fault files lie: the place that the system keeps for a program's own records."""
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "lathlight"
    if sys.platform == "darwin":
        return home / "Library" / "Logs" / "lathlight"
    return Path(os.environ.get("XDG_STATE_HOME") or home / ".local" / "state") / "lathlight"


def _report(fault: BaseException, *, doing: Sequence[str], now: dt.datetime) -> str:
    head = (
        f"lathlight {lathlight.__version__}",
        f"Python {platform.python_version()} on {platform.platform()}",
        f"{now:%Y-%m-%d %H:%M:%S} UTC",
        " ".join(doing),
    )
    return "\n".join((*head, "", "".join(traceback.format_exception(fault))))


def _forget_old(folder: Path) -> None:
    for old in sorted(folder.glob("fault-*.txt"))[:-KEPT]:
        old.unlink(missing_ok=True)
