"""Pieces of trim, their returns and their backing strips as bodies, in the axes of their wall.

Every end is the plane that the piece was planned with, exact and not on the saw's grid; a cope follows the neighbour's
section, which is the piece's own (``lathlight.mouldings.trim_ends`` copes nothing else).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.catalog import projection
from lathlight.geometry import EndCut, placement, swept, transformed

if TYPE_CHECKING:
    from lathlight.geometry import Body
    from lathlight.mouldings.mitres import End
    from lathlight.mouldings.trim_model import BackingStrip, PieceEnd, Point, ReturnPiece, TrimPiece


def piece_body(piece: TrimPiece) -> Body | None:
    """Return a piece of trim in its wall's axes [mm]; None where copes at both ends leave nothing of it."""
    return swept(_hung(piece), left=_end_cut(piece, "left"), right=_end_cut(piece, "right"))


def return_body(small: ReturnPiece, piece: TrimPiece) -> Body | None:
    """Return the small piece that turns a piece's end back to the wall, in the wall's axes [mm].

    It is the same section turned by a right angle: its back lies where the piece's back ends, it starts at the wall
    and runs out to an edge in the mitre.
    """
    section = _hung(piece)
    if small.end == "left":
        body = swept(section, left=EndCut(at=0.0), right=EndCut(at=0.0, by_out=1.0))
        return body and transformed(body, placement(x=piece.left.back, y=0.0, turn=-math.pi / 2))
    body = swept(section, left=EndCut(at=0.0, by_out=-1.0), right=EndCut(at=0.0))
    return body and transformed(body, placement(x=piece.right.back, y=0.0, turn=math.pi / 2))


def strip_body(strip: BackingStrip) -> Body | None:
    """Return the strip behind a cornice in its wall's axes [mm]."""
    return swept(strip.section, left=EndCut(at=strip.start), right=EndCut(at=strip.end))


def _hung(piece: TrimPiece) -> tuple[Point, ...]:
    """Return a piece's section at its height on the wall."""
    lowest = min(up for _, up in piece.profile.points)
    return tuple((out, piece.bottom + up - lowest) for out, up in piece.profile.points)


def _end_cut(piece: TrimPiece, side: End) -> EndCut:
    """Return an end's plane, or its cope: the neighbour's front, met at the slant of its wall's face."""
    end: PieceEnd = piece.left if side == "left" else piece.right
    inwards = 1.0 if side == "left" else -1.0
    return EndCut(
        at=end.back,
        by_out=(end.front - end.back) / projection(piece.profile),
        by_front=inwards / math.cos(end.slant) if end.cope > 0 else 0.0,
    )
