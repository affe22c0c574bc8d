"""The trim of a set from its brief and its built walls: what ``lathlight.mouldings`` needs, and nothing more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import projection, width
from lathlight.mouldings import (
    CasedOpening,
    Moulding,
    Parting,
    PictureMiddle,
    TrimPlan,
    TrimRules,
    TrimWall,
    plan_trim,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.camera import MiddleLine
    from lathlight.carpentry import BuiltWall
    from lathlight.catalog import Profile
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, OpeningBrief, TrimLine, WallBrief

SEEN_FIRST = 400.0  # a joint of a run is seen first within this of a picture's middle line [mm], common practice


def derive_trim(brief: Brief, walls: Sequence[BuiltWall], middles: Sequence[MiddleLine], memo: Memo) -> TrimPlan | None:
    """Return the trim of the set; None where the project asks for none."""
    if not any(wall.trim for wall in brief.walls):
        return None
    springs = {t.name: t.spring for t in brief.project.trim}
    ready = tuple(
        _trim_wall(own, built, middles, brief.catalog.profiles, springs)
        for own, built in zip(brief.walls, walls, strict=True)
    )
    swing = brief.project.workshop.mitre_swing
    rules = TrimRules(
        grid=brief.style,
        trim_cut=brief.saw.trim_cut,
        floor_gap=brief.project.floor.expansion_gap,
        **({} if swing is None else {"swing": swing}),
    )
    return memo.run("trim", plan_trim, ready, corners=tuple(c.angle for c in brief.corners), rules=rules)


def _trim_wall(
    own: WallBrief,
    built: BuiltWall,
    middles: Sequence[MiddleLine],
    profiles: Mapping[str, Profile],
    springs: Mapping[str, float | None],
) -> TrimWall:
    studs = sorted({m.x + m.wide / 2 for f in built.flats for m in f.members if m.upright and m.role != "wedge"})
    return TrimWall(
        name=own.name,
        length=own.length,
        height=own.height,
        lines=tuple(_moulding(line, profiles[line.profile], springs.get(line.name)) for line in own.trim),
        openings=tuple(_cased(opening, profiles) for opening in own.openings),
        partings=tuple(_partings(built)),
        studs=tuple(studs),
        middles=tuple(
            PictureMiddle(picture=m.picture, at=m.along, clear=SEEN_FIRST) for m in middles if m.wall == own.name
        ),
    )


def _moulding(line: TrimLine, profile: Profile, spring: float | None) -> Moulding:
    return Moulding(
        name=line.name,
        kind=line.kind,
        profile=profile,
        top=line.top,
        spring=(spring if spring is not None else profile.spring) if line.kind == "cornice" else None,
        loose=line.loose,
    )


def _cased(opening: OpeningBrief, profiles: Mapping[str, Profile]) -> CasedOpening:
    casing = None if opening.casing is None else profiles[opening.casing]
    return CasedOpening(
        name=opening.name,
        left=opening.left,
        width=opening.width,
        sill=opening.sill,
        height=opening.height,
        reveal=opening.reveal,
        casing=0.0 if casing is None else width(casing),
        thickness=0.0 if casing is None else projection(casing),
    )


def _partings(built: BuiltWall) -> list[Parting]:
    """Return the joints that are taken apart, each over the stretch that its flats share."""
    flats = {flat.name: flat for flat in built.flats}
    found: list[Parting] = []
    for joint in built.joints:
        a, b = flats[joint.left], flats[joint.right]
        low, high = (max(a.z0, b.z0), min(a.z1, b.z1)) if joint.upright else (max(a.x0, b.x0), min(a.x1, b.x1))
        found.append(Parting(upright=joint.upright, at=joint.at, low=low, high=high))
    return found
