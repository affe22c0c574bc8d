"""What a drawing must look like whatever it shows: words apart, nothing cut off, chains that add up."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.labels import texts_of
from lathlight.drawings.sheets import Chain
from lathlight.drawings.text import boxes_overlap
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.drawings import Page, View
    from lathlight.units import LengthStyle

HAIR = 1e-6


def covered_words(view: View) -> list[tuple[str, str]]:
    """Return pairs of words that cover each other in a view."""
    return [
        (a.words, b.words)
        for a, b in combinations(texts_of(view.items), 2)
        if boxes_overlap(a.box, b.box, slack=HAIR * view.scale)
    ]


def false_chains(view: View, style: LengthStyle) -> list[str]:
    """Return labels of chains that are not the difference of their stops."""
    return [
        label.words
        for chain in view.items
        if isinstance(chain, Chain)
        for label, (a, b) in zip(chain.labels, pairwise(chain.stops), strict=True)
        if label.words != drawing_length(b - a, style=style)
    ]


def chain_stops(view: View) -> list[tuple[float, ...]]:
    """Return the stops of every chain in a view."""
    return [chain.stops for chain in view.items if isinstance(chain, Chain)]


def boxes_on(page: Page) -> Iterator[tuple[str, tuple[tuple[float, float], ...]]]:
    """Yield every box of words and every view on a page, in millimetres of paper."""
    for text in page.texts:
        yield text.words, text.box
    for placed in page.views:
        w, h = placed.view.paper_size
        x, y = placed.at
        yield f"view {placed.view.name}", ((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def crowded(page: Page) -> list[tuple[str, str]]:
    """Return pairs of words, tables and views that cover each other on a page."""
    return [(a, b) for (a, p), (b, q) in combinations(boxes_on(page), 2) if boxes_overlap(p, q, slack=HAIR)]


def off_page(page: Page) -> list[str]:
    """Return what reaches out of the page's border."""
    low, high = (20.0, 10.0), (page.size[0] - 10.0, page.size[1] - 10.0)
    return [
        name
        for name, box in boxes_on(page)
        if any(not (low[0] - HAIR <= x <= high[0] + HAIR and low[1] - HAIR <= y <= high[1] + HAIR) for x, y in box)
    ]
