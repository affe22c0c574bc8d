"""The story stick."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.marking.made_up import BACK, LOW, job, line

from lathlight.marking import plan_marking


def test_every_height_of_the_set_stands_on_it_once() -> None:
    out = plan_marking(job())
    assert [mark.at for mark in out.stick.marks] == sorted({mark.height for mark in out.heights})


def test_level_mark_and_offset_add_up_to_the_place_on_the_stick() -> None:
    stick = plan_marking(job()).stick
    for mark in stick.marks:
        assert stick.level + mark.offset == mark.at


def test_equal_heights_share_one_mark_with_all_their_names() -> None:
    low = replace(LOW, lines=(*LOW.lines, line("shelf", 700.0, (0.0, 1200.0))))
    stick = plan_marking(job(low, BACK)).stick
    (mark,) = [mark for mark in stick.marks if mark.at == 700.0]
    assert set(mark.names) == {"shelf, top edge", "panels, top edge"}


def test_a_line_at_other_heights_on_other_walls_is_named_with_its_walls() -> None:
    low = replace(LOW, lines=(line("rail", 800.0, (0.0, 1200.0)),))
    stick = plan_marking(job(low, BACK)).stick
    names = {mark.at: mark.names for mark in stick.marks}
    assert names[800.0] == ("rail, top edge (low)",)
    assert names[900.0] == ("rail, top edge (back)",)
    assert names[120.0] == ("base, top edge",)


def test_it_runs_past_its_highest_mark_and_past_the_level_line() -> None:
    out = plan_marking(job())
    assert out.stick.length > max(mark.at for mark in out.stick.marks)
    short = plan_marking(job(replace(LOW, lines=LOW.lines[:1], frames=())))
    assert short.stick.length > short.level.height > short.stick.marks[-1].at
