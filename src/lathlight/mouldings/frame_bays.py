"""Bays for moulding frames: the stretches of a wall between two vertical lines, and the gaps wished at their ends.

A line is the wall's end or corner, the outside of an opening's casing (or of a thing on the wall), or, where asked, a
joint that is taken apart. Under a window the bay runs from casing to casing, so that the frames of a low tier fall in
line with those of a high tier beside the window. How many frames fill a bay is left to ``frame_patterns``.
A tier that comes off for a move sees a joint that parts as a seam like any other: it may cross it, but the line shows.
Wall axes [mm]: x along the wall from its left face corner, z up from the foot of the flats.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.catalog import Profile

LEAST_CLEAR = 40.0  # of rails, joints, casings and corners [mm], common practice
TOUCH = 1e-6  # [mm]

Edge = Literal["end", "block", "in line", "joint"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """What stands in the way of frames: an opening with its casing, or a thing on the wall; outside edges."""

    name: str
    left: float
    right: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimBand:
    """A trim line that runs along the whole wall: from its bottom edge to its top edge."""

    name: str
    bottom: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamLine:
    """A seam between sheets or a joint between flats: upright where left equals right, else level."""

    name: str
    left: float
    right: float
    bottom: float
    top: float
    parts: bool = False  # True: taken apart for a move

    @property
    def upright(self) -> bool:
        """True where it runs up the wall."""
        return self.right - self.left <= TOUCH


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameWall:
    """One wall as its moulding frames see it."""

    name: str
    start: float  # where the free face begins, past whatever projects at the corner
    end: float
    height: float
    blocks: tuple[Block, ...] = ()
    bands: tuple[TrimBand, ...] = ()
    seams: tuple[SeamLine, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameTier:
    """A tier of moulding frames as wished; sizes outside to outside."""

    name: str
    moulding: float  # width of the moulding's face
    bottom: float
    top: float
    gap: float
    end_gap: float | None = None  # None: as the gap
    bought_width: float | None = None  # None: mitred from lengths
    walls: tuple[str, ...] | None = None  # None: all
    middles: tuple[tuple[str, float], ...] = ()  # wall, where its picture's middle line meets it; (): wall's middle
    part_at_joints: bool = False  # True: bays end at joints that are taken apart, so that no frame crosses one
    loose: bool = False  # True: frames come off for a move, so that they may cross such a joint
    profile: Profile | None = None  # None: only where frames stand is wanted

    @property
    def height(self) -> float:
        """From outside to outside [mm]."""
        return self.top - self.bottom

    @property
    def ends(self) -> float:
        """Wished gap at the ends of a bay [mm]."""
        return self.gap if self.end_gap is None else self.end_gap

    def is_on(self, wall: str) -> bool:
        """Return True where the tier is wished on a wall."""
        return self.walls is None or wall in self.walls


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """A stretch of wall that one row of equal frames fills, the same in every tier named."""

    wall: str
    left: float
    right: float
    left_gap: float  # wished between the bay's end and its first frame
    right_gap: float
    ends: tuple[Edge, Edge]
    tiers: tuple[str, ...]

    @property
    def room(self) -> float:
        """What frames and the gaps between them may take [mm]."""
        return self.right - self.left - self.left_gap - self.right_gap


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    """A stretch of wall and the tiers that nothing blocks there."""

    left: float
    right: float
    free: frozenset[str]


def blocks_tier(block: Block, tier: FrameTier) -> bool:
    """Return True where a tier's heights come nearer to a block than the least clear distance."""
    return block.bottom - LEAST_CLEAR < tier.top - TOUCH and block.top + LEAST_CLEAR > tier.bottom + TOUCH


def bays_of(wall: FrameWall, tiers: Sequence[FrameTier]) -> tuple[Bay, ...]:
    """Return the bays of a wall from left to right, for tiers that share their gaps and stand in line.

    Parameters
    ----------
    tiers
        Tiers wished on this wall, at least one, alike in gap, end gap and whether bays part at joints: there a bay
        ends at every joint that is taken apart, half a gap to either side of it.
    """
    stretches = _stretches(wall, tiers)
    found: list[Bay] = []
    for number, here in enumerate(stretches):
        if not here.free:
            continue
        before = stretches[number - 1].free if number else None
        after = stretches[number + 1].free if number + 1 < len(stretches) else None
        lines = _joints(wall, tiers, here) if tiers[0].part_at_joints else ()
        places = (here.left, *lines, here.right)
        edges: tuple[Edge, ...] = (_edge(here.free, before), *("joint" for _ in lines), _edge(here.free, after))
        for n, (left, right) in enumerate(pairwise(places)):
            ends = (edges[n], edges[n + 1])
            found.append(_bay(wall, tiers, here, left=left, right=right, ends=ends))
    return tuple(found)


def _stretches(wall: FrameWall, tiers: Sequence[FrameTier]) -> list[_Stretch]:
    """Return the wall cut at the edges of what blocks any tier, neighbours that are free for the same tiers joined."""
    blocking = [b for b in wall.blocks if any(blocks_tier(b, t) for t in tiers)]
    edges = {x for b in blocking for x in (b.left, b.right) if wall.start + TOUCH < x < wall.end - TOUCH}
    found: list[_Stretch] = []
    for left, right in pairwise(sorted({wall.start, wall.end} | edges)):
        middle = (left + right) / 2
        here = [b for b in blocking if b.left < middle < b.right]
        free = frozenset(t.name for t in tiers if not any(blocks_tier(b, t) for b in here))
        if found and found[-1].free == free:
            left = found.pop().left
        found.append(_Stretch(left=left, right=right, free=free))
    return found


def _edge(free: frozenset[str], beyond: frozenset[str] | None) -> Edge:
    """Return what ends a bay: the wall, a block, or the line of a block that only other tiers meet."""
    if beyond is None:
        return "end"
    return "in line" if free < beyond else "block"


def _joints(wall: FrameWall, tiers: Sequence[FrameTier], here: _Stretch) -> tuple[float, ...]:
    """Return where joints that part run up through a stretch, at the height of a tier that is free there."""
    found = {
        seam.left
        for seam in wall.seams
        if seam.parts and seam.upright and here.left + TOUCH < seam.left < here.right - TOUCH
        if any(t.name in here.free and seam.bottom < t.top and seam.top > t.bottom for t in tiers)
    }
    return tuple(sorted(found))


def _bay(
    wall: FrameWall, tiers: Sequence[FrameTier], here: _Stretch, *, left: float, right: float, ends: tuple[Edge, Edge]
) -> Bay:
    first, last = (_end_gap(edge, tiers[0]) for edge in ends)
    names = tuple(t.name for t in tiers if t.name in here.free)
    return Bay(wall=wall.name, left=left, right=right, left_gap=first, right_gap=last, ends=ends, tiers=names)


def _end_gap(edge: Edge, tier: FrameTier) -> float:
    """Return the wished gap at one end of a bay: what makes the gap between neighbours whole [mm]."""
    if edge == "joint":
        return tier.gap / 2
    return max(0.0, tier.gap - tier.ends) if edge == "in line" else tier.ends


def seams_for(wall: FrameWall, tier: FrameTier) -> tuple[SeamLine, ...]:
    """Return the wall's seams and joints; to a tier that comes off for a move, a joint is a seam."""
    return tuple(replace(seam, parts=False) for seam in wall.seams) if tier.loose else wall.seams


def upright_seams(wall: FrameWall, tier: FrameTier) -> Iterator[SeamLine]:
    """Yield the upright seams and joints at the height of a tier, as it sees them."""
    for seam in seams_for(wall, tier):
        if seam.upright and seam.bottom < tier.top - TOUCH and seam.top > tier.bottom + TOUCH:
            yield seam


def crosses(seam: SeamLine, *, left: float, right: float, moulding: float) -> bool:
    """Return True where an upright seam crosses a frame: its opening, or for a joint that parts, any of it.

    A seam that lies wholly under an upright moulding is hidden by it.
    """
    inset = 0.0 if seam.parts else moulding
    return left + inset + TOUCH < seam.left < right - inset - TOUCH


def nearness(seam: SeamLine, *, left: float, right: float) -> float | None:
    """Return how near a joint that parts comes to a frame's outside [mm], None where it is clear or crosses."""
    distance = max(left - seam.left, seam.left - right)
    return distance if seam.parts and -TOUCH <= distance < LEAST_CLEAR - TOUCH else None
