"""Pieces of trim from above: every long point is said, ends slant as they are sawn, no piece is lost."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.unit.drawings.looks import covered_words, crowded, off_page
from tests.unit.drawings.made_up import BASE, RAIL, WallWish, Wish, make_plan
from tests.unit.drawings.moulded import moulded_plan

from lathlight.drawings.composing import Setting
from lathlight.drawings.labels import texts_of
from lathlight.drawings.piece_plans import piece_cells, piece_pages
from lathlight.drawings.sheets import Path, Pen
from lathlight.units import drawing_length

SYSTEMS = ("metric", "imperial")


def _pages(plan):
    return piece_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style))


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_piece_of_trim_says_its_long_point(system: str) -> None:
    plan = moulded_plan(system)
    style = plan.brief.style
    words = [
        text.words.removeprefix("long point ")
        for text in texts_of([i for cell in piece_cells(plan, scale=16.0) for i in cell.items])
    ]
    for piece in plan.trim.pieces:
        assert drawing_length(piece.long_point, style=style) in words
    assert "mitre 35°" in words
    assert "mitre 45°" in words


def test_an_inside_mitre_is_longer_at_the_wall_and_slants_as_it_is_sawn() -> None:
    plan = moulded_plan()
    piece = next(p for p in plan.trim.pieces if p.left.kind == "inside mitre" and p.wall == "back")
    only = replace(plan, trim=replace(plan.trim, pieces=(piece,)))
    (ring,) = [i.points for i in piece_cells(only, scale=16.0)[0].items if isinstance(i, Path)]
    back, front = ring[0], ring[3]
    assert back[1] > front[1]
    assert math.atan2(front[0] - back[0], back[1] - front[1]) == pytest.approx(piece.left.slant)
    assert piece.left.slant == pytest.approx(math.radians(35))


def test_pieces_of_a_line_that_are_joined_touch() -> None:
    plan = moulded_plan()
    own = sorted((p for p in plan.trim.pieces if (p.wall, p.line) == ("back", "cornice")), key=lambda p: p.start)
    assert len(own) > 1
    only = replace(plan, trim=replace(plan.trim, pieces=tuple(own)))
    rings = [i.points for i in piece_cells(only, scale=16.0)[0].items if isinstance(i, Path) and i.pen is Pen.OUTLINE]
    for a, b in pairwise(rings):
        assert a[1][0] == pytest.approx(b[0][0])
        assert a[2][0] == pytest.approx(b[3][0])


@pytest.mark.parametrize("system", SYSTEMS)
def test_nothing_overlaps_or_leaves_the_page(system: str) -> None:
    for page in _pages(moulded_plan(system)):
        assert not covered_words(page.views[0].view)
        assert not crowded(page)
        assert not off_page(page)


def test_many_walls_take_several_pages_and_no_piece_is_lost() -> None:
    walls = tuple(WallWish(name=f"w{k}", length=3000.0, trim=(BASE, RAIL)) for k in range(9))
    plan = make_plan(Wish(walls=walls, angles=(2.9,) * 8, room=(40000.0, 40000.0)))
    pages = _pages(plan)
    assert len(pages) > 1
    words = [text.words for page in pages for text in texts_of(page.views[0].view.items)]
    assert sum(word.startswith("long point") for word in words) == len(plan.trim.pieces)
    assert not any(crowded(page) or off_page(page) for page in pages)


def test_a_set_without_trim_has_no_such_page() -> None:
    assert _pages(replace(moulded_plan(), trim=None)) == ()


@pytest.mark.parametrize("length", [140.0, 200.0, 260.0])
def test_a_short_piece_says_its_slant_before_that_its_other_end_is_square(length: float) -> None:
    plan = moulded_plan()
    mitred = next(p for p in plan.trim.pieces if p.right.kind == "inside mitre")
    left = replace(mitred.right, kind="against casing", station=0.0, back=0.0, front=0.0, slant=0.0)
    right = replace(mitred.right, station=length, back=length, front=length - 10.0)
    short = replace(mitred, left=left, right=right)
    only = replace(plan, trim=replace(plan.trim, pieces=(short,)))
    words = [t.words for cell in piece_cells(only, scale=20.0) for t in texts_of(cell.items)]
    assert any("°" in word for word in words)
    (page,) = _pages(only)
    assert any("no room for words" in text.words for text in page.texts)
