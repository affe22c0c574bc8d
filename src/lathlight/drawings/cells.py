"""Small drawings set in rows: each is drawn about its own origin and moved to its place.

Decides where they stand; what each shows is left to its view. Sizes on paper are those of the scale that the small
drawings were made for.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, assert_never

from lathlight.drawings.page import CAPTION_HEIGHT, make_page, view_area
from lathlight.drawings.sheets import Chain, Hatch, Line, Path, Placed, Text
from lathlight.drawings.views import bounds

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.drawings.composing import Setting
    from lathlight.drawings.sheets import Item, Page, Point, View

GAP = (9.0, 8.0)  # between two small drawings, across and up [mm of paper]
ROUNDING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A small drawing with its bounds [model mm]."""

    items: tuple[Item, ...]
    low: Point
    high: Point

    @property
    def size(self) -> Point:
        """Width and height [model mm]."""
        return self.high[0] - self.low[0], self.high[1] - self.low[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    cells: tuple[Cell, ...]
    height: float  # [model mm]


def make_cell(items: Iterable[Item], *, scale: float) -> Cell:
    """Return a small drawing of items, at least one, with its bounds."""
    kept = tuple(items)
    low, high = bounds(kept, scale=scale)
    return Cell(items=kept, low=low, high=high)


def flow(cells: Sequence[Cell], *, room: Point, scale: float, even: bool = False) -> tuple[tuple[Item, ...], ...]:
    """Return the items of every page: cells in rows in reading order, their tops in line.

    Parameters
    ----------
    cells
        Small drawings in order, at least one; one larger than the room stands alone on a page and reaches out of it.
    room
        Width and height of a page [mm of paper].
    scale
        Model mm for one mm of paper.
    even
        True: columns stand under each other, each as wide as the widest cell.
    """
    across, up = GAP[0] * scale, GAP[1] * scale
    wide, high = room[0] * scale + ROUNDING, room[1] * scale + ROUNDING
    pages: list[tuple[Item, ...]] = []
    items: list[Item] = []
    top = 0.0
    widest = max(cell.size[0] for cell in cells)
    for row in _rows(cells, wide, across, widest if even else 0.0):
        if items and -(top - row.height) > high:
            pages.append(tuple(items))
            items, top = [], 0.0
        left = 0.0
        for cell in row.cells:
            by = (left - cell.low[0], top - cell.high[1])
            items += [moved(item, by) for item in cell.items]
            left += max(cell.size[0], widest if even else 0.0) + across
        top -= row.height + up
    return (*pages, tuple(items))


def _rows(cells: Sequence[Cell], wide: float, gap: float, least: float) -> list[_Row]:
    rows: list[list[Cell]] = []
    left = 0.0
    for cell in cells:
        across = max(cell.size[0], least)
        if not rows or left + across > wide:
            rows.append([])
            left = 0.0
        rows[-1].append(cell)
        left += across + gap
    return [_Row(cells=tuple(row), height=max(cell.size[1] for cell in row)) for row in rows]


def page_room(setting: Setting, notes: Sequence[str], *, landscape: bool = False) -> Point:
    """Return width and height that a page has for one drawing without its caption [mm of paper]."""
    area = view_area(setting.heading.paper, landscape=landscape, notes=notes)
    return area.size[0], area.size[1] - CAPTION_HEIGHT


def page_of(
    view: View,
    *,
    title: str,
    setting: Setting,
    notes: Sequence[str],
    scaled: bool = True,
    landscape: bool = False,
) -> Page:
    """Return a page with one drawing in its middle, by the drawing's name."""
    area = view_area(setting.heading.paper, landscape=landscape, notes=notes)
    wide, high = view.paper_size
    spare = (area.size[0] - wide) / 2, (area.size[1] - high - CAPTION_HEIGHT) / 2
    return make_page(
        name=view.name,
        title=title,
        views=(Placed(view=view, at=(area.low[0] + spare[0], area.high[1] - spare[1] - high)),),
        heading=setting.heading,
        style=setting.style,
        landscape=landscape,
        notes=notes,
        unscaled=() if scaled else (view.name,),
    )


def moved(item: Item, by: Point) -> Item:
    """Return an item at another place, moved by so much [model mm]."""

    def put(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    match item:
        case Line():
            return replace(item, a=put(item.a), b=put(item.b))
        case Path():
            holes = tuple(tuple(map(put, hole)) for hole in item.holes)
            return replace(item, points=tuple(map(put, item.points)), holes=holes)
        case Hatch():
            return replace(item, lines=tuple((put(a), put(b)) for a, b in item.lines))
        case Text():
            return _moved_text(item, by)
        case Chain():
            return replace(
                item,
                origin=put(item.origin),
                feet=tuple(map(put, item.feet)),
                labels=tuple(_moved_text(label, by) for label in item.labels),
                lines=tuple(replace(line, a=put(line.a), b=put(line.b)) for line in item.lines),
            )
        case _:
            assert_never(item)


def _moved_text(text: Text, by: Point) -> Text:
    a, b, c, d = ((x + by[0], y + by[1]) for x, y in text.box)
    return replace(text, at=(text.at[0] + by[0], text.at[1] + by[1]), box=(a, b, c, d))
