"""The project with every catalogue name looked up and every default filled in, each with its working.

Types only; ``lathlight.project.resolve`` makes them. Stages take values from here and look nothing up.
Where a default was filled in, the key that would state it stands in ``assumed`` with the working that says why: a
wall's and the flats' own beside their values, all others with the whole. ``lathlight.project.assumed`` gathers them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from lathlight.catalog import Adhesive, Bracket, Catalog, Fastener, Lumber, Paint, Profile, Sheet, Weight
    from lathlight.project.model import Project
    from lathlight.units import LengthStyle
    from lathlight.working import Working

CornerStyle = Literal["auto", "lap", "arris", "mitre"]
Laps = Literal["auto", "this", "next"]
WallEndFinish = Literal["painted edge", "cover strip", "return"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningBrief:
    """A door, window or arch; sizes in mm, from the wall's left face corner and the foot of the flats.

    What the file states from the finished floor has been raised by what the floor covering is thick where flats stand
    beside it; an opening that runs to the floor begins at the flats' foot.
    """

    name: str
    kind: Literal["door", "window", "arch"]
    left: float  # clear opening
    width: float
    height: float
    sill: float  # 0: runs to the floor
    rise: float  # 0 unless an arch
    lining: float  # thickness; 0: none
    lining_depth: float
    gap: float  # packing between lining and framing
    reveal: float
    casing: str | None
    plinth_blocks: bool = False
    corner_blocks: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimLine:
    """A horizontal line of moulding on one wall [mm above the foot of the flats]."""

    name: str
    kind: str
    profile: str
    top: float
    bottom: float
    loose: bool
    inside: Literal["mitre", "cope"] = "mitre"
    ends: Literal["returned", "square"] = "returned"


@dataclass(frozen=True, slots=True, kw_only=True)
class FramesBrief:
    """A tier of moulding frames as wished; heights [mm] above the foot of the flats, outside to outside."""

    name: str
    profile: Profile
    bottom: float
    top: float
    gap: float
    end_gap: float | None  # None: as the gap
    bought_width: float | None  # None: mitred from lengths
    centre_on: str  # "wall", or a picture's name
    walls: tuple[str, ...] | None  # None: all
    part_at_joints: bool
    loose: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorBrief:
    """The floor covering."""

    covering: str  # "none" where there is none
    thickness: float
    stands_on: Literal["floor", "covering"]
    width: float | None  # along the set; None: from the pictures
    depth: float | None  # towards the camera
    expansion_gap: float
    strip_width: float | None
    strip_length: float | None
    strips: Literal["along", "away"]

    @property
    def rise(self) -> float:
        """How high the finished floor lies above the foot of the flats [mm]."""
        return self.thickness if self.stands_on == "floor" and self.covering != "none" else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishBrief:
    """Paint and how it is put on; None where there is none of it."""

    paint: Paint | None
    primer: Paint | None
    colour: str
    coats: int
    primer_coats: int
    mouldings: Literal["before fixing", "after fixing"]
    mouldings_primed: bool
    edges: bool
    backs: bool
    touch_up: float  # share
    raw_loss: float  # share
    paint_at_hand: float | None  # [l]
    primer_at_hand: float | None
    roller: float
    brush: float
    flashed: bool  # True: the set is lit with flash


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingBrief:
    """How sheets, mouldings and flats are held; rows of the project's own system."""

    sheets: Literal["glue", "screws", "pins"]
    hold: Literal["weights", "pins", "temporary screws"]
    weight: Weight
    glue: Adhesive  # sheet to frame
    moulding_glue: Adhesive
    filler: Adhesive  # over heads that are seen
    fasteners: tuple[Fastener, ...]  # screws, brads, pins, bolts to choose from, by name
    screw_spacing: float
    brad_spacing: float
    joints: Literal["screws", "bolts", "connectors"]
    bracket: Bracket  # temporary, between flats and at corners
    connector: Bracket
    bumper: Bracket  # where the set stands near a wall of the room


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Something heavy that hangs on a wall; wants backing behind its fixing height."""

    name: str
    along: float  # centre [mm]
    width: float
    height: float  # top, where it is fixed [mm above the floor]
    mass: float  # [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallBrief:
    """One wall, ready to build."""

    name: str
    length: float  # finished face, on the project's grid
    height: float
    sheet: Sheet
    framing: Lumber
    stud_spacing: float
    openings: tuple[OpeningBrief, ...]  # left to right
    trim: tuple[TrimLine, ...]  # bottom to top
    loads: tuple[Load, ...]
    assumed: Mapping[str, Working]  # "stud_spacing", "openings/hatch/gap"


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerBrief:
    """Where a wall meets the next one."""

    left: str  # the wall that ends here
    right: str  # the wall that begins here
    angle: float  # inside angle [rad]
    style: CornerStyle
    frame_laps: Laps  # "this": the left wall's, "next": the right wall's
    sheet_laps: Laps


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorBrief:
    """A door of the room: its clear size and the two ends of its clear width in room axes."""

    name: str
    clear_width: float
    clear_height: float
    a: tuple[float, float]
    b: tuple[float, float]
    run_inside: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearArea:
    """A rectangle in room axes: a pillar, or a place that must stay free."""

    name: str
    outline: tuple[tuple[float, float], ...]
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """One stage of the way in."""

    name: str
    kind: Literal["door", "corridor", "turn", "stairs", "vehicle"]
    clear_width: float
    clear_height: float
    length: float | None
    next_width: float | None
    turn_angle: float
    slope: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomBrief:
    """The room, in its own axes."""

    outline: tuple[tuple[float, float], ...]  # anticlockwise
    ceiling: float
    doors: tuple[DoorBrief, ...]
    pillars: tuple[ClearArea, ...]
    keep_clear: tuple[ClearArea, ...]
    way_in: tuple[Passage, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceBrief:
    """Where the set stands; ``at`` None: found from the room."""

    at: tuple[float, float] | None
    turn: float
    clear_behind: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatLimitsBrief:
    """What one portable flat may measure [mm] and weigh [kg]; ``inf`` where nothing limits it."""

    max_width: float
    max_height: float
    max_weight: float
    assumed: Mapping[str, Working]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewBrief:
    """Who lifts."""

    people: int
    lift_per_person: float  # [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class SawBrief:
    """What the saw and the bench take."""

    kerf: float
    trim_cut: float
    spare_boards: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SitterBrief:
    """Where a sitter stands: right of the set's axis and in front of its face [mm]."""

    name: str
    right: float
    forward: float
    stature: float
    seated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureBrief:
    """What this part needs of a picture: where its middle line points."""

    name: str
    sitter: SitterBrief
    angles: tuple[float, float]  # [rad], at the sitter from the set's axis, right positive
    lens: tuple[float, float]  # [mm]
    sensor: tuple[float, float]  # as held [mm]
    frame_height: float  # height of the frame in the sitter's plane [mm]
    frame_top: float  # its upper edge there [mm above the finished floor]
    camera_height: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Fittings and fixings that this part uses."""

    corner_plate: Bracket
    sill_strap: Bracket
    corner_screw: Fastener  # the usual one
    corner_screws: tuple[Fastener, ...] = ()  # what there is to choose from, corner by corner
    frame_screw: Fastener


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBrief:
    """What stands in every title block."""

    title: str
    date: dt.date | None
    revision: str
    paper: Literal["A4", "A3", "Letter", "Tabloid"]
    currency: str
    notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """Everything a plan follows from."""

    title: TitleBrief
    style: LengthStyle
    room: RoomBrief
    place: PlaceBrief
    walls: tuple[WallBrief, ...]
    corners: tuple[CornerBrief, ...]  # one fewer than walls
    limits: FlatLimitsBrief
    crew: CrewBrief
    saw: SawBrief
    seams: Literal["save sheets", "save pictures"] = "save sheets"  # what counts first where sheets are laid out
    hardware: Hardware
    ends: tuple[WallEndFinish, WallEndFinish] = ("painted edge", "painted edge")  # free ends of the set, left and right
    frames: tuple[FramesBrief, ...] = ()
    floor: FloorBrief
    finish: FinishBrief
    fixing: FixingBrief
    pictures: tuple[PictureBrief, ...]
    sitters: tuple[SitterBrief, ...]
    assumed: Mapping[str, Working] = field(default_factory=dict[str, "Working"])  # "sitters/potter/stature"
    catalog: Catalog = field(repr=False)
    project: Project = field(repr=False)  # tables that later stages resolve: trim, finish, lights, prices
