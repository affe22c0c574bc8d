"""Moulding frames as bodies, and any moulding that runs round something in its wall's plane.

Decides which edge of a section lies outside: its top edge, so that the side on top of a frame hangs as the section is
drawn, and casing has its thick edge away from the opening. Sizes are outside to outside; the mitres stand square to the
wall, halfway between the two sides. All of it in the axes of the wall: along, behind, up [mm].
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from lathlight.catalog import drop
from lathlight.geometry import EndCut, swept, transformed
from lathlight.mouldings.frame_pieces import CLOCKWISE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from lathlight.catalog import Profile
    from lathlight.geometry import Body
    from lathlight.mouldings.frame_layout import MouldingFrame
    from lathlight.mouldings.frame_pieces import PieceRole
    from lathlight.mouldings.trim_model import Point

Direction = tuple[float, float, float]

BEHIND: Direction = (0.0, 1.0, 0.0)
RUNS: dict[PieceRole, tuple[Direction, Direction]] = {  # along the run, clockwise, and from its inner to its outer edge
    "top": ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "right": ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
    "bottom": ((-1.0, 0.0, 0.0), (0.0, 0.0, -1.0)),
    "left": ((0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)),
}


def frame_bodies(frame: MouldingFrame, profile: Profile) -> Iterator[tuple[PieceRole, Body]]:
    """Yield the four sides of a moulding frame, clockwise from the top; a side without room is left out."""
    broad = drop(profile)
    inner = {
        "top": frame.top - broad,
        "right": frame.right - broad,
        "bottom": frame.bottom + broad,
        "left": frame.left + broad,
    }
    for role in CLOCKWISE:
        ends = ("left", "right") if role in ("top", "bottom") else ("bottom", "top")
        first = EndCut(at=inner[ends[0]], by_up=-1.0)
        last = EndCut(at=inner[ends[1]], by_up=1.0)
        body = side_body(profile, role=role, inner=inner[role], first=first, last=last)
        if body is not None:
            yield role, body


def side_body(profile: Profile, *, role: PieceRole, inner: float, first: EndCut, last: EndCut) -> Body | None:
    """Return one side of what runs round, in its wall's axes [mm].

    Parameters
    ----------
    role
        Which side it is: its section's top edge looks that way.
    inner
        Where its inner edge lies: a height for the top and the bottom, a place along the wall for left and right [mm].
    first, last
        Its ends along the wall from left to right, or from the bottom up; ``by_up`` counts from the inner edge to the
        outer.
    """
    run, outwards = RUNS[role]
    left, right = (first, last) if sum(run) > 0 else (last.reversed(), first.reversed())
    body = swept(on_edge(profile), left=left, right=right)
    return None if body is None else transformed(body, _turned(run, outwards, inner))


def on_edge(profile: Profile) -> tuple[Point, ...]:
    """Return a section that stands on up = 0: out from the wall, and from its inner edge to its outer [mm]."""
    lowest = min(up for _, up in profile.points)
    return tuple((out, up - lowest) for out, up in profile.points)


def _turned(run: Direction, outwards: Direction, inner: float) -> NDArray[np.float64]:
    """Return the matrix from a run's axes to those of its wall."""
    matrix = np.eye(4)
    matrix[:3, 0], matrix[:3, 1], matrix[:3, 2] = run, BEHIND, outwards
    matrix[:3, 3] = inner * np.abs(outwards)
    return matrix
