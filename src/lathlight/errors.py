"""The one family of errors, and the problem that each of them holds.

A problem is something the user can mend; an error carries all problems that were found, in file order.
What is possible but would go wrong is a snag (``lathlight.snags``), never an error.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong, in words that let the reader mend it."""

    place: str  # file, line, key: "parlour.toml:14 walls[0].width"
    found: str  # the value as it was given, with its unit
    expected: str  # what would have been accepted
    remedy: str  # what to type or do now

    def __str__(self) -> str:
        """Return the problem as one line."""
        return f"{self.place}: found {self.found}, expected {self.expected}. {self.remedy}"


class LathlightError(Exception):
    """Base of the family; holds every problem found and prints one line each."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        super().__init__(problems)
        self.problems: tuple[Problem, ...] = tuple(problems)

    def __str__(self) -> str:
        """Return one line a problem."""
        return "\n".join(str(problem) for problem in self.problems)

    @classmethod
    def of(cls, *, place: str, found: str, expected: str, remedy: str) -> LathlightError:
        """Return an error of this class that holds one problem."""
        return cls([Problem(place=place, found=found, expected=expected, remedy=remedy)])


class InputError(LathlightError, ValueError):
    """A project, catalogue, tape or meter file cannot be used as it is."""


class NoAnswerError(LathlightError):
    """A solver was asked for the impossible: the limit that binds, the nearest answer."""


class MissingLibraryError(LathlightError, ImportError):
    """An optional library is absent: the extra to install."""


class OutputError(LathlightError, OSError):
    """Something cannot be written; what was there before is untouched."""


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Return the known name nearest to a misspelt one, or None where nothing is near.

    Examples
    --------
    >>> nearest("heigth", ["height", "length"])
    'height'
    >>> nearest("zebra", ["height", "length"]) is None
    True
    """
    matches = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.6)
    return matches[0] if matches else None
