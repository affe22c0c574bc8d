"""The floor covering of a set: extent, outline at the walls, rows and seams, quantity, and what would go wrong.

Joins the parts (``extent``, ``faces``, ``laying``, ``amounts``). What hides the gap at the faces is the base's business
(``lathlight.mouldings``); prices are left to buying.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.flooring.amounts import floor_lines
from lathlight.flooring.extent import extent_findings, find_extent, margin_of
from lathlight.flooring.faces import gap_swallows_a_wall, in_front
from lathlight.flooring.laying import MOST_ROWS, ROLL, lay_boards, lay_rows, seam_lines
from lathlight.flooring.model import FloorPlan
from lathlight.geometry import area, rectangle
from lathlight.units import format_length
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from lathlight.flooring.extent import Extent
    from lathlight.flooring.model import FloorJob, FloorRow, Goods, Ring

NONE = "none"  # what the file says where there is no covering
WAYS = {"stated": "as stated", "pictures": "as far as the pictures see, and a margin", "walls": "as far as the walls"}


def plan_floor(job: FloorJob) -> FloorPlan | None:
    """Return the floor covering; None where there is none.

    Parameters
    ----------
    job
        The covering as wished, the walls, and what the pictures see.

    Returns
    -------
    FloorPlan or None
        A rectangle along the set's axes, cut by the faces less the gap, or run back under the flats where they stand
        on it. Where no width or depth is stated, it reaches as far as the pictures see the floor, and a margin; where
        they see none, as far as the walls and the sitters' places.

    Raises
    ------
    InputError
        Nothing says how deep it is; a gap that leaves nothing of it; more strips than a floor has.
    """
    if job.covering == NONE:
        return None
    extent = find_extent(job)
    crossed = not job.under_flats and gap_swallows_a_wall(job.walls, job.gap)
    outline = () if crossed else in_front(rectangle(extent.x0, extent.y0, extent.x1, extent.y1), extent.behind)
    _refuse(job, extent, outline)
    goods = _goods(job)
    away = job.strips == "away"
    rows, number = _rows(job, outline, goods, away=away)
    laid = abs(area(outline))
    return FloorPlan(
        covering=job.covering,
        outline=outline,
        extent=(extent.x0, extent.y0, extent.x1, extent.y1),
        area=laid,
        gap=0.0 if job.under_flats else job.gap,
        width_from=extent.width_from,
        depth_from=extent.depth_from,
        goods=goods,
        runs=job.strips,
        rows=rows,
        seams=tuple(seam_lines(outline, rows, away=away)),
        number=number,
        seen=extent.seen,
        lines=floor_lines(job, goods, area=laid, rows=rows, number=number),
        findings=tuple(extent_findings(job, extent)),
        why=_why(job, extent, laid),
    )


def _refuse(job: FloorJob, extent: Extent, outline: Ring) -> None:
    if not outline:
        raise InputError.of(
            place="floor expansion_gap",
            found=f"an expansion gap of {format_length(job.gap, style=job.grid)}",
            expected="a gap that leaves some of the covering before the walls",
            remedy="Make the gap smaller (8 to 12 mm, 3/8 to 1/2 in, is usual), or the covering deeper.",
        )
    across = extent.x1 - extent.x0 if job.strips == "away" else extent.y1 - extent.y0
    if job.strip_width is not None and across / job.strip_width > MOST_ROWS:
        raise InputError.of(
            place="floor sheet_width",
            found=format_length(job.strip_width, style=job.grid),
            expected=f"strips of which at most {MOST_ROWS} fill the floor",
            remedy="Give the width of one strip or board as it is sold, such as 190 mm.",
        )


def _goods(job: FloorJob) -> Goods:
    if job.strip_width is None:
        return "area only"
    if job.strip_length is not None:
        return "boards"
    return "roll" if job.strip_width > ROLL else "strips"


def _rows(job: FloorJob, outline: Ring, goods: Goods, *, away: bool) -> tuple[tuple[FloorRow, ...], int | None]:
    if job.strip_width is None:
        return (), None
    rows = lay_rows(outline, away=away, strip=job.strip_width, grid=job.grid)
    if job.strip_length is not None:
        return lay_boards(rows, board=job.strip_length, kerf=job.kerf)
    return rows, len(rows) if goods == "roll" else None


def _why(job: FloorJob, extent: Extent, laid: float) -> Working:
    stated = "stated" in (extent.width_from, extent.depth_from)
    margin = () if {extent.width_from, extent.depth_from} == {"stated"} else (("margin", margin_of(job.grid), "mm"),)
    return Working(
        formula=f"width {WAYS[extent.width_from]}; depth {WAYS[extent.depth_from]}; cut by the faces less the gap",
        inputs=(
            ("width", extent.x1 - extent.x0, "mm"),
            ("depth", extent.back - extent.y0, "mm"),
            *margin,
            ("gap", 0.0 if job.under_flats else job.gap, "mm"),
            *((f"{s.picture} sees to the front", extent.back - s.front, "mm") for s in extent.seen),
        ),
        source=f"{'the project file; ' if stated else ''}{GEOMETRY}; margin: {COMMON_PRACTICE}",
        value=laid,
        unit="mm2",
    )
