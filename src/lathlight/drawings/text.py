"""Words on paper: how wide they are, what they cover, where they break, and whether two of them collide.

Decides sizes from the bundled fonts' own table; where words go is left to the views, how they look to the writers
(which set them without kerning, so that the widths here are exact).
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from lathlight.drawings.sheets import PageText, Point, Text
from lathlight.fonts import CAP_HEIGHT, DESCENDER, SIZES, WIDEST

if TYPE_CHECKING:
    from collections.abc import Sequence

Align = Literal["left", "centre", "right"]
Box = tuple[Point, Point, Point, Point]

EM = 1000  # units of the font's table
NOTE_SIZE = 2.5  # [mm] em of labels and notes
SIDE = 0.08  # [em] what a letter may reach past its own width, left and right
CAP = CAP_HEIGHT / EM  # [em] height of capitals and digits
DROP = DESCENDER / EM  # [em] depth of g, p, q, y
LEADING = 1.3  # [em] from baseline to baseline
BEFORE = {"left": 0.0, "centre": 0.5, "right": 1.0}  # share of the width that lies before the point
NO_SIZE = (WIDEST[0], WIDEST[1], WIDEST[2], -DESCENDER, CAP_HEIGHT)  # a character the font lacks: never too small


def text_width(words: str, *, size: float, bold: bool = False) -> float:
    """Width of one line of words on paper [mm].

    Parameters
    ----------
    words
        Any text; a character that the font lacks counts as its widest one.
    size
        Letter size, em [mm of paper].
    bold
        Semibold in place of regular.

    Examples
    --------
    >>> text_width("2440", size=2.5)
    6.0
    >>> text_width("", size=2.5)
    0.0
    """
    return _units(words, 1 if bold else 0) * size / EM


@lru_cache(maxsize=8192)  # the same words are measured again at every scale that is tried
def _units(words: str, face: int) -> int:
    return sum(SIZES.get(letter, NO_SIZE)[face] for letter in words)


def make_text(
    words: str,
    *,
    at: Point,
    size: float = NOTE_SIZE,
    scale: float,
    align: Align = "left",
    angle: float = 0.0,
    bold: bool = False,
    backed: bool = False,
) -> Text:
    """One line of words in a view, with the box that it covers.

    Parameters
    ----------
    words
        One line of text.
    at
        Point of the baseline that `align` names [model mm].
    size
        Letter size, em [mm of paper].
    scale
        The view's scale: model mm for one mm of paper.
    align
        Which end of the baseline lies at `at`.
    angle
        Direction of the baseline [rad], anticlockwise; 0 reads from the bottom of the page, pi/2 from its right.
    bold
        Semibold in place of regular.
    backed
        The paper's white is laid under the words.
    """
    box = _box(words, at=at, size=size, align=align, angle=angle, bold=bold, scale=scale)
    return Text(at=at, words=words, size=size, align=align, angle=angle, bold=bold, box=box, backed=backed)


def page_text(words: str, *, at: Point, size: float = NOTE_SIZE, align: Align = "left", bold: bool = False) -> PageText:
    """One level line of words on a page outside every view, with the box that it covers [paper mm]."""
    box = _box(words, at=at, size=size, align=align, angle=0.0, bold=bold, scale=1.0)
    return PageText(at=at, words=words, size=size, align=align, bold=bold, box=box)


@lru_cache(maxsize=2048)
def wrap(words: str, *, width: float, size: float = NOTE_SIZE, bold: bool = False) -> tuple[str, ...]:
    """Lines that the words break into, each at most so wide.

    Parameters
    ----------
    words
        Text; breaks at spaces, and within a word only where it is wider than the line. Line ends are kept.
    width
        Widest line [mm of paper], at least one letter.
    size
        Letter size, em [mm of paper].
    bold
        Semibold in place of regular.

    Examples
    --------
    >>> wrap("one two three", width=10.0, size=2.5)
    ('one two', 'three')
    >>> wrap("", width=10.0)
    ('',)
    """
    lines: list[str] = []
    for paragraph in words.split("\n"):
        line = ""
        for word in paragraph.split():
            for piece in _pieces(word, width=width, size=size, bold=bold):
                longer = f"{line} {piece}" if line else piece
                if line and text_width(longer, size=size, bold=bold) > width:
                    lines.append(line)
                    line = piece
                else:
                    line = longer
        lines.append(line)
    return tuple(lines)


def boxes_overlap(a: Sequence[Point], b: Sequence[Point], *, slack: float = 0.0) -> bool:
    """Whether two convex boxes at any angle share more than their rims.

    Parameters
    ----------
    a, b
        Corners in order, either way round, same axes and unit.
    slack
        Depth up to which they may run into each other and still count as apart; negative: gap that they must keep.

    Notes
    -----
    Separating axes: two convex figures are apart where some side's normal parts them. Gottschalk, Lin and Manocha,
    "OBBTree", SIGGRAPH 1996, section 5.
    """
    if any(_apart(a, b, axis, by=min(slack, 0.0)) for axis in (0, 1)):
        return False  # what most pairs on a page are: told at once, without their normals
    return all(_depth(a, b, axis) > slack for axis in (*_normals(a), *_normals(b)))


def _apart(a: Sequence[Point], b: Sequence[Point], axis: int, *, by: float) -> bool:
    """Whether two figures run into each other along one of the page's axes no further than so much."""
    along_a, along_b = [p[axis] for p in a], [p[axis] for p in b]
    return max(along_a) - min(along_b) <= by or max(along_b) - min(along_a) <= by


def _box(words: str, *, at: Point, size: float, align: Align, angle: float, bold: bool, scale: float) -> Box:
    """Return the corners of what the words cover, from the lower left anticlockwise as they are read."""
    width = text_width(words, size=size, bold=bold)
    left = -BEFORE[align] * width - SIDE * size
    right = left + width + 2 * SIDE * size
    sizes = [SIZES.get(letter, NO_SIZE) for letter in words]
    low = min([0, *(each[3] for each in sizes)]) / EM * size
    high = max([CAP_HEIGHT, *(each[4] for each in sizes)]) / EM * size
    cos, sin = math.cos(angle) * scale, math.sin(angle) * scale

    def turned(x: float, y: float) -> Point:
        return at[0] + x * cos - y * sin, at[1] + x * sin + y * cos

    return turned(left, low), turned(right, low), turned(right, high), turned(left, high)


def _pieces(word: str, *, width: float, size: float, bold: bool) -> list[str]:
    """Return a word in pieces that fit the width: nearly always the word itself."""
    pieces: list[str] = []
    piece = ""
    for letter in word:
        if piece and text_width(piece + letter, size=size, bold=bold) > width:
            pieces.append(piece)
            piece = ""
        piece += letter
    return [*pieces, piece]


def _normals(box: Sequence[Point]) -> list[Point]:
    """Return unit normals of a figure's sides; sides without length have none."""
    normals: list[Point] = []
    for (ax, ay), (bx, by) in zip(box, (*box[1:], box[0]), strict=True):
        length = math.hypot(bx - ax, by - ay)
        if length > 0:
            normals.append(((by - ay) / length, (ax - bx) / length))
    return normals


def _depth(a: Sequence[Point], b: Sequence[Point], axis: Point) -> float:
    """Return how far two figures run into each other along an axis; negative where a gap lies between."""
    along_a = [x * axis[0] + y * axis[1] for x, y in a]
    along_b = [x * axis[0] + y * axis[1] for x, y in b]
    return min(max(along_a) - min(along_b), max(along_b) - min(along_a))
