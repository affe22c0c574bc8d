"""The trim of a set: from lines of moulding round its walls to pieces with their ends, lengths, order and findings.

Decides which wall's piece runs on where one must, and puts together what the walls give. How lines meet is decided in
``trim_ends``, where they are joined in ``scarfs``, how a wall's line is cut up in ``trim_runs``. Moulding frames, the
casing itself, what holds the trim and what is bought are left to their own modules.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from lathlight.mouldings.backing_strips import back_strip
from lathlight.mouldings.mitres import saw_setting
from lathlight.mouldings.trim_ends import RETURN, CornerCuts, CornerJob, corner_cuts
from lathlight.mouldings.trim_findings import line_findings
from lathlight.mouldings.trim_model import ReturnPiece, TrimPlan
from lathlight.mouldings.trim_order import cutting_order, fixing_order
from lathlight.mouldings.trim_refusals import refuse_trim
from lathlight.mouldings.trim_runs import LineJob, LinePieces, cut_line
from lathlight.units import snap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.mitres import End
    from lathlight.mouldings.trim_model import BackingStrip, Moulding, TrimFinding, TrimPiece, TrimRules, TrimWall

SAME = 1e-6  # walls whose lengths differ by less are equally long [mm]


def plan_trim(walls: Sequence[TrimWall], *, corners: Sequence[float], rules: TrimRules) -> TrimPlan:
    """Return the trim of a set.

    Parameters
    ----------
    walls
        Left to right, as the camera sees them.
    corners
        Inside angle between each wall and the next [rad], one fewer than walls; above pi at an outside corner.
    rules
        Grid of the saw, its swing, the floor covering's gap.

    Raises
    ------
    InputError
        Trim that cannot be drawn: a line above its wall, below the floor, a cornice without spring, a base before a
        sill. All of it at once.
    ValueError
        Not one corner fewer than walls.
    """
    if len(corners) != max(len(walls) - 1, 0):
        message = f"{len(walls)} walls have {max(len(walls) - 1, 0)} corners, not {len(corners)}"
        raise ValueError(message)
    refuse_trim(walls, rules)
    met = [
        corner_cuts(CornerJob(left=a, right=b, corner=corner, first=_first(walls, k), rules=rules))
        for k, ((a, b), corner) in enumerate(zip(pairwise(walls), corners, strict=True))
    ]
    lines = [(wall, line, _cut(walls, k, line, met, rules)) for k, wall in enumerate(walls) for line in wall.lines]
    pieces = tuple(p for _, _, cut in lines for p in cut.pieces)
    meetings = tuple(m for c in met for m in c.meetings)
    return TrimPlan(
        runs=tuple(r for _, _, cut in lines for r in cut.runs),
        pieces=pieces,
        returns=tuple(r for _, line, cut in lines for p in cut.pieces for r in _returns(p, line, rules)),
        strips=tuple(_strips(lines, rules)),
        meetings=meetings,
        order=fixing_order(pieces, meetings),
        cuts=cutting_order(pieces),
        findings=tuple(_findings(lines, met, rules)),
    )


def _first(walls: Sequence[TrimWall], corner: int) -> Literal["left", "right"]:
    """Return whose piece runs on in a corner: the longer wall's, which faces the camera; of equals the inner one's.

    So a gap in the joint points away from the camera (common practice, no source).
    """
    left, right = walls[corner].length, walls[corner + 1].length
    if abs(left - right) > SAME:
        return "left" if left > right else "right"
    middle = (len(walls) - 1) / 2
    return "left" if abs(corner - middle) <= abs(corner + 1 - middle) else "right"


def _cut(
    walls: Sequence[TrimWall], number: int, line: Moulding, met: Sequence[CornerCuts], rules: TrimRules
) -> LinePieces:
    left = met[number - 1].right[line.name] if number > 0 else None
    right = met[number].left[line.name] if number < len(met) else None
    return cut_line(LineJob(wall=walls[number], line=line, left=left, right=right, rules=rules))


def _returns(piece: TrimPiece, line: Moulding, rules: TrimRules) -> Iterator[ReturnPiece]:
    """Yield the small pieces that turn a piece's free ends back to the wall: mitred like the end that they meet."""
    sides: tuple[tuple[End, End], ...] = (("left", "right"), ("right", "left"))
    for side, meets in sides:
        end = piece.left if side == "left" else piece.right
        if end.kind == "returned":
            yield ReturnPiece(
                id=f"{piece.id}/return {side}",
                piece=piece.id,
                end=side,
                profile=line.profile,
                long_point=snap(line.projection, rules.grid),
                saw=saw_setting(slant=RETURN, end=meets, spring=line.spring),
            )


def _strips(lines: Sequence[tuple[TrimWall, Moulding, LinePieces]], rules: TrimRules) -> Iterator[BackingStrip]:
    for _, line, cut in lines:
        for piece in cut.pieces:
            strip = back_strip(piece, line=line, rules=rules)
            if strip is not None:
                yield strip


def _findings(
    lines: Sequence[tuple[TrimWall, Moulding, LinePieces]], met: Sequence[CornerCuts], rules: TrimRules
) -> Iterator[TrimFinding]:
    for corner in met:
        yield from corner.findings
    for wall, line, cut in lines:
        yield from cut.findings
        yield from line_findings(wall, line, cut.pieces, rules)
