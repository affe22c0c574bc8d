"""Where a flat's uprights stand: end studs, seams, openings, nailers, and studs between them at the spacing."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.units import snap, snap_down, snap_up

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.model import Role
    from lathlight.carpentry.openings import Rough
    from lathlight.units import LengthStyle

TOUCH = 1e-6
BEARING = 16.0  # what every sheet edge wants under it [mm], common practice
SINGLE = 32.0  # a stud narrower than this is doubled under a seam [mm]: twice the bearing
SHORTEST = 30.0  # uprights shorter than this are left out [mm], common practice
BAY_ENDS: tuple[Role, ...] = ("end stud", "seam stud", "trimmer")  # bays are numbered between these
THINNEST = 10.0  # timber is not ripped thinner than this [mm], common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """One upright before its ends are known, wall axes [mm]."""

    role: Role
    place: str  # last part of the id
    x: float
    width: float
    low: float | None = None  # None: from the bottom plate
    high: float | None = None  # None: to the top plate
    reason: str = ""

    @property
    def centre(self) -> float:
        """Centre line [mm]."""
        return self.x + self.width / 2

    @property
    def end(self) -> float:
        """Right edge [mm]."""
        return self.x + self.width

    @property
    def full(self) -> bool:
        """True where it runs from plate to plate."""
        return self.low is None and self.high is None


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightJob:
    """What the uprights of one flat depend on [mm]."""

    x0: float  # frame's outer edges
    x1: float
    z0: float
    z1: float
    sheet_x0: float  # where the sheets' backs end
    sheet_x1: float
    face_x0: float  # the flat's stretch of the wall's face: studs are spread over it
    face_x1: float
    seams: tuple[tuple[str, float], ...]  # name and place of upright seams inside the flat
    openings: tuple[Rough, ...]
    width: float  # of the stock along the wall
    plate: float  # height of a plate
    spacing: float
    grid: LengthStyle


def place_uprights(job: UprightJob) -> tuple[Upright, ...]:
    """Return all uprights of a flat, from left to right, none overlapping another of the same height."""
    fixed = [*_ends(job), *_trimmers(job)]
    fixed += _nailers(job, fixed)
    for name, x in job.seams:
        fixed += _seam_studs(job, fixed, name, x)
    fixed += _studs_between(job, fixed)
    fixed += _cripples(job, fixed)
    return tuple(sorted(fixed, key=lambda u: (u.x, u.low or 0.0, u.place)))


def near_end(rough: Rough, *, x0: float, x1: float) -> float:
    """Return the least distance from an opening's rough edge to its flat's end [mm]."""
    return min(rough.left - x0, x1 - rough.right)


def _ends(job: UprightJob) -> list[Upright]:
    left = right = job.width
    for o in job.openings:
        if o.left - job.x0 < job.width - TOUCH:
            left = o.left - job.x0
        if job.x1 - o.right < job.width - TOUCH:
            right = job.x1 - o.right
    reason = "closes the flat's end"
    return [
        Upright(role="end stud", place="left", x=job.x0, width=left, reason=reason),
        Upright(role="end stud", place="right", x=job.x1 - right, width=right, reason=reason),
    ]


def _trimmers(job: UprightJob) -> list[Upright]:
    found: list[Upright] = []
    for o in job.openings:
        reason = f"carries the side of {o.name}"
        for side, x, gap in (("left", o.left - job.width, o.left - job.x0), ("right", o.right, job.x1 - o.right)):
            place = f"{o.name} {side}"
            if gap >= 2 * job.width - TOUCH:
                found.append(Upright(role="trimmer", place=place, x=x, width=job.width, reason=reason))
            elif gap - job.width > TOUCH:
                rest = gap - job.width
                at = o.left - rest if side == "left" else o.right
                found.append(
                    Upright(role="packing", place=place, x=at, width=rest, reason=f"fills the end stud up to {o.name}")
                )
    return found


def _nailers(job: UprightJob, fixed: Sequence[Upright]) -> list[Upright]:
    """Return nailers where a sheet's edge would miss the end stud: beside the stud, or else flush with the edge."""
    found: list[Upright] = []
    reason = "backs the sheet's edge, which stops short of the end stud"
    s = job.width
    if job.sheet_x0 > job.x0 + s - BEARING + TOUCH:
        beside = job.x0 + s
        x = beside if beside + s >= job.sheet_x0 + BEARING - TOUCH else snap_up(job.sheet_x0, job.grid)
        found.append(Upright(role="nailer", place="left", x=x, width=s, reason=reason))
    if job.sheet_x1 < job.x1 - s + BEARING - TOUCH:
        beside = job.x1 - 2 * s
        x = beside if beside <= job.sheet_x1 - BEARING + TOUCH else snap_down(job.sheet_x1, job.grid) - s
        found.append(Upright(role="nailer", place="right", x=x, width=s, reason=reason))
    return [n for n in found if not _clashes(n, fixed)]


def _seam_studs(job: UprightJob, fixed: Sequence[Upright], name: str, x: float) -> list[Upright]:
    crossing = [o for o in job.openings if o.left - TOUCH <= x <= o.right + TOUCH]
    if not crossing:
        return _bear(job, fixed, name, x, None, None)
    found: list[Upright] = []
    for label, low, high in _segments(job, crossing):
        found += _bear(job, [*fixed, *found], f"{name} {label}", x, low, high)
    return found


def _segments(job: UprightJob, crossing: Sequence[Rough]) -> list[tuple[str, float | None, float | None]]:
    """Return the stretches of height above and below openings that still have timber to stand on."""
    found: list[tuple[str, float | None, float | None]] = []
    bottom = min(o.bottom for o in crossing)
    top = max(o.top for o in crossing)
    if bottom - job.plate - (job.z0 + job.plate) >= SHORTEST:
        found.append(("below", None, bottom - job.plate))
    if (job.z1 - job.plate) - (top + job.plate) >= SHORTEST:
        found.append(("above", top + job.plate, None))
    return found


def _bear(
    job: UprightJob, fixed: Sequence[Upright], name: str, x: float, low: float | None, high: float | None
) -> list[Upright]:
    """Return the uprights that still have to be added under a seam so that both sheets bear."""
    s = job.width
    reason = "both sheets of a seam bear on it"
    near = [u for u in fixed if u.full or (u.low, u.high) == (low, high)]
    if s >= SINGLE - TOUCH:
        for at in _single_places(x, s, near, snap(x - s / 2, job.grid)):
            single = Upright(role="seam stud", place=name, x=at, width=s, low=low, high=high, reason=reason)
            if not _clashes(single, near) and (low is not None or high is not None or not _in_opening(job, single)):
                return [single]
    found: list[Upright] = []
    for side, at in _across_a_crack(x, s, near):
        bridging = Upright(role="seam stud", place=f"{name} {side}", x=at, width=s, low=low, high=high, reason=reason)
        if not found and not _clashes(bridging, near):
            found.append(bridging)
    for side in ("left", "right"):
        covered = _covered([*near, *found], x, side)
        if covered >= BEARING - TOUCH:
            continue
        edge = x - covered if side == "left" else x + covered
        room = min(s, _room_beside(job, [*near, *found], edge, side, full=low is None and high is None))
        if room >= THINNEST - TOUCH:
            at = edge - room if side == "left" else edge
            found.append(
                Upright(
                    role="seam stud",
                    place=f"{name} {side}" if not found else f"{name} {side} beside",
                    x=snap(at, job.grid),
                    width=room,
                    low=low,
                    high=high,
                    reason=reason,
                )
            )
    return found


def _across_a_crack(x: float, s: float, near: Sequence[Upright]) -> list[tuple[str, float]]:
    """Return where a stud closes a crack between a seam and an upright that is too narrow to be packed [mm]."""
    places = [("left", u.x - s) for u in near if TOUCH < u.x - x < THINNEST]
    places += [("right", u.end) for u in near if TOUCH < x - u.end < THINNEST]
    return places


def _single_places(x: float, s: float, near: Sequence[Upright], centred: float) -> list[float]:
    """Return where one stud would serve both sheets: centred, or against an upright close to the seam [mm]."""
    places = [centred]
    places += [u.x - s for u in near if 0 <= u.x - x <= s - BEARING]
    places += [u.end for u in near if 0 <= x - u.end <= s - BEARING]
    return places


def _in_opening(job: UprightJob, upright: Upright) -> bool:
    return any(upright.x < o.right - TOUCH and upright.end > o.left + TOUCH for o in job.openings)


def _room_beside(job: UprightJob, uprights: Sequence[Upright], edge: float, side: str, *, full: bool) -> float:
    """Return the free length beside an edge up to the next upright, or opening for a full stud [mm]."""
    blocks = [(u.x, u.end) for u in uprights]
    if full:
        blocks += [(o.left, o.right) for o in job.openings]
    gaps = [a - edge if side == "right" else edge - b for a, b in blocks]
    return min((g for g in gaps if g > -TOUCH), default=float("inf"))


def _covered(uprights: Sequence[Upright], x: float, side: str) -> float:
    """Return how far timber runs on from a seam to one side without a break [mm]."""
    reach = x
    for u in sorted(uprights, key=lambda u: u.x, reverse=side == "left"):
        if side == "right" and u.x <= reach + TOUCH < u.end:
            reach = u.end
        if side == "left" and u.end >= reach - TOUCH > u.x:
            reach = u.x
    return abs(reach - x)


def _clashes(one: Upright, others: Sequence[Upright]) -> bool:
    return any(one.x < o.end - TOUCH and one.end > o.x + TOUCH for o in others)


def _studs_between(job: UprightJob, fixed: Sequence[Upright]) -> list[Upright]:
    """Return studs that divide every bay wider than the spacing, spread over the wall's face."""
    found: list[Upright] = []
    full = sorted((u for u in fixed if u.full), key=lambda u: u.x)
    bay = 1
    for left, right in itertools.pairwise(full):
        if right.centre - left.centre > job.spacing + TOUCH and not _is_opening(left, right, job.openings):
            found += _divide(job, left, right, bay)
        bay += right.role in BAY_ENDS
    return found


def _is_opening(left: Upright, right: Upright, openings: Sequence[Rough]) -> bool:
    return any(left.end <= o.left + TOUCH and right.x >= o.right - TOUCH for o in openings)


def _divide(job: UprightJob, left: Upright, right: Upright, bay: int) -> list[Upright]:
    start = job.face_x0 if _at_end(left) else left.centre
    end = job.face_x1 if _at_end(right) else right.centre
    count = math.ceil((right.centre - left.centre) / job.spacing - TOUCH)
    while True:
        centres = [start + (end - start) * k / count for k in range(1, count)]
        chain = [left.centre, *centres, right.centre]
        if max(b - a for a, b in itertools.pairwise(chain)) <= job.spacing + float(job.grid.step):
            break
        count += 1
    middle = (job.face_x0 + job.face_x1) / 2
    places = [_snap_inwards(c - job.width / 2, middle - job.width / 2, job.grid) for c in centres]
    reason = "studs stand no further apart than the spacing"
    studs = [
        Upright(role="stud", place=f"{bay}.{number + 1}", x=x, width=job.width, reason=reason)
        for number, x in enumerate(places)
    ]
    return [u for u in studs if not _clashes(u, [left, right])]


def _at_end(upright: Upright) -> bool:
    return upright.role in ("end stud", "nailer", "packing") and upright.place in ("left", "right")


def _snap_inwards(x: float, middle: float, grid: LengthStyle) -> float:
    """Return the nearest grid place, half a step going towards the middle, so that mirrored flats mirror."""
    step = float(grid.step)
    low, high = snap_down(x, grid), snap_up(x, grid)
    if abs((x - low) - (high - x)) < step * 1e-6:
        return high if x < middle else low
    return low if x - low < high - x else high


def _cripples(job: UprightJob, fixed: Sequence[Upright]) -> list[Upright]:
    """Return the short studs above and below openings, at the spacing, clear of those under seams."""
    found: list[Upright] = []
    for o in job.openings:
        for label, low, high in _segments(job, [o]):
            posts = [u for u in fixed if (u.low, u.high) == (low, high) and o.left <= u.centre <= o.right]
            edges = [o.left - job.width / 2, *sorted(p.centre for p in posts), o.right + job.width / 2]
            places = [
                snap(a + (b - a) * k / count - job.width / 2, job.grid)
                for a, b in itertools.pairwise(edges)
                for count in (math.ceil((b - a) / job.spacing - TOUCH),)
                for k in range(1, count)
            ]
            found += [
                Upright(
                    role="stud",
                    place=f"{o.name} {label} {number + 1}",
                    x=x,
                    width=job.width,
                    low=low,
                    high=high,
                    reason=f"carries the sheet {label} {o.name}",
                )
                for number, x in enumerate(places)
            ]
    return [
        u for u in found if not _clashes(u, [f for f in fixed if not f.full and (f.low, f.high) == (u.low, u.high)])
    ]
