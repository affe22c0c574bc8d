"""What a view covers: the bounds of its items, pens and words included, and the view made of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from lathlight.drawings.sheets import Chain, Hatch, Item, Line, Path, Pen, Point, Text, View

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

MITRE = 1.5  # corner of a stroke reaches at most so many half widths out; writers bevel sharper ones


def make_view(*, name: str, title: str, scale: float, items: Iterable[Item]) -> View:
    """View of items, with its bounds.

    Parameters
    ----------
    name
        File name without ending: ``back-elevation``.
    title
        Words under the drawing.
    scale
        Model mm for one mm of paper: 25 means 1:25. Items were made for this scale.
    items
        At least one.
    """
    kept = tuple(items)
    low, high = bounds(kept, scale=scale)
    return View(name=name, title=title, scale=scale, items=kept, low=low, high=high)


def bounds(items: Iterable[Item], *, scale: float) -> tuple[Point, Point]:
    """Lower left and upper right corner of everything the items cover [model mm], pens and text boxes included.

    Raises
    ------
    ValueError
        No items: nothing has no place.
    """
    reaches = [reach for item in items for reach in _reaches(item, scale)]
    if not reaches:
        raise ValueError("a view needs at least one item")
    low = min(x - r for x, _, r in reaches), min(y - r for _, y, r in reaches)
    return low, (max(x + r for x, _, r in reaches), max(y + r for _, y, r in reaches))


def _reaches(item: Item, scale: float) -> Iterator[tuple[float, float, float]]:
    """Yield points of an item with how far its pen reaches round each [model mm]."""
    match item:
        case Line():
            yield from ((x, y, _pen_reach(item.pen, scale)) for x, y in (item.a, item.b))
        case Path():
            yield from ((x, y, _pen_reach(item.pen, scale)) for x, y in item.points)
        case Hatch():
            yield from ((x, y, _pen_reach(item.pen, scale)) for pair in item.lines for x, y in pair)
        case Text():
            yield from ((x, y, 0.0) for x, y in item.box)
        case Chain():
            for part in (*item.lines, *item.labels):
                yield from _reaches(part, scale)
        case _:
            assert_never(item)


def _pen_reach(pen: Pen | None, scale: float) -> float:
    return 0.0 if pen is None else pen.width / 2 * MITRE * scale
