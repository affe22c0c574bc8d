"""The timber of one flat: plates, uprights, headers, sills and noggins, with whole pieces wherever they serve.

Frames stand on edge: a member's width lies along the wall, its depth behind the sheet. Either the plates or the end
studs run through, whichever needs fewer saw cuts, noggins included, then less timber; a tie goes to the plates.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lathlight.carpentry.model import Member
from lathlight.carpentry.packing import Boards, fits_whole, pack_boards
from lathlight.carpentry.uprights import BEARING, SINGLE, TOUCH, UprightJob, place_uprights
from lathlight.units import snap
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import Role
    from lathlight.carpentry.openings import Rough
    from lathlight.carpentry.uprights import Upright
    from lathlight.catalog import Lumber

Through = Literal["plates", "end studs"]
TRIM_SPAN = (
    610.0  # a trim line wants backing where uprights stand further apart than this [mm] (24 in), common practice
)
STRAIGHT: tuple[Role, ...] = ("end stud", "seam stud", "trimmer")  # where a bow would show in the face or at a joint


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The timber of a flat, and how it was decided."""

    through: Through
    members: tuple[Member, ...]
    why: Working


def frame_flat(job: FrameJob) -> Frame:
    """Return the timber of one flat; wedges at the corners are left to the walls."""
    uprights = place_uprights(job.uprights)
    bars = tuple(_bars(job, uprights))
    plans: dict[Through, Boards] = {
        "plates": _boards(job, uprights, bars, "plates"),
        "end studs": _boards(job, uprights, bars, "end studs"),
    }
    through = _chosen(plans)
    members = [*_plates(job, uprights, through), *_upright_members(job, uprights, through), *_bar_members(job, bars)]
    return Frame(through=through, members=_marked(members), why=_why(job, plans, through))


def _chosen(plans: dict[Through, Boards]) -> Through:
    score = {way: (plan.cuts, plan.length * len(plan.items)) for way, plan in plans.items()}
    return "end studs" if score["end studs"] < score["plates"] else "plates"


def _boards(job: FrameJob, uprights: Sequence[Upright], bars: Sequence[Bar], through: Through) -> Boards:
    lengths = [m.length for m in _plates(job, uprights, through)]
    lengths += [_upright_length(job, u, through) for u in uprights]
    lengths += [b.length for b in bars]
    return pack_boards(lengths, stock=job.stock.lengths, kerf=job.kerf, trim_cut=job.trim_cut)


def _why(job: FrameJob, plans: dict[Through, Boards], through: Through) -> Working:
    def timber(way: Through) -> float:
        return plans[way].length * len(plans[way].items)

    return Working(
        formula="plates or end studs run through: fewer saw cuts, then less timber, a tie to the plates",
        inputs=(
            ("cuts with plates through", plans["plates"].cuts, ""),
            ("cuts with end studs through", plans["end studs"].cuts, ""),
            ("timber with plates through", timber("plates"), "mm"),
            ("timber with end studs through", timber("end studs"), "mm"),
            ("width of a cut", job.kerf, "mm"),
        ),
        source=COMMON_PRACTICE,
        value=f"{through} through",
    )


def _ends(uprights: Sequence[Upright]) -> tuple[Upright, Upright]:
    left = next(u for u in uprights if u.role == "end stud" and u.place == "left")
    right = next(u for u in uprights if u.role == "end stud" and u.place == "right")
    return left, right


def _plates(job: FrameJob, uprights: Sequence[Upright], through: Through) -> list[Member]:
    u, s = job.uprights, job.stock.width
    left, right = _ends(uprights)
    x0, x1 = (u.x0, u.x1) if through == "plates" else (left.end, right.x)
    top = Bar(
        role="top plate", place="1", x=x0, z=u.z1 - s, length=x1 - x0, high=s, ripped=False, reason="closes the top"
    )
    doors = [o for o in u.openings if o.to_floor and u.z0 <= TOUCH]
    edges = [x0, *(e for o in doors for e in (o.left, o.right)), x1]
    bottoms = [
        Bar(
            role="bottom plate",
            place=str(i + 1),
            x=a,
            z=u.z0,
            length=b - a,
            high=s,
            ripped=False,
            reason="carries the uprights; cut out at a door" if doors else "carries the uprights",
        )
        for i, (a, b) in enumerate(zip(edges[::2], edges[1::2], strict=True))
        if b - a > TOUCH
    ]
    between = () if through == "plates" else (("between end studs", 2.0, ""),)
    return [_bar_member(job, bar, between) for bar in (*bottoms, top)]


def _upright_length(job: FrameJob, upright: Upright, through: Through) -> float:
    low, high = _upright_span(job, upright, through)
    return high - low


def _upright_span(job: FrameJob, upright: Upright, through: Through) -> tuple[float, float]:
    u, s = job.uprights, job.stock.width
    if upright.role == "end stud" and through == "end studs":
        return u.z0, u.z1
    low = u.z0 + s if upright.low is None else upright.low
    high = u.z1 - s if upright.high is None else upright.high
    return low, high


def _upright_members(job: FrameJob, uprights: Sequence[Upright], through: Through) -> Iterable[Member]:
    s = job.stock
    for upright in uprights:
        low, high = _upright_span(job, upright, through)
        whole = upright.role == "end stud" and through == "end studs"
        formula = "the flat's whole height" if whole else "height less the members above and below"
        yield Member(
            id=f"{job.wall}/{job.flat}/{upright.role}/{upright.place}",
            wall=job.wall,
            flat=job.flat,
            role=upright.role,
            mark="",
            stock=s,
            upright=True,
            laid_flat=False,
            x=upright.x,
            z=low,
            behind=job.behind,
            wide=upright.width,
            high=high - low,
            deep=s.depth,
            length=high - low,
            ends=(0.0, 0.0),
            ripped=upright.width < s.width - TOUCH,
            may_be_offcut=upright.role in ("nailer", "packing"),
            straightest=upright.role in STRAIGHT and upright.full,
            section=None,
            why=Working(
                formula=f"{formula}; it {upright.reason}",
                inputs=(("from", low, "mm"), ("to", high, "mm"), ("left edge", upright.x, "mm")),
                source=GEOMETRY,
                value=high - low,
                unit="mm",
            ),
        )


def _bars(job: FrameJob, uprights: Sequence[Upright]) -> Iterable[Bar]:
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


def _bar_members(job: FrameJob, bars: Sequence[Bar]) -> Iterable[Member]:
    return (_bar_member(job, bar, ()) for bar in bars)


def _bar_member(job: FrameJob, bar: Bar, more: tuple[tuple[str, float | str, str], ...]) -> Member:
    return Member(
        id=f"{job.wall}/{job.flat}/{bar.role}/{bar.place}",
        wall=job.wall,
        flat=job.flat,
        role=bar.role,
        mark="",
        stock=job.stock,
        upright=False,
        laid_flat=False,
        x=bar.x,
        z=bar.z,
        behind=job.behind,
        wide=bar.length,
        high=bar.high,
        deep=job.stock.depth,
        length=bar.length,
        ends=(0.0, 0.0),
        ripped=bar.ripped,
        may_be_offcut=bar.role in ("packing", "backing"),
        straightest=False,
        section=None,
        why=Working(
            formula=f"right end less left end; it {bar.reason}",
            inputs=(("left end", bar.x, "mm"), ("right end", bar.x + bar.length, "mm"), *more),
            source=GEOMETRY,
            value=bar.length,
            unit="mm",
        ),
    )


def _marked(members: Sequence[Member]) -> tuple[Member, ...]:
    """Return the members with letters: equal pieces share one, in the order plates, studs, the rest."""
    letters: dict[tuple[float, float, float], str] = {}
    marked: list[Member] = []
    for member in members:
        key = (member.length, min(member.wide, member.high), member.deep)
        if key not in letters:
            letters[key] = letter(len(letters))
        marked.append(replace(member, mark=letters[key]))
    return tuple(marked)


def letter(index: int) -> str:
    """Return A to Z, then AA, AB and so on; I and O are left out, as they read like figures.

    Examples
    --------
    >>> [letter(i) for i in (0, 8, 23, 24)]
    ['A', 'J', 'Z', 'AA']
    """
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    if index < len(letters):
        return letters[index]
    return letter(index // len(letters) - 1) + letter(index % len(letters))


def is_whole(member: Member) -> bool:
    """Return True where the member is a stock length that needs no cut."""
    return fits_whole(member.length, member.stock.lengths)
