"""What one wall and one flat of it are built from: plain values, nothing looked up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.corners import Thickness
from lathlight.carpentry.pieces import flat_name, level_seam_name, seam_name

if TYPE_CHECKING:
    from lathlight.carpentry.model import WallEnd
    from lathlight.carpentry.sheeting import Sheeting
    from lathlight.catalog import Bracket
    from lathlight.project import WallBrief
    from lathlight.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class WallJob:
    """What one built wall depends on, and nothing else."""

    wall: WallBrief
    mark: str
    left: WallEnd
    right: WallEnd
    keep_off: tuple[float, ...]  # places along the wall that seams stay away from [mm]
    max_width: float  # of a flat: the user's limit and the way in together [mm]
    max_height: float
    max_weight: float  # [kg]
    weight_stated: bool  # False: the weight limit was assumed from the crew
    passes: bool  # False: no flat of this height passes the way in
    corner_plate: Bracket
    sill_strap: Bracket
    kerf: float
    trim_cut: float
    grid: LengthStyle
    pictures_first: bool = False  # seams away from the pictures count before the number of sheets
    sheeting: Sheeting | None = None  # chosen together with the neighbours; None: the wall's own best


def thickness(wall: WallBrief) -> Thickness:
    """Return a wall's sheet thickness and frame depth."""
    return Thickness(sheet=wall.sheet.thickness, frame=wall.framing.depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatBox:
    """A flat's frame and sheets from edge to edge [mm], and which seams lie inside it."""

    name: str
    first: bool  # begins at the wall's left end
    last: bool
    x0: float
    x1: float
    z0: float
    z1: float
    sheet_x0: float  # fronts
    sheet_x1: float
    back_x0: float  # where the sheets' backs end
    back_x1: float
    seams: tuple[tuple[str, float], ...]
    level_seams: tuple[tuple[str, float], ...]


def flat_box(job: WallJob, sheeting: Sheeting, column: int, row: int) -> FlatBox:
    """Return the edges of one flat by its place among the columns and rows of sheets."""
    (a, b), (c, d) = sheeting.columns[column], sheeting.rows[row]
    xs, zs = sheeting.xs, sheeting.zs
    first, last = a == 0, b == len(xs) - 1
    length = job.wall.length
    return FlatBox(
        name=flat_name(column, row),
        first=first,
        last=last,
        x0=0.0 - job.left.frame_end if first else xs[a],
        x1=length + job.right.frame_end if last else xs[b],
        z0=zs[c],
        z1=zs[d],
        sheet_x0=xs[a],
        sheet_x1=xs[b],
        back_x0=0.0 - job.left.sheet_back if first else xs[a],
        back_x1=length + job.right.sheet_back if last else xs[b],
        seams=tuple((seam_name(i - 1), xs[i]) for i in range(a + 1, b)),
        level_seams=tuple((level_seam_name(i - 1), zs[i]) for i in range(c + 1, d)),
    )
