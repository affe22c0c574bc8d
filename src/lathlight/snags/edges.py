"""Sheet edges and what they bear on: every edge wants timber behind it.

Found from the finished pieces and members alone, not from the rules that placed them: a real safety net under the
framing.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.ground import is_inside
from lathlight.snags.model import Severity
from lathlight.snags.outlines import chords_of, edges_of
from lathlight.snags.timber import CONTACT, backed
from lathlight.snags.wording import length, listed
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Flat, SheetPiece
    from lathlight.plan import Plan
    from lathlight.snags.outlines import Chord, Edge
    from lathlight.snags.timber import Backed

FAMILY = "sheet edges"
LEAST = 10.0  # bearing that an edge wants [mm], common practice
GOOD = 16.0  # bearing on either side of a seam [mm], common practice
LONGEST_FREE = 50.0  # a shorter stretch carries itself [mm], common practice
HAIR = 2.0  # a gap this narrow between timber and timber, or timber and edge, does no harm [mm]
REACH = 60.0  # how far behind an edge timber is looked for [mm]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Part of an edge with one bearing [mm]."""

    low: float
    high: float
    bearing: float


def stretches(edge: Edge, faces: Sequence[Backed]) -> list[Stretch]:
    """Return an edge part by part with the timber that runs on behind it from the edge inwards."""
    boxes = [(f.x0, f.x1, f.z0, f.z1) for f in faces] if edge.upright else [(f.z0, f.z1, f.x0, f.x1) for f in faces]
    near, far = sorted((edge.at - edge.inwards * HAIR, edge.at + edge.inwards * REACH))
    boxes = [b for b in boxes if b[0] < far and b[1] > near and b[2] < edge.high and b[3] > edge.low]
    marks = sorted({edge.low, edge.high, *(m for b in boxes for m in b[2:] if edge.low < m < edge.high)})
    found: list[Stretch] = []
    for low, high in itertools.pairwise(marks):
        middle = (low + high) / 2
        across = [(b[0], b[1]) for b in boxes if b[2] < middle < b[3]]
        found.append(Stretch(low, high, _run(edge, across)))
    return found


def _run(edge: Edge, across: list[tuple[float, float]]) -> float:
    """Return how far timber runs on inwards from an edge without a break [mm]."""
    reach = 0.0
    spans = [(a - edge.at, b - edge.at) if edge.inwards > 0 else (edge.at - b, edge.at - a) for a, b in across]
    for a, b in sorted(spans):
        if a <= reach + HAIR:
            reach = max(reach, b)
    return reach


def _short_of(limit: float, parts: Sequence[Stretch]) -> list[Stretch]:
    """Return the stretches with less bearing than the limit, neighbours joined, those too short to matter left out."""
    joined: list[Stretch] = []
    for part in parts:
        if part.bearing >= limit:
            continue
        last = joined[-1] if joined else None
        if last is not None and last.high >= part.low - HAIR:
            joined[-1] = Stretch(last.low, part.high, min(last.bearing, part.bearing))
        else:
            joined.append(part)
    return [s for s in joined if s.high - s.low > LONGEST_FREE]


def _bare_edges(flat: Flat, limit: float) -> Iterator[tuple[SheetPiece, list[tuple[Edge, Stretch]]]]:
    faces = backed(flat)
    for piece in flat.pieces:
        bare = [(edge, s) for edge in edges_of(piece) for s in _short_of(limit, stretches(edge, faces))]
        if bare:
            yield piece, bare


@check(
    name="free-sheet-edge",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Sheet edge without timber behind it",
    why="an edge that hangs free waves, breaks, and has nothing to be fixed to",
    limit="{10 mm} of bearing along every straight edge, stretches up to {50 mm} let pass",
    source=COMMON_PRACTICE,
    remedy="Move the seam onto a member, or add a nailer or noggin behind the edge.",
)
def free_sheet_edge(plan: Plan) -> Iterable[Finding]:
    """Find edges that miss the timber."""
    for flat in plan.flats:
        for piece, bare in _bare_edges(flat, LEAST):
            worst = min(s.bearing for _, s in bare)
            where = [f"{e.side} edge ({length(s.low, plan)} to {length(s.high, plan)})" for e, s in bare]
            yield Finding(
                place=piece.id,
                what=f"Sheet {piece.id} has {length(worst, plan)} of timber behind its {listed(where)} "
                f"where {length(LEAST, plan)} is wanted",
                figure=worst,
                limit=LEAST,
                inputs=tuple((f"free stretch of the {e.side} edge", s.high - s.low, "mm") for e, s in bare),
            )


@check(
    name="thin-bearing",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Sheet edge with little timber behind it",
    why="fixings this near to an edge split the timber or break the sheet",
    limit="{16 mm} of bearing along every straight edge",
    source=COMMON_PRACTICE,
    remedy="Double the member there, lay it flat, or move the seam onto its middle.",
)
def thin_bearing(plan: Plan) -> Iterable[Finding]:
    """Find edges that bear on timber, but on little of it."""
    for flat in plan.flats:
        for piece, bare in _bare_edges(flat, GOOD):
            thin = [(e, s) for e, s in bare if s.bearing >= LEAST]
            if not thin:
                continue
            worst = min(s.bearing for _, s in thin)
            yield Finding(
                place=piece.id,
                what=f"Sheet {piece.id} bears on {length(worst, plan)} of timber at its "
                f"{listed(sorted({e.side for e, _ in thin}))} edge where {length(GOOD, plan)} is wanted",
                figure=worst,
                limit=GOOD,
            )


@check(
    name="free-curved-edge",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Curved sheet edge without anything behind it",
    why="straight members do not follow a curve, so that the edge flexes where hands and cases knock it",
    limit="{50 mm} of curve without {10 mm} of rib or timber behind it",
    source=COMMON_PRACTICE,
    remedy="Glue ribs of sheet, sawn to the arch's ordinates, behind the edge before the lining is bent in.",
)
def free_curved_edge(plan: Plan) -> Iterable[Finding]:
    """Find the curved edges of arches that hang free, one finding a piece of sheet."""
    for flat in plan.flats:
        if not any(opening.rise > 0 for opening in flat.openings):
            continue
        faces = backed(flat)
        ribs = [
            rib.outline
            for opening in flat.openings
            for rib in opening.ribs
            if abs(rib.behind - flat.sheet.thickness) <= CONTACT
        ]
        for piece in flat.pieces:
            bare = math.fsum(c.length for c in chords_of(piece) if not _is_backed(c, faces, ribs))
            if bare > LONGEST_FREE:
                yield Finding(
                    place=piece.id,
                    what=f"Sheet {piece.id} has {length(bare, plan)} of curved edge with nothing behind it",
                    figure=bare,
                    limit=LONGEST_FREE,
                )


def _is_backed(chord: Chord, faces: Sequence[Backed], ribs: Sequence[Sequence[tuple[float, float]]]) -> bool:
    """Return True where rib or timber lies behind a chord, as far in as an edge wants to bear."""
    x, z = (m + LEAST * n for m, n in zip(chord.middle, chord.inwards, strict=True))
    return any(f.x0 <= x <= f.x1 and f.z0 <= z <= f.z1 for f in faces) or any(is_inside((x, z), rib) for rib in ribs)


CHECKS: tuple[Check, ...] = (free_sheet_edge, thin_bearing, free_curved_edge)
