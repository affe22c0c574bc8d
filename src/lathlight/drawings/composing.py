"""Pages made of one drawing and its tables: which way the paper lies, which scale fits, where the tables stand.

The largest standard scale wins; of equal ones the upright page with its tables under the drawing. Narrow tables may
stand beside it. Tables that would make the drawing much smaller go to pages of their own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from lathlight.drawings.page import CAPTION_HEIGHT, Area, cell_size, make_page, view_area
from lathlight.drawings.scales import IMPERIAL, METRIC, choose_scale
from lathlight.drawings.sheets import Placed
from lathlight.drawings.tables import make_table
from lathlight.drawings.text import CAP, page_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from lathlight.drawings.listing import Listing
    from lathlight.drawings.sheets import Page, PageLine, PageText, Point, View
    from lathlight.project import TitleBrief
    from lathlight.units import LengthStyle

GAP = 6.0  # between drawing and tables, and between two tables [mm]
TITLE_SIZE = 3.0  # [mm] of a table's title
TITLE_ROOM = 4.6  # [mm] what it takes over its table
WORTH_TABLES = 1.5  # a drawing may be so many times smaller to have its tables beside it
NARROW = 70.0  # a table no wider may stand beside the drawing [mm]
LEAST_ROOM = 40.0  # for a drawing and its caption [mm]

ROUNDING = 1e-6  # [mm]
NO_SMALLER = 0.98  # a drawing that shrinks less than this from scale to scale is all words
FREE_SCALES = tuple(float(scale) for scale in range(5, 200))  # of drawings without a scale bar


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing to be: how to make it at a scale, and how large the thing itself is at least."""

    draw: Callable[[float], View]
    size: Point  # width and height of what is drawn, words and dimensions left out [model mm]
    scaled: bool = True  # False: drawn to no standard scale, and its caption says so
    largest: float = 1.0  # largest scale wanted, as model mm for one mm of paper
    good: float = 0.0  # at this scale it is large enough to have its tables beside it


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What all pages of a project share."""

    heading: TitleBrief
    style: LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to lay a page out."""

    landscape: bool
    area: Area
    room: Point  # for the drawing and its caption
    under: tuple[Listing, ...]
    beside: tuple[Listing, ...]  # to the right of the drawing


def fit(
    drawing: Drawing,
    room: Point,
    *,
    style: LengthStyle,
    made: dict[float, View] | None = None,
    under: float = math.inf,
) -> View | None:
    """Return a drawing at the largest standard scale at which it fits the room, caption included.

    A drawing too large for the smallest scale goes on to half of it, and so on, so that nothing is ever cut off.

    Parameters
    ----------
    drawing
        What is drawn.
    room
        Width and height on paper [mm].
    style
        Metric or imperial scales.
    made
        Views by scale, made before; new ones are added.
    under
        Only scales with fewer model mm for one mm of paper than this will do.

    Returns
    -------
    View or None
        None where its words alone are wider than the room, or where only smaller drawings fit.
    """
    made = {} if made is None else made
    before = (math.inf, math.inf)
    for scale in _scales(drawing, room, style):
        if scale >= under:
            return None
        if scale not in made:
            made[scale] = drawing.draw(scale)
        size = cell_size(made[scale], style=style)
        if size[0] <= room[0] + ROUNDING and size[1] <= room[1] + ROUNDING:
            return made[scale]
        if all(now > NO_SMALLER * then for now, then in zip(size, before, strict=True)):
            return None
        before = size
    return None


def drawing_page(
    drawing: Drawing,
    *,
    name: str,
    title: str,
    setting: Setting,
    listings: Sequence[Listing] = (),
    notes: Sequence[str] = (),
) -> tuple[Page, ...]:
    """Return one page with a drawing and its tables, and pages for the tables that need their own."""
    page, rest = drawing_with_tables(drawing, name=name, title=title, setting=setting, listings=listings, notes=notes)
    return page, *table_pages(rest, name=f"{name}-lists", title=title, setting=setting)


def drawing_with_tables(
    drawing: Drawing,
    *,
    name: str,
    title: str,
    setting: Setting,
    listings: Sequence[Listing] = (),
    notes: Sequence[str] = (),
) -> tuple[Page, tuple[Listing, ...]]:
    """Return one page with a drawing and as many of its tables, from the first on, as go with it; and the others.

    Parameters
    ----------
    drawing
        What is drawn.
    name, title
        Of the page.
    setting
        Title block and units.
    listings
        Tables in order.
    notes
        General notes of the page.
    """
    made: dict[float, View] = {}
    best = alone = _best(drawing, (), setting, notes, made)
    assert alone is not None, "words too wide for an empty page"
    count = len(listings)
    while count:
        under = max(alone[0].scale * WORTH_TABLES, drawing.good) + ROUNDING
        best = _best(drawing, listings[:count], setting, notes, made, under=under)
        if best is not None:
            break
        count -= 1
    best = best or alone
    page = _compose(*best, name=name, title=title, setting=setting, notes=notes, scaled=drawing.scaled)
    return page, tuple(listings[count:])


def _best(
    drawing: Drawing,
    listings: Sequence[Listing],
    setting: Setting,
    notes: Sequence[str],
    made: dict[float, View],
    *,
    under: float = math.inf,
) -> tuple[View, _Way] | None:
    """Return the first way to lay some tables out with the drawing that leaves it largest, or None."""
    best: tuple[View, _Way] | None = None
    for way in _ways(listings, setting, notes):
        view = fit(drawing, way.room, style=setting.style, made=made, under=under)
        if view is not None:
            best, under = (view, way), view.scale
    return best


def table_pages(listings: Sequence[Listing], *, name: str, title: str, setting: Setting) -> tuple[Page, ...]:
    """Return upright pages of tables; one too long for a page goes on to the next."""
    area = view_area(setting.heading.paper, landscape=False)
    columns: list[list[Listing]] = []
    left = 0.0
    for listing in (part for whole in listings for part in _parts(whole, area.size[1])):
        height = listing_height(listing)
        if not columns or height + GAP > left:
            columns.append([])
            left = area.size[1]
        columns[-1].append(listing)
        left -= height + GAP
    pages: list[Page] = []
    for number, column in enumerate(columns, start=1):
        texts, lines = _set_tables(column, (area.low[0], area.high[1]))
        ending = "" if len(columns) == 1 else f"-{number}"
        pages.append(
            make_page(
                name=f"{name}{ending}",
                title=title,
                views=(),
                heading=setting.heading,
                style=setting.style,
                landscape=False,
                texts=texts,
                lines=lines,
            )
        )
    return tuple(pages)


@lru_cache(maxsize=512)  # every way to lay a page out asks again
def listing_height(listing: Listing) -> float:
    """Return the height of a table with its title [mm of paper]."""
    return TITLE_ROOM + make_table(listing.columns, listing.rows, at=(0.0, 0.0)).height


def _scales(drawing: Drawing, room: Point, style: LengthStyle) -> Iterator[float]:
    """Return scales from the first at which the thing itself fits the room; past the smallest, ever halved."""
    width, height = drawing.size
    if drawing.scaled:
        known = METRIC if style.system == "metric" else tuple(IMPERIAL)
        first = max(choose_scale(width, height, room=room, style=style), drawing.largest)
    else:
        known, first = FREE_SCALES, max(width / room[0], height / room[1])
    yield from (scale for scale in known if scale >= first)
    yield from (known[-1] * 2.0**step for step in range(1, 40))


def _ways(listings: Sequence[Listing], setting: Setting, notes: Sequence[str]) -> list[_Way]:
    """Return the ways to lay out a drawing with some tables that leave it any room."""
    splits = dict.fromkeys([*_splits(listings), ((), tuple(listings))])
    return [
        way
        for landscape in (False, True)
        for under, beside in splits
        if (way := _way(under, beside, setting, notes, landscape=landscape)) is not None
    ]


def _splits(listings: Sequence[Listing]) -> list[tuple[tuple[Listing, ...], tuple[Listing, ...]]]:
    """Return which tables stand under a drawing and which beside it: of the narrow ones none, the last, and so on."""
    narrow = [k for k, listing in enumerate(listings) if (listing.narrow or listing).width <= NARROW]
    found: list[tuple[tuple[Listing, ...], tuple[Listing, ...]]] = []
    for first in range(len(narrow), -1, -1):
        aside = narrow[first:]
        under = tuple(listing for k, listing in enumerate(listings) if k not in aside)
        found.append((under, tuple(listings[k].narrow or listings[k] for k in aside)))
    return found


def _way(
    under: tuple[Listing, ...],
    beside: tuple[Listing, ...],
    setting: Setting,
    notes: Sequence[str],
    *,
    landscape: bool,
) -> _Way | None:
    area = view_area(setting.heading.paper, landscape=landscape, notes=notes)
    column = max((listing.width + GAP for listing in beside), default=0.0)
    room = area.size[0] - column, area.size[1] - _column_height(under)
    if max((listing.width for listing in under), default=0.0) > area.size[0] or min(room) < LEAST_ROOM:
        return None
    if _column_height(beside) > room[1]:
        return None
    return _Way(landscape=landscape, area=area, room=room, under=under, beside=beside)


def _column_height(listings: Sequence[Listing]) -> float:
    """Return the height of some tables over each other, each with a gap before it [mm]."""
    return sum(listing_height(listing) + GAP for listing in listings)


def _compose(
    view: View, way: _Way, *, name: str, title: str, setting: Setting, notes: Sequence[str], scaled: bool
) -> Page:
    """Return the page: drawing in the middle of its room, tables under it and to its right."""
    width, height = cell_size(view, style=setting.style)
    spare = (way.room[0] - width) / 2, (way.room[1] - height) / 2
    left, top = way.area.low[0], way.area.high[1]
    at = (left + spare[0], top - spare[1] - height + CAPTION_HEIGHT)
    texts, lines = _set_tables(way.under, (left, top - way.room[1] - GAP))
    more_texts, more_lines = _set_tables(way.beside, (left + way.room[0] + GAP, top - GAP))
    return make_page(
        name=name,
        title=title,
        views=(Placed(view=view, at=at),),
        heading=setting.heading,
        style=setting.style,
        landscape=way.landscape,
        notes=notes,
        unscaled=() if scaled else (view.name,),
        texts=[*texts, *more_texts],
        lines=[*lines, *more_lines],
    )


def _set_tables(listings: Sequence[Listing], at: Point) -> tuple[list[PageText], list[PageLine]]:
    """Return tables with their titles, one under the other, from an upper left corner."""
    texts: list[PageText] = []
    lines: list[PageLine] = []
    x, y = at
    for listing in listings:
        texts.append(page_text(listing.title, at=(x, y - CAP * TITLE_SIZE), size=TITLE_SIZE, bold=True))
        table = make_table(listing.columns, listing.rows, at=(x, y - TITLE_ROOM))
        texts += table.texts
        lines += table.lines
        y -= TITLE_ROOM + table.height + GAP
    return texts, lines


def _parts(listing: Listing, room: float) -> list[Listing]:
    """Return a table in parts that each fit a page's height."""
    parts: list[Listing] = []
    rows = list(listing.rows)
    while rows:
        count = len(rows)
        while count > 1 and listing_height(replace(listing, rows=tuple(rows[:count]))) > room:
            count -= max(1, count // 8)
        title = listing.title if not parts else f"{listing.title}, continued"
        parts.append(replace(listing, title=title, rows=tuple(rows[:count])))
        rows = rows[count:]
    return parts
