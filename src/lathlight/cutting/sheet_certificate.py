"""The bound of a sheet plan proved again: whole numbers only, from the job and the printed worths alone.

Nothing here is shared with the search. Piece by piece and copy by copy the tables are filled anew, sums are found by
sets, and every cheaper choice of sheets is walked through.
"""

from __future__ import annotations

import bisect
import itertools
import math
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from lathlight.cutting.sheet_jobs import SheetItem, SheetJob
    from lathlight.cutting.sheet_plan import SheetInequality, SheetPlan

    Ints = NDArray[np.int64]
    Sized = tuple[int, int, int, int]  # width, length, worth, count: with kerf, on the proof's grid

MOST_CHOICES = 500_000


def recheck_sheets(job: SheetJob, plan: SheetPlan) -> list[str]:
    """Return what is wrong with the proof of a plan's bound; an empty list where it holds."""
    faults: list[str] = []
    if plan.proof.stages is not None and (job.stages is None or plan.proof.stages < job.stages):
        faults.append("the proof speaks of fewer stages than the job allows")
    for n, inequality in enumerate(plan.proof.inequalities, start=1):
        faults += [f"inequality {n}: {fault}" for fault in _faults(job, plan, inequality)]
    alone = max((_alone(job, inequality) for inequality in plan.proof.inequalities), default=0)
    bound = alone if alone >= plan.lower_bound else _cheapest(job, plan)
    if bound is None:
        faults.append("too many choices of sheets to walk through")
    elif bound < plan.lower_bound:
        faults.append(f"the inequalities prove {bound}, not {plan.lower_bound}")
    return faults


def _faults(job: SheetJob, plan: SheetPlan, inequality: SheetInequality) -> list[str]:
    wanted = sum(v * item.count for v, item in zip(inequality.item_values, job.items, strict=True))
    faults = [] if wanted == inequality.wanted else [f"{inequality.wanted} is wanted, not {wanted}"]
    if min(inequality.item_values, default=0) < 0:
        faults.append("a worth is below nothing")
    small = all(v <= _area(item, job.kerf) for v, item in zip(inequality.item_values, job.items, strict=True))
    for n, (stock, said) in enumerate(zip(job.stocks, inequality.stock_values, strict=True), start=1):
        room = (stock.width + job.kerf, stock.length + job.kerf)
        if said >= room[0] * room[1] and small:
            continue  # no worth above its area: a sheet holds no more than its own
        most = _most(job, plan, inequality, room)
        if most > said:
            faults.append(f"stock {n} may hold {most}, not {said}")
    return faults


def _most(job: SheetJob, plan: SheetPlan, inequality: SheetInequality, room: tuple[int, int]) -> int:
    """Return the most worth that a sheet can hold by the proof's rule."""
    step, stages = plan.proof.step, plan.proof.stages
    room = (room[0] // step, room[1] // step)
    sized = _sized(job, inequality, room=room, step=step)
    if stages is None:
        return _split(sized, room)
    return max(_staged(sized, room, stages), _staged(_flipped(sized), (room[1], room[0]), stages))


def _area(item: SheetItem, kerf: int) -> int:
    return (item.width + kerf) * (item.length + kerf)


def _sized(job: SheetJob, inequality: SheetInequality, *, room: tuple[int, int], step: int) -> list[Sized]:
    """Return every way to lay a piece in a room; pieces of no worth can be left out of any plan."""
    found: list[Sized] = []
    for item, worth in zip(job.items, inequality.item_values, strict=True):
        straight = (max(1, (item.width + job.kerf) // step), max(1, (item.length + job.kerf) // step))
        for w, h in sorted({straight, straight[::-1]} if item.rotate else {straight}):
            if item.count and worth and w <= room[0] and h <= room[1]:
                found.append((w, h, worth, item.count))
    return sorted(found, key=lambda way: (way[1], way[0]))


def _flipped(sized: list[Sized]) -> list[Sized]:
    return sorted(((h, w, worth, count) for w, h, worth, count in sized), key=lambda way: (way[1], way[0]))


def _sums(sizes: Iterable[int], room: int) -> list[int]:
    """Return every sum of some of the sizes up to the room, and the room."""
    found = {0}
    for size in sizes:
        found |= {low + size for low in found if low + size <= room}
    return sorted(found | {room})


def _put(table: Ints, points: list[int], size: int, gain: Ints | int) -> None:
    """Let one more thing of a size go into every point of the table's first axis."""
    behind = [bisect.bisect_right(points, point - size) - 1 for point in points]
    first = next((n for n, place in enumerate(behind) if place >= 0), len(points))
    table[first:] = np.maximum(table[first:], table[np.array(behind[first:], dtype=np.int64)] + gain)


def _staged(sized: list[Sized], room: tuple[int, int], stages: int) -> int:
    """Return the most worth of columns, strips across them and pieces along a strip."""
    copies = [(w, h, worth) for w, h, worth, count in sized for _ in range(min(count, room[0] // w))]
    xs = _sums((w for w, _, _ in copies), room[0])
    strip = np.zeros(len(xs), dtype=np.int64)
    ys = _sums((h for _, h, _, count in sized for _ in range(min(count, room[1] // h))), room[1])
    column = np.zeros((len(ys), len(xs)), dtype=np.int64)
    for h, same in itertools.groupby(copies, key=lambda copy: copy[1]):
        for w, _, worth in same:
            _put(strip, xs, w, worth)
        times = sum(count for _, height, _, count in sized if height == h)
        for _ in range(min(times, room[1] // h)):
            _put(column, ys, h, strip)
    best = column[-1].copy()
    if stages >= 3:
        for place, x in enumerate(xs):
            for other in range(1, place):
                behind = bisect.bisect_right(xs, x - xs[other]) - 1
                best[place] = max(best[place], best[other] + best[behind])
    return int(best[-1])


def _split(sized: list[Sized], room: tuple[int, int]) -> int:
    """Return the most worth of any guillotine cutting: all splits of all parts."""
    xs = _sums((w for w, _, _, count in sized for _ in range(min(count, room[0] // w))), room[0])
    ys = _sums((h for _, h, _, count in sized for _ in range(min(count, room[1] // h))), room[1])
    best = np.zeros((len(xs), len(ys)), dtype=np.int64)
    for i, x in enumerate(xs):
        for j, y in enumerate(ys):
            alone = max((worth for w, h, worth, _ in sized if w <= x and h <= y), default=0)
            left = [a for a in range(1, i) if 2 * xs[a] <= x]
            right = [bisect.bisect_right(xs, x - xs[a]) - 1 for a in left]
            low = [b for b in range(1, j) if 2 * ys[b] <= y]
            high = [bisect.bisect_right(ys, y - ys[b]) - 1 for b in low]
            beside = int((best[left, j] + best[right, j]).max()) if left else 0
            above = int((best[i, low] + best[i, high]).max()) if low else 0
            best[i, j] = max(alone, beside, above)
    return int(best[-1, -1])


def _alone(job: SheetJob, inequality: SheetInequality) -> int:
    """Return what one inequality proves: the worth still wanted at the best price for worth, in whole coins."""
    total = sum(item.count for item in job.items)
    wanted = inequality.wanted
    rates: list[Fraction] = []
    for stock, worth in zip(job.stocks, inequality.stock_values, strict=True):
        if not stock.price:
            wanted -= worth * min(total, stock.limit or 0)
        elif worth:
            rates.append(Fraction(stock.price, worth))
    if wanted <= 0 or not rates:
        return 0
    coin = math.gcd(*(stock.price for stock in job.stocks))
    return math.ceil(wanted * min(rates) / coin) * coin


def _cheapest(job: SheetJob, plan: SheetPlan) -> int | None:
    """Return the least cost of sheets that keep every inequality, as far as the bound; None where that is too long."""
    total = sum(item.count for item in job.items)
    limits = [total if s.limit is None else min(s.limit, total) for s in job.stocks]
    bought = [n for n, s in enumerate(job.stocks) if s.price]
    free = [limit if not s.price else 0 for s, limit in zip(job.stocks, limits, strict=True)]
    looked = 0

    def least(place: int, sheets: list[int], spent: int) -> int | None:
        """Return the least cost below the bound from this stock on, or the bound."""
        nonlocal looked
        looked += 1
        if looked > MOST_CHOICES:
            return None
        if place == len(bought):
            kept = all(
                sum(v * n for v, n in zip(i.stock_values, sheets, strict=True)) >= i.wanted
                for i in plan.proof.inequalities
            )
            return spent if kept else plan.lower_bound
        n = bought[place]
        found = plan.lower_bound
        for times in range(limits[n] + 1):
            cost = spent + times * job.stocks[n].price
            if cost >= plan.lower_bound:
                break
            more = least(place + 1, [*sheets[:n], times, *sheets[n + 1 :]], cost)
            if more is None:
                return None
            found = min(found, more)
        return found

    return least(0, free, 0)
