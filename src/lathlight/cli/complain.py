"""Errors and snags as lines, or as one JSON document, and the exit codes.

Decides what a shell sees of each outcome. What is wrong and how to mend it is said by whoever found it.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Final

from lathlight.cli import show
from lathlight.errors import InputError, LathlightError, MissingLibraryError, NoAnswerError, OutputError, Problem

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from lathlight.snags import Snag

DONE: Final = 0
STOPPING_SNAGS: Final = 1
PROBLEMS: Final = 2
FAULT: Final = 3
STOPPED: Final = 130  # as shells say it of Ctrl-C
LONGEST_FAULT: Final = 120  # characters of a fault shown; all of it is in the log file

KINDS: Final[tuple[tuple[type[LathlightError], str], ...]] = (
    (InputError, "input"),
    (NoAnswerError, "no answer"),
    (MissingLibraryError, "missing library"),
    (OutputError, "output"),
)


def about_error(error: LathlightError, *, as_json: bool) -> int:
    """Tell every problem of an error; return the exit code."""
    kind = next((kind for family, kind in KINDS if isinstance(error, family)), "problem")
    _tell(kind, error.problems, as_json=as_json)
    return PROBLEMS


def about_usage(message: str, *, remedy: str, as_json: bool) -> int:
    """Tell what is wrong with the command line; return the exit code."""
    problem = Problem(
        place="command line",
        found=message[:1].lower() + message[1:].rstrip("."),
        expected="a command with its options as the help lists them",
        remedy=remedy,
    )
    _tell("usage", [problem], as_json=as_json)
    return PROBLEMS


def about_fault(fault: BaseException, *, doing: Sequence[str], as_json: bool) -> int:
    """Keep a fault of ours in a log file and tell where; return the exit code."""
    log = _logged(fault, doing=doing)
    problem = Problem(
        place="Lathlight" if log is None else str(log),
        found=f"a fault of its own ({_one_line(fault)})",
        expected="a finished command",
        remedy="Your files are untouched. Please report it"
        + (" with this line." if log is None else " and send the file named at the start of this line."),
    )
    _tell("fault", [problem], as_json=as_json)
    return FAULT


def _logged(fault: BaseException, *, doing: Sequence[str]) -> Path | None:
    """Keep a fault in a log file; None where that fails as well, for want of a library or of room."""
    try:
        from lathlight.app import log_fault
    except ImportError:
        return None
    return log_fault(fault, doing=doing)


def _one_line(fault: BaseException) -> str:
    text = " ".join(f"{type(fault).__name__} {fault}".split())
    return text if len(text) <= LONGEST_FAULT else f"{text[:LONGEST_FAULT]}..."


def about_stop(*, as_json: bool) -> int:
    """Tell that the user stopped the work; return the exit code."""
    if not as_json:
        show.note("Stopped. Nothing was left half-written.")
    return STOPPED


def about_snags(snags: Sequence[Snag]) -> None:
    """Print the snags, worst first."""
    if not snags:
        show.say("No snags found by the checks there are.")
        return
    count = f"{len(snags)} snag" + ("s" if len(snags) > 1 else "")
    show.say(show.wrapped(f"{count}, worst first; lathlight why FILE ID says how each figure came about:"))
    for snag in sorted(snags, key=lambda snag: snag.severity):
        show.say()
        show.say(show.wrapped(snag.what, first=f"  {snag.severity.words.upper()}: ", rest="    "))
        show.say(show.wrapped(snag.remedy, first="    To mend it: ", rest="    "))
        show.say(f"    ID: {snag.id}")


def _tell(kind: str, problems: Sequence[Problem], *, as_json: bool) -> None:
    if as_json:
        show.say_json({"kind": kind, "problems": [asdict(problem) for problem in problems]})
        return
    for problem in problems:
        show.note(str(problem))


def wants_json(arguments: Sequence[str]) -> bool:
    """Return True where the command line asks for JSON, even where it cannot be read otherwise."""
    options = arguments[: arguments.index("--")] if "--" in arguments else arguments
    return "--json" in options
