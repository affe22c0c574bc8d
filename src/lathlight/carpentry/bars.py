"""The level timber of a flat between its plates: headers, sills, noggins under seams, backing behind lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry.uprights import BEARING, SINGLE, TOUCH, UprightJob
from lathlight.units import snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import Role
    from lathlight.carpentry.openings import Rough
    from lathlight.carpentry.uprights import Upright
    from lathlight.catalog import Lumber

TRIM_SPAN = 610.0  # trim wants backing where uprights are further apart [mm] (24 in), common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class BackedLine:
    """A level line that needs timber behind it over a stretch of the wall [mm]."""

    name: str
    z: float  # its middle
    x0: float
    x1: float
    load: bool  # True: carries weight, backed whatever the spacing


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameJob:
    """What the frame of one flat depends on."""

    wall: str
    flat: str
    uprights: UprightJob
    seams: tuple[tuple[str, float], ...]  # level seams inside the flat: name, height [mm]
    lines: tuple[BackedLine, ...]
    stock: Lumber
    behind: float  # sheet thickness [mm]
    kerf: float
    trim_cut: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One level member before it is named [mm]."""

    role: Role
    place: str
    x: float
    z: float
    length: float
    high: float
    ripped: bool
    reason: str


def level_bars(job: FrameJob, uprights: Sequence[Upright]) -> Iterable[Bar]:
    """Yield headers, sills and noggins."""
    taken = [bar for o in job.uprights.openings for bar in _opening_bars(job, o)]
    yield from taken
    for bar in _seam_noggins(job, uprights, tuple(taken)):
        taken.append(bar)
        yield bar
    for bar in _backings(job, uprights):
        if not any(_overlap(bar, other) for other in taken):
            taken.append(bar)
            yield bar


def _opening_bars(job: FrameJob, o: Rough) -> Iterable[Bar]:
    u, s = job.uprights, job.stock.width
    room_above = u.z1 - s - o.top
    if room_above > TOUCH:
        yield Bar(
            role="header" if room_above >= s - TOUCH else "packing",
            place=o.name if room_above >= s - TOUCH else f"{o.name} above",
            x=o.left,
            z=o.top,
            length=o.right - o.left,
            high=min(s, room_above),
            ripped=room_above < s - TOUCH,
            reason=f"closes the top of {o.name}",
        )
    room_below = o.bottom - (u.z0 + s)
    if o.bottom > TOUCH and room_below > TOUCH:
        high = min(s, room_below)
        yield Bar(
            role="sill" if room_below >= s - TOUCH else "packing",
            place=o.name if room_below >= s - TOUCH else f"{o.name} below",
            x=o.left,
            z=o.bottom - high,
            length=o.right - o.left,
            high=high,
            ripped=room_below < s - TOUCH,
            reason=f"closes the bottom of {o.name}",
        )


def _seam_noggins(job: FrameJob, uprights: Sequence[Upright], fixed: Sequence[Bar]) -> Iterable[Bar]:
    """Yield noggins under level seams, bay by bay, beside what a header or sill already carries."""
    for name, z in job.seams:
        for bay, (a, b) in enumerate(_bays(job, uprights, z)):
            near = [bar for bar in fixed if bar.x < b - TOUCH and bar.x + bar.length > a + TOUCH]
            for suffix, low, high in _level_bearing(job, z, near, (a, b)):
                for part, (left, right) in enumerate(_bays(job, uprights, low + high / 2, within=(a, b))):
                    yield Bar(
                        role="seam noggin",
                        place=f"{name} bay {bay + 1}{suffix}{'' if part == 0 else f' part {part + 1}'}",
                        x=left,
                        z=low,
                        length=right - left,
                        high=high,
                        ripped=high < job.stock.width - TOUCH,
                        reason="both sheets of a level seam bear on it",
                    )


def _level_bearing(
    job: FrameJob, z: float, near: Sequence[Bar], bay: tuple[float, float]
) -> list[tuple[str, float, float]]:
    """Return (suffix, bottom, height) of the noggins that a seam still needs in one bay [mm]."""
    s = job.stock.width
    if s >= SINGLE - TOUCH:
        for low in _single_places(z, s, near, snap(z - s / 2, job.uprights.grid)):
            if _is_free(low, s, near):
                return [("", low, s)]
    found: list[tuple[str, float, float]] = []
    below, above = _reach(z, near, down=True), _reach(z, near, down=False)
    holes = [o for o in job.uprights.openings if o.left < bay[1] - TOUCH and o.right > bay[0] + TOUCH]
    if z - below < BEARING - TOUCH and not any(o.top >= below - TOUCH > o.bottom for o in holes):
        found.append((" lower", below - s, s))
    if above - z < BEARING - TOUCH and not any(o.bottom <= above + TOUCH < o.top for o in holes):
        found.append((" upper", above, s))
    return [(suffix, low, high) for suffix, low, high in found if _is_free(low, high, near)]


def _single_places(z: float, s: float, near: Sequence[Bar], centred: float) -> list[float]:
    """Return where one noggin would serve both sheets: centred, or against a bar close to the seam [mm]."""
    places = [centred]
    places += [bar.z - s for bar in near if 0 <= bar.z - z <= s - BEARING]
    places += [bar.z + bar.high for bar in near if 0 <= z - bar.z - bar.high <= s - BEARING]
    return places


def _reach(z: float, near: Sequence[Bar], *, down: bool) -> float:
    """Return how far timber runs on from a height, downwards or upwards, without a break [mm]."""
    at = z
    for bar in sorted(near, key=lambda b: b.z, reverse=down):
        if bar.z - TOUCH <= at <= bar.z + bar.high + TOUCH:
            at = min(at, bar.z) if down else max(at, bar.z + bar.high)
    return at


def _is_free(low: float, high: float, near: Sequence[Bar]) -> bool:
    return not any(bar.z < low + high - TOUCH and bar.z + bar.high > low + TOUCH for bar in near)


def _backings(job: FrameJob, uprights: Sequence[Upright]) -> Iterable[Bar]:
    """Yield noggins behind lines that carry load, and behind trim where uprights stand too far apart for it."""
    s = job.stock.width
    for line in job.lines:
        low = snap(line.z - s / 2, job.uprights.grid)
        if not job.uprights.z0 + s <= low <= job.uprights.z1 - 2 * s:
            continue
        for bay, (a, b) in enumerate(_bays(job, uprights, line.z)):
            outside = b <= line.x0 + TOUCH or a >= line.x1 - TOUCH
            if outside or not (line.load or b - a + s > TRIM_SPAN + TOUCH):
                continue
            yield Bar(
                role="backing",
                place=f"{line.name} bay {bay + 1}",
                x=a,
                z=low,
                length=b - a,
                high=s,
                ripped=False,
                reason=f"carries {line.name}" if line.load else f"backs {line.name} between uprights",
            )


def _bays(
    job: FrameJob, uprights: Sequence[Upright], z: float, *, within: tuple[float, float] | None = None
) -> list[tuple[float, float]]:
    """Return the clear spaces between uprights at a height, openings left out, within a stretch if given [mm]."""
    u, s = job.uprights, job.stock.width
    standing = [
        (p.x, p.end)
        for p in uprights
        if (p.low if p.low is not None else u.z0 + s) < z < (p.high if p.high is not None else u.z1 - s)
    ]
    holes = [(o.left, o.right) for o in u.openings if o.bottom < z < o.top]
    blocks = sorted([*standing, *holes])
    bays: list[tuple[float, float]] = []
    reach = blocks[0][1]
    for a, b in blocks[1:]:
        if a - reach >= BEARING:
            bays.append((reach, a))
        reach = max(reach, b)
    if within is None:
        return bays
    cut = [(max(a, within[0]), min(b, within[1])) for a, b in bays]
    return [(a, b) for a, b in cut if b - a >= BEARING]


def _overlap(one: Bar, other: Bar) -> bool:
    return (
        one.x < other.x + other.length - TOUCH
        and other.x < one.x + one.length - TOUCH
        and one.z < other.z + other.high - TOUCH
        and other.z < one.z + one.high - TOUCH
    )
