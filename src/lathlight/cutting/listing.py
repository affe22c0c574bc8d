"""Every pattern that a plan with given bars could use: listed whole, thinned by what each pattern may waste.

For whole-number worths y of the pieces let V(t) be the most worth a bar of stock t can hold. A plan that covers the
counts d out of bars n wastes, over all its bars, at most V·n - y·d of that worth; so no one bar wastes more. Several
worths thin at once (reduced-cost fixing; from memory after Nemhauser and Wolsey 1988). Only full patterns are listed:
a piece more never makes a plan impossible.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.patterns import Grid, Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from lathlight.cutting.cuts import Cut


def _tails(grid: Grid, values: NDArray[np.int64], room: int) -> list[NDArray[np.int64]]:
    """Return for each piece the best worth of every length by the pieces from there on."""
    table = np.zeros(room + 1, dtype=np.int64)
    tails = [table]
    widths, counts, worth = grid.widths.tolist(), grid.counts.tolist(), values.tolist()
    for place in range(len(widths) - 1, -1, -1):
        width, left, step = widths[place], min(counts[place], room // widths[place]), 1
        table = table.copy()
        while left > 0 and worth[place] > 0:
            taken = min(step, left)
            step *= 2
            left -= taken
            size = width * taken
            table[size:] = np.maximum(table[size:], table[: room + 1 - size] + worth[place] * taken)
        tails.append(table)
    return tails[::-1]


class Listing:
    """Lists patterns for one grid; keeps the tables of every set of worths it has met."""

    def __init__(self, grid: Grid) -> None:
        self._grid = grid
        self._room = int(grid.rooms.max())
        self._tables: dict[bytes, list[NDArray[np.int64]]] = {}

    def _tails(self, values: NDArray[np.int64]) -> list[NDArray[np.int64]]:
        key = values.tobytes()
        if key not in self._tables:
            self._tables[key] = _tails(self._grid, values, self._room)
        return self._tables[key]

    def patterns(
        self, stock: int, *, cuts: Sequence[Cut], slacks: Sequence[int], most: int, full: bool = True
    ) -> list[Pattern] | None:
        """Return all patterns of a stock that waste no more than each slack; None where there are more than `most`."""
        grid = self._grid
        widths, counts = grid.widths.tolist(), grid.counts.tolist()
        later = (np.cumsum((grid.widths * grid.counts)[::-1])[::-1] - grid.widths * grid.counts).tolist()
        room = np.array([grid.rooms[stock]])
        tables = [self._tails(cut.piece_values) for cut in cuts]
        needs = [np.array([int(cut.bar_values[stock]) - slack]) for cut, slack in zip(cuts, slacks, strict=True)]
        taken = np.zeros((1, 0), dtype=np.int16)
        for place, (width, count) in enumerate(zip(widths, counts, strict=True)):
            number = np.minimum(count, room // width) + 1
            row = np.repeat(np.arange(len(room)), number)
            times = np.arange(len(row)) - np.repeat(np.cumsum(number) - number, number)
            room = room[row] - times * width
            keep = np.ones(len(room), dtype=np.bool_)
            for q, cut in enumerate(cuts):
                needs[q] = needs[q][row] - times * int(cut.piece_values[place])
                keep &= tables[q][place + 1][room] >= needs[q]
            if full:  # where one more could be cut, all that is still to come must be able to fill its room
                keep &= (times == count) | (room < width + later[place])
            room, row, times = room[keep], row[keep], times[keep]
            needs = [need[keep] for need in needs]
            if len(room) > 20 * most:
                return None
            taken = np.column_stack([taken[row], times.astype(np.int16)])
        if full:
            shortest = np.min(np.where(taken < grid.counts, grid.widths, np.iinfo(np.int64).max), axis=1)
            taken = taken[room < shortest]
        if len(taken) > most:
            return None
        return [Pattern(stock=stock, counts=tuple(line)) for line in taken.tolist()]
