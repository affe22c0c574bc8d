"""Diving: the relaxed answer rounded, bar by bar, with new patterns priced for what is left after each step.

Whole parts are taken first; else the pattern used most is taken once (from memory after Vanderbeck 2000 and Belov and
Scheithauer 2006). Another turn takes another pattern at its first choices, by number and not by chance.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.generation import SHORT, Generation
from lathlight.cutting.patterns import Cutting, Pattern

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from lathlight.cutting.highs import Relaxed

ROUNDS = 15  # of pricing, each step: enough to steer by
MANY, FEW_ROUNDS = 300, 6  # where the pieces are many, one step matters less
CHOICES = 6  # how many patterns another turn may begin with


def dive(generation: Generation, *, limits: NDArray[np.int64], turn: int) -> Cutting | None:
    """Return a cutting of the grid's counts out of these bars, or None where the dive ran dry.

    Parameters
    ----------
    generation
        A program of its own: the dive leaves it changed, its columns stay of use.
    limits
        Bars of each stock at hand.
    turn
        0 takes the likeliest pattern each time; others vary the first three choices.
    """
    counts, limits = generation.grid.counts.copy(), limits.copy()
    found: Cutting = []
    first = [turn % CHOICES, turn // CHOICES % CHOICES, turn // CHOICES**2 % CHOICES]
    rounds = FEW_ROUNDS if len(counts) > MANY else ROUNDS
    while counts.any():
        generation.ask(counts=counts, limits=limits)
        answer = generation.solve(rounds=rounds)
        if answer.short > SHORT and generation.solve().short > SHORT:
            return None
        taken = _whole_parts(generation.columns, answer, counts, limits)
        if not taken:
            taken = [_likeliest(generation.columns, answer, counts, first.pop(0) if first else 0)]
        for pattern, times in taken:
            counts -= np.array(pattern.counts, dtype=np.int64) * times
            limits[pattern.stock] -= times
        found.extend(taken)
    return found


def _whole_parts(
    columns: list[Pattern], answer: Relaxed, counts: NDArray[np.int64], limits: NDArray[np.int64]
) -> Cutting:
    left, bars = counts.copy(), limits.copy()
    taken: Cutting = []
    whole = np.floor(answer.times + SHORT).astype(np.int64)
    for n in np.flatnonzero(whole).tolist():
        pattern = columns[n]
        yields = np.array(pattern.counts, dtype=np.int64)
        cut = yields > 0
        times = min(int(whole[n]), int(bars[pattern.stock]), int((left[cut] // yields[cut]).min()))
        if times > 0:
            taken.append((pattern, times))
            left -= yields * times
            bars[pattern.stock] -= times
    return taken


def _likeliest(columns: list[Pattern], answer: Relaxed, counts: NDArray[np.int64], skip: int) -> tuple[Pattern, int]:
    used = np.flatnonzero(answer.times > SHORT).tolist()
    used.sort(key=lambda n: (-round(float(answer.times[n]), 6), columns[n].counts, columns[n].stock))
    pattern = columns[used[min(skip, len(used) - 1)]]
    yields = np.minimum(np.array(pattern.counts, dtype=np.int64), counts)
    return Pattern(stock=pattern.stock, counts=tuple(yields.tolist())), 1
