"""What every part of the brief is made from: the project, the whole catalogue, the system's usual things.

Also the one rule of heights. A wall's axes begin at the foot of its flats; people measure from the finished floor,
which lies higher by the covering's thickness where flats stand beside the covering, and at their foot everywhere else.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lathlight.units import snap

if TYPE_CHECKING:
    from lathlight.catalog import Catalog
    from lathlight.project.defaults import Defaults
    from lathlight.project.model import Floor, Project, SetTable
    from lathlight.units import LengthStyle

NO_COVERING = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A project whose names are all in the catalogue."""

    project: Project
    catalog: Catalog = field(repr=False)
    style: LengthStyle
    usual: Defaults

    @property
    def rise(self) -> float:
        """How high the finished floor lies above the foot of the flats [mm]."""
        return rise_of_floor(self.project.floor, self.project.set, self.style)

    def raised(self, height: float) -> float:
        """Return a height above the finished floor as one above the foot of the flats, on the grid [mm]."""
        return snap(snap(height, self.style) + self.rise, self.style)

    def is_own(self, name: str, *, ending: str = " in") -> bool:
        """Return True for rows of the project's own system, which shipped names tell by their ending."""
        return name.endswith(ending) == (self.style.system == "imperial")


def rise_of_floor(floor: Floor, shared: SetTable, style: LengthStyle) -> float:
    """Return how high the finished floor lies above the foot of the flats [mm]: 0 where they stand on the covering."""
    stands_beside = shared.stands_on == "floor" and floor.covering != NO_COVERING
    return snap(floor.thickness, style) if stands_beside else 0.0
