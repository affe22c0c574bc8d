"""The demo sets that come with the program, as project files.

Decides where they lie: inside an installed package, or beside a source checkout. What they hold is in ``examples``.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import lathlight
from lathlight.errors import InputError, nearest

if TYPE_CHECKING:
    from collections.abc import Mapping

QUICK_START = "corner-metric"


def example_names() -> tuple[str, ...]:
    """Return the names of the demo sets, sorted."""
    return tuple(_files())


def read_example(name: str) -> str:
    """Return a demo set's project file.

    Raises
    ------
    InputError
        There is no demo set of that name.
    """
    files = _files()
    if name not in files:
        near = nearest(name, files)
        raise InputError.of(
            place="the demo sets",
            found=f'"{name}"',
            expected=" or ".join(files) or "an installation that holds them",
            remedy=f'Did you mean "{near}"?' if near else "Give one of these names.",
        )
    return files[name].read_text(encoding="utf-8")


def _files() -> Mapping[str, Path]:
    package = Path(lathlight.__file__).parent
    for folder in (package / "examples", package.parents[1] / "examples"):
        found = {path.stem: path for path in sorted(folder.glob("*.toml"))}
        if found:
            return found
    return {}
