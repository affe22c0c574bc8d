"""The frozen values of the carpentry: corners, flats, members, sheet pieces, seams.

Wall axes [mm]: ``x`` along the wall from its left face corner, seen from the camera's side; ``z`` up from the floor it
stands on; ``behind`` the finished face (the sheet lies from 0 to its thickness, the frame behind it).
Ids are wall / flat / role / place: an inserted wall renames nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.catalog import Bracket, Fastener, Lumber, Sheet
    from lathlight.working import Quantity, Working

Point = tuple[float, float]

Role = Literal[
    "bottom plate",
    "top plate",
    "end stud",
    "stud",
    "seam stud",
    "trimmer",
    "header",
    "sill",
    "noggin",
    "seam noggin",
    "backing",
    "nailer",
    "packing",
    "wedge",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far a part's end runs past the corner line, at its front and at its back [mm]; negative: stops short."""

    front: float
    back: float

    @property
    def square(self) -> float:
        """Where a square end stops: the smaller of the two [mm]."""
        return min(self.front, self.back)

    @property
    def wedge(self) -> float:
        """Width of the wedge that a square end leaves open [mm]."""
        return abs(self.front - self.back)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallEnd:
    """One end of a wall: how its sheet and its frame end there."""

    kind: Literal["free", "lap", "arris", "mitre"]
    angle: float  # inside angle to the neighbour [rad]; pi at a free end
    neighbour: str | None
    sheet: Reach  # planes that bound the sheet, exact
    frame: Reach  # planes that bound the frame, exact
    frame_laps: bool  # True: this wall's frame runs past the neighbour's
    sheet_laps: bool
    sheet_front: float  # the cut sheet's end past the corner line, on the grid [mm]
    sheet_back: float  # the same at its back; differs where the edge is bevelled
    frame_end: float  # the cut frame's square end past the corner line, on the grid [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """Where two walls meet, as chosen, with the reasons."""

    id: str  # "left|right"
    left: str
    right: str
    angle: float  # inside angle [rad]
    style: Literal["lap", "arris", "mitre"]
    frame_laps: Literal["left", "right", "neither"]
    sheet_laps: Literal["left", "right", "neither"]
    left_end: WallEnd  # right-hand end of the left wall
    right_end: WallEnd  # left-hand end of the right wall
    screws: CornerScrews | None  # None where frames do not touch (arris, mitre: see wedge)
    wedge: Wedge | None  # loose packing between the flats, arris to arris or mitred
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerScrews:
    """Screws through one frame's end stud into the neighbour's."""

    screw: Fastener
    heights: tuple[float, ...]  # above the floor [mm]
    from_wall: str  # driven from this wall's bay
    through: str  # id of the stud they go through
    into: str  # id of the stud they hold in
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Wedge:
    """A ripped strip between two square ends; its section in set axes [mm]."""

    id: str
    outline: tuple[Point, ...]  # plan, set axes
    length: float
    angle: float  # angle it is ripped to [rad]
    wide: float  # widest side [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One piece of timber in a flat."""

    id: str
    wall: str
    flat: str
    role: Role
    mark: str  # letter within the flat; equal pieces share it
    stock: Lumber
    upright: bool  # True: runs up; False: runs along the wall
    laid_flat: bool  # True: its wide side faces the sheet
    x: float  # left edge, wall axes [mm]
    z: float  # bottom edge [mm]
    behind: float  # front face behind the finished face [mm]
    wide: float  # extent along x [mm]
    high: float  # extent along z [mm]
    deep: float  # extent behind [mm]
    length: float  # cut length [mm]
    ends: tuple[float, float]  # angle of each end cut from square [rad]: bottom or left, top or right
    ripped: bool  # True: sawn narrower or bevelled along its length
    may_be_offcut: bool  # True: an offcut of this length will do
    straightest: bool  # True: pick the straightest boards for it
    section: tuple[Point, ...] | None  # plan outline (x, behind) where it is no rectangle
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A triangular corner plate on the back that holds the frame square."""

    id: str
    bracket: Bracket
    outline: tuple[Point, ...]  # (x, z), wall axes [mm]
    behind: float  # its front face: the frame's back [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPiece:
    """One piece of sheet as it is cut."""

    id: str
    wall: str
    flat: str
    mark: str
    sheet: Sheet
    outline: tuple[Point, ...]  # front face (x, z), anticlockwise from the bottom left, wall axes [mm]
    holes: tuple[tuple[Point, ...], ...]  # openings cut inside it
    width: float  # of the rectangle it is sawn from [mm], along x
    height: float  # [mm], along z
    bevel_left: float  # how much further the back runs than the front at the left edge [mm]; negative: bevelled back
    bevel_right: float
    turned: bool  # True: the sheet's long side lies along the wall
    factory: frozenset[Literal["left", "right", "bottom", "top"]]  # edges that are the maker's own
    area: float  # of the front face [mm2]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """Where two sheet pieces meet."""

    id: str
    wall: str
    upright: bool
    at: float  # x of an upright seam, z of a level one [mm]
    low: float  # where it begins along itself [mm]
    high: float
    parts: bool  # True: lies on a joint that is taken apart
    covered_by: str | None  # trim line that hides it
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class LiningPiece:
    """One thickness piece of an opening, wall axes [mm]."""

    id: str
    side: Literal["left", "right", "head", "sill", "arch"]
    x: float
    z: float
    wide: float
    high: float
    deep: float  # from the face back
    length: float  # cut length; of an arch, along its curve


@dataclass(frozen=True, slots=True, kw_only=True)
class Rib:
    """A piece of sheet behind the face that fills one side of an arch's head up to the curve, in glued layers."""

    id: str
    side: Literal["left", "right"]
    sheet: Sheet
    layers: int
    outline: tuple[Point, ...]  # (x, z), wall axes [mm]
    behind: float  # its front face [mm]

    @property
    def thickness(self) -> float:
        """All layers together [mm]."""
        return self.layers * self.sheet.thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class FramedOpening:
    """An opening with its rough size and its thickness pieces."""

    id: str
    name: str
    wall: str
    flat: str
    kind: Literal["door", "window", "arch"]
    clear: tuple[float, float, float, float]  # x, z, width, height [mm]
    rough: tuple[float, float, float, float]
    rise: float
    radius: float | None  # of an arch [mm]
    ordinates: tuple[Point, ...]  # along from the springing, height above it [mm]
    ribs: tuple[Rib, ...]  # two under an arch
    lining: tuple[LiningPiece, ...]
    lining_thickness: float  # [mm]; 0: none
    strap: float | None  # length of the sill strap of a door [mm]
    near_end: float  # least distance from the rough edge to the flat's end [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Where two flats of one wall meet; taken apart for every move."""

    id: str
    wall: str
    left: str  # flat; the lower one of a level joint
    right: str
    upright: bool
    at: float  # x, or z of a level joint [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """One portable framed unit."""

    id: str  # "back/1"
    wall: str
    name: str  # "1"
    mark: str  # what is pencilled on its back: "B1"
    x0: float  # frame's outer edges, wall axes [mm]
    x1: float
    z0: float
    z1: float
    sheet_x0: float
    sheet_x1: float
    stock: Lumber
    sheet: Sheet
    through: Literal["plates", "end studs"]  # which members run whole
    built_in_room: bool  # True: passes no way in
    members: tuple[Member, ...]
    plates: tuple[Plate, ...]
    pieces: tuple[SheetPiece, ...]
    openings: tuple[FramedOpening, ...]
    weight: Quantity
    centre: tuple[float, float, float]  # centre of gravity (x, behind, z), wall axes [mm]
    why: Working

    @property
    def width(self) -> float:
        """Outside width of the frame [mm]."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Outside height of the frame [mm]."""
        return self.z1 - self.z0

    @property
    def depth(self) -> float:
        """Thickness of the unit: sheet, frame and corner plates [mm]."""
        plate = max((p.bracket.thickness for p in self.plates), default=0.0)
        return self.sheet.thickness + self.stock.depth + plate

    @property
    def diagonal(self) -> float:
        """Diagonal of the frame [mm]; both are equal when it is square."""
        return float((self.width**2 + self.height**2) ** 0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltWall:
    """One wall as built: its ends, flats, seams and joints."""

    name: str
    mark: str  # letter on drawings
    length: float
    height: float
    left: WallEnd
    right: WallEnd
    flats: tuple[Flat, ...]
    seams: tuple[Seam, ...]
    joints: tuple[Joint, ...]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """Equal pieces of one list."""

    mark: str  # "B1-A"
    what: str  # role, or "sheet"
    stock: str
    number: int
    length: float  # [mm]
    width: float | None  # sheets only [mm]
    ends: tuple[float, float]
    may_be_offcut: bool
    note: str
    ids: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """One stock in one size: how many boards or sheets are bought, and what is cut from each."""

    stock: str
    length: float  # [mm]
    width: float | None
    number: int
    pieces: tuple[tuple[str, ...], ...]  # ids of pieces, board by board
    spare: int
    why: Working
    proven: bool = False  # no plan for all of this stock costs less
    gap: float | None = None  # cost above the bound, as a share of it; None: no bound is known
