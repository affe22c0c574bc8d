"""Drawings as plain data: lines, hatches already clipped, dimension chains, texts with their boxes, pages.

A view is drawn in the millimetres of the thing itself (model), y up, for one stated scale; text sizes and pen widths
are millimetres of paper. A page places views on paper. Writers (``svg``, ``dxf``) calculate nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Literal

Point = tuple[float, float]


class Pen(Enum):
    """Line kinds: paper width [mm], dash pattern on paper [mm] (empty: solid), layer of the DXF."""

    CUT = (0.5, (), "CUT")  # material cut by the plane; thickest outline
    OUTLINE = (0.35, (), "OUTLINE")  # visible edges
    HIDDEN = (0.25, (2.0, 1.0), "HIDDEN")  # behind or underneath
    LIGHT = (0.18, (), "LIGHT")  # furniture, hatching, construction
    DIMENSION = (0.18, (), "DIMENSION")
    TICK = (0.35, (), "DIMENSION")  # ends of a dimension
    CENTRE = (0.18, (6.0, 1.2, 1.2, 1.2), "CENTRE")  # axes
    PHANTOM = (0.18, (6.0, 1.2, 1.2, 1.2, 1.2, 1.2), "PHANTOM")  # another position, a neighbour
    OVERHEAD = (0.18, (5.0, 2.0), "OVERHEAD")
    SIGHT = (0.18, (4.0, 1.0, 0.5, 1.0), "SIGHT")  # picture edges and camera axes
    LEVEL = (0.5, (9.0, 1.5, 1.5, 1.5), "LEVEL")  # the line struck round a standing set
    SEAM = (0.25, (0.8, 0.8), "SEAM")  # where two sheets meet
    BEHIND = (0.13, (2.0, 1.0), "BEHIND")  # timber behind a finished face, faint
    FASTENER = (0.3, (), "FASTENERS")  # screws, pins, brads, joining hardware
    GLUE = (0.4, (0.4, 1.0), "GLUE")  # a bead: a row of dots
    SNAG = (0.5, (), "SNAG")  # what would go wrong; the one pen in the accent colour
    FRAME = (0.7, (), "FRAME")  # page border

    @property
    def width(self) -> float:
        """Width on paper [mm]."""
        return self.value[0]

    @property
    def pattern(self) -> tuple[float, ...]:
        """Dash pattern on paper [mm]; empty: solid."""
        return self.value[1]

    @property
    def layer(self) -> str:
        """Layer of the DXF."""
        return self.value[2]


class Tone(Enum):
    """Fills: grey of the paper's white, 0 black to 1 white; legible in black and white."""

    BLACK = 0.0
    MID = 0.62
    PALE = 0.86
    FAINT = 0.94
    WHITE = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line, model mm."""

    a: Point
    b: Point
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A polyline or polygon, model mm; holes only where it is closed and filled."""

    points: tuple[Point, ...]
    closed: bool
    pen: Pen | None  # None: fill only
    fill: Tone | None = None
    holes: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """Section lining, clipped already: pairs of points, model mm."""

    lines: tuple[tuple[Point, Point], ...]
    pen: Pen = Pen.LIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of words. ``box`` are the corners of what it covers, model mm, from the font's own widths."""

    at: Point  # model mm; where ``align`` and the baseline meet
    words: str
    size: float  # letter height on paper: em [mm]
    align: Literal["left", "centre", "right"]
    angle: float  # [rad], anticlockwise; 0 reads from the bottom, pi/2 from the right
    bold: bool
    box: tuple[Point, Point, Point, Point]
    backed: bool = False  # True: the paper's white is laid under it


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A chain of dimensions along one straight line.

    ``stops`` are the rounded positions along the line from its origin [model mm]; each label is the difference of two
    neighbours, so that every chain adds up. ``feet`` are the points the extension lines come from, one a stop.
    """

    origin: Point  # where position 0 lies on the dimension line
    angle: float  # direction of the line [rad]
    stops: tuple[float, ...]
    feet: tuple[Point, ...]
    labels: tuple[Text, ...]  # one fewer than stops
    lines: tuple[Line, ...]  # dimension line, extension lines, 45-degree ticks, leaders of narrow labels
    owners: tuple[int, ...]  # one a line: which label it belongs to


Item = Line | Path | Hatch | Text | Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One drawing at one scale.

    Lines, paths and hatches are drawn in the order of ``items``, so that a filled path covers what stands before it;
    all chains come after them, all texts last.
    """

    name: str  # file name without ending: "back-elevation"
    title: str
    scale: float  # model mm for one paper mm: 25 means 1:25
    items: tuple[Item, ...]
    low: Point  # bounds of everything in it, texts included, model mm
    high: Point

    @property
    def paper_size(self) -> Point:
        """Width and height on paper [mm]."""
        return (self.high[0] - self.low[0]) / self.scale, (self.high[1] - self.low[1]) / self.scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A view on a page: where its bounds' lower left corner lies [paper mm from the page's lower left corner]."""

    view: View
    at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class PageText:
    """Words on a page outside every view [paper mm, y up]; tables are made of these."""

    at: Point
    words: str
    size: float
    align: Literal["left", "centre", "right"]
    bold: bool
    box: tuple[Point, Point, Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLine:
    """A line on a page outside every view [paper mm, y up]."""

    a: Point
    b: Point
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page of drawings, border and title block included."""

    name: str  # file name without ending
    title: str
    number: int  # in the set book; 0 until known, and where it is no page of the book
    size: Point  # paper [mm]
    views: tuple[Placed, ...]
    texts: tuple[PageText, ...]
    lines: tuple[PageLine, ...]
