"""Every profile of the set is drawn once, at its true size, with what uses it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words, crowded, off_page
from tests.unit.drawings.moulded import moulded_plan

from lathlight.catalog import drop, projection, width
from lathlight.drawings.composing import Setting
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.profiles import profile_cell, profile_pages, profile_uses
from lathlight.drawings.sheets import Chain, Hatch, Line, Path, Pen
from lathlight.units import LengthStyle

SYSTEMS = ("metric", "imperial")
FINE = LengthStyle.metric()


def _pages(plan):
    return profile_pages(plan, Setting(heading=plan.brief.title, style=plan.brief.style))


def _sections(page) -> list[tuple]:
    return [i.points for i in page.views[0].view.items if isinstance(i, Path) and i.pen is Pen.CUT]


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_profile_used_is_there_once_at_its_own_points(system: str) -> None:
    plan = moulded_plan(system)
    pages = _pages(plan)
    assert all(page.views[0].view.scale == 1.0 for page in pages)
    drawn = [_from_corner(ring) for page in pages for ring in _sections(page)]
    used = {s.profile.name: s.profile for s in plan.strips if s.profile is not None}
    assert len(drawn) == len(used) == 5
    for profile in used.values():
        wanted = _from_corner(profile.points)
        assert any(
            len(ring) == len(wanted) and all(math.dist(a, b) < 1e-9 for a, b in zip(ring, wanted, strict=True))
            for ring in drawn
        )


def _from_corner(ring) -> list[tuple[float, float]]:
    x0, y0, _, _ = bounds_of(ring)
    return [(round(x - x0, 6), round(y - y0, 6)) for x, y in ring]


def test_sections_are_hatched_and_stand_against_the_wall() -> None:
    for use in profile_uses(moulded_plan()):
        cell = profile_cell(use, style=FINE)
        assert sum(isinstance(i, Hatch) for i in cell.items) == (3 if use.strip else 2)
        faces = [i for i in cell.items if isinstance(i, Line) and i.pen is Pen.CUT]
        assert [(line.a[0], line.b[0]) for line in faces] == [(0.0, 0.0)]


def test_figures_are_those_of_the_profile() -> None:
    for use in profile_uses(moulded_plan()):
        spans = [i.stops[-1] - i.stops[0] for i in profile_cell(use, style=FINE).items if isinstance(i, Chain)]
        wanted = [drop(use.profile), projection(use.profile)]
        if use.profile.spring is not None:
            wanted.append(width(use.profile))
        assert spans == pytest.approx(wanted, abs=0.51)


def test_a_cornice_stands_with_its_ripped_strip_that_it_leans_on() -> None:
    (use,) = [u for u in profile_uses(moulded_plan()) if u.profile.kind == "cornice"]
    words = " ".join(text.words for text in texts_of(profile_cell(use, style=FINE).items))
    assert "spring 38°" in words
    assert "ripped at 38°" in words
    out, up = max(use.strip)
    low = min(y for _, y in use.strip)
    assert math.atan2(out, up - low) == pytest.approx(math.radians(38), abs=1e-6)
    assert up == pytest.approx(drop(use.profile))


def test_words_name_what_uses_a_profile() -> None:
    words = [line for use in profile_uses(moulded_plan()) for line in use.uses]
    assert "base: walls L, B, R" in words
    assert "casing of hatch: wall B" in words
    assert "moulding frames, low: walls L, B, R" in words


@pytest.mark.parametrize(("system", "length", "figure"), [("metric", 100.0, "100 mm"), ("imperial", 101.6, '4"')])
def test_a_rule_on_every_page_shows_whether_it_was_printed_at_full_size(system, length, figure) -> None:
    for page in _pages(moulded_plan(system)):
        view = page.views[0].view
        rules = [i for i in view.items if isinstance(i, Line) and abs(i.b[0] - i.a[0] - length) < 1e-6]
        assert len(rules) == 1
        assert figure in [text.words for text in texts_of(view.items)]


@pytest.mark.parametrize("system", SYSTEMS)
def test_nothing_overlaps_or_leaves_the_page(system: str) -> None:
    for page in _pages(moulded_plan(system)):
        assert not covered_words(page.views[0].view)
        assert not crowded(page)
        assert not off_page(page)


def test_a_profile_larger_than_a_page_is_drawn_smaller_on_its_own() -> None:
    plan = moulded_plan()
    board = next(s for s in plan.strips if s.kind == "base")
    tall = replace(board.profile, name="tall", points=((0.0, 0.0), (18.0, 0.0), (18.0, 300.0), (0.0, 300.0)))
    strips = (*plan.strips, replace(board, profile=tall))
    pages = _pages(replace(plan, strips=strips))
    assert [page.views[0].view.scale for page in pages][-1] == 2.0
    assert not any(off_page(page) for page in pages)


def test_a_set_without_mouldings_has_no_sections() -> None:
    assert _pages(replace(moulded_plan(), strips=())) == ()


def test_sections_can_be_written_as_dxf() -> None:
    assert view_dxf(_pages(moulded_plan())[0].views[0].view, style=FINE, title="x")
