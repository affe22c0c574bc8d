"""A plan that leaves a little out, mended a few sheets at a time.

Some sheets are emptied, what lay in them and what was left out is laid anew by a small swarm, and the answer is kept
where no more is left out than before (a large neighbourhood search after Shaw 1998: from memory).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.sheet_breeding import Breeding, plans_for

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.cutting.sheet_blocks import Laid
    from lathlight.cutting.sheet_grid import SheetGrid

    Sheets = tuple[tuple[Laid, ...], ...]

GENERATIONS = 20  # bred for one mending
FEWEST, MOST = 2, 4  # sheets emptied at once


class Mending:
    """One plan on its way to leaving nothing out."""

    def __init__(self, grid: SheetGrid, *, bins: tuple[int, ...], sheets: Sheets, seed: int, plans: int) -> None:
        self._grid, self._bins, self._plans = grid, bins, plans
        self._seed = seed
        self._random = np.random.default_rng(seed)
        self.sheets = sheets
        self._missing = [piece.count for piece in grid.pieces]
        for sheet in sheets:
            for laid in sheet:
                self._missing[laid.piece] -= 1

    @property
    def left_out(self) -> int:
        """Area of what is left out."""
        return sum(n * piece.area for n, piece in zip(self._missing, self._grid.pieces, strict=True))

    def run(self, rounds: int, pause: Callable[[], None]) -> bool:
        """Mend so many times; return whether nothing is left out."""
        if len(self._bins) <= FEWEST:
            return False
        for turn in range(rounds):
            if self.left_out == 0:
                break
            size = int(self._random.integers(FEWEST, min(MOST, len(self._bins) - 1) + 1))
            places = self._random.choice(len(self._bins), size=size, replace=False)
            self._mend(sorted(places.tolist()), seed=self._seed + turn, pause=pause)
        return self.left_out == 0

    def _mend(self, places: list[int], *, seed: int, pause: Callable[[], None]) -> None:
        """Empty some sheets and lay their pieces and the missing ones anew."""
        counts = self._missing.copy()
        for place in places:
            for laid in self.sheets[place]:
                counts[laid.piece] += 1
        chosen = [n for n, count in enumerate(counts) if count]
        pieces = tuple(replace(self._grid.pieces[n], count=counts[n]) for n in chosen)
        small = replace(self._grid, pieces=pieces)
        bins = tuple(self._bins[place] for place in places)
        plans = plans_for(small, self._plans)
        breeding = Breeding(small, bins=bins, seed=seed, plans=plans, generations=GENERATIONS)
        for _ in range(GENERATIONS):
            if breeding.left_out == 0:
                break
            pause()
            breeding.step()
        left_out, filled = breeding.closest()
        if left_out <= self.left_out:
            sheets = list(self.sheets)
            self._missing = counts
            for place, sheet in zip(places, filled, strict=True):
                sheets[place] = tuple(replace(laid, piece=chosen[laid.piece]) for laid in sheet)
                for laid in sheets[place]:
                    self._missing[laid.piece] -= 1
            self.sheets = tuple(sheets)
