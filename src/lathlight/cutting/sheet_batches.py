"""A first plan for a job of very many pieces: a few sheets at a time, filled from a mixture of what is still wanted.

A swarm over all the pieces would take too long for its first answer; over a mixture somewhat larger than the next
sheets it is quick, and every batch sees small pieces beside large ones.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.cutting.sheet_grid import holds
from lathlight.cutting.sheet_swarm import Swarm

if TYPE_CHECKING:
    from lathlight.cutting.sheet_blocks import Laid
    from lathlight.cutting.sheet_grid import SheetGrid

AT_ONCE = 3  # sheets of one batch
MIXTURE = 1.6  # area of a batch's pieces against its sheets
PLANS = 16


def in_batches(grid: SheetGrid) -> tuple[tuple[int, ...], tuple[tuple[Laid, ...], ...]] | None:
    """Return sheets and what lies in them, all pieces laid; None where the sheets that can be had ran out."""
    wanted = [piece.count for piece in grid.pieces]
    left = [sheet.limit for sheet in grid.sheets]
    bins: list[int] = []
    filled: list[tuple[Laid, ...]] = []
    while any(wanted):
        batch = _next_sheets(grid, wanted, left)
        if not batch:
            return None
        for place, sheet in zip(batch, _fill(grid, wanted, batch, seed=len(bins)), strict=True):
            left[place] -= 1
            if sheet:
                bins.append(place)
                filled.append(sheet)
            for laid in sheet:
                wanted[laid.piece] -= 1
    return tuple(bins), tuple(filled)


def _next_sheets(grid: SheetGrid, wanted: list[int], left: list[int]) -> list[int]:
    """Return the next sheets: free ones, then the cheapest by area that hold the largest piece still wanted."""
    largest = next(piece for piece, count in zip(grid.pieces, wanted, strict=True) if count)
    able = [n for n, sheet in enumerate(grid.sheets) if left[n] and (sheet.price == 0 or holds(sheet, largest))]
    if not able:
        return []
    best = min(able, key=lambda n: (grid.sheets[n].price / (grid.sheets[n].width * grid.sheets[n].length), n))
    area = sum(piece.area * count for piece, count in zip(grid.pieces, wanted, strict=True))
    sheet = grid.sheets[best]
    return [best] * min(AT_ONCE, left[best], max(1, area // (sheet.width * sheet.length)))


def _fill(grid: SheetGrid, wanted: list[int], batch: list[int], *, seed: int) -> tuple[tuple[Laid, ...], ...]:
    """Return the fullest of some plans for these sheets, from a mixture of the pieces."""
    room = sum(grid.sheets[n].width * grid.sheets[n].length for n in batch)
    area = sum(piece.area * count for piece, count in zip(grid.pieces, wanted, strict=True))
    share = min(1.0, MIXTURE * room / area)
    counts = [min(count, int(count * share) + 1) if count else 0 for count in wanted]
    chosen = [n for n, count in enumerate(counts) if count]
    small = replace(grid, pieces=tuple(replace(grid.pieces[n], count=counts[n]) for n in chosen))
    swarm = Swarm(small, bins=batch, seed=seed, plans=PLANS)
    grown = swarm.grown(swarm.first_genes())
    sheets = swarm.laid(grown, int(grown.left_out.argmin()))
    return tuple(tuple(replace(laid, piece=chosen[laid.piece]) for laid in sheet) for sheet in sheets)
