"""In which order the trim is fixed and cut, and all mouldings of the set with it.

From the top down, so that nothing is kicked or dripped on; the base last, when the floor covering lies (common
practice, no source). In a corner the piece that runs on goes before the one that is coped or stops against it; in a
scarf the piece that lies over goes last. Casing and the wall ends' covers are up before any of it; moulding frames go
on once the lines are up that they keep clear of, but before the base.
"""

from __future__ import annotations

import heapq
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.casing_model import Casing
    from lathlight.mouldings.frame_layout import MouldingLayout
    from lathlight.mouldings.trim_model import LineMeeting, TrimPiece, TrimPlan
    from lathlight.mouldings.wall_ends import WallEndCover

Rank = tuple[bool, float, int]


def fixing_order(pieces: Sequence[TrimPiece], meetings: Sequence[LineMeeting]) -> tuple[str, ...]:
    """Ids of the pieces in the order in which they are fixed.

    Parameters
    ----------
    pieces
        All pieces, walls from left to right, each line's from left to right.
    meetings
        How lines meet in the corners: which wall's piece goes first.
    """
    ranks: dict[str, Rank] = {p.id: (p.kind == "base", -p.top, k) for k, p in enumerate(pieces)}
    after: dict[str, list[str]] = {p.id: [] for p in pieces}
    waits = dict.fromkeys(ranks, 0)
    for first, then in sorted({*_corner_order(pieces, meetings), *_scarf_order(pieces)}):
        after[first].append(then)
        waits[then] += 1
    ready = [(ranks[p], p) for p, count in waits.items() if count == 0]
    heapq.heapify(ready)
    order: list[str] = []
    while ready:
        _, piece = heapq.heappop(ready)
        order.append(piece)
        for then in after[piece]:
            waits[then] -= 1
            if waits[then] == 0:
                heapq.heappush(ready, (ranks[then], then))
    assert len(order) == len(pieces)  # the walls stand in a chain: nothing waits for itself
    return tuple(order)


def cutting_order(pieces: Sequence[TrimPiece]) -> tuple[str, ...]:
    """Ids of the pieces in the order in which they are cut: longest first, profile by profile."""
    ordered = sorted(enumerate(pieces), key=lambda item: (item[1].profile.name, -item[1].long_point, item[0]))
    return tuple(piece.id for _, piece in ordered)


def all_in_order(
    trim: TrimPlan | None,
    frames: MouldingLayout | None,
    casings: Sequence[Casing] = (),
    ends: Sequence[WallEndCover] = (),
) -> tuple[str, ...]:
    """Ids of all that is fixed to the walls, in order: ends, casing, trim from the top down, frames, the base last.

    Of a casing: plinth blocks, legs, corner blocks, head or curve, bottom piece. A moulding frame is one thing: it is
    glued up before it goes on the wall.
    """
    order = trim.order if trim is not None else ()
    bases = {p.id for p in trim.pieces if p.kind == "base"} if trim is not None else set[str]()
    first_base = next((n for n, piece in enumerate(order) if piece in bases), len(order))
    return (
        *(end.id for end in ends if end.thickness > 0),
        *(part for casing in casings for part in _casing_order(casing)),
        *order[:first_base],
        *(frame.id for frame in (frames.frames if frames is not None else ())),
        *order[first_base:],
    )


def _casing_order(casing: Casing) -> Iterator[str]:
    yield from (b.id for b in casing.blocks if b.kind == "plinth block")
    yield from (p.id for p in casing.pieces if p.upright)
    yield from (b.id for b in casing.blocks if b.kind == "corner block")
    yield from (p.id for p in casing.pieces if p.part == "head")
    if casing.curve is not None:
        yield casing.curve.id
    yield from (p.id for p in casing.pieces if p.part == "bottom")


def _corner_order(pieces: Sequence[TrimPiece], meetings: Sequence[LineMeeting]) -> Iterator[tuple[str, str]]:
    leftmost: dict[tuple[str, str], TrimPiece] = {}
    rightmost: dict[tuple[str, str], TrimPiece] = {}
    for piece in pieces:
        leftmost.setdefault((piece.wall, piece.line), piece)
        rightmost[piece.wall, piece.line] = piece
    for meeting in meetings:
        a = rightmost.get((meeting.left, meeting.left_line or ""))
        b = leftmost.get((meeting.right, meeting.right_line or ""))
        if meeting.first is not None and a is not None and b is not None:
            yield (a.id, b.id) if meeting.first == meeting.left else (b.id, a.id)


def _scarf_order(pieces: Sequence[TrimPiece]) -> Iterator[tuple[str, str]]:
    for a, b in pairwise(pieces):
        if a.right.kind == "scarf" and (a.wall, a.line, a.end) == (b.wall, b.line, b.start):
            yield (b.id, a.id) if a.right.over else (a.id, b.id)
