"""Casing and wall ends of a set from its brief: what ``lathlight.mouldings`` needs, and nothing more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import projection
from lathlight.mouldings import (
    Casing,
    CasingJob,
    EndToCover,
    OpeningToCase,
    WallEndCover,
    WallToCase,
    plan_casing,
    plan_wall_ends,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.catalog import Profile
    from lathlight.mouldings import End
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, OpeningBrief, WallBrief, WallEndFinish


def derive_casings(brief: Brief, memo: Memo) -> tuple[Casing, ...]:
    """Return the casing of every opening that has one, wall by wall, from left to right."""
    walls = tuple(_wall(wall, brief.catalog.profiles) for wall in brief.walls)
    job = CasingJob(walls=tuple(w for w in walls if w.openings), grid=brief.style, floor=brief.floor.rise)
    return memo.run("casing", plan_casing, job) if job.walls else ()


def derive_wall_ends(brief: Brief, memo: Memo) -> tuple[WallEndCover, ...]:
    """Return what is done with the set's two free ends: left, right."""
    left, right = brief.ends
    ends = (_end(brief, brief.walls[0], "left", left), _end(brief, brief.walls[-1], "right", right))
    return memo.run("wall ends", plan_wall_ends, ends, grid=brief.style)


def _wall(wall: WallBrief, profiles: Mapping[str, Profile]) -> WallToCase:
    bases = [line for line in wall.trim if line.kind == "base"]
    return WallToCase(
        name=wall.name,
        length=wall.length,
        height=wall.height,
        openings=tuple(_opening(o, profiles[o.casing]) for o in wall.openings if o.casing is not None),
        base_top=max((line.top for line in bases), default=None),
        base_thickness=max((projection(profiles[line.profile]) for line in bases), default=0.0),
    )


def _opening(opening: OpeningBrief, profile: Profile) -> OpeningToCase:
    return OpeningToCase(
        name=opening.name,
        kind=opening.kind,
        left=opening.left,
        width=opening.width,
        sill=opening.sill,
        height=opening.height,
        rise=opening.rise,
        reveal=opening.reveal,
        profile=profile,
        plinth_blocks=opening.plinth_blocks,
        corner_blocks=opening.corner_blocks,
    )


def _end(brief: Brief, wall: WallBrief, side: End, finish: WallEndFinish) -> EndToCover:
    """Return one free end; strips are taken from timber of the framing's own kind of shop."""
    lumber = brief.catalog.lumber
    timbers = tuple(lumber[name] for name in sorted(lumber) if lumber[name].system == wall.framing.system)
    return EndToCover(
        wall=wall.name,
        side=side,
        finish=finish,
        length=wall.length,
        height=wall.height,
        sheet=wall.sheet,
        framing=wall.framing,
        timbers=timbers if finish == "cover strip" else (),
    )
