"""Small tables on drawing pages: a heading, rules, cells that wrap."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.sheets import PageLine, PageText, Pen, Point
from lathlight.drawings.text import BEFORE, CAP, LEADING, NOTE_SIZE, Align, page_text, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

PAD = 1.0  # [mm] round the words of a cell


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its heading, its width [paper mm] and where its words stand."""

    heading: str
    width: float
    align: Align = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class PageTable:
    """A table as words and rules [paper mm], with the size that it takes."""

    texts: tuple[PageText, ...]
    lines: tuple[PageLine, ...]
    width: float
    height: float


def make_table(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], *, at: Point, size: float = NOTE_SIZE
) -> PageTable:
    """Table that hangs from a point.

    Parameters
    ----------
    columns
        From left to right, at least one.
    rows
        Cells from left to right, one a column; words wrap to the column's width.
    at
        Upper left corner [paper mm, y up].
    size
        Letter size, em [mm].
    """
    texts: list[PageText] = []
    right = at[0] + sum(column.width for column in columns)
    lines = [PageLine(a=at, b=(right, at[1]), pen=Pen.OUTLINE)]
    y = at[1]
    for number, cells in enumerate([[column.heading for column in columns], *rows]):
        bold = number == 0
        wrapped = _wrapped(columns, cells, size=size, bold=bold)
        texts += _row_texts(columns, wrapped, at=(at[0], y), size=size, bold=bold)
        y -= _row_height(wrapped, size)
        pen = Pen.OUTLINE if number in (0, len(rows)) else Pen.LIGHT
        lines.append(PageLine(a=(at[0], y), b=(right, y), pen=pen))
    return PageTable(texts=tuple(texts), lines=tuple(lines), width=right - at[0], height=at[1] - y)


def table_height(columns: Sequence[Column], rows: Sequence[Sequence[str]], *, size: float = NOTE_SIZE) -> float:
    """Height that `make_table` will need [mm of paper]."""
    return make_table(columns, rows, at=(0.0, 0.0), size=size).height


def _wrapped(columns: Sequence[Column], cells: Sequence[str], *, size: float, bold: bool) -> list[tuple[str, ...]]:
    return [
        wrap(words, width=column.width - 2 * PAD, size=size, bold=bold)
        for column, words in zip(columns, cells, strict=True)
    ]


def _row_height(wrapped: Sequence[tuple[str, ...]], size: float) -> float:
    most = max(len(lines) for lines in wrapped)
    return 2 * PAD + (CAP + (most - 1) * LEADING) * size


def _row_texts(
    columns: Sequence[Column], wrapped: Sequence[tuple[str, ...]], *, at: Point, size: float, bold: bool
) -> list[PageText]:
    texts: list[PageText] = []
    x, first = at[0], at[1] - PAD - CAP * size
    for column, lines in zip(columns, wrapped, strict=True):
        spot = x + PAD + BEFORE[column.align] * (column.width - 2 * PAD)
        texts += [
            page_text(words, at=(spot, first - i * LEADING * size), size=size, align=column.align, bold=bold)
            for i, words in enumerate(lines)
            if words
        ]
        x += column.width
    return texts
