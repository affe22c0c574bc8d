"""The frozen values of the casing round openings: what it depends on, its pieces and blocks, what would go wrong.

Wall axes [mm]: along the wall from its left face corner, up from the foot of the flats. Nothing here computes; see
``lathlight.mouldings.casing_pieces``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.catalog import Profile
    from lathlight.mouldings.mitres import End, SawSetting
    from lathlight.units import LengthStyle
    from lathlight.working import Working

OpeningKind = Literal["door", "window", "arch"]
CasingPart = Literal["left leg", "right leg", "head", "bottom"]
CasingEndKind = Literal["mitre", "on the floor", "on a plinth block", "against a corner block", "meets the curve"]
BlockKind = Literal["plinth block", "corner block"]
CasingFindingKind = Literal["past the wall's end", "over the wall's top", "into other casing", "under the floor"]


# --- what it depends on ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningToCase:
    """An opening that gets casing; sizes of the clear opening."""

    name: str
    kind: OpeningKind
    left: float
    width: float
    sill: float  # 0: runs to the floor
    height: float  # above its sill, an arch's rise included
    rise: float  # of an arch above its springing line; 0: none
    reveal: float  # from the clear edge to the casing's inner edge
    profile: Profile
    plinth_blocks: bool = False
    corner_blocks: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WallToCase:
    """One wall with its openings and the base that dies into their casing."""

    name: str
    length: float
    height: float
    openings: tuple[OpeningToCase, ...]
    base_top: float | None = None  # top edge of the wall's base; None: it has none
    base_thickness: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingJob:
    """What the casing of a set depends on."""

    walls: tuple[WallToCase, ...]  # left to right
    grid: LengthStyle
    floor: float = 0.0  # height of the finished floor


# --- what follows ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingEnd:
    """One end of a piece, told as the piece lies on the saw: face up, outer edge to the fence."""

    kind: CasingEndKind
    hand: End  # which end it is as it lies there
    slant: float  # angle of the cut from square [rad]; positive: longer at the outer edge
    saw: SawSetting
    against: str  # id of the piece, block or curve that it meets; "" on the floor


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingPiece:
    """One straight length of casing."""

    id: str  # wall / opening / part
    part: CasingPart
    upright: bool
    x0: float  # what it covers on the wall, clipped to the wall
    z0: float
    x1: float
    z1: float
    first: CasingEnd  # bottom end, or left end
    last: CasingEnd  # top end, or right end
    long_point: float  # on the grid [mm]: what the stock must give
    short_point: float  # on the grid; along the inner edge where both ends are mitred
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingBlock:
    """A plain block at a foot or an upper corner."""

    id: str  # wall / opening / plinth block left
    kind: BlockKind
    side: End
    x0: float  # clipped to the wall
    z0: float
    x1: float
    z1: float
    beyond: float  # past the casing's outer edge
    thickness: float
    why: Working

    @property
    def width(self) -> float:
        """Along the wall [mm]."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Up the wall [mm]."""
        return self.z1 - self.z0


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingCurve:
    """The curved head over an arch: bent, or built up from segments; its figures only."""

    id: str
    centre: tuple[float, float]  # along the wall, up
    inner_radius: float
    outer_radius: float
    angle: float  # that it turns through along its middle line [rad]
    length: float  # along its middle line, on the grid [mm]
    note: str
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingFinding:
    """Casing that finds no room, with its figures."""

    kind: CasingFindingKind
    wall: str
    opening: str
    at: float  # along the wall, or up it [mm]
    found: float  # how far it runs past [mm]
    limit: float
    with_what: str  # the other opening; "" of the wall itself
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Casing:
    """The casing round one opening."""

    wall: str
    opening: str
    kind: OpeningKind
    profile: Profile
    pieces: tuple[CasingPiece, ...]  # left leg, right leg, head, bottom
    blocks: tuple[CasingBlock, ...]
    curve: CasingCurve | None  # over an arch
    findings: tuple[CasingFinding, ...]
