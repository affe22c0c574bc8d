"""Mouldings packed into whole lengths, and the takeoff of a whole set."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.catalog import load_catalog
from lathlight.finishing import TRADES, MouldingCut, TakeoffRow, moulding_rows, pack_mouldings, takeoff_line
from lathlight.mouldings import (
    FrameTier,
    FrameWall,
    MouldingFramesJob,
    MouldingLayout,
    WallEndCover,
    lay_out_frames,
    strips_of,
)
from lathlight.plan import Memo, Plan
from lathlight.plan.finish import derive_finish
from lathlight.plan.floor import derive_floor
from lathlight.plan.takeoff import derive_takeoff
from lathlight.units import LengthStyle
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Callable

PROFILES = load_catalog().profiles
RAIL = replace(PROFILES["rail 57"], lengths=(2400.0, 3000.0))
PANEL = PROFILES["panel 30"]


def cuts(*lengths: float) -> list[MouldingCut]:
    return [MouldingCut(id=f"piece {i}", profile=RAIL, length=length) for i, length in enumerate(lengths)]


def test_pieces_share_a_length_where_both_come_out_of_it() -> None:
    """By hand: 1500 + 3 + 1490 are within 3000, but not in 2400."""
    (stock,) = pack_mouldings(cuts(1490.0, 1500.0), kerf=3.0, trim_cut=0.0)
    assert (stock.length, stock.number) == (3000.0, 1)
    (tight,) = pack_mouldings(cuts(1499.0, 1500.0), kerf=3.0, trim_cut=0.0)
    assert (tight.length, tight.number) == (2400.0, 2)


def test_a_piece_longer_than_any_that_is_sold_stands_apart() -> None:
    sold, over = pack_mouldings(cuts(1000.0, 3500.0), kerf=3.0, trim_cut=0.0)
    assert (sold.number, sold.on_sale) == (1, True)
    assert (over.length, over.number, over.on_sale) == (3500.0, 1, False)
    (row,) = moulding_rows((sold, over))
    assert "longer than any" in row.line.reason
    assert row.line.gross == pytest.approx(2.4 + 3.5)


@given(lengths=st.lists(st.integers(60, 3000), min_size=1, max_size=30), kerf=st.integers(0, 4))
def test_whole_lengths_hold_all_pieces_and_each_once(lengths: list[int], kerf: int) -> None:
    own = cuts(*map(float, lengths))
    size = {c.id: c.length for c in own}
    stocks = pack_mouldings(own, kerf=float(kerf), trim_cut=0.0)
    assert sorted(i for s in stocks for c in s.cuts for i in c) == sorted(size)
    for stock in stocks:
        for pieces in stock.cuts:
            assert sum(size[i] for i in pieces) + kerf * (len(pieces) - 1) <= stock.length + 1e-6
    (row,) = moulding_rows(stocks)
    assert row.line.net == pytest.approx(sum(lengths) / 1000)
    assert row.line.gross == pytest.approx(sum(p.size * p.number for p in row.packs) / 1000)


def test_no_mouldings_give_no_rows() -> None:
    assert moulding_rows(pack_mouldings([], kerf=3.0, trim_cut=0.0)) == ()


# --- the whole set -----------------------------------------------------------------------------------------------

SCREWS = takeoff_line(item="screw 4x50", unit="", net=80, allowance=20, reason="boxes of 100", why=Working(formula="-"))


def takeoff_of(plan: Plan, **more: object) -> tuple[TakeoffRow, ...]:
    memo = Memo()
    finish = derive_finish(plan.brief, plan.walls, strips_of(plan.trim, None), memo)
    return derive_takeoff(
        plan.brief,
        memo,
        cut=(*plan.timber, *plan.panels),
        boards=plan.boards,
        sheets=plan.sheets,
        trim=plan.trim,
        fixing=(SCREWS,),
        floor=derive_floor(plan.brief, plan.walls, plan.layout, memo),
        finish=finish,
        **more,  # pyright: ignore[reportArgumentType]
    )


def test_a_takeoff_has_every_trade_in_order_and_adds_up(demo_plan: Plan) -> None:
    rows = takeoff_of(demo_plan)
    places = [TRADES.index(row.trade) for row in rows]
    assert places == sorted(places)
    assert {"timber", "sheets", "mouldings", "fixing", "paint"} <= {row.trade for row in rows}
    for row in rows:
        assert row.line.gross == pytest.approx(row.line.net + row.line.allowance)
        assert bool(row.line.reason) == (row.line.allowance > 0), row.line.item
        assert row.line.unit in ("m", "m2", "l", "")
    items = [(row.trade, row.line.item, row.line.unit) for row in rows]
    assert len(items) == len(set(items))


def test_boards_and_sheets_are_those_of_the_plan(demo_plan: Plan) -> None:
    rows = takeoff_of(demo_plan)
    boards = {r.line.item: r for r in rows if r.trade == "timber"}
    for packed in demo_plan.boards:
        assert boards[packed.stock].line.gross == packed.number + packed.spare
    run = math.fsum(line.length * line.number for line in demo_plan.timber)
    assert sum(r.line.net * r.packs[0].size for r in boards.values()) == pytest.approx(run, rel=0.1)
    sheets = [r for r in rows if r.trade == "sheets"]
    assert [r.packs[0].number for r in sheets] == [p.number for p in demo_plan.sheets]


def test_trim_is_counted_from_long_point_to_long_point(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("parlour")
    assert plan.trim is not None
    pieces = [*plan.trim.pieces, *plan.trim.returns]
    rows = {r.line.item: r for r in takeoff_of(plan) if r.trade == "mouldings"}
    for name in ("base 120", "picture rail 44"):
        own = [p.long_point for p in pieces if p.profile.name == name]
        assert rows[name].line.net == pytest.approx(sum(own) / 1000)


def frames(bought: float | None) -> MouldingLayout:
    tier = FrameTier(
        name="panels", moulding=30.0, bottom=300.0, top=900.0, gap=100.0, bought_width=bought, profile=PANEL
    )
    wall = FrameWall(name="back", start=0.0, end=2000.0, height=2400.0)
    return lay_out_frames(MouldingFramesJob(walls=(wall,), tiers=(tier,), grid=LengthStyle.metric()))


def test_frames_are_mitred_from_lengths_or_bought_whole(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("corner-metric")
    mitred = frames(None)
    (row,) = [r for r in takeoff_of(plan, frames=mitred) if r.line.item == "panel 30"]
    assert row.line.net * 1000 == pytest.approx(sum(2 * (f.width + f.height) for f in mitred.frames))
    bought = frames(800.0)
    (whole,) = [r for r in takeoff_of(plan, frames=bought) if "bought whole" in r.line.item]
    assert (whole.line.gross, whole.size) == (len(bought.frames), (800.0, 600.0))


def test_what_lies_over_a_wall_end_is_bought_as_timber_or_as_sheet(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("corner-metric")
    strip = WallEndCover(
        id="back/left end",
        wall="back",
        side="left",
        finish="cover strip",
        at=0.0,
        bottom=0.0,
        top=2250.0,
        width=47.0,
        thickness=18.0,
        stock="38x63",
        note="",
        why=Working(formula="-"),
    )
    board = replace(strip, id="side/right end", side="right", finish="return", stock="ply 9 mm")
    bare = replace(strip, finish="painted edge", thickness=0.0, stock="")
    rows = takeoff_of(plan, ends=(strip, board))
    (timber,) = [r for r in rows if "cover strip" in r.line.item]
    (sheet,) = [r for r in rows if "return" in r.line.item]
    assert (timber.trade, timber.line.unit, timber.line.net) == ("timber", "m", pytest.approx(2.25))
    assert (sheet.trade, sheet.line.unit, sheet.line.net) == ("sheets", "m2", pytest.approx(2.25 * 0.047))
    assert len(takeoff_of(plan, ends=(bare,))) == len(takeoff_of(plan))


def test_paint_comes_in_tins_that_hold_it(demo_plan: Plan) -> None:
    for row in takeoff_of(demo_plan):
        if row.trade == "paint":
            assert sum(p.size * p.number for p in row.packs) >= row.line.gross
            assert {p.unit for p in row.packs} == {"l"}
