"""How a wall splits into portable flats along its sheet seams.

Least excess over the limits first, then fewest flats, then the lightest heaviest flat. A joint never cuts an opening.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.openings import Rough

TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A wall's sheets from end to end, and how far the frame runs past them at either end [mm]."""

    start: float
    end: float
    beyond_start: float
    beyond_end: float
    short_start: float = 0.0  # how far the frame stops short of them instead
    short_end: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatCells:
    """What limits a flat made of whole columns and rows of sheet."""

    widest: float  # limit and way in together [mm]; inf where nothing limits
    tallest: float  # [mm]
    heaviest: float  # [kg]
    weight_binds: bool  # True: sheets are sawn narrower where whole columns would be too heavy
    weight_per_area: float  # sheet and frame together, a first estimate [kg/mm2]
    weight_per_noggin: float  # noggins under a level seam, along it [kg/mm]
    upright: float  # width of a stud [mm]
    span: Span


def group_cells(
    xs: Sequence[float], zs: Sequence[float], limits: FlatCells, openings: Sequence[Rough]
) -> tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...], float]:
    """Return flats as ranges of columns and ranges of rows, and by how much they exceed the limits.

    Ranges are (first, one past the last). Rows are grouped from the bottom, as many as the height allows. The excess is
    the sum over all flats of each measure's share above its limit; 0 where every flat keeps them.
    """
    rows = _group_rows(zs, limits, openings)
    tall = max(zs[b] - zs[a] for a, b in rows)
    seams = max(b - a - 1 for a, b in rows)
    per_width = tall * limits.weight_per_area + seams * limits.weight_per_noggin
    columns, excess = _group_columns(xs, per_width, limits, openings)
    too_tall = sum(_above(zs[b] - zs[a], limits.tallest) for a, b in rows)
    return columns, rows, round(excess * len(rows) + too_tall, 6)


def _above(value: float, limit: float) -> float:
    """Return the share of a value above its limit."""
    return value / limit - 1 if value > limit + TOUCH else 0.0


def _group_rows(zs: Sequence[float], limits: FlatCells, openings: Sequence[Rough]) -> tuple[tuple[int, int], ...]:
    groups: list[tuple[int, int]] = []
    first = 0
    for last in range(1, len(zs)):
        whole = last + 1 == len(zs)
        if whole or (zs[last + 1] - zs[first] > limits.tallest + TOUCH and _level_joint(zs[last], openings, limits)):
            groups.append((first, last))
            first = last
    return tuple(groups)


def _level_joint(z: float, openings: Sequence[Rough], limits: FlatCells) -> bool:
    """Return True where a level joint cuts no opening and leaves room for its header and sill."""
    room = 2 * limits.upright - TOUCH
    return all(z <= o.bottom - room or z >= o.top + room for o in openings)


def _group_columns(
    xs: Sequence[float], weight_per_width: float, limits: FlatCells, openings: Sequence[Rough]
) -> tuple[tuple[tuple[int, int], ...], float]:
    """Return the best grouping by dynamic programming over the last joint."""
    count = len(xs) - 1
    joint = [0.0 if i in (0, count) else _joint_cost(xs[i], openings, limits.upright) for i in range(count + 1)]
    best: list[tuple[tuple[float, int, float], int]] = [((0.0, 0, 0.0), 0)]
    for last in range(1, count + 1):
        options: list[tuple[tuple[float, int, float], int]] = []
        for first in range(last - 1, -1, -1):
            width = _frame_width(xs, first, last, limits.span)
            weight = width * weight_per_width
            excess = _above(width, limits.widest) + _above(weight, limits.heaviest)
            if excess > 0 and last - first > 1 and _all_free(joint, first, last):
                break
            before = best[first][0]
            total = round(before[0] + excess + joint[last], 6)
            options.append(((total, before[1] + 1, max(before[2], round(weight, 6))), first))
        best.append(min(options))
    groups: list[tuple[int, int]] = []
    last = count
    while last > 0:
        first = best[last][1]
        groups.append((first, last))
        last = first
    return tuple(reversed(groups)), best[count][0][0]


def _all_free(joint: Sequence[float], first: int, last: int) -> bool:
    return all(cost == 0 for cost in joint[first + 1 : last])


def _frame_width(xs: Sequence[float], first: int, last: int, span: Span) -> float:
    width = xs[last] - xs[first]
    if first == 0:
        width += span.beyond_start
    if last == len(xs) - 1:
        width += span.beyond_end
    return width


def _joint_cost(x: float, openings: Sequence[Rough], upright: float) -> float:
    """Return 0 for a good joint, a small cost where an end stud must serve as trimmer, a ban for a cut opening."""
    cost = 0.0
    for o in openings:
        gap = max(o.left - x, x - o.right)
        if gap < upright - TOUCH:
            cost += 1000.0
        elif gap < 2 * upright - TOUCH:
            cost += 0.05
    return cost
