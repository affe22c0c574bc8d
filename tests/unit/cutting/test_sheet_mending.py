from __future__ import annotations

from tests.unit.cutting.sheet_cases import item, job

from lathlight.cutting.sheet_blocks import Laid
from lathlight.cutting.sheet_grid import grid_of
from lathlight.cutting.sheet_jobs import SheetStock
from lathlight.cutting.sheet_mending import Mending

# three sheets of 4 x 4: three pieces of 4 x 2 and three of 2 x 4 make two and a half, but one sheet holds one kind
CASE = job(item(4, 2, 3), item(2, 4, 3), stocks=(SheetStock(width=4, length=4, price=1),), kerf=0)
CLUMSY = (
    (Laid(piece=0, x=0, y=0, width=2, length=4),),
    (Laid(piece=0, x=0, y=0, width=2, length=4), Laid(piece=0, x=2, y=0, width=2, length=4)),
    (Laid(piece=1, x=0, y=0, width=4, length=2), Laid(piece=1, x=0, y=2, width=4, length=2)),
)


def test_what_was_left_out_finds_room_when_sheets_are_laid_anew() -> None:
    grid = grid_of(CASE)
    assert [(piece.width, piece.length) for piece in grid.pieces] == [(2, 4), (4, 2)]
    mending = Mending(grid, bins=(0, 0, 0), sheets=CLUMSY, seed=1, plans=16)
    assert mending.left_out == 8
    assert not mending.run(40, lambda: None)  # three of each do not go into three such sheets
    assert mending.left_out == 8
    assert sum(len(sheet) for sheet in mending.sheets) == 5


def test_a_plan_that_can_be_mended_is_mended() -> None:
    case = job(item(4, 2, 2), item(2, 4, 4), stocks=(SheetStock(width=4, length=4, price=1),), kerf=0)
    grid = grid_of(case)
    upright = Laid(piece=0, x=0, y=0, width=2, length=4)
    level = Laid(piece=1, x=0, y=0, width=4, length=2)
    mending = Mending(grid, bins=(0, 0, 0), sheets=((upright,), (level,), (upright,)), seed=1, plans=16)
    assert mending.left_out == 3 * 8
    assert mending.run(40, lambda: None)
    laid = sorted(piece.piece for sheet in mending.sheets for piece in sheet)
    assert laid == [0, 0, 0, 0, 1, 1]
