"""The frozen values of the floor covering: what it depends on, where it lies, and what would go wrong.

Set axes [mm]: x to the right as the camera sees it, y away from the camera, the set's faces at the back. Nothing here
computes; see ``lathlight.flooring.floor``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.finishing import TakeoffLine
    from lathlight.layout import Point, WallLine
    from lathlight.units import LengthStyle
    from lathlight.working import Working

Ring = tuple[tuple[float, float], ...]
Line = tuple[tuple[float, float], tuple[float, float]]
Basis = Literal["stated", "pictures", "walls"]  # where a size comes from
Goods = Literal["area only", "strips", "boards", "roll"]
FindingKind = Literal["floor short of the picture", "flats half on the covering"]
Side = Literal["left", "right", "front"]


# --- what it depends on ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFrame:
    """What the floor needs of one picture."""

    picture: str
    sitter: Point  # set axes [mm]
    angles: tuple[float, float]  # camera angles at the sitter from the set's axis [rad], right positive
    lens: tuple[float, float]  # [mm], both ends of a zoom
    sensor: tuple[float, float]  # width and height as held [mm]
    height: float  # of the frame in the sitter's plane [mm]
    bottom: float  # its lower edge there, above the finished floor; negative: below it [mm]
    camera: tuple[float, float]  # heights of the lens above the finished floor [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorJob:
    """What the floor covering of a set depends on."""

    covering: str
    walls: tuple[WallLine, ...]  # finished faces, left to right
    depths: tuple[float, ...]  # of sheet and frame together, one a wall [mm]
    under_flats: bool  # True: flats stand on the covering; False: it stops at them
    width: float | None  # stated, along the set [mm]
    depth: float | None  # stated, from the faces towards the camera
    gap: float  # left free along the faces [mm]
    strip_width: float | None
    strip_length: float | None  # None: as long as wanted
    strips: Literal["along", "away"]  # which way strips run
    pictures: tuple[PictureFrame, ...]
    sitters: tuple[Point, ...]  # set axes [mm]
    grid: LengthStyle
    kerf: float  # [mm]


# --- what follows ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorSeen:
    """How far one picture sees the floor, over all its angles, focal lengths and camera heights."""

    picture: str
    left: float  # x [mm]
    right: float
    front: float  # y nearest to the camera [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorRow:
    """One strip, row of boards, or drop off a roll; numbered from the left, or from the back."""

    number: int
    low: float  # its two sides: x where strips run away from the camera, y where they run along the set [mm]
    high: float
    start: float  # its two ends, the other way
    end: float
    joints: tuple[float, ...]  # where its boards meet, between the ends

    @property
    def width(self) -> float:
        """From side to side [mm]; less than a whole strip where it is ripped."""
        return self.high - self.low

    @property
    def length(self) -> float:
        """From end to end, where it is longest [mm]."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorFinding:
    """Something about the floor that would go wrong, with its figures."""

    kind: FindingKind
    what: str  # picture, or wall
    side: Side
    found: float  # how far the covering reaches to that side, from the set's axis or its faces [mm]
    limit: float  # how far it is wanted [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPlan:
    """The floor covering of a set."""

    covering: str
    outline: Ring  # as laid, gaps taken off, anticlockwise
    extent: tuple[float, float, float, float]  # x0, y0, x1, y1 of the rectangle that it is cut from [mm]
    area: float  # [mm2]
    gap: float  # to the faces [mm]
    width_from: Basis
    depth_from: Basis
    goods: Goods
    runs: Literal["along", "away"]  # which way strips run
    rows: tuple[FloorRow, ...]
    seams: tuple[Line, ...]  # between rows, then ends of boards
    number: int | None  # boards or drops to buy; None where their length is not known
    seen: tuple[FloorSeen, ...]
    lines: tuple[TakeoffLine, ...]
    findings: tuple[FloorFinding, ...]
    why: Working

    @property
    def width(self) -> float:
        """Along the set [mm]."""
        return self.extent[2] - self.extent[0]

    @property
    def depth(self) -> float:
        """From its back edge to its front edge [mm]."""
        return self.extent[3] - self.extent[1]
