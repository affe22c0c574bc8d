"""The ways to fill one bay with equal moulding frames, each with its places on the project's grid.

Mitred frames take the width that the gaps leave; bought frames take their gaps from the width. A pattern is centred in
its bay, or on a picture's middle line: then a frame or a gap stands on the line, every frame stays whole on the wall,
and the outer gaps take the difference. What rounding leaves goes into the gaps, alike on both sides where the widths
allow it. Which way is best is left to ``frame_gaps``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.mouldings.frame_bays import LEAST_CLEAR, TOUCH
from lathlight.units import snap, snap_down

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.mouldings.frame_bays import Bay
    from lathlight.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Equal frames in one bay."""

    exact: float  # width before rounding [mm]
    width: float  # as made: on the grid, or as bought [mm]
    lefts: tuple[float, ...]  # left edges, wall axes, on the grid [mm]
    gaps: tuple[float, ...]  # from the bay's left end to its right end: one more than there are frames [mm]
    beyond: tuple[float, float] = (0.0, 0.0)  # end gaps more than wished, before rounding [mm]

    @property
    def count(self) -> int:
        """Number of frames."""
        return len(self.lefts)

    @property
    def ends(self) -> tuple[float, float]:
        """Gaps at the bay's two ends [mm]."""
        return self.gaps[0], self.gaps[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Least:
    """How narrow mitred frames may be [mm]."""

    alone: float  # one frame that fills a bay
    among: float  # several side by side


# --- mitred from lengths -----------------------------------------------------------------------------------------


def equal_width(*, length: float, count: int, gap: float, end_gap: float) -> float:
    """Return the width of equal frames with equal gaps [mm].

    width = (length - 2 end gaps - (count - 1) gaps) / count; with end gaps like the gap, length - (count + 1) gaps:
    the published rule for boxes of applied moulding (``tests/published/test_equal_spacing.py``).

    Examples
    --------
    >>> equal_width(length=60, count=3, gap=3, end_gap=3)
    16.0
    """
    return (length - 2 * end_gap - (count - 1) * gap) / count


def mitred_patterns(bay: Bay, *, gap: float, least: Least, grid: LengthStyle) -> Iterator[Pattern]:
    """Yield the patterns of mitred frames that are centred in a bay, from one frame up."""
    count = 1
    while (exact := equal_width(length=bay.room, count=count, gap=gap, end_gap=0.0)) >= (
        least.alone if count == 1 else max(least.among, least.alone)
    ) - TOUCH:
        pattern = _mitred(bay, count=count, exact=exact, gap=gap, grid=grid)
        if pattern is not None:
            yield pattern
        count += 1


def _mitred(bay: Bay, *, count: int, exact: float, gap: float, grid: LengthStyle) -> Pattern | None:
    """Return equal frames on the grid; what that leaves goes into the gaps, the same from either side.

    An odd number of frames has an even number of gaps, which share an even number of steps only: the width gives way
    by a step where it must. Gaps that are tight already are not made smaller.
    """
    step = float(grid.step)
    start, stop = math.ceil((bay.left - TOUCH) / step), math.floor((bay.right + TOUCH) / step)
    gaps = [_steps(bay.left_gap, step), *[_steps(gap, step)] * (count - 1), _steps(bay.right_gap, step)]
    free = stop - start - sum(gaps)
    tight = min(gaps) * step < LEAST_CLEAR + step - TOUCH
    widths = [w for w in range(free // count - 2, free // count + 3) if w > 0]
    fitting = [w for w in widths if count % 2 == 0 or (free - count * w) % 2 == 0]
    allowed = [w for w in fitting if free - count * w >= 0 or not tight]
    if not allowed:
        return None
    width = min(allowed, key=lambda w: (abs(free - count * w), -w))
    _share(gaps, free - count * width)
    lefts = [start + sum(gaps[: n + 1]) + n * width for n in range(count)]
    return _pattern(bay, exact=exact, width=_length(width, grid), lefts=tuple(_length(left, grid) for left in lefts))


def _share(gaps: list[int], rest: int) -> None:
    """Add the steps that rounding leaves to the gaps: the middle one takes an odd step, pairs the others."""
    sign = 1 if rest > 0 else -1
    rest = abs(rest)
    last = len(gaps) - 1
    if rest % 2:
        gaps[last // 2] += sign
        rest -= 1
    pair = 0
    while rest:
        gaps[pair] += sign
        gaps[last - pair] += sign
        rest -= 2
        pair = (pair + 1) % (len(gaps) // 2)


# --- bought whole ------------------------------------------------------------------------------------------------


def bought_patterns(bay: Bay, *, width: float, gap: float, grid: LengthStyle) -> Iterator[Pattern]:
    """Yield the patterns of bought frames that are centred in a bay: the gap holds between them, the ends give way."""
    count = 1
    give = min(bay.left_gap, bay.right_gap)  # how far frames may move out past the wished end gaps
    while (rest := bay.room - count * width - (count - 1) * gap) / 2 > -give - TOUCH:
        first = bay.left + bay.left_gap + rest / 2
        lefts = tuple(snap(first + n * (width + gap), grid) for n in range(count))
        yield _pattern(bay, exact=width, width=width, lefts=lefts, beyond=(rest / 2, rest / 2))
        count += 1


# --- centred on a picture ----------------------------------------------------------------------------------------


def centred_patterns(
    bay: Bay, *, middle: float, gap: float, least: Least, bought: float | None, grid: LengthStyle
) -> Iterator[Pattern]:
    """Yield the patterns with a frame or a gap on a picture's middle line, whole frames only.

    Mitred frames fill one side of the line to its wished end gap; the other side takes as many of the same width as
    keep at least the wished gap. Bought frames fill both sides as far as they go.
    """
    sides = middle - bay.left - bay.left_gap, bay.right - bay.right_gap - middle
    widths = {bought} if bought is not None else _tight_widths(sides, gap=gap, least=least)
    for width in sorted(widths):
        made = width if bought is not None else snap_down(width, grid)
        for reach in (made / 2, -gap / 2):  # from the line to the outside of the frame on it, or of the gap on it
            first, count = _about(middle, sides, reach=reach, pitch=made + gap)
            if count < 1 or (bought is None and count > 1 and width < least.among - TOUCH):
                continue
            beyond = first - bay.left - bay.left_gap, bay.right - bay.right_gap - first - count * (made + gap) + gap
            if bought is None and min(beyond) > count * float(grid.step):
                continue  # this width fills a side with the other of the two on the line
            lefts = tuple(snap(first + n * (made + gap), grid) for n in range(count))
            yield _pattern(bay, exact=width, width=made, lefts=lefts, beyond=beyond)


def _tight_widths(sides: tuple[float, float], *, gap: float, least: Least) -> set[float]:
    """Return the widths with which frames and gaps fill one side of the line exactly [mm]."""
    found: set[float] = set()
    for side in sides:
        halves = 1  # of frames on this side: an odd number with a frame on the line, an even one with a gap
        while (width := 2 * (side - gap * (halves - 1) / 2) / halves) >= (
            least.alone if halves == 1 else max(least.among, least.alone)
        ) - TOUCH or halves == 1:
            if width >= least.alone - TOUCH:
                found.add(width)
            halves += 1
    return found


def _about(middle: float, sides: tuple[float, float], *, reach: float, pitch: float) -> tuple[float, int]:
    """Return the first left edge and the number of frames that go to both sides, 0 where the line's own does not fit.

    ``reach`` is negative for a gap on the line: a side's first frame then begins half a gap past it.
    """
    before, after = (math.floor((side - reach + TOUCH) / pitch) for side in sides)
    if before < 0 or after < 0:
        return middle, 0
    return middle - reach - before * pitch, before + after + (1 if reach > 0 else 0)


# --- shared ------------------------------------------------------------------------------------------------------


def _pattern(
    bay: Bay, *, exact: float, width: float, lefts: tuple[float, ...], beyond: tuple[float, float] = (0.0, 0.0)
) -> Pattern:
    inner = (b - a - width for a, b in pairwise(lefts))
    gaps = (lefts[0] - bay.left, *inner, bay.right - lefts[-1] - width)
    return Pattern(
        exact=exact,
        width=width,
        lefts=lefts,
        gaps=tuple(0.0 if abs(gap) < TOUCH else gap for gap in gaps),
        beyond=beyond,
    )


def _steps(mm: float, step: float) -> int:
    return math.floor(mm / step + 0.5 + TOUCH)


def _length(steps: int, grid: LengthStyle) -> float:
    return steps * grid.step.numerator / grid.step.denominator
