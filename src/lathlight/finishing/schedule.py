"""The finish schedule: which surface gets which coating, how often and with what, in the order in which they go on.

Mouldings that are painted before they are fixed come first, on the bench; then the set, coating by coating. The areas
of a coating add up to those that its litres were worked out from. Hours and drying are left to the schedule of work.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.finishing.finish import Coating, Finish
    from lathlight.finishing.paint_areas import Kind, PaintArea
    from lathlight.finishing.paint_need import PaintNeed

Tool = Literal["roller", "brush"]
SURFACES: dict[Kind, str] = {
    "face": "faces",
    "joint edge": "edges at joints",
    "opening edge": "edges in openings",
    "top edge": "edges along the top",
    "wall end": "wall ends",
    "reveal": "reveals",
    "back": "backs",
    "moulding": "mouldings",
}
ROLLED = ("face", "back")
BETWEEN = "faces between mouldings"
BENCH = "painted before fixing; nail holes filled and touched up after"
LAST = "painted after fixing, with the walls"
DUST = 1.0  # an area below this is none [mm2]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishStep:
    """One surface under one coating."""

    number: int  # in the order in which they go on, from 1
    surface: str
    stuff: str  # what it is of: "plywood", "timber", the moulding's profile; "" where it is of several
    area: float  # one coat [mm2]
    length: float  # of edges, ends and mouldings [mm]; 0 for faces
    coating: str  # catalogue row
    coats: int
    tool: Tool
    sheen: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """One line before it is numbered."""

    kind: Kind
    surface: str
    stuff: str
    area: float
    length: float
    tool: Tool


def finish_schedule(finish: Finish) -> tuple[FinishStep, ...]:
    """Return the finish schedule of a set, line by line in the order of the work.

    Faces are rolled, but for what only a brush reaches between mouldings that were fixed first; edges, ends, reveals
    and mouldings are brushed.
    """
    steps: list[FinishStep] = []
    notes = {coating.need.coating.name: coating.note for coating in finish.coatings}  # each said once, at first
    for coating, part in _in_order(finish):
        note = notes.pop(coating.need.coating.name, "")
        steps.append(_step(len(steps) + 1, coating.need, part, finish, note))
    return tuple(steps)


def _in_order(finish: Finish) -> Iterator[tuple[Coating, _Part]]:
    """Yield coatings with what they go on; mouldings on the bench before everything else."""
    brushed = math.fsum(reach.brush for reach in finish.reaches)
    every = [(c, part) for c in finish.coatings for part in _parts(_under(c.need, finish), brushed)]
    if finish.painted == "before fixing":
        every.sort(key=lambda pair: pair[1].kind != "moulding")
    yield from every


def _under(need: PaintNeed, finish: Finish) -> list[PaintArea]:
    """Return the surfaces that a coating goes on: of the primer, those that are bare."""
    painted = [area for area in finish.areas if area.painted]
    return [area for area in painted if area.raw] if need.on_bare else painted


def _parts(areas: Iterable[PaintArea], brushed: float) -> Iterator[_Part]:
    """Yield surfaces of one kind and stuff together, in the order of `SURFACES`."""
    found: dict[tuple[Kind, str], list[PaintArea]] = {}
    for each in areas:
        found.setdefault((each.kind, each.material or ("" if each.stuff == "moulding" else each.stuff)), []).append(
            each
        )
    left = brushed
    for kind in SURFACES:
        for (_, stuff), members in sorted((k, v) for k, v in found.items() if k[0] == kind):
            area = math.fsum(m.area for m in members)
            by_brush = min(left, area) if kind == "face" else 0.0
            left -= by_brush
            yield from _split(kind, stuff, area, math.fsum(m.length for m in members), by_brush)


def _split(kind: Kind, stuff: str, area: float, length: float, brushed: float) -> Iterator[_Part]:
    surface = "blocks" if kind == "moulding" and not stuff else SURFACES[kind]
    tool: Tool = "roller" if kind in ROLLED else "brush"
    if brushed > DUST:
        yield _Part(kind=kind, surface=BETWEEN, stuff=stuff, area=brushed, length=0.0, tool="brush")
    if area - brushed > DUST:
        yield _Part(kind=kind, surface=surface, stuff=stuff, area=area - brushed, length=length, tool=tool)


def _step(number: int, need: PaintNeed, part: _Part, finish: Finish, note: str) -> FinishStep:
    own = (BENCH if finish.painted == "before fixing" else LAST) if part.kind == "moulding" else ""
    return FinishStep(
        number=number,
        surface=part.surface,
        stuff=part.stuff,
        area=part.area,
        length=part.length,
        coating=need.coating.name,
        coats=need.coats,
        tool=part.tool,
        sheen=need.sheen,
        note="; ".join(n for n in (note, own) if n),
    )
