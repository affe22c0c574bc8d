"""The line drawing of the set shows finished faces, hides what is hidden, and keeps true proportions."""

from __future__ import annotations

import math

import pytest
from tests.unit.drawings.looks import covered_words
from tests.unit.drawings.made_up import WallWish, Wish, bay_wish, corner_wish, make_plan

from lathlight.drawings.iso import RISE, choose_sight, set_size, set_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Path


def test_a_square_corner_is_seen_straight_from_the_front() -> None:
    plan = make_plan(corner_wish())
    assert choose_sight(plan).turn == 0
    # both walls then lean 30 degrees on paper: the isometric view
    sight = choose_sight(plan)
    for line in plan.layout.walls:
        (ax, ay), (bx, by) = sight.flat(line.start, 0), sight.flat(line.end, 0)
        assert abs(math.degrees(math.atan2(by - ay, bx - ax))) == pytest.approx(30)


def test_a_straight_wall_is_not_seen_square_on() -> None:
    plan = make_plan(Wish(walls=(WallWish(name="w", length=3000),), angles=()))
    assert choose_sight(plan).turn != 0


@pytest.mark.parametrize("degrees", [100, 110, 130])
def test_every_finished_face_of_a_splayed_bay_is_seen(degrees: float) -> None:
    plan = make_plan(bay_wish(angles=(math.radians(degrees),) * 2))
    sight = choose_sight(plan)
    for line in plan.layout.walls:
        dx, dy = line.direction
        assert sight.faces((dy, -dx))


def test_heights_and_lengths_keep_their_proportion() -> None:
    plan = make_plan(corner_wish())
    sight = choose_sight(plan)
    a, b = sight.flat((0, 0), 0), sight.flat((0, 0), 1000)
    assert math.dist(a, b) == pytest.approx(1000 * math.cos(RISE))


def test_the_drawing_is_about_as_large_as_announced() -> None:
    plan = make_plan(bay_wish())
    view = set_view(plan, scale=25)
    width, height = set_size(plan)
    assert width <= view.high[0] - view.low[0] <= 1.15 * width
    assert height <= view.high[1] - view.low[1] <= 1.3 * height


def test_every_wall_whose_face_is_seen_carries_its_mark() -> None:
    plan = make_plan(bay_wish())
    marks = {text.words for text in texts_of(set_view(plan, scale=25).items)}
    assert marks == {wall.mark for wall in plan.walls}


def test_a_sitter_in_front_of_the_set_is_drawn_last() -> None:
    plan = make_plan(bay_wish())
    paths = [item for item in set_view(plan, scale=25).items if isinstance(item, Path)]
    (sitter,) = plan.brief.sitters
    _, y0, _, y1 = bounds_of((*paths[-1].points, *paths[-2].points))
    assert (y1 - y0) == pytest.approx(sitter.stature * math.cos(RISE), rel=0.02)


def test_an_opening_lets_what_is_behind_show() -> None:
    plan = make_plan(bay_wish())
    (window,) = [o for flat in plan.flats for o in flat.openings if o.kind == "window"]
    faces = [item for item in set_view(plan, scale=25).items if isinstance(item, Path) and item.holes]
    notched = [item for item in set_view(plan, scale=25).items if isinstance(item, Path) and len(item.points) > 6]
    assert faces or notched  # cut out, not painted over
    assert window.clear[2] == 800


def test_words_do_not_cover_each_other() -> None:
    for wish in (corner_wish(), bay_wish()):
        assert not covered_words(set_view(make_plan(wish), scale=20))
