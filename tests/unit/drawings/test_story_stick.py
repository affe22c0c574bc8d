"""The story stick at scale."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.drawings.looks import covered_words
from tests.unit.drawings.made_up import BASE, RAIL, WallWish, corner_wish, make_plan

from lathlight.drawings.labels import texts_of
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.story_stick import BROAD, HOLD, stick_view
from lathlight.marking import MarkingOut
from lathlight.plan import Memo, Plan
from lathlight.plan.marking import derive_marking
from lathlight.units import drawing_length

NEAR = replace(RAIL, name="bead", top=960, bottom=950)
SAME = replace(RAIL, name="ledge", top=930, bottom=900)


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Give a corner whose lines lie near to each other, two of them at one height."""
    walls = (
        WallWish(name="left", length=2200, trim=(BASE, RAIL)),
        WallWish(name="right", length=1200, trim=(BASE, SAME, NEAR)),
    )
    return make_plan(corner_wish(walls=walls))


@pytest.fixture(scope="module")
def marking(plan: Plan) -> MarkingOut:
    """Give its marking out."""
    out = derive_marking(plan.brief, plan.walls, plan.trim, None, Memo())
    assert out is not None
    return out


def test_every_mark_is_drawn_where_its_figure_says(plan: Plan, marking: MarkingOut) -> None:
    view = stick_view(plan, marking, scale=20)
    ticks = {i.a[1] for i in view.items if isinstance(i, Line) and i.pen is Pen.OUTLINE and i.a[0] == 0}
    assert ticks == {mark.at for mark in marking.stick.marks}
    assert ticks == {marking.stick.level + mark.offset for mark in marking.stick.marks}


def test_the_stick_is_as_long_as_it_says(plan: Plan, marking: MarkingOut) -> None:
    outline = next(item for item in stick_view(plan, marking, scale=20).items if isinstance(item, Path))
    assert max(z for _, z in outline.points) - min(z for _, z in outline.points) == marking.stick.length


def test_the_level_mark_is_the_thickest_and_says_what_it_is_for(plan: Plan, marking: MarkingOut) -> None:
    view = stick_view(plan, marking, scale=20)
    thick = [item for item in view.items if isinstance(item, Line) and item.pen is Pen.CUT]
    assert [(line.a, line.b) for line in thick] == [((0.0, marking.level.height), (BROAD * 20, marking.level.height))]
    assert HOLD in [text.words for text in texts_of(view.items)]


def test_every_mark_carries_its_names_and_both_figures(plan: Plan, marking: MarkingOut) -> None:
    words = [text.words for text in texts_of(stick_view(plan, marking, scale=20).items)]
    style = plan.brief.style
    for mark in marking.stick.marks:
        assert set(mark.names) <= set(words)
        assert drawing_length(mark.at, style=style) in words
        assert f"{'↑' if mark.offset > 0 else '↓'} {drawing_length(abs(mark.offset), style=style)}" in words


def test_names_of_one_mark_stand_under_each_other_with_one_figure(plan: Plan, marking: MarkingOut) -> None:
    texts = {text.words: text for text in texts_of(stick_view(plan, marking, scale=20).items)}
    rail, ledge = texts["rail, top edge"], texts["ledge, top edge"]
    assert rail.at[0] == ledge.at[0]
    figure = next(
        words for words in texts if words.endswith(drawing_length(marking.level.height - 930, style=plan.brief.style))
    )
    assert texts[figure].at[1] == max(rail.at[1], ledge.at[1])


@pytest.mark.parametrize("scale", [10.0, 20.0, 50.0, 100.0])
def test_figures_never_cover_each_other(plan: Plan, marking: MarkingOut, scale: float) -> None:
    assert not covered_words(stick_view(plan, marking, scale=scale))
