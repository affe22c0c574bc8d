"""The timber of one flat: plates, uprights, headers, sills and noggins, with whole pieces wherever they serve.

Frames stand on edge: a member's width lies along the wall, its depth behind the sheet. Either the plates or the end
studs run through, whichever needs fewer saw cuts, noggins included, then less timber; a tie goes to the plates.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lathlight.carpentry.bars import Bar, level_bars
from lathlight.carpentry.model import Member
from lathlight.carpentry.packing import Boards, pack_boards
from lathlight.carpentry.uprights import TOUCH, place_uprights
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.bars import FrameJob
    from lathlight.carpentry.model import Role
    from lathlight.carpentry.uprights import Upright

Through = Literal["plates", "end studs"]
STRAIGHT: tuple[Role, ...] = ("end stud", "seam stud", "trimmer")  # where a bow would show in the face or at a joint


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The timber of a flat, and how it was decided."""

    through: Through
    members: tuple[Member, ...]
    why: Working


def frame_flat(job: FrameJob) -> Frame:
    """Return the timber of one flat; wedges at the corners are left to the walls."""
    uprights = place_uprights(job.uprights)
    bars = tuple(level_bars(job, uprights))
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
