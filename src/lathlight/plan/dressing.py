"""What is put on built walls, each from what goes before: mouldings, marking out, floor, fixing, paint."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.mouldings import strips_of
from lathlight.plan.casing import derive_casings, derive_wall_ends
from lathlight.plan.finish import derive_finish
from lathlight.plan.fixing import derive_fixing
from lathlight.plan.floor import derive_floor
from lathlight.plan.frames import derive_frames
from lathlight.plan.marking import derive_marking
from lathlight.plan.trim import derive_trim

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.camera import MiddleLine
    from lathlight.carpentry import BuiltWall, Corner
    from lathlight.finishing import Finish
    from lathlight.fixing import FixingPlan
    from lathlight.flooring import FloorPlan
    from lathlight.layout import Layout
    from lathlight.marking import MarkingOut
    from lathlight.mouldings import Casing, MouldingLayout, Strip, TrimPlan, WallEndCover
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief


@dataclass(frozen=True, slots=True, kw_only=True)
class Dressing:
    """All that is put on the built walls of a set; as the fields of the Plan of the same names."""

    trim: TrimPlan | None
    casings: tuple[Casing, ...]
    ends: tuple[WallEndCover, ...]
    frames: MouldingLayout | None
    strips: tuple[Strip, ...]
    marking: MarkingOut | None
    floor: FloorPlan | None
    fixing: FixingPlan
    finish: Finish | None


def derive_dressing(
    brief: Brief,
    walls: Sequence[BuiltWall],
    corners: Sequence[Corner],
    layout: Layout,
    middles: Sequence[MiddleLine],
    memo: Memo,
) -> Dressing:
    """Return what is put on built walls.

    Raises
    ------
    InputError
        Mouldings that cannot be drawn.
    """
    casings, ends = derive_casings(brief, memo), derive_wall_ends(brief, memo)
    trim = derive_trim(brief, walls, middles, casings, memo)
    frames = derive_frames(brief, walls, middles, trim, casings, memo)
    strips = strips_of(trim, frames, casings, ends)
    return Dressing(
        trim=trim,
        casings=casings,
        ends=ends,
        frames=frames,
        strips=strips,
        marking=derive_marking(brief, walls, trim, frames, memo),
        floor=derive_floor(brief, walls, layout, memo),
        fixing=derive_fixing(brief, walls, corners, layout, strips, memo),
        finish=derive_finish(brief, walls, strips, memo, casings=casings),
    )
