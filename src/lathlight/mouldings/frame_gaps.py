"""The search for moulding frames: one way to fill each bay, so that the whole set is as even as it can be.

Each bay has a few ways to be filled; each way has one size that is to be alike over the set (the width of mitred
frames, the end gap of bought ones) and costs that only add up. Exact without a solver: the best set of ways lies in a
window from its least size to its greatest, and within a window every bay takes its own cheapest way, so that trying
every window between two sizes tries every pattern. What the costs mean is left to ``moulding_frames``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

DIGITS = 6  # sizes are compared to a millionth of a millimetre, so that noise decides no tie

Costs = tuple[int, ...]
Rank = tuple[bool, Costs, float, Costs, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to fill a bay: sizes that are to be alike, and what it costs."""

    low: float  # least of the sizes that are to be alike [mm]
    high: float  # greatest of them [mm]
    first: Costs = ()  # counts before evenness: the same number of entries in every way
    then: Costs = ()  # counts after it


@dataclass(frozen=True, slots=True, kw_only=True)
class Evenness:
    """When sizes count as alike."""

    unseen: float = 0.0  # a spread up to this counts as none [mm]
    odd: float = 0.0  # a size below this share of the greatest is odd; 0: none is


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The best pattern, and how it was proven the best."""

    picks: tuple[int, ...]  # a way for each bay, by its number
    spread: float  # greatest size less least size [mm]
    odd: bool  # True: some size is odd beside the greatest
    first: Costs
    then: Costs
    patterns: int  # how many patterns there are in all
    windows: int  # windows looked into; those left out could not have been better


def choose_ways(bays: Sequence[Sequence[Way]], *, evenness: Evenness) -> Choice:
    """Return the best way for each bay, proven by trying every window of sizes.

    Ranked by: nothing odd, the first costs, the spread beyond what is unseen, the other costs, the spread itself.
    Costs are compared entry by entry, as sums over the bays. A tie falls to the window of greater sizes.

    Parameters
    ----------
    bays
        For each bay its ways, at least one; no bay gives an empty choice.
    """
    if not bays:
        return Choice(picks=(), spread=0.0, odd=False, first=(), then=(), patterns=1, windows=0)
    ways = sorted(
        ((b, n, way) for b, bay in enumerate(bays) for n, way in enumerate(bay)),
        key=lambda entry: (entry[2].high, entry[0], entry[1]),
    )
    floor = _total([min(way.first for way in bay) for bay in bays])
    best: tuple[Rank, tuple[int, ...]] | None = None
    windows = 0
    for low in sorted({way.low for _, _, way in ways}, reverse=True):
        held: dict[int, tuple[Costs, Costs, int]] = {}
        for number, (bay, n, way) in enumerate(ways):
            if best is not None and _floor_rank(low, way.high, floor, evenness) > best[0][:3]:
                break  # a wider window can only be worse
            if way.low >= low:
                held[bay] = min(held.get(bay, (way.first, way.then, n)), (way.first, way.then, n))
            last = number + 1 == len(ways) or ways[number + 1][2].high > way.high
            if not last or len(held) < len(bays):
                continue
            windows += 1
            rank = _rank(low, way.high, [held[b] for b in range(len(bays))], evenness)
            if best is None or rank < best[0]:
                best = (rank, tuple(held[b][2] for b in range(len(bays))))
    assert best is not None, "every bay has a way"
    return _choice(bays, best[1], evenness, windows=windows)


def _rank(low: float, high: float, held: Sequence[tuple[Costs, Costs, int]], evenness: Evenness) -> Rank:
    odd, excess = _unevenness(low, high, evenness)
    return odd, _total([h[0] for h in held]), excess, _total([h[1] for h in held]), round(high - low, DIGITS)


def _floor_rank(low: float, high: float, floor: Costs, evenness: Evenness) -> tuple[bool, Costs, float]:
    """Return what no rank in this window or a wider one from the same least size can fall below."""
    odd, excess = _unevenness(low, max(low, high), evenness)
    return odd, floor, excess


def _unevenness(low: float, high: float, evenness: Evenness) -> tuple[bool, float]:
    odd = evenness.odd > 0 and low < evenness.odd * high
    return odd, max(0.0, round(high - low - evenness.unseen, DIGITS))


def _total(costs: Sequence[Costs]) -> Costs:
    return tuple(sum(column) for column in zip(*costs, strict=True))


def _choice(bays: Sequence[Sequence[Way]], picks: tuple[int, ...], evenness: Evenness, *, windows: int) -> Choice:
    chosen = [bay[n] for bay, n in zip(bays, picks, strict=True)]
    low, high = min(w.low for w in chosen), max(w.high for w in chosen)
    return Choice(
        picks=picks,
        spread=round(high - low, DIGITS),
        odd=_unevenness(low, high, evenness)[0],
        first=_total([w.first for w in chosen]),
        then=_total([w.then for w in chosen]),
        patterns=math.prod(len(bay) for bay in bays),
        windows=windows,
    )
