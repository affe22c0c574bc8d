"""The most valuable filling of every bar, and the pieces that give it.

The bounded knapsack by one table over all lengths, which prices every stock at once (Gilmore and Gomory 1961, 1963),
with the counts split into powers of two (common practice). Whole-number worths give whole-number answers.
"""

from __future__ import annotations

import bisect
from typing import TYPE_CHECKING, Any, Protocol, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

Worths: TypeAlias = "NDArray[Any]"  # float64 or int64, and so is what comes of them

LONG = 12_000  # rooms above this are worked in place
SOME = 2  # shorter fillings handed out beside the best
EVERY = 16  # steps between two that are kept


class Fillings(Protocol):
    """The best fillings at some worths of the pieces."""

    def held(self) -> Worths:
        """Return the most worth that one bar of each stock can hold."""
        ...

    def counts(self, stock: int) -> tuple[int, ...]:
        """Return how many of each piece fill a bar of the stock best."""
        ...

    def next_best(self, worth: float) -> list[tuple[int, ...]]:
        """Return some shorter fillings of the first stock that are worth more than that."""
        ...


def fill(*, widths: NDArray[np.int64], counts: NDArray[np.int64], values: Worths, rooms: NDArray[np.int64]) -> Fillings:
    """Return the best filling of a bar of each room at these worths; pieces of no worth stay out."""
    if int(rooms.max()) > LONG:
        return _LongTable(widths, counts, values, rooms)
    return _Table(widths, counts, values, rooms)


def _lower(best: Worths, room: int, worth: float) -> list[int]:
    """Return the next rooms below one in which the best filling is another, and still worth more than that."""
    found: list[int] = []
    while len(found) < SOME:
        room = bisect.bisect_left(best, best[room], 0, room) - 1  # just too short for that filling
        if room < 0 or best[room] <= worth:
            break
        found.append(room)
    return found


def split_counts(widths: NDArray[np.int64], counts: NDArray[np.int64], room: int) -> list[tuple[int, int]]:
    """Return (piece, how many at once) so that every number up to the count is a sum of some.

    Examples
    --------
    >>> split_counts(np.array([3]), np.array([5]), 100)
    [(0, 1), (0, 2), (0, 2)]
    """
    parts: list[tuple[int, int]] = []
    for place, (width, count) in enumerate(zip(widths.tolist(), counts.tolist(), strict=True)):
        left, step = min(count, room // width), 1
        while left > 0:
            taken = min(step, left)
            parts.append((place, taken))
            left -= taken
            step *= 2
    return parts


class _Table:
    """Every length up to the longest room at once."""

    def __init__(
        self, widths: NDArray[np.int64], counts: NDArray[np.int64], values: Worths, rooms: NDArray[np.int64]
    ) -> None:
        self._pieces = len(widths)
        self._rooms = rooms.tolist()
        self._stages: list[tuple[int, int, int, Worths, Worths]] = []
        room = int(rooms.max())
        best = np.zeros(room + 1, dtype=values.dtype)
        sizes, worth = widths.tolist(), values.tolist()
        for place, taken in split_counts(widths, np.where(values > 0, counts, 0), room):
            width = sizes[place] * taken
            after = best.copy()
            np.maximum(after[width:], best[:-width] + worth[place] * taken, out=after[width:])
            self._stages.append((place, taken, width, best, after))
            best = after
        self._best = best

    def held(self) -> Worths:
        return self._best[self._rooms]

    def counts(self, stock: int) -> tuple[int, ...]:
        return self._counts(self._rooms[stock])

    def next_best(self, worth: float) -> list[tuple[int, ...]]:
        return [self._counts(room) for room in _lower(self._best, self._rooms[0], worth)]

    def _counts(self, room: int) -> tuple[int, ...]:
        found = [0] * self._pieces
        for place, taken, width, before, after in reversed(self._stages):
            if after[room] > before[room]:
                found[place] += taken
                room -= width
        return tuple(found)


class _LongTable:
    """The same for long bars: worked in place and kept only every few steps; what lies between is worked out again."""

    def __init__(
        self, widths: NDArray[np.int64], counts: NDArray[np.int64], values: Worths, rooms: NDArray[np.int64]
    ) -> None:
        self._pieces = len(widths)
        self._rooms = rooms.tolist()
        room = int(rooms.max())
        self._parts = split_counts(widths, np.where(values > 0, counts, 0), room)
        self._sizes = [int(widths[place]) * taken for place, taken in self._parts]
        self._worths = [values[place] * taken for place, taken in self._parts]
        best = np.zeros(room + 1, dtype=values.dtype)
        self._spare = np.empty_like(best)
        self._kept: list[Worths] = []
        for number in range(len(self._parts)):
            if number % EVERY == 0:
                self._kept.append(best.copy())
            self._take_up(number, best)
        self._kept.append(best)

    def _take_up(self, number: int, best: Worths) -> None:
        size = self._sizes[number]
        spare = self._spare[: max(0, len(best) - size)]
        np.add(best[: len(spare)], self._worths[number], out=spare)
        np.maximum(best[size:], spare, out=best[size:])

    def held(self) -> Worths:
        return self._kept[-1][self._rooms]

    def counts(self, stock: int) -> tuple[int, ...]:
        return self._counts(self._rooms[stock])

    def next_best(self, worth: float) -> list[tuple[int, ...]]:
        return [self._counts(room) for room in _lower(self._kept[-1], self._rooms[0], worth)]

    def _counts(self, room: int) -> tuple[int, ...]:
        found = [0] * self._pieces
        for block in range(len(self._kept) - 2, -1, -1):
            if self._kept[block + 1][room] == self._kept[block][room]:
                continue
            first = block * EVERY
            states = [self._kept[block][: room + 1].copy()]
            for number in range(first, min(first + EVERY, len(self._parts))):
                states.append(states[-1].copy())
                self._take_up(number, states[-1])
            for number in range(first + len(states) - 2, first - 1, -1):
                if states[number - first + 1][room] > states[number - first][room]:
                    found[self._parts[number][0]] += self._parts[number][1]
                    room -= self._sizes[number]
        return tuple(found)
