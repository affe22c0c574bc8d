from __future__ import annotations

import random

import numpy as np
import pytest
from tests.unit.cutting.sheet_cases import random_job

from lathlight.cutting import sheet_worth
from lathlight.cutting.sheet_grid import grid_of
from lathlight.cutting.sheet_jobs import SheetItem, SheetJob, SheetStock
from lathlight.cutting.sheet_worth import SplitTable, StagedTable, WorthTables

# Beasley 1985, problem 1: 250 x 250, width, length; the value is the area, any number of each
GCUT1 = [
    (167, 184),
    (114, 118),
    (167, 152),
    (83, 140),
    (70, 86),
    (143, 166),
    (120, 160),
    (66, 148),
    (87, 141),
    (69, 165),
]
GCUT1_BEST = 56460
# Christofides and Whitlock 1977, problem 1: 15 x 10, width, length, most of it, value
CGCUT1 = [(8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17), (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2)]
CGCUT1_BEST = 244


@pytest.mark.published(
    source="Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, J. Opl Res. Soc. 36 (1985)",
    place="problem 1, non-staged",
)
def test_the_best_value_of_any_guillotine_cutting() -> None:
    items = tuple(SheetItem(width=w, length=h, count=(250 // w) * (250 // h)) for w, h in GCUT1)
    stock = SheetStock(width=250, length=250, price=1)
    grid = grid_of(SheetJob(items=items, stocks=(stock,), kerf=0, stages=None))
    values = np.array([piece.area for piece in grid.pieces])
    assert SplitTable(grid, step=1).filled(values).held.tolist() == [GCUT1_BEST]


@pytest.mark.published(
    source="Christofides and Whitlock, An algorithm for two-dimensional cutting problems, Opns Res. 25 (1977)",
    place="problem 1",
)
def test_the_bound_is_not_below_the_best_of_limited_pieces() -> None:
    items = tuple(SheetItem(width=w, length=h, count=count) for w, h, count, _ in CGCUT1)
    grid = grid_of(SheetJob(items=items, stocks=(SheetStock(width=15, length=10, price=1),), kerf=0, stages=None))
    values = np.array([CGCUT1[piece.item][3] for piece in grid.pieces])
    assert SplitTable(grid, step=1).filled(values).held[0] >= CGCUT1_BEST


@pytest.mark.parametrize("seed", range(12))
def test_the_pieces_told_are_worth_what_is_told(seed: int) -> None:
    grid = grid_of(random_job(seed))
    values = np.array([random.Random(seed + n).randint(0, 50) for n in range(len(grid.pieces))])
    fillings = [StagedTable(grid, step=1, turned=turned).filled(values) for turned in (False, True)]
    fillings.append(SplitTable(grid, step=1).filled(values))
    for filling in fillings:
        for sheet, held in enumerate(filling.held.tolist()):
            assert int(values @ np.array(filling.counts(sheet))) == held


@pytest.mark.parametrize("seed", range(12))
def test_a_coarser_grid_only_adds_room(seed: int) -> None:
    grid = grid_of(random_job(seed))
    values = np.array([piece.area for piece in grid.pieces])
    for table in (lambda step: StagedTable(grid, step=step, turned=False), lambda step: SplitTable(grid, step=step)):
        fine, coarse = table(1).filled(values).held, table(2).filled(values).held
        assert (coarse >= fine).all()


def test_a_grid_too_fine_for_the_table_is_coarsened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet_worth, "MOST_CELLS", 20)
    assert WorthTables(grid_of(random_job(5, stages=None))).step > 1


def test_a_strip_that_adds_nothing_at_first_still_counts_beside_another() -> None:
    items = (SheetItem(width=5, length=4, count=1), SheetItem(width=5, length=5, count=1))
    grid = grid_of(SheetJob(items=items, stocks=(SheetStock(width=5, length=9, price=1),), kerf=0))
    values = np.array([{4: 6, 5: 5}[piece.length] for piece in grid.pieces])
    assert StagedTable(grid, step=1, turned=False).filled(values).held[0] >= 11
