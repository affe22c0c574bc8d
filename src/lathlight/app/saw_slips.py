"""Collecting what is wrong with a saw job's file, to be told all at once and in the file's order."""

from __future__ import annotations

from lathlight.errors import InputError, Problem

MOST_TOLD = 50  # of a file of thousands of bad lines the first are enough to see what is wrong
LONGEST_SHOWN = 60  # characters of a value in a message


class Slips:
    """Everything found so far, each with the line it stands on."""

    def __init__(self) -> None:
        self._found: list[tuple[int, Problem]] = []

    def add(self, line: int, *, place: str, found: str, expected: str, remedy: str) -> None:
        """Note one thing that is wrong."""
        self._found.append((line, Problem(place=place, found=found, expected=expected, remedy=remedy)))

    def __bool__(self) -> bool:
        """Return True where anything is wrong."""
        return bool(self._found)

    def stop_here(self) -> None:
        """Raise an InputError with everything found, if there is anything."""
        if self._found:
            raise InputError([problem for _, problem in sorted(self._found, key=lambda each: each[0])[:MOST_TOLD]])


def shown(value: object) -> str:
    """Return a value as it was typed, short enough for a message.

    Examples
    --------
    >>> shown("ten"), shown(True), shown([1])
    ('"ten"', 'true', 'a list')
    """
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f'"{value}"' if len(value) <= LONGEST_SHOWN else f'"{value[:LONGEST_SHOWN]}..."'
        case dict():
            return "a table"
        case list():
            return "a list"
        case None:
            return "nothing"
        case _:
            text = str(value)
            return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]}..."
