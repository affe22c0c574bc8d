"""The marks of a fixing plan and the legend that explains them: heads, brads, beads, joining hardware.

Decides what each mark looks like on paper; where they stand is left to the plan of the wall.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.cells import moved
from lathlight.drawings.outlines import rectangle
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import CAP, NOTE_SIZE, make_text, text_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point

# Sizes on paper [mm].
CROSS = 0.65  # half the arms of a covered head
RING = 0.75  # radius of a head that is filled
TICK = 0.9  # half the stroke of a brad
SQUARE = 0.65  # half the side of what joins flats
BRACKET = (0.8, 1.3)  # half the sides of a bracket on the back
CLEAR = 0.3  # from a mark to words
SWATCH = 9.0  # what a line's sample takes in the legend
AFTER = 1.5  # from a sample to its words
ENTRY_GAP = 6.0
ROW = 4.6
RING_STEPS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the legend: a sample drawn about the origin, half its width [mm of paper], and its words."""

    sample: tuple[Item, ...]
    half: float
    words: str


def cross(at: Point, scale: float, *, half: float = CROSS) -> tuple[Item, ...]:
    """Return a head that a moulding covers."""
    x, y = at
    arm = half * scale
    return tuple(Line(a=(x - arm, y - k * arm), b=(x + arm, y + k * arm), pen=Pen.FASTENER) for k in (1, -1))


def ring(at: Point, scale: float) -> tuple[Item, ...]:
    """Return a head that nothing covers."""
    return (Path(points=_circle(at, RING * scale), closed=True, pen=Pen.FASTENER),)


def crossed_ring(at: Point, scale: float) -> tuple[Item, ...]:
    """Return a screw through a moulding that comes off."""
    return (*ring(at, scale), *cross(at, scale, half=RING * math.sqrt(0.5)))


def tick(at: Point, scale: float, *, upright: bool) -> tuple[Item, ...]:
    """Return a brad: a stroke across its moulding, which runs up where ``upright``."""
    x, y = at
    across, up = (TICK * scale, 0.0) if upright else (0.0, TICK * scale)
    return (Line(a=(x - across, y - up), b=(x + across, y + up), pen=Pen.FASTENER),)


def square(at: Point, scale: float) -> tuple[Item, ...]:
    """Return a screw, bolt or connector between two flats."""
    box = rectangle(*_around(at, (SQUARE * scale, SQUARE * scale)))
    return (Path(points=box, closed=True, pen=Pen.FASTENER, fill=Tone.BLACK),)


def bracket(at: Point, scale: float) -> tuple[Item, ...]:
    """Return a bracket on the back while the set is marked out."""
    box = rectangle(*_around(at, (BRACKET[1] * scale, BRACKET[0] * scale)))
    return (Path(points=box, closed=True, pen=Pen.FASTENER, fill=Tone.WHITE),)


def line_sample(pen: Pen, scale: float) -> tuple[Item, ...]:
    """Return a stretch of line about the origin, for the legend."""
    return (Line(a=(-SWATCH / 2 * scale, 0.0), b=(SWATCH / 2 * scale, 0.0), pen=pen),)


def kept_clear(places: Iterable[Point], scale: float, *, half: float = RING) -> Iterable[Ring]:
    """Yield boxes round some marks, which words keep off."""
    reach = (half + CLEAR) * scale
    return (rectangle(*_around(at, (reach, reach))) for at in places)


def legend(entries: Sequence[Entry], *, at: Point, width: float, scale: float) -> list[Item]:
    """Return the legend in rows that hang from a point.

    Parameters
    ----------
    entries
        What is explained, in order.
    at
        Upper left corner [model mm].
    width
        Of a row at most [mm of paper]; an entry that is wider stands alone.
    scale
        Model mm for one mm of paper.
    """
    items: list[Item] = []
    across, down = 0.0, ROW / 2
    for entry in entries:
        wide = 2 * entry.half + AFTER + text_width(entry.words, size=NOTE_SIZE)
        if across and across + wide > width:
            across, down = 0.0, down + ROW
        middle = at[0] + (across + entry.half) * scale, at[1] - down * scale
        items += [moved(item, middle) for item in entry.sample]
        words_at = middle[0] + (entry.half + AFTER) * scale, middle[1] - CAP / 2 * NOTE_SIZE * scale
        items.append(make_text(entry.words, at=words_at, scale=scale))
        across += wide + ENTRY_GAP
    return items


def _circle(at: Point, radius: float) -> tuple[Point, ...]:
    turns = (2 * math.pi * k / RING_STEPS for k in range(RING_STEPS))
    return tuple((at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn)) for turn in turns)


def _around(at: Point, half: Point) -> tuple[float, float, float, float]:
    return at[0] - half[0], at[1] - half[1], at[0] + half[0], at[1] + half[1]
