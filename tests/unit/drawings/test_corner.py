"""Corner details are true to the carpentry, and say in which order the corner goes together."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words
from tests.unit.drawings.made_up import WallWish, Wish, bay_wish, corner_wish, make_brief, make_plan

from lathlight.drawings.corner import corner_view
from lathlight.drawings.corner_cuts import screw_passes, wedge_lines
from lathlight.drawings.corner_sides import alike
from lathlight.drawings.corner_steps import corner_notes, steps_listing
from lathlight.drawings.labels import texts_of
from lathlight.drawings.sheets import Chain, Hatch, Line, Path, Pen, Tone
from lathlight.drawings.text import boxes_overlap
from lathlight.plan import Plan, derive
from lathlight.units import drawing_length


@pytest.fixture(scope="module")
def square() -> Plan:
    return make_plan(corner_wish())


def _two_walls(degrees: float) -> Plan:
    walls = (WallWish(name="left", length=1500), WallWish(name="right", length=1300))
    return make_plan(Wish(walls=walls, angles=(math.radians(degrees),)))


def _chains(plan: Plan) -> list[Chain]:
    view = corner_view(plan, plan.corners[0], scale=2)
    return [item for item in view.items if isinstance(item, Chain)]


@pytest.mark.parametrize("degrees", [75, 90, 110, 130])
def test_both_walls_show_how_far_sheet_and_frame_run_past_the_corner(degrees: float) -> None:
    plan = _two_walls(degrees)
    corner = plan.corners[0]
    wanted = []
    for end, sign in ((corner.left_end, 1), (corner.right_end, -1)):
        stops = {round(sign * stop) for stop in (0.0, end.sheet_front, end.frame_end)}
        if len(stops) > 1:
            wanted.append(tuple(sorted(float(stop) for stop in stops)))
    assert [chain.stops for chain in _chains(plan)] == wanted
    assert wanted


def test_extensions_are_measured_along_their_walls(square: Plan) -> None:
    angles = [chain.angle % math.pi for chain in _chains(square)]
    lines = [math.atan2(line.direction[1], line.direction[0]) % math.pi for line in square.layout.walls]
    assert angles == pytest.approx(lines)


def test_cut_timber_is_crossed_from_corner_to_corner(square: Plan) -> None:
    view = corner_view(square, square.corners[0], scale=2)
    through = square.corners[0].screws
    assert through is not None
    stud = next(member for member in square.members if member.id == through.into)
    diagonal = math.hypot(stud.wide, stud.deep)
    crossing = [
        item
        for item in view.items
        if isinstance(item, Line) and item.pen is Pen.LIGHT and math.dist(item.a, item.b) == pytest.approx(diagonal)
    ]
    assert len(crossing) >= 2 * 3  # both end studs and the nailer


def test_the_screw_runs_from_the_bay_through_one_stud_into_the_other(square: Plan) -> None:
    corner = square.corners[0]
    screws = corner.screws
    assert screws is not None
    view = corner_view(square, corner, scale=2)
    (shank,) = [
        item
        for item in view.items
        if isinstance(item, Line)
        and item.pen is Pen.CUT
        and math.dist(item.a, item.b) == pytest.approx(screws.screw.length)
    ]
    studs = {member.id: member for member in square.members}
    middle = [(shank.a[k] + 0.6 * (shank.b[k] - shank.a[k])) for k in (0, 1)]
    assert _inside_stud(square, studs[screws.through], [shank.a[k] + 0.2 * (shank.b[k] - shank.a[k]) for k in (0, 1)])
    assert _inside_stud(square, studs[screws.into], middle)
    assert any(isinstance(item, Path) and item.fill is Tone.BLACK for item in view.items)  # its head


def _inside_stud(plan: Plan, member, point) -> bool:
    """Return whether a point of the plan lies in a member's section."""
    line = plan.layout.wall(member.wall)
    (x, y), (dx, dy) = line.start, line.direction
    along = (point[0] - x) * dx + (point[1] - y) * dy
    behind = (point[1] - y) * dx - (point[0] - x) * dy
    return member.x < along < member.x + member.wide and member.behind < behind < member.behind + member.deep


def test_a_wide_corner_shows_its_wedge() -> None:
    plan = _two_walls(150)
    (corner,) = plan.corners
    assert corner.wedge is not None
    view = corner_view(plan, corner, scale=2)
    rings = [item.points for item in view.items if isinstance(item, Path) and item.pen is Pen.CUT]
    assert corner.wedge.outline in rings


def test_sheets_are_lined(square: Plan) -> None:
    view = corner_view(square, square.corners[0], scale=2)
    assert sum(isinstance(item, Hatch) and len(item.lines) > 10 for item in view.items) >= 2


def test_steps_stand_the_lapping_wall_first_and_give_every_screw_height(square: Plan) -> None:
    corner = square.corners[0]
    assert corner.screws is not None
    steps = [row[1] for row in steps_listing(square, corner).rows]
    lapping = corner.left if corner.frame_laps == "left" else corner.right
    first = next(step for step in steps if step.startswith("Stand"))
    marks = [flat.mark for flat in square.flats if flat.wall == lapping]
    assert any(mark in first for mark in marks)
    screwing = next(step for step in steps if "drive" in step)
    for height in corner.screws.heights:
        assert drawing_length(height, style=square.brief.style) in screwing
    assert any("hold" in step for step in steps)


def test_walls_are_numbered_in_the_order_they_stand(square: Plan) -> None:
    words = [text.words for text in texts_of(corner_view(square, square.corners[0], scale=2).items)]
    assert sum(word.endswith("stands first") for word in words) == 1
    assert sum(word.endswith("stands second") for word in words) == 1


def test_corners_that_look_the_same_are_drawn_once() -> None:
    plan = make_plan(bay_wish())
    groups = alike(plan)
    assert sum(len(group) for group in groups) == len(plan.corners)
    assert len(groups) == 1
    first, *others = groups[0]
    view = corner_view(plan, first, scale=2, also=[corner.id for corner in others])
    assert view.title.endswith("typical")
    assert "the same" in steps_listing(plan, first, others).title


def test_corners_of_different_angles_are_drawn_apart() -> None:
    plan = make_plan(bay_wish(angles=(math.radians(110), math.radians(100))))
    assert len(alike(plan)) == 2


def test_notes_say_what_both_walls_are_made_of(square: Plan) -> None:
    notes = corner_notes(square, square.corners[0])
    assert len(notes) == 2
    assert all("ply 9 mm" in note and "38x63" in note and "72 together" in note for note in notes)


@pytest.mark.parametrize("degrees", [62, 75, 90, 100, 120, 135, 150, 175])
def test_words_stay_off_each_other_and_names_off_the_timber(degrees: float) -> None:
    plan = _two_walls(degrees)
    view = corner_view(plan, plan.corners[0], scale=2)
    assert not covered_words(view)
    names = [text for text in texts_of(view.items) if "stands" in text.words or "inside" in text.words]
    assert len(names) == 3
    strips = [
        [line.at(along=a, behind=b) for a, b in ((0, 0), (line.length, 0), (line.length, 72), (0, 72))]
        for line in plan.layout.walls
    ]
    assert not any(boxes_overlap(text.box, strip) for text in names for strip in strips)


@pytest.mark.parametrize("degrees", [75, 100, 110, 130, 150])
@pytest.mark.parametrize("style", ["auto", "mitre", "arris"])
def test_every_bevel_stands_in_steps_and_drawing_as_on_the_cut_list(degrees: float, style: str) -> None:
    plan = _styled(degrees, style)
    (corner,) = plan.corners
    bevelled = [
        (f"{flat.mark}-{piece.mark}", "left" if piece.bevel_left else "right", piece.bevel_left or piece.bevel_right)
        for flat in plan.flats
        for piece in flat.pieces
        if piece.bevel_left or piece.bevel_right
    ]
    steps = " ".join(row[1] for row in steps_listing(plan, corner).rows)
    drawn = " ".join(text.words for text in texts_of(corner_view(plan, corner, scale=2).items))
    notes = {line.mark: line.note for line in plan.panels}
    for mark, edge, by in bevelled:
        tilt = f"{math.degrees(math.atan2(abs(by), 9)):.1f}°"
        words = f"{edge} edge bevelled {tilt} from square, long point on the {'back' if by > 0 else 'face'}"
        assert words in notes[mark]
        assert mark in steps
        assert words in steps
        assert f"bevel {tilt}, long point on the {'back' if by > 0 else 'face'}" in drawn
    assert ("bevelled" in steps) == bool(bevelled)
    assert bool(bevelled) == (corner.style == "mitre" or (corner.style == "lap" and degrees > 90))


def _styled(degrees: float, style: str) -> Plan:
    walls = (WallWish(name="left", length=1500), WallWish(name="right", length=1300))
    brief = make_brief(Wish(walls=walls, angles=(math.radians(degrees),)))
    return derive(replace(brief, corners=tuple(replace(corner, style=style) for corner in brief.corners)))


@pytest.mark.parametrize(("degrees", "thick"), [(75, "back"), (110, "sheet"), (130, "sheet")])
def test_a_ripped_wedge_has_its_angle_its_width_and_how_it_is_fixed(degrees: float, thick: str) -> None:
    plan = _two_walls(degrees)
    (wedge,) = [member for member in plan.members if member.role == "wedge"]
    (line,) = wedge_lines(plan, plan.corners[0])
    assert f"-{wedge.mark} " in line
    assert f"ripped to {abs(degrees - 90)}°" in line
    assert f"{drawing_length(wedge.wide, style=plan.brief.style)} at its widest" in line
    assert f"thick edge at the {thick}" in line
    assert line.endswith("glued and screwed in")
    assert any(line in row[1] for row in steps_listing(plan, plan.corners[0]).rows)


def test_a_loose_wedge_is_fixed_as_the_cut_list_says() -> None:
    plan = _styled(150, "mitre")
    (line,) = wedge_lines(plan, plan.corners[0])
    (cut,) = [each for each in plan.timber if each.what == "wedge"]
    assert "ripped to 30°" in line
    assert "glued and screwed in when the corner is assembled" in line
    assert "glued and screwed in when the corner is assembled" in cut.note


@pytest.mark.parametrize(("degrees", "passes"), [(90, False), (110, True), (130, True)])
def test_screws_that_go_through_a_wedge_say_so(degrees: float, passes: bool) -> None:
    plan = _two_walls(degrees)
    (corner,) = plan.corners
    screwing = next(row[1] for row in steps_listing(plan, corner).rows if "drive" in row[1])
    assert (screw_passes(plan, corner) is not None) == passes
    assert ("and wedge" in screwing) == passes


@pytest.mark.parametrize("joints", ["screws", "bolts", "connectors"])
@pytest.mark.parametrize("degrees", [90, 110, 150])
def test_a_corner_is_joined_with_what_the_fixing_plan_buys_for_it(degrees: float, joints: str) -> None:
    brief = _two_walls(degrees).brief
    plan = derive(replace(brief, fixing=replace(brief.fixing, joints=joints)))
    (corner,), (held,) = plan.corners, plan.fixing.corners
    steps = [row[1] for row in steps_listing(plan, corner).rows]
    assert held.hardware is not None
    (joining,) = [step for step in steps if held.hardware in step]
    assert f"{len(held.heights)} × " in joining
    for height in held.heights:
        assert drawing_length(height, style=plan.brief.style) in joining
    assert joining.endswith("from the flats' foot.")
    others = {f.name for f in plan.brief.fixing.fasteners} - {held.hardware}
    drawn = {text.words for text in texts_of(corner_view(plan, corner, scale=2).items)}
    named = {name for name in others for words in (*steps, *drawn) if name in words and held.hardware not in words}
    assert not named
    assert (corner.screws is not None and joints != "connectors") == any(held.hardware in words for words in drawn)
