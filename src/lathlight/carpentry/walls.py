"""One wall from its brief and its two ends: sheets, flats, frames, openings, weights."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.corners import Thickness, wedge_outline
from lathlight.carpentry.flats import FlatCells, Span
from lathlight.carpentry.framing import BackedLine, FrameJob, frame_flat, letter
from lathlight.carpentry.lining import framed_opening
from lathlight.carpentry.model import BuiltWall, Flat, Joint, Member, Plate
from lathlight.carpentry.openings import rough_opening
from lathlight.carpentry.pieces import (
    PieceJob,
    flat_name,
    level_seam_name,
    seam_name,
    seams_of,
    sheet_pieces,
)
from lathlight.carpentry.sheeting import SheetJob, choose_sheeting
from lathlight.carpentry.uprights import THINNEST, TOUCH, UprightJob
from lathlight.carpentry.weight import (
    flat_weight,
    member_mass,
    opening_masses,
    piece_mass,
    plate_mass,
)
from lathlight.errors import InputError, Problem
from lathlight.units import drawing_length, snap_down
from lathlight.working import GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.model import SheetPiece, WallEnd
    from lathlight.carpentry.openings import Rough
    from lathlight.carpentry.sheeting import Sheeting
    from lathlight.catalog import Bracket
    from lathlight.project import WallBrief
    from lathlight.units import LengthStyle

PLATE_SETBACK = 20.0  # corner plates stay clear of the frame's edge [mm] (3/4 in), common practice


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
    flats = tuple(
        _build_flat(job, sheeting, openings, pieces, column, row)
        for row in range(len(sheeting.rows))
        for column in range(len(sheeting.columns))
    )
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


def thickness(wall: WallBrief) -> Thickness:
    """Return a wall's sheet thickness and frame depth."""
    return Thickness(sheet=wall.sheet.thickness, frame=wall.framing.depth)


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
    return (wall.sheet.thickness * wall.sheet.density + timber) * 1e-9


def _split_why(job: WallJob, sheeting: Sheeting) -> Working:
    return Working(
        formula="fewest flats along the seams that keep the limits and cut no opening, then the lightest heaviest flat",
        inputs=(
            ("widest flat", job.max_width, "mm"),
            ("highest flat", job.max_height, "mm"),
            ("heaviest flat", job.max_weight, "kg"),
            ("share by which flats exceed the limits", sheeting.excess, ""),
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Box:
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


def _box(job: WallJob, sheeting: Sheeting, column: int, row: int) -> _Box:
    (a, b), (c, d) = sheeting.columns[column], sheeting.rows[row]
    xs, zs = sheeting.xs, sheeting.zs
    first, last = a == 0, b == len(xs) - 1
    length = job.wall.length
    return _Box(
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


def _build_flat(
    job: WallJob,
    sheeting: Sheeting,
    openings: Sequence[Rough],
    pieces: Sequence[SheetPiece],
    column: int,
    row: int,
) -> Flat:
    box = _box(job, sheeting, column, row)
    wall, stock = job.wall, job.wall.framing
    inside = tuple(
        o
        for o in openings
        if box.x0 < (o.left + o.right) / 2 < box.x1 and o.bottom < box.z1 - TOUCH and o.top > box.z0 + TOUCH
    )
    _refuse_unframable(job, box, inside)
    frame = frame_flat(_frame_job(job, box, inside))
    members = (*frame.members, *_wedges(job, box, len({m.mark for m in frame.members})))
    framed = tuple(
        framed_opening(
            o, wall=wall.name, flat=box.name, x0=box.x0, x1=box.x1, z0=box.z0, sheet=wall.sheet, grid=job.grid
        )
        for o in inside
    )
    plates = _corner_plates(job, box, inside)
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


def _frame_job(job: WallJob, box: _Box, inside: tuple[Rough, ...]) -> FrameJob:
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


def _wedges(job: WallJob, box: _Box, letters: int) -> list[Member]:
    """Return the ripped wedges that fill a square frame end up to the plane of an oblique corner."""
    sides: tuple[tuple[str, WallEnd, bool, float, float], ...] = (
        ("left", job.left, box.first, -1.0, 0.0),
        ("right", job.right, box.last, 1.0, job.wall.length),
    )
    found: list[Member] = []
    for side, end, here, sign, datum in sides:
        outline = wedge_outline(end, thickness(job.wall)) if here else None
        if outline is not None:
            section = tuple((datum + sign * p, behind) for p, behind in outline)
            found.append(_wedge(job, box, side, end, section, letter(letters + len(found))))
    return found


def _wedge(
    job: WallJob, box: _Box, side: str, end: WallEnd, section: tuple[tuple[float, float], ...], mark: str
) -> Member:
    xs, depths = [p[0] for p in section], [p[1] for p in section]
    return Member(
        id=f"{job.wall.name}/{box.name}/wedge/{side}",
        wall=job.wall.name,
        flat=box.name,
        role="wedge",
        mark=mark,
        stock=job.wall.framing,
        upright=True,
        laid_flat=False,
        x=min(xs),
        z=box.z0,
        behind=min(depths),
        wide=max(xs) - min(xs),
        high=box.z1 - box.z0,
        deep=max(depths) - min(depths),
        length=box.z1 - box.z0,
        ends=(0.0, 0.0),
        ripped=True,
        may_be_offcut=True,
        straightest=False,
        section=section,
        why=Working(
            formula="frame depth x |cot of the corner angle|: the wedge a square end leaves open",
            inputs=(("corner angle", end.angle, "rad"), ("frame depth", job.wall.framing.depth, "mm")),
            source=GEOMETRY,
            value=end.frame.wedge,
            unit="mm",
        ),
    )


def _corner_plates(job: WallJob, box: _Box, inside: Sequence[Rough]) -> tuple[Plate, ...]:
    """Return the triangular plates in the four corners of the frame's back, clear of openings."""
    x0, x1 = box.x0 + PLATE_SETBACK, box.x1 - PLATE_SETBACK
    z0, z1 = box.z0 + PLATE_SETBACK, box.z1 - PLATE_SETBACK
    leg = min(job.corner_plate.width, (x1 - x0) / 2, (z1 - z0) / 2)
    behind = job.wall.sheet.thickness + job.wall.framing.depth
    found: list[Plate] = []
    for name, x, z, dx, dz in (
        ("bottom left", x0, z0, 1, 1),
        ("bottom right", x1, z0, -1, 1),
        ("top right", x1, z1, -1, -1),
        ("top left", x0, z1, 1, -1),
    ):
        free = min([leg, *(_room(o, x, z, dx, dz) for o in inside)])
        if free < 2 * job.wall.framing.width - PLATE_SETBACK:
            continue
        leg_here = snap_down(free, job.grid)
        corner, along, up = (x, z), (x + dx * leg_here, z), (x, z + dz * leg_here)
        outline = (corner, along, up) if dx * dz > 0 else (corner, up, along)
        found.append(
            Plate(
                id=f"{job.wall.name}/{box.name}/corner plate/{name}",
                bracket=job.corner_plate,
                outline=outline,
                behind=behind,
            )
        )
    return tuple(found)


def _room(o: Rough, x: float, z: float, dx: int, dz: int) -> float:
    """Return how long a plate's leg may be before it reaches an opening at its height [mm]."""
    along = (o.left - x) if dx > 0 else (x - o.right)
    up = (o.bottom - z) if dz > 0 else (z - o.top)
    room = max(along, up)
    return math.inf if room > 1e6 else max(room, 0.0)


def _refuse_unframable(job: WallJob, box: _Box, inside: Sequence[Rough]) -> None:
    """Raise for openings that leave no timber to frame them with."""
    problems = [p for o in inside for p in _opening_problems(job, box, o)]
    ordered = sorted(inside, key=lambda o: o.left)
    for a, b in itertools.pairwise(ordered):
        apart = b.left - a.right
        least = 2 * job.wall.framing.width
        level = a.bottom < b.top and b.bottom < a.top
        if level and apart < least - TOUCH:
            problems.append(_unframable(job, b, "its distance from the next opening", apart, least, "Move it"))
    if problems:
        raise InputError(problems)


def _opening_problems(job: WallJob, box: _Box, o: Rough) -> list[Problem]:
    s = job.wall.framing.width
    found: list[Problem] = []
    beside = min(o.left - box.x0, box.x1 - o.right)
    if beside < THINNEST - TOUCH:
        found.append(_unframable(job, o, "the timber beside its rough edge", beside, THINNEST, "Move it inwards"))
    if box.z1 - s - o.top < -TOUCH:
        found.append(_unframable(job, o, "the timber above its rough top", box.z1 - o.top, s, "Lower it"))
    if o.bottom > TOUCH and o.bottom - box.z0 < s - TOUCH:
        found.append(
            _unframable(job, o, "the timber below its rough bottom", o.bottom - box.z0, s, "Raise it or start at 0")
        )
    return found


def _unframable(job: WallJob, o: Rough, what: str, found: float, least: float, remedy: str) -> Problem:
    def show(mm: float) -> str:
        return drawing_length(mm, style=job.grid)

    return Problem(
        place=f'walls "{job.wall.name}" opening "{o.name}"',
        found=f"{what} {show(found)} (lining and gap included)",
        expected=f"at least {show(least)}",
        remedy=f"{remedy}, or give the wall another framing.",
    )
