"""Older project files brought up to the present format, one step a version.

A step takes the tables of its version and returns those of the next; it changes nothing in place. A new format is one
entry in ``STEPS`` and one more in ``lathlight.project.model.FORMAT``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from lathlight.project.model import FORMAT

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Step = Callable[[dict[str, Any]], dict[str, Any]]

FIRST = 1  # what a file without a format line is

STEPS: Mapping[int, Step] = {}  # from version -> the tables of the next one


def format_of(raw: Mapping[str, Any]) -> object:
    """Return what a file says its format is, the first one where it says nothing."""
    return raw.get("format", FIRST)


def is_readable(version: object, *, newest: int = FORMAT) -> bool:
    """Return True for a format from the first to the newest."""
    return isinstance(version, int) and not isinstance(version, bool) and FIRST <= version <= newest


def upgrade(
    raw: Mapping[str, Any], from_version: int, *, steps: Mapping[int, Step] = STEPS, newest: int = FORMAT
) -> dict[str, Any]:
    """Return a file's tables in the present format; they themselves stay as they are.

    Parameters
    ----------
    raw
        Tables as they were read.
    from_version
        Their format, from 1 to `newest`.
    steps
        For each version the step to the next.
    newest
        The present format.

    Raises
    ------
    ValueError
        A format outside that range: the reader has refused it before.
    """
    if not is_readable(from_version, newest=newest):
        message = f"format {from_version} cannot be upgraded to {newest}"
        raise ValueError(message)
    tables = dict(raw)
    for version in range(from_version, newest):
        tables = {**steps[version](tables), "format": version + 1}
    return tables
