"""From a file, or from text, to a Brief.

Decides nothing: reading is left to ``lathlight.project``, and so are the names that are looked up and the defaults.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import load_catalog
from lathlight.project import parse_project, project_schema, read_project, resolve

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path
    from typing import Any

    from lathlight.project import Brief


def read_brief(path: Path) -> Brief:
    """Return the brief of a project file.

    Raises
    ------
    InputError
        The file cannot be used as it is; every problem is named.
    """
    file = read_project(path)
    return resolve(file.project, load_catalog(), place=path.name, text=file.text)


def brief_of_text(text: str, *, name: str) -> Brief:
    """Return the brief of a project file's text; the name stands in the places of problems.

    Raises
    ------
    InputError
        The text cannot be used as it is.
    """
    return resolve(parse_project(text, name=name), load_catalog(), place=name, text=text)


def schema_document() -> Mapping[str, Any]:
    """Return the JSON Schema of the project file."""
    return project_schema()
