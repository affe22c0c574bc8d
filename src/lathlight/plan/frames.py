"""The moulding frames of a set from its brief, its built walls and its trim: what the layout needs, and nothing more.

Decides what stands in the way of frames. Openings do, with casing and blocks; what hangs on a wall does not: a
looking-glass hangs over frames as it does in a room. At a corner a bay begins at the corner line, where the eye sees
the wall end; only where the neighbour's line alone runs into the corner at the frames' height, past what it projects.
A pattern centred on a picture keeps to the middle of the picture's angles, on the wall that this line meets; the other
walls keep to their own middles.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.catalog import projection, width
from lathlight.mouldings import (
    Block,
    FrameTier,
    FrameWall,
    MouldingFramesJob,
    SeamLine,
    TrimBand,
    casing_box,
    lay_out_frames,
)
from lathlight.plan.trim import cased_openings, partings_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.camera import MiddleLine
    from lathlight.carpentry import BuiltWall
    from lathlight.mouldings import Casing, MouldingLayout, TrimPiece, TrimPlan
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, FramesBrief, WallBrief

WIDEST_MEETING = math.radians(135)  # a line ends free of a neighbour that splays more, as for the trim


def derive_frames(
    brief: Brief,
    walls: Sequence[BuiltWall],
    middles: Sequence[MiddleLine],
    trim: TrimPlan | None,
    casings: Sequence[Casing],
    memo: Memo,
) -> MouldingLayout | None:
    """Return the moulding frames of the set; None where the project asks for none.

    Raises
    ------
    InputError
        Frames that cannot be drawn: above their wall, or without room anywhere.
    """
    if not brief.frames:
        return None
    ready = _walls(brief, walls, trim, casings)
    job = MouldingFramesJob(
        walls=ready,
        tiers=tuple(_tier(tier, middles) for tier in brief.frames),
        grid=brief.style,
        floor=brief.floor.rise,
    )
    return memo.run("moulding frames", lay_out_frames, job)


def _tier(tier: FramesBrief, middles: Sequence[MiddleLine]) -> FrameTier:
    return FrameTier(
        name=tier.name,
        moulding=width(tier.profile),
        bottom=tier.bottom,
        top=tier.top,
        gap=tier.gap,
        end_gap=tier.end_gap,
        bought_width=tier.bought_width,
        walls=tier.walls,
        middles=_middle(tier, middles),
        part_at_joints=tier.part_at_joints,
        loose=tier.loose,
        profile=tier.profile,
    )


def _middle(tier: FramesBrief, middles: Sequence[MiddleLine]) -> tuple[tuple[str, float], ...]:
    """Return the wall and the place of the middle one of a picture's lines, which come from left to right."""
    lines = [line for line in middles if line.picture == tier.centre_on] if tier.centre_on != "wall" else []
    if not lines:
        return ()
    line = lines[(len(lines) - 1) // 2]
    return ((line.wall, line.along),)


def _walls(
    brief: Brief, walls: Sequence[BuiltWall], trim: TrimPlan | None, casings: Sequence[Casing]
) -> tuple[FrameWall, ...]:
    pieces = trim.pieces if trim is not None else ()
    found: list[FrameWall] = []
    for number, (own, built) in enumerate(zip(brief.walls, walls, strict=True)):
        blocks = tuple(_block(o.name, casing_box(o)) for o in cased_openings(own, brief.catalog.profiles, casings))
        left = _in_the_way(brief, own, pieces, corner=number - 1)
        right = _in_the_way(brief, own, pieces, corner=number)
        found.append(
            FrameWall(
                name=own.name,
                start=left,
                end=own.length - right,
                height=own.height,
                blocks=blocks,
                bands=tuple(TrimBand(name=line.name, bottom=line.bottom, top=line.top) for line in own.trim),
                seams=tuple(_seams(built)),
            )
        )
    return tuple(found)


def _block(name: str, box: tuple[float, float, float, float]) -> Block:
    left, bottom, right, top = box
    return Block(name=name, left=left, right=right, bottom=bottom, top=top)


def _in_the_way(brief: Brief, own: WallBrief, pieces: Sequence[TrimPiece], *, corner: int) -> float:
    """Return how far lines that only the neighbour has stand out over a wall's end, at its frames' heights [mm]."""
    if not 0 <= corner < len(brief.corners) or brief.corners[corner].angle > WIDEST_MEETING:
        return 0.0
    pair = brief.corners[corner]
    other = pair.left if own.name == pair.right else pair.right
    tiers = [(t.bottom, t.top) for t in brief.frames if t.walls is None or own.name in t.walls]
    lines = [(line.bottom, line.top) for line in own.trim]
    lone = [
        piece
        for piece in pieces
        if piece.wall == other
        and any(end.kind == "against the wall" and end.against == own.name for end in (piece.left, piece.right))
        and not any(_share(piece, line) for line in lines)
        and any(_share(piece, tier) for tier in tiers)
    ]
    return max((projection(piece.profile) / math.sin(pair.angle) for piece in lone), default=0.0)


def _share(piece: TrimPiece, heights: tuple[float, float]) -> bool:
    return piece.bottom < heights[1] and heights[0] < piece.top


def _seams(built: BuiltWall) -> Iterator[SeamLine]:
    """Yield the seams between sheets of one flat, and the joints between flats."""
    for seam in built.seams:
        if not seam.parts:
            yield _line(seam.id, upright=seam.upright, at=seam.at, low=seam.low, high=seam.high, parts=False)
    for joint, parting in zip(built.joints, partings_of(built), strict=True):
        yield _line(joint.id, upright=parting.upright, at=parting.at, low=parting.low, high=parting.high, parts=True)


def _line(name: str, *, upright: bool, at: float, low: float, high: float, parts: bool) -> SeamLine:
    (left, right), (bottom, top) = ((at, at), (low, high)) if upright else ((low, high), (at, at))
    return SeamLine(name=name, left=left, right=right, bottom=bottom, top=top, parts=parts)
