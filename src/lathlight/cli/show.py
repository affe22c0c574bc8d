"""What the command line shows: plain lines, tables, one JSON document, a line of progress.

Decides how wide, in which letters, and on which of the two streams. What is said is left to the commands.
"""

from __future__ import annotations

import contextlib
import io
import json
import locale
import os
import shutil
import sys
import textwrap
import time
from typing import TYPE_CHECKING

from lathlight.errors import OutputError
from lathlight.progress import Quiet

if TYPE_CHECKING:
    from collections.abc import Generator, Sequence
    from typing import TextIO

    from lathlight.progress import Progress

PIPED_WIDTH = 100_000  # columns where nobody looks: nothing is wrapped
LEAST_WIDTH = 40
NARROWEST_COLUMN = 12  # characters; a table with many narrower wrapped columns is hard to read
GAP = "  "  # between two columns
BAR = 24  # characters of the progress bar
SLOW = 0.3  # [s] work shorter than this shows no progress


def prepare_streams() -> None:
    """Make both streams write UTF-8, whatever the locale says, and never fail on a letter."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="surrogateescape")


def takes_box_lines(encoding: str | None = None) -> bool:
    """Return True where an encoding, by default the locale's, has box-drawing characters."""
    try:
        "─│┌█".encode(encoding or locale.getpreferredencoding(do_setlocale=False))
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def say(text: str = "") -> None:
    """Print to the standard output."""
    _write(sys.stdout, text)


def note(text: str) -> None:
    """Print to the standard error: what a pipe should not take in."""
    _write(sys.stderr, text)


def say_json(document: object) -> None:
    """Print one JSON document on one line."""
    say(json.dumps(document, ensure_ascii=False, allow_nan=False))


def indented_json(document: object) -> str:
    """Return a JSON document over several lines, for reading."""
    return json.dumps(document, ensure_ascii=False, allow_nan=False, indent=2)


def _write(stream: TextIO, text: str) -> None:
    """Write a line; where the reader has gone, write the rest into nothing."""
    try:
        stream.write(text + "\n")
        stream.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except OSError as error:
        raise OutputError.of(
            place="the output",
            found=error.strerror or "an error of the system",
            expected="a place that can be written",
            remedy="Send the output somewhere else.",
        ) from error


def width() -> int:
    """Return how many columns the output may take."""
    if not sys.stdout.isatty() and "COLUMNS" not in os.environ:
        return PIPED_WIDTH
    return max(shutil.get_terminal_size().columns, LEAST_WIDTH)


def wrapped(text: str, *, first: str = "", rest: str = "") -> str:
    """Return text wrapped to the output's width, with what stands before its first and its other lines."""
    return textwrap.fill(
        text,
        width=width(),
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )


def table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table with ruled head; too wide, its widest columns wrap; far too wide, each row is a block of lines."""
    widths = _column_widths(header, rows, room=width())
    if widths is None:
        return "\n\n".join(_block(header, row) for row in rows)
    lines = [_line(header, widths), _line(["-" * each for each in widths], widths)]
    lines += [_line(row, widths) for row in rows]
    return "\n".join(lines)


def _column_widths(header: Sequence[str], rows: Sequence[Sequence[str]], *, room: int) -> list[int] | None:
    """Return widths that fit the room; None where columns would become too narrow to read."""
    widths = [max(len(row[i]) for row in (header, *rows)) for i in range(len(header))]
    over = sum(widths) + len(GAP) * (len(widths) - 1) - room
    while over > 0:
        widest = max(widths)
        if widest <= NARROWEST_COLUMN:
            return None
        widths[widths.index(widest)] -= 1
        over -= 1
    return widths


def _block(header: Sequence[str], row: Sequence[str]) -> str:
    pairs = zip(header, row, strict=True)
    return "\n".join(wrapped(f"{title}: {cell}", rest="    ") for title, cell in pairs if cell)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    """Return one row; a cell too wide for its column runs over several lines."""
    folded = [textwrap.wrap(cell, width=each) or [""] for cell, each in zip(cells, widths, strict=True)]
    height = max(len(lines) for lines in folded)
    padded = [[*lines, *[""] * (height - len(lines))] for lines in folded]
    return "\n".join(
        GAP.join(part.ljust(each) for part, each in zip(parts, widths, strict=True)).rstrip()
        for parts in zip(*padded, strict=True)
    )


class ProgressLine:
    """A receiver of reports that redraws one line of the terminal."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._since = time.monotonic()
        self._drawn = 0  # characters now on the line

    def report(self, *, done: float, text: str) -> None:
        """Show a bar and what is being done."""
        if time.monotonic() - self._since < SLOW:
            return
        filled = round(BAR * min(max(done, 0.0), 1.0))
        room = max(shutil.get_terminal_size().columns - BAR - 4, 0)
        self._draw(f"[{'#' * filled}{'.' * (BAR - filled)}] {text[:room]}")

    def stop_requested(self) -> bool:
        """Return False: Ctrl-C stops the program by itself."""
        return False

    def clear(self) -> None:
        """Take the line away."""
        if self._drawn:
            self._draw("")
            self._stream.write("\r")
            self._stream.flush()

    def _draw(self, text: str) -> None:
        self._stream.write(f"\r{text.ljust(self._drawn)}")
        self._stream.flush()
        self._drawn = len(text)


@contextlib.contextmanager
def progress() -> Generator[Progress, None, None]:
    """Give a receiver of progress: a line on the standard error where that is a terminal, else nothing."""
    if not sys.stderr.isatty():
        yield Quiet()
        return
    line = ProgressLine(sys.stderr)
    try:
        yield line
    finally:
        line.clear()
