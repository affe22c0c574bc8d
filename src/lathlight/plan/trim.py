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
    block_bands,
    plan_trim,
    proportions_of,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.camera import MiddleLine
    from lathlight.carpentry import BuiltWall
    from lathlight.catalog import Profile
    from lathlight.mouldings import Casing, Proportion
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, FloorBrief, OpeningBrief, TrimLine, WallBrief

SEEN_FIRST = 400.0  # a joint of a run is seen first within this of a picture's middle line [mm], common practice


def derive_trim(
    brief: Brief, walls: Sequence[BuiltWall], middles: Sequence[MiddleLine], casings: Sequence[Casing], memo: Memo
) -> TrimPlan | None:
    """Return the trim of the set; None where the project asks for none."""
    if not any(wall.trim for wall in brief.walls):
        return None
    springs = {t.name: t.spring for t in brief.project.trim}
    ready = tuple(
        _trim_wall(own, built, middles, brief.catalog.profiles, springs, casings)
        for own, built in zip(brief.walls, walls, strict=True)
    )
    swing = brief.project.workshop.mitre_swing
    rules = TrimRules(
        grid=brief.style,
        trim_cut=brief.saw.trim_cut,
        floor_gap=_gap_to_hide(brief.floor),
        floor=brief.floor.rise,
        **({} if swing is None else {"swing": swing}),
    )
    return memo.run("trim", plan_trim, ready, corners=tuple(c.angle for c in brief.corners), rules=rules)


def derive_proportions(brief: Brief, casings: Sequence[Casing]) -> tuple[Proportion, ...]:
    """Return how trim and casing stand to their walls, beside the rules that the trade gives for them."""
    profiles = brief.catalog.profiles
    walls = tuple(
        TrimWall(
            name=wall.name,
            length=wall.length,
            height=wall.height,
            lines=tuple(_moulding(line, profiles[line.profile], None) for line in wall.trim),
        )
        for wall in brief.walls
    )
    return proportions_of(walls, casings, floor=brief.floor.rise)


def _gap_to_hide(floor: FloorBrief) -> float:
    """Return the gap that the base has to cover: none where there is no covering, or where flats stand on it."""
    return floor.expansion_gap if floor.covering != "none" and floor.stands_on == "floor" else 0.0


def _trim_wall(
    own: WallBrief,
    built: BuiltWall,
    middles: Sequence[MiddleLine],
    profiles: Mapping[str, Profile],
    springs: Mapping[str, float | None],
    casings: Sequence[Casing],
) -> TrimWall:
    studs = sorted({m.x + m.wide / 2 for f in built.flats for m in f.members if m.upright and m.role != "wedge"})
    return TrimWall(
        name=own.name,
        length=own.length,
        height=own.height,
        lines=tuple(_moulding(line, profiles[line.profile], springs.get(line.name)) for line in own.trim),
        openings=cased_openings(own, profiles, casings),
        partings=partings_of(built),
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
        inside=line.inside,
        free=line.ends,
    )


def cased_openings(
    wall: WallBrief, profiles: Mapping[str, Profile], casings: Sequence[Casing]
) -> tuple[CasedOpening, ...]:
    """Return a wall's openings as lines and frames meet them, with their casing and its blocks."""
    own = {casing.opening: casing for casing in casings if casing.wall == wall.name}
    return tuple(_cased(opening, profiles, own.get(opening.name)) for opening in wall.openings)


def _cased(opening: OpeningBrief, profiles: Mapping[str, Profile], pieces: Casing | None) -> CasedOpening:
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
        blocks=() if pieces is None else block_bands(pieces),
    )


def partings_of(built: BuiltWall) -> tuple[Parting, ...]:
    """Return the joints that are taken apart, each over the stretch that its flats share."""
    flats = {flat.name: flat for flat in built.flats}
    found: list[Parting] = []
    for joint in built.joints:
        a, b = flats[joint.left], flats[joint.right]
        low, high = (max(a.z0, b.z0), min(a.z1, b.z1)) if joint.upright else (max(a.x0, b.x0), min(a.x1, b.x1))
        found.append(Parting(upright=joint.upright, at=joint.at, low=low, high=high))
    return tuple(found)
