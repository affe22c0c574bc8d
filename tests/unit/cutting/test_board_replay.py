"""The replay finds each kind of fault in a plan that was good."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.cutting.board_cases import job

from lathlight.cutting import BoardPlan, check_boards, solve_boards

JOB = job([(50, 2), (30, 2), (10, 2)], [(100, 7), (60, 4, 2)], kerf=2, trim_cut=3)
GOOD = solve_boards(JOB)


def broken(plan: BoardPlan, **change: object) -> BoardPlan:
    """Return the plan with its first layout changed."""
    return replace(plan, layouts=(replace(plan.layouts[0], **change), *plan.layouts[1:]))


def test_a_good_plan_has_no_faults() -> None:
    assert check_boards(JOB, GOOD) == []


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (broken(GOOD, pieces=(0, 0, 0)), "is taken from"),
        (broken(GOOD, pieces=(0,)), "wanted"),
        (broken(GOOD, pieces=()), "0 pieces"),
        (broken(GOOD, times=9), "to be had" if GOOD.layouts[0].stock else "wanted"),
        (broken(GOOD, cuts=9), "says 9 cuts"),
        (broken(GOOD, left=5), "and 5 left"),
        (replace(GOOD, cost=GOOD.cost - 1), "cost: the plan says"),
        (replace(GOOD, lower_bound=GOOD.cost + 1), "beside cost"),
        (replace(GOOD, proven=False), "proven False"),
        (replace(GOOD, cuts=0), "cuts: the plan says 0"),
        (replace(GOOD, different=9), "different layouts: the plan says 9"),
        (replace(GOOD, longest_offcut=99), "longest offcut: the plan says 99"),
    ],
)
def test_each_fault_is_found(plan: BoardPlan, said: str) -> None:
    assert any(said in fault for fault in check_boards(JOB, plan))


def test_more_boards_than_there_are_is_found() -> None:
    wood = job([(50, 3)], [(60, 4, 3)])
    assert check_boards(job([(50, 3)], [(60, 4, 2)]), solve_boards(wood)) == ["stock 1 of 60: 3 used, 2 to be had"]
