"""One line on one wall, cut into runs and pieces.

A run goes from corner, casing or free end to the next. It is cut where flats are taken apart, unless the line is loose,
and joined with scarfs where a stretch is longer than the stock. Every length is put on the grid once, here.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from lathlight.mouldings.casing import stretches
from lathlight.mouldings.scarfs import ScarfJob, place_scarfs
from lathlight.mouldings.trim_ends import Cut, free_cut, place_end, scarf_cuts
from lathlight.mouldings.trim_model import TrimFinding, TrimPiece, TrimRun
from lathlight.units import snap
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.mouldings.casing import Stretch
    from lathlight.mouldings.trim_model import CasedOpening, Moulding, Parting, PieceEnd, TrimRules, TrimWall

TOUCH = 1e-6  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineJob:
    """One line on one wall; how it ends at the wall's corners, None at a free end."""

    wall: TrimWall
    line: Moulding
    left: Cut | None
    right: Cut | None
    rules: TrimRules


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePieces:
    """Runs and pieces of one line on one wall, left to right."""

    runs: tuple[TrimRun, ...]
    pieces: tuple[TrimPiece, ...]
    findings: tuple[TrimFinding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Node:
    """A place where one piece ends and the next begins: the ends on both sides of it."""

    before: PieceEnd | None  # right-hand end of the piece to its left
    after: PieceEnd | None


def cut_line(job: LineJob) -> LinePieces:
    """Return the line's runs and pieces on this wall."""
    runs: list[TrimRun] = []
    pieces: list[TrimPiece] = []
    findings: list[TrimFinding] = []
    for stretch in stretches(job.wall, job.line):
        new = tuple(_piece(job, a, b, len(pieces) + k) for k, (a, b) in enumerate(_ends(job, stretch, findings), 1))
        pieces += new
        runs.append(
            TrimRun(
                wall=job.wall.name,
                line=job.line.name,
                start=stretch.start,
                end=stretch.end,
                pieces=tuple(p.id for p in new),
            )
        )
    return LinePieces(runs=tuple(runs), pieces=tuple(pieces), findings=tuple(findings))


def parts_line(parting: Parting, line: Moulding) -> bool:
    """Whether an upright joint that is taken apart crosses the line."""
    return parting.upright and parting.low < line.top - TOUCH and line.bottom < parting.high - TOUCH


def _ends(job: LineJob, stretch: Stretch, findings: list[TrimFinding]) -> Iterator[tuple[PieceEnd, PieceEnd]]:
    """Yield the two ends of every piece of a stretch, left to right."""
    nodes = _parted(job, stretch)
    for a, b in pairwise(nodes):
        assert a.after is not None
        assert b.before is not None  # only the outermost nodes are one-sided
        inner = _scarfed(job, a.after, b.before, findings)
        for c, d in pairwise([a, *inner, b]):
            assert c.after is not None
            assert d.before is not None
            if _has_room(c.after, d.before):
                yield c.after, d.before
            else:
                findings.append(_no_room(job, c.after, d.before))


def _parted(job: LineJob, stretch: Stretch) -> list[_Node]:
    """Return the stretch's ends and the joints of flats within it."""
    line, rules = job.line, job.rules
    first = _outer_cut(job, stretch.left, job.left)
    last = _outer_cut(job, stretch.right, job.right)
    joints = sorted(
        {
            p.at
            for p in job.wall.partings
            if not line.loose and parts_line(p, line) and stretch.start + TOUCH < p.at < stretch.end - TOUCH
        }
    )
    square = Cut(kind="at a joint")
    return [
        _Node(before=None, after=place_end(first, line=line, side="left", station=stretch.start, rules=rules)),
        *(
            _Node(
                before=place_end(square, line=line, side="right", station=x, rules=rules),
                after=place_end(square, line=line, side="left", station=x, rules=rules),
            )
            for x in joints
        ),
        _Node(before=place_end(last, line=line, side="right", station=stretch.end, rules=rules), after=None),
    ]


def _outer_cut(job: LineJob, opening: CasedOpening | None, corner: Cut | None) -> Cut:
    if opening is None:
        return free_cut(job.line) if corner is None else corner
    if opening.casing > 0:
        return Cut(kind="against casing", against=opening.name)
    return free_cut(job.line, against=opening.name)


def _scarfed(job: LineJob, a: PieceEnd, b: PieceEnd, findings: list[TrimFinding]) -> list[_Node]:
    """Return the scarfs between two ends."""
    wall, line = job.wall, job.line
    longest = max(line.profile.lengths) - job.rules.trim_cut
    places = place_scarfs(
        ScarfJob(
            start=a.station,
            end=b.station,
            before=a.station - min(a.back, a.front),
            beyond=max(b.back, b.front) - b.station,
            longest=longest,
            overlap=line.projection,
            studs=wall.studs,
            middles=wall.middles,
            grid=job.rules.grid,
        )
    )
    if places is None:
        need = max(b.back, b.front) - min(a.back, a.front)
        findings.append(
            _finding(job, "no stock long enough", a, found=need, limit=longest, with_what=line.profile.name)
        )
    return [_scarf(job, x) for x in places or ()]


def _has_room(left: PieceEnd, right: PieceEnd) -> bool:
    return min(right.back, right.front) - max(left.back, left.front) > TOUCH


def _no_room(job: LineJob, left: PieceEnd, right: PieceEnd) -> TrimFinding:
    """Return that two ends need more of the wall than there is between them."""
    between = right.station - left.station
    short = min(right.back, right.front) - max(left.back, left.front)
    return _finding(
        job, "no room for a piece", left, found=between, limit=between - short, with_what=left.against or left.kind
    )


def _finding(
    job: LineJob,
    kind: Literal["no stock long enough", "no room for a piece"],
    end: PieceEnd,
    *,
    found: float,
    limit: float,
    with_what: str,
) -> TrimFinding:
    return TrimFinding(
        kind=kind,
        wall=job.wall.name,
        line=job.line.name,
        at=end.station,
        found=found,
        limit=limit,
        unit="mm",
        with_what=with_what,
        answer="",
    )


def _scarf(job: LineJob, place: float) -> _Node:
    seen_from = min(job.wall.middles, key=lambda m: (abs(m.at - place), m.at), default=None)
    towards = job.wall.length / 2 if seen_from is None else seen_from.at
    before, after = scarf_cuts(job.line, right_over=towards > place)
    return _Node(
        before=place_end(before, line=job.line, side="right", station=place, rules=job.rules),
        after=place_end(after, line=job.line, side="left", station=place, rules=job.rules),
    )


def _piece(job: LineJob, left: PieceEnd, right: PieceEnd, number: int) -> TrimPiece:
    line, grid = job.line, job.rules.grid
    return TrimPiece(
        id=f"{job.wall.name}/{line.name}/{number}",
        wall=job.wall.name,
        line=line.name,
        kind=line.kind,
        profile=line.profile,
        top=line.top,
        bottom=line.bottom,
        left=left,
        right=right,
        long_point=snap(max(right.back, right.front) - min(left.back, left.front), grid),
        short_point=snap(min(right.back, right.front) - max(left.back, left.front), grid),
        back=snap(right.back - left.back, grid),
        front=snap(right.front - left.front, grid),
        loose=line.loose,
        note=_note(job, left, right),
        why=Working(
            formula="along the wall from end to end, each end's cut added to or taken from it: "
            "projection times the tangent of the cut's angle",
            inputs=(
                ("along the wall", right.station - left.station, "mm"),
                ("projection", line.projection, "mm"),
                ("cut at the left end, from square", left.slant, "rad"),
                ("cut at the right end, from square", right.slant, "rad"),
            ),
        ),
    )


def _note(job: LineJob, left: PieceEnd, right: PieceEnd) -> str:
    words: list[str] = []
    if job.line.kind == "base":
        words.append("stands on the floor covering, fixed last")
    if any(parts_line(p, job.line) and left.station < p.at < right.station for p in job.wall.partings):
        words.append("loose: comes off before the flats part")
    words += [
        f"{side} end coped to the line on {end.against}"
        for side, end in (("left", left), ("right", right))
        if end.kind == "cope"
    ]
    return "; ".join(words)
