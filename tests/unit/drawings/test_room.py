"""The plan in the room shows set, doors, places and cameras where they are."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import chain_stops, covered_words
from tests.unit.drawings.made_up import WallWish, bay_wish, corner_wish, make_plan

from lathlight.drawings.cameras import camera_distance, outside_angles
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of, set_points
from lathlight.drawings.room import room_view
from lathlight.drawings.sheets import Hatch, Line, Path, Pen, Tone, View
from lathlight.drawings.way_in import places_listing, room_notes, way_in_listing
from lathlight.plan import Plan


@pytest.fixture(scope="module")
def corner() -> Plan:
    return make_plan(corner_wish())


@pytest.fixture(scope="module")
def bay() -> Plan:
    return make_plan(bay_wish())


def test_distances_from_the_set_to_the_room_add_up_to_the_room(bay: Plan) -> None:
    stops = chain_stops(room_view(bay, scale=50))
    xs = [bay.layout.pose.to_room(point)[0] for point in set_points(bay)]
    wanted = (0.0, float(round(min(xs))), float(round(max(xs))), 6400.0)
    assert wanted in stops
    assert (0.0, 6400.0) in stops
    assert (0.0, 5100.0) in stops


def test_every_wall_is_measured_at_its_finished_length(bay: Plan) -> None:
    stops = chain_stops(room_view(bay, scale=50))
    for line in bay.layout.walls:
        assert (0.0, float(line.length)) in stops


def test_sheets_are_drawn_at_their_true_place(corner: Plan) -> None:
    view = room_view(corner, scale=50)
    black = _black(view)
    line = corner.layout.walls[1]
    piece = corner.walls[1].flats[0].pieces[0]
    x0, _, x1, _ = bounds_of(piece.outline)
    wanted = [corner.layout.pose.to_room(line.at(along=x, behind=b)) for x, b in ((x0, 0), (x1, 0), (x1, 9), (x0, 9))]
    assert any(
        all(math.dist(p, q) < 0.01 for p, q in zip(ring, wanted, strict=True)) for ring in black if len(ring) == 4
    )


def test_a_door_in_the_set_is_open_in_the_plan(corner: Plan) -> None:
    view = room_view(corner, scale=50)
    line = corner.layout.walls[0]
    middle = corner.layout.pose.to_room(line.at(along=1700, behind=4.5))  # in the doorway
    black = _black(view)
    assert not any(_holds(ring, middle) for ring in black)
    beside = corner.layout.pose.to_room(line.at(along=700, behind=4.5))
    assert any(_holds(ring, beside) for ring in black)


def _black(view: View):
    """Return the rings of what is filled black without an outline: cut sheets."""
    paths = [item for item in view.items if isinstance(item, Path)]
    return [path.points for path in paths if path.fill is Tone.BLACK and path.pen is None]


def _holds(ring, point) -> bool:
    """Return whether a convex anticlockwise ring holds a point."""
    return all(
        (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax) > 0
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


def test_a_door_of_the_room_leaves_a_gap_and_swings_through_its_clear_width(corner: Plan) -> None:
    (door,) = corner.brief.room.doors
    view = room_view(corner, scale=50)
    front = sorted(
        tuple(sorted((item.a[0], item.b[0])))
        for item in view.items
        if isinstance(item, Line) and item.pen is Pen.CUT and item.a[1] == item.b[1] == 0
    )
    assert front == [(0.0, 400.0), (1230.0, 4800.0)]
    arcs = [
        item.points
        for item in view.items
        if isinstance(item, Path) and not item.closed and math.dist(item.points[0], door.b) < 0.01
    ]
    assert len(arcs) == 1
    assert all(math.dist(point, door.a) == pytest.approx(door.clear_width) for point in arcs[0])


def test_doors_carry_their_clear_size(corner: Plan) -> None:
    words = [text.words for text in texts_of(room_view(corner, scale=50).items)]
    assert "yard door" in words
    assert "830 × 2000 clear" in words


def test_what_must_stay_clear_is_hatched_named_and_dashed(corner: Plan) -> None:
    view = room_view(corner, scale=50)
    (area,) = corner.brief.room.keep_clear
    assert any(
        isinstance(item, Path) and item.points == area.outline and item.pen is Pen.OVERHEAD for item in view.items
    )
    x0, y0, x1, y1 = bounds_of(area.outline)
    inside = [
        item
        for item in view.items
        if isinstance(item, Hatch)
        and item.lines
        and all(x0 - 0.01 <= x <= x1 + 0.01 and y0 - 0.01 <= y <= y1 + 0.01 for pair in item.lines for x, y in pair)
    ]
    assert inside
    assert "keep clear" in " ".join(text.words for text in texts_of(view.items))


def test_cameras_stand_at_both_ends_of_the_range_on_one_arc(bay: Plan) -> None:
    (picture,) = bay.brief.pictures
    view = room_view(bay, scale=50)
    bodies = [item.points for item in view.items if isinstance(item, Path) and item.fill is Tone.MID]
    assert len(bodies) == 2
    sitter = bay.layout.pose.to_room((picture.sitter.right, -picture.sitter.forward))
    for ring, angle in zip(bodies, sorted(picture.angles), strict=True):
        middle = (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))
        assert math.dist(middle, sitter) == pytest.approx(camera_distance(picture), abs=100)
        assert math.atan2(middle[0] - sitter[0], sitter[1] - middle[1]) == pytest.approx(angle, abs=0.02)


def test_camera_distance_shows_the_whole_frame() -> None:
    """Second opinion: similar triangles behind the lens, image distance from the thin lens equation."""
    (picture,) = make_plan(bay_wish()).brief.pictures
    far, lens = camera_distance(picture), max(picture.lens)
    image = 1 / (1 / lens - 1 / far)
    assert picture.sensor[1] * far / image == pytest.approx(picture.frame_height)


def test_lines_of_sight_end_on_a_finished_face(bay: Plan) -> None:
    view = room_view(bay, scale=50)
    sights = [item for item in view.items if isinstance(item, Line) and item.pen is Pen.SIGHT]
    assert len(sights) == 6
    for sight in sights:
        x, y = bay.layout.pose.to_set(sight.b)
        gaps = []
        for line in bay.layout.walls:
            dx, dy = line.direction
            along = (x - line.start[0]) * dx + (y - line.start[1]) * dy
            if -0.01 <= along <= line.length + 0.01:
                gaps.append(abs((y - line.start[1]) * dx - (x - line.start[0]) * dy))
        assert min(gaps) < 0.01


def test_the_camera_arrow_follows_the_set_when_it_is_turned(bay: Plan) -> None:
    view = room_view(bay, scale=50)
    (words,) = [text for text in texts_of(view.items) if "camera looks" in text.words]
    assert words.box[0][0] < min(x for x, _ in bay.brief.room.outline)  # outside the room, in nobody's way


def test_the_way_in_names_what_does_not_pass() -> None:
    plan = make_plan(
        corner_wish(walls=(WallWish(name="giant", length=2300, height=2600),), angles=(), room=(4000, 4000))
    )
    failing = [passage for passage in plan.passages if not passage.raises.passes]
    assert failing  # 2.6 m does not rise under 2.5 m
    rows = {row[0]: row[2] for row in way_in_listing(plan).rows}
    marks = {flat.id: flat.mark for flat in plan.flats}
    assert all(marks[passage.flat] in rows["stood up in the room"] for passage in failing)
    assert rows["stood up in the room"].startswith("does not pass")


def test_the_table_of_places_gives_every_mark_and_camera(bay: Plan) -> None:
    listing = places_listing(bay)
    assert listing is not None
    rows = dict(listing.rows)
    assert rows["potter"] == "1100 in front of the face, 120 right of the axis"
    assert "-15° to 20°" in rows["camera: at the wheel"]


def test_notes_give_the_ceiling_and_what_stays_clear(bay: Plan) -> None:
    notes = room_notes(bay)
    assert "2500" in notes[0]
    assert any("fuse board" in note for note in notes)


@pytest.mark.parametrize("scale", [50.0, 100.0])
def test_words_do_not_cover_each_other(corner: Plan, bay: Plan, scale: float) -> None:
    assert not covered_words(room_view(corner, scale=scale))
    assert not covered_words(room_view(bay, scale=scale))


def test_cameras_outside_the_room_are_named_in_plan_and_table(bay: Plan) -> None:
    (picture,) = bay.brief.pictures
    assert not outside_angles(bay, picture)
    assert "outside the room" not in _all_words(bay)
    far = replace(bay, brief=replace(bay.brief, pictures=(replace(picture, lens=(400.0,)),)))
    assert outside_angles(far, far.brief.pictures[0]) == tuple(sorted(picture.angles))
    assert [text.words for text in texts_of(room_view(far, scale=100).items)].count("outside the room") == 2
    assert "outside the room" in _all_words(far)


def test_one_end_of_a_range_outside_the_room_is_told_with_its_angle(bay: Plan) -> None:
    (picture,) = bay.brief.pictures
    aside = replace(picture, angles=(0.0, math.radians(80)), lens=(100.0,))
    plan = replace(bay, brief=replace(bay.brief, pictures=(aside,)))
    assert outside_angles(plan, aside) == (math.radians(80),)
    assert "outside the room at 80°" in _all_words(plan)


def _all_words(plan: Plan) -> str:
    listing = places_listing(plan)
    assert listing is not None
    return " ".join(cell for row in listing.rows for cell in row)
