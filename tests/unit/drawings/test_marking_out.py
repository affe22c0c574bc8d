"""The marking-out page: walls under one level line, tables, and pages on which nothing is cut off."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words, crowded, off_page
from tests.unit.drawings.made_up import BASE, RAIL, WallWish, Wish, bay_wish, corner_wish, make_plan, random_wish
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.drawings import page_svg
from lathlight.drawings.composing import Setting
from lathlight.drawings.labels import texts_of
from lathlight.drawings.marking_out import marking_notes, marking_pages, marking_view
from lathlight.drawings.marking_tables import marking_listings
from lathlight.drawings.sheets import Line, Page, Pen
from lathlight.marking import MarkingOut
from lathlight.mouldings import MouldingFrame, MouldingLayout
from lathlight.plan import Memo, Plan
from lathlight.plan.marking import derive_marking
from lathlight.project import TrimLine
from lathlight.units import LengthStyle, drawing_length, snap

GAP = 90.0


def frames_on(plan: Plan, *, bottom: float = 230.0, top: float = 850.0) -> MouldingLayout:
    """Return moulding frames on every wall, two to a wall, as wide as leaves a gap all round."""
    frames = [
        MouldingFrame(
            id=f"{wall.name}/panels/{k + 1}",
            wall=wall.name,
            tier="panels",
            left=GAP + k * (wide + GAP),
            bottom=bottom,
            width=wide,
            height=top - bottom,
        )
        for wall in plan.walls
        for wide in [snap((wall.length - 3 * GAP) / 2, plan.brief.style)]
        for k in range(2)
    ]
    return MouldingLayout(in_line=(), frames=tuple(frames), findings=())


def marked(plan: Plan) -> MarkingOut:
    """Return the marking out of a plan with two moulding frames on every wall."""
    out = derive_marking(plan.brief, plan.walls, plan.trim, frames_on(plan), Memo())
    assert out is not None
    return out


def pages_of(plan: Plan) -> tuple[Page, ...]:
    """Return its pages."""
    return marking_pages(plan, marked(plan), Setting(heading=plan.brief.title, style=plan.brief.style))


def words_of(plan: Plan, scale: float = 50.0) -> list[str]:
    """Return all words of its view."""
    return [text.words for text in texts_of(marking_view(plan, marked(plan), scale=scale).items)]


@pytest.fixture(scope="module")
def bay() -> Plan:
    """Give a splayed bay with a rail on two of its walls."""
    return make_plan(bay_wish())


@pytest.fixture(scope="module")
def stairs() -> Plan:
    """Give five walls of different heights."""
    heights = (2400, 2700, 3000, 2100, 2400)
    walls = tuple(
        WallWish(name=f"wall {k + 1}", length=900.0 + 400 * k, height=high, trim=(BASE, RAIL))
        for k, high in enumerate(heights)
    )
    return make_plan(Wish(walls=walls, angles=(1.9, 1.6, 2.1, 1.6), room=(9000, 8000)))


# --- what is derived -----------------------------------------------------------------------------------------------


def test_a_set_without_trim_and_frames_is_not_marked_out() -> None:
    plan = make_plan(corner_wish(walls=(WallWish(name="bare", length=2000),), angles=()))
    assert derive_marking(plan.brief, plan.walls, plan.trim, None, Memo()) is None


def test_lines_are_marked_where_the_trim_runs() -> None:
    plan = make_plan(corner_wish())
    out = derive_marking(plan.brief, plan.walls, plan.trim, None, Memo())
    assert out is not None
    assert plan.trim is not None
    for mark in out.heights:
        runs = [(r.start, r.end) for r in plan.trim.runs if (r.wall, r.line) == (mark.wall, mark.name)]
        assert mark.stretches == tuple(sorted(runs))
    assert {(mark.wall, mark.name) for mark in out.heights} == {
        (wall.name, line.name) for wall in plan.brief.walls for line in wall.trim
    }


def test_a_cornice_is_marked_at_the_foot_of_its_backing(plan_of) -> None:
    plan, trim = plan_of("parlour"), made_up_trim()
    crown = TrimLine(name="crown", kind="cornice", profile="cornice 92 at 38", top=2400, bottom=2327, loose=False)
    brief = replace(plan.brief, walls=tuple(replace(wall, trim=(crown,)) for wall in plan.brief.walls))
    out = derive_marking(brief, plan.walls, trim, None, Memo())
    assert out is not None
    assert trim.strips
    for wall in plan.walls:
        lowest = min(z for strip in trim.strips if strip.piece.startswith(f"{wall.name}/") for _, z in strip.section)
        (backing,) = [m for m in out.heights if m.wall == wall.name and m.edge == "backing's bottom edge"]
        assert backing.above_foot == snap(lowest, brief.style)


def test_lines_are_drawn_where_they_lie_and_the_finished_floor_over_the_flats_foot(bay: Plan) -> None:
    floor = replace(bay.brief.floor, covering="boards", thickness=8.0, stands_on="floor")
    out = derive_marking(replace(bay.brief, floor=floor), bay.walls, bay.trim, None, Memo())
    assert out is not None
    lines = [item for item in marking_view(bay, out, scale=50).items if isinstance(item, Line)]
    assert {line.a[1] for line in lines if line.pen is Pen.OUTLINE} == {float(RAIL.top)}
    assert {line.a[1] for line in lines if line.pen is Pen.PHANTOM} == {8.0}
    assert {mark.height for mark in out.heights} == {RAIL.top - 8.0}


def test_frames_alone_are_marked_out(bay: Plan) -> None:
    out = derive_marking(bay.brief, bay.walls, None, frames_on(bay), Memo())
    assert out is not None
    assert {mark.kind for mark in out.heights} == {"moulding frame"}


# --- the view ------------------------------------------------------------------------------------------------------


def test_the_level_line_is_struck_across_every_wall_at_its_height(bay: Plan) -> None:
    out = marked(bay)
    lines = [
        item for item in marking_view(bay, out, scale=50).items if isinstance(item, Line) and item.pen is Pen.LEVEL
    ]
    assert len(lines) == len(bay.walls)
    for line, wall in zip(lines, bay.walls, strict=True):
        assert line.a[1] == line.b[1] == out.level.above_foot
        assert line.b[0] - line.a[0] > wall.length


def test_every_mark_is_drawn_as_high_as_its_figure_says(bay: Plan) -> None:
    out = marked(bay)
    drawn = {
        (round(item.b[0] - item.a[0], 6), item.a[1])
        for item in marking_view(bay, out, scale=50).items
        if isinstance(item, Line) and item.pen is Pen.OUTLINE
    }
    wanted = {
        (round(b - a, 6), out.level.height + mark.offset + out.rise) for mark in out.heights for a, b in mark.stretches
    }
    assert drawn == wanted


def test_every_wall_carries_every_distance_from_the_level_line(bay: Plan) -> None:
    out = marked(bay)
    words = words_of(bay)
    for offset in {mark.offset for mark in out.heights}:
        figure = f"{'↑' if offset > 0 else '↓'} {drawing_length(abs(offset), style=bay.brief.style)}"
        walls = {mark.wall for mark in out.heights if mark.offset == offset}
        assert sum(each == figure or each.startswith(f"{figure} ") for each in words) == len(walls)


def test_the_level_line_is_named_with_its_height(bay: Plan) -> None:
    level = drawing_length(marked(bay).level.height, style=bay.brief.style)
    assert f"LEVEL LINE {level}" in words_of(bay)


def test_a_line_that_the_first_wall_lacks_is_named_beside_its_own_wall() -> None:
    high = replace(RAIL, name="plate shelf", top=1800, bottom=1750)
    walls = (
        WallWish(name="left", length=2200, trim=(BASE,)),
        WallWish(name="right", length=1200, trim=(BASE, high)),
    )
    words = words_of(make_plan(corner_wish(walls=walls)))
    assert [each for each in words if "plate shelf, top edge" in each]
    assert len([each for each in words if "base, top edge" in each]) == 1


# --- tables --------------------------------------------------------------------------------------------------------


def test_the_table_of_heights_names_every_line_of_every_wall_with_its_figures(stairs: Plan) -> None:
    out = marked(stairs)
    rows = marking_listings(stairs, out)[0].rows
    style = stairs.brief.style
    for mark in out.heights:
        direction = "up" if mark.offset > 0 else "down"
        assert any(
            name == f"{mark.name}, {mark.edge}"
            and (walls == "all walls" or mark.wall in walls.split(", "))
            and offset == f"{direction} {drawing_length(abs(mark.offset), style=style)}"
            and height == drawing_length(mark.height, style=style)
            and foot == drawing_length(mark.above_foot, style=style)
            for name, walls, offset, height, foot in rows
        )


def test_the_table_of_flats_names_every_flat_with_its_figure(stairs: Plan) -> None:
    out = marked(stairs)
    rows = marking_listings(stairs, out)[1].rows
    for mark in out.flats:
        figure = drawing_length(mark.height, style=stairs.brief.style)
        assert any(
            row[0] == f"{mark.name}, {mark.edge}" and mark.flat_mark in row[1].split(", ") and row[2] == figure
            for row in rows
        )


def test_a_line_that_a_door_breaks_is_listed_with_its_stretches_on_the_flat() -> None:
    plan = make_plan(corner_wish())
    out = marked(plan)
    broken = [mark for mark in out.flats if not mark.is_across and mark.kind == "rail"]
    assert broken
    cells = [row[3] for row in marking_listings(plan, out)[1].rows]
    for mark in broken:
        assert "; ".join(f"{a:g} to {b:g}" for a, b in mark.stretches) in cells


def test_the_uprights_of_every_frame_are_listed(bay: Plan) -> None:
    out = marked(bay)
    listing = marking_listings(bay, out)[2]
    assert len(listing.rows) == len({(mark.flat, mark.left, mark.right) for mark in out.frames})
    figures = {cell for row in listing.rows for cell in row[2:]}
    for mark in out.frames:
        for edge in (mark.left, mark.right):
            assert edge is None or f"{edge:g}" in figures


# --- pages ---------------------------------------------------------------------------------------------------------


def test_a_usual_set_is_marked_out_on_one_page_and_its_stick_on_the_next(plan_of) -> None:
    for name in ("parlour", "schoolhall", "corner-metric", "corner-imperial"):
        assert [page.name for page in pages_of(plan_of(name))][:2] == ["marking-out", "story-stick"]


def test_the_page_says_where_to_measure_from_and_what_was_not_checked(bay: Plan) -> None:
    notes = " ".join(marking_notes(bay, marked(bay)))
    assert "never from the floor" in notes
    assert "standing has not been checked" in notes


def test_the_page_says_when_the_finished_floor_lies_higher_than_the_flats_foot(bay: Plan) -> None:
    out = marked(bay)
    assert not any("floor covering" in note for note in marking_notes(bay, replace(out, rise=0.0)))
    assert any("8 mm" in note for note in marking_notes(bay, replace(out, rise=8.0)))


def test_the_page_says_what_rounding_leaves(bay: Plan) -> None:
    out = marked(bay)
    assert "nothing is left over" in marking_notes(bay, replace(out, most_left=0.0))[-1]
    assert "0.25 mm" in marking_notes(bay, replace(out, most_left=0.25))[-1]


def test_walls_too_many_for_one_row_go_on_several_and_each_stands_on_one() -> None:
    walls = tuple(WallWish(name=f"wall {k}", length=2400.0, trim=(BASE, RAIL)) for k in range(14))
    wish = Wish(walls=walls, angles=tuple(2.7 for _ in walls[1:]), room=(30000, 30000))
    plan = make_plan(wish)
    pages = [page for page in pages_of(plan) if page.name.startswith("marking-out")]
    assert len(pages) > 1
    heads = [t.words for page in pages for placed in page.views for t in texts_of(placed.view.items) if t.bold]
    for wall in plan.walls:
        assert len([words for words in heads if words in (f"{wall.mark}  {wall.name}", wall.mark)]) == 1


def faults(pages: tuple[Page, ...]) -> list[object]:
    """Return everything that is cut off or covered."""
    found: list[object] = []
    for page in pages:
        found += [(page.name, name) for name in off_page(page)]
        found += [(page.name, pair) for pair in crowded(page)]
        found += [(page.name, pair) for placed in page.views for pair in covered_words(placed.view)]
    return found


@pytest.mark.parametrize("seed", range(12))
def test_nothing_is_cut_off_or_covered(seed: int) -> None:
    assert not faults(pages_of(make_plan(random_wish(seed))))


def test_nothing_is_cut_off_or_covered_on_the_demo_sets(demo_plan: Plan) -> None:
    assert not faults(pages_of(demo_plan))


def test_equal_plans_give_equal_pages(bay: Plan) -> None:
    assert [page_svg(page) for page in pages_of(bay)] == [page_svg(page) for page in pages_of(bay)]


def test_imperial_figures_stand_in_feet_and_inches() -> None:
    plan = make_plan(corner_wish(style=LengthStyle.imperial(), paper="Letter"))
    assert "LEVEL LINE 3'-6\"" in words_of(plan)
    assert '↓ 5 3/8"' in words_of(plan)  # a rail at 930 mm, which is 36 5/8 in
