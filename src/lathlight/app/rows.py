"""Catalogue rows that match some words, ready to be shown or sent.

Decides how rows are grouped. What matches is left to ``lathlight.catalog``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.app.open import read_brief
from lathlight.catalog import TABLES, load_catalog, nearest_words, rows_as_table, search_catalog
from lathlight.errors import InputError, nearest
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Rows of one table of the catalogue, as text."""

    table: str
    exact: bool  # False: nothing has the words; these names are nearest
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    row_sources: tuple[str, ...]  # one a row

    def document(self) -> Mapping[str, object]:
        """Return the rows ready for JSON."""
        rows = [
            {**dict(zip(self.header, row, strict=True)), "source": source}
            for row, source in zip(self.rows, self.row_sources, strict=True)
        ]
        return {"table": self.table, "exact": self.exact, "rows": rows}


def find_rows(words: str, *, table: str | None, units: str | None, project: Path | None) -> list[Rows]:
    """Return the rows that have all the words, by table; else those with the nearest names.

    Parameters
    ----------
    words
        Parted by blanks; none finds everything.
    table
        Look in this table only.
    units
        How lengths are shown: "metric" or "imperial"; None: as the project writes them, or metric.
    project
        Look among this project's own rows as well.

    Raises
    ------
    InputError
        No such table or units, or the project cannot be used as it is.
    """
    if table is not None:
        _require(table, TABLES, place="--table")
    if units is not None:
        _require(units, ("metric", "imperial"), place="--units")
    brief = None if project is None else read_brief(project)
    catalog = load_catalog() if brief is None else brief.catalog
    found = search_catalog(catalog, words, table=table)
    tables = dict.fromkeys(each.table for each in found)
    style = LengthStyle.of(units or (brief.style.system if brief else "metric"), None)
    grouped: list[Rows] = []
    for name in tables:
        rows = [each.row for each in found if each.table == name]
        header, lines = rows_as_table(name, rows, style=style)
        assert header[-1] == "source"
        grouped.append(
            Rows(
                table=name,
                exact=all(each.exact for each in found),
                header=header[:-1],
                rows=tuple(line[:-1] for line in lines),
                row_sources=tuple(line[-1] for line in lines),
            )
        )
    return grouped


def words_meant(words: str, *, table: str | None, project: Path | None) -> str | None:
    """Return words near to those that found nothing, which do find rows; None where there are none."""
    catalog = load_catalog() if project is None else read_brief(project).catalog
    return nearest_words(catalog, words, table=table)


def numbered_sources(found: Sequence[Rows]) -> Mapping[str, int]:
    """Return every source of some rows once, numbered from 1 in the rows' order."""
    sources = dict.fromkeys(source for each in found for source in each.row_sources)
    return {source: number for number, source in enumerate(sources, start=1)}


def _require(name: str, known: Mapping[str, object] | tuple[str, ...], *, place: str) -> None:
    if name in known:
        return
    near = nearest(name, known)
    raise InputError.of(
        place=place,
        found=f'"{name}"',
        expected=" or ".join(known),
        remedy=f'Did you mean "{near}"?' if near else "Give one of these.",
    )
