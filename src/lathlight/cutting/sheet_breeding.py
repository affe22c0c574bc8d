"""One try at filling given sheets: a swarm bred generation by generation until nothing is left out.

Each plan of the swarm anneals on its own; now and then the worst take over the genes of the best.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.sheet_saw import merit, sawn_all
from lathlight.cutting.sheet_swarm import Swarm

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from lathlight.cutting.sheet_blocks import Laid
    from lathlight.cutting.sheet_grid import SheetGrid
    from lathlight.cutting.sheet_plan import CutSheet
    from lathlight.cutting.sheet_swarm import Genes, Grown

WARMTH = 0.5  # of the smallest piece's area: how much worse a child may be at first
EXCHANGE = 10  # generations between two exchanges of genes
SHARE = 8  # one plan in so many is replaced then
MOST_LAID = 6_000  # pieces laid in one generation: fewer plans where the job is large
LOOKS = 4  # whole plans looked at closely in one generation
ROOM_WEIGHT = 1e-3  # a large free part is worth so much of what is left out


def plans_for(grid: SheetGrid, most: int) -> int:
    """Return how many plans to grow at once."""
    return max(2, min(most, MOST_LAID // max(1, grid.count)))


class Breeding:
    """A swarm on its way to filling some sheets."""

    def __init__(self, grid: SheetGrid, *, bins: tuple[int, ...], seed: int, plans: int, generations: int) -> None:
        self.grid, self.bins = grid, bins
        self.swarm = Swarm(grid, bins=bins, seed=seed, plans=plans)
        self._random = np.random.default_rng(seed + 1)
        self._warmth = WARMTH * min(piece.area for piece in grid.pieces)
        self._generations = max(1, generations)
        self._done = 0
        self._genes: Genes = self.swarm.first_genes()
        self.grown: Grown = self.swarm.grown(self._genes)
        self._held: Grown = self.grown
        self._cost = self._costs(self.grown)

    def _costs(self, grown: Grown) -> NDArray[np.float64]:
        return grown.left_out - ROOM_WEIGHT * grown.largest

    @property
    def left_out(self) -> int:
        """The least area that a plan of the last generation leaves out."""
        return int(self.grown.left_out.min())

    def step(self) -> None:
        """Breed and grow one generation."""
        self._done += 1
        warmth = self._warmth * max(0.0, 1.0 - self._done / self._generations)
        bred = self.swarm.bred(self._genes, self._held)
        self.grown = self.swarm.grown(bred)
        cost = self._costs(self.grown)
        luck = -np.log(self._random.random(len(cost)))
        better = cost <= self._cost + warmth * luck
        self._genes = self._genes.where(better, bred)
        self._held = self._held.where(better, self.grown)
        self._cost = np.where(better, cost, self._cost)
        if self._done % EXCHANGE == 0:
            rows = np.argsort(self._cost, kind="stable")
            few = len(rows) // SHARE
            rows[len(rows) - few :] = rows[:few]
            self._genes, self._held, self._cost = self._genes.taken(rows), self._held.taken(rows), self._cost[rows]

    def run(self, generations: int, pause: Callable[[], None]) -> tuple[CutSheet, ...] | None:
        """Return the first plan that leaves nothing out, bred in so many generations; None where none did."""
        for _ in range(generations):
            whole = self.best_whole()
            if whole is not None:
                return whole
            pause()
            self.step()
        return self.best_whole()

    def best_whole(self) -> tuple[CutSheet, ...] | None:
        """Return the best of the last generation's plans that leave nothing out, as cut sheets."""
        whole = np.flatnonzero(self.grown.left_out == 0)
        rank = np.argsort(-self.grown.largest[whole], kind="stable")
        found: list[tuple[CutSheet, ...]] = []
        for plan in whole[rank][:LOOKS].tolist():
            sheets = sawn_all(self.grid, self.bins, self.swarm.laid(self.grown, plan))
            if sheets is not None:
                found.append(sheets)
        return min(found, key=merit, default=None)

    def closest(self) -> tuple[int, tuple[tuple[Laid, ...], ...]]:
        """Return the area left out by the best plan at hand, and its pieces sheet by sheet."""
        plans = self.grown if self.left_out == 0 else self._held
        plan = int(plans.left_out.argmin())
        return int(plans.left_out[plan]), self.swarm.laid(plans, plan)
