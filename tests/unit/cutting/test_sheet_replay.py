from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.cutting.sheet_cases import item, job

from lathlight.cutting.sheet_certificate import recheck_sheets
from lathlight.cutting.sheet_cutting import solve_sheets
from lathlight.cutting.sheet_jobs import SheetJob
from lathlight.cutting.sheet_plan import CutSheet, SheetPlan
from lathlight.cutting.sheet_replay import check_sheets

CASE = job(item(600, 800, 3), item(300, 500, 4, rotate=True))


@pytest.fixture(scope="module")
def plan() -> SheetPlan:
    return solve_sheets(CASE)


def with_sheet(plan: SheetPlan, **changes: object) -> SheetPlan:
    return replace(plan, sheets=(replace(plan.sheets[0], **changes), *plan.sheets[1:]))


def with_piece(plan: SheetPlan, place: int, **changes: object) -> SheetPlan:
    pieces = list(plan.sheets[0].pieces)
    pieces[place] = replace(pieces[place], **changes)
    return with_sheet(plan, pieces=tuple(pieces))


def faults(plan: SheetPlan, case: SheetJob = CASE) -> str:
    return "\n".join(check_sheets(case, plan))


def test_a_right_plan_has_no_fault(plan: SheetPlan) -> None:
    assert faults(plan) == ""


def test_a_piece_moved_by_one_is_found(plan: SheetPlan) -> None:
    moved = with_piece(plan, 1, x=plan.sheets[0].pieces[1].x + 1)
    assert "is not the piece" in faults(moved)


def test_pieces_too_near_for_the_kerf_are_found(plan: SheetPlan) -> None:
    assert "no room for the kerf" in faults(plan, replace(CASE, kerf=4))


def test_a_piece_of_the_wrong_size_is_found(plan: SheetPlan) -> None:
    assert "wanted 600 x 800" in faults(with_piece(plan, 0, width=599))


def test_a_piece_outside_is_found(plan: SheetPlan) -> None:
    assert "lies outside" in faults(with_piece(plan, 0, x=1000))


def test_grain_is_watched(plan: SheetPlan) -> None:
    (place,) = [n for n, piece in enumerate(plan.sheets[0].pieces) if piece.item == 0][:1]
    assert "against the grain" in faults(with_piece(plan, place, turned=True))


def test_a_missing_piece_is_found(plan: SheetPlan) -> None:
    gone = with_sheet(plan, pieces=plan.sheets[0].pieces[:-1])
    assert "piece that the sheet does not have" in faults(gone)
    fewer = replace(CASE, items=(CASE.items[0], replace(CASE.items[1], count=5)))
    assert "piece 2: 4 cut, 5 wanted" in faults(plan, fewer)


def test_too_many_stages_are_found(plan: SheetPlan) -> None:
    assert "stages of cuts, 1 allowed" in faults(plan, replace(CASE, stages=1))


def test_a_cut_longer_than_the_straight_edge_is_found(plan: SheetPlan) -> None:
    assert "the straight edge 400" in faults(plan, replace(CASE, straight_edge=400))


def test_cuts_out_of_order_are_found(plan: SheetPlan) -> None:
    tree = plan.sheets[0].tree
    assert tree.cut is not None
    last = replace(tree, cut=replace(tree.cut, number=99))
    assert "not numbered in order" in faults(with_sheet(plan, tree=last))


def test_a_cut_that_says_another_figure_is_found(plan: SheetPlan) -> None:
    tree = plan.sheets[0].tree
    assert tree.cut is not None
    other = replace(tree, cut=replace(tree.cut, at=tree.cut.at + 1))
    assert "does not leave the parts" in faults(with_sheet(plan, tree=other))


def test_a_wrong_cost_and_a_bound_above_it_are_found(plan: SheetPlan) -> None:
    assert "is paid" in faults(replace(plan, cost=plan.cost + 1))
    assert "do not agree" in faults(replace(plan, lower_bound=plan.cost + 1))


def test_more_sheets_than_can_be_had_are_found(plan: SheetPlan) -> None:
    none = replace(CASE, stocks=(replace(CASE.stocks[0], limit=0),))
    assert "stock 1: 1 used, 0 to be had" in faults(plan, none)


@pytest.fixture(scope="module")
def bounded() -> tuple[SheetJob, SheetPlan]:
    case = job(item(700, 900, 6), item(300, 700, 4))
    return case, solve_sheets(case)


def test_a_proof_holds_by_its_own_figures(bounded: tuple[SheetJob, SheetPlan]) -> None:
    case, plan = bounded
    assert plan.proof.inequalities
    assert recheck_sheets(case, plan) == []


def test_a_bound_without_its_proof_is_refused(bounded: tuple[SheetJob, SheetPlan]) -> None:
    case, plan = bounded
    bare = replace(plan, proof=replace(plan.proof, inequalities=()))
    assert "prove 0" in recheck_sheets(case, bare)[0]


def test_a_proof_that_understates_a_sheet_is_refused(bounded: tuple[SheetJob, SheetPlan]) -> None:
    case, plan = bounded
    last = plan.proof.inequalities[-1]
    less = replace(last, stock_values=tuple(value - 1 for value in last.stock_values))
    wrong = replace(plan, proof=replace(plan.proof, inequalities=(*plan.proof.inequalities[:-1], less)))
    assert any("may hold" in fault for fault in recheck_sheets(case, wrong))


def test_a_proof_for_fewer_stages_does_not_speak_for_more(bounded: tuple[SheetJob, SheetPlan]) -> None:
    case, plan = bounded
    assert "fewer stages" in recheck_sheets(replace(case, stages=None), plan)[0]


def test_the_numbers_of_the_cuts_follow_the_parts(plan: SheetPlan) -> None:
    def ordered(sheet: CutSheet) -> bool:
        return [cut.number for cut in sheet.cuts] == list(range(1, len(sheet.cuts) + 1))

    assert all(ordered(sheet) for sheet in plan.sheets)
