"""Bounds shown again by plain whole numbers; a forged inequality is caught."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.unit.cutting.board_cases import job

from lathlight.cutting import Inequality, Proof, recheck, solve_boards
from lathlight.cutting.certificate import bound_of, faults, most_worth

JOB = job([(50, 3), (30, 2)], [(100, 7), (60, 4)], kerf=2)


def test_a_board_holds_its_best_filling() -> None:
    assert most_worth(JOB, (5, 3)) == [8, 5]  # 50 and 30 from 100; 50 alone from 60, for 30 + 2 + 30 is too long


def test_the_inequality_of_true_worths_stands() -> None:
    cut = Inequality(piece_values=(5, 3), bar_values=(8, 5), wanted=21)
    assert faults(JOB, cut) == []
    assert bound_of(JOB, cut) == Fraction(4, 5) * 21


def test_a_bar_said_to_hold_too_little_is_caught() -> None:
    forged = Inequality(piece_values=(5, 3), bar_values=(7, 5), wanted=21)
    assert faults(JOB, forged) == ["stock 1 holds 8, 7 is claimed"]


def test_pieces_said_to_be_worth_too_much_are_caught() -> None:
    forged = Inequality(piece_values=(5, 3), bar_values=(8, 5), wanted=22)
    assert faults(JOB, forged) == ["the pieces are worth 21, 22 is claimed"]


def test_a_forged_inequality_proves_nothing() -> None:
    forged = Inequality(piece_values=(5, 3), bar_values=(1, 1), wanted=21)
    assert recheck(JOB, Proof(cuts=(forged,), searched=(), by_cuts=0), bound=20) == 0


def test_what_lies_on_the_shelf_lowers_the_bound() -> None:
    shelf = job([(50, 3)], [(100, 7), (60, 0, 1)], kerf=0)
    cut = Inequality(piece_values=(1,), bar_values=(2, 1), wanted=3)
    assert (faults(shelf, cut), bound_of(shelf, cut)) == ([], 7)


def test_whole_boards_bound_more_than_parts_of_boards() -> None:
    wood = job([(60, 3)], [(100, 10), (70, 9)])
    plan = solve_boards(wood)
    assert plan.cost == recheck(wood, plan.proof, bound=plan.lower_bound) == 27


def test_without_its_inequalities_a_proof_shows_nothing() -> None:
    plan = solve_boards(JOB)
    assert recheck(JOB, replace(plan.proof, cuts=(), searched=()), bound=plan.lower_bound) == 0
