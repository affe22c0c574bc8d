"""All pages of a plan: which there are, nothing cut off, nothing over anything else."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.drawings.looks import covered_words, crowded, false_chains, off_page
from tests.unit.drawings.made_up import US_SHEET, US_TIMBER, Wish, bay_wish, corner_wish, make_plan, random_wish
from tests.unit.drawings.moulded import moulded_plan

from lathlight.drawings import Page, drawing_pages, page_svg, view_dxf
from lathlight.errors import InputError
from lathlight.plan import Plan
from lathlight.snags.model import Severity, Snag
from lathlight.units import LengthStyle
from lathlight.working import Working

WISHES = {
    "corner": corner_wish(),
    "bay": bay_wish(),
    "bay on A3": bay_wish(paper="A3"),
    "corner in inches": corner_wish(style=LengthStyle.imperial(), timber=US_TIMBER, sheet=US_SHEET, paper="Letter"),
    "bay in inches": bay_wish(style=LengthStyle.imperial(), timber=US_TIMBER, sheet=US_SHEET, paper="Tabloid"),
}


def _faults(pages: tuple[Page, ...], style: LengthStyle) -> list[object]:
    """Return everything that is cut off, covered or false on some pages."""
    found: list[object] = []
    for page in pages:
        found += [(page.name, "off the page", name) for name in off_page(page)]
        found += [(page.name, "on the page", pair) for pair in crowded(page)]
        for placed in page.views:
            found += [(page.name, "in the view", pair) for pair in covered_words(placed.view)]
            found += [(page.name, "chain", words) for words in false_chains(placed.view, style)]
    return found


@pytest.fixture(scope="module")
def bay() -> Plan:
    return make_plan(bay_wish())


@pytest.mark.parametrize("name", WISHES)
def test_no_page_has_words_cut_off_or_covered(name: str) -> None:
    wish = WISHES[name]
    assert _faults(drawing_pages(make_plan(wish)), wish.style) == []


@pytest.mark.parametrize("seed", range(24))
def test_no_page_of_a_random_set_has_words_cut_off_or_covered(seed: int) -> None:
    wish: Wish = random_wish(seed)
    try:
        plan = make_plan(wish)
    except InputError:
        pytest.skip("walls of this random set cross")
    assert _faults(drawing_pages(plan), wish.style) == []


def test_there_is_a_page_for_every_wall_flat_and_corner(bay: Plan) -> None:
    names = [page.name for page in drawing_pages(bay)]
    assert names[:3] == ["set", "room", "elevation"]
    for wall in bay.walls:
        assert {f"elevation-{wall.mark}", f"sheets-{wall.mark}"} <= set(names)
    assert {f"framing-{flat.mark}" for flat in bay.flats} <= set(names)
    assert sum(name.startswith("corner-") for name in names) == 1  # both are alike
    assert len(set(names)) == len(names)


def test_a_moulded_set_is_read_in_the_order_in_which_it_is_built() -> None:
    plan = moulded_plan()
    names = [page.name for page in drawing_pages(plan)]
    order = ["set", "room", "elevation", "mouldings", "trim-pieces", "framing", "sheets", "cut-sheets", "corner"]
    order += ["fixing", "trim-corners", "profiles", "marking-out", "story-stick", "floor"]
    firsts = [next(k for k, name in enumerate(names) if name.startswith(start)) for start in order]
    assert firsts == sorted(firsts)
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_no_page_of_a_moulded_set_has_words_cut_off_or_covered(system: str) -> None:
    plan = moulded_plan(system, blocks=True)
    assert _faults(drawing_pages(plan), plan.brief.style) == []


def test_one_wall_alone_has_no_strip() -> None:
    plan = make_plan(corner_wish(walls=corner_wish().walls[:1], angles=()))
    assert "elevation" not in [page.name for page in drawing_pages(plan)]


def test_a_long_row_of_walls_is_unfolded_in_strips_that_share_no_wall() -> None:
    wall = corner_wish().walls[1]
    walls = tuple(replace(wall, name=f"w{k}", length=3000.0) for k in range(9))
    plan = make_plan(Wish(walls=walls, angles=(2.9,) * 8, room=(40000.0, 40000.0)))
    pages = [page for page in drawing_pages(plan) if page.title.startswith("Elevation, walls")]
    assert len(pages) > 1
    assert all(page.views[0].view.scale <= 50 for page in pages)


@pytest.mark.parametrize(("paper", "short"), [("A4", 210.0), ("A3", 297.0)])
def test_pages_have_the_project_s_paper(paper: str, short: float) -> None:
    plan = make_plan(bay_wish(paper=paper))
    assert {min(page.size) for page in drawing_pages(plan)} == {short}


def test_snags_of_a_flat_stand_on_its_own_page(bay: Plan) -> None:
    flat = bay.flats[0]
    snag = Snag(
        id=f"free-sheet-edge@{flat.id}",
        check="free-sheet-edge",
        severity=Severity.SPOILS,
        place=flat.id,
        what="the right edge hangs free over 900",
        figure=900.0,
        limit=0.0,
        unit="mm",
        remedy="add a nailer",
        why=Working(formula="made up for a test"),
    )
    pages = {page.name: page for page in drawing_pages(bay, [snag])}
    words = " ".join(text.words for text in pages[f"framing-{flat.mark}"].texts)
    assert "SNAG, spoils the picture or a part: the right edge hangs free over 900" in words
    del pages[f"framing-{flat.mark}"]
    assert "SNAG" not in " ".join(text.words for page in pages.values() for text in page.texts)


def test_the_same_plan_gives_the_same_bytes() -> None:
    once, twice = (drawing_pages(make_plan(bay_wish())) for _ in range(2))
    assert [page_svg(page) for page in once] == [page_svg(page) for page in twice]


@pytest.mark.parametrize("name", ["bay", "corner in inches"])
def test_every_view_goes_through_the_dxf_writer(name: str) -> None:
    wish = WISHES[name]
    for page in drawing_pages(make_plan(wish)):
        for placed in page.views:
            assert len(view_dxf(placed.view, style=wish.style, title=wish.title)) > 1000


def test_no_drawing_names_a_path_of_the_machine(bay: Plan) -> None:
    text = b"".join(page_svg(page) for page in drawing_pages(bay)).decode()
    assert str(Path(__file__).parent) not in text
