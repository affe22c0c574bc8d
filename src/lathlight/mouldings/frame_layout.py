"""The frozen values of the moulding frames: the rules they keep, where they stand, what could not be had."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.mouldings.frame_bays import Bay, FrameTier
    from lathlight.mouldings.frame_patterns import Pattern
    from lathlight.working import Working

FindingKind = Literal[
    "no room",  # a bay without a frame
    "joint",  # a joint that parts crosses a frame
    "seam",  # a seam crosses a frame
    "clear",  # too near to a rail, joint, casing or corner
    "odd",  # one width far below the widest
    "uneven",  # widths differ visibly over the set
    "end gap",  # of bought frames, outside the limits
    "outer gaps",  # differ, because the pattern is centred on a picture
    "shape",  # slim or wide
    "not in line",  # two tiers with other gaps on one wall
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameRules:
    """What the layout keeps to where it can [mm]."""

    alike: float = 25.4  # widths that differ by an inch look the same on adjoining walls, common practice
    odd: float = 0.6  # a frame below this share of the widest is odd (after M43, which takes the median)
    slimmest: float = 2.5  # height to width; several frames in a bay are never slimmer, our choice
    shape: float = 2.2  # one side to the other, the long end of the pleasing band of 1.2 to 2.2, common practice
    widest: float = 1220.0  # wider than a sheet is a field rather than a frame, our choice
    least_mouldings: float = 4.0  # narrowest mitred frame in widths of its moulding: half of it is opening, our choice
    least_end_gap: float = 40.0  # of bought frames, common practice (the least clear distance)
    greatest_end_gap: float = 2.0  # of bought frames, in wished end gaps, our choice


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingFrame:
    """One closed rectangle of moulding, outside to outside, wall axes [mm]."""

    id: str  # wall / tier / place along the wall
    wall: str
    tier: str
    left: float
    bottom: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Outside right edge [mm]."""
        return self.left + self.width

    @property
    def top(self) -> float:
        """Outside top edge [mm]."""
        return self.bottom + self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameFinding:
    """What could not be had, by how much, and what would mend it."""

    kind: FindingKind
    wall: str | None  # None: the set as a whole
    tiers: tuple[str, ...]
    at: float | None  # along the wall, or a height for what lies level [mm]
    found: float  # [mm]; a share for "odd", sides' ratio for "shape"
    limit: float  # in the same unit
    with_what: str = ""  # the seam, joint, line or end that a frame crosses or comes near to
    words: str  # what is wrong, with its figure
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledBay:
    """A bay with its frames, the same in each of its tiers."""

    bay: Bay
    pattern: Pattern
    unseamed: int  # frames that it would have, had seams and joints not counted


@dataclass(frozen=True, slots=True, kw_only=True)
class TiersInLine:
    """Tiers that share their gaps, their bays and their frames' edges, and the proof of the choice."""

    tiers: tuple[FrameTier, ...]
    bays: tuple[FilledBay, ...]  # by wall, left to right
    empty: tuple[Bay, ...]  # bays without room for a frame
    spread: float  # of exact widths, or of bought frames' end gaps [mm]
    spread_without_seams: float  # the same, had seams and joints not counted [mm]
    odd: bool  # True: some width is odd beside the widest
    patterns: int  # ways to fill the bays that lead (not those under an opening), together
    windows: int  # windows of sizes looked into; together they cover all patterns
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingLayout:
    """All moulding frames of a set."""

    in_line: tuple[TiersInLine, ...]
    frames: tuple[MouldingFrame, ...]  # by tier, then along the walls
    findings: tuple[FrameFinding, ...]
