"""Which tins to buy: the fewest that cover the need with little left over, so that few have to be mixed together.

What is left over may be one smallest tin more than the least that can be had: nobody carries home five small tins for
one of the large ones. Exact for what it minimises; prices are left to buying.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

SAME = 0.5  # volumes nearer than this are the same [ml]: a tin is filled no closer
MOST = 1000.0  # [l] a set that drinks more is a slip of the pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Containers:
    """Tins that cover a need."""

    need: float  # [l]
    tins: tuple[tuple[float, int], ...]  # size [l], how many; largest first
    why: Working

    @property
    def volume(self) -> float:
        """All tins together [l]."""
        return math.fsum(size * number for size, number in self.tins)

    @property
    def number(self) -> int:
        """How many tins."""
        return sum(number for _, number in self.tins)

    @property
    def note(self) -> str:
        """What to ask for and do so that the tins do not differ; "" for a single tin."""
        if self.number < 2:
            return ""
        return f"{self.number} tins of one batch, mixed together before the first coat"


def cover_need(need: float, *, sizes: Sequence[float]) -> Containers:
    """Return the fewest tins that hold the need with little left over, then the least volume, larger ones first.

    Parameters
    ----------
    need
        What is wanted [l], 0 or more; 0 gives no tin.
    sizes
        Tins on sale [l], each above 0, in any order.

    Raises
    ------
    InputError
        No tins on sale, a size or a need that no shop knows.

    Notes
    -----
    The sizes are counted in their greatest common measure, and for every volume up to the need and two smallest tins
    more the fewest tins that fill it exactly are found in turn. Of the volumes from the first at or above the need that
    tins can fill to one smallest tin more (common practice, no source), the one of the fewest tins wins.

    Examples
    --------
    >>> cover_need(3.2, sizes=(0.75, 2.5, 5.0)).tins
    ((2.5, 1), (0.75, 1))
    >>> cover_need(3.7, sizes=(0.75, 2.5, 5.0)).tins
    ((2.5, 1), (0.75, 2))
    """
    _refuse(need, sizes)
    ordered = sorted(set(sizes), reverse=True)
    unit = reduce(_common_measure, ordered)
    wanted = max(0, math.ceil((need - SAME / 1000) / unit))
    units = [round(size / unit) for size in ordered]
    fewest = _fewest(units, wanted)
    tins = _counts(ordered, units, fewest, _best(fewest, wanted, spare=min(units)))
    return Containers(need=need, tins=tins, why=_why(need, ordered, tins))


def _refuse(need: float, sizes: Sequence[float]) -> None:
    if not sizes or not all(0.01 <= size < MOST for size in sizes):
        shown = ", ".join(f"{size:g} l" for size in sizes) or "none"
        raise InputError.of(
            place="containers",
            found=shown,
            expected=f"at least one size, each from 0.01 l and below {MOST:g} l",
            remedy="Give the tins that the shop sells, such as 0.75, 2.5 and 5 l.",
        )
    if not 0 <= need <= MOST:
        raise InputError.of(
            place="paint needed",
            found=f"{need:g} l",
            expected=f"0 to {MOST:g} l",
            remedy="Look at the areas, the coats and the spreading rate.",
        )


def _common_measure(a: float, b: float) -> float:
    """Return the largest volume [l] that goes into both a whole number of times, to the nearest `SAME`."""
    large, small = max(a, b), min(a, b)
    while small * 1000 > SAME:
        over = large - small * round(large / small)
        large, small = small, abs(over)
    return large


def _fewest(sizes: Sequence[int], wanted: int) -> list[int | None]:
    """Return the fewest tins that fill every volume exactly, from 0 up to the need and two smallest tins more."""
    fewest: list[int | None] = [0]
    for volume in range(1, wanted + 2 * min(sizes) + 1):
        before = [fewest[volume - s] for s in sizes if s <= volume]
        fewest.append(min((n + 1 for n in before if n is not None), default=None))
    return fewest


def _best(fewest: Sequence[int | None], wanted: int, *, spare: int) -> int:
    """Return the volume of the fewest tins, of those at most so much above the least that holds what is wanted."""
    filled = [(number, v) for v, number in enumerate(fewest) if number is not None and v >= wanted]
    least = min(v for _, v in filled)
    return min((number, v) for number, v in filled if v <= least + spare)[1]


def _counts(
    sizes: Sequence[float], units: Sequence[int], fewest: Sequence[int | None], total: int
) -> tuple[tuple[float, int], ...]:
    """Return how many of each size make up the total, the largest that keeps to the fewest first."""
    counts = dict.fromkeys(sizes, 0)
    while total > 0:
        here = fewest[total]
        assert here is not None, "only volumes that tins can fill are taken apart"
        size, step = next(
            (s, u) for s, u in zip(sizes, units, strict=True) if u <= total and fewest[total - u] == here - 1
        )
        counts[size] += 1
        total -= step
    return tuple((size, number) for size, number in counts.items() if number)


def _why(need: float, sizes: Sequence[float], tins: tuple[tuple[float, int], ...]) -> Working:
    volume = math.fsum(size * number for size, number in tins)
    return Working(
        formula="fewest tins that hold the need with at most one smallest tin more than can be helped; all are tried",
        inputs=(("need", need, "l"), *(("a size on sale", size, "l") for size in reversed(sizes))),
        source="containers of the catalogue's row",
        value=volume,
        unit="l",
    )
