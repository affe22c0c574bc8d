"""Where words go so that they cover no others: inside a box, in the first free place, or spread along an edge."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.sheets import Chain, Line, Path, Pen, Text, Tone
from lathlight.drawings.text import CAP, LEADING, NOTE_SIZE, boxes_overlap, make_text, text_width, wrap

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.drawings.sheets import Item, Point

SMALL = 2.0  # smallest letters [mm of paper]
MARGIN = 0.7  # between words and the edge of their box [mm of paper]
TICK = 1.6  # from an edge to a running figure's letters [mm of paper]
LEAD = 2.4  # height in which their leaders go aside [mm of paper]
CELL = 12.0  # side of the squares that words are looked up by [mm of paper]
ARROW = 2.2  # length of an arrow's head [mm of paper]


def texts_of(items: Iterable[Item]) -> tuple[Text, ...]:
    """Return all words of some items, labels of chains included."""
    found: list[Text] = []
    for item in items:
        if isinstance(item, Text):
            found.append(item)
        elif isinstance(item, Chain):
            found += item.labels
    return tuple(found)


class Taken:
    """The words that stand already, found by place, so that each new one is compared with its neighbours alone."""

    def __init__(self, items: Iterable[Item], *, scale: float) -> None:
        self._cell = CELL * scale
        self._boxes: dict[tuple[int, int], list[Sequence[Point]]] = {}
        self.add(items)

    def add(self, items: Iterable[Item]) -> None:
        """Take the words of some items, labels of chains included."""
        self.block(text.box for text in texts_of(items))

    def block(self, boxes: Iterable[Sequence[Point]]) -> None:
        """Keep words off some boxes [model mm] where no words stand."""
        for box in boxes:
            for cell in self._cells(box, 0.0):
                self._boxes.setdefault(cell, []).append(box)

    def is_free(self, text: Text, *, gap: float = 0.0) -> bool:
        """Return True where a text keeps a gap [model mm] from all words that stand already."""
        near = (box for cell in self._cells(text.box, gap) for box in self._boxes.get(cell, ()))
        return not any(boxes_overlap(text.box, box, slack=-gap) for box in near)

    def first_free(self, candidates: Iterable[Text], *, gap: float = 0.0) -> Text | None:
        """Return the first text that is free, taken from now on; None where there is none."""
        for text in candidates:
            if self.is_free(text, gap=gap):
                self.add([text])
                return text
        return None

    def all_free(self, texts: Sequence[Text], *, gap: float = 0.0) -> bool:
        """Return True where there are texts and every one is free; they are taken from now on."""
        if not texts or not all(self.is_free(text, gap=gap) for text in texts):
            return False
        self.add(texts)
        return True

    def _cells(self, box: Sequence[Point], gap: float) -> list[tuple[int, int]]:
        xs, ys = [x for x, _ in box], [y for _, y in box]
        across = range(math.floor((min(xs) - gap) / self._cell), math.floor((max(xs) + gap) / self._cell) + 1)
        up = range(math.floor((min(ys) - gap) / self._cell), math.floor((max(ys) + gap) / self._cell) + 1)
        return [(i, j) for i in across for j in up]


def around(middle: Point, *, scale: float) -> Iterator[Point]:
    """Yield places round a point, the nearest first [model mm]: where words may go that do not fit on it."""
    for far in (3.5, 5.0, 7.0, 10.0, 14.0):
        for turn in (k * math.pi / 6 for k in range(12)):
            yield middle[0] + far * scale * math.cos(turn), middle[1] + far * scale * math.sin(turn)


def words_in(
    lines: Sequence[str], *, low: Point, high: Point, scale: float, size: float = NOTE_SIZE, bold_first: bool = False
) -> tuple[Text, ...]:
    """Return lines of words centred in an upright box, turned, broken or smaller where they must be; else none.

    Parameters
    ----------
    lines
        Lines from top to bottom; each may be broken at its spaces.
    low, high
        Lower left and upper right corner of the box [model mm].
    scale
        Model mm for one mm of paper.
    size
        Letter size wanted [mm of paper].
    bold_first
        Semibold for the first line.
    """
    width, height = (high[0] - low[0]) / scale, (high[1] - low[1]) / scale
    for letters in dict.fromkeys((size, SMALL)):
        for whole, turned in ((True, False), (True, True), (False, False), (False, True)):
            room = (height, width) if turned else (width, height)
            broken = _broken(lines, room, letters, bold_first=bold_first, whole=whole)
            if broken:
                middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
                return _stack(broken, middle, letters, scale, turned=turned)
    return ()


def running_figures(
    marks: Iterable[tuple[float, str]],
    *,
    edge: float,
    level: bool,
    out: int,
    scale: float,
    size: float = NOTE_SIZE,
    bold: bool = False,
) -> tuple[Item, ...]:
    """Return figures beside an edge, each tied to its position, spread so that none touch.

    Parameters
    ----------
    marks
        Position along the edge [model mm] and its figure; positions that are equal are shown once.
    edge
        Where the edge lies across [model mm].
    level
        True: the edge is level, figures stand on it and read from the right; False: it is upright.
    out
        Side of the edge they stand on: 1 above or right, -1 below or left.
    scale
        Model mm for one mm of paper.
    size
        Letter size [mm of paper].
    bold
        Semibold figures.
    """
    kept = sorted({round(position, 3): (position, words) for position, words in marks}.values())
    places = apart([p for p, _ in kept], gap=1.1 * size * scale)
    items: list[Item] = []
    for (position, words), place in zip(kept, places, strict=True):
        near, far = edge + out * 0.5 * scale, edge + out * (TICK + LEAD) * scale
        knee = edge + out * TICK * scale
        way = [(position, near), (position, knee), (place, far)]
        align = "left" if out > 0 else "right"
        baseline = place + (0.35 if level else -0.35) * size * scale
        spot = (baseline, far + out * 0.6 * scale)
        if not level:
            way, spot = [(b, a) for a, b in way], (spot[1], spot[0])
        items += [Line(a=a, b=b, pen=Pen.DIMENSION) for a, b in pairwise(way)]
        turn = math.pi / 2 if level else 0.0
        items.append(make_text(words, at=spot, size=size, scale=scale, align=align, angle=turn, bold=bold))
    return tuple(items)


def apart(wanted: Sequence[float], *, gap: float) -> tuple[float, ...]:
    """Return places in order, each at least a gap from the next, moved about their common middle where they crowd.

    Examples
    --------
    >>> apart([0, 1, 10], gap=3)
    (-1.0, 2.0, 10.0)
    """
    groups: list[list[float]] = []  # wanted places of neighbours that touch
    for want in wanted:
        groups.append([want])
        while len(groups) > 1 and _first(groups[-1], gap) - _last(groups[-2], gap) < gap:
            groups[-2:] = [groups[-2] + groups[-1]]
    return tuple(_first(group, gap) + k * gap for group in groups for k in range(len(group)))


def arrow(tail: Point, tip: Point, *, scale: float, pen: Pen = Pen.OUTLINE) -> tuple[Item, ...]:
    """Return a line with a filled head at its tip."""
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    back = [
        (
            tip[0] - ARROW * scale * math.cos(angle + turn),
            tip[1] - ARROW * scale * math.sin(angle + turn),
        )
        for turn in (0.26, -0.26)
    ]
    return Line(a=tail, b=tip, pen=pen), Path(points=(tip, *back), closed=True, pen=None, fill=Tone.BLACK)


def _first(group: Sequence[float], gap: float) -> float:
    return sum(group) / len(group) - (len(group) - 1) * gap / 2


def _last(group: Sequence[float], gap: float) -> float:
    return _first(group, gap) + (len(group) - 1) * gap


def _broken(
    lines: Sequence[str], room: tuple[float, float], size: float, *, bold_first: bool, whole: bool
) -> tuple[tuple[str, bool], ...]:
    """Return lines with whether they are bold, kept whole or broken to the room; empty where they do not fit."""
    width, height = room[0] - 2 * MARGIN, room[1] - 2 * MARGIN
    if width <= 0 or height <= 0:
        return ()
    found: list[tuple[str, bool]] = []
    for number, line in enumerate(lines):
        bold = bold_first and number == 0
        words = [line] if whole else line.split()
        if any(text_width(word, size=size, bold=bold) > width for word in words):
            return ()
        found += [(part, bold) for part in wrap(line, width=width, size=size, bold=bold)]
    return tuple(found) if ((len(found) - 1) * LEADING + CAP) * size <= height else ()


def _stack(
    lines: Sequence[tuple[str, bool]], middle: Point, size: float, scale: float, *, turned: bool
) -> tuple[Text, ...]:
    step = LEADING * size * scale
    top = (len(lines) - 1) / 2 * step - 0.35 * size * scale
    texts: list[Text] = []
    for number, (words, bold) in enumerate(lines):
        drop = top - number * step
        at = (middle[0] - drop, middle[1]) if turned else (middle[0], middle[1] + drop)
        angle = math.pi / 2 if turned else 0.0
        texts.append(
            make_text(words, at=at, size=size, scale=scale, align="centre", angle=angle, bold=bold, backed=True)
        )
    return tuple(texts)
