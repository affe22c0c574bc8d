"""The strip behind a cornice: a set has no ceiling, so what the cornice leans on is ripped to its spring angle.

The cornice touches the wall at its foot and leans away by the spring angle. The hollow between its back, the wall and
the level of its top edge is a right-angled triangle; the strip fills it, or as much of it as its timber is thick.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.catalog import drop
from lathlight.mouldings.mitres import inset
from lathlight.mouldings.trim_model import BackingStrip
from lathlight.units import snap_down

if TYPE_CHECKING:
    from lathlight.mouldings.trim_model import Moulding, PieceEnd, Point, TrimPiece, TrimRules

TOUCH = 0.01  # the tables are written to 0.01 mm


def back_strip(piece: TrimPiece, *, line: Moulding, rules: TrimRules) -> BackingStrip | None:
    """Return the strip behind one piece of cornice, or None where the moulding has no spring or leaves no room."""
    if line.spring is None:
        return None
    section = strip_section(line, thickness=rules.strip_stock)
    depth = max(out for out, _ in section)
    start = piece.left.station + _set_back(piece.left, depth)
    end = piece.right.station - _set_back(piece.right, depth)
    length = snap_down(end - start, rules.grid)
    if length <= 0:
        return None
    return BackingStrip(
        id=f"{piece.id}/strip",
        piece=piece.id,
        start=start,
        end=end,
        length=length,
        section=section,
        rip=line.spring,
    )


def strip_section(line: Moulding, *, thickness: float | None) -> tuple[Point, ...]:
    """Section of the strip: points (out from the wall, up from the finished floor) [mm].

    Parameters
    ----------
    line
        A line with a spring angle.
    thickness
        Thickness of the timber it is ripped from [mm]; None: the whole hollow.

    Notes
    -----
    From the cornice's foot up to its top edge, ``high``, the hollow widens to ``high * tan(spring)`` (geometry).
    """
    assert line.spring is not None
    lowest = min(up for _, up in line.profile.points)
    foot = max(up for out, up in line.profile.points if out <= TOUCH) - lowest
    high = drop(line.profile) - foot
    wide = high * math.tan(line.spring)
    low, top = line.bottom + foot, line.top
    if thickness is None or thickness >= wide:
        return ((0.0, low), (wide, top), (0.0, top))
    return ((0.0, low), (thickness, low + thickness / math.tan(line.spring)), (thickness, top), (0.0, top))


def _set_back(end: PieceEnd, depth: float) -> float:
    """Return how far the strip's square end stays from its station [mm]: clear of other strips, hidden at a return."""
    if end.kind == "scarf":
        return 0.0
    return abs(end.back - end.station) + end.cope + max(0.0, inset(projection=depth, slant=end.slant))
