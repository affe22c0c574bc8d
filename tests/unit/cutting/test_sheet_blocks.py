from __future__ import annotations

from tests.unit.cutting.sheet_cases import item, job

from lathlight.cutting.sheet_blocks import Laid, blocks_of
from lathlight.cutting.sheet_grid import grid_of
from lathlight.cutting.sheet_jobs import SheetStock
from lathlight.cutting.sheet_saw import sawn


def laid(*sizes: tuple[int, int, int, int]) -> tuple[Laid, ...]:
    return tuple(Laid(piece=0, x=x, y=y, width=w, length=h) for x, y, w, h in sizes)


def test_a_grid_of_four_can_be_cut_either_way_first() -> None:
    blocks = blocks_of(laid((0, 0, 2, 3), (2, 0, 2, 3), (0, 3, 2, 3), (2, 3, 2, 3)))
    assert [(block.kind, block.width, block.length, block.depth) for block in blocks] == [
        ("row", 4, 6, 2),
        ("column", 4, 6, 2),
    ]


def test_a_pinwheel_has_no_straight_cut() -> None:
    assert blocks_of(laid((0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1))) == []


def test_gaps_close_so_that_the_waste_falls_off_in_one() -> None:
    case = job(item(2, 5, 2), stocks=(SheetStock(width=9, length=5, price=1),), kerf=0)
    grid = grid_of(case)
    sheet = sawn(grid, grid.sheets[0], blocks_of(laid((0, 0, 2, 5), (5, 0, 2, 5))))
    assert sheet is not None
    assert [cut.at for cut in sheet.cuts] == [2, 2]
    assert [(part.x, part.width) for part in sheet.offcuts] == [(4, 5)]


def test_waste_above_a_row_comes_off_in_one_long_cut_where_stages_allow() -> None:
    case = job(item(3, 4, 3), stocks=(SheetStock(width=9, length=9, price=1),), kerf=0, stages=2)
    grid = grid_of(case)
    block = blocks_of(laid((0, 0, 3, 4), (3, 0, 3, 4), (6, 0, 3, 4)))
    sheet = sawn(grid, grid.sheets[0], block)
    assert sheet is not None
    assert [(cut.along, cut.at) for cut in sheet.cuts] == [("width", 4), ("length", 3), ("length", 3)]
    assert [(part.width, part.length) for part in sheet.offcuts] == [(9, 5)]
