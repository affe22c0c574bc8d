"""The search for the cheapest sheets: a first plan, a bound, then every choice of sheets between the two.

It decides which sheets to try and when to stop; laying is left to the swarm, waste-free sheets to their builder.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.cutting.sheet_batches import in_batches
from lathlight.cutting.sheet_bound import SheetBound
from lathlight.cutting.sheet_breeding import Breeding, plans_for
from lathlight.cutting.sheet_grid import holds
from lathlight.cutting.sheet_mending import Mending
from lathlight.cutting.sheet_saw import merit, sawn, sawn_all
from lathlight.cutting.sheet_watch import StoppedError
from lathlight.cutting.sheet_zero import zero_waste
from lathlight.errors import NoAnswerError

if TYPE_CHECKING:
    from lathlight.cutting.sheet_blocks import Laid
    from lathlight.cutting.sheet_grid import SheetGrid
    from lathlight.cutting.sheet_plan import CutSheet, Ended
    from lathlight.cutting.sheet_watch import Watch

LARGE = 250  # pieces from which on sheets are filled in batches
PAIRS = 3  # of the emptiest sheets of a large plan, which are given up in turn
FIRST_PLANS = 16  # grown for the first plan
FIRST_GENERATIONS = 20  # bred where no more sheets can be had
TRIED = 4  # choices tried in the first turn, spread over those that still stand
MENDING = 5  # generations for which the best plan is mended once
SHORT, LONG = 25, 120  # generations for one choice, in the first turn and later


class SheetSearch:
    """The state of one search; the best plan is there at any time after `first`."""

    def __init__(self, grid: SheetGrid, watch: Watch) -> None:
        self.grid, self.watch = grid, watch
        self.bound = SheetBound(grid)
        self.sheets: tuple[CutSheet, ...] = ()
        self.cost = 0
        self._prices = {sheet.stock: sheet.price for sheet in grid.sheets}
        self._breeding: Breeding | None = None
        self._batched: tuple[tuple[int, ...], tuple[tuple[Laid, ...], ...]] | None = None

    def run(self) -> Ended:
        """Search until the cost is proven or the work done."""
        self._first()
        try:
            self._without_waste()
            self._raise_bound()
            if not self.proven:
                self._turns() if self._batched is None else self._fewer(*self._batched)
            self._polish()
        except StoppedError as stopped:
            return stopped.ended
        return "finished" if self.proven else "work limit"

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper is left to look for."""
        return self.cost <= self.bound.cost

    def _take(self, sheets: tuple[CutSheet, ...] | None, breeding: Breeding | None = None) -> bool:
        """Keep a plan if it is better than the best; return whether it costs less."""
        if sheets is None:
            return False
        cost = sum(self._prices[sheet.stock] for sheet in sheets)
        if self.sheets and (cost, merit(sheets)) >= (self.cost, merit(self.sheets)):
            return False
        cheaper = not self.sheets or cost < self.cost
        self.sheets, self.cost, self._breeding = sheets, cost, breeding or self._breeding
        self.watch.say(cost=cost, bound=self.bound.cost)
        return cheaper

    def _bins(self, choice: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(place for place, count in enumerate(choice) for _ in range(count))

    def _breed(self, choice: tuple[int, ...], *, seed: int, plans: int, generations: int) -> Breeding:
        plans = plans_for(self.grid, plans)
        return Breeding(self.grid, bins=self._bins(choice), seed=seed, plans=plans, generations=generations)

    def _first(self) -> None:
        """Make some plan: the cheapest choice of sheets, and more until all pieces find room."""
        choice = self.bound.sheets
        if not choice:
            raise self._impossible()
        if self.grid.count > LARGE:
            self._batched = in_batches(self.grid)
            if self._batched is not None and self._take(sawn_all(self.grid, *self._batched)):
                return
            self._batched = None
        while True:
            breeding = self._breed(choice, seed=0, plans=FIRST_PLANS, generations=1)
            whole = breeding.best_whole()
            if whole is not None:
                self._take(whole, breeding)
                return
            more = self._more(choice, breeding.left_out)
            if more is None:
                whole = breeding.run(FIRST_GENERATIONS, lambda: None)
                if whole is None:
                    raise self._impossible()
                self._take(whole, breeding)
                return
            choice = more

    def _more(self, choice: tuple[int, ...], area: int) -> tuple[int, ...] | None:
        """Return a choice with more sheets for what was left out; None where no more can be had."""
        sheets = self.grid.sheets
        free = [n for n, sheet in enumerate(sheets) if choice[n] < sheet.limit]
        if not free:
            return None

        def rate(n: int) -> tuple[int, float, int]:
            held = sum(holds(sheets[n], piece) for piece in self.grid.pieces)
            return -held, sheets[n].price / (sheets[n].width * sheets[n].length), n

        best = min(free, key=rate)
        sheet = sheets[best]
        add = min(sheet.limit - choice[best], max(1, -(-area // (sheet.width * sheet.length))))
        return (*choice[:best], choice[best] + add, *choice[best + 1 :])

    def _impossible(self) -> NoAnswerError:
        kerf = self.grid.kerf
        found = ", ".join(f"{s.limit} of {s.width - kerf} x {s.length - kerf}" for s in self.grid.sheets)
        error = NoAnswerError.of(
            place="sheets",
            found=f"at most {found}",
            expected=f"room for {self.grid.count} pieces",
            remedy="Allow more sheets, more stages of cuts or a longer straight edge, or let pieces turn.",
        )
        assert isinstance(error, NoAnswerError)
        return error

    def _raise_bound(self) -> None:
        for _ in range(self.watch.work.bound_rounds):
            if self.proven or self.bound.finished:
                break
            self.watch.pause()
            self.bound.improve()

    def _without_waste(self) -> None:
        """Where the cheapest choice is just as large as the pieces: try the builder of waste-free sheets."""
        grid, bins = self.grid, self._bins(self.bound.sheets)
        room = sum(grid.sheets[b].width * grid.sheets[b].length for b in bins)
        if not self.proven and room == sum(piece.area * piece.count for piece in grid.pieces):
            blocks = zero_waste(grid, bins, self.watch.pause)
            if blocks is not None:
                cut = [sawn(grid, grid.sheets[b], [block]) for b, block in zip(bins, blocks, strict=True)]
                whole = tuple(sheet for sheet in cut if sheet is not None)
                self._take(whole if len(whole) == len(cut) else None)

    def _turns(self) -> None:
        """Try the choices that still stand: short tries spread over all of them, as long as they help, then long ones.

        Every other long try goes to the cheapest choice.
        """
        left, turn = self.watch.work.generations, 0
        while left > 0 and not self.proven:
            standing = self.bound.standing(below=self.cost, most=TRIED * TRIED)
            if not standing:
                break
            spread = standing[:: max(1, len(standing) // TRIED)][:TRIED]
            long = [spread[0] if turn % 2 else spread[turn // 2 % len(spread)]]
            helped = False
            for place, choice in enumerate(long if turn else spread):
                length = LONG if turn else SHORT
                left -= length
                helped = self._try(choice, seed=1000 * turn + place, generations=length)
                if helped or left <= 0:
                    break
            turn += turn > 0 or not helped

    def _fewer(self, bins: tuple[int, ...], sheets: tuple[tuple[Laid, ...], ...]) -> None:
        """For a large plan: empty the sheet that holds least for its price and mend; again and again."""
        work, grid = self.watch.work, self.grid
        left, seed = work.generations, 0
        while left > 0 and not self.proven:
            paid = [n for n, b in enumerate(bins) if grid.sheets[b].price]

            def rate(n: int, bins: tuple[int, ...] = bins, sheets: tuple[tuple[Laid, ...], ...] = sheets) -> float:
                return sum(laid.width * laid.length for laid in sheets[n]) / grid.sheets[bins[n]].price

            least = sorted(paid, key=lambda n: (rate(n), n))[seed % PAIRS]
            fewer = (*bins[:least], *bins[least + 1 :])
            rest = (*sheets[:least], *sheets[least + 1 :])
            mending = Mending(grid, bins=fewer, sheets=rest, seed=seed, plans=work.plans)
            rounds = SHORT
            left, seed = left - rounds, seed + 1
            if mending.run(rounds, self.watch.pause):
                bins, sheets = fewer, mending.sheets
                self._take(sawn_all(grid, bins, sheets))

    def _try(self, choice: tuple[int, ...], *, seed: int, generations: int) -> bool:
        """Breed for one choice of sheets and mend the best; return whether a cheaper plan came of it."""
        pause, plans = self.watch.pause, self.watch.work.plans
        breeding = self._breed(choice, seed=seed, plans=plans, generations=generations)
        whole = breeding.run(generations, pause)
        if whole is None:
            bins = self._bins(choice)
            mending = Mending(self.grid, bins=bins, sheets=breeding.closest()[1], seed=seed, plans=plans)
            if mending.run(generations // MENDING, pause):
                whole = sawn_all(self.grid, bins, mending.sheets)
        return self._take(whole, breeding)

    def _polish(self) -> None:
        """Breed on from the best plan towards fewer cuts and a larger offcut."""
        if self._breeding is not None:
            for _ in range(self.watch.work.polish):
                self.watch.pause()
                self._breeding.step()
                self._take(self._breeding.best_whole())
