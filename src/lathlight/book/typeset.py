"""The typesetter: a source with its files in, a PDF out. The one place that knows it.

It sees the bundled fonts alone, no system fonts and no network; its clock is the project's date. Equal input gives
equal bytes.
"""
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false, reportUnknownArgumentType=false
# pyright: reportMissingTypeStubs=false

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from lathlight.exports import UNDATED
from lathlight.fonts import font_folder

if TYPE_CHECKING:
    from collections.abc import Mapping

MAIN = "main.typ"


def compile_book(source: str, files: Mapping[str, bytes], *, date: dt.date | None) -> bytes:
    """Return the PDF of a source.

    Parameters
    ----------
    source
        The document in the typesetter's language.
    files
        What it reads, by name: pictures as SVG, data as JSON.
    date
        The project's date, which becomes the file's own; a fixed one where there is none.

    Raises
    ------
    ValueError
        The source has a fault, or asks for a font that is not bundled: a fault of ours.
    """
    import typst

    day = date or UNDATED
    moment = dt.datetime(day.year, day.month, day.day, tzinfo=dt.UTC)
    try:
        pdf, warnings = typst.compile_with_warnings(
            _project(source, files), format="pdf", font_paths=_fonts(), ignore_system_fonts=True, timestamp=moment
        )
    except typst.TypstError as error:
        msg = f"the set book's source has a fault: {error}"
        raise ValueError(msg) from error
    if warnings:
        msg = f"the set book's source is doubtful: {'; '.join(str(w) for w in warnings)}"
        raise ValueError(msg)
    return pdf


def find_value(source: str, files: Mapping[str, bytes], *, label: str) -> Any:
    """Return the value that a source states under a label, without making a PDF: how many pages it has, for one."""
    import typst

    try:
        found = typst.query(
            _project(source, files),
            f"<{label}>",
            field="value",
            one=True,
            font_paths=_fonts(),
            ignore_system_fonts=True,
        )
    except RuntimeError as error:
        msg = f"the set book's source states nothing under {label}: {error}"
        raise ValueError(msg) from error
    return json.loads(found)


def _project(source: str, files: Mapping[str, bytes]) -> Any:
    return {MAIN: source.encode("utf-8"), **files}


def _fonts() -> Any:
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())])
