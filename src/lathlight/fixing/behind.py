"""What lies behind a place on a wall: the skin, and the timber that a brad or a screw would meet there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.fixing.lands import NO_SCREW, TIMBER_EDGE

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall, Flat, Member

TOUCH = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """The flats of one wall with the timber that carries their sheets."""

    flats: tuple[tuple[Flat, tuple[Member, ...]], ...]

    def at(self, x: float, z: float) -> tuple[Flat, Member | None] | None:
        """Return the flat at a place, and the timber met well inside its edges; None where there is no flat [mm]."""
        for flat, members in self.flats:
            if flat.sheet_x0 <= x <= flat.sheet_x1 and flat.z0 <= z <= flat.z1:
                return flat, next((m for m in members if _meets(m, x, z)), None)
        return None

    def timber_along(self, at: float, start: float, end: float, *, upright: bool) -> list[tuple[float, float, Member]]:
        """Return the stretches of a line that lie over timber, well inside its edges, in order [mm].

        Parameters
        ----------
        at
            The line's place across itself: x of an upright line, z of a level one.
        start, end
            From where to where it runs.
        """
        found: list[tuple[float, float, Member]] = []
        for _, members in self.flats:
            for m in members:
                across, along = ((m.x, m.wide), (m.z, m.high)) if upright else ((m.z, m.high), (m.x, m.wide))
                if not across[0] + TIMBER_EDGE <= at <= across[0] + across[1] - TIMBER_EDGE:
                    continue
                low = max(start, along[0] + TIMBER_EDGE)
                high = min(end, along[0] + along[1] - TIMBER_EDGE)
                if high >= low:
                    found.append((low, high, m))
        return sorted(found, key=lambda each: each[:2])


def _meets(m: Member, x: float, z: float) -> bool:
    return m.x + TIMBER_EDGE <= x <= m.x + m.wide - TIMBER_EDGE and m.z + TIMBER_EDGE <= z <= m.z + m.high - TIMBER_EDGE


def behind(wall: BuiltWall) -> Behind:
    """Return what lies behind a wall's face."""
    return Behind(flats=tuple((flat, _carrying(flat)) for flat in wall.flats))


def _carrying(flat: Flat) -> tuple[Member, ...]:
    return tuple(m for m in flat.members if m.role not in NO_SCREW and abs(m.behind - flat.sheet.thickness) < TOUCH)
