"""Marking out of a set from its brief, its built walls, its trim and its moulding frames: what ``marking`` needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.marking import MarkedFlat, MarkedFrame, MarkedLine, MarkedWall, MarkingJob, MarkingOut, plan_marking

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import BuiltWall, Flat
    from lathlight.mouldings import MouldingLayout, TrimPlan
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, TrimLine, WallBrief


def derive_marking(
    brief: Brief, walls: Sequence[BuiltWall], trim: TrimPlan | None, frames: MouldingLayout | None, memo: Memo
) -> MarkingOut | None:
    """Return the marking out of a set; None where neither trim nor moulding frames are planned.

    Parameters
    ----------
    brief
        Trim lines, rise of the finished floor, grid.
    walls
        The walls as built, one a wall of the brief.
    trim
        Where each line runs, and the backing strips of cornices.
    frames
        Where the moulding frames stand.
    memo
        Remembers the result.
    """
    if (trim is None or not trim.runs) and (frames is None or not frames.frames):
        return None
    ready = tuple(_wall(own, built, trim, frames) for own, built in zip(brief.walls, walls, strict=True))
    return memo.run("marking", plan_marking, MarkingJob(walls=ready, rise=brief.floor.rise, grid=brief.style))


def _wall(own: WallBrief, built: BuiltWall, trim: TrimPlan | None, frames: MouldingLayout | None) -> MarkedWall:
    lines = [] if trim is None else [_line(line, own.name, trim) for line in own.trim]
    return MarkedWall(
        name=own.name,
        length=own.length,
        height=own.height,
        flats=tuple(_flat(flat) for flat in built.flats),
        lines=tuple(line for line in lines if line.stretches),
        frames=tuple(
            MarkedFrame(id=f.id, tier=f.tier, left=f.left, right=f.right, bottom=f.bottom, top=f.top)
            for f in (frames.frames if frames is not None else ())
            if f.wall == own.name
        ),
        sills=tuple(sorted({z for o in own.openings for z in (o.sill, o.sill + o.height) if z > 0})),
    )


def _flat(flat: Flat) -> MarkedFlat:
    return MarkedFlat(id=flat.id, mark=flat.mark, left=flat.sheet_x0, right=flat.sheet_x1, foot=flat.z0, top=flat.z1)


def _line(line: TrimLine, wall: str, trim: TrimPlan) -> MarkedLine:
    """Return a line with the stretches it runs over and the foot of its backing."""
    own = {piece.id for piece in trim.pieces if (piece.wall, piece.line) == (wall, line.name)}
    feet = [z for strip in trim.strips if strip.piece in own for _, z in strip.section]
    runs = sorted((run.start, run.end) for run in trim.runs if (run.wall, run.line) == (wall, line.name))
    return MarkedLine(
        name=line.name,
        kind=line.kind,
        top=line.top,
        bottom=line.bottom,
        backing=min(feet, default=None),
        stretches=tuple(runs),
    )
