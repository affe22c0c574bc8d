"""Places that later stages name in words, found again in the file: ``walls "back" opening "door"``, ``floor depth``.

Stages know names and no file; whoever has the text turns what they found into a place with file, line and key.
"""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

from lathlight.errors import InputError
from lathlight.project.findings import Finding, in_file_order, step_into
from lathlight.project.model import Floor, MouldingFrames

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.project.lines import KeyPath
    from lathlight.project.model import Table


def relocated(error: InputError, *, name: str, text: str) -> InputError:
    """Return an error of a later stage with file, line and key in its places, in the order of the file.

    Parameters
    ----------
    error
        Its places are names in words; those that the file does not have stay as they are, after the others.
    name
        The file's name.
    text
        The file's text, which has been read before.
    """
    raw = tomllib.loads(text)
    paths = dict(_names(raw))
    findings = [
        Finding(path=paths[each.place], found=each.found, expected=each.expected, remedy=each.remedy)
        for each in error.problems
        if each.place in paths
    ]
    others = [each for each in error.problems if each.place not in paths]
    return InputError([*in_file_order(findings, name=name, raw=raw, text=text), *others])


def _names(raw: Any) -> Iterator[tuple[str, KeyPath]]:
    """Yield how stages call each wall, opening, line of trim and tier of frames, and the floor, with its key."""
    lines = [f'trim "{step_into(line, "name")}"' for line in _entries(raw, "trim")]
    for number, wall in enumerate(_entries(raw, "walls")):
        words = f'walls "{step_into(wall, "name")}"'
        yield words, ("walls", number)
        for place, opening in enumerate(_entries(wall, "openings")):
            yield f'{words} opening "{step_into(opening, "name")}"', ("walls", number, "openings", place)
        yield from ((f"{words} {line}", ("trim", which)) for which, line in enumerate(lines))
    for number, tier in enumerate(_entries(raw, "moulding_frames")):
        yield from _table(f'moulding_frames "{step_into(tier, "name")}"', ("moulding_frames", number), MouldingFrames)
    yield from _table("floor", ("floor",), Floor)


def _table(words: str, path: KeyPath, table: type[Table]) -> Iterator[tuple[str, KeyPath]]:
    """Yield a table and each of its keys, also those that the file does not state."""
    yield words, path
    yield from ((f"{words} {key}", (*path, key)) for key in table.model_fields)


def _entries(table: Any, key: str) -> list[Any]:
    entries = step_into(table, key)
    return entries if isinstance(entries, list) else []  # pyright: ignore[reportUnknownVariableType]
