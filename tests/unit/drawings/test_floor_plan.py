"""The plan of the floor covering gives the covering's own outline, rows and gap."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from tests.unit.drawings.looks import chain_stops, covered_words, crowded, false_chains, off_page
from tests.unit.drawings.moulded import moulded_plan

from lathlight.drawings.composing import Setting
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.floor_plan import floor_notes, floor_pages, floor_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.flooring import FloorRow, FloorSeen
from lathlight.units import drawing_length

SYSTEMS = ("metric", "imperial")
SCALE = 25.0
STRIP = 190.0


def _laid(system: str, runs: str = "away"):
    """Return a plan whose covering has rows and is seen in one picture; the figures are invented."""
    plan = moulded_plan(system)
    x0, y0, x1, y1 = bounds_of(plan.floor.outline)
    low, high, start, end = (x0, x1, y0, y1) if runs == "away" else (y0, y1, x0, x1)
    count = int((high - low) / STRIP) + 1
    sides = [min(low + k * STRIP, high) for k in range(count + 1)]
    bands = list(pairwise(sides))
    bands = bands if runs == "away" else bands[::-1]
    rows = tuple(
        FloorRow(number=k, low=a, high=b, start=start, end=end, joints=()) for k, (a, b) in enumerate(bands, start=1)
    )
    seams = tuple(((s, start), (s, end)) if runs == "away" else ((start, s), (end, s)) for s in sides[1:-1])
    seen = (FloorSeen(picture="at the bench", left=x0 + 150, right=x1 - 150, front=y0 + 200),)
    floor = replace(plan.floor, rows=rows, seams=seams, seen=seen, runs=runs, goods="strips")
    return replace(plan, floor=floor)


@pytest.mark.parametrize("runs", ["away", "along"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_extents_and_the_first_and_last_row_are_measured(system: str, runs: str) -> None:
    plan = _laid(system, runs)
    style = plan.brief.style
    floor = plan.floor
    view = floor_view(plan, floor, scale=SCALE)
    x0, y0, x1, y1 = bounds_of(floor.outline)
    words = [text.words for text in texts_of(view.items)]
    assert drawing_length(x1 - x0, style=style) in words
    assert drawing_length(y1 - y0, style=style) in words
    assert len(chain_stops(view)) == 3
    rows = next(stops for stops in chain_stops(view) if len(stops) == 4)
    widths = {round(rows[1] - rows[0]), round(rows[3] - rows[2])}
    assert widths == {round(floor.rows[0].width), round(floor.rows[-1].width)}
    assert false_chains(view, style) == []
    assert covered_words(view) == []


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_outline_the_seams_and_what_is_seen_are_drawn(system: str) -> None:
    plan = _laid(system)
    view = floor_view(plan, plan.floor, scale=SCALE)
    paths = [i for i in view.items if isinstance(i, Path)]
    assert any(i.points == plan.floor.outline and i.pen is Pen.OUTLINE for i in paths)
    lines = {(i.a, i.b) for i in view.items if isinstance(i, Line)}
    assert set(plan.floor.seams) <= lines
    (seen,) = [i for i in paths if i.pen is Pen.PHANTOM]
    assert bounds_of(seen.points)[:3] == pytest.approx(
        (plan.floor.seen[0].left, plan.floor.seen[0].front, plan.floor.seen[0].right)
    )
    words = [text.words for text in texts_of(view.items)]
    assert "seen in at the bench" in words
    assert "clockmaker" in words
    assert {wall.mark for wall in plan.walls} <= set(words)


def test_the_gap_is_named_where_there_is_one() -> None:
    plan = _laid("metric")
    assert plan.floor.gap > 0
    assert "gap 8 mm" in [t.words for t in texts_of(floor_view(plan, plan.floor, scale=SCALE).items)]
    none = replace(plan.floor, gap=0.0)
    assert not [t for t in texts_of(floor_view(plan, none, scale=SCALE).items) if t.words.startswith("gap")]


def test_notes_say_whether_the_flats_stand_on_the_covering() -> None:
    plan = _laid("metric")
    assert "stops at the flats, with 8 mm left free" in " ".join(floor_notes(plan, plan.floor))
    floor = replace(plan.brief.floor, stands_on="covering")
    on_it = replace(plan, brief=replace(plan.brief, floor=floor))
    assert "The flats stand on the covering" in " ".join(floor_notes(on_it, plan.floor))


def test_notes_tell_the_rows_with_the_narrow_one() -> None:
    plan = _laid("metric")
    last = plan.floor.rows[-1]
    notes = " ".join(floor_notes(plan, plan.floor))
    assert f"{len(plan.floor.rows)} × strip, 190 wide" in notes
    assert f"no {last.number} is {drawing_length(last.width, style=plan.brief.style)}" in notes


def test_without_a_covering_there_is_no_page() -> None:
    plan = replace(moulded_plan(), floor=None)
    assert floor_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style)) == ()


@pytest.mark.parametrize("runs", ["away", "along"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_page_is_whole_and_goes_through_the_dxf_writer(system: str, runs: str) -> None:
    plan = _laid(system, runs)
    (page,) = floor_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style))
    assert off_page(page) == []
    assert crowded(page) == []
    assert len(view_dxf(page.views[0].view, style=plan.brief.style, title="attic")) > 1000
