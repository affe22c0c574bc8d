"""Corners of the trim: what meets how, in which order, and how the piece lies on the saw."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words, crowded, off_page
from tests.unit.drawings.moulded import moulded_plan
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.catalog import projection
from lathlight.drawings.composing import Setting
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.labels import texts_of
from lathlight.drawings.saw_table import REACH, saw_cell, saw_cells
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.trim_corner import (
    corner_notes,
    meeting_cell,
    meeting_words,
    meetings_of,
    trim_corner_pages,
)
from lathlight.mouldings import saw_setting
from lathlight.units import LengthStyle

STYLE = LengthStyle.metric()


def _coped():
    """Return meetings with a cope and outside corners."""
    trim = made_up_trim()
    plan = moulded_plan()
    lengths = (1220.0, 7000.0, 1220.0)
    names = ("left return", "back", "right return")
    walls = tuple(replace(w, name=n, length=x) for w, n, x in zip(plan.walls, names, lengths, strict=True))
    return replace(plan, trim=trim, walls=walls)


def _pages(plan):
    return trim_corner_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style))


def test_lines_that_meet_alike_are_drawn_once() -> None:
    places = [each.places for each in meetings_of(moulded_plan())]
    assert places == [("L | B: base, rail",), ("L | B: cornice",), ("B | R: base, rail",), ("B | R: cornice",)]


def test_equal_corners_are_drawn_once(plan_of) -> None:
    places = [each.places for each in meetings_of(plan_of("parlour"))]
    assert places == [("LR | B: base, picture rail", "B | RR: base, picture rail")]


def test_mitred_mouldings_meet_on_the_plane_that_halves_the_corner() -> None:
    for met in meetings_of(moulded_plan()):
        cell = meeting_cell(met, style=STYLE, scale=2.0)
        rings = [i.points for i in cell.items if isinstance(i, Path) and i.fill is Tone.WHITE]
        assert len(rings) == 2
        ends = {(round(x, 6), round(y, 6)) for ring in rings for x, y in ring[1:3]}
        assert len(ends) == 2
        deep = projection(met.halves[0].piece.profile)
        tip = (0.0, round(-deep / math.sin(met.meeting.corner / 2), 6))
        assert ends == {(0.0, 0.0), tip}


def test_a_cope_ends_at_the_front_of_what_runs_on_and_shows_what_it_loses() -> None:
    (met,) = [m for m in meetings_of(_coped()) if m.meeting.how == "cope"]
    cell = meeting_cell(met, style=STYLE, scale=2.0)
    rings = [i.points for i in cell.items if isinstance(i, Path) and i.fill is Tone.WHITE and len(i.points) == 4]
    second = rings[-1]
    deep = projection(met.halves[0].piece.profile)
    other = rings[0]
    (ax, ay), (bx, by) = other[2], other[3]  # the front of the first
    long = math.dist((ax, ay), (bx, by))
    for x, y in second[1:3]:
        assert abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / long < 1e-6
    dashed = [i for i in cell.items if isinstance(i, Line) and i.pen is Pen.HIDDEN]
    assert max(math.dist(line.a, line.b) for line in dashed) == pytest.approx(deep)
    words = [text.words for text in texts_of(cell.items)]
    assert {"1", "2"} <= set(words)


def test_the_order_is_that_of_the_plan() -> None:
    (met,) = [m for m in meetings_of(_coped()) if m.meeting.how == "cope"]
    first = "left" if met.meeting.first == met.meeting.left else "right"
    assert meeting_words(met, STYLE)[0].startswith(f"Coped: the {first} wall's piece runs on")


def test_a_cornice_states_mitre_and_bevel() -> None:
    # printed tables for 38 degrees spring: 31.62 and 33.86 at 90 degrees
    words = [w for m in meetings_of(moulded_plan()) for w in meeting_words(m, STYLE)]
    assert any("mitre 31.62°, bevel 33.86°" in w for w in words)


def test_a_wall_whose_line_stops_at_an_opening_is_said() -> None:
    (met, *_) = meetings_of(moulded_plan())
    assert meeting_words(replace(met, halves=met.halves[:1]), STYLE)[0].startswith("The other line stops")


@pytest.mark.parametrize("slant", [math.radians(35), math.radians(-45)])
@pytest.mark.parametrize("end", ["left", "right"])
def test_the_piece_is_drawn_on_its_side_of_the_blade_and_longer_where_it_is_longer(end, slant) -> None:
    saw = saw_setting(slant=slant, end=end, spring=None)
    cell = saw_cell(saw, ["an end"])
    (piece,) = [i.points for i in cell.items if isinstance(i, Path) and i.fill is Tone.PALE]
    side = 1 if saw.kept == "right" else -1
    assert all(side * x > 0 for x, _ in piece[2:])
    at_fence, near = abs(piece[3][0] - piece[0][0]), abs(piece[2][0] - piece[1][0])
    assert (at_fence > near) == (slant > 0)  # the back lies to the fence
    (handle,) = [i.b for i in cell.items if isinstance(i, Line) and i.pen is Pen.CUT]
    assert math.atan2(abs(handle[0]), REACH) == pytest.approx(saw.mitre)
    assert (handle[0] > 0) == (saw.swing == "right")


def test_every_end_that_is_not_square_has_its_picture() -> None:
    plan = moulded_plan()
    marks = {wall.name: wall.mark for wall in plan.walls}
    words = " ".join(text.words for cell in saw_cells(plan.trim, marks) for text in texts_of(cell.items))
    assert "right end of base of L" in words
    assert "left end of cornice of B" in words
    assert "tilt 26.87° to the left" in words
    assert "back to the fence" in words


@pytest.mark.parametrize("make", [moulded_plan, lambda: moulded_plan("imperial"), _coped], ids=["mm", "in", "coped"])
def test_nothing_overlaps_or_leaves_the_page(make) -> None:
    pages = _pages(make())
    assert {page.name.rstrip("-123") for page in pages} == {"trim-corners", "trim-at-the-saw"}
    for page in pages:
        assert not covered_words(page.views[0].view)
        assert not crowded(page)
        assert not off_page(page)


def test_a_set_without_trim_has_no_such_pages() -> None:
    assert _pages(replace(moulded_plan(), trim=None)) == ()


def test_corners_can_be_written_as_dxf() -> None:
    for page in _pages(moulded_plan()):
        assert view_dxf(page.views[0].view, style=STYLE, title="x")


def test_notes_explain_numbers_and_dashes_only_where_they_are_drawn() -> None:
    mitred = " ".join(corner_notes(meetings_of(moulded_plan())))
    coped = " ".join(corner_notes(meetings_of(moulded_plan(inside="cope"))))
    assert "1 is fixed" not in mitred
    assert "ope" not in mitred
    assert "1 is fixed before 2" in coped
    assert "ashed: what a cope cuts away" in coped
