"""First-fit counts of boards and sheets: quick, repeatable, and not proven to be the fewest.

The sawing stage proves its plans; these counts serve choices made while framing, and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

TOUCH = 1e-6
OPEN = 60  # boards or sheets that are looked through for room; older ones are left, so that the work grows evenly


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """Boards of one stock length, each the lengths cut from it in order [mm]; ``items`` indexes the given pieces."""

    length: float
    items: tuple[tuple[int, ...], ...]
    cuts: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedRectangle:
    """Where a piece lies on a sheet: x across the sheet's width, y along its length [mm]."""

    item: int
    x: float
    y: float
    width: float
    height: float
    turned: bool


def pack_boards(lengths: Sequence[float], *, stock: Sequence[float], kerf: float, trim_cut: float = 0.0) -> Boards:
    """Return the first-fit plan with the least timber, all from one stock length.

    Parameters
    ----------
    lengths
        Pieces [mm]; a piece longer than every stock length gets a board of its own.
    stock
        Stock lengths on sale [mm].
    kerf, trim_cut
        Width of a cut; what is cut off a factory end first [mm]. A piece as long as the board is taken whole.

    Returns
    -------
    Boards
        ``cuts`` counts every saw cut; a piece that ends on the board's end needs none.
    """
    longest = max(lengths, default=0.0)
    usable = [s for s in sorted(stock) if all(_comes_out(need, s, trim_cut) for need in set(lengths))]
    usable = usable or [max([*stock, longest])]
    plans = [_first_fit(lengths, length, kerf, trim_cut) for length in usable]
    return min(plans, key=lambda p: (p.length * len(p.items), len(p.items), p.length))


def _comes_out(need: float, board: float, trim_cut: float) -> bool:
    return abs(need - board) <= TOUCH or need <= board - trim_cut + TOUCH


def _first_fit(lengths: Sequence[float], board: float, kerf: float, trim_cut: float) -> Boards:
    order = sorted(range(len(lengths)), key=lambda i: (-lengths[i], i))
    least = min(lengths, default=0.0)
    left: list[float] = []
    items: list[list[int]] = []
    still_open: list[int] = []
    cuts = 0
    for i in order:
        need = lengths[i]
        if need >= board - TOUCH:
            left.append(0.0)
            items.append([i])
            continue
        b = next((b for b in still_open if left[b] >= need - TOUCH), len(left))
        if b == len(left):
            left.append(board - trim_cut)
            items.append([])
            still_open = [o for o in still_open if left[o] >= least - TOUCH][-OPEN:]
            still_open.append(b)
        cuts += 0 if abs(left[b] - need) <= TOUCH else 1
        left[b] -= need + kerf
        items[b].append(i)
    return Boards(length=board, items=tuple(tuple(b) for b in items), cuts=cuts)


def pack_sheets(
    sizes: Sequence[tuple[float, float]], *, width: float, length: float, kerf: float, may_turn: Sequence[bool]
) -> tuple[tuple[PlacedRectangle, ...], ...]:
    """Return the pieces sheet by sheet, in shelves across the sheet, first shelf that fits.

    Parameters
    ----------
    sizes
        Width and height of every piece as it stands in the wall [mm].
    width, length
        The sheet's short and long side [mm].
    may_turn
        Whether each piece may lie either way; otherwise its height lies along the sheet's length.

    Notes
    -----
    Two cuts deep: shelves are cut across the sheet, pieces out of the shelves. A piece that fits no way round gets a
    sheet of its own at its full size.
    """
    order = sorted(range(len(sizes)), key=lambda i: (-max(sizes[i]), -min(sizes[i]), i))
    sheets: list[_Sheet] = []
    for i in order:
        ways = _ways(sizes[i], width, length, turn=may_turn[i])
        spot = next((s for s in sheets[-OPEN:] if s.take(i, ways, kerf)), None)
        if spot is None:
            fresh = _Sheet(width=width, length=length)
            if not fresh.take(i, ways, kerf):
                fresh.force(i, sizes[i])
            sheets.append(fresh)
    return tuple(tuple(s.placed) for s in sheets)


def _ways(
    size: tuple[float, float], width: float, length: float, *, turn: bool
) -> tuple[tuple[float, float, bool], ...]:
    """Return the ways round that fit, flattest shelf first."""
    ways = [(size[0], size[1], False)]
    if turn and abs(size[0] - size[1]) > TOUCH:
        ways.append((size[1], size[0], True))
    fitting = [w for w in ways if w[0] <= width + TOUCH and w[1] <= length + TOUCH]
    return tuple(sorted(fitting, key=lambda w: (w[1], w[2])))


class _Sheet:
    """A sheet being filled with shelves: (bottom, height, used width)."""

    def __init__(self, *, width: float, length: float) -> None:
        self.width, self.length = width, length
        self.shelves: list[list[float]] = []
        self.placed: list[PlacedRectangle] = []

    def take(self, item: int, ways: Sequence[tuple[float, float, bool]], kerf: float) -> bool:
        """Place a piece on an open shelf or on a new one; False where there is no room."""
        for w, h, turned in ways:
            for shelf in self.shelves:
                if h <= shelf[1] + TOUCH and shelf[2] + w <= self.width + TOUCH:
                    self._put(item, shelf, w, h, turned=turned, kerf=kerf)
                    return True
        bottom = self.shelves[-1][0] + self.shelves[-1][1] + kerf if self.shelves else 0.0
        for w, h, turned in ways:
            if bottom + h <= self.length + TOUCH:
                shelf = [bottom, h, 0.0]
                self.shelves.append(shelf)
                self._put(item, shelf, w, h, turned=turned, kerf=kerf)
                return True
        return False

    def _put(self, item: int, shelf: list[float], w: float, h: float, *, turned: bool, kerf: float) -> None:
        self.placed.append(PlacedRectangle(item=item, x=shelf[2], y=shelf[0], width=w, height=h, turned=turned))
        shelf[2] += w + kerf

    def force(self, item: int, size: tuple[float, float]) -> None:
        """Take a piece that no sheet holds, so that it is counted."""
        self.shelves.append([0.0, self.length, self.width])
        self.placed.append(PlacedRectangle(item=item, x=0.0, y=0.0, width=size[0], height=size[1], turned=False))
