"""Where lines of trim meet: the two pieces that end in each corner, those that look alike put together.

Lines that meet alike, in whichever corner, are one meeting with several places. How they meet is decided by
``lathlight.mouldings``, what is drawn of it by ``trim_corner``.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.catalog import projection

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from lathlight.mouldings import LineMeeting, PieceEnd, TrimPiece, TrimPlan
    from lathlight.plan import Plan

AT_CORNER = 1.0  # a piece that ends nearer to the corner line than this ends in the corner [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One wall's moulding in a corner."""

    piece: TrimPiece
    end: PieceEnd
    out: int  # 1: the wall ends here, -1: it begins here
    station: float  # the corner line along this wall [mm]

    @property
    def deep(self) -> float:
        """How far it stands out [mm]."""
        return projection(self.piece.profile)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A meeting of lines in a corner with what is drawn of it, and all lines and corners where it is the same."""

    meeting: LineMeeting
    halves: tuple[Half, ...]  # the left wall's, the right wall's; those that there are
    places: tuple[str, ...]  # "L | B: base, rail"

    def turn(self, half: Half) -> int:
        """Return whether a wall's piece is fixed first or second; 0 where the order does not matter."""
        if self.meeting.first is None:
            return 0
        return 1 if half.piece.wall == self.meeting.first else 2


def meetings_of(plan: Plan) -> tuple[Meeting, ...]:
    """Return how lines meet in the corners of a plan, those that look alike together, in order of their first."""
    if plan.trim is None:
        return ()
    marks = {wall.name: wall.mark for wall in plan.walls}
    lengths = {wall.name: wall.length for wall in plan.walls}
    groups: dict[tuple[object, ...], list[tuple[LineMeeting, tuple[Half, ...]]]] = {}
    for meeting in plan.trim.meetings:
        halves = _halves(plan.trim, meeting, lengths)
        if halves:
            groups.setdefault(_likeness(meeting, halves), []).append((meeting, halves))
    return tuple(
        Meeting(meeting=group[0][0], halves=group[0][1], places=tuple(_places([m for m, _ in group], marks)))
        for group in groups.values()
    )


def _halves(trim: TrimPlan, meeting: LineMeeting, lengths: Mapping[str, float]) -> tuple[Half, ...]:
    """Return the pieces that end in a corner: none where an opening takes the line away before it."""
    found: list[Half] = []
    left = [p for p in trim.pieces if (p.wall, p.line) == (meeting.left, meeting.left_line)]
    right = [p for p in trim.pieces if (p.wall, p.line) == (meeting.right, meeting.right_line)]
    if left:
        last = max(left, key=lambda p: p.end)
        found.append(Half(piece=last, end=last.right, out=1, station=lengths[meeting.left]))
    if right:
        first = min(right, key=lambda p: p.start)
        found.append(Half(piece=first, end=first.left, out=-1, station=0.0))
    return tuple(half for half in found if abs(half.end.station - half.station) < AT_CORNER)


def _likeness(meeting: LineMeeting, halves: Sequence[Half]) -> tuple[object, ...]:
    """Return what a corner shows; lines of other sections that are mitred or coped alike look the same."""
    first = None if meeting.first is None else meeting.first == meeting.left
    shown: list[object] = [meeting.how, round(meeting.corner, 6), first, meeting.note]
    for half in halves:
        saw = half.end.saw
        shown += [half.out, half.end.kind, round(half.end.slant, 6), round(saw.mitre, 6), round(saw.bevel, 6)]
        shown += [] if meeting.how in ("mitre", "cope") else [half.piece.profile.name]
    return tuple(shown)


def _places(met: Sequence[LineMeeting], marks: Mapping[str, str]) -> Iterator[str]:
    """Yield the lines that meet alike, corner by corner."""
    for (left, right), group in groupby(met, key=lambda m: (m.left, m.right)):
        lines = dict.fromkeys(_line_words(m) for m in group)
        yield f"{marks[left]} | {marks[right]}: {', '.join(lines)}"


def _line_words(meeting: LineMeeting) -> str:
    names = [name for name in (meeting.left_line, meeting.right_line) if name is not None]
    return " and ".join(dict.fromkeys(names))
