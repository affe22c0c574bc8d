"""The sheet pieces of a wall and the seams between them, from its division."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.model import Seam, SheetPiece
from lathlight.carpentry.sheeting import cells_of, covering_trim, factory_edges
from lathlight.geometry import area
from lathlight.units import snap_up
from lathlight.working import GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import WallEnd
    from lathlight.carpentry.openings import Rough
    from lathlight.carpentry.sheeting import Cell, Sheeting
    from lathlight.catalog import Sheet
    from lathlight.project import TrimLine
    from lathlight.units import LengthStyle

TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceJob:
    """What the pieces of a wall depend on."""

    wall: str
    length: float
    left: WallEnd
    right: WallEnd
    sheet: Sheet
    sheeting: Sheeting
    openings: tuple[Rough, ...]
    trim: tuple[TrimLine, ...]
    grid: LengthStyle


def flat_name(column: int, row: int) -> str:
    """Return a flat's name: its number from the left; flats on top of others add the storey."""
    return str(column + 1) if row == 0 else f"{column + 1}.{row + 1}"


def sheet_pieces(job: PieceJob) -> tuple[SheetPiece, ...]:
    """Return all pieces of a wall, flat by flat, from the left, bottom to top."""
    columns, rows = job.sheeting.columns, job.sheeting.rows
    cells = cells_of(job.sheeting.xs, job.sheeting.zs, job.openings)
    pieces: list[SheetPiece] = []
    numbers: dict[str, int] = {}
    parts = _parts(cells)
    for cell, part in zip(cells, parts, strict=True):
        column = next(i for i, (a, b) in enumerate(columns) if a <= cell.column < b)
        row = next(i for i, (a, b) in enumerate(rows) if a <= cell.row < b)
        flat = flat_name(column, row)
        numbers[flat] = numbers.get(flat, 0) + 1
        pieces.append(_piece(job, cell, flat, f"S{numbers[flat]}", part))
    return tuple(pieces)


def _parts(cells: Sequence[Cell]) -> list[str]:
    """Return a suffix for cells that an opening splits: a, b and so on; empty for whole ones."""
    count: dict[tuple[int, int], int] = {}
    for cell in cells:
        key = (cell.column, cell.row)
        count[key] = count.get(key, 0) + 1
    seen: dict[tuple[int, int], int] = {}
    parts: list[str] = []
    for cell in cells:
        key = (cell.column, cell.row)
        parts.append("" if count[key] == 1 else chr(ord("a") + seen.get(key, 0)))
        seen[key] = seen.get(key, 0) + 1
    return parts


def _piece(job: PieceJob, cell: Cell, flat: str, mark: str, part: str) -> SheetPiece:
    x0, z0, x1, z1 = cell.box
    last = len(job.sheeting.xs) - 2
    at_left = cell.column == 0 and abs(x0 - job.sheeting.xs[0]) < TOUCH
    at_right = cell.column == last and abs(x1 - job.sheeting.xs[-1]) < TOUCH
    bevel_left = job.left.sheet_back - job.left.sheet_front if at_left else 0.0
    bevel_right = job.right.sheet_back - job.right.sheet_front if at_right else 0.0
    width = x1 - x0 + max(bevel_left, 0.0) + max(bevel_right, 0.0)
    net = area(cell.outline) - sum(abs(area(h)) for h in cell.holes)
    return SheetPiece(
        id=f"{job.wall}/{flat}/sheet/{cell.column + 1}-{cell.row + 1}{part}",
        wall=job.wall,
        flat=flat,
        mark=mark,
        sheet=job.sheet,
        outline=cell.outline,
        holes=cell.holes,
        width=snap_up(width, job.grid),
        height=z1 - z0,
        bevel_left=bevel_left,
        bevel_right=bevel_right,
        turned=job.sheeting.turned,
        factory=factory_edges(job.sheeting, cell, job.sheet),
        area=net,
        why=Working(
            formula="seam to seam or to the wall's end, openings cut out",
            inputs=(("left edge", x0, "mm"), ("right edge", x1, "mm"), ("bottom", z0, "mm"), ("top", z1, "mm")),
            source=GEOMETRY,
            value=x1 - x0,
            unit="mm",
        ),
    )


def seams_of(job: PieceJob) -> tuple[Seam, ...]:
    """Return the upright seams from the left, then the level ones from the bottom, each broken at openings."""
    return (*_upright_seams(job), *_level_seams(job))


def seam_name(index: int) -> str:
    """Return the name of an upright seam by its number from the left, counted from 0."""
    return f"seam {index + 1}"


def level_seam_name(index: int) -> str:
    """Return the name of a level seam by its number from the bottom, counted from 0."""
    return f"level seam {index + 1}"


def _upright_seams(job: PieceJob) -> Iterable[Seam]:
    xs, zs = job.sheeting.xs, job.sheeting.zs
    joints = {xs[b] for _, b in job.sheeting.columns[:-1]}
    for index, x in enumerate(xs[1:-1]):
        holes = [(o.bottom, o.top) for o in job.openings if o.left - TOUCH <= x <= o.right + TOUCH]
        for low, high, part in _stretches(zs[0], zs[-1], holes):
            yield Seam(
                id=f"{job.wall}/{seam_name(index)}{part}",
                wall=job.wall,
                upright=True,
                at=x,
                low=low,
                high=high,
                parts=x in joints,
                covered_by=None,
                why=_seam_why(job, x),
            )


def _level_seams(job: PieceJob) -> Iterable[Seam]:
    xs, zs = job.sheeting.xs, job.sheeting.zs
    joints = {zs[b] for _, b in job.sheeting.rows[:-1]}
    for index, z in enumerate(zs[1:-1]):
        holes = [(o.left, o.right) for o in job.openings if o.bottom - TOUCH <= z <= o.top + TOUCH]
        for low, high, part in _stretches(xs[0], xs[-1], holes):
            yield Seam(
                id=f"{job.wall}/{level_seam_name(index)}{part}",
                wall=job.wall,
                upright=False,
                at=z,
                low=low,
                high=high,
                parts=z in joints,
                covered_by=covering_trim(z, job.trim),
                why=_seam_why(job, z),
            )


def _stretches(low: float, high: float, holes: Sequence[tuple[float, float]]) -> list[tuple[float, float, str]]:
    """Return what holes leave of a stretch, with a suffix where there are several parts."""
    left: list[tuple[float, float]] = []
    at = low
    for a, b in sorted(holes):
        if a - at > TOUCH:
            left.append((at, a))
        at = max(at, b)
    if high - at > TOUCH:
        left.append((at, high))
    suffixes = [""] if len(left) == 1 else [f" {chr(ord('a') + i)}" for i in range(len(left))]
    return [(a, b, suffix) for (a, b), suffix in zip(left, suffixes, strict=False)]


def _seam_why(job: PieceJob, at: float) -> Working:
    sheeting = job.sheeting
    return Working(
        formula="fewest sheets, then fewest seams, then seams away from the pictures' middle lines and behind trim",
        inputs=(
            ("divisions compared", sheeting.tried, ""),
            ("sheets, first fit", sheeting.sheets, ""),
            ("columns", len(sheeting.xs) - 1, ""),
            ("rows", len(sheeting.zs) - 1, ""),
        ),
        source=GEOMETRY,
        value=at,
        unit="mm",
    )
