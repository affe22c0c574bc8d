"""How everything is sawn: plans that can be cut, with bounds that hold, of the pieces asked for and no others."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.plan.test_stages import HEAD, plan_of, wall

from lathlight.carpentry import SheetPart
from lathlight.carpentry.packing import pack_boards, pack_sheets
from lathlight.catalog import load_catalog
from lathlight.cutting import check_boards, check_sheets, recheck, recheck_sheets
from lathlight.geometry import rectangle
from lathlight.plan import Memo, Plan, SectionSawing, SheetSawing, proof_words
from lathlight.plan.saw_boards import SIZES, Bench, Length, saw_section
from lathlight.plan.saw_grid import FINE, fine_up
from lathlight.plan.saw_sheets import SheetBench, saw_sheets
from lathlight.plan.stock_prices import sold_lengths
from lathlight.project import Price
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from collections.abc import Sequence

METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
BENCH = Bench(style=METRIC, kerf=3.0, trim_cut=0.0, least_offcut=0.0)
ON_SALE = (2400.0, 3000.0, 3600.0, 4800.0)
SHEETS = load_catalog().sheets
PLY, LINED = SHEETS["ply 9 mm"], replace(SHEETS["ply 9 mm"], name="veneered", grain=True)


def lengths(*mm: float) -> list[Length]:
    return [Length(id=f"piece {n}", length=each) for n, each in enumerate(mm)]


def price(item: str, cost: str, length: float | None = None, **more: object) -> Price:
    return Price.model_validate({"item": item, "price": Decimal(cost), "length": length, **more})


def sawn(*mm: float, prices: Sequence[Price] = (), bench: Bench = BENCH) -> SectionSawing:
    return saw_section("38x38", lengths(*mm), ON_SALE, bench, prices, Memo())


def part(number: int, width: float, height: float, *, sheet=PLY) -> SheetPart:
    return SheetPart(
        id=f"part {number}",
        mark=f"S{number}",
        sheet=sheet,
        outline=rectangle(0.0, 0.0, width, height),
        holes=(),
        width=width,
        height=height,
        may_turn=not sheet.grain,
    )


def sheets_of(*sizes: tuple[float, float], edge: float | None = None, sheet=PLY) -> SheetSawing:
    parts = [part(n, *size, sheet=sheet) for n, size in enumerate(sizes)]
    return saw_sheets(sheet, parts, SheetBench(style=METRIC, kerf=3.0, straight_edge=edge), Memo())


def bought(section: SectionSawing) -> Counter[float]:
    return Counter(board.length for board in section.boards)


# --- the demo sets -----------------------------------------------------------------------------------------------


def test_every_plan_of_a_demo_set_can_be_sawn_and_its_bound_holds(demo_plan: Plan) -> None:
    sawing = demo_plan.sawing
    for section in (*sawing.boards, *sawing.mouldings):
        for job, plan in zip(section.jobs, section.plans, strict=True):
            assert check_boards(job, plan) == []
            assert recheck(job, plan.proof, bound=plan.lower_bound) <= plan.lower_bound
    for kind in sawing.sheets:
        for job, plan in zip(kind.jobs, kind.plans, strict=True):
            assert check_sheets(job, plan) == []
            assert recheck_sheets(job, plan) == []


def test_the_demo_sets_are_proven(demo_plan: Plan) -> None:
    assert all(packed.proven for packed in (*demo_plan.boards, *demo_plan.sheets))
    assert demo_plan.quantity("set/boards").label == "boards, proven"
    assert not any("not proven" in row.line.reason for row in demo_plan.takeoff if row.trade != "floor")


def test_no_demo_set_takes_more_than_first_fit(demo_plan: Plan) -> None:
    kerf = demo_plan.brief.saw.kerf
    for section in demo_plan.sawing.boards:
        pieces = [p.length for board in section.boards for p in board.pieces]
        assert section.sold is not None
        stock = [each.length for each in section.sold.lengths]
        fitted = pack_boards(pieces, stock=stock, kerf=kerf)
        assert sum(board.length for board in section.boards) <= fitted.length * len(fitted.items) + 1e-6
    for kind in demo_plan.sawing.sheets:
        parts = [p.part for sheet in kind.sheets for p in sheet.pieces]
        fitted = pack_sheets(
            [(p.width, p.height) for p in parts],
            width=kind.sheet.width,
            length=kind.sheet.length,
            kerf=kerf,
            may_turn=[p.may_turn for p in parts],
        )
        assert kind.number <= len(fitted)


def test_where_pieces_lie_is_what_the_saw_sets_free(demo_plan: Plan) -> None:
    for kind in demo_plan.sawing.sheets:
        planned = [sheet for plan in kind.plans for sheet in plan.sheets]
        for drawn, cut in zip(kind.sheets, planned, strict=True):
            for placed, piece in zip(drawn.pieces, cut.pieces, strict=True):
                assert (placed.x, placed.y) == (float(piece.x * kind.step), float(piece.y * kind.step))
                assert placed.width == pytest.approx(float(piece.width * kind.step), abs=0.4)
    assert demo_plan.cut_sheets == demo_plan.sawing.cut_sheets


def test_an_edit_that_keeps_the_lengths_cuts_nothing_anew() -> None:
    memo = Memo()
    plan_of(HEAD + wall("back", 2400), memo)
    runs = memo.runs["saw boards"], memo.runs["saw sheets"]
    plan_of(HEAD + wall("rear", 2400), memo)
    assert (memo.runs["saw boards"], memo.runs["saw sheets"]) == runs


# --- boards ------------------------------------------------------------------------------------------------------


@given(st.lists(st.integers(60, 2400), min_size=1, max_size=14), st.integers(0, 4))
def test_each_piece_is_cut_once_from_a_board_that_holds_it(mm: list[int], kerf: int) -> None:
    bench = Bench(style=METRIC, kerf=float(kerf), trim_cut=0.0, least_offcut=0.0)
    section = sawn(*map(float, mm), bench=bench)
    assert sorted(p.id for board in section.boards for p in board.pieces) == sorted(p.id for p in lengths(*mm))
    for board in section.boards:
        run = sum(p.length for p in board.pieces)
        assert run + kerf * (len(board.pieces) - 1) + board.left <= board.length + 1e-6
    assert section.lower_bound <= section.cost
    fitted = pack_boards(mm, stock=ON_SALE, kerf=kerf)
    assert sum(board.length for board in section.boards) <= fitted.length * len(fitted.items) + 1e-6


def test_without_prices_the_least_length_is_bought() -> None:
    """By hand: 1500 + 3 + 1490 are within 3000; two boards of 2400 would be 4800."""
    section = sawn(1500.0, 1490.0)
    assert bought(section) == {3000.0: 1}
    assert section.sold is not None
    assert section.sold.weighed == "by length"


def test_prices_change_which_lengths_are_bought() -> None:
    pieces = (2000.0, 2000.0)
    cheap_long = (price("38x38", "5", 2400.0), price("38x38", "8", 4800.0))
    cheap_short = (price("38x38", "3", 2400.0), price("38x38", "8", 4800.0))
    assert bought(sawn(*pieces, prices=cheap_long)) == {4800.0: 1}
    assert bought(sawn(*pieces, prices=cheap_short)) == {2400.0: 2}


def test_a_length_without_a_price_is_bought_only_where_a_piece_needs_it() -> None:
    priced = (price("38x38", "4.20", 2400.0),)
    section = sawn(1500.0, 1490.0, prices=priced)
    assert bought(section) == {2400.0: 2}
    assert section.sold is not None
    assert section.sold.left_out == (3000.0, 3600.0, 4800.0)
    longer = sawn(2900.0, prices=priced)
    assert bought(longer) == {3000.0: 1}
    assert longer.cost == 525  # 4.20 for 2.4 m is 5.25 for 3 m


def test_prices_are_read_by_the_length_and_by_the_metre() -> None:
    per_metre = sold_lengths("38x38", (2400.0, 3000.0), [price("38x38", "2", per="metre")], longest=1.0, trim_cut=0.0)
    assert [each.weight for each in per_metre.lengths] == [480, 600]
    vague = sold_lengths("38x38", (2400.0, 3000.0), [price("38x38", "2")], longest=1.0, trim_cut=0.0)
    assert vague.weighed == "by length"
    one = sold_lengths("2x2", (2400.0,), [price("2x2", "3.805")], longest=1.0, trim_cut=0.0)
    assert [each.weight for each in one.lengths] == [381]


def test_what_the_shop_has_is_kept_to_where_it_is_enough() -> None:
    few = (price("38x38", "1", 2400.0, in_stock=1), price("38x38", "9", 4800.0))
    assert bought(sawn(2300.0, 2300.0, prices=few)) == {4800.0: 1}
    none = (price("38x38", "1", 2400.0, in_stock=1),)
    section = sawn(2300.0, 2300.0, prices=none)
    assert bought(section) == {2400.0: 2}
    assert section.short_in_shop == (2400.0,)


def test_a_piece_longer_than_any_board_stands_apart() -> None:
    section = sawn(1000.0, 5000.0)
    assert [board.pieces[0].length for board in section.too_long] == [5000.0]
    assert bought(section) == {2400.0: 1}


def test_a_piece_as_long_as_a_board_is_taken_whole_though_ends_are_trimmed() -> None:
    bench = Bench(style=METRIC, kerf=3.0, trim_cut=10.0, least_offcut=0.0)
    section = sawn(2400.0, 2390.0, 2395.0, bench=bench)
    whole = [board for board in section.boards if board.job is None]
    assert [(board.length, board.cuts) for board in whole] == [(2400.0, 0)]
    assert section.lower_bound <= section.cost


def test_pieces_that_may_be_offcuts_come_after_the_firm_ones_of_their_length() -> None:
    loose = Length(id="loose", length=1000.0, may_be_offcut=True)
    section = saw_section("38x38", [loose, *lengths(1000.0, 1000.0)], (1010.0,), BENCH, (), Memo())
    assert [p.id for board in section.boards for p in board.pieces] == ["piece 0", "piece 1", "loose"]


def test_very_many_pieces_are_cut_in_batches_with_a_bound_over_all() -> None:
    section = sawn(*(1000.0 + 3 * n for n in range(2 * SIZES + 5)))
    assert len(section.plans) == 3
    assert len({p.id for board in section.boards for p in board.pieces}) == 2 * SIZES + 5
    run = sum(1003.0 + 3 * n for n in range(2 * SIZES + 5)) * 4800 / 4803  # with the kerf of the longest board
    assert section.lower_bound == math.ceil(run / 600 - 1e-9)
    assert section.lower_bound <= section.cost <= 1.2 * section.lower_bound


def test_equal_pieces_give_an_equal_plan() -> None:
    mm = [700.0, 1234.0, 1999.0, 2174.0, 512.0, 512.0, 88.0]
    assert sawn(*mm) == sawn(*mm)


# --- sheets ------------------------------------------------------------------------------------------------------


def test_grain_is_never_turned() -> None:
    kind = sheets_of((600.0, 1200.0), (600.0, 1200.0), (1000.0, 500.0), sheet=LINED)
    assert not any(placed.turned for sheet in kind.sheets for placed in sheet.pieces)


def test_sheets_beat_shelves_where_the_saw_can() -> None:
    """By hand: a strip of 400 beside a column of three takes one sheet; the total area leaves no second choice."""
    kind = sheets_of((800.0, 810.0), (800.0, 810.0), (800.0, 810.0), (400.0, 2400.0))
    assert (kind.number, kind.lower_bound, kind.proven) == (1, 1, True)


def test_a_part_larger_than_the_sheet_has_a_sheet_of_its_own() -> None:
    kind = sheets_of((600.0, 1200.0), (1300.0, 2500.0))
    assert (kind.number, kind.too_large, len(kind.sheets)) == (1, 1, 2)


def test_no_cut_is_longer_than_the_straight_edge_unless_nothing_else_will_do() -> None:
    short = sheets_of((600.0, 1200.0), (600.0, 1200.0), edge=1300.0)
    assert not short.past_straight_edge
    assert all(cut.reach * short.step <= 1300 for plan in short.plans for sheet in plan.sheets for cut in sheet.cuts)
    long = sheets_of((600.0, 2440.0), edge=1300.0)
    assert long.past_straight_edge
    assert long.number == 1


@given(st.lists(st.tuples(st.integers(80, 1220), st.integers(80, 2440)), min_size=1, max_size=7))
def test_each_part_lies_on_one_sheet(sizes: list[tuple[int, int]]) -> None:
    kind = sheets_of(*((float(w), float(h)) for w, h in sizes))
    placed = [p for sheet in kind.sheets for p in sheet.pieces]
    assert sorted(p.piece for p in placed) == sorted(f"part {n}" for n in range(len(sizes)))
    assert all(check_sheets(job, plan) == [] for job, plan in zip(kind.jobs, kind.plans, strict=True))


# --- lengths in steps, and words ---------------------------------------------------------------------------------


def test_lengths_on_the_grid_are_exact_and_others_are_rounded_up() -> None:
    assert fine_up(2400.0, METRIC) == 2400 * FINE
    assert fine_up(25.4 / 64, IMPERIAL) == 127
    assert fine_up(1000.04321, METRIC) == 10001 * FINE // 10
    assert fine_up(2399.98765, IMPERIAL, (2400 * FINE,)) == 2400 * FINE  # never past the board that holds it


def test_a_gap_is_said_and_what_was_never_bounded_is_not_called_proven() -> None:
    assert proof_words(proven=False, gap=0.0123) == "not proven: at most 1.2 % above the least"
    assert "proven" not in proof_words(proven=False, gap=None)
