"""The lines that an opening's casing keeps to: its edges, where legs begin and end, the circle of an arch.

What stands on these lines is left to ``lathlight.mouldings.casing_pieces``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.catalog import projection, width
from lathlight.units import snap_up

if TYPE_CHECKING:
    from lathlight.mouldings.casing_model import OpeningToCase, WallToCase
    from lathlight.units import LengthStyle

PROUD_MM, PROUD_IN = 3.0, 3.175  # by which a block stands out past the casing, 3 mm or 1/8 in: common practice
ABOVE_MM, ABOVE_IN = 10.0, 9.525  # of a plinth block above the base, 10 mm or 3/8 in: common practice
TALL = 2.0  # a plinth block without a base is so many casings high: common practice

Box = tuple[float, float, float, float]  # left, bottom, right, top


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingLines:
    """One opening with the lines of its casing; wall axes [mm]."""

    wall: WallToCase
    opening: OpeningToCase
    grid: LengthStyle
    floor: float

    @property
    def broad(self) -> float:
        """Width of the casing."""
        return width(self.opening.profile)

    @property
    def thick(self) -> float:
        """How far the casing stands out."""
        return projection(self.opening.profile)

    @property
    def left(self) -> float:
        """Inner edge of the left leg."""
        return self.opening.left - self.opening.reveal

    @property
    def right(self) -> float:
        """Inner edge of the right leg."""
        return self.opening.left + self.opening.width + self.opening.reveal

    @property
    def top(self) -> float:
        """Inner edge of the head."""
        return self.opening.sill + self.opening.height + self.opening.reveal

    @property
    def bottom(self) -> float:
        """Inner edge of the bottom piece, or the finished floor."""
        return self.floor if self.stands else self.opening.sill - self.opening.reveal

    @property
    def stands(self) -> bool:
        """True where the opening runs to the floor."""
        return self.opening.sill <= 0

    @property
    def arched(self) -> bool:
        """True where the head is a curve."""
        return self.opening.kind == "arch" and self.opening.rise > 0

    @property
    def cornered(self) -> bool:
        """True with blocks at the upper corners; an arch has none."""
        return self.opening.corner_blocks and not self.arched

    @property
    def plinthed(self) -> bool:
        """True with blocks at the feet; an opening above the floor has none."""
        return self.opening.plinth_blocks and self.stands

    @property
    def proud(self) -> float:
        """By how much a block stands out past the casing, and past what dies into it."""
        return PROUD_MM if self.grid.system == "metric" else PROUD_IN

    @property
    def inward(self) -> float:
        """How far a block reaches past the casing's inner edge: never past the clear edge."""
        return min(self.proud, self.opening.reveal)

    @property
    def plinth(self) -> float:
        """Height of the plinth blocks: a little above the base."""
        above = ABOVE_MM if self.grid.system == "metric" else ABOVE_IN
        base = self.wall.base_top
        return snap_up(TALL * self.broad if base is None else base - self.floor + above, self.grid)

    def box(self) -> Box:
        """Return the outer edges with all blocks."""
        side = self.broad + (self.proud if self.cornered or self.plinthed else 0.0)
        top = self.top + self.broad + (self.proud if self.cornered else 0.0)
        return self.left - side, self.bottom - (0.0 if self.stands else self.broad), self.right + side, top

    def legs(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return where a leg begins and ends along its outer and along its inner edge."""
        foot = self.floor + self.plinth if self.plinthed else self.bottom
        if self.arched:
            outer, inner = (self.springing(self.opening.reveal + out) for out in (self.broad, 0.0))
        elif self.cornered:
            outer = inner = self.top - self.inward
        else:
            outer, inner = self.top + self.broad, self.top
        return (foot - (0.0 if self.stands else self.broad), outer), (foot, inner)

    def circle(self) -> tuple[float, float]:
        """Return the radius of an arch's clear edge and the height of its centre."""
        half, rise = self.opening.width / 2, self.opening.rise
        radius = (half**2 + rise**2) / (2 * rise)
        return radius, self.opening.sill + self.opening.height - radius

    def springing(self, out: float) -> float:
        """Return the height at which the curve so far out from the clear edge meets the upright as far out."""
        radius, centre = self.circle()
        return centre + math.sqrt(max(0.0, (radius + out) ** 2 - (self.opening.width / 2 + out) ** 2))

    def part(self, name: str) -> str:
        """Return the id of a part."""
        return f"{self.wall.name}/{self.opening.name}/{name}"

    def clipped(self, box: Box) -> Box:
        """Return what of a box lies on the wall, above the floor."""
        x0, x1 = (min(max(x, 0.0), self.wall.length) for x in (box[0], box[2]))
        z0, z1 = (min(max(z, self.floor), self.wall.height) for z in (box[1], box[3]))
        return x0, z0, x1, z1
