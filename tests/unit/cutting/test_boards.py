"""The board cutter: hand cases, a slow second opinion, and what must hold of every plan."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.cutting.board_cases import cheapest, job, small_jobs

from lathlight.cutting import BoardJob, Piece, Stock, WorkLimit, check_boards, recheck, solve_boards
from lathlight.errors import InputError, NoAnswerError

EIGHTH = 8  # eighths of an inch in one inch


def inches(*pieces: tuple[float, int], kerf: int = 1) -> BoardJob:
    """Return pieces from 96 in boards in eighths of an inch."""
    return job([(round(length * EIGHTH), count) for length, count in pieces], [(96 * EIGHTH, 300)], kerf=kerf)


def test_four_24_in_pieces_do_not_come_out_of_a_96_in_board() -> None:
    assert solve_boards(inches((24, 4))).cost == 600  # common practice, no source


def test_four_24_in_pieces_would_come_out_of_it_if_the_saw_took_nothing() -> None:
    plan = solve_boards(inches((24, 4), kerf=0))
    assert (plan.cost, plan.cuts) == (300, 3)


def test_two_46_and_a_half_in_pieces_come_out_of_a_96_in_board() -> None:
    plan = solve_boards(inches((46.5, 2)))  # common practice, no source
    (layout,) = plan.layouts
    assert (plan.cost, layout.cuts, layout.left) == (300, 2, round((96 - 93 - 0.25) * EIGHTH))


def test_seven_12_in_pieces_and_no_eighth_come_out_of_a_96_in_board() -> None:
    assert [solve_boards(inches((12, count))).cost for count in (7, 8)] == [300, 600]  # common practice, no source


def test_a_whole_board_needs_no_cut() -> None:
    plan = solve_boards(inches((96, 2)))
    assert (plan.cost, plan.cuts, plan.layouts[0].times) == (600, 0, 2)


def test_the_last_kerf_may_fall_off_the_end_of_the_board() -> None:
    (layout,) = solve_boards(job([(50, 1), (46, 1)], [(100, 1)], kerf=3)).layouts
    assert (layout.cuts, layout.left) == (2, 0)


def test_the_trim_cut_comes_off_bought_boards_only() -> None:
    bought = solve_boards(job([(98, 1)], [(100, 5), (98, 0, 1)], trim_cut=3))
    assert [(layout.stock, layout.cuts) for layout in bought.layouts] == [(1, 0)]
    trimmed = solve_boards(job([(40, 1)], [(100, 5)], trim_cut=3))
    assert (trimmed.cuts, trimmed.layouts[0].left) == (2, 57)


def test_the_shelf_is_used_before_anything_is_bought() -> None:
    plan = solve_boards(job([(40, 2)], [(100, 5), (45, 0, 2)], kerf=1))
    assert (plan.cost, plan.proven) == (0, True)


def test_a_dear_short_board_loses_to_a_cheap_long_one() -> None:
    plan = solve_boards(job([(40, 1)], [(50, 9), (200, 7)]))
    assert [(layout.stock, plan.cost) for layout in plan.layouts] == [(1, 7)]


def test_of_equal_cost_the_plan_that_fills_boards_to_the_end_has_the_fewest_cuts() -> None:
    plan = solve_boards(job([(60, 2), (40, 2), (50, 2)], [(100, 1)]))
    assert (plan.cost, plan.cuts, plan.cuts_proven) == (3, 3, True)


def test_of_equal_cuts_the_plan_with_fewest_layouts_is_chosen() -> None:
    plan = solve_boards(job([(50, 2), (30, 2), (10, 2)], [(100, 1)], kerf=1))
    assert (plan.cost, plan.different, plan.different_proven) == (2, 1, True)


def test_of_equal_layouts_the_longest_offcut_is_left() -> None:
    plan = solve_boards(job([(30, 1), (20, 1), (50, 1)], [(100, 1), (60, 1)], kerf=1, least_offcut=5))
    assert (plan.cost, plan.different, plan.longest_offcut, plan.longest_offcut_proven) == (2, 2, 79, True)


def test_a_leaving_below_the_least_offcut_is_not_called_one() -> None:
    assert solve_boards(job([(90, 1)], [(100, 1)], least_offcut=20)).longest_offcut == 0


def test_an_empty_job_costs_nothing() -> None:
    plan = solve_boards(BoardJob(pieces=(), stocks=()))
    assert (plan.cost, plan.proven, plan.layouts) == (0, True, ())


def test_pieces_of_one_length_keep_their_names_apart() -> None:
    pieces = (Piece(length=40, count=1, name="stud"), Piece(length=40, count=2, name="plate"))
    plan = solve_boards(BoardJob(pieces=pieces, stocks=(Stock(length=100, price=1),)))
    assert sorted(n for layout in plan.layouts for n in layout.pieces * layout.times) == [0, 1, 1]


@settings(max_examples=120, deadline=None)
@given(small_jobs())
def test_no_other_way_of_cutting_is_cheaper(small: BoardJob) -> None:
    plan = solve_boards(small)
    assert (plan.cost, plan.proven) == (cheapest(small), True)


@settings(max_examples=80, deadline=None)
@given(small_jobs())
def test_every_plan_can_be_sawn_and_every_bound_shown_again(small: BoardJob) -> None:
    plan = solve_boards(small)
    assert check_boards(small, plan) == []
    assert plan.proof.by_cuts <= plan.lower_bound <= plan.cost
    assert recheck(small, plan.proof, bound=plan.lower_bound) == plan.lower_bound


@settings(max_examples=40, deadline=None)
@given(small_jobs(), st.integers(20, 70), st.integers(1, 40))
def test_more_stock_to_choose_from_never_costs_more(small: BoardJob, length: int, price: int) -> None:
    wider = replace(small, stocks=(*small.stocks, Stock(length=length, price=price, name="another")))
    assert solve_boards(wider).cost <= solve_boards(small).cost


@settings(max_examples=25, deadline=None)
@given(small_jobs())
def test_two_runs_give_the_same_plan(small: BoardJob) -> None:
    assert solve_boards(small) == solve_boards(small)


@settings(max_examples=25, deadline=None)
@given(small_jobs())
def test_the_order_of_the_list_does_not_change_the_cost(small: BoardJob) -> None:
    turned = replace(small, pieces=small.pieces[::-1], stocks=small.stocks[::-1])
    assert solve_boards(turned).cost == solve_boards(small).cost


class Impatient:
    """A user who asks to stop after so many questions."""

    def __init__(self, patience: int) -> None:
        self.patience = patience
        self.said: list[str] = []

    def report(self, *, done: float, text: str) -> None:
        assert 0.0 <= done <= 1.0
        self.said.append(text)

    def stop_requested(self) -> bool:
        self.patience -= 1
        return self.patience < 0


def many_pieces() -> BoardJob:
    """Return 1 000 pieces of 100 lengths."""
    return job([(313 + 37 * n, 10) for n in range(100)], [(2400, 505), (3600, 760), (4800, 1065)], kerf=3)


@pytest.mark.parametrize("patience", [0, 1, 40])
def test_a_search_that_is_stopped_keeps_its_best_plan_and_says_so(patience: int) -> None:
    asked = Impatient(patience)
    plan = solve_boards(many_pieces(), progress=asked)
    assert (plan.ended, plan.proven, asked.said != []) == ("asked to stop", False, True)
    assert plan.lower_bound < plan.cost
    assert plan.gap > 0
    assert check_boards(many_pieces(), plan) == []


def test_a_search_out_of_time_says_so() -> None:
    assert solve_boards(many_pieces(), clock=0.0).ended == "clock"


def test_a_search_out_of_work_says_so_and_more_work_never_makes_it_worse() -> None:
    costs = [solve_boards(many_pieces(), work=WorkLimit(rounds=n)) for n in (1, 200, 60_000)]
    assert costs[0].ended == "work limit"
    assert costs[0].cost >= costs[1].cost >= costs[2].cost
    assert costs[2].proven


def test_limits_that_only_a_search_can_find_too_tight_are_named() -> None:
    with pytest.raises(NoAnswerError, match="cannot hold the pieces"):
        solve_boards(job([(60, 3)], [(100, 5, 2)]))


def test_limits_too_short_in_plain_length_are_refused_at_once() -> None:
    with pytest.raises(InputError, match="stock limits: found 200 in all, expected at least 240"):
        solve_boards(job([(60, 4)], [(100, 5, 2)]))
