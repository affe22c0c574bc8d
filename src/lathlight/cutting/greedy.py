"""Quick plans: pieces longest first, each into the open bar that it fills best (best-fit decreasing, Johnson 1973).

They start the search and are what is kept where it is stopped at once. Bars are opened by several rules and the
cheapest outcome kept; then each bar is exchanged for the cheapest one that holds its pieces.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.cutting.patterns import Cutting, Grid, Pattern, cost_of

if TYPE_CHECKING:
    from collections.abc import Callable


def quick_cutting(grid: Grid) -> Cutting | None:
    """Return the cheapest of the quick plans, or None where the limits let none of them finish."""
    prices, rooms = grid.prices.tolist(), grid.rooms.tolist()
    rules: list[Callable[[int], tuple[float, ...]]] = [
        lambda t: (prices[t] / rooms[t], -rooms[t]),
        lambda t: (prices[t] > 0, -rooms[t]),
        lambda t: (prices[t] > 0, rooms[t]),
    ]
    rules += [_first_of(chosen, prices, rooms) for chosen in grid.bought.tolist()]
    found = [cutting for rule in rules if (cutting := _best_fit(grid, rule)) is not None]
    return min((_exchanged(grid, cutting) for cutting in found), key=lambda c: cost_of(grid, c), default=None)


def _first_of(chosen: int, prices: list[int], rooms: list[int]) -> Callable[[int], tuple[float, ...]]:
    """Return the rule: the shelf, then one stock, then the others by what their length costs."""
    return lambda t: (prices[t] > 0, t != chosen, prices[t] / rooms[t])


def _best_fit(grid: Grid, rule: Callable[[int], tuple[float, ...]]) -> Cutting | None:
    order = sorted(range(len(grid.rooms)), key=lambda t: (*rule(t), t))
    rooms, left = grid.rooms.tolist(), grid.limits.tolist()
    bars: list[tuple[int, list[int]]] = []
    by_room: dict[int, list[int]] = {}  # room left: bars that have it
    for place, (width, count) in enumerate(zip(grid.widths.tolist(), grid.counts.tolist(), strict=True)):
        for _ in range(count):
            fitting = min((room for room, those in by_room.items() if room >= width and those), default=None)
            if fitting is None:
                stock = next((t for t in order if left[t] > 0 and rooms[t] >= width), None)
                if stock is None:
                    return None
                left[stock] -= 1
                bars.append((stock, [0] * len(grid.widths)))
                number, fitting = len(bars) - 1, rooms[stock]
            else:
                number = by_room[fitting].pop()
                if not by_room[fitting]:
                    del by_room[fitting]
            bars[number][1][place] += 1
            by_room.setdefault(fitting - width, []).append(number)
    return _counted(bars)


def _counted(bars: list[tuple[int, list[int]]]) -> Cutting:
    found: dict[Pattern, int] = {}
    for stock, counts in bars:
        pattern = Pattern(stock=stock, counts=tuple(counts))
        found[pattern] = found.get(pattern, 0) + 1
    return sorted(found.items())


def _exchanged(grid: Grid, cutting: Cutting) -> Cutting:
    """Return the cutting with each bar exchanged, dearest first, for the cheapest one at hand that holds its pieces."""
    left = grid.limits.copy()
    for pattern, times in cutting:
        left[pattern.stock] -= times
    widths = grid.widths.tolist()
    bars = [(p.stock, list(p.counts)) for p, times in cutting for _ in range(times)]
    bars.sort(key=lambda bar: (-int(grid.prices[bar[0]]), bar[1]))
    found: list[tuple[int, list[int]]] = []
    for stock, counts in bars:
        need = sum(w * c for w, c in zip(widths, counts, strict=True))
        fits = [t for t in range(len(left)) if grid.rooms[t] >= need and (left[t] > 0 or t == stock)]
        best = min(fits, key=lambda t: (int(grid.prices[t]), t != stock, int(grid.rooms[t])))
        left[stock] += 1
        left[best] -= 1
        found.append((best, counts))
    return _counted(found)
