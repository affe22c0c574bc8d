"""Where a flat's timber lies behind its sheets: rectangles seen from the front, and what crosses a height.

Read from the finished members alone, so that the checks that lean on it are a second opinion on the framing.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import Flat, Member

TOUCH = 1e-6
CONTACT = 1.0  # timber this near to the sheet's back touches it [mm]


@dataclass(frozen=True, slots=True)
class Backed:
    """A member's face against the sheet, wall axes [mm]."""

    x0: float
    x1: float
    z0: float
    z1: float


def backed(flat: Flat) -> tuple[Backed, ...]:
    """Return the faces of all members and arch ribs that touch the back of a flat's sheets."""
    front = flat.sheet.thickness
    faces = [face for member in flat.members if (face := _face(member, front)) is not None]
    ribs = [rib for opening in flat.openings for rib in opening.ribs if abs(rib.behind - front) <= CONTACT]
    return (*faces, *(strip for rib in ribs for strip in _strips(rib.outline)))


def _strips(ring: Sequence[tuple[float, float]]) -> Iterator[Backed]:
    """Yield a curved rib as level strips, one between each two heights of its corners."""
    levels = sorted({z for _, z in ring})
    for low, high in itertools.pairwise(levels):
        if high - low < TOUCH:
            continue
        middle = (low + high) / 2
        crossings = sorted(
            ax + (middle - az) * (bx - ax) / (bz - az)
            for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True)
            if (az - middle) * (bz - middle) < 0
        )
        for left, right in zip(crossings[::2], crossings[1::2], strict=True):
            yield Backed(left, right, low, high)


def _face(member: Member, front: float) -> Backed | None:
    x0, x1, behind = member.x, member.x + member.wide, member.behind
    if member.section is not None:
        behind = min(b for _, b in member.section)
        foremost = [x for x, b in member.section if b <= behind + CONTACT]
        x0, x1 = min(foremost), max(foremost)
    if abs(behind - front) > CONTACT or x1 - x0 <= TOUCH:
        return None
    return Backed(x0, x1, member.z, member.z + member.high)


@dataclass(frozen=True, slots=True)
class Bay:
    """The space between two neighbouring uprights at one height, wall axes [mm]."""

    left: float  # right edge of the left upright
    right: float  # left edge of the right one
    centres: float  # centre to centre


def bays_at(flat: Flat, z: float) -> Iterator[Bay]:
    """Yield the bays between the uprights that cross a height, those of openings left out."""
    standing = sorted(
        (m.x, m.x + m.wide) for m in flat.members if m.upright and m.z < z < m.z + m.high and m.role != "wedge"
    )
    holes = [(o.rough[0], o.rough[0] + o.rough[2]) for o in flat.openings if o.rough[1] < z < o.rough[1] + o.rough[3]]
    for (a0, a1), (b0, b1) in itertools.pairwise(standing):
        if not any(left < b0 - TOUCH and right > a1 + TOUCH for left, right in holes):
            yield Bay(a1, b0, (b0 + b1) / 2 - (a0 + a1) / 2)


def bands(flat: Flat) -> tuple[float, ...]:
    """Return one height in each band that the openings divide a flat into [mm]."""
    edges = {flat.z0, flat.z1}
    for o in flat.openings:
        edges |= {e for e in (o.rough[1], o.rough[1] + o.rough[3]) if flat.z0 < e < flat.z1}
    marks = sorted(edges)
    return tuple((a + b) / 2 for a, b in itertools.pairwise(marks))
