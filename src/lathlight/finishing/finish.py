"""The paint of a whole set: surfaces, litres, tins, tools, takeoff lines and what would go wrong.

Joins the parts (``paint_areas``, ``paint_need``, ``containers``, ``tool_reach``, ``finish_faults``); decides nothing of
its own. Hours, drying and prices are left to the schedule and to buying.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.finishing.containers import cover_need
from lathlight.finishing.finish_faults import (
    BRUSH,
    ROLLER,
    early_mouldings,
    glossy_sheen,
    narrow_gaps,
    paint_short,
    raw_edges,
)
from lathlight.finishing.paint_areas import paint_areas
from lathlight.finishing.paint_need import need_line, paint_needs
from lathlight.finishing.tool_reach import Reach, gaps_between, tool_reach

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from lathlight.carpentry import BuiltWall
    from lathlight.catalog import Paint
    from lathlight.finishing.containers import Containers
    from lathlight.finishing.finish_faults import FinishFault
    from lathlight.finishing.paint_areas import MouldingBlock, MouldingLength, PaintArea, Surfaces
    from lathlight.finishing.paint_need import PaintNeed, PaintRules
    from lathlight.finishing.quantities import TakeoffLine
    from lathlight.finishing.tool_reach import Field, Gap


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishJob:
    """What the paint of a set depends on."""

    walls: tuple[BuiltWall, ...]
    mouldings: tuple[MouldingLength, ...]
    fields: tuple[Field, ...]  # faces with what mouldings and openings cover on them, one a wall
    surfaces: Surfaces
    paint: Paint | None  # None: left in its primer
    coats: int
    primer: Paint | None
    primer_coats: int
    painted: Literal["before fixing", "after fixing"]  # when the mouldings are painted
    flashed: bool  # True: the set will be lit with flash
    rules: PaintRules
    at_hand: Mapping[str, float]  # litres already there, by coating; {} buys what is needed
    roller: float = ROLLER  # narrowest roller at hand [mm]
    brush: float = BRUSH  # narrowest brush [mm]
    blocks: tuple[MouldingBlock, ...] = ()  # plain ones, at casings


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """One coating: how much, and in which tins."""

    need: PaintNeed
    tins: Containers | None  # None: what is at hand is used, enough or not
    line: TakeoffLine

    @property
    def note(self) -> str:
        """What to do with the tins so that one colour stays one; "" where there is nothing to do."""
        return "" if self.tins is None else self.tins.note


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """The paint of a set."""

    areas: tuple[PaintArea, ...]
    painted: Literal["before fixing", "after fixing"]  # when the mouldings are painted
    coatings: tuple[Coating, ...]  # in the order in which they go on
    reaches: tuple[Reach, ...]  # roller and brush on each wall's face [mm2]
    gaps: tuple[Gap, ...]  # narrower than the roller
    brushwork: float  # everything that is brushed, edges and mouldings included, one coat [mm2]
    faults: tuple[FinishFault, ...]


def plan_finish(job: FinishJob) -> Finish:
    """Return the paint of a set.

    Raises
    ------
    InputError
        Coats, a spreading rate, a share or a container out of its range.
    """
    areas = paint_areas(job.walls, job.mouldings, job.surfaces, blocks=job.blocks)
    needs = paint_needs(
        areas,
        paint=job.paint,
        coats=job.coats,
        primer=job.primer,
        primer_coats=job.primer_coats,
        rules=job.rules,
    )
    gaps = tuple(gap for field in job.fields for gap in gaps_between(field, narrower=job.roller))
    reaches = tuple(_reach(job, field) for field in job.fields)
    return Finish(
        areas=areas,
        painted=job.painted,
        coatings=tuple(_coating(job, need) for need in needs),
        reaches=reaches,
        gaps=gaps,
        brushwork=_brushwork(areas, reaches),
        faults=tuple(_faults(job, areas, gaps, needs)),
    )


def _reach(job: FinishJob, field: Field) -> Reach:
    """Return roller and brush on one face; where mouldings go on last, the bare wall is rolled whole."""
    reach = tool_reach(field, roller=job.roller)
    if job.painted == "after fixing":
        return reach
    return Reach(wall=reach.wall, roller=reach.roller + reach.brush, brush=0.0)


def _brushwork(areas: Iterable[PaintArea], reaches: Iterable[Reach]) -> float:
    small = math.fsum(a.area for a in areas if a.painted and a.kind not in ("face", "back"))
    return small + math.fsum(r.brush for r in reaches)


def _coating(job: FinishJob, need: PaintNeed) -> Coating:
    at_hand = job.at_hand.get(need.coating.name)
    tins = cover_need(need.gross, sizes=need.coating.containers) if at_hand is None else None
    return Coating(need=need, tins=tins, line=need_line(need))


def _faults(
    job: FinishJob, areas: tuple[PaintArea, ...], gaps: tuple[Gap, ...], needs: tuple[PaintNeed, ...]
) -> Iterable[FinishFault]:
    yield from narrow_gaps(gaps, brush=job.brush)
    yield from early_mouldings(gaps, mouldings=job.painted, roller=job.roller, brush=job.brush)
    if job.paint is not None and job.coats:
        yield from glossy_sheen(job.paint, flashed=job.flashed)
    yield from raw_edges(areas)
    for need in needs:
        have = job.at_hand.get(need.coating.name)
        if have is not None:
            yield from paint_short(need, have=have)
