"""Where the level line lies."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.marking.made_up import BACK, LOW, RISE, frame, job, line

from lathlight.marking import choose_level_line
from lathlight.marking.level_line import CLEAR, HIGHEST, LOWEST
from lathlight.units import LengthStyle

BARE = replace(LOW, height=2400.0, lines=(), frames=())


def at(*lines, frames=(), grid=None, **changes) -> float:
    return choose_level_line(job(replace(BARE, lines=lines, frames=frames, **changes), grid=grid)).height


def test_it_lies_at_a_handy_height_where_nothing_is_in_its_way() -> None:
    assert at() == 1000.0
    assert at(grid=LengthStyle.imperial()) == 42 * 25.4


def test_it_counts_from_the_finished_floor() -> None:
    level = choose_level_line(job(BARE))
    assert level.above_foot - level.height == RISE


def test_it_moves_off_a_rail_by_whole_steps() -> None:
    assert at(line("rail", 1000.0, (0.0, 1200.0))) == 1050.0
    assert at(line("rail", 1030.0, (0.0, 1200.0))) == 950.0  # 1050 is only 20 from its top edge


def test_it_stays_where_an_edge_is_just_far_enough() -> None:
    assert at(line("rail", 1000.0 - CLEAR, (0.0, 1200.0))) == 1000.0
    assert at(line("rail", 1000.0 - CLEAR + 1, (0.0, 1200.0))) == 1050.0


def test_it_moves_off_the_edge_of_a_frame() -> None:
    edge = replace(frame("low", 1, 100.0, 600.0), top=1010.0 + RISE)
    assert at(frames=(edge,)) == 1050.0


def test_it_passes_through_a_frame() -> None:
    assert at(frames=(replace(frame("low", 1, 100.0, 600.0), top=1500.0 + RISE),)) == 1000.0


def test_it_keeps_off_the_sill_of_an_opening_and_off_a_level_joint() -> None:
    assert at(sills=(990.0 + RISE,)) == 1050.0
    upper = replace(BARE.flats[0], foot=1000.0)
    assert at(flats=(BARE.flats[0], upper)) != 1000.0


def test_it_moves_by_two_inches_in_an_imperial_project() -> None:
    rail = line("rail", 42 * 25.4, (0.0, 1200.0))
    assert at(rail, grid=LengthStyle.imperial()) == pytest.approx(44 * 25.4)


def test_it_lies_on_the_lowest_wall() -> None:
    level = choose_level_line(job(BACK, replace(BARE, name="sill wall", height=800.0)))
    assert level.height <= 800.0 - RISE - CLEAR
    assert choose_level_line(job(replace(BARE, height=60.0))).height < 60.0


def test_where_nothing_is_clear_it_takes_the_clearest_height_and_says_so() -> None:
    panelled = tuple(line(f"rail {z}", float(z), (0.0, 1200.0)) for z in range(500, 1700, 50))
    level = choose_level_line(job(replace(BARE, lines=panelled)))
    assert LOWEST <= level.height <= HIGHEST
    assert "clearest" in level.why.formula


def test_its_working_says_what_it_had_to_leave() -> None:
    level = choose_level_line(job(replace(BARE, lines=(line("dado", 1000.0, (0.0, 1200.0)),))))
    assert ("it would lie at", "dado", "") in level.why.inputs
    assert choose_level_line(job(BARE)).why.formula.startswith("a handy height")
