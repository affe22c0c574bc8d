"""Seams where they show: behind a sitter, across the picture, between sheets that do not match."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import fine, length, lengths, listed
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.carpentry import Seam
    from lathlight.catalog import Sheet
    from lathlight.layout import Point, WallLine
    from lathlight.plan import Plan
    from lathlight.project import PictureBrief, SitterBrief

FAMILY = "seams"
BESIDE_HEAD = 120.0  # a seam nearer than this to the middle of a head, in the sitter's plane, grows from it [mm]
ABOVE_HEAD = 100.0  # a seam that begins this far above the crown is clear of the head [mm], common practice
FLUSH = 0.3  # a lip between faces that raking light does not show [mm], common practice
SAME_MODULE = 0.5  # sheets whose sizes differ by less are of one module [mm]
OTHER_MODULE = 45.0  # sheets whose sizes differ by more are plainly of different sizes [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One straight look past a sitter."""

    where: str  # "In the picture half length,"
    sitter: SitterBrief
    angle: float  # [rad]
    distance: float  # camera to sitter [mm]; inf: from very far, along the axis
    height: float  # of the camera [mm]


def views_of(plan: Plan) -> Iterator[View]:
    """Yield both ends and the middle of every picture's angles, and the axis past each sitter who is in none."""
    for picture in plan.brief.pictures:
        low, high = picture.angles
        for angle in sorted({low, (low + high) / 2, high}):
            yield View(
                where=f"In the picture {picture.name},",
                sitter=picture.sitter,
                angle=angle,
                distance=_camera_distance(picture),
                height=sum(picture.camera_height) / 2,
            )
    pictured = {p.sitter.name for p in plan.brief.pictures}
    for sitter in plan.brief.sitters:
        if sitter.name not in pictured:
            where = f"On the axis past {sitter.name},"
            yield View(where=where, sitter=sitter, angle=0.0, distance=math.inf, height=sitter.stature)


def _camera_distance(picture: PictureBrief) -> float:
    """Return the nearest camera distance: lens x (1 + frame height / sensor height), thin lens [mm]."""
    return min(picture.lens) * (1 + picture.frame_height / picture.sensor[1])


def beside_head(view: View, point: Point) -> tuple[float, float] | None:
    """Return how far beside the head's middle a point of the plan shows, and how much nearer the sitter's plane is.

    Returns
    -------
    tuple of float or None
        Distance in the sitter's plane [mm], and the ratio of camera to point over camera to sitter; None where the
        point lies in front of the sitter.
    """
    ahead, right = (-math.sin(view.angle), math.cos(view.angle)), (math.cos(view.angle), math.sin(view.angle))
    dx, dy = point[0] - view.sitter.right, point[1] + view.sitter.forward
    depth = dx * ahead[0] + dy * ahead[1]
    side = dx * right[0] + dy * right[1]
    if depth <= 0:
        return None
    scale = 1.0 if math.isinf(view.distance) else (view.distance + depth) / view.distance
    return abs(side) / scale, scale


def _is_behind_head(seam: Seam, view: View, scale: float, floor: float) -> bool:
    """Return True where a seam begins below the crown as the camera sees it; sitter and camera stand on the floor."""
    crown = view.sitter.stature + ABOVE_HEAD
    return seam.low - floor < view.height + (crown - view.height) * scale


def _nearest_view(line: WallLine, seam: Seam, views: Iterable[View], floor: float) -> tuple[float, View] | None:
    point = line.at(along=seam.at, behind=0.0)
    best: tuple[float, View] | None = None
    for view in views:
        facing = line.direction[0] * math.cos(view.angle) + line.direction[1] * math.sin(view.angle)
        seen = beside_head(view, point) if facing > 0 else None
        if seen is None or not _is_behind_head(seam, view, seen[1], floor):
            continue
        if best is None or seen[0] < best[0]:
            best = (seen[0], view)
    return best


@check(
    name="seam-on-axis",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Seam behind a sitter's head",
    why="an upright line that grows from a head is the first thing the eye finds",
    limit="{120 mm} beside the middle of the head, in the sitter's plane, at both ends and the middle of the angles",
    source="common practice, no source: head centre to the nearest upright line, 0.12 m",
    remedy="Plan with [set] seams = 'save pictures', or move the sitter or shorten the wall so that it shifts.",
)
def seam_on_axis(plan: Plan) -> Iterable[Finding]:
    """Find upright seams that show near the middle of a head."""
    views = tuple(views_of(plan))
    if not views:
        return
    lines = {line.name: line for line in plan.layout.walls}
    for wall in plan.walls:
        for seam in wall.seams:
            if not seam.upright or seam.covered_by is not None:
                continue
            near = _nearest_view(lines[wall.name], seam, views, plan.brief.floor.rise)
            if near is None or near[0] >= BESIDE_HEAD:
                continue
            shown, wanted = lengths(near[0], BESIDE_HEAD, plan)
            yield Finding(
                place=seam.id,
                what=f"{near[1].where} the seam {seam.id} shows {shown} beside the middle of the head "
                f"where {wanted} is wanted",
                figure=near[0],
                limit=BESIDE_HEAD,
                inputs=(("place along the wall", seam.at, "mm"), ("camera angle", near[1].angle, "rad")),
            )


@check(
    name="open-level-seam",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Level seam that no trim covers",
    why="a level joint across the picture has to be filled and sanded flat, and where it parts, again at every move",
    limit="every level seam behind a trim line, covered by {5 mm} on either side",
    source=COMMON_PRACTICE,
    remedy="Move a rail over the seam, plan with [set] seams = 'save pictures', or take longer sheets or a lower wall.",
)
def open_level_seam(plan: Plan) -> Iterable[Finding]:
    """Find level seams that stay in sight, one finding a wall."""
    for wall in plan.walls:
        bare = [seam for seam in wall.seams if not seam.upright and seam.covered_by is None]
        if not bare:
            continue
        long = math.fsum(seam.high - seam.low for seam in bare)
        floor = plan.brief.floor.rise
        heights = listed([length(z - floor, plan) for z in sorted({seam.at for seam in bare})])
        yield Finding(
            place=wall.name,
            what=f"Wall {wall.name} has {length(long, plan)} of level seam in the open, {heights} above the "
            "finished floor",
            figure=long,
            limit=0.0,
            inputs=tuple((seam.id, seam.high - seam.low, "mm") for seam in bare),
        )


@check(
    name="sheets-differ-flush",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Sheets of different thickness meet flush",
    why="the lip between the faces throws a line of shadow in raking light",
    limit="{0.3 mm} between sheets of one wall, or of two walls that meet arris to arris or mitred",
    source=COMMON_PRACTICE,
    remedy="Face both with one sheet from one batch, or pack the thinner one out to the same face.",
)
def sheets_differ_flush(plan: Plan) -> Iterable[Finding]:
    """Find flush joints of unequal sheets."""
    spreads: dict[str, tuple[float, float]] = {}
    for wall in plan.walls:
        thick = [p.sheet.thickness for f in wall.flats for p in f.pieces]
        if not thick:
            continue
        spreads[wall.name] = (min(thick), max(thick))
        if max(thick) - min(thick) > FLUSH:
            yield _lip(plan, wall.name, f"Wall {wall.name}", min(thick), max(thick))
    for corner in plan.corners:
        ends = [spreads[name] for name in (corner.left, corner.right) if name in spreads]
        if corner.style == "lap" or len(ends) < 2:
            continue
        thin, thick_one = min(e[0] for e in ends), max(e[1] for e in ends)
        if thick_one - thin > FLUSH:
            yield _lip(plan, corner.id, f"Corner {corner.id}", thin, thick_one)


def _lip(plan: Plan, place: str, subject: str, thin: float, thick: float) -> Finding:
    lip = fine(thick - thin, plan)
    return Finding(
        place=place,
        what=f"{subject} has sheets that differ by {lip} in thickness where they meet flush",
        figure=thick - thin,
        limit=FLUSH,
        inputs=(("thinner sheet", thin, "mm"), ("thicker sheet", thick, "mm")),
    )


@check(
    name="mixed-sheet-modules",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Sheets of nearly the same size are mixed",
    why="sheets of two modules do not line up and each joint between them has to be trimmed",
    limit="{0.5 mm} between the sizes of all sheets in use that are within {45 mm} of each other",
    source=COMMON_PRACTICE,
    remedy="Take all sheets from one range, metric or 4 x 8 ft, or trim the larger ones.",
)
def mixed_sheet_modules(plan: Plan) -> Iterable[Finding]:
    """Find kinds of sheet that are almost, but not quite, of one size."""
    used: dict[str, Sheet] = {p.sheet.name: p.sheet for p in plan.pieces}
    sheets = sorted(used.values(), key=lambda s: (s.length, s.width, s.name))
    for one, other in itertools.pairwise(sheets):
        apart = max(abs(one.width - other.width), abs(one.length - other.length))
        if not SAME_MODULE < apart < OTHER_MODULE:
            continue
        yield Finding(
            place=f"{one.name}|{other.name}",
            what=f"{one.name} is {_size(one, plan)} and {other.name} is {_size(other, plan)}",
            figure=apart,
            limit=SAME_MODULE,
        )


def _size(sheet: Sheet, plan: Plan) -> str:
    wide, long = (
        f"{v:.1f}" if plan.brief.style.system == "metric" else f"{v / 25.4:.2f}" for v in (sheet.width, sheet.length)
    )
    return f"{wide} x {long} {'mm' if plan.brief.style.system == 'metric' else 'in'}"


CHECKS: tuple[Check, ...] = (seam_on_axis, sheets_differ_flush, open_level_seam, mixed_sheet_modules)
