"""The takeoff of mouldings, and the takeoff of a whole set."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, cast

import pytest

from lathlight.catalog import load_catalog
from lathlight.finishing import TRADES, MouldingStock, TakeoffRow, moulding_rows, takeoff_line
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
from lathlight.plan.moulding_cuts import moulding_cuts
from lathlight.plan.sawing import derive_sawing, moulding_stocks
from lathlight.plan.takeoff import derive_takeoff
from lathlight.units import LengthStyle
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Callable

PROFILES = load_catalog().profiles
RAIL = replace(PROFILES["rail 57"], lengths=(2400.0, 3000.0))
PANEL = PROFILES["panel 30"]


def stock(length: float, *pieces: float, on_sale: bool = True) -> MouldingStock:
    ids = tuple((f"piece {i}",) for i in range(len(pieces)))
    return MouldingStock(
        profile=RAIL, length=length, on_sale=on_sale, cuts=ids, net=sum(pieces), counted="proven: nothing less will do"
    )


def test_a_row_holds_all_lengths_of_a_moulding_and_says_how_they_were_counted() -> None:
    (row,) = moulding_rows((stock(2400.0, 1000.0, 2200.0), stock(3000.0, 2900.0)))
    assert [(p.size, p.number) for p in row.packs] == [(2400.0, 2), (3000.0, 1)]
    assert (row.line.net, row.line.gross) == (pytest.approx(6.1), pytest.approx(7.8))
    assert "nothing less will do" in row.line.reason


def test_a_piece_longer_than_any_that_is_sold_is_named_in_the_row() -> None:
    (row,) = moulding_rows((stock(2400.0, 1000.0), stock(3500.0, 3500.0, on_sale=False)))
    assert "longer than any" in row.line.reason
    assert row.line.gross == pytest.approx(2.4 + 3.5)


def test_no_mouldings_give_no_rows() -> None:
    assert moulding_rows([]) == ()


# --- the whole set -----------------------------------------------------------------------------------------------

SCREWS = takeoff_line(item="screw 4x50", unit="", net=80, allowance=20, reason="boxes of 100", why=Working(formula="-"))


def takeoff_of(plan: Plan, **more: object) -> tuple[TakeoffRow, ...]:
    memo = Memo()
    finish = derive_finish(plan.brief, plan.walls, strips_of(plan.trim, None), memo)
    cut = moulding_cuts(plan.trim, (), cast("MouldingLayout | None", more.get("frames")))
    return derive_takeoff(
        plan.brief,
        cut=(*plan.timber, *plan.panels),
        boards=plan.boards,
        sheets=plan.sheets,
        mouldings=moulding_stocks(derive_sawing(plan.brief, (), (), cut, memo), cut),
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
    for name, row in boards.items():
        assert row.line.gross == sum(p.number + p.spare for p in demo_plan.boards if p.stock == name)
    assert set(boards) == {packed.stock for packed in demo_plan.boards}
    run = math.fsum(line.length * line.number for line in demo_plan.timber)
    bought = sum(p.size * p.number for r in boards.values() for p in r.packs)
    assert run < bought < 1.5 * run
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
