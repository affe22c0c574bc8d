"""Wall ends: painted, covered with a strip, closed with a return board."""

from __future__ import annotations

from dataclasses import replace

from lathlight.catalog import load_catalog
from lathlight.mouldings import EndToCover, WallEndCover, plan_wall_ends
from lathlight.mouldings.wall_ends import narrowest_timber
from lathlight.units import LengthStyle

CATALOG = load_catalog()
METRIC = LengthStyle.metric()
LUMBER = tuple(row for _, row in sorted(CATALOG.lumber.items()))
END = EndToCover(
    wall="back",
    side="right",
    finish="painted edge",
    length=3000.0,
    height=2440.0,
    sheet=CATALOG.sheets["ply 9 mm"],
    framing=CATALOG.lumber["38x63"],
    timbers=LUMBER,
)


def planned(end: EndToCover) -> WallEndCover:
    (cover,) = plan_wall_ends((end,), grid=METRIC)
    return cover


def test_a_painted_edge_says_how_much_shows_and_takes_no_stock() -> None:
    cover = planned(END)
    assert (cover.id, cover.at, cover.width, cover.length) == ("back/right end", 3000, 72, 2440)
    assert (cover.stock, cover.thickness) == ("", 0)
    assert "end stud" in cover.note


def test_a_return_board_is_of_the_walls_own_sheet_and_covers_sheet_and_frame() -> None:
    cover = planned(replace(END, finish="return", side="left"))
    assert (cover.stock, cover.thickness, cover.width, cover.at) == ("ply 9 mm", 9, 72, 0)
    assert "raw front edge" in cover.note


def test_a_cover_strip_is_taken_from_the_thinnest_timber_that_is_broad_enough() -> None:
    cover = planned(replace(END, finish="cover strip"))
    thinner = [t for t in LUMBER if max(t.width, t.depth) >= 72 and min(t.width, t.depth) < cover.thickness]
    stock = CATALOG.lumber[cover.stock]
    assert max(stock.width, stock.depth) >= 72
    assert not thinner


def test_where_no_timber_is_broad_enough_the_strip_is_of_sheet() -> None:
    assert planned(replace(END, finish="cover strip", timbers=())).stock == "ply 9 mm"
    assert narrowest_timber(LUMBER, broad=10_000.0) is None
