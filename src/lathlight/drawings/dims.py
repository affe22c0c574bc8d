"""Dimension chains: figures that add up, ticks, extension lines, and a place for every figure.

Decides how a chain looks and where its labels go; which lengths are shown, and along which line, is left to the views.
Every label is the difference of two positions that were each rounded once from the chain's origin, so that the labels
of a chain always add up to the label of the whole.

A label stands above its line, read from the bottom or from the right of the page. One that is wider than its gap moves
to the side of the line that is away from the feet, and a leader ties it to its gap; such labels spread along one to
three rows, in order, so that neither labels nor leaders cross.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.sheets import Chain, Line, Pen, Point, Text
from lathlight.drawings.text import CAP, NOTE_SIZE, SIDE, make_text, text_width
from lathlight.units import drawing_length, snap

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from lathlight.units import LengthStyle

# Sizes on paper [mm]; common practice, no source.
FOOT_GAP = 1.0  # from what is measured to its extension line
OVERSHOOT = 1.5  # of an extension line past the dimension line
TICK = 2.4  # length of the 45-degree stroke
LIFT = 0.9  # from the dimension line to the label's baseline
CLEAR = 0.4  # least room between a label and its neighbours
BESIDE_TICK = 0.9  # least room between a label and the stops of its gap
FAN = 1.8  # height in which leaders go aside
FIRST_LINE = 7.0  # from an edge to the first dimension line
NEXT_LINE = 2.0  # between what one chain covers and what the next one covers
PASS = 0.8  # room that a leader takes between two labels
MOST_ASIDE = 6.0  # further to the side, labels take one more row
MOST_ROWS = 3
OVER_CAP = 0.06  # [em] what a stroke of a fraction rises above the capitals


def level_chain(
    stops: Sequence[float],
    *,
    y_line: float,
    feet_y: float | Sequence[float],
    scale: float,
    style: LengthStyle,
    datum: float = 0.0,
) -> Chain:
    """Chain of dimensions along a level line.

    Parameters
    ----------
    stops
        Positions across the view [model mm], at least two that differ on the project's step; any order.
    y_line
        Height of the dimension line [model mm].
    feet_y
        Where the extension lines come from: one height for all, or one a stop [model mm].
    scale
        The view's scale: model mm for one mm of paper.
    style
        How the project writes lengths, and the step its positions are rounded to.
    datum
        Position that the stops are rounded from [model mm]; a chain rounds best from the set's own datum.
    """
    return chain(
        origin=(datum, y_line),
        angle=0.0,
        stops=[x - datum for x in stops],
        feet=list(zip(stops, _one_each(feet_y, stops), strict=True)),
        scale=scale,
        style=style,
    )


def upright_chain(
    stops: Sequence[float],
    *,
    x_line: float,
    feet_x: float | Sequence[float],
    scale: float,
    style: LengthStyle,
    datum: float = 0.0,
) -> Chain:
    """Chain of dimensions along an upright line, read from the right; as `level_chain` with x and y exchanged."""
    return chain(
        origin=(x_line, datum),
        angle=math.pi / 2,
        stops=[y - datum for y in stops],
        feet=list(zip(_one_each(feet_x, stops), stops, strict=True)),
        scale=scale,
        style=style,
    )


def level_chains(
    rows: Sequence[Sequence[float]],
    *,
    edge_y: float,
    below: bool,
    scale: float,
    style: LengthStyle,
    datum: float = 0.0,
) -> tuple[Chain, ...]:
    """Chains stacked outwards from a level edge, each clear of the one before.

    Parameters
    ----------
    rows
        Stops of each chain as in `level_chain`, the finest first; a row that says nothing new is left out.
    edge_y
        The edge that is measured [model mm]; all extension lines come from it.
    below
        True: the chains stand under the edge; False: over it.
    scale, style, datum
        As in `level_chain`.
    """

    def chain_at(stops: Sequence[float], y_line: float) -> Chain:
        return level_chain(stops, y_line=y_line, feet_y=edge_y, scale=scale, style=style, datum=datum)

    new = _new_rows(rows, style=style, datum=datum)
    return _stacked(new, chain_at, edge=edge_y, out=(0, -1 if below else 1), scale=scale)


def upright_chains(
    rows: Sequence[Sequence[float]],
    *,
    edge_x: float,
    left: bool,
    scale: float,
    style: LengthStyle,
    datum: float = 0.0,
) -> tuple[Chain, ...]:
    """Chains stacked outwards from an upright edge; as `level_chains` with x and y exchanged."""

    def chain_at(stops: Sequence[float], x_line: float) -> Chain:
        return upright_chain(stops, x_line=x_line, feet_x=edge_x, scale=scale, style=style, datum=datum)

    new = _new_rows(rows, style=style, datum=datum)
    return _stacked(new, chain_at, edge=edge_x, out=(-1 if left else 1, 0), scale=scale)


def overall(a: Point, b: Point, *, offset: float, scale: float, style: LengthStyle) -> Chain:
    """One dimension between two points, along the line that joins them.

    Parameters
    ----------
    a, b
        What is measured [model mm].
    offset
        From there to the dimension line [mm of paper], to the left when going from `a` to `b`; 0 draws the
        dimension on the line itself, as for a diagonal.
    scale, style
        As in `level_chain`.
    """
    angle = math.atan2(b[1] - a[1], b[0] - a[0])
    aside = -math.sin(angle) * offset * scale, math.cos(angle) * offset * scale
    return chain(
        origin=(a[0] + aside[0], a[1] + aside[1]),
        angle=angle,
        stops=(0.0, math.dist(a, b)),
        feet=(a, b),
        scale=scale,
        style=style,
    )


def chain(
    *,
    origin: Point,
    angle: float,
    stops: Sequence[float],
    feet: Sequence[Point],
    scale: float,
    style: LengthStyle,
    size: float = NOTE_SIZE,
) -> Chain:
    """Chain of dimensions along any straight line.

    Parameters
    ----------
    origin
        Where position 0 lies on the dimension line [model mm].
    angle
        Direction in which positions count up [rad].
    stops
        Positions along the line [model mm], rounded here; any order. Those that round to one position become one.
    feet
        What each stop marks [model mm], one a stop.
    scale
        Model mm for one mm of paper.
    style
        How the project writes lengths, and the step its positions are rounded to.
    size
        Letter size of the labels [mm of paper].

    Raises
    ------
    ValueError
        Fewer than two positions that differ on the project's step.
    """
    marks = {snap(stop, style): foot for stop, foot in sorted(zip(stops, feet, strict=True), reverse=True)}
    kept = tuple(sorted(marks))
    if len(kept) < 2:
        raise ValueError("a chain needs two stops that differ")
    axis = _Axis.through(origin, angle, scale)
    sides = [axis.height(marks[stop]) for stop in kept]
    words = [drawing_length(b - a, style=style) for a, b in pairwise(kept)]
    gaps = [sorted((axis.along(a), axis.along(b))) for a, b in pairwise(kept)]
    moved = _fan([_Gap.of(words[i], gaps[i], i, size) for i in range(len(words))], size=size, away=-_side(sides))
    labels: list[Text] = []
    lines: list[tuple[int, Line]] = []
    for i, (left, right) in enumerate(gaps):
        aside = moved.get(i)
        spot = ((left + right) / 2, LIFT) if aside is None else aside.spot
        labels.append(
            make_text(
                words[i], at=axis.point(*spot), size=size, scale=scale, align="centre", angle=axis.reading, backed=True
            )
        )
        ways = [[(left, 0.0), (right, 0.0)], *([] if aside is None else [aside.leader])]
        lines += [(i, axis.line(a, b, Pen.DIMENSION)) for way in ways for a, b in pairwise(way)]
    for i, (stop, side) in enumerate(zip(kept, sides, strict=True)):
        lines += [(max(i - 1, 0), line) for line in _stop_lines(axis, axis.along(stop), side)]
    lines.sort(key=lambda pair: pair[0])
    return Chain(
        origin=origin,
        angle=angle,
        stops=kept,
        feet=tuple(marks[stop] for stop in kept),
        labels=tuple(labels),
        lines=tuple(line for _, line in lines),
        owners=tuple(owner for owner, _ in lines),
    )


@dataclass(frozen=True, slots=True)
class _Axis:
    """A dimension line as it is read: paper mm along it to the right, and above it."""

    origin: Point
    reading: float  # direction of the words [rad], above -pi/2, at most pi/2
    sign: int  # -1 where positions count against the reading
    scale: float

    @classmethod
    def through(cls, origin: Point, angle: float, scale: float) -> _Axis:
        turned = math.remainder(angle, 2 * math.pi)
        reads = -math.pi / 2 + 1e-9 < turned <= math.pi / 2 + 1e-9
        return cls(
            origin, turned if reads else math.remainder(turned + math.pi, 2 * math.pi), 1 if reads else -1, scale
        )

    def along(self, stop: float) -> float:
        """Return where a position lies, to the right [mm of paper]."""
        return self.sign * stop / self.scale

    def height(self, point: Point) -> float:
        """Return how far a point lies above the line [mm of paper]."""
        x, y = point[0] - self.origin[0], point[1] - self.origin[1]
        return (y * math.cos(self.reading) - x * math.sin(self.reading)) / self.scale

    def point(self, along: float, above: float) -> Point:
        """Return the model's point at a place of the paper."""
        cos, sin = math.cos(self.reading) * self.scale, math.sin(self.reading) * self.scale
        return self.origin[0] + along * cos - above * sin, self.origin[1] + along * sin + above * cos

    def line(self, a: Point, b: Point, pen: Pen) -> Line:
        return Line(a=self.point(*a), b=self.point(*b), pen=pen)


@dataclass(frozen=True, slots=True)
class _Gap:
    """A gap between two stops with its label, in paper mm along the line."""

    index: int
    middle: float
    room: float
    width: float  # of the label with the clear space round it

    @property
    def is_narrow(self) -> bool:
        """Whether the label does not fit between the ticks."""
        return self.width + 2 * (BESIDE_TICK - CLEAR) > self.room

    @classmethod
    def of(cls, words: str, gap: Sequence[float], index: int, size: float) -> _Gap:
        width = text_width(words, size=size) + 2 * SIDE * size + 2 * CLEAR
        return cls(index, (gap[0] + gap[1]) / 2, gap[1] - gap[0], width)


@dataclass(frozen=True, slots=True)
class _Moved:
    """Where a label went that is wider than its gap."""

    spot: Point  # middle of its baseline
    leader: list[Point]  # from the gap to the label


def _fan(gaps: Sequence[_Gap], *, size: float, away: int) -> dict[int, _Moved]:
    """Return places for the labels that are wider than their gaps, by their index.

    ``away`` is the side they go to: 1 over the labels that stay, -1 under the line.
    """
    narrow = sorted((g for g in gaps if g.is_narrow), key=lambda g: g.middle)
    ends = min(g.middle - g.room / 2 for g in gaps), max(g.middle + g.room / 2 for g in gaps)
    letter = (CAP + OVER_CAP) * size
    first = LIFT + letter + CLEAR if away > 0 else OVERSHOOT + CLEAR
    moved: dict[int, _Moved] = {}
    for gap, places in zip(narrow, _rows(narrow, ends), strict=True):
        leader = [(gap.middle, 0.0), (gap.middle, away * first)]
        near = first + FAN
        for row, x in enumerate(places):
            if row:
                leader.append((places[row - 1], away * (near - FAN)))
            leader.append((x, away * near))
            near += 2 * CLEAR + letter + FAN
        near -= 2 * CLEAR + letter + FAN
        moved[gap.index] = _Moved((places[-1], near + CLEAR if away > 0 else -near - CLEAR - letter), leader)
    return moved


def _rows(narrow: Sequence[_Gap], ends: tuple[float, float]) -> list[list[float]]:
    """Return where each narrow gap's leader passes the rows before its label's, and the label's place in its own."""
    places: list[list[float]] = []
    turns = _turns(narrow)
    for rows in range(1, MOST_ROWS + 1):
        places = [[] for _ in narrow]
        for row in range(rows):
            there = [i for i, turn in enumerate(turns) if turn % rows >= row]
            widths = [narrow[i].width if turns[i] % rows == row else PASS for i in there]
            wanted = [places[i][-1] if row else narrow[i].middle for i in there]
            for i, x in zip(there, _spread(wanted, widths, ends), strict=True):
                places[i].append(x)
        if all(abs(each[-1] - gap.middle) <= MOST_ASIDE for each, gap in zip(places, narrow, strict=True)):
            break
    return places


def _turns(narrow: Sequence[_Gap]) -> list[int]:
    """Return each label's number among the neighbours that crowd it, 0 for one that stands free of those before."""
    turns = [0] * len(narrow)
    for i, (before, gap) in enumerate(pairwise(narrow), start=1):
        if gap.middle - before.middle < (gap.width + before.width) / 2:
            turns[i] = turns[i - 1] + 1
    return turns


def _spread(wanted: Sequence[float], widths: Sequence[float], ends: tuple[float, float]) -> list[float]:
    """Return middles nearest to the wanted ones (least squares), in order and without overlap, within the ends.

    Where the widths together exceed the room between the ends, they reach past both alike.

    Notes
    -----
    Taking each one's offset from the first away leaves a monotone regression, solved by pooling adjacent violators:
    Ayer and others, Annals of Mathematical Statistics 26 (1955), pages 641 to 647.
    """
    if not wanted:
        return []
    offsets = [0.0]
    for a, b in pairwise(widths):
        offsets.append(offsets[-1] + (a + b) / 2)
    pools: list[tuple[float, int]] = []  # sum, count
    for want, offset in zip(wanted, offsets, strict=True):
        pool = (want - offset, 1)
        while pools and pools[-1][0] * pool[1] >= pool[0] * pools[-1][1]:
            last = pools.pop()
            pool = (last[0] + pool[0], last[1] + pool[1])
        pools.append(pool)
    low = ends[0] + widths[0] / 2
    high = ends[1] - widths[-1] / 2 - offsets[-1]
    if low > high:
        low = high = (low + high) / 2
    free = [total / count for total, count in pools for _ in range(count)]
    return [min(max(x, low), high) + offset for x, offset in zip(free, offsets, strict=True)]


def _stop_lines(axis: _Axis, along: float, side: float) -> list[Line]:
    """Return the extension line and the tick of one stop."""
    half = TICK / 2 * math.sqrt(0.5)
    tick = axis.line((along - half, -half), (along + half, half), Pen.TICK)
    if abs(side) <= FOOT_GAP:
        return [tick]
    towards = 1 if side > 0 else -1
    start, end = (along, side - towards * FOOT_GAP), (along, -towards * OVERSHOOT)
    return [axis.line(start, end, Pen.DIMENSION), tick]


def _side(heights: Sequence[float]) -> int:
    """Return 1 where the feet lie above the line, else -1."""
    return 1 if sum(heights) > 0 else -1


def _one_each(feet: float | Sequence[float], stops: Sequence[float]) -> Sequence[float]:
    return [feet] * len(stops) if isinstance(feet, float | int) else feet


def _new_rows(rows: Sequence[Sequence[float]], *, style: LengthStyle, datum: float) -> list[Sequence[float]]:
    """Return the rows with two stops or more that repeat no row before them."""
    seen: set[frozenset[float]] = set()
    kept: list[Sequence[float]] = []
    for stops in rows:
        marks = frozenset(snap(stop - datum, style) for stop in stops)
        if len(marks) > 1 and marks not in seen:
            seen.add(marks)
            kept.append(stops)
    return kept


def _stacked(
    rows: Sequence[Sequence[float]],
    chain_at: Callable[[Sequence[float], float], Chain],
    *,
    edge: float,
    out: tuple[int, int],
    scale: float,
) -> tuple[Chain, ...]:
    """Return chains one outside the other; ``chain_at`` makes one from its stops and the place of its line."""
    sign = out[0] + out[1]
    made: list[Chain] = []
    free = 0.0  # from the edge outwards, what is taken [mm of paper]
    for stops in rows:
        inner, outer = _reaches(chain_at(stops, edge + sign * FIRST_LINE * scale), out, scale)
        away = max(FIRST_LINE, free + NEXT_LINE + inner)
        made.append(chain_at(stops, edge + sign * away * scale))
        free = away + outer
    return tuple(made)


def _reaches(made: Chain, out: tuple[int, int], scale: float) -> tuple[float, float]:
    """Return how far a chain's words reach from its line towards the edge, and away from it [mm of paper]."""
    ways = [
        ((x - made.origin[0]) * out[0] + (y - made.origin[1]) * out[1]) / scale
        for label in made.labels
        for x, y in label.box
    ]
    return max(-min(ways), OVERSHOOT), max(*ways, OVERSHOOT)
