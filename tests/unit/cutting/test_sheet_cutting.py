from __future__ import annotations

import random
from dataclasses import replace

import pytest
from tests.unit.cutting.sheet_cases import LITTLE, PLY, fewest_sheets, item, job, random_job

from lathlight.cutting import sheet_bound
from lathlight.cutting.sheet_certificate import recheck_sheets
from lathlight.cutting.sheet_cutting import solve_sheets
from lathlight.cutting.sheet_jobs import SheetJob, SheetStock
from lathlight.cutting.sheet_replay import check_sheets
from lathlight.errors import InputError, NoAnswerError


class Impatient:
    """Asks to stop after so many looks."""

    def __init__(self, patience: int) -> None:
        self.patience = patience
        self.texts: list[str] = []

    def report(self, *, done: float, text: str) -> None:
        assert 0 <= done <= 1
        self.texts.append(text)

    def stop_requested(self) -> bool:
        self.patience -= 1
        return self.patience < 0


def test_four_halves_take_the_kerf_from_the_sheet() -> None:
    assert solve_sheets(job(item(608, 1218, 4))).cost == 3600  # 608 + 3 + 608 = 1219
    assert solve_sheets(job(item(610, 1218, 4))).cost == 7200  # two of 610 leave no room for the saw


def test_a_whole_sheet_needs_no_cut() -> None:
    plan = solve_sheets(job(item(1220, 2440, 2)))
    assert (plan.cuts, len(plan.sheets), plan.largest_offcut) == (0, 2, None)


def test_a_strip_thinner_than_the_kerf_still_takes_a_cut() -> None:
    plan = solve_sheets(job(item(1218, 2440)))
    assert plan.cuts == 1
    assert plan.sheets[0].offcuts == ()
    assert check_sheets(job(item(1218, 2440)), plan) == []


def test_tape_figures_are_the_piece_sizes() -> None:
    plan = solve_sheets(job(item(400, 2440, 3)))
    cuts = plan.sheets[0].cuts
    assert [(cut.along, cut.at, cut.reach, cut.stage) for cut in cuts] == [("length", 400, 2440, 1)] * 3
    assert [part.width for part in plan.sheets[0].offcuts] == [1220 - 3 * 403]


def test_grain_keeps_a_piece_from_turning() -> None:
    free = replace(PLY, width=1000, length=2000)
    with pytest.raises(InputError, match="let the piece turn"):
        solve_sheets(job(item(1500, 900), stocks=(free,)))
    plan = solve_sheets(job(item(1500, 900, rotate=True), stocks=(free,)))
    assert plan.sheets[0].pieces[0].turned


def test_an_offcut_on_the_shelf_goes_first() -> None:
    shelf = SheetStock(width=610, length=900, price=0, limit=1)
    plan = solve_sheets(job(item(600, 800), stocks=(PLY, shelf)))
    assert (plan.cost, plan.sheets[0].stock, plan.proven) == (0, 1, True)


def test_two_halves_are_bought_where_a_whole_sheet_is_dearer() -> None:
    half = SheetStock(width=1220, length=1220, price=1000)
    plan = solve_sheets(job(item(1200, 1200, 2), stocks=(PLY, half)))
    assert [sheet.stock for sheet in plan.sheets] == [1, 1]
    assert (plan.cost, plan.proven) == (2000, True)


def test_limits_turn_the_choice_to_dearer_sheets() -> None:
    half = SheetStock(width=1220, length=1220, price=1000, limit=1)
    plan = solve_sheets(job(item(1200, 1200, 2), stocks=(PLY, half)))
    assert (plan.cost, plan.proven) == (3600, True)


def test_sheets_that_cannot_hold_the_pieces_are_named() -> None:
    one = replace(PLY, limit=1)
    with pytest.raises(NoAnswerError, match="1 of 1220 x 2440"):
        solve_sheets(job(item(1200, 1300, 2), stocks=(one,)))


def test_an_empty_job_costs_nothing() -> None:
    plan = solve_sheets(job(item(100, 100, 0)))
    assert (plan.sheets, plan.cost, plan.proven, plan.cuts) == ((), 0, True, 0)


PINWHEEL = (item(1, 2), item(2, 1), item(1, 2), item(2, 1), item(1, 1))


def test_a_pinwheel_is_not_cut_from_one_square() -> None:
    square = SheetStock(width=3, length=3, price=1)
    case = job(*PINWHEEL, stocks=(square,), kerf=0, stages=None)
    assert solve_sheets(case, work=LITTLE).cost == 2


def test_more_stages_need_fewer_sheets() -> None:
    # a tree of three nested turns: strips across, one of them split lengthwise, one of those across, and once more
    square = SheetStock(width=8, length=8, price=1)
    pieces = (item(8, 2), item(3, 6), item(5, 2), item(2, 4), item(3, 4))
    case = job(*pieces, stocks=(square,), kerf=0)
    costs = [solve_sheets(replace(case, stages=stages), work=LITTLE).cost for stages in (2, 3, 4, None)]
    assert costs == [2, 2, 1, 1]


def test_no_cut_is_longer_than_the_straight_edge() -> None:
    case = job(item(600, 1200, 4), straight_edge=1300)
    plan = solve_sheets(case)
    assert max(cut.reach for sheet in plan.sheets for cut in sheet.cuts) <= 1300
    assert (plan.cost, check_sheets(case, plan)) == (3600, [])


def test_a_straight_edge_too_short_for_any_cut_is_refused() -> None:
    with pytest.raises(NoAnswerError, match="straight edge"):
        solve_sheets(job(item(600, 1200, 4), straight_edge=500))


@pytest.mark.parametrize("seed", range(40))
def test_every_plan_can_be_sawn_and_its_bound_holds(seed: int) -> None:
    case = random_job(seed, stages=(2, 3, 4, None)[seed % 4])
    plan = solve_sheets(case, work=LITTLE)
    assert check_sheets(case, plan) == []
    assert recheck_sheets(case, plan) == []


@pytest.mark.parametrize("seed", range(16))
def test_no_way_of_cutting_few_pieces_needs_fewer_sheets(seed: int) -> None:
    draw = random.Random(seed)
    items = tuple(item(draw.randint(1, 5), draw.randint(1, 5), rotate=draw.random() < 0.4) for _ in range(5))
    stages = (2, 3, None)[seed % 3]
    case = SheetJob(items=items, stocks=(SheetStock(width=6, length=6, price=1),), kerf=seed % 2, stages=stages)
    best = fewest_sheets(case)
    plan = solve_sheets(case, work=LITTLE)
    assert plan.lower_bound <= best
    assert plan.cost == best


@pytest.mark.parametrize("seed", range(8))
def test_more_stock_to_choose_from_never_costs_more(seed: int) -> None:
    case = random_job(seed)
    more = replace(case, stocks=(*case.stocks, SheetStock(width=10, length=10, price=45)))
    less, plan = solve_sheets(case, work=LITTLE), solve_sheets(more, work=LITTLE)
    assert plan.lower_bound <= less.cost
    assert plan.cost <= less.cost


def test_equal_jobs_give_equal_plans() -> None:
    case = random_job(5)
    assert solve_sheets(case, work=LITTLE) == solve_sheets(case, work=LITTLE)


def test_a_search_can_be_stopped_and_keeps_its_plan() -> None:
    case = random_job(11)
    quick = solve_sheets(case, progress=Impatient(0))
    assert quick.ended == "asked to stop"
    assert check_sheets(case, quick) == []
    assert quick.lower_bound <= quick.cost


def test_progress_tells_cost_and_bound() -> None:
    listener = Impatient(10**9)
    solve_sheets(random_job(11), work=LITTLE, progress=listener)
    assert any(text.startswith("best ") and ", bound " in text for text in listener.texts)


def test_a_clock_that_has_run_out_is_said() -> None:
    assert solve_sheets(random_job(3), clock=0.0).ended == "clock"


def test_waste_free_sheets_are_found_and_proven() -> None:
    # two sheets cut up by hand, kerf 3 between neighbours, nothing left over
    sheet = SheetStock(width=103, length=203, price=1)
    first = (item(50, 100), item(50, 100), item(103, 47), item(33, 50), item(67, 23), item(67, 24))
    second = (item(20, 203), item(80, 60), item(80, 140))
    plan = solve_sheets(job(*first, *second, stocks=(sheet,), stages=None))
    assert (plan.cost, plan.proven) == (2, True)
    assert all(not piece.offcuts for piece in plan.sheets)


HALF = SheetStock(width=1220, length=1220, price=2016)


def test_many_pieces_still_get_a_plan_and_a_bound() -> None:
    case = job(item(100, 200, 400), item(150, 90, 300, rotate=True), item(700, 500, 20), stocks=(PLY, HALF))
    plan = solve_sheets(case, clock=0.0)
    assert (plan.ended, check_sheets(case, plan), recheck_sheets(case, plan)) == ("clock", [], [])
    assert plan.gap < 0.35


def test_a_large_plan_is_mended_towards_fewer_sheets() -> None:
    case = job(item(400, 500, 150), item(250, 300, 150))
    quick = solve_sheets(case, clock=0.0)
    plan = solve_sheets(case, work=replace(LITTLE, generations=25, bound_rounds=5))
    assert plan.cost <= quick.cost
    assert check_sheets(case, plan) == []


def test_choices_too_many_to_walk_through_leave_the_bound_of_one_inequality(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet_bound, "MOST_CHOICES", 3)
    case = job(item(700, 900, 20), item(300, 700, 10), stocks=(PLY, HALF))
    plan = solve_sheets(case, work=LITTLE)
    assert plan.lower_bound > 3 * HALF.price
    assert recheck_sheets(case, plan) == []
