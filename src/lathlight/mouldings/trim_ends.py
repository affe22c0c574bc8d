"""How a piece of trim ends: at a corner, at casing, where flats part, in a scarf, or free.

Decides the kind of end and its plane; where along the wall it stands is told by whoever asks. Every end is cut on one
upright plane: at the wall it stops ``short`` of its station, at the full projection by an inset more.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lathlight.mouldings.mitres import SQUARE_CUT, face_slant, inset, mitre_slant, saw_setting
from lathlight.mouldings.trim_model import LineMeeting, PieceEnd, TrimFinding

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.mouldings.mitres import End
    from lathlight.mouldings.trim_model import EndKind, Moulding, TrimRules, TrimWall

TOUCH = 1e-6  # [mm]
WIDEST_BUTT = math.radians(135)  # above this an end against the neighbour's face is a feather edge; as for laps
SCARF = math.radians(45)  # slant of a scarf: common practice, no source
RETURN = -math.radians(45)  # a return turns the profile by 90 degrees: half of it at the piece's end


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A plane that ends a line, told from its station inwards."""

    kind: EndKind
    slant: float = 0.0  # [rad], positive: longer at the back
    short: float = 0.0  # how far the back stops short of the station [mm]
    against: str = ""
    cope: float = 0.0  # [mm along the wall]
    over: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerCuts:
    """One corner: how its lines meet, the cut of every line by name, and what would go wrong."""

    meetings: tuple[LineMeeting, ...]
    left: dict[str, Cut]  # right-hand ends of the left wall's lines
    right: dict[str, Cut]  # left-hand ends of the right wall's lines
    findings: tuple[TrimFinding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerJob:
    """Two neighbouring walls and their corner."""

    left: TrimWall
    right: TrimWall
    corner: float  # inside angle [rad]
    first: Literal["left", "right"]  # whose piece runs on where one must
    rules: TrimRules


def place_end(cut: Cut, *, line: Moulding, side: End, station: float, rules: TrimRules) -> PieceEnd:
    """Return the end of a piece at a station along the wall [mm]."""
    inwards = 1.0 if side == "left" else -1.0
    saw = saw_setting(slant=cut.slant, end=side, spring=line.spring)
    return PieceEnd(
        kind=cut.kind,
        station=station,
        back=station + inwards * cut.short,
        front=station + inwards * (cut.short + inset(projection=line.projection, slant=cut.slant)),
        slant=cut.slant,
        saw=saw,
        beyond_saw=saw.mitre > rules.swing + SQUARE_CUT,
        against=cut.against,
        cope=cut.cope,
        over=cut.over,
    )


def free_cut(line: Moulding, *, against: str = "") -> Cut:
    """Return the cut of an end that is seen: returned to the wall, or square."""
    if line.free == "square":
        return Cut(kind="square", against=against)
    return Cut(kind="returned", slant=RETURN, short=line.projection, against=against)


def scarf_cuts(line: Moulding, *, right_over: bool) -> tuple[Cut, Cut]:
    """Return the cuts of the left piece's right end and of the right piece's left end.

    The piece nearer to the picture lies over the other, so that the camera does not look into the joint.
    """
    half = line.projection / 2
    under = Cut(kind="scarf", slant=SCARF, short=-half, over=False)
    over = Cut(kind="scarf", slant=-SCARF, short=half, over=True)
    return (under, over) if right_over else (over, under)


# --- corners -----------------------------------------------------------------------------------------------------


def corner_cuts(job: CornerJob) -> CornerCuts:
    """Return how every line of two neighbouring walls ends in their corner."""
    pairs = _pairs(job)
    ends = [_paired(job, a, b) for a, b in pairs]
    met = [a.name for a, _ in pairs], [b.name for _, b in pairs]
    ends += [_alone(job, a, "left") for a in job.left.lines if a.name not in met[0]]
    ends += [_alone(job, b, "right") for b in job.right.lines if b.name not in met[1]]
    return CornerCuts(
        meetings=tuple(m for e in ends for m in e.meetings),
        left={name: cut for e in ends for name, cut in e.left.items()},
        right={name: cut for e in ends for name, cut in e.right.items()},
        findings=tuple(f for e in ends for f in e.findings),
    )


def _pairs(job: CornerJob) -> list[tuple[Moulding, Moulding]]:
    """Pair the lines: by name, then by kind, then by sharing a height."""
    found: list[tuple[Moulding, Moulding]] = []
    left, right = list(job.left.lines), list(job.right.lines)
    tests: tuple[Callable[[Moulding, Moulding], bool], ...] = (
        lambda a, b: a.name == b.name,
        lambda a, b: a.kind == b.kind,
        _overlap,
    )
    for belongs in tests:
        for a in tuple(left):
            b = next((b for b in right if belongs(a, b)), None)
            if b is not None:
                left.remove(a)
                right.remove(b)
                found.append((a, b))
    return found


def _overlap(a: Moulding, b: Moulding) -> bool:
    return a.bottom < b.top - TOUCH and b.bottom < a.top - TOUCH


def _paired(job: CornerJob, a: Moulding, b: Moulding) -> CornerCuts:
    if _miss(a, b) <= TOUCH and a.profile == b.profile:
        return _mated(job, a, b)
    missing = TrimFinding(
        kind="lines miss each other",
        wall=job.left.name,
        line=a.name,
        at=job.left.length,
        found=_miss(a, b),
        limit=0.0,
        unit="mm",
        with_what=f"{job.right.name}/{b.name}",
        answer="",
    )
    return replace(_unmated(job, a, b), findings=(missing,))


def _miss(a: Moulding, b: Moulding) -> float:
    """By how much two lines fail to be one: the largest difference of edges and projection [mm]."""
    return max(abs(a.top - b.top), abs(a.bottom - b.bottom), abs(a.projection - b.projection))


def _mated(job: CornerJob, a: Moulding, b: Moulding) -> CornerCuts:
    """Return the ends of one line that runs round the corner: mitred, or coped where that is wished or needed."""
    slant = mitre_slant(job.corner)
    need = saw_setting(slant=slant, end="left", spring=a.spring).mitre
    beyond = need > job.rules.swing + SQUARE_CUT
    wished = "cope" in (a.inside, b.inside) and slant > 0
    can_butt = slant > 0 and job.corner <= WIDEST_BUTT + SQUARE_CUT
    coped = (wished or beyond) and can_butt and a.profile.coping
    findings: list[TrimFinding] = []
    if beyond:
        answer = "coped" if coped else "cut by hand to the line"
        findings.append(_angle_finding(job, a, "mitre beyond the saw", need, answer))
    if (wished or beyond) and slant > 0 and not a.profile.coping:
        findings.append(_angle_finding(job, a, "cope impossible", need, "mitred"))
    if coped:
        return replace(_coped(job, a, b), findings=tuple(findings))
    kind: EndKind = "inside mitre" if slant >= 0 else "outside mitre"
    return CornerCuts(
        meetings=(_meeting(job, a, b, "mitre", first=False),),
        left={a.name: Cut(kind=kind, slant=slant, against=job.right.name)},
        right={b.name: Cut(kind=kind, slant=slant, against=job.left.name)},
        findings=tuple(findings),
    )


def _angle_finding(
    job: CornerJob, a: Moulding, kind: Literal["mitre beyond the saw", "cope impossible"], need: float, answer: str
) -> TrimFinding:
    return TrimFinding(
        kind=kind,
        wall=job.left.name,
        line=a.name,
        at=job.left.length,
        found=need,
        limit=job.rules.swing,
        unit="rad",
        with_what=job.right.name,
        answer=answer,
    )


def _meeting(
    job: CornerJob,
    a: Moulding | None,
    b: Moulding | None,
    how: Literal["mitre", "cope", "slides past", "clear of each other", "ends alone"],
    *,
    first: bool,
    note: str = "",
) -> LineMeeting:
    return LineMeeting(
        left=job.left.name,
        right=job.right.name,
        left_line=None if a is None else a.name,
        right_line=None if b is None else b.name,
        corner=job.corner,
        how=how,
        first=(job.left.name if job.first == "left" else job.right.name) if first else None,
        note=note,
    )


def _coped(job: CornerJob, a: Moulding, b: Moulding) -> CornerCuts:
    """Return a through end on the first wall; the other's blank is cut to the neighbour's face and coped back."""
    deep = a.projection / math.sin(job.corner)
    slant = face_slant(job.corner)
    through = Cut(kind="against the wall", slant=slant)
    other = Cut(kind="cope", slant=slant, cope=deep)
    return _ordered(job, a, b, through, other, _meeting(job, a, b, "cope", first=True))


def _ordered(job: CornerJob, a: Moulding, b: Moulding, through: Cut, other: Cut, meeting: LineMeeting) -> CornerCuts:
    left, right = (through, other) if job.first == "left" else (other, through)
    return CornerCuts(
        meetings=(meeting,),
        left={a.name: replace(left, against=job.right.name)},
        right={b.name: replace(right, against=job.left.name)},
        findings=(),
    )


def _unmated(job: CornerJob, a: Moulding, b: Moulding) -> CornerCuts:
    """Return the ends of two lines that are not one: clear of each other, or one slides past and the other stops."""
    if not _overlap(a, b):
        return CornerCuts(
            meetings=(_meeting(job, a, b, "clear of each other", first=False),),
            left={a.name: _lone_cut(job, a, job.right.name)},
            right={b.name: _lone_cut(job, b, job.left.name)},
            findings=(),
        )
    if job.corner > math.pi:
        return CornerCuts(
            meetings=(_meeting(job, a, b, "clear of each other", first=False),),
            left={a.name: free_cut(a)},
            right={b.name: free_cut(b)},
            findings=(),
        )
    if job.corner > WIDEST_BUTT + SQUARE_CUT:
        slant = mitre_slant(job.corner)
        return CornerCuts(
            meetings=(_meeting(job, a, b, "mitre", first=False, note="both stop at the plane that halves the corner"),),
            left={a.name: Cut(kind="inside mitre", slant=slant, against=job.right.name)},
            right={b.name: Cut(kind="inside mitre", slant=slant, against=job.left.name)},
            findings=(),
        )
    ahead = a if job.first == "left" else b
    slant = face_slant(job.corner)
    through = Cut(kind="against the wall", slant=slant)
    other = Cut(kind="against the line", slant=slant, short=ahead.projection / math.sin(job.corner))
    return _ordered(job, a, b, through, other, _meeting(job, a, b, "slides past", first=True))


def _lone_cut(job: CornerJob, line: Moulding, other: str) -> Cut:
    """Return the end of a line that meets no other: against the neighbour's face, or free where none faces it."""
    if job.corner > WIDEST_BUTT + SQUARE_CUT:
        return free_cut(line)
    return Cut(kind="against the wall", slant=face_slant(job.corner), against=other)


def _alone(job: CornerJob, line: Moulding, side: End) -> CornerCuts:
    if side == "left":
        meeting = _meeting(job, line, None, "ends alone", first=False)
        return CornerCuts(
            meetings=(meeting,), left={line.name: _lone_cut(job, line, job.right.name)}, right={}, findings=()
        )
    meeting = _meeting(job, None, line, "ends alone", first=False)
    return CornerCuts(meetings=(meeting,), left={}, right={line.name: _lone_cut(job, line, job.left.name)}, findings=())
