"""Optima of board cutting that papers and textbooks print.

Sources: the paper-mill example of the encyclopaedia article "Cutting stock problem"; V. Chvatal, Linear Programming
(Freeman, 1983), page 198; C. Delorme, M. Iori, S. Martello and the authors before them print larger sets, which the
benchmark reads where they lie.
"""

from __future__ import annotations

import math

import pytest
from tests.unit.cutting.board_cases import job

from lathlight.cutting import BoardPlan, check_boards, recheck, solve_boards

MILL = [
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20),
    (2000, 10), (2050, 12), (2100, 14), (2140, 16), (2150, 18), (2200, 20),
]  # fmt: skip
CHVATAL = [(14, 211), (31, 395), (36, 610), (45, 97)]
WASTE_PERCENT = 0.401  # as printed


def solved(pieces: list[tuple[int, int]], length: int) -> BoardPlan:
    """Return the plan for rolls or boards of one length, replayed and its bound shown again."""
    rolls = job(pieces, [(length, 1)])
    plan = solve_boards(rolls)
    assert check_boards(rolls, plan) == []
    assert recheck(rolls, plan.proof, bound=plan.lower_bound) == plan.lower_bound
    return plan


@pytest.mark.published(source="encyclopaedia article on the cutting stock problem", place="paper-mill example")
def test_the_paper_mill_needs_73_rolls_and_wastes_as_printed() -> None:
    plan = solved(MILL, 5600)
    assert (plan.cost, plan.proven) == (73, True)
    waste = 1 - sum(length * count for length, count in MILL) / (73 * 5600)
    assert round(100 * waste, 3) == WASTE_PERCENT


@pytest.mark.published(source="V. Chvatal, Linear Programming, 1983", place="page 198")
def test_the_textbooks_rolls_number_453() -> None:
    plan = solved(CHVATAL, 100)
    assert (plan.cost, plan.proven) == (453, True)


@pytest.mark.published(source="V. Chvatal, Linear Programming, 1983", place="page 198")
def test_the_textbooks_relaxed_answer_is_the_proof() -> None:
    assert solved(CHVATAL, 100).proof.by_cuts == math.ceil(452.25)


@pytest.mark.published(source="small instances of library manuals (check list CUT-3)", place="10 and 100")
@pytest.mark.parametrize(
    ("pieces", "length", "boards"),
    [([(7, 2), (5, 2), (3, 4)], 10, 4), ([(20, 100), (30, 120), (40, 40), (50, 20)], 100, 82)],
)
def test_small_instances(pieces: list[tuple[int, int]], length: int, boards: int) -> None:
    assert solved(pieces, length).cost == boards


def triplets(count: int) -> list[tuple[int, int]]:
    """Return pieces that fill so many boards of 1 000 by threes without waste, so that the optimum is known."""
    found: list[tuple[int, int]] = []
    for n in range(count):
        long = 380 + (37 * n) % 111
        middle = (1000 - long) // 2 + (53 * n) % 23
        found += [(long, 1), (middle, 1), (1000 - long - middle, 1)]
    return found


@pytest.mark.parametrize("count", [10, 20, 40])
def test_triplets_are_put_together_again(count: int) -> None:
    plan = solved(triplets(count), 1000)  # optimum by construction: no waste at all
    assert (plan.cost, plan.proven) == (count, True)
