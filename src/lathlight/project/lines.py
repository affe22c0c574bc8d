"""The line of the file that a key stands on.

The reader that keeps no positions has already read the file; this is only asked when something is wrong. It reads the
text again with comments kept, puts a mark before every wanted key, writes it out once and counts the lines before.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable

KeyPath: TypeAlias = "tuple[str | int, ...]"

_MARK = re.compile("\x00([0-9]+);")  # a file cannot hold this sign


def line_numbers(text: str, paths: Iterable[KeyPath]) -> dict[KeyPath, int]:
    """Return the line [from 1] of every key, or of the nearest table around it where the key is not there.

    A path to which nothing corresponds, not even its first key, is left out; so are all where the text cannot be read.
    """
    from tomlkit import parse
    from tomlkit.exceptions import TOMLKitError

    try:
        document = parse(text)
    except (TOMLKitError, ValueError, RecursionError):
        return {}
    numbers: dict[KeyPath, int] = {}
    for path in paths:
        _put_mark(document, path, numbers)
    lines = _lines_of_marks(document.as_string())
    return {path: line for path, number in numbers.items() if (line := lines.get(number) or _header(text, path))}


def _put_mark(document: Any, path: KeyPath, numbers: dict[KeyPath, int]) -> None:
    """Mark the longest part of the path that is there."""
    if path in numbers:
        return
    mark = f"\x00{len(numbers)};"
    numbers[path] = len(numbers)
    trail = [(document, path[0])] if path else []
    while trail and len(trail) < len(path) and (child := _item(*trail[-1])) is not None:
        trail.append((child, path[len(trail)]))
    for parent, step in reversed(trail):
        if _marked(parent, step, mark):
            return


def _item(parent: Any, step: str | int) -> Any:
    """Return the item under a key or number, None where there is none."""
    from tomlkit.container import Container
    from tomlkit.items import AbstractTable, Array

    here: Any = parent.value if isinstance(parent, AbstractTable) else parent
    try:
        if isinstance(here, Container):
            return here.item(str(step)) if step in here else None
        return here.item(int(step)) if isinstance(here, Array) else here[step]
    except (LookupError, TypeError, ValueError):
        return None


def _marked(parent: Any, step: str | int, mark: str) -> bool:
    """Put the mark before an item; False where it has no place for one."""
    from tomlkit.items import Array, InlineTable, Integer, Item, Trivia

    item = _item(parent, step)
    if not isinstance(item, Item):
        return False
    if not isinstance(parent, Array):
        item.trivia.indent += mark
        return True
    if isinstance(item, InlineTable | Array):
        first = next(iter(item), None) if isinstance(item, InlineTable) else 0
        return len(item) > 0 and first is not None and _marked(item, first, mark)
    if _MARK.search(item.as_string()):
        mark = item.as_string() + mark
    parent[int(step)] = Integer(0, Trivia(), raw=mark)
    return True


def _lines_of_marks(text: str) -> dict[int, int]:
    lines: dict[int, int] = {}
    line, counted = 1, 0
    for found in _MARK.finditer(text):
        line += text.count("\n", counted, found.start())
        counted = found.start()
        lines[int(found[1])] = line
    return lines


def _header(text: str, path: KeyPath) -> int | None:
    """Return the line of the first table that has the path's first key in its head."""
    found = re.search(rf"^[ \t]*\[+[ \t]*{re.escape(str(path[0]))}\b", text, re.MULTILINE) if path else None
    return None if found is None else text.count("\n", 0, found.start()) + 1
