"""From a file, or from text, to a Brief.

Decides nothing: reading is left to ``lathlight.project``, and so are the names that are looked up and the defaults.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.catalog import load_catalog
from lathlight.project import parse_project, project_schema, read_project, resolve

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path
    from typing import Any

    from lathlight.project import Brief


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A project file that could be read: its brief, and its name and text to find places in."""

    name: str
    text: str
    brief: Brief


def open_project(path: Path) -> Opened:
    """Return a project file with its brief.

    Raises
    ------
    InputError
        The file cannot be used as it is; every problem is named.
    """
    catalog = load_catalog()
    file = read_project(path, catalog=catalog)
    brief = resolve(file.project, catalog, place=path.name, text=file.text)
    return Opened(name=path.name, text=file.text, brief=brief)


def read_brief(path: Path) -> Brief:
    """Return the brief of a project file.

    Raises
    ------
    InputError
        As :func:`open_project`.
    """
    return open_project(path).brief


def brief_of_text(text: str, *, name: str) -> Brief:
    """Return the brief of a project file's text; the name stands in the places of problems.

    Raises
    ------
    InputError
        The text cannot be used as it is.
    """
    catalog = load_catalog()
    return resolve(parse_project(text, name=name, catalog=catalog), catalog, place=name, text=text)


def schema_document() -> Mapping[str, Any]:
    """Return the JSON Schema of the project file."""
    return project_schema()
