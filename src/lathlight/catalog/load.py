"""The catalogue that comes with the program, read once a process from the tables beside this module.

A table is a TOML file of groups; a group states what its rows share, a row may say otherwise. The shipped rows are
judged by the tests, not on every start. What a project adds or changes is left to ``extend``.
"""

from __future__ import annotations

import functools
import tomllib
from collections import ChainMap
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from lathlight.catalog.columns import TABLES, make_row, read_cells, settled
from lathlight.catalog.rows import Catalog
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lathlight.catalog.columns import Row

FOLDER = Path(__file__).parent / "tables"


@functools.cache
def load_catalog() -> Catalog:
    """Return the catalogue that comes with the program; every row names its source."""
    return Catalog(**{table: _rows(table) for table in TABLES})


@functools.cache
def trade_words() -> Mapping[str, str]:
    """Return words that people search by, and the word that the tables use."""
    return cast("Mapping[str, str]", _document("words")["words"])


def _document(table: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / f"{table}.toml").read_text(encoding="utf-8"))


def _rows(table: str) -> Any:
    rows: dict[str, Row] = {}
    for raw in _entries(table):
        cells, problems = read_cells(table, raw, style=LengthStyle.metric())
        row = settled(make_row(table, cells))
        assert not problems, f"{table}.toml: {problems}"
        assert row.name not in rows, f"{table}.toml: two rows {row.name}"
        rows[row.name] = row
    return rows


def _entries(table: str) -> Iterator[Mapping[str, object]]:
    for group in _document(table)["group"]:
        entries = group.pop("rows")
        for entry in entries:
            yield ChainMap(entry, group)
