"""The frozen Plan: everything that follows from a Brief."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall, Corner, CutLine, CutSheet, Flat, Member, Packed, SheetPiece
    from lathlight.finishing import Finish, TakeoffRow
    from lathlight.fixing import FixingPlan
    from lathlight.flooring import FloorPlan
    from lathlight.layout import Layout
    from lathlight.marking import MarkingOut
    from lathlight.mouldings import Casing, MouldingLayout, Strip, TrimPlan, WallEndCover
    from lathlight.passage import FlatPassage
    from lathlight.plan.sawing import Sawing
    from lathlight.project import Brief
    from lathlight.working import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What the project leads to."""

    brief: Brief
    layout: Layout
    corners: tuple[Corner, ...]
    walls: tuple[BuiltWall, ...]
    passages: tuple[FlatPassage, ...]  # one a flat, in order
    timber: tuple[CutLine, ...]
    panels: tuple[CutLine, ...]
    boards: tuple[Packed, ...]
    sheets: tuple[Packed, ...]
    sawing: Sawing  # board by board and sheet by sheet, with the proofs
    cut_sheets: tuple[CutSheet, ...]  # where every sheet piece lies on its sheet
    trim: TrimPlan | None  # None where the project has no trim
    casings: tuple[Casing, ...]  # of openings that have one, wall by wall
    ends: tuple[WallEndCover, ...]  # the set's free ends: left, right
    frames: MouldingLayout | None  # None where the project has no moulding frames
    strips: tuple[Strip, ...]  # every straight moulding as what it covers of a wall
    marking: MarkingOut | None  # None where there is nothing to mark
    floor: FloorPlan | None  # None without a covering
    fixing: FixingPlan
    finish: Finish | None  # None without paint
    takeoff: tuple[TakeoffRow, ...]
    quantities: tuple[Quantity, ...]  # set/length, set/weight, set/heaviest-flat, ...

    @property
    def flats(self) -> tuple[Flat, ...]:
        """All flats, wall by wall, left to right."""
        return tuple(flat for wall in self.walls for flat in wall.flats)

    @property
    def members(self) -> tuple[Member, ...]:
        """All timber members."""
        return tuple(member for flat in self.flats for member in flat.members)

    @property
    def pieces(self) -> tuple[SheetPiece, ...]:
        """All sheet pieces."""
        return tuple(piece for flat in self.flats for piece in flat.pieces)

    def quantity(self, identity: str) -> Quantity:
        """Return the quantity of that id; KeyError where there is none."""
        for quantity in self.quantities:
            if quantity.id == identity:
                return quantity
        raise KeyError(identity)
