"""Every straight piece of moulding as the rectangle of wall that it covers: trim, casing, frames, cover strips.

The one shape in which fixing, painting and drawing see mouldings on a wall. Nothing about joints or mitres stands here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.catalog import Profile

StripUse = Literal["trim", "casing", "moulding frame", "block"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One straight piece on a wall; wall axes, above the foot of the flats [mm]."""

    id: str  # the piece's own id; of a moulding frame "wall/tier/frame 1/top"
    wall: str
    use: StripUse
    kind: str  # "base", "rail", "picture rail", "cornice", "casing", "panel", "plinth block", "corner block"
    belongs_to: str  # trim line, opening, or tier of moulding frames
    profile: Profile | None  # None: a plain block
    upright: bool  # True: runs up the wall
    x0: float  # outer edges of what it covers
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
