"""Every piece of moulding that is cut from whole lengths, from long point to long point.

Frames that are bought whole are not among them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.finishing import MouldingCut
from lathlight.mouldings import frame_pieces

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings import Casing, FrameTier, MouldingFrame, MouldingLayout, TrimPlan


def moulding_cuts(
    trim: TrimPlan | None, casings: Sequence[Casing], frames: MouldingLayout | None
) -> tuple[MouldingCut, ...]:
    """Return the pieces of trim, casings and mitred frames."""
    return (*_trim_cuts(trim), *_casing_cuts(casings), *_frame_cuts(frames))


def _trim_cuts(trim: TrimPlan | None) -> Iterator[MouldingCut]:
    if trim is not None:
        for piece in (*trim.pieces, *trim.returns):
            yield MouldingCut(id=piece.id, profile=piece.profile, length=piece.long_point)


def _casing_cuts(casings: Sequence[Casing]) -> Iterator[MouldingCut]:
    for casing in casings:
        for piece in casing.pieces:
            yield MouldingCut(id=piece.id, profile=casing.profile, length=piece.long_point)
        if casing.curve is not None:
            yield MouldingCut(id=casing.curve.id, profile=casing.profile, length=casing.curve.length)


def _frame_cuts(layout: MouldingLayout | None) -> Iterator[MouldingCut]:
    """Yield the four pieces of every frame that is mitred from lengths."""
    for frame, tier in framed(layout):
        if tier.bought_width is None and tier.profile is not None:
            for piece in frame_pieces(width=frame.width, height=frame.height, moulding=tier.moulding):
                yield MouldingCut(id=f"{frame.id}/{piece.role}", profile=tier.profile, length=piece.long_points)


def framed(layout: MouldingLayout | None) -> Iterator[tuple[MouldingFrame, FrameTier]]:
    """Yield every moulding frame with its tier."""
    if layout is not None:
        tiers = {tier.name: tier for group in layout.in_line for tier in group.tiers}
        yield from ((frame, tiers[frame.tier]) for frame in layout.frames)
