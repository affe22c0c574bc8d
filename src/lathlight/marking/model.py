"""The frozen values of marking out: what it depends on, and every figure that is marked.

Wall axes [mm]: along the wall from its left face corner, up from the foot of the flats. Heights for people count from
the finished floor, offsets from the level line, figures of flats lying down from their own bottom and left edges. Every
figure is rounded once, from its own start; ``rest`` is what that left: exact less figure. Nothing here computes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.units import LengthStyle
    from lathlight.working import Working

Edge = Literal["top edge", "bottom edge", "backing's bottom edge"]
Stretch = tuple[float, float]  # along the wall, left to right [mm]


# --- what it depends on ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedLine:
    """A line of trim as it lies on one wall."""

    name: str
    kind: str  # "base", "rail", "picture rail", "cornice"
    top: float
    bottom: float
    backing: float | None  # bottom edge of a cornice's backing strips; None: there are none
    stretches: tuple[Stretch, ...]  # where it runs, left to right


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedFrame:
    """A moulding frame, outside to outside."""

    id: str
    tier: str
    left: float
    right: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedFlat:
    """A flat: its foot, its top and the edges of its sheets, which a tape is hooked on."""

    id: str
    mark: str
    left: float
    right: float
    foot: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedWall:
    """One wall as the marks meet it."""

    name: str
    length: float
    height: float
    flats: tuple[MarkedFlat, ...]
    lines: tuple[MarkedLine, ...]
    frames: tuple[MarkedFrame, ...]
    sills: tuple[float, ...] = ()  # level edges of openings: sills and heads


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingJob:
    """What marking out depends on."""

    walls: tuple[MarkedWall, ...]  # left to right
    rise: float  # how high the finished floor lies above the foot of the flats
    grid: LengthStyle


# --- what follows ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelLine:
    """The one line that is struck round the standing, shimmed set."""

    height: float  # above the finished floor, on the grid [mm]
    above_foot: float  # above the foot of the flats, exact [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class HeightMark:
    """One edge to mark on one wall; figures on the grid [mm]."""

    id: str  # wall / line or tier / edge, and its number where a tier has several heights
    wall: str
    name: str  # trim line, or tier of moulding frames
    kind: str  # "base", "rail", "picture rail", "cornice", "moulding frame"
    edge: Edge
    height: float  # above the finished floor
    offset: float  # from the level line, up positive; level line and offset add up to the height
    above_foot: float  # above the foot of the flats
    rest: float  # exact less `height`
    stretches: tuple[Stretch, ...]  # where along the wall, exact


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatMark:
    """One edge to mark on one flat that lies down; figures on the grid [mm]."""

    mark: str  # id of the `HeightMark` it belongs to
    flat: str
    flat_mark: str
    name: str
    kind: str
    edge: Edge
    height: float  # from the flat's own bottom edge
    rest: float  # exact less `height`
    stretches: tuple[Stretch, ...]  # from the left edge of the flat's sheets
    is_across: bool  # True: over the whole width of the wall that the flat bears


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameMark:
    """The uprights of one moulding frame on one flat; figures on the grid [mm]."""

    frame: str  # id
    tier: str
    wall: str
    flat: str
    flat_mark: str
    left: float | None  # outside left edge, from the left edge of the flat's sheets; None: lies on another flat
    right: float | None
    left_along: float  # the same from the wall's left corner
    right_along: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StickMark:
    """One mark on the story stick [mm], on the grid."""

    at: float  # from the stick's foot: height above the finished floor
    offset: float  # from the level line, up positive
    names: tuple[str, ...]  # what lies there


@dataclass(frozen=True, slots=True, kw_only=True)
class StoryStick:
    """A strip with all heights at full size; it hangs from the level line."""

    marks: tuple[StickMark, ...]  # bottom to top; equal heights share one
    length: float
    level: float  # where the level line lies, from the stick's foot
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingOut:
    """All that is marked on a set before its mouldings go on."""

    level: LevelLine
    rise: float  # how high the finished floor lies above the foot of the flats
    heights: tuple[HeightMark, ...]  # wall by wall, from the bottom up
    flats: tuple[FlatMark, ...]  # flat by flat, from the bottom up
    frames: tuple[FrameMark, ...]  # flat by flat, left to right
    stick: StoryStick
    most_left: float  # greatest that rounding left of any figure [mm], without its sign
