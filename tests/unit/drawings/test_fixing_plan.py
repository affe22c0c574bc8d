"""The fixing plan draws what the fixing planned: every head, brad and bead once, with the plan's own figures."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words, crowded, false_chains, off_page
from tests.unit.drawings.made_up import corner_wish, make_plan
from tests.unit.drawings.moulded import moulded_plan

from lathlight.drawings.bumper_plan import bumper_listing, bumper_view, places
from lathlight.drawings.composing import Setting
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.fixing_heads import held_of, sheet_lines
from lathlight.drawings.fixing_joints import corner_figures, joined_of
from lathlight.drawings.fixing_marks import CROSS
from lathlight.drawings.fixing_plan import fixing_listings, fixing_notes, fixing_pages, fixing_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.units import drawing_length

SYSTEMS = ("metric", "imperial")
SCALE = 20.0


def _face(view):
    """Return what a view shows of the face itself, its legend left out."""
    return [
        item
        for item in view.items
        if not isinstance(item, Line | Path)
        or (item.b[1] if isinstance(item, Line) else item.points[0][1]) > -3 * view.scale
    ]


def _middle(points) -> tuple[float, float]:
    x0, z0, x1, z1 = bounds_of(points)
    return round((x0 + x1) / 2, 2), round((z0 + z1) / 2, 2)


def _crosses(items) -> Counter[tuple[float, float]]:
    """Return the middles of the crosses of covered heads; each has two strokes."""
    strokes = [
        _middle((item.a, item.b))
        for item in items
        if isinstance(item, Line)
        and item.pen is Pen.FASTENER
        and abs(abs(item.b[0] - item.a[0]) - 2 * CROSS * SCALE) < 0.01
        and abs(abs(item.b[1] - item.a[1]) - 2 * CROSS * SCALE) < 0.01
    ]
    assert all(number % 2 == 0 for number in Counter(strokes).values())
    return Counter({at: number // 2 for at, number in Counter(strokes).items()})


def _rings(items) -> Counter[tuple[float, float]]:
    found = [i for i in items if isinstance(i, Path) and i.pen is Pen.FASTENER and i.fill is None]
    return Counter(_middle(i.points) for i in found)


def _at(heads) -> Counter[tuple[float, float]]:
    return Counter((round(h.at[0], 2), round(h.at[1], 2)) for h in heads)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("wall", ["left", "back", "right"])
def test_every_head_that_is_planned_is_drawn_once_and_no_other(system: str, wall: str) -> None:
    plan = moulded_plan(system)
    view = fixing_view(plan, wall, scale=SCALE)
    held = held_of(plan, next(w for w in plan.walls if w.name == wall))
    items = _face(view)
    assert held.heads
    assert _crosses(items) == _at(h for h in held.heads if h.hidden_by is not None)
    assert _rings(items) == _at(h for h in (*held.heads, *held.screws) if h.hidden_by is None or h in held.screws)


def test_heads_that_nothing_hides_are_open_circles() -> None:
    plan = make_plan(corner_wish())
    plain = replace(plan, fixing=replace(plan.fixing, sheets=tuple(_uncovered(s) for s in plan.fixing.sheets)))
    wall = plan.walls[0].name
    view = fixing_view(plain, wall, scale=SCALE)
    heads = [h for s in plain.fixing.sheets if s.wall == wall for h in s.heads]
    assert heads
    assert _crosses(_face(view)) == Counter()
    assert _rings(_face(view)) == _at(heads)


def _uncovered(sheet):
    return replace(sheet, heads=tuple(replace(head, hidden_by=None) for head in sheet.heads))


@pytest.mark.parametrize("system", SYSTEMS)
def test_beads_are_drawn_as_long_as_they_are_planned(system: str) -> None:
    plan = moulded_plan(system)
    for wall in plan.walls:
        view = fixing_view(plan, wall.name, scale=SCALE)
        lines = [i for i in _face(view) if isinstance(i, Line) and i.pen is Pen.GLUE]
        drawn = sum(abs(i.b[0] - i.a[0]) + abs(i.b[1] - i.a[1]) for i in lines)
        assert drawn == pytest.approx(sum(s.bead_length for s in plan.fixing.sheets if s.wall == wall.name))


def test_brads_are_ticks_across_their_mouldings() -> None:
    plan = moulded_plan()
    view = fixing_view(plan, "back", scale=SCALE)
    strips = {s.id: s for s in plan.strips}
    drawn = {
        (_middle((i.a, i.b)), abs(i.a[0] - i.b[0]) > 1)
        for i in _face(view)
        if isinstance(i, Line) and i.pen is Pen.FASTENER and (abs(i.a[0] - i.b[0]) < 1) != (abs(i.a[1] - i.b[1]) < 1)
    }
    planned = {
        ((round(b.at[0], 2), round(b.at[1], 2)), strips[each.strip].upright)
        for each in plan.fixing.strips
        if each.wall == "back"
        for b in each.shot
    }
    assert planned
    assert drawn == planned


@pytest.mark.parametrize("system", SYSTEMS)
def test_each_sheet_s_figures_stand_on_it_and_in_the_table(system: str) -> None:
    plan = moulded_plan(system)
    style = plan.brief.style
    for wall in plan.walls:
        held = held_of(plan, wall)
        words = [text.words for text in texts_of(fixing_view(plan, wall.name, scale=SCALE).items)]
        table = fixing_listings(plan, wall)[0]
        assert len(table.rows) == len(held.sheets)
        for sheet, row in zip(held.sheets, table.rows, strict=True):
            mark, *lines = sheet_lines(sheet, held.marks[sheet.piece], style)
            assert row[0] == mark
            assert mark in words
            covered = len(sheet.heads) - len(sheet.seen)
            assert not covered or f"{covered} screw{'s' if covered > 1 else ''}" in row
            assert sheet.clamping is None or f"{sheet.clamping.number} weights" in lines


def test_heights_of_joints_and_corners_stand_on_the_drawing_and_in_the_table() -> None:
    plan = moulded_plan()
    style = plan.brief.style
    wall = next(w for w in plan.walls if w.name == "back")
    words = [text.words for text in texts_of(fixing_view(plan, "back", scale=SCALE).items)]
    table = fixing_listings(plan, wall)[1]
    assert len(table.rows) == len(wall.joints) + 2
    for corner in plan.fixing.corners:
        assert {drawing_length(z, style=style) for z in corner.heights} <= set(words)
        assert {f"bracket {drawing_length(z, style=style)}" for z in corner.temporary} <= set(words)
    joint = plan.fixing.joints[0]
    row = next(row for row in table.rows if row[0] == "B1–B2")
    assert row[1] == f"{len(joint.places)} × {joint.hardware}"
    assert row[2] == ", ".join(drawing_length(z, style=style) for z in joint.places)


def test_a_free_end_of_the_set_has_no_corner() -> None:
    plan = moulded_plan()
    words = [text.words for text in texts_of(fixing_view(plan, "left", scale=SCALE).items)]
    assert [w for w in words if w.startswith("corner ")] == ["corner L | B"]


def test_the_day_that_needs_most_weights_is_told() -> None:
    plan = moulded_plan()
    notes = " ".join(fixing_notes(plan, held_of(plan, plan.walls[0])))
    assert f"{plan.fixing.busiest.number} × {plan.brief.fixing.weight.name}" in notes
    assert "Heights are from the flats' foot" in notes


@pytest.mark.parametrize("scale", [16.0, 25.0, 50.0])
@pytest.mark.parametrize("system", SYSTEMS)
def test_words_cover_neither_each_other_nor_a_head(system: str, scale: float) -> None:
    plan = moulded_plan(system, blocks=True)
    for wall in plan.walls:
        view = fixing_view(plan, wall.name, scale=scale)
        assert covered_words(view) == []
        assert false_chains(view, plan.brief.style) == []
        held = held_of(plan, wall)
        hidden = [
            (text.words, head.at)
            for text in texts_of(view.items)
            for head in held.heads
            if text.backed and _inside(head.at, bounds_of(text.box))
        ]
        assert hidden == []


def _inside(at, box) -> bool:
    return box[0] < at[0] < box[2] and box[1] < at[1] < box[3]


@pytest.mark.parametrize("system", SYSTEMS)
def test_pages_are_whole_and_go_through_the_dxf_writer(system: str) -> None:
    plan = moulded_plan(system)
    setting = Setting(heading=plan.brief.title, style=plan.brief.style)
    pages = fixing_pages(plan, setting)
    assert {f"fixing-{wall.mark}" for wall in plan.walls} <= {page.name for page in pages}
    for page in pages:
        assert off_page(page) == []
        assert crowded(page) == []
        for placed in page.views:
            text = view_dxf(placed.view, style=plan.brief.style, title="attic").decode()
            drawn = set(text.partition("ENTITIES")[2].split())  # after the table of layers
            assert {"FASTENERS", "GLUE", "BEHIND"} <= drawn or page.name == "bumpers"


def test_a_set_clear_of_the_room_has_no_page_of_bumpers() -> None:
    plan = moulded_plan()
    clear = replace(plan, fixing=replace(plan.fixing, bumpers=()))
    setting = Setting(heading=plan.brief.title, style=plan.brief.style)
    assert "bumpers" not in [page.name for page in fixing_pages(clear, setting)]


def test_bumpers_are_marked_numbered_and_listed() -> None:
    plan = make_plan(corner_wish(room=(2600.0, 2600.0)))
    assert plan.fixing.bumpers, "a set this near to the room needs pads"
    view = bumper_view(plan, scale=25.0)
    shown = places(plan)
    assert sum(len(pads) for pads in shown) == len(plan.fixing.bumpers)
    pads = [i for i in view.items if isinstance(i, Path) and i.pen is Pen.FASTENER and i.fill is Tone.BLACK]
    assert len(pads) == len(shown)
    assert {str(k) for k in range(1, len(shown) + 1)} <= {text.words for text in texts_of(view.items)}
    assert covered_words(view) == []
    table = bumper_listing(plan)
    assert sum(int(row[2]) for row in table.rows) == len(plan.fixing.bumpers)
    setting = Setting(heading=plan.brief.title, style=plan.brief.style)
    page = next(page for page in fixing_pages(plan, setting) if page.name == "bumpers")
    assert off_page(page) == []
    assert crowded(page) == []


@pytest.mark.parametrize("scale", [10.0, 20.0])
def test_heights_at_a_corner_stand_clear_of_the_frame_that_runs_past_it(scale: float) -> None:
    plan = make_plan(corner_wish())
    past = 0
    for wall in plan.walls:
        low, high = min(flat.x0 for flat in wall.flats), max(flat.x1 for flat in wall.flats)
        joined = joined_of(plan, wall)
        past += sum((edge < low) if out < 0 else (edge < high) for _, edge, out in joined.ends)
        figures = [t for t in corner_figures(joined, plan.brief.style, scale) if not isinstance(t, Line)]
        for text in figures:
            if text.words.startswith("corner"):
                continue
            xs = [x for x, _ in text.box]
            assert min(xs) > high or max(xs) < low
    assert past
