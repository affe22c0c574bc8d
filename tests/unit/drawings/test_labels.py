"""Words find a place where they cover no others."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from lathlight.drawings.labels import Taken, apart, running_figures, texts_of, words_in
from lathlight.drawings.sheets import Line
from lathlight.drawings.text import boxes_overlap, make_text


def test_the_first_free_place_is_taken_and_then_no_longer_free() -> None:
    taken = Taken([], scale=1.0)
    spots = [(0.0, 0.0), (1.0, 0.0), (50.0, 0.0)]
    first = taken.first_free(make_text("one", at=spot, scale=1.0) for spot in spots)
    second = taken.first_free(make_text("two", at=spot, scale=1.0) for spot in spots)
    assert first is not None
    assert first.at == (0.0, 0.0)
    assert second is not None
    assert second.at == (50.0, 0.0)


def test_no_free_place_gives_none() -> None:
    taken = Taken([make_text("here", at=(0.0, 0.0), scale=1.0)], scale=1.0)
    assert taken.first_free([make_text("there", at=(0.5, 0.2), scale=1.0)]) is None


def test_long_words_are_found_from_far_away() -> None:
    long_words = make_text("a very long name that reaches over many squares of the grid", at=(0.0, 0.0), scale=1.0)
    taken = Taken([long_words], scale=1.0)
    assert not taken.is_free(make_text("x", at=(long_words.box[1][0] - 2.0, 0.0), scale=1.0))


def test_a_gap_is_kept() -> None:
    one = make_text("one", at=(0.0, 0.0), scale=1.0)
    taken = Taken([one], scale=1.0)
    near = make_text("two", at=(one.box[1][0] + 0.5, 0.0), scale=1.0)
    assert taken.is_free(near)
    assert not taken.is_free(near, gap=2.0)


@pytest.mark.parametrize(("size", "turned"), [((40.0, 10.0), False), ((9.0, 60.0), True)])
def test_words_stand_inside_their_box_turned_where_they_must(size: tuple[float, float], turned: bool) -> None:
    texts = words_in(("back window", "800 × 900"), low=(0.0, 0.0), high=size, scale=1.0)
    assert len(texts) == 2
    for text in texts:
        assert (text.angle != 0) == turned
        assert all(-1e-6 <= x <= size[0] + 1e-6 and -1e-6 <= y <= size[1] + 1e-6 for x, y in text.box)
    assert not boxes_overlap(texts[0].box, texts[1].box)


def test_words_break_at_spaces_before_they_shrink() -> None:
    texts = words_in(("keep clear of this",), low=(0.0, 0.0), high=(14.0, 16.0), scale=1.0)
    assert [text.words for text in texts] == ["keep clear", "of this"]


def test_a_box_too_small_for_any_words_stays_empty() -> None:
    assert words_in(("window",), low=(0.0, 0.0), high=(2.0, 2.0), scale=1.0) == ()


def test_places_that_crowd_move_apart_about_their_middle() -> None:
    places = apart([0.0, 0.5, 1.0, 40.0], gap=3.0)
    assert all(b - a >= 3.0 - 1e-9 for a, b in pairwise(places))
    assert sum(places[:3]) / 3 == pytest.approx(0.5)
    assert places[3] == 40.0


@pytest.mark.parametrize("level", [True, False])
def test_running_figures_stay_apart_and_reach_their_marks(level: bool) -> None:
    marks = [(0.0, "0"), (38.0, "38"), (45.0, "45"), (600.0, "600")]
    items = running_figures(marks, edge=0.0, level=level, out=1, scale=20.0)
    texts = texts_of(items)
    assert [text.words for text in texts] == ["0", "38", "45", "600"]
    assert not any(boxes_overlap(a.box, b.box) for a, b in pairwise(texts))
    starts = {round(item.a[0 if level else 1], 6) for item in items if isinstance(item, Line)}
    assert {0.0, 38.0, 45.0, 600.0} <= starts
    assert all(math.isclose(text.angle, math.pi / 2 if level else 0.0) for text in texts)
