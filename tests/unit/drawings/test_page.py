"""Pages: nothing overlaps, nothing leaves the border, and the title block says what it must."""

from __future__ import annotations

import datetime as dt
from itertools import combinations
from typing import Literal

import pytest

from lathlight.drawings.arranging import arrange
from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.page import PAPERS, Area, cell_size, make_page, number_page, paper_size, view_area
from lathlight.drawings.sheets import Page, Path, Pen, Placed, View
from lathlight.drawings.text import boxes_overlap
from lathlight.drawings.views import make_view
from lathlight.project.brief import TitleBrief
from lathlight.units import LengthStyle

Paper = Literal["A4", "A3", "Letter", "Tabloid"]
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
NOTES = (
    "STANDING NOT CHECKED. Before a wall is released, every piece must be held by people, jacks or ballast.",
    "All timber 38 x 38 mm, planed. Both diagonals of each frame are equal.",
)
FORMS = [(paper, landscape) for paper in PAPERS for landscape in (False, True)]


def heading(paper: Paper = "A4", title: str = "Corner for a potter") -> TitleBrief:
    return TitleBrief(title=title, date=dt.date(2025, 3, 1), revision="B", paper=paper, currency="EUR", notes="")


def frame(name: str, width: float, height: float, *, scale: float = 20.0, style: LengthStyle = METRIC) -> View:
    """A rectangle with its chains, as a flat is drawn."""
    ring = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    rows = [[0.0, 38.0, width / 2, width - 38.0, width], [0.0, width]]
    items = [
        Path(points=ring, closed=True, pen=Pen.OUTLINE),
        *level_chains(rows, edge_y=0.0, below=True, scale=scale, style=style),
        *upright_chains([[0.0, height]], edge_x=width, left=False, scale=scale, style=style),
    ]
    return make_view(name=name, title=f"Flat {name}, from behind", scale=scale, items=items)


def page_of(views: list[View], *, paper: Paper = "A4", landscape: bool = False, style: LengthStyle = METRIC) -> Page:
    area = view_area(paper, landscape=landscape, notes=NOTES)
    (placed, *_) = arrange(views, area=area, style=style)
    made = make_page(
        name="frames",
        title="Frames",
        views=placed,
        heading=heading(paper),
        style=style,
        landscape=landscape,
        notes=NOTES,
    )
    return number_page(made, number=3, of=14)


def covered(placed: Placed) -> tuple[tuple[float, float], ...]:
    (x, y), (width, height) = placed.at, placed.view.paper_size
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def words(page: Page) -> list[str]:
    return [text.words for text in page.texts]


@pytest.mark.parametrize(("paper", "landscape"), FORMS)
def test_no_two_words_of_a_page_overlap(paper: Paper, landscape: bool) -> None:
    page = page_of([frame("A1", 1200.0, 2250.0), frame("A2", 400.0, 2250.0)], paper=paper, landscape=landscape)
    for a, b in combinations(page.texts, 2):
        assert not boxes_overlap(a.box, b.box), (a.words, b.words)


@pytest.mark.parametrize(("paper", "landscape"), FORMS)
def test_no_words_and_no_title_block_touch_a_view(paper: Paper, landscape: bool) -> None:
    page = page_of([frame("A1", 1200.0, 2250.0), frame("A2", 400.0, 2250.0)], paper=paper, landscape=landscape)
    assert page.views
    for placed in page.views:
        box = covered(placed)
        assert not any(boxes_overlap(box, text.box) for text in page.texts)
        assert not any(boxes_overlap(box, (line.a, line.b)) for line in page.lines)
    for a, b in combinations(page.views, 2):
        assert not boxes_overlap(covered(a), covered(b))


@pytest.mark.parametrize(("paper", "landscape"), FORMS)
def test_everything_stays_inside_the_border(paper: Paper, landscape: bool) -> None:
    page = page_of([frame("A1", 1200.0, 2250.0)], paper=paper, landscape=landscape)
    border = [line for line in page.lines if line.pen is Pen.FRAME and abs(line.a[0] - line.b[0]) > 60.0]
    xs = [x for line in border for x, _ in (line.a, line.b)]
    low, high = (min(xs), min(line.a[1] for line in border)), (max(xs), max(line.a[1] for line in border))
    corners = [corner for text in page.texts for corner in text.box]
    corners += [corner for placed in page.views for corner in covered(placed)]
    assert all(low[0] <= x <= high[0] and low[1] <= y <= high[1] for x, y in corners)
    assert low[0] >= 10.0
    assert page.size[0] - high[0] >= 10.0


def test_the_title_block_says_what_it_must() -> None:
    page = page_of([frame("A1", 1200.0, 2250.0)])
    for expected in ("Corner for a potter", "Frames", "3 of 14", "1:20", "millimetres", "2025-03-01", "B"):
        assert expected in words(page)
    caution = " ".join(words(page))
    assert "Do not scale: figures govern." in caution
    assert "Planning aid only" in caution
    assert "competent person" in caution


def test_an_imperial_page_speaks_feet_and_inches() -> None:
    page = page_of([frame("A1", 1219.2, 2438.4, scale=24.0, style=IMPERIAL)], paper="Letter", style=IMPERIAL)
    assert {'1/2" = 1\'-0"', 'feet and inches, to 1/16"', "4'-0\""} <= set(words(page))
    assert not any("mm" in text for text in words(page) if text not in " ".join(NOTES))


def test_each_scaled_view_has_its_title_its_scale_and_a_bar() -> None:
    views = [frame("A1", 1200.0, 2250.0), frame("A2", 400.0, 2250.0, scale=25.0)]
    page = page_of(views, paper="A3")
    assert [words(page).count(text) for text in ("Flat A1, from behind", "Flat A2, from behind")] == [1, 1]
    assert {"1:20", "1:25", "as shown"} <= set(words(page))
    assert words(page).count("1 m") == 2


def test_a_view_without_scale_says_so_and_has_no_bar() -> None:
    view = frame("A1", 1200.0, 2250.0)
    page = make_page(
        name="set",
        title="The set",
        views=[Placed(view=view, at=(60.0, 90.0))],
        heading=heading(),
        style=METRIC,
        landscape=False,
        unscaled={"A1"},
    )
    assert "not to scale" in words(page)
    assert not {"1:20", "1 m"} & set(words(page))


def test_numbering_again_replaces_the_number() -> None:
    page = number_page(page_of([frame("A1", 1200.0, 2250.0)]), number=4, of=15)
    assert page.number == 4
    assert [text for text in words(page) if " of 1" in text] == ["4 of 15"]


def test_a_title_longer_than_its_cell_is_cut_and_stays_in_it() -> None:
    page = make_page(
        name="p",
        title="Frames " * 30,
        views=[],
        heading=heading(title="A set with a name that goes on and on " * 4),
        style=METRIC,
        landscape=False,
    )
    cut = [text for text in page.texts if text.words.endswith("…")]
    assert len(cut) == 2
    for a, b in combinations(page.texts, 2):
        assert not boxes_overlap(a.box, b.box), (a.words, b.words)


def test_notes_stand_beside_the_title_block_where_there_is_room() -> None:
    upright, flat = (view_area("A4", landscape=landscape, notes=NOTES) for landscape in (False, True))
    bare = view_area("A4", landscape=True)
    assert flat.low[1] == bare.low[1]
    assert upright.low[1] > view_area("A4", landscape=False).low[1]


def test_paper_lies_on_its_long_side_when_asked() -> None:
    assert paper_size("Letter", landscape=True) == (279.4, 215.9)


# --- arranging ---------------------------------------------------------------------------------------------------

AREA = Area(low=(25.0, 50.0), high=(195.0, 280.0))


def test_views_keep_their_order_from_left_to_right_and_top_to_bottom() -> None:
    views = [frame(name, 500.0, 700.0) for name in "ABCDE"]
    (page,) = arrange(views, area=AREA, style=METRIC)
    assert [placed.view.name for placed in sorted(page, key=lambda p: (-round(p.at[1], 6), p.at[0]))] == list("ABCDE")


def test_what_does_not_fit_goes_to_the_next_page() -> None:
    views = [frame(str(i), 1500.0, 2250.0) for i in range(3)]
    pages = arrange(views, area=AREA, style=METRIC)
    assert [[placed.view.name for placed in page] for page in pages] == [["0"], ["1"], ["2"]]


@pytest.mark.parametrize("count", [1, 2, 3, 5, 9])
def test_cells_lie_inside_the_area_and_keep_apart(count: int) -> None:
    views = [frame(str(i), 300.0 + 97.0 * i, 500.0 + 60.0 * (i % 3)) for i in range(count)]
    for page in arrange(views, area=AREA, style=METRIC):
        cells = []
        for placed in page:
            width, height = cell_size(placed.view, style=METRIC)
            top = placed.at[1] + placed.view.paper_size[1]
            left, right = placed.at[0], placed.at[0] + width
            assert AREA.low[0] - 1e-6 <= left <= right <= AREA.high[0] + 1e-6
            assert AREA.low[1] - 1e-6 <= top - height <= top <= AREA.high[1] + 1e-6
            cells.append([(left, top - height), (right, top - height), (right, top), (left, top)])
        assert not any(boxes_overlap(a, b, slack=-7.9) for a, b in combinations(cells, 2))


def test_a_view_larger_than_the_page_is_refused_with_both_sizes() -> None:
    with pytest.raises(ValueError, match=r"view big takes .* mm, the page has 170 x 230 mm"):
        arrange([frame("big", 9000.0, 2250.0)], area=AREA, style=METRIC)


def test_no_views_need_no_page() -> None:
    assert arrange([], area=AREA, style=METRIC) == ()
