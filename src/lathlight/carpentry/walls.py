"""One wall from its brief and its two ends: sheets, flats, frames, openings, weights."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.carpentry.bars import BackedLine, FrameJob
from lathlight.carpentry.corner_plates import place_corner_plates
from lathlight.carpentry.flats import FlatCells, Span
from lathlight.carpentry.framable import refuse_unframable
from lathlight.carpentry.framing import frame_flat
from lathlight.carpentry.jobs import FlatBox, WallJob, flat_box
from lathlight.carpentry.lining import framed_opening
from lathlight.carpentry.model import BuiltWall, Flat, Joint
from lathlight.carpentry.openings import rough_opening
from lathlight.carpentry.pieces import (
    PieceJob,
    flat_name,
    seams_of,
    sheet_pieces,
)
from lathlight.carpentry.sheeting import SheetJob, choose_sheeting
from lathlight.carpentry.uprights import TOUCH, UprightJob
from lathlight.carpentry.wedges import corner_wedges
from lathlight.carpentry.weight import (
    flat_weight,
    member_mass,
    opening_masses,
    piece_mass,
    plate_mass,
)
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.model import SheetPiece
    from lathlight.carpentry.openings import Rough
    from lathlight.carpentry.sheeting import Sheeting
    from lathlight.project import WallBrief

RESERVE = 1.04  # the estimate leaves out nailers, plates and straps


def build_wall(job: WallJob) -> BuiltWall:
    """Return the wall as built.

    Raises
    ------
    InputError
        An opening that cannot be framed: it leaves no timber beside, above or below it.
    """
    sheet_job = sheet_job_of(job)
    openings = sheet_job.openings
    sheeting = job.sheeting if job.sheeting is not None else choose_sheeting(sheet_job)
    piece_job = PieceJob(
        wall=job.wall.name,
        length=job.wall.length,
        left=job.left,
        right=job.right,
        sheet=job.wall.sheet,
        sheeting=sheeting,
        openings=openings,
        trim=job.wall.trim,
        grid=job.grid,
    )
    pieces = sheet_pieces(piece_job)
    boxes = [
        flat_box(job, sheeting, column, row)
        for row in range(len(sheeting.rows))
        for column in range(len(sheeting.columns))
    ]
    inside = [_inside(box, openings) for box in boxes]
    refuse_unframable(job, tuple(zip(boxes, inside, strict=True)))
    flats = tuple(_build_flat(job, pieces, box, own) for box, own in zip(boxes, inside, strict=True))
    return BuiltWall(
        name=job.wall.name,
        mark=job.mark,
        length=job.wall.length,
        height=job.wall.height,
        left=job.left,
        right=job.right,
        flats=flats,
        seams=seams_of(piece_job),
        joints=_joints(job, sheeting),
        why=_split_why(job, sheeting),
    )


def sheet_job_of(job: WallJob) -> SheetJob:
    """Return what the wall's sheeting depends on."""
    wall = job.wall
    openings = tuple(rough_opening(o, grid=job.grid) for o in wall.openings)
    span = Span(
        start=0.0 - job.left.sheet_front,
        end=wall.length + job.right.sheet_front,
        beyond_start=max(0.0, job.left.frame_end - job.left.sheet_front),
        beyond_end=max(0.0, job.right.frame_end - job.right.sheet_front),
        short_start=max(0.0, job.left.sheet_front - job.left.frame_end),
        short_end=max(0.0, job.right.sheet_front - job.right.frame_end),
    )
    return SheetJob(
        span=span,
        height=wall.height,
        sheet=wall.sheet,
        openings=openings,
        trim=wall.trim,
        keep_off=job.keep_off,
        flats=FlatCells(
            widest=job.max_width,
            tallest=job.max_height,
            heaviest=job.max_weight,
            weight_binds=job.weight_stated,
            weight_per_area=_weight_per_area(wall),
            weight_per_noggin=wall.framing.width * wall.framing.depth * wall.framing.density * 1e-9,
            upright=wall.framing.width,
            span=span,
        ),
        kerf=job.kerf,
        grid=job.grid,
        pictures_first=job.pictures_first,
    )


def _weight_per_area(wall: WallBrief) -> float:
    """Return a first estimate [kg/mm2]: sheet, studs at the spacing with one more end stud a metre, two plates."""
    stock = wall.framing
    studs = 1 / wall.stud_spacing + 1 / 1000
    plates = 2 / wall.height
    timber = stock.width * stock.depth * stock.density * (studs + plates)
    return RESERVE * (wall.sheet.thickness * wall.sheet.density + timber) * 1e-9


def _split_why(job: WallJob, sheeting: Sheeting) -> Working:
    return Working(
        formula="fewest flats along the seams that keep the limits and cut no opening, then the lightest heaviest flat",
        inputs=(
            ("widest flat", job.max_width, "mm"),
            ("highest flat", job.max_height, "mm"),
            ("heaviest flat", job.max_weight, "kg"),
            *((("over the limits by", round(100 * sheeting.excess), "%"),) if sheeting.excess else ()),
        ),
        source="limits of the project file and its way in",
        value=len(sheeting.columns) * len(sheeting.rows),
    )


def _joints(job: WallJob, sheeting: Sheeting) -> tuple[Joint, ...]:
    name = job.wall.name
    found: list[Joint] = []
    for r in range(len(sheeting.rows)):
        for c, (_, b) in enumerate(sheeting.columns[:-1]):
            left, right = flat_name(c, r), flat_name(c + 1, r)
            found.append(
                Joint(
                    id=f"{name}/joint {left}-{right}",
                    wall=name,
                    left=left,
                    right=right,
                    upright=True,
                    at=sheeting.xs[b],
                )
            )
    for r, (_, b) in enumerate(sheeting.rows[:-1]):
        for c in range(len(sheeting.columns)):
            low, high = flat_name(c, r), flat_name(c, r + 1)
            found.append(
                Joint(
                    id=f"{name}/joint {low}-{high}", wall=name, left=low, right=high, upright=False, at=sheeting.zs[b]
                )
            )
    return tuple(found)


def _inside(box: FlatBox, openings: Sequence[Rough]) -> tuple[Rough, ...]:
    """Return the openings that lie in a flat."""
    return tuple(
        o
        for o in openings
        if box.x0 < (o.left + o.right) / 2 < box.x1 and o.bottom < box.z1 - TOUCH and o.top > box.z0 + TOUCH
    )


def _build_flat(job: WallJob, pieces: Sequence[SheetPiece], box: FlatBox, inside: tuple[Rough, ...]) -> Flat:
    wall, stock = job.wall, job.wall.framing
    frame = frame_flat(_frame_job(job, box, inside))
    members = (*frame.members, *corner_wedges(job, box, len({m.mark for m in frame.members})))
    framed = tuple(
        framed_opening(
            o, wall=wall.name, flat=box.name, x0=box.x0, x1=box.x1, z0=box.z0, sheet=wall.sheet, grid=job.grid
        )
        for o in inside
    )
    plates = place_corner_plates(job, box, inside)
    own = tuple(p for p in pieces if p.flat == box.name)
    identity = f"{wall.name}/{box.name}"
    masses = [
        *map(member_mass, members),
        *map(piece_mass, own),
        *map(plate_mass, plates),
        *(m for o in framed for m in opening_masses(o, density=wall.sheet.density, strap=job.sill_strap)),
    ]
    weight, centre = flat_weight(identity, masses)
    return Flat(
        id=identity,
        wall=wall.name,
        name=box.name,
        mark=f"{job.mark}{box.name}",
        x0=box.x0,
        x1=box.x1,
        z0=box.z0,
        z1=box.z1,
        sheet_x0=box.sheet_x0,
        sheet_x1=box.sheet_x1,
        stock=stock,
        sheet=wall.sheet,
        through=frame.through,
        built_in_room=not job.passes or box.x1 - box.x0 > job.max_width + TOUCH,
        members=members,
        plates=plates,
        pieces=own,
        openings=framed,
        weight=weight,
        centre=centre,
        why=frame.why,
    )


def _frame_job(job: WallJob, box: FlatBox, inside: tuple[Rough, ...]) -> FrameJob:
    wall, stock = job.wall, job.wall.framing
    lines = [BackedLine(name=t.name, z=(t.top + t.bottom) / 2, x0=0.0, x1=wall.length, load=False) for t in wall.trim]
    lines += [
        BackedLine(name=w.name, z=w.height, x0=w.along - w.width / 2, x1=w.along + w.width / 2, load=True)
        for w in wall.loads
    ]
    return FrameJob(
        wall=wall.name,
        flat=box.name,
        uprights=UprightJob(
            x0=box.x0,
            x1=box.x1,
            z0=box.z0,
            z1=box.z1,
            sheet_x0=max(box.sheet_x0, box.back_x0),
            sheet_x1=min(box.sheet_x1, box.back_x1),
            face_x0=max(0.0, box.sheet_x0),
            face_x1=min(wall.length, box.sheet_x1),
            seams=box.seams,
            openings=inside,
            width=stock.width,
            plate=stock.width,
            spacing=wall.stud_spacing,
            grid=job.grid,
        ),
        seams=box.level_seams,
        lines=tuple(lines),
        stock=stock,
        behind=wall.sheet.thickness,
        kerf=job.kerf,
        trim_cut=job.trim_cut,
    )
