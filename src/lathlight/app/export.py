"""A plan as the files of its set book's folder.

Decides which files there are and what they are called; everything is made in memory before anything is written. What
stands in them is left to ``lathlight.book``, ``lathlight.drawings`` and ``lathlight.exports``.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.app.run import step
from lathlight.app.save import replace_folder
from lathlight.progress import Quiet

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from lathlight.app.run import Planned
    from lathlight.drawings import Page
    from lathlight.exports import Table
    from lathlight.progress import Progress
    from lathlight.units import LengthStyle

BOOK = "set-book.pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A set book's folder as it was written."""

    folder: Path
    files: tuple[str, ...]  # within the folder, sorted

    @property
    def book(self) -> Path:
        """The set book itself."""
        return self.folder / BOOK


def set_book_folder(project: Path) -> Path:
    """Return the folder that a project's set book goes to where nothing else is said: beside the project file."""
    return project.parent / f"{project.stem}-set-book"


def write_set_book(planned: Planned, folder: Path, *, progress: Progress | None = None) -> Written:
    """Write the set book, drawings, lists, model and plan into a folder, whole or not at all.

    Raises
    ------
    OutputError
        The folder cannot be written or is not ours; nothing was changed.
    StoppedError
        The receiver of reports asked to stop; nothing was written.
    """
    progress = progress or Quiet()
    files = make_files(planned, progress=progress)
    step(progress, done=0.95, text="writing the folder")
    place = replace_folder(folder, files)
    return Written(folder=place, files=tuple(sorted(files)))


def make_files(planned: Planned, *, progress: Progress | None = None) -> Mapping[str, bytes]:
    """Return every file of the set book's folder by its path within it; equal plans give equal bytes."""
    from lathlight.book import numbered_drawings, set_book
    from lathlight.exports import lists, plan_json, set_glb, set_parts

    progress = progress or Quiet()
    plan, snags = planned.plan, planned.snags
    step(progress, done=0.45, text="drawing")
    pages = numbered_drawings(plan, snags)
    step(progress, done=0.55, text="typesetting the set book")
    files = {BOOK: set_book(plan, snags, drawings=pages)}
    step(progress, done=0.75, text="writing the drawings")
    files |= _drawings(pages, title=plan.brief.title.title, style=plan.brief.style)
    step(progress, done=0.85, text="writing the lists")
    files |= _lists(lists(plan, snags), date=plan.brief.title.date)
    step(progress, done=0.9, text="writing the model")
    files["set.glb"] = set_glb(set_parts(plan))
    files["plan.json"] = plan_json(plan, snags)
    return files


def _drawings(pages: Sequence[Page], *, title: str, style: LengthStyle) -> Mapping[str, bytes]:
    """Return every page as SVG and every view on it as DXF."""
    from lathlight.drawings import page_svg, view_dxf

    files: dict[str, bytes] = {}
    taken: set[str] = set()
    for page in pages:
        files[_free(f"drawings/{page.name}", ".svg", taken)] = page_svg(page)
        for placed in page.views:
            drawn = view_dxf(placed.view, style=style, title=f"{title}: {placed.view.title}")
            files[_free(f"drawings/{placed.view.name}", ".dxf", taken)] = drawn
    return files


def _lists(tables: Sequence[Table], *, date: dt.date | None) -> Mapping[str, bytes]:
    """Return every list as CSV, and all of them in one XLSX."""
    from lathlight.exports import csv_bytes, workbook_bytes

    files = {f"lists/{table.name.replace(' ', '-')}.csv": csv_bytes(table) for table in tables}
    return {**files, "lists.xlsx": workbook_bytes(tables, date=date)}


def _free(stem: str, ending: str, taken: set[str]) -> str:
    """Return, and take, a name that no other file has in large or small letters."""
    names = (f"{stem}{f'-{number}' if number > 1 else ''}{ending}" for number in itertools.count(1))
    name = next(name for name in names if name.casefold() not in taken)
    taken.add(name.casefold())
    return name
