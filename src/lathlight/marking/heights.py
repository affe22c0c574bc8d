"""Which edges are marked, and how high: from the level line, the finished floor and the foot of each flat.

Trim is marked at its top edge, moulding frames at both; a cornice, whose top edge is the wall's, at the bottom edge of
its backing and its own. Where the level line lies is left to ``lathlight.marking.level_line``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.marking.model import FlatMark, FrameMark, HeightMark
from lathlight.units import snap

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.marking.model import (
        Edge,
        LevelLine,
        MarkedFlat,
        MarkedFrame,
        MarkedLine,
        MarkedWall,
        MarkingJob,
        Stretch,
    )

FRAME = "moulding frame"
NEAR = 0.01  # heights that differ less are one, stretches shorter than this are none [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExactEdge:
    """An edge to mark before its figures are rounded: wall axes [mm]."""

    id: str
    name: str
    kind: str
    edge: Edge
    z: float
    stretches: tuple[Stretch, ...]


def edges_of(wall: MarkedWall) -> tuple[ExactEdge, ...]:
    """Return the edges to mark on a wall, from the bottom up; equal heights in the order of their ids."""
    found = [edge for line in wall.lines for edge in _line_edges(wall, line)]
    for tier in dict.fromkeys(frame.tier for frame in wall.frames):
        own = [frame for frame in wall.frames if frame.tier == tier]
        found += _frame_edges(wall, tier, "bottom edge", [(f.bottom, f) for f in own])
        found += _frame_edges(wall, tier, "top edge", [(f.top, f) for f in own])
    return tuple(sorted(found, key=lambda each: (each.z, each.id)))


def _line_edges(wall: MarkedWall, line: MarkedLine) -> list[ExactEdge]:
    edges: list[tuple[Edge, float]] = [("top edge", line.top)]
    if line.kind == "cornice":
        edges = [("bottom edge", line.bottom)]
        if line.backing is not None:
            edges.append(("backing's bottom edge", line.backing))
    return [
        ExactEdge(
            id=f"{wall.name}/{line.name}/{edge}",
            name=line.name,
            kind=line.kind,
            edge=edge,
            z=z,
            stretches=line.stretches,
        )
        for edge, z in edges
    ]


def _frame_edges(
    wall: MarkedWall, tier: str, edge: Edge, frames: Sequence[tuple[float, MarkedFrame]]
) -> list[ExactEdge]:
    """Return one edge a height, from the first frame at that height to the last."""
    found: list[ExactEdge] = []
    for number, z in enumerate(_different(z for z, _ in frames), start=1):
        own = [frame for at, frame in frames if abs(at - z) < NEAR]
        found.append(
            ExactEdge(
                id=f"{wall.name}/{tier}/{edge}" + (f"/{number}" if number > 1 else ""),
                name=tier,
                kind=FRAME,
                edge=edge,
                z=z,
                stretches=((min(f.left for f in own), max(f.right for f in own)),),
            )
        )
    return found


def _different(heights: Iterable[float]) -> list[float]:
    kept: list[float] = []
    for z in sorted(heights):
        if not kept or z - kept[-1] >= NEAR:
            kept.append(z)
    return kept


def wall_marks(wall: MarkedWall, level: LevelLine, job: MarkingJob) -> tuple[HeightMark, ...]:
    """Return what is marked on a standing wall, from the bottom up.

    Parameters
    ----------
    wall
        The wall with its lines and frames.
    level
        What they are measured from.
    job
        Rise of the finished floor, and the grid.
    """
    marks: list[HeightMark] = []
    for edge in edges_of(wall):
        exact = edge.z - job.rise
        height = snap(exact, job.grid)
        marks.append(
            HeightMark(
                id=edge.id,
                wall=wall.name,
                name=edge.name,
                kind=edge.kind,
                edge=edge.edge,
                height=height,
                offset=snap(height - level.height, job.grid),
                above_foot=snap(edge.z, job.grid),
                rest=exact - height,
                stretches=edge.stretches,
            )
        )
    return tuple(marks)


def flat_marks(wall: MarkedWall, flat: MarkedFlat, job: MarkingJob) -> tuple[FlatMark, ...]:
    """Return what is marked on a flat lying down, from its own bottom edge and its sheets' left edge."""
    marks: list[FlatMark] = []
    for edge in edges_of(wall):
        stretches = _on_flat(edge.stretches, flat, wall)
        if not stretches or not _bears(flat, edge.z):
            continue
        exact = edge.z - flat.foot
        height = snap(exact, job.grid)
        marks.append(
            FlatMark(
                mark=edge.id,
                flat=flat.id,
                flat_mark=flat.mark,
                name=edge.name,
                kind=edge.kind,
                edge=edge.edge,
                height=height,
                rest=exact - height,
                stretches=tuple((snap(a - flat.left, job.grid), snap(b - flat.left, job.grid)) for a, b in stretches),
                is_across=_is_across(stretches, flat, wall),
            )
        )
    return tuple(marks)


def frame_marks(wall: MarkedWall, flat: MarkedFlat, job: MarkingJob) -> tuple[FrameMark, ...]:
    """Return the uprights of moulding frames that lie on a flat, from its sheets' left edge, left to right."""
    low, high = _extent(flat, wall)
    marks: list[FrameMark] = []
    for frame in sorted(wall.frames, key=lambda each: (each.left, each.bottom, each.id)):
        left = frame.left if low - NEAR <= frame.left < high - NEAR else None
        right = frame.right if low + NEAR < frame.right <= high + NEAR else None
        over = min(frame.top, flat.top) - max(frame.bottom, flat.foot)
        if over <= NEAR or (left is None and right is None):
            continue
        marks.append(
            FrameMark(
                frame=frame.id,
                tier=frame.tier,
                wall=wall.name,
                flat=flat.id,
                flat_mark=flat.mark,
                left=None if left is None else snap(left - flat.left, job.grid),
                right=None if right is None else snap(right - flat.left, job.grid),
                left_along=snap(frame.left, job.grid),
                right_along=snap(frame.right, job.grid),
            )
        )
    return tuple(marks)


def _extent(flat: MarkedFlat, wall: MarkedWall) -> Stretch:
    """Return the part of the finished face that a flat bears: what runs past a corner is hidden there."""
    return max(flat.left, 0.0), min(flat.right, wall.length)


def _on_flat(stretches: Sequence[Stretch], flat: MarkedFlat, wall: MarkedWall) -> list[Stretch]:
    low, high = _extent(flat, wall)
    cut = [(max(a, low), min(b, high)) for a, b in stretches]
    return [(a, b) for a, b in cut if b - a > NEAR]


def _is_across(stretches: Sequence[Stretch], flat: MarkedFlat, wall: MarkedWall) -> bool:
    low, high = _extent(flat, wall)
    return len(stretches) == 1 and stretches[0][0] <= low + NEAR and stretches[0][1] >= high - NEAR


def _bears(flat: MarkedFlat, z: float) -> bool:
    """Return True where a height lies on a flat; one that lies on a level joint goes to the flat below."""
    return flat.foot < z <= flat.top + NEAR or z == flat.foot == 0.0
