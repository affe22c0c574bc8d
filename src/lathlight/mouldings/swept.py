"""Every moulding of a set as a body in set axes: trim, returns, backing strips, casing, moulding frames, wall ends.

Puts together and places what ``swept_trim``, ``swept_casing`` and ``swept_frames`` make in the axes of one wall. Ends
are the exact planes of the plan: true mitres, true copes; lengths on the saw's grid are left to the lists.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.geometry import Part, placement, prism, transformed
from lathlight.mouldings.swept_casing import casing_bodies
from lathlight.mouldings.swept_frames import frame_bodies
from lathlight.mouldings.swept_trim import piece_body, return_body, strip_body

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.geometry import Body
    from lathlight.layout import Layout
    from lathlight.mouldings.casing_model import Casing
    from lathlight.mouldings.frame_layout import MouldingLayout
    from lathlight.mouldings.trim_model import TrimPlan
    from lathlight.mouldings.wall_ends import WallEndCover

Hung = tuple[str, Part]  # wall, and the part in its axes


def moulding_parts(
    trim: TrimPlan | None,
    frames: MouldingLayout | None = None,
    casings: Sequence[Casing] = (),
    ends: Sequence[WallEndCover] = (),
    *,
    layout: Layout,
) -> tuple[Part, ...]:
    """Return every moulding of a set as a part in set axes [mm]; what its cuts leave nothing of is left out.

    Each hangs in its wall's group of mouldings and has the id of its piece; a side of a moulding frame has the frame's
    id and its own name. Backing strips are timber, return boards at wall ends are sheet.

    Raises
    ------
    ValueError
        A tier of moulding frames without its profile.
    """
    parts = [*_trim_parts(trim), *_casing_parts(casings), *_frame_parts(frames), *_end_parts(ends)]
    matrices = {
        line.name: placement(x=line.start[0], y=line.start[1], turn=math.atan2(line.direction[1], line.direction[0]))
        for line in layout.walls
    }
    return tuple(replace(part, solid=transformed(part.solid, matrices[wall])) for wall, part in parts)


def _part(wall: str, identity: str, body: Body, material: str = "moulding") -> Hung:
    return wall, Part(id=identity, path=(wall, f"{wall}/mouldings"), material=material, solid=body)


def _trim_parts(trim: TrimPlan | None) -> Iterator[Hung]:
    if trim is None:
        return
    pieces = {piece.id: piece for piece in trim.pieces}
    for piece in trim.pieces:
        body = piece_body(piece)
        if body is not None:
            yield _part(piece.wall, piece.id, body)
    for small in trim.returns:
        body = return_body(small, pieces[small.piece])
        if body is not None:
            yield _part(pieces[small.piece].wall, small.id, body)
    for strip in trim.strips:
        body = strip_body(strip)
        if body is not None:
            yield _part(pieces[strip.piece].wall, strip.id, body, "timber")


def _casing_parts(casings: Sequence[Casing]) -> Iterator[Hung]:
    for casing in casings:
        for identity, body in casing_bodies(casing):
            yield _part(casing.wall, identity, body)


def _frame_parts(frames: MouldingLayout | None) -> Iterator[Hung]:
    if frames is None:
        return
    profiles = {tier.name: tier.profile for group in frames.in_line for tier in group.tiers}
    for frame in frames.frames:
        profile = profiles.get(frame.tier)
        if profile is None:
            message = f"tier {frame.tier!r} was laid out without its profile"
            raise ValueError(message)
        for role, body in frame_bodies(frame, profile):
            yield _part(frame.wall, f"{frame.id}/{role}", body)


def _end_parts(ends: Sequence[WallEndCover]) -> Iterator[Hung]:
    for end in ends:
        if end.thickness > 0:
            x = (end.at - end.thickness, end.at) if end.side == "left" else (end.at, end.at + end.thickness)
            outline = ((x[0], 0.0), (x[1], 0.0), (x[1], end.width), (x[0], end.width))
            body = prism(outline, low=end.bottom, high=end.top, axis="height")
            yield _part(end.wall, end.id, body, "sheet" if end.finish == "return" else "moulding")
