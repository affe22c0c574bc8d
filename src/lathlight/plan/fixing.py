"""The fixing of a set from its brief, its built walls and the mouldings on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.fixing import FixingJob, FixingPlan, plan_fixing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import BuiltWall, Corner
    from lathlight.layout import Layout
    from lathlight.mouldings import Strip
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief


def derive_fixing(
    brief: Brief,
    walls: Sequence[BuiltWall],
    corners: Sequence[Corner],
    layout: Layout,
    strips: Sequence[Strip],
    memo: Memo,
) -> FixingPlan:
    """Return how sheets, mouldings, flats and corners are held."""
    job = FixingJob(
        walls=tuple(walls),
        corners=tuple(corners),
        strips=tuple(strips),
        rules=brief.fixing,
        fittings=brief.hardware,
        hours_a_day=brief.project.workshop.hours_a_day,
        grid=brief.style,
        layout=layout,
        room=brief.room.outline,
        pillars=tuple(pillar.outline for pillar in brief.room.pillars),
    )
    return memo.run("fixing", plan_fixing, job)
