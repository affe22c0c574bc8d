"""The line drawing of the set shows finished faces, hides what is hidden, and keeps true proportions."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.unit.drawings.looks import covered_words
from tests.unit.drawings.made_up import Hole, WallWish, Wish, bay_wish, corner_wish, make_plan
from tests.unit.drawings.moulded import moulded_plan

from lathlight.carpentry import SheetPiece
from lathlight.drawings.iso import RISE, choose_sight, set_size, set_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of, is_inside
from lathlight.drawings.sheets import Line, Path, Pen, Tone, View
from lathlight.drawings.text import boxes_overlap
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


@pytest.mark.parametrize("wish", [corner_wish(), bay_wish()], ids=["corner", "bay"])
def test_no_line_is_drawn_where_a_nearer_part_covers_it(wish: Wish) -> None:
    items = set_view(make_plan(wish), scale=25).items
    fills = [(k, item) for k, item in enumerate(items) if isinstance(item, Path) and item.fill is not None]
    for number, item in enumerate(items):
        for point in _middles(item):
            nearer = [fill for k, fill in fills if k > number and _deep_inside(point, fill.points)]
            assert all(any(is_inside(point, hole) for hole in fill.holes) for fill in nearer)


def _middles(item) -> list[tuple[float, float]]:
    """Return the middles of the straight pieces that a pen draws of an item."""
    if isinstance(item, Line):
        ends = [(item.a, item.b)]
    elif isinstance(item, Path) and item.pen is not None:
        ring = (*item.points, item.points[0]) if item.closed else item.points
        ends = list(pairwise(ring))
    else:
        ends = []
    return [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ends]


def _deep_inside(point, ring) -> bool:
    """Return whether a point lies more than 3 mm inside a ring."""
    around = [(point[0] + 3 * math.cos(k * math.pi / 8), point[1] + 3 * math.sin(k * math.pi / 8)) for k in range(16)]
    return all(is_inside(each, ring) for each in (point, *around))


def test_what_a_nearer_wall_hides_was_there_before() -> None:
    plan = make_plan(Wish(walls=(WallWish(name="w", length=3000),), angles=()))
    (sitter,) = plan.brief.sitters
    behind = replace(plan, brief=replace(plan.brief, sitters=(replace(sitter, forward=-500.0),)))
    items = set_view(behind, scale=25).items
    (head,) = [item for item in items if isinstance(item, Path) and len(item.points) == 20]
    assert head.pen is None  # the fill stays, its outline is hidden
    assert head.fill is Tone.WHITE


def test_marks_stand_clear_of_seams_and_edges() -> None:
    walls = (WallWish(name="back", length=2440), WallWish(name="side", length=1220))  # a seam in the middle
    plan = make_plan(Wish(walls=walls, angles=(math.pi / 2,)))
    view = set_view(plan, scale=20)
    marks = {text.words: text for text in texts_of(view.items)}
    sight = choose_sight(plan)
    assert any(len(wall.seams) for wall in plan.walls)
    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for seam in wall.seams:
            ends = [sight.flat(line.at(along=seam.at, behind=0.0), z) for z in (seam.low, seam.high)]
            assert not boxes_overlap(marks[wall.mark].box, ends)


def test_marks_of_slanting_walls_stand_clear_of_their_rails() -> None:
    plan = make_plan(bay_wish())
    marks = {text.words: text for text in texts_of(set_view(plan, scale=25).items)}
    sight = choose_sight(plan)
    for brief, wall, line in zip(plan.brief.walls, plan.walls, plan.layout.walls, strict=True):
        for trim in brief.trim:
            ends = [sight.flat(line.at(along=along, behind=0.0), trim.top) for along in (0.0, line.length)]
            assert not boxes_overlap(marks[wall.mark].box, ends)


def test_moulding_frames_and_casing_are_drawn_as_lines() -> None:
    plan = moulded_plan()
    bare = replace(plan, strips=(), casings=(), floor=None)
    light = [_light_strokes(set_view(each, scale=30.0)) for each in (bare, plan)]
    assert light[1] - light[0] >= 2 * len(plan.frames.frames)


def test_the_floor_covering_lies_under_everything() -> None:
    plan = moulded_plan()
    with_floor, without = (set_view(each, scale=30.0) for each in (plan, replace(plan, floor=None)))
    assert _light_strokes(with_floor) > _light_strokes(without)
    first = next(item for item in with_floor.items if isinstance(item, Path))
    assert first.pen is Pen.LIGHT
    assert first.fill is None


def _light_strokes(view: View) -> int:
    return sum(isinstance(item, Path | Line) and item.pen is Pen.LIGHT for item in view.items)
