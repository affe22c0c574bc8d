"""Where the sheets of a wall lie: fewest sheets, then fewest seams, then seams where they do least harm.

A wall is divided into columns and rows, sheets upright or turned; openings are cut out of the cells. The flats follow
the upright seams, so a division is judged together with the flats it allows (``lathlight.carpentry.flats``).
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lathlight.carpentry.flats import FlatCells, Span, group_cells
from lathlight.carpentry.openings import Rough, hole_outline
from lathlight.carpentry.packing import pack_sheets
from lathlight.carpentry.partition import Limits, divisions, fewest
from lathlight.geometry import Ring, cut_out, rectangle

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Sheet
    from lathlight.project import TrimLine
    from lathlight.units import LengthStyle

LEAST_PIECE = 150.0  # narrower strips of sheet are avoided [mm], common practice
THIN_LEG = 60.0  # a leg of an L-piece narrower than this snaps [mm], common practice
WORTH_SAWING = 600.0  # sheets are not sawn narrower than this for the crew's sake alone [mm], common practice
SLIVER = 20.0  # a leg narrower than this cannot be sawn from the sheet [mm], common practice
NEAR = 500.0  # a seam this far from a picture's middle line does it no harm [mm], common practice
LEVEL_HARM = 0.5  # an open level seam crosses every picture, though not its middle
TOUCH = 1e-6

Box = tuple[float, float, float, float]  # x0, z0, x1, z1
Edge = Literal["left", "right", "bottom", "top"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetJob:
    """What a wall's sheeting depends on [mm]."""

    span: Span
    height: float
    sheet: Sheet
    openings: tuple[Rough, ...]
    trim: tuple[TrimLine, ...]
    keep_off: tuple[float, ...]  # places along the wall that seams should stay away from
    flats: FlatCells
    kerf: float
    grid: LengthStyle
    pictures_first: bool = False  # True: harm to the pictures counts before the number of sheets


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheeting:
    """A division of a wall into columns and rows, with its flats."""

    xs: tuple[float, ...]  # column edges, both ends included
    zs: tuple[float, ...]  # row edges
    turned: bool
    columns: tuple[tuple[int, int], ...]  # flats as ranges of columns
    rows: tuple[tuple[int, int], ...]  # flats as ranges of rows
    excess: float  # shares by which flats exceed their limits, and legs too thin to saw; 0 where all is well
    sheets: int  # first fit, this wall alone
    tried: int  # divisions compared


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One piece of sheet before it is named: its outline and the rectangle it is sawn from [mm]."""

    column: int
    row: int
    outline: Ring
    holes: tuple[Ring, ...]
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """A division with what it is judged by, best first in the order of the fields."""

    sheeting: Sheeting
    seams: float
    thin: float  # legs and strips beside openings too narrow to handle
    harm: float  # metres of seam, weighted by nearness to the pictures' middle lines
    sawn: int  # sawn edges at seams

    @property
    def rest(self) -> tuple[float, ...]:
        """What is judged after the number of sheets."""
        flats = len(self.sheeting.columns) * len(self.sheeting.rows)
        return self.seams, self.thin, self.harm, flats, self.sawn


def choose_sheeting(job: SheetJob) -> Sheeting:
    """Return the best division of a wall by itself.

    Judged in order: flats within their limits and no slivers, number of sheets, of seams, thin legs beside
    openings, harm to the pictures, number of flats, sawn edges at seams; a tie keeps the order of trial.
    """
    return ranked_sheetings(job)[0].sheeting


def ranked_sheetings(job: SheetJob, *, most: int = 1) -> tuple[Scored, ...]:
    """Return the best divisions of a wall, best first, all with the least excess over the flats' limits."""
    found = _scored(job, pairs=False)
    if job.openings and (job.pictures_first or min(f.sheeting.excess for f in found) > 0):
        found = [*found, *_scored(job, pairs=True)]
    least = min(f.sheeting.excess for f in found)
    kept = sorted(
        (f for f in found if f.sheeting.excess <= least),
        key=lambda scored: _score(scored, pictures_first=job.pictures_first),
    )[:most]
    return tuple(replace(f, sheeting=replace(f.sheeting, tried=len(found))) for f in kept)


def _score(scored: Scored, *, pictures_first: bool) -> tuple[float, ...]:
    first = round(scored.harm, 1) if pictures_first else 0.0
    return scored.sheeting.excess, first, scored.sheeting.sheets, *scored.rest


def _scored(job: SheetJob, *, pairs: bool) -> list[Scored]:
    found: list[Scored] = []
    least = math.inf
    for turned in (False, True) if not job.sheet.grain else (False,):
        for xs, zs in _divisions(job, turned=turned, pairs=pairs):
            columns, rows, over = group_cells(xs, zs, job.flats, job.openings)
            excess = over + _slivers(xs, zs, job.openings)
            if excess > least:
                continue
            least = excess
            sheets = _count(boxes_of(xs, zs, job.openings), job)
            seams, thin, harm = _seam_score(xs, zs, job)
            sheeting = Sheeting(
                xs=xs, zs=zs, turned=turned, columns=columns, rows=rows, excess=excess, sheets=sheets, tried=0
            )
            sawn = _sawn_at_seams(xs, zs, job.sheet, turned=turned)
            found.append(Scored(sheeting=sheeting, seams=seams, thin=thin, harm=harm, sawn=sawn))
    assert found, "a wall can always be divided into equal pieces"
    return found


def _divisions(job: SheetJob, *, turned: bool, pairs: bool) -> Iterable[tuple[tuple[float, ...], tuple[float, ...]]]:
    across, up = (job.sheet.length, job.sheet.width) if turned else (job.sheet.width, job.sheet.length)
    columns = _column_limits(job, across, turned=turned)
    tall = min(up, job.flats.tallest)
    rows = Limits(first=tall, inner=tall, last=tall, least=min(LEAST_PIECE, job.height / 4))
    square = [o for o in job.openings if o.rise <= 0]
    wanted = [*(edge for o in square for edge in (o.left, o.right)), *_piers(job)]
    bands = [(t.top + t.bottom) / 2 for t in job.trim]
    if fewest(job.height, rows) > 1:
        bands += sorted({edge for o in square for edge in (o.bottom, o.top)})
    span = job.span
    for zs in divisions(0.0, job.height, limits=rows, wanted=bands, grid=job.grid):
        for xs in divisions(span.start, span.end, limits=columns, wanted=wanted, grid=job.grid, pairs=pairs):
            yield xs, zs


def _column_limits(job: SheetJob, across: float, *, turned: bool) -> Limits:
    """Return what columns may measure: the sheet, and at the ends what the widest flat leaves of its lapping frame.

    Columns are sawn as narrow as the heaviest flat demands; upright sheets only down to a width that is worth sawing,
    unless the user stated the weight.
    """
    span, widest = job.span, job.flats.widest
    high = min(job.height, job.flats.tallest)
    by_weight = job.flats.heaviest / (job.flats.weight_per_area * high)
    if turned or job.flats.weight_binds or by_weight >= WORTH_SAWING:
        widest = min(widest, by_weight)
    least = min(LEAST_PIECE, (span.end - span.start) / 4)
    first, last = min(across, widest - span.beyond_start), min(across, widest - span.beyond_end)
    if min(first, last) < least:
        first = last = across
    return Limits(
        first=first,
        inner=min(across, max(widest, least)),
        last=last,
        least=least,
        least_first=least + span.short_start,
        least_last=least + span.short_end,
    )


def _piers(job: SheetJob) -> list[float]:
    """Return places for joints beside openings: the middles of the piers, and as near as two studs allow."""
    edges = [job.span.start, *(e for o in job.openings for e in (o.left, o.right)), job.span.end]
    room = 2 * job.flats.upright
    places: list[float] = []
    for i, (a, b) in enumerate(zip(edges[::2], edges[1::2], strict=True)):
        inner = 0 < i < len(edges) // 2 - 1
        if b - a >= 2 * room:
            places += [(a + b) / 2] if inner else []
            places += [b - room] if i < len(edges) // 2 - 1 else []
            places += [a + room] if i > 0 else []
    return places


def cells_of(xs: Sequence[float], zs: Sequence[float], openings: Sequence[Rough]) -> tuple[Cell, ...]:
    """Return the pieces of sheet, column by column from the left, bottom to top, openings cut out."""
    cells: list[Cell] = []
    for i, (x0, x1) in enumerate(itertools.pairwise(xs)):
        near = [o for o in openings if o.left < x1 - TOUCH and o.right > x0 + TOUCH]
        for j, (z0, z1) in enumerate(itertools.pairwise(zs)):
            holes = [hole_outline(o) for o in near if o.bottom < z1 - TOUCH and o.top > z0 + TOUCH]
            outline = rectangle(x0, z0, x1, z1)
            pieces = cut_out(outline, holes) if holes else ((outline, ()),)
            cells += [Cell(column=i, row=j, outline=ring, holes=inner, box=_box(ring)) for ring, inner in pieces]
    return tuple(cells)


def _box(ring: Ring) -> Box:
    xs, zs = [p[0] for p in ring], [p[1] for p in ring]
    return min(xs), min(zs), max(xs), max(zs)


def boxes_of(xs: Sequence[float], zs: Sequence[float], openings: Sequence[Rough]) -> list[Box]:
    """Return the rectangles that the pieces are sawn from, without shaping the pieces themselves."""
    boxes: list[Box] = []
    for x0, x1 in itertools.pairwise(xs):
        near = [o for o in openings if o.left < x1 - TOUCH and o.right > x0 + TOUCH]
        for z0, z1 in itertools.pairwise(zs):
            left: list[Box] = [(x0, z0, x1, z1)]
            for o in near:
                left = [rest for box in left for rest in _less(box, o)]
            boxes += left
    return boxes


def _less(box: Box, o: Rough) -> list[Box]:
    """Return a rectangle's parts beside an opening that runs right across it; the whole where it does not."""
    x0, z0, x1, z1 = box
    if o.left <= x0 + TOUCH and o.right >= x1 - TOUCH and o.bottom < z1 and o.spring > z0:
        parts = [(x0, z0, x1, min(o.bottom, z1)), (x0, max(o.spring, z0), x1, z1)]
    elif o.bottom <= z0 + TOUCH and o.spring >= z1 - TOUCH and o.left < x1 and o.right > x0:
        parts = [(x0, z0, min(o.left, x1), z1), (max(o.right, x0), z0, x1, z1)]
    else:
        return [box]
    return [p for p in parts if p[2] - p[0] > TOUCH and p[3] - p[1] > TOUCH]


def _count(boxes: Sequence[Box], job: SheetJob) -> int:
    sizes = [(x1 - x0, z1 - z0) for x0, z0, x1, z1 in boxes]
    free = [not job.sheet.grain] * len(sizes)
    return len(pack_sheets(sizes, width=job.sheet.width, length=job.sheet.length, kerf=job.kerf, may_turn=free))


def _seam_score(xs: Sequence[float], zs: Sequence[float], job: SheetJob) -> tuple[float, float, float]:
    """Return number of seams, number of thin legs, harm [metres of seam, weighted by nearness]."""
    thin = harm = 0.0
    for x in xs[1:-1]:
        thin += sum(1 for o in job.openings for e in (o.left, o.right) if _is_thin(abs(x - e), o))
        nearness = sum(max(0.0, 1 - abs(x - place) / NEAR) for place in job.keep_off)
        hidden = sum(o.top - o.bottom for o in job.openings if o.left - TOUCH <= x <= o.right + TOUCH)
        harm += nearness * (job.height - hidden) / 1000
    for z in zs[1:-1]:
        thin += sum(1 for o in job.openings for e in (o.bottom, o.top) if _is_thin(abs(z - e), o))
        if covering_trim(z, job.trim) is None:
            harm += LEVEL_HARM * (xs[-1] - xs[0]) / 1000
    return len(xs) + len(zs) - 4, thin, round(harm, 6)


def _slivers(xs: Sequence[float], zs: Sequence[float], openings: Sequence[Rough]) -> int:
    """Return the number of legs beside openings that are too thin to be sawn at all."""
    upright = sum(1 for x in xs[1:-1] for o in openings for e in (o.left, o.right) if TOUCH < abs(x - e) < SLIVER)
    level = sum(1 for z in zs[1:-1] for o in openings for e in (o.bottom, o.top) if TOUCH < abs(z - e) < SLIVER)
    return upright + level


def _is_thin(distance: float, o: Rough) -> bool:
    """Return True where a seam leaves a leg that snaps, or, right at an arch's edge, a feathered tip [mm]."""
    return distance < THIN_LEG and (distance > TOUCH or o.rise > 0)


def covering_trim(z: float, trim: Sequence[TrimLine]) -> str | None:
    """Return the name of the trim line that covers a level seam, or None [mm]."""
    return next((t.name for t in trim if t.bottom + COVER <= z <= t.top - COVER), None)


COVER = 5.0  # a moulding must lap a seam by this much on either side [mm], common practice


def _sawn_at_seams(xs: Sequence[float], zs: Sequence[float], sheet: Sheet, *, turned: bool) -> int:
    across, up = (sheet.length, sheet.width) if turned else (sheet.width, sheet.length)
    sawn = 0
    for edges, whole in ((xs, across), (zs, up)):
        inner = list(itertools.pairwise(edges))[1:-1]
        sawn += sum(1 for a, b in inner if b - a < whole - TOUCH)
    return sawn


def factory_edges(sheeting: Sheeting, cell: Cell, sheet: Sheet) -> frozenset[Edge]:
    """Return which edges of a piece are the maker's own.

    A whole sheet has four. A narrower one keeps the edge that lies at a seam and is sawn at the wall's end, or at the
    right where it has seams on both sides; a lower one is sawn at the bottom, or at the edge away from its seam.
    Edges along an opening are sawn.
    """
    across, up = (sheet.length, sheet.width) if sheeting.turned else (sheet.width, sheet.length)
    x0, z0, x1, z1 = cell.box
    edges: set[Edge] = set()
    edges |= _kept_edges(cell.column, sheeting.xs, across, ("left", "right"), sawn_alone="right")
    edges |= _kept_edges(cell.row, sheeting.zs, up, ("bottom", "top"), sawn_alone="bottom")
    bounds = {"left": sheeting.xs[cell.column], "right": sheeting.xs[cell.column + 1]}
    bounds |= {"bottom": sheeting.zs[cell.row], "top": sheeting.zs[cell.row + 1]}
    actual = {"left": x0, "right": x1, "bottom": z0, "top": z1}
    return frozenset(e for e in edges if abs(bounds[e] - actual[e]) <= TOUCH)


def _kept_edges(
    index: int, edges: Sequence[float], whole: float, names: tuple[Edge, Edge], *, sawn_alone: Edge
) -> set[Edge]:
    low, high = names
    if edges[index + 1] - edges[index] >= whole - TOUCH:
        return {low, high}
    count = len(edges) - 1
    if count == 1:
        return {high if sawn_alone == low else low}
    if index == 0:
        return {high}
    return {low}
