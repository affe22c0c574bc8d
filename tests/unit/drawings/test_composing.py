"""Pages made of a drawing and its tables: largest scale, nothing cut off."""

from __future__ import annotations

import pytest
from tests.unit.drawings.looks import crowded, off_page
from tests.unit.drawings.made_up import corner_wish, make_brief

from lathlight.drawings import Column, View, make_view
from lathlight.drawings.composing import Drawing, Setting, drawing_page, fit, table_pages
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import rectangle
from lathlight.drawings.sheets import Path, Pen
from lathlight.units import LengthStyle

STYLE = LengthStyle.metric()


@pytest.fixture
def setting() -> Setting:
    return Setting(heading=make_brief(corner_wish()).title, style=STYLE)


def _box(width: float, height: float, **changes) -> Drawing:
    def draw(scale: float) -> View:
        outline = Path(points=rectangle(0, 0, width, height), closed=True, pen=Pen.OUTLINE)
        return make_view(name="box", title="A box", scale=scale, items=[outline])

    return Drawing(draw=draw, size=(width, height), **changes)


def _table(rows: int, width: float = 150.0) -> Listing:
    columns = (Column(heading="No", width=20), Column(heading="What", width=width - 20))
    return Listing(title="A table", columns=columns, rows=tuple((str(k), "a piece") for k in range(rows)))


@pytest.mark.parametrize(("width", "scale"), [(1500.0, 10.0), (3000.0, 20.0), (3900.0, 25.0), (7000.0, 50.0)])
def test_the_largest_standard_scale_that_fits_is_taken(width: float, scale: float) -> None:
    view = fit(_box(width, 100.0), (160.0, 200.0), style=STYLE)
    assert view is not None
    assert view.scale == scale


def test_a_thing_larger_than_every_scale_is_still_drawn_whole(setting: Setting) -> None:
    (page,) = drawing_page(_box(500_000.0, 2000.0), name="p", title="p", setting=setting)
    assert not off_page(page)


def test_a_drawing_may_be_kept_from_growing() -> None:
    view = fit(_box(100.0, 100.0, largest=20.0), (160.0, 200.0), style=STYLE)
    assert view is not None
    assert view.scale == 20.0


def test_a_wide_thing_gets_a_page_on_its_side(setting: Setting) -> None:
    (page,) = drawing_page(_box(5000.0, 1000.0), name="p", title="p", setting=setting)
    assert page.size[0] > page.size[1]


def test_a_drawing_without_scale_says_so(setting: Setting) -> None:
    (page,) = drawing_page(_box(3000.0, 1000.0, scaled=False), name="p", title="p", setting=setting)
    assert "not to scale" in [text.words for text in page.texts]


def test_tables_stand_with_their_drawing(setting: Setting) -> None:
    pages = drawing_page(_box(2400.0, 2400.0), name="p", title="p", setting=setting, listings=[_table(6)])
    assert len(pages) == 1
    assert "A table" in [text.words for text in pages[0].texts]
    assert not crowded(pages[0])
    assert not off_page(pages[0])


def test_a_narrow_table_stands_beside_a_tall_drawing(setting: Setting) -> None:
    tall = _box(1200.0, 4000.0)
    (page,) = drawing_page(tall, name="p", title="p", setting=setting, listings=[_table(12, width=60.0)])
    (title,) = [text for text in page.texts if text.words == "A table"]
    (placed,) = page.views
    assert title.at[0] > placed.at[0] + placed.view.paper_size[0]
    assert not crowded(page)


def test_a_table_that_would_dwarf_the_drawing_goes_to_its_own_pages(setting: Setting) -> None:
    pages = drawing_page(_box(1500.0, 2400.0), name="p", title="p", setting=setting, listings=[_table(60)])
    assert len(pages) > 1
    assert pages[1].name == "p-lists" or pages[1].name.startswith("p-lists-")
    assert pages[0].views
    assert not pages[1].views


def test_a_long_table_goes_on_without_losing_a_row(setting: Setting) -> None:
    pages = table_pages([_table(200)], name="long", title="Long", setting=setting)
    numbers = [text.words for page in pages for text in page.texts if text.words.isdigit()]
    assert numbers == [str(k) for k in range(200)]
    for page in pages:
        assert not crowded(page)
        assert not off_page(page)
    assert len({page.name for page in pages}) == len(pages)
