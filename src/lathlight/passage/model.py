"""What passes where: the frozen values of the passage checks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Passing:
    """One flat at one stage of the way in."""

    through: str  # door, corridor, turn, stairs or vehicle by name
    passes: bool
    figure: float  # the dimension that decides [mm]
    limit: float  # the largest that would pass [mm]
    how: str  # "on edge, its width upright"
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPassage:
    """How one flat comes in and stands up."""

    flat: str  # id
    stages: tuple[Passing, ...]
    raises: Passing  # tilt-up under the ceiling
    passes: bool  # through every stage of the way in
