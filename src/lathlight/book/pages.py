"""The set book: which pages it has, in which order, and their numbers.

First a page for whoever has one minute, then every drawing at its true size, then the lists (to cut, to fix, to paint,
to lay, to buy), proportions, the snags in full, the order of work, the cautions and what was assumed. How pages look is
left to ``set-book.typ``, the drawings to ``lathlight.drawings``.
"""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Cover, DrawingPage, Manuscript, Notes, SnagList, Steps
from lathlight.book.finish_chapter import finish_chapters
from lathlight.book.fixing_chapter import fixing_chapters
from lathlight.book.floor_chapter import floor_chapters
from lathlight.book.order_of_work import work_steps
from lathlight.book.piece_lists import cutting_chapters, shopping_chapter
from lathlight.book.proportion_chapter import proportion_chapters
from lathlight.book.takeoff_chapter import takeoff_chapters
from lathlight.book.typeset import compile_book, find_value
from lathlight.book.words import (
    CAUTIONS,
    assumed_list,
    date_words,
    leading_figures,
    snag_counts,
    snag_note,
    units_words,
)
from lathlight.drawings import (
    PAPERS,
    PLANNING_AID,
    SET_PAGE,
    STANDING,
    STANDING_CAUTION,
    drawing_pages,
    number_page,
    page_svg,
    set_views,
    view_svg,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.drawings import Page, View
    from lathlight.plan import Plan
    from lathlight.snags import Snag

COVER_DRAWING = "cover.svg"
MANUSCRIPT = "manuscript.json"
SIDE_MARGINS = 32.0  # of the typeset pages, left and right together [mm]; the same as in set-book.typ
COVER_SHARE = 0.38  # of the first page's height that its drawing may take
FIRST_SCALE = 25.0  # tried first for the cover's drawing, which is to no scale
LONG_WORD = re.compile(r"\w{16}(?=\w)")  # longer than almost any word; a place to break does no harm
ZERO_WIDTH_SPACE = "\u200b"
WORST = 4  # snags on the first page
WIDE_PAPERS = frozenset({"A3", "Tabloid"})  # their prose runs in two columns


def numbered_drawings(plan: Plan, snags: Sequence[Snag]) -> tuple[Page, ...]:
    """Return all drawings with their page numbers in the set book: they follow its first page.

    The line drawing of the set stands on the first page and takes no other: its own page comes first and has no number.
    """
    drawn = drawing_pages(plan, snags)
    apart = [page for page in drawn if page.name == SET_PAGE]
    pages = [page for page in drawn if page.name != SET_PAGE]
    blank = [DrawingPage(file="", title=page.title, size=page.size) for page in pages]
    files = _files(plan, snags, blank)
    first, total = (int(find_value(_look(), files, label=label)) for label in ("first-drawing", "pages"))
    return *apart, *(number_page(page, number=number, of=total) for number, page in enumerate(pages, start=first))


def set_book(plan: Plan, snags: Sequence[Snag], *, drawings: Sequence[Page] | None = None) -> bytes:
    """Return the set book as PDF; equal plans give equal bytes.

    Parameters
    ----------
    plan, snags
        What the book is about; snags worst first.
    drawings
        The pages of `numbered_drawings`, where they have been made already; those without a number are left out.
    """
    pages = numbered_drawings(plan, snags) if drawings is None else drawings
    named = {f"drawing-{page.number}.svg": page for page in pages if page.number}
    placed = [DrawingPage(file=name, title=page.title, size=page.size) for name, page in named.items()]
    files = _files(plan, snags, placed) | {name: page_svg(page) for name, page in named.items()}
    return compile_book(_look(), files, date=plan.brief.title.date)


@cache
def _look() -> str:
    return resources.files("lathlight.book").joinpath("set-book.typ").read_text(encoding="utf-8")


def _files(plan: Plan, snags: Sequence[Snag], drawings: Sequence[DrawingPage]) -> dict[str, bytes]:
    view = _cover_view(plan)
    manuscript = _manuscript(plan, snags, view, drawings)
    words = json.dumps(asdict(manuscript), ensure_ascii=False)
    return {COVER_DRAWING: view_svg(view), MANUSCRIPT: breakable(words).encode("utf-8")}


def breakable(words: str) -> str:
    """Return words with a place to break after every so many letters of one that has none."""
    return LONG_WORD.sub(lambda found: f"{found[0]}{ZERO_WIDTH_SPACE}", words)


def _cover_view(plan: Plan) -> View:
    """Return the line drawing of the set, as large as its room on the first page allows."""
    width, height = PAPERS[plan.brief.title.paper]
    room = width - SIDE_MARGINS, height * COVER_SHARE
    draw = set_views(plan)
    view = draw(FIRST_SCALE)
    for _ in range(2):  # words keep their size, so that one step does not land
        size = view.paper_size
        view = draw(view.scale * max(size[0] / room[0], size[1] / room[1]))
    return view


def _manuscript(plan: Plan, snags: Sequence[Snag], view: View, drawings: Sequence[DrawingPage]) -> Manuscript:
    title = plan.brief.title
    return Manuscript(
        title=title.title,
        revision=title.revision,
        date=date_words(title.date),
        units=units_words(plan.brief.style),
        paper=PAPERS[title.paper],
        prose_columns=2 if title.paper in WIDE_PAPERS else 1,
        standing=STANDING,
        standing_words=STANDING_CAUTION,
        planning_aid=PLANNING_AID,
        cover=_cover(plan, snags, view),
        drawings=tuple(drawings),
        lists=tuple(_lists(plan, snags)),
        prose=tuple(_prose(plan)),
    )


def _cover(plan: Plan, snags: Sequence[Snag], view: View) -> Cover:
    worst = sorted(snags, key=lambda snag: (snag.severity, snag.id))[:WORST]
    return Cover(
        view=COVER_DRAWING,
        view_size=view.paper_size,
        figures=leading_figures(plan),
        counts=snag_counts(snags),
        worst=tuple(snag_note(snag, plan.brief.style) for snag in worst),
        others=len(snags) - len(worst),
        notes=plan.brief.title.notes,
    )


def _lists(plan: Plan, snags: Sequence[Snag]) -> Iterator[Chapter]:
    """Yield the chapters across the whole page, in the order in which they are wanted at the bench."""
    yield from cutting_chapters(plan)
    yield from fixing_chapters(plan)
    yield from finish_chapters(plan)
    yield from floor_chapters(plan)
    yield shopping_chapter(plan)
    yield from takeoff_chapters(plan)
    yield from proportion_chapters(plan)
    yield from _snag_chapter(plan, snags)


def _snag_chapter(plan: Plan, snags: Sequence[Snag]) -> Iterator[Chapter]:
    if snags:
        worst_first = sorted(snags, key=lambda snag: (snag.severity, snag.id))
        found = SnagList(snags=tuple(snag_note(snag, plan.brief.style) for snag in worst_first))
        yield Chapter(title="Snags", lead=snag_counts(snags), blocks=(found,))


def _prose(plan: Plan) -> Iterator[Chapter]:
    yield Chapter(title="Order of work", lead="", blocks=(Steps(steps=work_steps(plan)),))
    yield Chapter(title="Cautions", lead=PLANNING_AID, blocks=(Notes(notes=CAUTIONS),))
    assumed = assumed_list(plan)
    if assumed.groups:
        lead = (
            "The project file does not state these; they were filled in, by common practice where no source stands. "
            "State them there to have them otherwise."
        )
        yield Chapter(title="Assumed", lead=lead, blocks=(assumed,))
