"""The casing round openings: legs, head and bottom piece with their ends and lengths, blocks, the curve of an arch.

Decides: a door's legs stand on the finished floor or on plinth blocks; a window is framed all round; upper corners are
mitred, or square against corner blocks. Over an arch the legs end at the curve, of which only figures are given: it is
bent or built up from segments, and drawn full size from them. Blocks stand a little proud of the casing on every side
that shows, plinth blocks of the base as well, so that both die into them. Casing that finds no room is planned all the
same, drawn to the wall's edge, and said. What holds casing, and what is bought, are left to other modules.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

from lathlight.mouldings.casing_lines import CasingLines
from lathlight.mouldings.casing_model import Casing, CasingBlock, CasingCurve, CasingEnd, CasingFinding, CasingPiece
from lathlight.mouldings.mitres import saw_setting
from lathlight.mouldings.trim_model import BlockBand
from lathlight.units import snap, snap_up
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.casing_lines import Box
    from lathlight.mouldings.casing_model import (
        BlockKind,
        CasingEndKind,
        CasingFindingKind,
        CasingJob,
        CasingPart,
        WallToCase,
    )
    from lathlight.mouldings.mitres import End

TOUCH = 1e-6  # [mm]
MITRE = math.pi / 4  # [rad] where two pieces meet in a corner
CURVE = "bent, or built up from segments: strike both radii full size and cut to the line"
CLIPPED = "drawn to the wall's edge; cut narrower there"
SIDES: tuple[End, End] = ("left", "right")


def plan_casing(job: CasingJob) -> tuple[Casing, ...]:
    """Return the casing of every opening given, wall by wall, from left to right.

    Parameters
    ----------
    job
        Walls with the openings that get casing; an opening without casing is left out of it.
    """
    return tuple(casing for wall in job.walls for casing in _wall_casing(wall, job))


def block_bands(casing: Casing) -> tuple[BlockBand, ...]:
    """Return the heights at which a casing's blocks stand, as the trim meets them, from the floor up."""
    left = sorted((b for b in casing.blocks if b.side == "left"), key=lambda b: b.z0)
    return tuple(BlockBand(bottom=b.z0, top=b.z1, beyond=b.beyond, thickness=b.thickness) for b in left)


def _wall_casing(wall: WallToCase, job: CasingJob) -> Iterator[Casing]:
    found = [CasingLines(wall=wall, opening=o, grid=job.grid, floor=job.floor) for o in wall.openings]
    found.sort(key=lambda lines: (lines.opening.left, lines.opening.name))
    clashes = list(_clashes(found))
    for lines in found:
        yield Casing(
            wall=wall.name,
            opening=lines.opening.name,
            kind=lines.opening.kind,
            profile=lines.opening.profile,
            pieces=tuple(_pieces(lines)),
            blocks=tuple(_blocks(lines)),
            curve=_curve(lines),
            findings=(*_no_room(lines), *(f for f in clashes if f.opening == lines.opening.name)),
        )


# --- pieces ------------------------------------------------------------------------------------------------------


def _pieces(lines: CasingLines) -> Iterator[CasingPiece]:
    yield _leg(lines, "left", "left leg")
    yield _leg(lines, "right", "right leg")
    if not lines.arched:
        yield _head(lines)
    if not lines.stands:
        yield _bottom(lines)


def _leg(lines: CasingLines, side: End, part: CasingPart) -> CasingPiece:
    outer, inner = lines.legs()
    x0, x1 = (lines.left - lines.broad, lines.left) if side == "left" else (lines.right, lines.right + lines.broad)
    return _piece(
        lines,
        part,
        box=(x0, min(outer[0], inner[0]), x1, max(outer[1], inner[1])),
        ends=(_foot(lines, side), _top(lines, side)),
        lengths=(outer[1] - outer[0], inner[1] - inner[0]),
    )


def _foot(lines: CasingLines, side: End) -> CasingEnd:
    """Return a leg's lower end: with the outer edge to the fence it is the end on the leg's own side."""
    if not lines.stands:
        return _end("mitre", side, MITRE, lines.part("bottom"))
    if lines.plinthed:
        return _end("on a plinth block", side, 0.0, lines.part(f"plinth block {side}"))
    return _end("on the floor", side, 0.0, "")


def _top(lines: CasingLines, side: End) -> CasingEnd:
    hand: End = "right" if side == "left" else "left"
    if lines.arched:
        (_, outer), (_, inner) = lines.legs()
        return _end("meets the curve", hand, math.atan2(outer - inner, lines.broad), lines.part("curve"))
    if lines.cornered:
        return _end("against a corner block", hand, 0.0, lines.part(f"corner block {side}"))
    return _end("mitre", hand, MITRE, lines.part("head"))


def _head(lines: CasingLines) -> CasingPiece:
    if lines.cornered:
        x0, x1 = lines.left + lines.inward, lines.right - lines.inward
        first, last = (_end("against a corner block", s, 0.0, lines.part(f"corner block {s}")) for s in SIDES)
        lengths = (x1 - x0, x1 - x0)
    else:
        x0, x1 = lines.left - lines.broad, lines.right + lines.broad
        first, last = (_end("mitre", s, MITRE, lines.part(f"{s} leg")) for s in SIDES)
        lengths = (x1 - x0, lines.right - lines.left)
    box = (x0, lines.top, x1, lines.top + lines.broad)
    return _piece(lines, "head", box=box, ends=(first, last), lengths=lengths)


def _bottom(lines: CasingLines) -> CasingPiece:
    """Return the piece under a window: its outer edge is the lower one, so that left and right change on the saw."""
    x0, x1 = lines.left - lines.broad, lines.right + lines.broad
    first = _end("mitre", "right", MITRE, lines.part("left leg"))
    last = _end("mitre", "left", MITRE, lines.part("right leg"))
    box = (x0, lines.bottom - lines.broad, x1, lines.bottom)
    return _piece(lines, "bottom", box=box, ends=(first, last), lengths=(x1 - x0, lines.right - lines.left))


def _end(kind: CasingEndKind, hand: End, slant: float, against: str) -> CasingEnd:
    saw = replace(saw_setting(slant=slant, end=hand, spring=None), fence="outer edge")
    return CasingEnd(kind=kind, hand=hand, slant=slant, saw=saw, against=against)


def _piece(
    lines: CasingLines,
    part: CasingPart,
    *,
    box: Box,
    ends: tuple[CasingEnd, CasingEnd],
    lengths: tuple[float, float],
) -> CasingPiece:
    """Return a piece; its lengths are those along the outer and along the inner edge."""
    upright = part in ("left leg", "right leg")
    x0, z0, x1, z1 = lines.clipped(box)
    return CasingPiece(
        id=lines.part(part),
        part=part,
        upright=upright,
        x0=x0,
        z0=z0,
        x1=x1,
        z1=z1,
        first=ends[0],
        last=ends[1],
        long_point=snap(max(lengths), lines.grid),
        short_point=snap(min(lengths), lines.grid),
        why=_why(lines, upright=upright),
    )


def _why(lines: CasingLines, *, upright: bool) -> Working:
    clear = lines.opening.height if upright else lines.opening.width
    return Working(
        formula="clear size and the reveal for the inner edge, where it is mitred a casing's width more for the outer",
        inputs=(
            ("clear height" if upright else "clear width", clear, "mm"),
            ("reveal", lines.opening.reveal, "mm"),
            ("casing", lines.broad, "mm"),
        ),
        source=GEOMETRY,
    )


# --- blocks ------------------------------------------------------------------------------------------------------


def _blocks(lines: CasingLines) -> Iterator[CasingBlock]:
    if lines.plinthed:
        thick = max(lines.thick, lines.wall.base_thickness)
        for side in SIDES:
            yield _block(lines, "plinth block", side, low=lines.floor, high=lines.floor + lines.plinth, thick=thick)
    if lines.cornered:
        low, high = lines.top - lines.inward, lines.top + lines.broad + lines.proud
        for side in SIDES:
            yield _block(lines, "corner block", side, low=low, high=high, thick=lines.thick)


def _block(lines: CasingLines, kind: BlockKind, side: End, *, low: float, high: float, thick: float) -> CasingBlock:
    if side == "left":
        edges = lines.left - lines.broad - lines.proud, lines.left + lines.inward
    else:
        edges = lines.right - lines.inward, lines.right + lines.broad + lines.proud
    x0, z0, x1, z1 = lines.clipped((edges[0], low, edges[1], high))
    return CasingBlock(
        id=lines.part(f"{kind} {side}"),
        kind=kind,
        side=side,
        x0=x0,
        z0=z0,
        x1=x1,
        z1=z1,
        beyond=lines.proud,
        thickness=snap_up(thick + lines.proud, lines.grid),
        why=Working(
            formula="past the casing on every side that shows; thicker than what dies into it by as much",
            inputs=(("past the casing", lines.proud, "mm"), ("thickest of what dies into it", thick, "mm")),
            source=COMMON_PRACTICE,
        ),
    )


# --- the curve ---------------------------------------------------------------------------------------------------


def _curve(lines: CasingLines) -> CasingCurve | None:
    """Return the curved head's figures; None without an arch."""
    if not lines.arched:
        return None
    radius, centre = lines.circle()
    inner = radius + lines.opening.reveal
    middle, out = inner + lines.broad / 2, lines.opening.reveal + lines.broad / 2
    angle = 2 * math.atan2(lines.opening.width / 2 + out, lines.springing(out) - centre)
    return CasingCurve(
        id=lines.part("curve"),
        centre=(lines.opening.left + lines.opening.width / 2, centre),
        inner_radius=inner,
        outer_radius=inner + lines.broad,
        angle=angle,
        length=snap(angle * middle, lines.grid),
        note=CURVE,
        why=Working(
            formula="angle turned through times the middle line's radius",
            inputs=(("angle", angle, "rad"), ("radius", middle, "mm")),
            source=GEOMETRY,
        ),
    )


# --- findings ----------------------------------------------------------------------------------------------------


def _no_room(lines: CasingLines) -> Iterator[CasingFinding]:
    """Yield where the casing runs past the wall or under the floor."""
    left, bottom, right, top = lines.box()
    length, height = lines.wall.length, lines.wall.height
    if left < -TOUCH:
        yield _finding(lines, "past the wall's end", at=left, found=-left, limit=0.0)
    if right > length + TOUCH:
        yield _finding(lines, "past the wall's end", at=right, found=right - length, limit=length)
    if top > height + TOUCH:
        yield _finding(lines, "over the wall's top", at=top, found=top - height, limit=height)
    if bottom < lines.floor - TOUCH:
        yield _finding(lines, "under the floor", at=bottom, found=lines.floor - bottom, limit=lines.floor)


def _finding(lines: CasingLines, kind: CasingFindingKind, *, at: float, found: float, limit: float) -> CasingFinding:
    return CasingFinding(
        kind=kind,
        wall=lines.wall.name,
        opening=lines.opening.name,
        at=at,
        found=found,
        limit=limit,
        with_what="",
        answer=CLIPPED,
    )


def _clashes(found: Sequence[CasingLines]) -> Iterator[CasingFinding]:
    """Yield each pair of openings whose casings lie over each other, told of the left one."""
    for a, b in combinations(found, 2):
        (left, low, right, high), (x0, z0, x1, z1) = a.box(), b.box()
        over = min(right, x1) - max(left, x0)
        if over > TOUCH and low < z1 - TOUCH and z0 < high - TOUCH:
            yield CasingFinding(
                kind="into other casing",
                wall=a.wall.name,
                opening=a.opening.name,
                at=max(left, x0),
                found=over,
                limit=0.0,
                with_what=b.opening.name,
                answer="drawn one over the other; cut both narrower there",
            )
