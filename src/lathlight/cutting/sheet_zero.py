"""Sheets without any waste, put together from the pieces upwards.

Where the sheets' area is just that of the pieces, every cut must fall on the edges of both its sides: two blocks join
only along sides of one length (the combining of rectangles of Wang 1983, with no waste allowed). Such fits are rare
among real sizes, so all blocks can be made, and sheets that between them use every piece once are then picked.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.cutting.sheet_blocks import Block, joined, piece_block

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Literal

    from lathlight.cutting.sheet_grid import SheetGrid

MOST_BLOCKS = 40_000
MOST_PICKS = 200_000
PAUSE = 256  # blocks between two looks at the clock


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    block: Block
    use: int  # how many of each piece, packed into one number


class _Packing:
    """Counts of pieces packed into one whole number, each with a bit that shows when it runs over."""

    def __init__(self, grid: SheetGrid) -> None:
        self.one: list[int] = []
        self.all = self._guard = 0
        shift = 0
        for piece in grid.pieces:
            bits = piece.count.bit_length()
            self.one.append(1 << shift)
            self.all |= piece.count << shift
            self._guard |= 1 << (shift + bits)
            shift += bits + 1

    def within(self, use: int, most: int) -> bool:
        """Return whether no piece is used more often than the most."""
        return ((most | self._guard) - use) & self._guard == self._guard


def zero_waste(grid: SheetGrid, bins: tuple[int, ...], pause: Callable[[], None]) -> tuple[Block, ...] | None:
    """Return a block that fills each sheet wholly, every piece used; None where none was found.

    `pause` is called now and then and may raise to stop.
    """
    packing = _Packing(grid)
    full = _Builder(grid, packing, bins, pause).built()
    return _Picker(packing, [full[place] for place in bins], bins, pause).picked()


class _Builder:
    """Makes every block that fits a sheet."""

    def __init__(self, grid: SheetGrid, packing: _Packing, bins: tuple[int, ...], pause: Callable[[], None]) -> None:
        self._grid, self._packing, self._pause = grid, packing, pause
        self._sheets = sorted(set(bins))
        self._wide = max(grid.sheets[b].width for b in bins)
        self._high = max(grid.sheets[b].length for b in bins)
        self._depth = grid.stages if grid.stages is not None else 10**9
        self._by_length: defaultdict[int, list[_Made]] = defaultdict(list)
        self._by_width: defaultdict[int, list[_Made]] = defaultdict(list)
        self._known: dict[tuple[int, int, int, str], int] = {}
        self._queue: list[_Made] = []

    def built(self) -> dict[int, list[_Made]]:
        """Return for each sheet the blocks that fill it."""
        for place, piece in enumerate(self._grid.pieces):
            for w, h in piece.ways:
                self._add(_Made(block=piece_block(piece=place, width=w, length=h), use=self._packing.one[place]))
        for done, made in enumerate(self._queue):
            if done % PAUSE == 0:
                self._pause()
            if len(self._queue) > MOST_BLOCKS:
                break
            self._combine(made)
        found: dict[int, list[_Made]] = {place: [] for place in self._sheets}
        for made in self._queue:
            for place in self._sheets:
                sheet = self._grid.sheets[place]
                if (made.block.width, made.block.length) == (sheet.width, sheet.length):
                    found[place].append(made)
        return found

    def _combine(self, made: _Made) -> None:
        """Join a block with every one before it that has a side alike."""
        width, length = made.block.width, made.block.length
        for other in tuple(self._by_length[length]):
            if other.block.width + width <= self._wide:
                self._join("row", made, other)
        for other in tuple(self._by_width[width]):
            if other.block.length + length <= self._high:
                self._join("column", made, other)
        self._by_length[length].append(made)
        self._by_width[width].append(made)
        if self._packing.within(2 * made.use, self._packing.all):
            if 2 * width <= self._wide:
                self._join("row", made, made)
            if 2 * length <= self._high:
                self._join("column", made, made)

    def _join(self, kind: Literal["row", "column"], made: _Made, other: _Made) -> None:
        use = made.use + other.use
        if self._packing.within(use, self._packing.all):
            self._add(_Made(block=joined(kind, [made.block, other.block]), use=use))

    def _add(self, made: _Made) -> None:
        """Take a block in, unless one as good is known."""
        block = made.block
        key = (block.width, block.length, made.use, block.kind)
        depth = block.depth
        if depth <= self._depth and depth < self._known.get(key, 10**9):
            self._known[key] = depth
            self._queue.append(made)


class _Picker:
    """Picks one block for each sheet so that every piece is used."""

    def __init__(
        self, packing: _Packing, full: list[list[_Made]], bins: tuple[int, ...], pause: Callable[[], None]
    ) -> None:
        self._packing, self._full, self._bins, self._pause = packing, full, bins, pause
        self._left = MOST_PICKS

    def picked(self) -> tuple[Block, ...] | None:
        """Return the blocks, sheet by sheet."""
        return self._pick(0, 0, self._packing.all)

    def _pick(self, sheet: int, first: int, rest: int) -> tuple[Block, ...] | None:
        if sheet == len(self._full):
            return () if rest == 0 else None
        self._left -= 1
        if self._left % PAUSE == 0:
            self._pause()
        for place in range(first, len(self._full[sheet])):
            made = self._full[sheet][place]
            if self._left > 0 and self._packing.within(made.use, rest):
                alike = sheet + 1 < len(self._bins) and self._bins[sheet + 1] == self._bins[sheet]
                others = self._pick(sheet + 1, place if alike else 0, rest - made.use)
                if others is not None:
                    return (made.block, *others)
        return None
