from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.cutting.sheet_cases import PLY, item, job

from lathlight.cutting.sheet_jobs import require_possible
from lathlight.errors import InputError


def test_every_problem_of_a_job_is_named_at_once() -> None:
    wrong = replace(job(item(1300, 100), item(100, 0), item(50, 50, -1)), kerf=-1, stages=0, straight_edge=0)
    with pytest.raises(InputError) as caught:
        require_possible(wrong)
    places = [problem.place for problem in caught.value.problems]
    assert places == ["sheets kerf", "sheets stages", "sheets straight edge", *(f"sheets piece {n}" for n in (1, 2, 3))]


def test_a_piece_larger_than_every_sheet_is_told_the_largest() -> None:
    with pytest.raises(InputError, match="found 1300 x 100, expected at most a sheet, 1220 x 2440"):
        require_possible(job(item(1300, 100)))


def test_a_job_without_sheets_is_refused() -> None:
    with pytest.raises(InputError, match="no sheet"):
        require_possible(job(item(10, 10), stocks=()))


@pytest.mark.parametrize(
    ("stock", "expected"),
    [
        (replace(PLY, width=0), "sides of more than 0"),
        (replace(PLY, price=-1), "0 or more"),
        (replace(PLY, limit=-1), "0 or more"),
        (replace(PLY, price=0), "a price or a limit"),
    ],
)
def test_a_sheet_that_makes_no_sense_is_refused(stock: object, expected: str) -> None:
    with pytest.raises(InputError, match=expected):
        require_possible(job(item(10, 10), stocks=(PLY, stock)))


def test_a_sheet_of_which_none_is_left_holds_nothing() -> None:
    with pytest.raises(InputError, match="piece 1"):
        require_possible(job(item(10, 10), stocks=(replace(PLY, limit=0),)))
