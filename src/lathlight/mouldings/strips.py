"""Every straight piece of moulding as the rectangle of wall that it covers: trim, casing, frames, cover strips.

The one shape in which fixing, painting and drawing see mouldings on a wall. Nothing about joints or mitres stands here.
A curved head over an arch is no strip: its figures stand in ``Casing.curve``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.catalog import drop, projection

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.catalog import Profile
    from lathlight.mouldings.casing_model import Casing
    from lathlight.mouldings.frame_bays import FrameTier
    from lathlight.mouldings.frame_layout import MouldingFrame, MouldingLayout
    from lathlight.mouldings.trim_model import TrimPiece, TrimPlan
    from lathlight.mouldings.wall_ends import WallEndCover

StripUse = Literal["trim", "casing", "moulding frame", "block", "wall end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One straight piece on a wall; wall axes, above the foot of the flats [mm]."""

    id: str  # the piece's own id; of a moulding frame "wall/tier/frame 1/top"
    wall: str
    use: StripUse
    kind: str  # "base", "rail", "picture rail", "cornice", "casing", "panel", "plinth block", "cover strip", ...
    belongs_to: str  # trim line, opening, or tier of moulding frames; "left end" of the wall
    profile: Profile | None  # None: a plain block or strip
    upright: bool  # True: runs up the wall
    x0: float  # outer edges of what it covers; of a wall end's cover, what it shows beside the face
    z0: float
    x1: float
    z1: float
    stands_out: float  # from the face
    loose: bool  # True: comes off for a move

    @property
    def length(self) -> float:
        """Along the moulding [mm]."""
        return self.z1 - self.z0 if self.upright else self.x1 - self.x0

    @property
    def broad(self) -> float:
        """Across the moulding, on the wall [mm]."""
        return self.x1 - self.x0 if self.upright else self.z1 - self.z0


def strips_of(
    trim: TrimPlan | None,
    frames: MouldingLayout | None,
    casings: Sequence[Casing] = (),
    ends: Sequence[WallEndCover] = (),
) -> tuple[Strip, ...]:
    """Return every straight piece of moulding of a set: trim, casing with its blocks, frames, wall ends.

    Pieces of trim reach from cut to cut where they touch the wall; uprights of a moulding frame have its whole height,
    the level ones lie between them.

    Raises
    ------
    ValueError
        A tier of moulding frames without its profile.
    """
    return (
        *(_trim_strip(piece) for piece in (trim.pieces if trim is not None else ())),
        *(strip for casing in casings for strip in _casing_strips(casing)),
        *(strip for strip in _frames_strips(frames)),
        *(_end_strip(end) for end in ends if end.thickness > 0),
    )


def _trim_strip(piece: TrimPiece) -> Strip:
    return Strip(
        id=piece.id,
        wall=piece.wall,
        use="trim",
        kind=piece.kind,
        belongs_to=piece.line,
        profile=piece.profile,
        upright=False,
        x0=piece.left.back,
        z0=piece.bottom,
        x1=piece.right.back,
        z1=piece.top,
        stands_out=projection(piece.profile),
        loose=piece.loose,
    )


def _casing_strips(casing: Casing) -> Iterator[Strip]:
    for piece in casing.pieces:
        yield Strip(
            id=piece.id,
            wall=casing.wall,
            use="casing",
            kind="casing",
            belongs_to=casing.opening,
            profile=casing.profile,
            upright=piece.upright,
            x0=piece.x0,
            z0=piece.z0,
            x1=piece.x1,
            z1=piece.z1,
            stands_out=projection(casing.profile),
            loose=False,
        )
    for block in casing.blocks:
        yield Strip(
            id=block.id,
            wall=casing.wall,
            use="block",
            kind=block.kind,
            belongs_to=casing.opening,
            profile=None,
            upright=True,
            x0=block.x0,
            z0=block.z0,
            x1=block.x1,
            z1=block.z1,
            stands_out=block.thickness,
            loose=False,
        )


def _frames_strips(layout: MouldingLayout | None) -> Iterator[Strip]:
    if layout is None:
        return
    tiers = {tier.name: tier for group in layout.in_line for tier in group.tiers}
    for frame in layout.frames:
        yield from _frame_strips(frame, tiers[frame.tier])


def _frame_strips(frame: MouldingFrame, tier: FrameTier) -> Iterator[Strip]:
    """Yield the four sides of a moulding frame, clockwise from the top."""
    profile = tier.profile
    if profile is None:
        message = f"tier {tier.name!r} was laid out without its profile"
        raise ValueError(message)
    broad = drop(profile)
    between = frame.left + broad, frame.right - broad
    sides = {
        "top": (*between, frame.top - broad, frame.top),
        "right": (frame.right - broad, frame.right, frame.bottom, frame.top),
        "bottom": (*between, frame.bottom, frame.bottom + broad),
        "left": (frame.left, frame.left + broad, frame.bottom, frame.top),
    }
    for side, (x0, x1, z0, z1) in sides.items():
        yield Strip(
            id=f"{frame.id}/{side}",
            wall=frame.wall,
            use="moulding frame",
            kind=profile.kind,
            belongs_to=frame.tier,
            profile=profile,
            upright=side in ("right", "left"),
            x0=x0,
            z0=z0,
            x1=x1,
            z1=z1,
            stands_out=projection(profile),
            loose=tier.loose,
        )


def _end_strip(end: WallEndCover) -> Strip:
    left = end.side == "left"
    return Strip(
        id=end.id,
        wall=end.wall,
        use="wall end",
        kind=end.finish,
        belongs_to=f"{end.side} end",
        profile=None,
        upright=True,
        x0=end.at - end.thickness if left else end.at,
        z0=end.bottom,
        x1=end.at if left else end.at + end.thickness,
        z1=end.top,
        stands_out=0.0,
        loose=False,
    )
