"""Views side by side on pages: in rows, in reading order, without overlap."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.page import CAPTION_HEIGHT, Area, cell_size
from lathlight.drawings.sheets import Placed, Point, View

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.units import LengthStyle

GAP = 8.0  # [mm of paper] least room between two views
ROUNDING = 1e-6  # [mm]

Cell = tuple[View, Point]


def arrange(views: Sequence[View], *, area: Area, style: LengthStyle) -> tuple[tuple[Placed, ...], ...]:
    """Places of views on as many pages as they need, one tuple a page.

    Parameters
    ----------
    views
        In reading order; kept so, left to right and top to bottom.
    area
        What is free on each page: `view_area`.
    style
        The project's units, for the width of the captions.

    Raises
    ------
    ValueError
        A view is larger than the area: its scale was chosen too large.
    """
    rows: list[list[Cell]] = []
    for view in views:
        cell = (view, cell_size(view, style=style))
        _refuse_larger(cell, area)
        if rows and _row_size([*rows[-1], cell])[0] <= area.size[0] + ROUNDING:
            rows[-1].append(cell)
        else:
            rows.append([cell])
    pages: list[list[list[Cell]]] = []
    for row in rows:
        if pages and _column_height([*pages[-1], row]) <= area.size[1] + ROUNDING:
            pages[-1].append(row)
        else:
            pages.append([row])
    return tuple(_placed(page, area) for page in pages)


def _refuse_larger(cell: Cell, area: Area) -> None:
    view, (width, height) = cell
    room = area.size
    if width > room[0] + ROUNDING or height > room[1] + ROUNDING:
        needs, has = f"{width:.0f} x {height:.0f} mm", f"{room[0]:.0f} x {room[1]:.0f} mm"
        raise ValueError(f"view {view.name} takes {needs}, the page has {has}")


def _row_size(row: Sequence[Cell]) -> Point:
    return sum(size[0] for _, size in row) + GAP * (len(row) - 1), max(size[1] for _, size in row)


def _column_height(rows: Sequence[Sequence[Cell]]) -> float:
    return sum(_row_size(row)[1] for row in rows) + GAP * (len(rows) - 1)


def _placed(rows: Sequence[Sequence[Cell]], area: Area) -> tuple[Placed, ...]:
    """Return the places on one page; what is left of the room is shared out evenly round views and rows."""
    placed: list[Placed] = []
    spare = (area.size[1] - _column_height(rows)) / (len(rows) + 1)
    y = area.high[1] + GAP
    for row in rows:
        y -= GAP + spare + _row_size(row)[1]
        beside = (area.size[0] - _row_size(row)[0]) / (len(row) + 1)
        x = area.low[0] - GAP
        for view, size in row:
            x += GAP + beside
            placed.append(Placed(view=view, at=(x, y + CAPTION_HEIGHT)))
            x += size[0]
    return tuple(placed)
