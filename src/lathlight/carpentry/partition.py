"""Ways to divide a length into pieces no longer than a limit: where sheet seams can lie."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from lathlight.units import snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.units import LengthStyle

TOUCH = 1e-6
MOST_PIECES = 400  # a wall of more pieces is divided from the left only


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Longest first, inner and last piece [mm], and the shortest that are wanted."""

    first: float
    inner: float
    last: float
    least: float
    least_first: float = 0.0  # where more than ``least`` is wanted at the ends
    least_last: float = 0.0


def divisions(
    start: float, end: float, *, limits: Limits, wanted: Sequence[float], grid: LengthStyle, pairs: bool = False
) -> tuple[tuple[float, ...], ...]:
    """Return ways to divide a length, each as its cut positions with both ends, all with as few pieces as can be.

    Tried are whole pieces from either end, whole pieces in the middle with equal ends, equal pieces, and, with at most
    one piece more, cuts at the wanted places with whole pieces to either side. Positions lie on the grid.

    Parameters
    ----------
    start, end
        The length's ends [mm].
    limits
        What the pieces may measure.
    wanted
        Places where a cut would do good: edges of openings, trim lines [mm].
    pairs
        Also try cuts at two wanted places at once, with at most two pieces more than the fewest.
    """
    count = fewest(end - start, limits)
    found: dict[tuple[float, ...], None] = {}
    if count == 1:
        found[(start, end)] = None
    for cuts in _tries(start, end, count, limits):
        _keep(found, start, end, cuts, limits, grid)
    for place in wanted:
        for cuts in _through(start, end, place, limits):
            if len(cuts) + 1 <= count + 1:
                _keep(found, start, end, cuts, limits, grid)
    if pairs:
        for a, b in combinations(sorted(set(wanted)), 2):
            for cuts in _through_both(start, end, a, b, limits):
                if len(cuts) + 1 <= count + 2:
                    _keep(found, start, end, cuts, limits, grid)
    if not found:
        least = min(limits.first, limits.inner, limits.last)
        count = max(count, _ceiling(end - start, least))
        found[(start, *(snap(c, grid) for c in _equal(start, end, count)), end)] = None
    return tuple(found)


def fewest(length: float, limits: Limits) -> int:
    """Return the least number of pieces."""
    if length <= min(limits.first, limits.last, limits.inner) + TOUCH:
        return 1
    rest = length - limits.first - limits.last
    return 2 + max(0, _ceiling(rest, limits.inner))


def _ceiling(length: float, piece: float) -> int:
    return int(-((-length + TOUCH) // piece)) if length > TOUCH else 0


def _tries(start: float, end: float, count: int, limits: Limits) -> Iterable[list[float]]:
    """Yield whole pieces in the middle, equal pieces, whole pieces from the left and from the right."""
    if count < 2:  # nothing to divide
        return
    inner = (count - 2) * limits.inner
    side = (end - start - inner) / 2
    if count <= MOST_PIECES:
        yield [start + side + i * limits.inner for i in range(count - 1)]
        yield _equal(start, end, count)
    yield [start + limits.first + i * limits.inner for i in range(count - 1)]
    yield [end - limits.last - i * limits.inner for i in range(count - 2, -1, -1)]


def _equal(start: float, end: float, count: int) -> list[float]:
    return [start + (end - start) * i / count for i in range(1, count)]


def _through(start: float, end: float, place: float, limits: Limits) -> Iterable[list[float]]:
    """Yield cuts with one at a place, and whole pieces or equal ones to either side of it."""
    if not start + TOUCH < place < end - TOUCH:
        return
    left = _towards(place - start, first=limits.inner, last=limits.first)
    right = _towards(end - place, first=limits.inner, last=limits.last)
    yield [*(place - d for d in reversed(left)), place, *(place + d for d in right)]
    before = max(1, _ceiling(place - start, min(limits.first, limits.inner)))
    after = max(1, _ceiling(end - place, min(limits.inner, limits.last)))
    yield [*_equal(start, place, before), place, *_equal(place, end, after)]


def _through_both(start: float, end: float, a: float, b: float, limits: Limits) -> Iterable[list[float]]:
    """Yield cuts at two places, equal pieces between them, whole pieces towards both ends."""
    if not start + TOUCH < a < b - TOUCH < end - TOUCH:
        return
    between = max(1, _ceiling(b - a, limits.inner))
    left = _towards(a - start, first=limits.inner, last=limits.first)
    right = _towards(end - b, first=limits.inner, last=limits.last)
    middle = [a + (b - a) * i / between for i in range(1, between)]
    yield [*(a - d for d in reversed(left)), a, *middle, b, *(b + d for d in right)]


def _towards(length: float, *, first: float, last: float) -> list[float]:
    """Return distances of cuts for whole pieces over a length whose outermost piece may measure ``last``."""
    cuts: list[float] = []
    at = 0.0
    while length - at > last + TOUCH:
        at += min(first, length - at)
        if length - at <= TOUCH:
            break
        cuts.append(at)
    return cuts


def _keep(
    found: dict[tuple[float, ...], None],
    start: float,
    end: float,
    cuts: Sequence[float],
    limits: Limits,
    grid: LengthStyle,
) -> None:
    edges = (start, *(snap(c, grid) for c in cuts), end)
    sizes = [b - a for a, b in pairwise(edges)]
    most = [limits.first, *[limits.inner] * (len(sizes) - 2), limits.last] if len(sizes) > 1 else [limits.inner]
    if not all(0 < size <= top + TOUCH for size, top in zip(sizes, most, strict=True)):
        return
    wanted = [limits.least] * len(sizes)
    wanted[0], wanted[-1] = max(wanted[0], limits.least_first), max(wanted[-1], limits.least_last)
    if all(size >= least - TOUCH for size, least in zip(sizes, wanted, strict=True)):
        found[edges] = None
