"""What about the trim of one wall would go wrong: figures only, the words are left to ``lathlight.snags``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from lathlight.mouldings.casing import met_thickness, stretches
from lathlight.mouldings.scarfs import near_middle
from lathlight.mouldings.trim_model import TrimFinding

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.trim_model import FindingKind, Moulding, PieceEnd, TrimPiece, TrimRules, TrimWall

TOUCH = 1e-6  # [mm]
LEAST_PIECE, LEAST_PIECE_US = 50.0, 50.8  # along the wall [mm], 2 in: common practice, no source
LEAST_PROJECTIONS = 3.0  # and so many times what it stands out: common practice, no source
MET_AT_CORNER = ("inside mitre", "outside mitre")  # told once a corner, where the corner is known


def line_findings(wall: TrimWall, line: Moulding, pieces: Sequence[TrimPiece], rules: TrimRules) -> list[TrimFinding]:
    """Return what would go wrong with one line on one wall."""
    return [
        *_casing(wall, line),
        *_level_joints(wall, line),
        *_seen_joints(wall, line, pieces),
        *_slivers(line, pieces, rules),
        *_saw(line, pieces, rules),
        *_base(wall, line, rules),
    ]


def foot_depth(line: Moulding) -> float:
    """How far the moulding's underside stands out from the wall [mm]."""
    lowest = min(up for _, up in line.profile.points)
    return max(out for out, up in line.profile.points if up <= lowest + 0.01)  # the tables are written to 0.01 mm


def _finding(
    kind: FindingKind,
    wall: str,
    line: str,
    *,
    at: float,
    found: float,
    limit: float,
    with_what: str,
    unit: Literal["mm", "rad", ""] = "mm",
    answer: str = "",
) -> TrimFinding:
    return TrimFinding(
        kind=kind, wall=wall, line=line, at=at, found=found, limit=limit, unit=unit, with_what=with_what, answer=answer
    )


def _casing(wall: TrimWall, line: Moulding) -> Iterator[TrimFinding]:
    """Yield each opening whose casing or block the line dies into and stands out from."""
    told: set[str] = set()
    for stretch in stretches(wall, line):
        for opening in (stretch.left, stretch.right):
            if opening is None or opening.casing <= 0 or opening.name in told:
                continue
            told.add(opening.name)
            thickness = met_thickness(opening, line)
            if line.projection > thickness + TOUCH:
                yield _finding(
                    "trim thicker than casing",
                    wall.name,
                    line.name,
                    at=stretch.start if opening is stretch.left else stretch.end,
                    found=line.projection,
                    limit=thickness,
                    with_what=opening.name,
                )


def _level_joints(wall: TrimWall, line: Moulding) -> Iterator[TrimFinding]:
    """Yield each level joint that a fixed line lies across."""
    if line.loose:
        return
    for parting in wall.partings:
        if parting.upright or not line.bottom + TOUCH < parting.at < line.top - TOUCH:
            continue
        crossed = any(s.start < parting.high - TOUCH and parting.low < s.end - TOUCH for s in stretches(wall, line))
        if crossed:
            yield _finding(
                "trim across a joint that parts",
                wall.name,
                line.name,
                at=(parting.low + parting.high) / 2,
                found=min(line.top - parting.at, parting.at - line.bottom),
                limit=0.0,
                with_what="level joint",
            )


def _seen_joints(wall: TrimWall, line: Moulding, pieces: Sequence[TrimPiece]) -> Iterator[TrimFinding]:
    """Yield each joint of a run that lies where a picture sees it first."""
    for piece in pieces:
        if piece.right.kind not in ("at a joint", "scarf"):
            continue
        place = piece.right.station
        seen = near_middle(place, wall.middles)
        if seen is not None:
            yield _finding(
                "joint in mid-picture",
                wall.name,
                line.name,
                at=place,
                found=abs(place - seen.at),
                limit=seen.clear,
                with_what=seen.picture,
            )


def _slivers(line: Moulding, pieces: Sequence[TrimPiece], rules: TrimRules) -> Iterator[TrimFinding]:
    """Yield each piece, as between a joint and casing, that is too short to be cut and fixed well."""
    least = LEAST_PIECE if rules.grid.system == "metric" else LEAST_PIECE_US
    limit = max(least, LEAST_PROJECTIONS * line.projection)
    for piece in pieces:
        if piece.end - piece.start < limit - TOUCH:
            yield _finding(
                "sliver of a piece",
                piece.wall,
                line.name,
                at=piece.start,
                found=piece.end - piece.start,
                limit=limit,
                with_what=piece.left.against or piece.right.against or piece.left.kind,
            )


def _saw(line: Moulding, pieces: Sequence[TrimPiece], rules: TrimRules) -> Iterator[TrimFinding]:
    """Yield each end, other than a corner's mitre, that the saw does not swing to."""
    ends: list[tuple[TrimPiece, PieceEnd]] = [(p, e) for p in pieces for e in (p.left, p.right)]
    for piece, end in ends:
        if end.beyond_saw and end.kind not in MET_AT_CORNER:
            yield _finding(
                "mitre beyond the saw",
                piece.wall,
                line.name,
                at=end.station,
                found=end.saw.mitre,
                limit=rules.swing,
                unit="rad",
                with_what=end.against or end.kind,
                answer="cut by hand to the line",
            )


def _base(wall: TrimWall, line: Moulding, rules: TrimRules) -> Iterator[TrimFinding]:
    """Yield a base that does not stand on the floor, or not on the covering beyond its gap."""
    if line.kind != "base":
        return
    if line.bottom > rules.floor + TOUCH:
        yield _finding(
            "base off the floor",
            wall.name,
            line.name,
            at=0.0,
            found=line.bottom - rules.floor,
            limit=0.0,
            with_what="finished floor",
        )
    if rules.floor_gap > 0 and foot_depth(line) <= rules.floor_gap + TOUCH:
        yield _finding(
            "base does not cover the gap",
            wall.name,
            line.name,
            at=0.0,
            found=foot_depth(line),
            limit=rules.floor_gap,
            with_what="floor covering",
        )
