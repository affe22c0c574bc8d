"""The frozen values of the fixing: heads, glued sheets, fixed mouldings, joints, corners, bumpers, counts, findings.

Wall axes [mm]: ``x`` along the wall from its left face corner, ``z`` up from the foot of the flats. Nothing here
computes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall, Corner
    from lathlight.catalog import Fastener
    from lathlight.finishing import Bead, Brad, Clamping, Glue, TakeoffLine, WeightDay
    from lathlight.layout import Layout
    from lathlight.mouldings import Strip
    from lathlight.project import FixingBrief, Hardware
    from lathlight.units import LengthStyle
    from lathlight.working import Working

Point = tuple[float, float]

JoinedWith = Literal["screws", "bolts", "connectors"]
StripHold = Literal["brads", "screws that come out", "glue, taped until it sets", "nothing"]
FindingKind = Literal[
    "no timber under the trim",  # a line with no timber behind it that a screw could hold in
    "fastener through the timber",  # every one on sale for the sheet comes out of the back, or does not hold
    "brad through the skin",  # every brad on sale comes out of what it would enter, or does not hold
    "sheet held by nothing",
    "joint fastener too short",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingJob:
    """All that the fixing of a set follows from."""

    walls: tuple[BuiltWall, ...]
    corners: tuple[Corner, ...]
    strips: tuple[Strip, ...]
    rules: FixingBrief
    fittings: Hardware  # of the frames
    hours_a_day: float  # of the workshop
    grid: LengthStyle
    layout: Layout
    room: tuple[Point, ...]  # outline, room axes
    pillars: tuple[tuple[Point, ...], ...]


# --- sheets --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """One screw or pin of a sheet."""

    at: Point  # (x, z) [mm]
    member: str  # id of the timber that it holds in
    fastener: Fastener
    hidden_by: str | None  # id of the strip over it; None: filled


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetFixing:
    """How one sheet piece is held."""

    piece: str
    flat: str
    wall: str
    mode: Literal["glue", "screws", "pins"]
    heads: tuple[Head, ...]
    beads: tuple[Bead, ...]  # empty unless glued
    clamping: Clamping | None  # None where nothing is glued
    why: Working

    @property
    def bead_length(self) -> float:
        """All beads together [mm]."""
        return sum(bead.length for bead in self.beads)

    @property
    def seen(self) -> tuple[Head, ...]:
        """The heads that nothing hides: filled."""
        return tuple(head for head in self.heads if head.hidden_by is None)


# --- mouldings -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class StripFixing:
    """How one straight moulding is held."""

    strip: str
    wall: str
    belongs_to: str  # trim line, opening or tier of moulding frames
    held: StripHold
    glue: float  # bead behind it [mm]; 0: none
    hours: float  # until the glue has set; 0 where there is none
    brads: tuple[Brad, ...]  # places where none fits are among them, without a fastener
    screws: tuple[Head, ...]  # through a piece that comes off for a move
    note: str

    @property
    def shot(self) -> tuple[Brad, ...]:
        """The brads that are really driven."""
        return tuple(brad for brad in self.brads if brad.choice.fastener is not None)


# --- flats and corners ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class JointFixing:
    """What holds two flats of one wall together."""

    joint: str
    wall: str
    upright: bool
    at: float  # x, or z of a level joint [mm]
    joined: JoinedWith
    hardware: str | None  # row of the catalogue; None: none is long enough
    places: tuple[float, ...]  # heights, or places along a level joint [mm]
    through: str  # id of the member that they go through; of a connector, one half sits on it
    into: str
    temporary: tuple[float, ...]  # brackets on the back while marking out, low and high [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerFixing:
    """What holds two walls together at their corner."""

    corner: str
    joined: JoinedWith
    hardware: str | None
    heights: tuple[float, ...]  # over all storeys [mm]
    through: str  # id of the lowest flat's end stud that they go through
    into: str
    wedge: str | None  # id of the loose wedge that they go through
    by_carpentry: bool  # True: they are the corner's own screws, counted with the carpentry
    temporary: tuple[float, ...]  # heights of the brackets inside the corner's back, low and high [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Bumper:
    """A soft pad where the set stands near the room's wall or a pillar."""

    flat: str
    wall: str
    end: Literal["left", "right", "between"]
    x: float
    z: float
    face: Literal["back", "end", "front"]  # of the flat
    near: str  # "room" or "pillar 1"
    distance: float  # from the flat to it [mm]


# --- gluing --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueRound:
    """One flat's sheets, glued and held together."""

    flat: str
    day: int  # from 1
    turn: int  # within the day, from 1
    number: int  # weights
    mass: float  # of the weights [kg]
    hours: float  # until it may be moved


# --- counts and findings -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareCount:
    """Fittings or fixings of one kind and use."""

    what: str
    name: str
    use: str
    number: int
    box: int  # pieces in a box; 1: sold singly


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingFinding:
    """Something about the fixing that would go wrong, with its figures."""

    kind: FindingKind
    wall: str
    place: str  # id of the piece, line or joint
    found: float
    limit: float
    unit: Literal["mm", ""]
    number: int = 1  # places or pieces like it
    inputs: tuple[tuple[str, float | str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingPlan:
    """How everything of a set is held."""

    sheets: tuple[SheetFixing, ...]  # wall by wall, flat by flat, in the flats' order of pieces
    strips: tuple[StripFixing, ...]  # in the order given
    joints: tuple[JointFixing, ...]
    corners: tuple[CornerFixing, ...]
    bumpers: tuple[Bumper, ...]
    rounds: tuple[GlueRound, ...]
    busiest: WeightDay | None  # None where no weights are needed
    glues: tuple[Glue, ...]
    hardware: tuple[HardwareCount, ...]
    takeoff: tuple[TakeoffLine, ...]
    findings: tuple[FixingFinding, ...]
    why_rounds: Working

    @property
    def heads(self) -> tuple[Head, ...]:
        """Every screw and pin of the sheets."""
        return tuple(head for sheet in self.sheets for head in sheet.heads)
