# pyright: reportUnknownMemberType=false
"""Writing the shelf of offcuts: the file as it was, with what a job has changed; every comment stays.

Decides where new offcuts and marks stand in the file. What changes is decided by ``lathlight.buying.shelf``, nothing is
written to disk here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lathlight.buying.shelf_file import CRLF, FORMAT
from lathlight.units import LengthStyle, file_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.buying.shelf import Offcut, Shelf

MARKS = ("taken_by", "left_by")
_FORMAT_LINE = re.compile(r"^[ \t]*format[ \t]*=.*\n", re.MULTILINE)


def write_shelf(shelf: Shelf, *, text: str = "") -> str:
    """Return the text of a shelf file: as it was, with the jobs, marks and offcuts of the shelf.

    Parameters
    ----------
    shelf
        Read from the text, then used or undone: what an offcut measures is not changed here.
    text
        The file as it was; "" for a fresh one.

    Notes
    -----
    An offcut that stays keeps its table, only the job's mark comes or goes; new ones stand at the end. An unchanged
    shelf gives the same text.
    """
    from tomlkit import parse

    crlf = CRLF in text and text.count("\n") == text.count(CRLF)
    before = text.replace(CRLF, "\n") if crlf else text
    plain = before if before.endswith("\n") or not before else f"{before}\n"
    if not plain.strip():
        plain += f'format = {FORMAT}\nunits = "{shelf.system}"\njobs = []\n'
    document = parse(_with_jobs(plain) if shelf.jobs and "jobs" not in parse(plain) else plain)
    editor = _Editor(document=document, style=LengthStyle.of(shelf.system, None))
    editor.set_jobs(shelf.jobs)
    editor.set_offcuts(shelf.offcuts)
    written = document.as_string()
    if written == f"{before}\n":
        return text
    return written.replace("\n", CRLF) if crlf else written


def _with_jobs(text: str) -> str:
    """Return a text with an empty list of jobs after the line of the format, or on top where there is no such line."""
    found = _FORMAT_LINE.search(text)
    place = found.end() if found else 0
    return f"{text[:place]}jobs = []\n{text[place:]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Editor:
    """Changes one document in place."""

    document: Any
    style: LengthStyle

    def set_jobs(self, jobs: Sequence[str]) -> None:
        """Take jobs out of the list and put new ones at its end."""
        listed = self.document.get("jobs", [])
        for job in [each for each in listed if each not in jobs]:
            listed.remove(job)
        for job in [each for each in jobs if each not in listed]:
            listed.append(job)

    def set_offcuts(self, offcuts: Sequence[Offcut]) -> None:
        """Take offcuts out, set the marks of those that stay, and put new ones at the end."""
        entries = self.document.get("offcuts", [])
        wanted = {offcut.id: offcut for offcut in offcuts}
        for number in reversed(range(len(entries))):
            offcut = wanted.pop(str(entries[number]["id"]), None)
            if offcut is None:
                self._take_out(entries, number)
            else:
                for key in MARKS:
                    _set_mark(entries[number], key, getattr(offcut, key))
        for offcut in wanted.values():
            self._add(offcut)

    def _take_out(self, entries: Any, number: int) -> None:
        """Take an offcut out with the blank line above it; comments below its keys belong to what follows, and stay."""
        from tomlkit.items import AoT

        if not isinstance(entries, AoT):
            del entries[number]
            return
        above = entries[number - 1].value.body if number else self._above_offcuts()
        _without_blank_line(above)
        if number == 0:
            self.document.body[: len(above)] = above
        tail = _tail_of(entries[number])
        del entries[number]
        if number < len(entries):
            trivia = entries[number].trivia
            trivia.indent = "".join(item.as_string() for _, item in tail) + trivia.indent
        elif number > 0:
            entries[number - 1].value.body.extend(tail)
        else:
            del self.document["offcuts"]
            self.document.body.extend(tail)

    def _above_offcuts(self) -> list[Any]:
        """Return what stands before the first offcut."""
        body = self.document.body
        place = next(n for n, (key, _) in enumerate(body) if key is not None and key.key == "offcuts")
        return body[:place]

    def _add(self, offcut: Offcut) -> None:
        from tomlkit import aot, table
        from tomlkit.items import AoT

        keys = self._keys(offcut)
        if "offcuts" in self.document and not isinstance(self.document["offcuts"], AoT):
            self.document["offcuts"].append(_inline(keys))
            return
        made = table()
        made.update(keys)
        made.trivia.indent = "\n"
        if "offcuts" not in self.document:
            self.document.append("offcuts", aot())
        self.document["offcuts"].append(made)

    def _keys(self, offcut: Offcut) -> dict[str, str]:
        """Return an offcut's keys as they stand in the file."""
        stock = "section" if offcut.width is None else "sheet"
        keys = {"id": offcut.id, stock: offcut.stock, "length": file_length(offcut.length, style=self.style)}
        if offcut.width is not None:
            keys["width"] = file_length(offcut.width, style=self.style)
        if offcut.note:
            keys["note"] = offcut.note
        marks = {key: getattr(offcut, key) for key in MARKS}
        return keys | {key: mark for key, mark in marks.items() if mark is not None}


def _inline(keys: dict[str, str]) -> Any:
    from tomlkit import inline_table

    made = inline_table()
    made.update(keys)
    return made


def _set_mark(entry: Any, key: str, mark: str | None) -> None:
    """Set a mark as the last key of an offcut, or take it out."""
    from tomlkit.items import Table

    if entry.get(key) == mark:
        return
    if mark is None:
        del entry[key]
        return
    tail = _tail_of(entry) if isinstance(entry, Table) and key not in entry else []
    entry[key] = mark
    if tail:
        entry.value.body.extend(tail)


def _without_blank_line(body: list[Any]) -> None:
    """Take the last line off the end of a body if it is blank."""
    from tomlkit.items import Whitespace

    if body and isinstance(body[-1][1], Whitespace) and body[-1][1].s.endswith("\n"):
        body[-1] = (None, Whitespace(body[-1][1].s[:-1]))


def _tail_of(table: Any) -> list[Any]:
    """Take the comments and blank lines off the end of a table, and return them in order."""
    body = table.value.body
    tail: list[Any] = []
    while body and body[-1][0] is None:
        tail.insert(0, body.pop())
    return tail
