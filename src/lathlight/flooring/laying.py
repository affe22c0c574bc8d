"""How strips, boards and drops off a roll fill the covering: rows, their sides, and where boards meet.

Rows lie side by side from the left, or from the back. Rows of boards are cut in turn, a row beginning with an offcut of
an earlier one where that keeps its end joints clear of its neighbour's: first fit, not proven to be the fewest.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lathlight.flooring.model import FloorRow
from lathlight.units import INCH, snap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.flooring.model import Line, Ring
    from lathlight.units import LengthStyle

ROLL = 600.0  # what is sold wider than this comes off a roll and is not ripped to balance [mm], common practice
LEAST_RIP, LEAST_RIP_US = 50.0, float(2 * INCH)  # narrowest row along an edge [mm], common practice, no source
STAGGER = 300.0  # between end joints of neighbouring rows [mm], common practice, no source
LEAST_PIECE = 300.0  # shortest board in a row [mm], common practice, no source
STARTS = (1 / 2, 1 / 3, 2 / 3, 1 / 4, 3 / 4)  # shares of a board that a row may begin with
TOUCH = 1e-6
MOST_ROWS = 2_000  # more is a slip of the pen


def row_edges(across: float, *, strip: float, grid: LengthStyle) -> tuple[float, ...]:
    """Return the sides of all rows, from 0 to the extent that they fill [mm].

    Parameters
    ----------
    across
        Extent square to the rows [mm], above 0.
    strip
        Width of a strip [mm], above 0.
    grid
        The first row's width is rounded to it where rows are balanced.

    Notes
    -----
    Rows are whole from the first on and the last is ripped. Where that would leave it narrower than 50 mm (2 in), the
    first and the last share what they have together, each wider than half a strip (of goods off a roll not: a drop is
    laid to the edge).

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> row_edges(410.0, strip=200.0, grid=LengthStyle.metric())
    (0.0, 105.0, 305.0, 410.0)
    """
    count = max(1, math.ceil(across / strip - TOUCH))
    last = across - (count - 1) * strip
    least = LEAST_RIP if grid.system == "metric" else LEAST_RIP_US
    first = strip
    if count > 1 and last < min(least, strip / 2) - TOUCH and strip <= ROLL:
        first = snap((strip + last) / 2, grid)
    return (0.0, *(first + i * strip for i in range(count - 1)), across)


def lay_rows(ring: Ring, *, away: bool, strip: float, grid: LengthStyle) -> tuple[FloorRow, ...]:
    """Return rows over an outline, each as long as it is there; boards are not yet told apart.

    Parameters
    ----------
    ring
        The covering [mm].
    away
        True: rows run away from the camera, numbered from the left; False: along the set, from the back.
    """
    axis = 0 if away else 1
    low, high = min(p[axis] for p in ring), max(p[axis] for p in ring)
    edges = row_edges(high - low, strip=strip, grid=grid)
    sides = [low + e for e in edges] if away else [high - e for e in edges]
    found: list[FloorRow] = []
    for number, (a, b) in enumerate(itertools.pairwise(sides), start=1):
        ends = [p[1 - axis] for p in clipped(clipped(ring, axis, min(a, b), above=True), axis, max(a, b), above=False)]
        if ends:
            found.append(
                FloorRow(number=number, low=min(a, b), high=max(a, b), start=min(ends), end=max(ends), joints=())
            )
    return tuple(found)


def clipped(ring: Ring, axis: int, at: float, *, above: bool) -> Ring:
    """Return the part of a ring on one side of a line square to an axis: Sutherland and Hodgman's clipping (1974)."""
    sign = 1.0 if above else -1.0
    kept: list[tuple[float, float]] = []
    for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        inside_a, inside_b = sign * (a[axis] - at) >= -TOUCH, sign * (b[axis] - at) >= -TOUCH
        if inside_a:
            kept.append(a)
        if inside_a != inside_b:
            share = (at - a[axis]) / (b[axis] - a[axis])
            other = a[1 - axis] + share * (b[1 - axis] - a[1 - axis])
            kept.append((at, other) if axis == 0 else (other, at))
    return tuple(kept)


def seam_lines(ring: Ring, rows: Sequence[FloorRow], *, away: bool) -> Iterator[Line]:
    """Yield the seams between rows, as far as the covering goes, then the ends of boards, in set axes."""
    axis = 0 if away else 1
    for before, after in itertools.pairwise(rows):
        at = before.high if away else before.low
        assert abs(at - (after.low if away else after.high)) < TOUCH, "rows lie side by side"
        yield from (_turned(at, start, at, end, away=away) for start, end in _chords(ring, axis, at))
    for row in rows:
        for joint in row.joints:
            yield _turned(row.low, joint, row.high, joint, away=away)


def _turned(a: float, b: float, c: float, d: float, *, away: bool) -> Line:
    """Return the line from (across, along) to (across, along) in set axes."""
    return ((a, b), (c, d)) if away else ((b, a), (d, c))


def _chords(ring: Ring, axis: int, at: float) -> list[tuple[float, float]]:
    """Return where a line square to an axis runs within a ring, by the even-odd rule."""
    found: list[float] = []
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (a[axis] <= at) != (b[axis] <= at):
            found.append(a[1 - axis] + (b[1 - axis] - a[1 - axis]) * (at - a[axis]) / (b[axis] - a[axis]))
    ordered = sorted(found)
    return list(zip(ordered[::2], ordered[1::2], strict=True))


# --- boards ------------------------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Bench:
    """Boards taken so far, and the offcuts that may begin or end a row [mm]."""

    board: float
    kerf: float
    taken: int = 0
    offcuts: list[float] = field(default_factory=list[float])

    def cut(self, length: float) -> None:
        """Take a piece from the shortest offcut that gives it, or from a new board."""
        fitting = [o for o in self.offcuts if o >= length - TOUCH]
        if fitting:
            source = min(fitting)
            self.offcuts.remove(source)
        else:
            source = self.board
            self.taken += 1
        left = source - length - self.kerf
        if left >= LEAST_PIECE:
            self.offcuts.append(left)


def lay_boards(rows: Sequence[FloorRow], *, board: float, kerf: float) -> tuple[tuple[FloorRow, ...], int]:
    """Return the rows with the places where boards meet, and how many boards they take.

    End joints of neighbouring rows are at least 300 mm apart, and pieces at least 300 mm long, where the boards allow
    it; else as far apart as can be had.

    Parameters
    ----------
    rows
        Side by side.
    board
        Length of a board [mm], above 0.
    kerf
        Width of a cut [mm].
    """
    bench = _Bench(board=board, kerf=kerf)
    laid: list[FloorRow] = []
    before: tuple[float, ...] = ()
    for row in rows:
        pieces = _best_start(row, bench, before)
        for piece in pieces:
            bench.cut(piece)
        before = _joints(row.start, pieces)
        laid.append(
            FloorRow(number=row.number, low=row.low, high=row.high, start=row.start, end=row.end, joints=before)
        )
    return tuple(laid), bench.taken


def _best_start(row: FloorRow, bench: _Bench, before: Sequence[float]) -> tuple[float, ...]:
    """Return the row's pieces: the first way that is good, offcuts before fresh cuts, else the best there is."""
    starts = [*sorted(bench.offcuts, reverse=True), bench.board, *(bench.board * s for s in STARTS)]
    ways = [_pieces(row.length, start, bench.board) for start in starts]

    def faults(way: tuple[float, ...]) -> tuple[float, float]:
        apart = min((abs(j - b) for j in _joints(row.start, way) for b in before), default=STAGGER)
        return max(STAGGER - apart, 0.0), max(LEAST_PIECE - min(way), 0.0)

    return min(ways, key=lambda way: tuple(0.0 if f < TOUCH else f for f in faults(way)))


def _pieces(length: float, start: float, board: float) -> tuple[float, ...]:
    """Return a row's pieces: what it begins with, whole boards, and the rest."""
    pieces = [min(start, length)]
    left = length - pieces[0]
    while left > TOUCH:
        pieces.append(min(board, left))
        left -= pieces[-1]
    return tuple(pieces)


def _joints(start: float, pieces: Sequence[float]) -> tuple[float, ...]:
    return tuple(start + sum(pieces[:i]) for i in range(1, len(pieces)))
