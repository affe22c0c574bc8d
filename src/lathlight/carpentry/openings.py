"""Openings: rough sizes from clear ones, arches with their ordinates, and what is cut out of the sheets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.units import snap

if TYPE_CHECKING:
    from lathlight.carpentry.model import Point
    from lathlight.project import OpeningBrief
    from lathlight.units import LengthStyle

ARCH_PIECES = 32  # straight pieces an arch is drawn with
ORDINATE_STEPS = 8  # ordinates printed over half an arch's width


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """An opening as the framing sees it, wall axes [mm]."""

    name: str
    kind: Literal["door", "window", "arch"]
    clear: OpeningBrief
    left: float
    right: float
    bottom: float  # 0: runs to the floor
    top: float
    spring: float  # height of an arch's springing line in the sheet; ``top`` otherwise
    rise: float  # of the hole in the sheet; 0 unless an arch

    @property
    def to_floor(self) -> bool:
        """True where the bottom plate is cut out."""
        return self.bottom <= 0


def rough_opening(opening: OpeningBrief, *, grid: LengthStyle) -> Rough:
    """Return the rough size: the clear size, the lining and the packing gap on every side that has them.

    A door's rough bottom is the floor. The hole in the sheet is the rough opening, an arch's with the same rise
    widened by lining and gap.
    """
    margin = opening.lining + opening.gap if opening.lining > 0 else 0.0
    left = snap(opening.left - margin, grid)
    right = snap(opening.left + opening.width + margin, grid)
    bottom = snap(opening.sill - margin, grid) if opening.sill > 0 else 0.0
    top = snap(opening.sill + opening.height + margin, grid)
    rise = opening.rise + margin if opening.rise > 0 else 0.0
    return Rough(
        name=opening.name,
        kind=opening.kind,
        clear=opening,
        left=left,
        right=right,
        bottom=bottom,
        top=top,
        spring=top - rise,
        rise=rise,
    )


def arch_radius(*, width: float, rise: float) -> float:
    """Return the radius of the circle through the springing points and the crown [mm].

    Intersecting chords: half width squared = rise x (2 radius - rise).

    Examples
    --------
    >>> arch_radius(width=1000, rise=500)
    500.0
    """
    return (width**2 / 4 + rise**2) / (2 * rise)


def arch_height(x: float, *, width: float, rise: float) -> float:
    """Return the height of the arch above its springing line [mm], ``x`` from the left springing point [mm]."""
    radius = arch_radius(width=width, rise=rise)
    return math.sqrt(max(radius**2 - (x - width / 2) ** 2, 0.0)) - (radius - rise)


def arch_ordinates(*, width: float, rise: float, grid: LengthStyle) -> tuple[Point, ...]:
    """Return points to plot an arch by: distance from the left springing point, height above it, on the grid [mm]."""
    half = sorted({snap(width * i / (2 * ORDINATE_STEPS), grid) for i in range(ORDINATE_STEPS)})
    heights = [max(snap(arch_height(x, width=width, rise=rise), grid), 0.0) for x in half]
    left = list(zip(half, heights, strict=True))
    right = [(width - x, height) for x, height in reversed(left)]
    return (*left, (width / 2, snap(rise, grid)), *right)


def hole_outline(rough: Rough) -> tuple[Point, ...]:
    """Return the hole in the sheets, anticlockwise (x, z) in wall axes [mm]."""
    low = [(rough.left, rough.bottom), (rough.right, rough.bottom)]
    if rough.rise <= 0:
        return (*low, (rough.right, rough.top), (rough.left, rough.top))
    width = rough.right - rough.left
    radius = arch_radius(width=width, rise=rough.rise)
    half = math.acos(max(-1.0, 1.0 - rough.rise / radius))  # angle from the crown to a springing point
    turns = [half * (1.0 - 2.0 * i / ARCH_PIECES) for i in range(1, ARCH_PIECES)]  # even, so that no piece is slack
    middle, foot = (rough.left + rough.right) / 2, rough.spring + rough.rise - radius
    arch = [(middle + radius * math.sin(turn), foot + radius * math.cos(turn)) for turn in turns]
    return (*low, (rough.right, rough.spring), *arch, (rough.left, rough.spring))
