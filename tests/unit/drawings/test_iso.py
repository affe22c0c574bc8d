"""The line drawing of the set shows finished faces, hides what is hidden, and keeps true proportions."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words
from tests.unit.drawings.made_up import Hole, WallWish, Wish, bay_wish, corner_wish, make_plan

from lathlight.carpentry import SheetPiece
from lathlight.drawings.iso import RISE, choose_sight, set_size, set_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Path
from lathlight.plan import Plan


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


def test_somebody_behind_a_wall_is_covered_by_it() -> None:
    plan = make_plan(Wish(walls=(WallWish(name="w", length=3000),), angles=()))
    (sitter,) = plan.brief.sitters
    behind = replace(plan, brief=replace(plan.brief, sitters=(replace(sitter, forward=-1500.0),)))
    paths = [item for item in set_view(behind, scale=25).items if isinstance(item, Path)]
    heads = [k for k, path in enumerate(paths) if len(path.points) == 20]
    faces = [k for k, path in enumerate(paths) if path.points in {piece_face(behind, piece) for piece in plan.pieces}]
    assert len(heads) == 1
    assert len(faces) == len(plan.pieces)
    assert heads[0] < min(faces)


def piece_face(plan: Plan, piece: SheetPiece):
    """Return the finished face of a piece as it is drawn."""
    sight, line = choose_sight(plan), plan.layout.wall(piece.wall)
    return tuple(sight.flat(line.at(along=x, behind=0.0), z) for x, z in piece.outline)


def test_an_opening_is_cut_out_of_the_face_and_not_painted_over() -> None:
    window = Hole(name="window", kind="window", left=300, width=400, height=600, sill=900)
    plan = make_plan(Wish(walls=(WallWish(name="w", length=1200, holes=(window,)),), angles=()))
    faces = [item for item in set_view(plan, scale=25).items if isinstance(item, Path) and item.holes]
    (face,) = [path for path in faces if path.points == piece_face(plan, plan.pieces[0])]
    assert len(face.holes) == 1
    x0, _, x1, _ = bounds_of(face.holes[0])
    sight = choose_sight(plan)
    assert x1 - x0 == pytest.approx(400 * math.cos(sight.turn))


def test_words_do_not_cover_each_other() -> None:
    for wish in (corner_wish(), bay_wish()):
        assert not covered_words(set_view(make_plan(wish), scale=20))
