"""What is wrong at which key, before anybody has looked up the line that it stands on.

Rules return findings; only when there are some is the file searched for their lines and turned into problems.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lathlight.errors import Problem, nearest
from lathlight.project.lines import line_numbers

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from lathlight.project.lines import KeyPath

NOWHERE = 1_000_000_000  # a finding without a line comes last


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that is wrong at one key of the file."""

    path: KeyPath  # ("walls", 0, "length")
    found: str
    expected: str
    remedy: str


def in_file_order(
    findings: Iterable[Finding], *, name: str, raw: Mapping[str, Any], text: str | None
) -> tuple[Problem, ...]:
    """Return findings as problems with their places, in the order of the file.

    Parameters
    ----------
    name
        The file's name, which stands first in every place.
    raw
        The tables as they were read: entries are called by the names they have there.
    text
        The file's text, to find lines in; None gives places without lines, in the order of the findings.
    """
    once = list({(each.path, each.found): each for each in findings}.values())
    lines = {} if text is None else line_numbers(text, [each.path for each in once])
    order = sorted(range(len(once)), key=lambda number: (lines.get(once[number].path) or NOWHERE, number))
    return tuple(_problem(once[number], name=name, raw=raw, line=lines.get(once[number].path)) for number in order)


def _problem(finding: Finding, *, name: str, raw: Mapping[str, Any], line: int | None) -> Problem:
    where = name if line is None else f"{name}:{line}"
    key = key_in_words(finding.path, raw)
    return Problem(
        place=f"{where} {key}" if key else where,
        found=finding.found,
        expected=finding.expected,
        remedy=finding.remedy,
    )


def key_in_words(path: KeyPath, raw: Mapping[str, Any]) -> str:
    """Return a key's path with the names of the entries on the way.

    Examples
    --------
    >>> key_in_words(("walls", 0, "length"), {"walls": [{"name": "back"}]})
    'walls[0] "back" length'
    """
    words: list[str] = []
    here: Any = raw
    for step in path:
        here = step_into(here, step)
        if isinstance(step, int) and words:
            name = step_into(here, "name")
            words[-1] += f'[{step}] "{name}"' if isinstance(name, str) and name else f"[{step}]"
        else:
            words.append(str(step))
    return " ".join(words)


def step_into(here: Any, step: str | int) -> Any:
    """Return what lies under a key or number, None where there is nothing of the kind."""
    if isinstance(step, str):
        return here.get(step) if isinstance(here, dict) else None  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]
    return here[step] if isinstance(here, list) and step < len(here) else None  # pyright: ignore[reportUnknownVariableType, reportUnknownArgumentType]


def did_you_mean(typed: str, known: Sequence[str], *, otherwise: str) -> str:
    """Return a question with the nearest known name, or other advice where none is near.

    Examples
    --------
    >>> did_you_mean("bakc", ["back", "left"], otherwise="Known: back, left.")
    'Did you mean "back"?'
    """
    near = nearest(typed, known)
    return f'Did you mean "{near}"?' if near else otherwise


def listed(names: Sequence[str], *, most: int = 12) -> str:
    """Return names as a list for a message, cut short where there are many.

    Examples
    --------
    >>> listed(["back", "left"]), listed([])
    ('"back", "left"', 'none')
    """
    shown = ", ".join(f'"{name}"' for name in names[:most])
    return (f"{shown} and {len(names) - most} more" if len(names) > most else shown) or "none"
