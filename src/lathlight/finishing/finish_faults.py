"""What would go wrong with paint, glue and brads: figures against limits, as values.

Decides what is found and how far off it is; its words, its weight and its place among the other snags are left to the
snags. Limits are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.finishing.brads import POINT_COVER
from lathlight.finishing.paint_areas import unpainted_edges

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Fastener, Paint
    from lathlight.finishing.brads import BradRun
    from lathlight.finishing.paint_areas import PaintArea
    from lathlight.finishing.paint_need import PaintNeed
    from lathlight.finishing.tool_reach import Gap

Fault = Literal[
    "gap narrower than a brush",
    "mouldings glued before painting",
    "glossy sheen under flash",
    "paint short of its coats",
    "raw edge left unpainted",
    "brad through the skin",
]
BRUSH = 25.0  # narrowest brush that leaves an even coat [mm], 1 in
ROLLER = 100.0  # narrowest roller [mm], 4 in
RANKS = {"flat": 0, "matt": 1, "eggshell": 2, "satin": 3, "semi-gloss": 4, "gloss": 5}  # as the catalogue ranks them
GLAREFREE = "matt"  # eggshell and above show hot spots under flash: photographers' reports
TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishFault:
    """One thing that would go wrong."""

    fault: Fault
    place: str  # id of the wall, piece, run or paint
    figure: float
    limit: float
    unit: str  # "mm", "l", "" for a rank
    inputs: tuple[tuple[str, float | str, str], ...] = ()


def narrow_gaps(gaps: Iterable[Gap], *, brush: float = BRUSH) -> tuple[FinishFault, ...]:
    """Return the gaps that no brush reaches into: also where mouldings go on last, since every repaint needs them."""
    return tuple(_of_gap("gap narrower than a brush", gap, brush) for gap in gaps if gap.width < brush - TOUCH)


def early_mouldings(
    gaps: Iterable[Gap],
    *,
    mouldings: Literal["before fixing", "after fixing"],
    roller: float = ROLLER,
    brush: float = BRUSH,
) -> tuple[FinishFault, ...]:
    """Return gaps left to the brush because the mouldings are fixed first; none where they are painted before.

    What not even the brush reaches is found by `narrow_gaps`, and only there.
    """
    if mouldings == "before fixing":
        return ()
    return tuple(
        _of_gap("mouldings glued before painting", gap, roller)
        for gap in gaps
        if brush - TOUCH <= gap.width < roller - TOUCH
    )


def _of_gap(fault: Fault, gap: Gap, limit: float) -> FinishFault:
    return FinishFault(
        fault=fault,
        place=gap.wall,
        figure=gap.width,
        limit=limit,
        unit="mm",
        inputs=(
            ("between", gap.between[0], ""),
            ("and", gap.between[1], ""),
            ("runs for", gap.length, "mm"),
            ("along the wall", gap.x, "mm"),
            ("above the floor", gap.z, "mm"),
        ),
    )


def glossy_sheen(paint: Paint, *, flashed: bool) -> tuple[FinishFault, ...]:
    """Return a paint too shiny for flash; its figure counts classes of sheen above flat.

    Raises
    ------
    ValueError
        A sheen that the catalogue does not know.
    """
    if paint.sheen not in RANKS:
        raise ValueError(f"{paint.name}: sheen {paint.sheen!r}")
    rank, limit = RANKS[paint.sheen], RANKS[GLAREFREE]
    if not flashed or rank <= limit:
        return ()
    inputs = (("sheen", paint.sheen, ""), ("glares least", GLAREFREE, ""))
    fault = FinishFault(
        fault="glossy sheen under flash", place=paint.name, figure=rank, limit=limit, unit="", inputs=inputs
    )
    return (fault,)


def paint_short(need: PaintNeed, *, have: float) -> tuple[FinishFault, ...]:
    """Return a fault where the paint at hand [l] does not last for its coats; what is kept for later does not count."""
    kept = math.fsum(a.litres for a in need.allowances if a.kept)
    wanted = need.gross - kept
    if have >= wanted - TOUCH:
        return ()
    added = wanted - need.net
    reached = math.floor(max(have - added, 0.0) / (need.net / need.coats) + TOUCH) if need.net else 0
    fault = FinishFault(
        fault="paint short of its coats",
        place=need.coating.name,
        figure=have,
        limit=wanted,
        unit="l",
        inputs=(("coats wanted", need.coats, ""), ("whole coats it lasts for", reached, "")),
    )
    return (fault,)


def raw_edges(areas: Sequence[PaintArea]) -> tuple[FinishFault, ...]:
    """Return the raw edges and ends that are left without paint; the figure is how much of them is bare [mm]."""
    return tuple(
        FinishFault(
            fault="raw edge left unpainted",
            place=each.id,
            figure=each.length,
            limit=0.0,
            unit="mm",
            inputs=(("kind", each.kind, ""),),
        )
        for each in unpainted_edges(areas)
    )


def brad_through(run: BradRun, fastener: Fastener, *, skin: float, timber: float) -> tuple[FinishFault, ...]:
    """Return a fault where a stated brad is longer than what it enters; thicknesses [mm], timber 0 between members."""
    longest = run.thickness + skin + timber - POINT_COVER
    if fastener.length <= longest + TOUCH:
        return ()
    fault = FinishFault(
        fault="brad through the skin",
        place=run.id,
        figure=fastener.length,
        limit=longest,
        unit="mm",
        inputs=(
            ("brad", fastener.name, ""),
            ("moulding", run.thickness, "mm"),
            ("skin", skin, "mm"),
            ("timber behind", timber, "mm"),
        ),
    )
    return (fault,)
