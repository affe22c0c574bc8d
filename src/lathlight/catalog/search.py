"""Finding rows by words, and laying rows out as a table of text for a list or a screen."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.catalog.columns import INSTEAD_OF_DENSITY, TABLES, rows_of
from lathlight.catalog.load import trade_words
from lathlight.catalog.nominal import nearest_row, plain
from lathlight.catalog.profiles import girth, projection, width
from lathlight.catalog.rows import Profile
from lathlight.errors import nearest
from lathlight.units import format_length, snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog.columns import Row
    from lathlight.catalog.rows import Catalog
    from lathlight.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One row that a search brought up."""

    table: str
    row: Row
    exact: bool  # False: no row has the words, this one's name is nearest


def search_catalog(catalog: Catalog, words: str, *, table: str | None = None) -> list[Found]:
    """Return the rows that have all the words, in the catalogue's order; else the rows with the nearest names.

    Parameters
    ----------
    catalog
        Where to look.
    words
        Parted by blanks, in any letters; trade words of either side of the ocean. A word with a figure in it stands
        for that figure alone (``9`` finds 9 mm, not 19 mm). No words find everything.
    table
        Look in this table only.

    Raises
    ------
    ValueError
        There is no such table: a caller's mistake.
    """
    if table is not None and table not in TABLES:
        raise ValueError(f"the catalogue has no table {table!r}")
    tables = [table] if table is not None else list(TABLES)
    wanted = [_pattern(word) for word in plain(words).split()]
    exact = [
        Found(table=name, row=row, exact=True)
        for name in tables
        for row in rows_of(catalog, name).values()
        if all(pattern.search(_haystack(name, row)) for pattern in wanted)
    ]
    return exact or _nearest(catalog, words, tables)


def nearest_words(catalog: Catalog, words: str, *, table: str | None = None) -> str | None:
    """Return the words that somebody most likely meant who finds nothing; None where no such words find a row.

    A word that no row has gives way to the nearest one that some row, or the trade, has.
    """
    tables = [table] if table is not None else list(TABLES)
    rows = (row for name in tables for row in rows_of(catalog, name).items())
    known = {word for name in tables for word in plain(name).split()} | set(trade_words())
    for name, row in rows:
        known |= set(plain(" ".join((name, *_texts(row)))).split())
    meant = [word if word in known else nearest(word, known) for word in plain(words).split()]
    if None in meant:
        return None
    text = " ".join(word for word in meant if word)
    found = search_catalog(catalog, text, table=table)
    return text if found and found[0].exact else None


def _nearest(catalog: Catalog, words: str, tables: Iterable[str]) -> list[Found]:
    near = ((name, nearest_row(rows_of(catalog, name), words)) for name in tables)
    return [Found(table=name, row=row, exact=False) for name, row in near if row is not None]


def _pattern(word: str) -> re.Pattern[str]:
    """Return what a word matches: itself anywhere, a figure only as a whole, and the tables' word for it."""
    if any(letter.isdigit() for letter in word):
        return re.compile(rf"(?<![\d.-]){re.escape(word)}(?![\d.-]\d|\d)")
    also = trade_words().get(word)
    return re.compile("|".join(re.escape(each) for each in (word, also.lower() if also else None) if each))


def _haystack(table: str, row: Row) -> str:
    """Return all words of a row, with figures also in one with their unit (`9 mm 9mm`)."""
    spaced = plain(" ".join((table, row.name, *_texts(row))))
    return spaced + " " + re.sub(r"(?<=\d) (?=[a-z])", "", spaced)


def _texts(row: Row) -> tuple[str, ...]:
    """Return what a row says of itself in words."""
    return tuple(str(getattr(row, key, "")) for key in ("kind", "use", "material", "sheen", "nominal", "system"))


def rows_as_table(
    table: str, rows: Sequence[Row], *, style: LengthStyle
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Return a header and one line of text a row, for rows of one table; lengths as the style writes them.

    A moulding's points are shown as the sizes that follow from them: width, projection and girth.
    """
    columns = {key: each for key, each in TABLES[table].columns.items() if key not in (*INSTEAD_OF_DENSITY, "points")}
    sizes = ("width", "projection", "girth") if table == "profiles" else ()
    header = (*columns, *sizes)
    lines = [
        tuple(column.kind.show(getattr(row, key), style) for key, column in columns.items()) + _sizes(row, style=style)
        for row in rows
    ]
    return tuple(key.replace("_", " ") for key in _source_last(header)), tuple(_moved(header, line) for line in lines)


def _sizes(row: Row, *, style: LengthStyle) -> tuple[str, ...]:
    if not isinstance(row, Profile):
        return ()
    return tuple(format_length(snap(size(row), style), style=style) for size in (width, projection, girth))


def _source_last(header: Sequence[str]) -> tuple[str, ...]:
    return (*(key for key in header if key != "source"), "source")


def _moved(header: Sequence[str], line: Sequence[str]) -> tuple[str, ...]:
    by_key = dict(zip(header, line, strict=True))
    return tuple(by_key[key] for key in _source_last(header))
