"""The frozen values of the trim: what its runs depend on, its pieces, how they meet, and what would go wrong.

Wall axes [mm]: along the wall from its left face corner, up from the foot of the flats; the finished floor lies at
``TrimRules.floor``. Heights of a line are those of its top edge. Left and right are those of the camera's side. Nothing
here computes; see ``lathlight.mouldings.trim``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.catalog import drop, projection

if TYPE_CHECKING:
    from lathlight.catalog import Profile
    from lathlight.mouldings.mitres import End, SawSetting
    from lathlight.units import LengthStyle
    from lathlight.working import Working

Point = tuple[float, float]

USUAL_SWING = math.radians(50)  # largest swing of a mitre saw from square: common practice, no source

EndKind = Literal[
    "inside mitre",
    "outside mitre",
    "cope",  # cut to the profile of the neighbour, which was fixed first
    "against the wall",  # runs to the neighbour's face
    "against the line",  # stops at the front of the neighbour's line, which was fixed first
    "against casing",
    "at a joint",  # square where two flats are taken apart
    "scarf",
    "returned",
    "square",  # raw end
]

Meeting = Literal["mitre", "cope", "slides past", "clear of each other", "ends alone"]

FindingKind = Literal[
    "lines miss each other",
    "trim across a joint that parts",
    "mitre beyond the saw",
    "cope impossible",
    "joint in mid-picture",
    "base does not cover the gap",
    "base off the floor",
    "trim thicker than casing",
    "no stock long enough",
    "no room for a piece",
    "sliver of a piece",  # cut and fixed, but so short that it looks a mistake and hardly holds
]


# --- what it depends on ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Moulding:
    """One horizontal line of moulding on one wall."""

    name: str  # the same line on the neighbour carries the same name
    kind: str  # "base", "rail", "picture rail", "cornice"
    profile: Profile
    top: float  # top edge [mm]
    spring: float | None  # angle between a cornice's back and the wall [rad]
    loose: bool = False  # True: a piece may span a joint that is taken apart
    inside: Literal["mitre", "cope"] = "mitre"  # wish for inside corners; a set that is struck often is mitred
    free: Literal["returned", "square"] = "returned"  # wish for ends that are seen

    @property
    def bottom(self) -> float:
        """Bottom edge [mm]."""
        return self.top - drop(self.profile)

    @property
    def projection(self) -> float:
        """How far it stands out from the wall [mm]."""
        return projection(self.profile)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockBand:
    """Heights at which blocks stand at both sides of a casing, and how they stand out from it [mm]."""

    bottom: float
    top: float
    beyond: float  # past the casing's outer edge
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CasedOpening:
    """A door, window or arch as the trim meets it [mm]; an arch counts as the rectangle around it."""

    name: str
    left: float  # clear opening
    width: float
    sill: float  # 0: runs to the floor
    height: float  # of the clear opening, above its sill
    reveal: float  # from the clear edge to the casing's inner edge
    casing: float  # width of the casing; 0: none
    thickness: float  # of the casing at its outer edge; 0: none
    blocks: tuple[BlockBand, ...] = ()  # plinth and corner blocks


@dataclass(frozen=True, slots=True, kw_only=True)
class Parting:
    """A joint of flats that is taken apart."""

    upright: bool
    at: float  # along the wall, or height of a level joint [mm]
    low: float  # where it begins along itself [mm]
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureMiddle:
    """Where a picture's middle line meets a wall, and how far to either side a joint would be seen first [mm]."""

    picture: str
    at: float
    clear: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimWall:
    """One wall as the trim meets it."""

    name: str
    length: float  # finished face [mm]
    height: float
    lines: tuple[Moulding, ...]
    openings: tuple[CasedOpening, ...] = ()
    partings: tuple[Parting, ...] = ()
    studs: tuple[float, ...] = ()  # middle lines of studs and stiles [mm]
    middles: tuple[PictureMiddle, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimRules:
    """What the workshop and the floor ask of the trim."""

    grid: LengthStyle
    swing: float = USUAL_SWING  # largest swing of the mitre saw from square [rad]
    trim_cut: float = 0.0  # cut off a factory end [mm]
    floor_gap: float = 0.0  # expansion gap of the floor covering along the wall [mm]
    floor: float = 0.0  # height of the finished floor above the foot of the flats [mm]
    strip_stock: float | None = None  # thickness of the timber for backing strips [mm]; None: as thick as the hollow


# --- what follows ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEnd:
    """One end of a piece; places along the wall [mm], exact."""

    kind: EndKind
    station: float  # the corner, casing, joint or scarf that the end belongs to
    back: float  # where the cut meets the wall
    front: float  # where it meets the full projection
    slant: float  # angle of the cut from square [rad]; positive: longer at the back
    saw: SawSetting
    beyond_saw: bool  # True: the saw does not swing so far; cut by hand to the line
    against: str  # wall, opening or picture's side that it meets; "" where nothing
    cope: float  # how deep the cope is cut back from the blank, along the wall [mm]; 0: no cope
    over: bool  # True: this end lies over its neighbour's (scarf)


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimPiece:
    """One length of moulding."""

    id: str  # wall / line / number from the left
    wall: str
    line: str
    kind: str
    profile: Profile
    top: float
    bottom: float
    left: PieceEnd
    right: PieceEnd
    long_point: float  # on the grid [mm]: what the stock must give
    short_point: float  # on the grid
    back: float  # length against the wall, on the grid
    front: float  # length at the full projection, on the grid
    loose: bool
    note: str
    why: Working

    @property
    def start(self) -> float:
        """Where the piece begins along the face [mm]."""
        return self.left.station

    @property
    def end(self) -> float:
        """Where the piece ends along the face [mm]."""
        return self.right.station


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnPiece:
    """The small piece that turns a profile's end back to the wall; mitred at the front, nothing left at the back."""

    id: str
    piece: str  # the piece that it ends
    end: End
    profile: Profile
    long_point: float  # on the grid [mm]
    saw: SawSetting


@dataclass(frozen=True, slots=True, kw_only=True)
class BackingStrip:
    """The strip behind a cornice, ripped to its spring angle: a set has no ceiling to nail to."""

    id: str
    piece: str  # the cornice piece that it backs
    start: float  # along the face [mm], square ends
    end: float
    length: float  # on the grid [mm]
    section: tuple[Point, ...]  # (out from the wall, up from the finished floor) [mm]
    rip: float  # angle between its sloping face and the wall [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineMeeting:
    """How the lines of two neighbouring walls meet in their corner."""

    left: str  # wall
    right: str
    left_line: str | None
    right_line: str | None
    corner: float  # inside angle [rad]
    how: Meeting
    first: str | None  # wall whose piece is fixed first and runs on to the neighbour's face; None: either
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimRun:
    """A stretch of one line between corners, openings and free ends."""

    wall: str
    line: str
    start: float
    end: float
    pieces: tuple[str, ...]  # left to right


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimFinding:
    """Something about the trim that would go wrong, with its figures."""

    kind: FindingKind
    wall: str
    line: str
    at: float  # along the wall [mm]
    found: float
    limit: float
    unit: Literal["mm", "rad", ""]
    with_what: str  # neighbouring wall, opening, picture or joint
    answer: str  # what the plan does about it; "" where nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimPlan:
    """All trim of a set."""

    runs: tuple[TrimRun, ...]
    pieces: tuple[TrimPiece, ...]
    returns: tuple[ReturnPiece, ...]
    strips: tuple[BackingStrip, ...]
    meetings: tuple[LineMeeting, ...]
    order: tuple[str, ...]  # pieces in the order in which they are fixed; the base last
    cuts: tuple[str, ...]  # pieces in the order in which they are cut: longest first
    findings: tuple[TrimFinding, ...]
