"""Rules, mouldings and built walls for the fixing's tests: our own invention."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from lathlight.catalog import drop, load_catalog, projection
from lathlight.fixing import FixingJob, FixingPlan, plan_fixing
from lathlight.layout import Layout, Pose
from lathlight.mouldings import Strip
from lathlight.project import FixingBrief

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall, Flat, Member, SheetPiece
    from lathlight.plan import Plan

CATALOG = load_catalog()
METRIC = tuple(
    sorted(
        (f for f in CATALOG.fasteners.values() if "in" not in f.name.split() and not f.name.startswith("nail")),
        key=lambda f: f.name,
    )
)
RULES = FixingBrief(
    sheets="glue",
    hold="weights",
    weight=CATALOG.weights["stage weight"],
    glue=CATALOG.adhesives["PVA wood glue"],
    moulding_glue=CATALOG.adhesives["construction adhesive"],
    filler=CATALOG.adhesives["fine filler"],
    fasteners=METRIC,
    screw_spacing=200.0,
    brad_spacing=300.0,
    joints="screws",
    bracket=CATALOG.brackets["angle bracket 50"],
    connector=CATALOG.brackets["concealed connector"],
    bumper=CATALOG.brackets["bumper 40"],
)
ROOM = ((-20_000.0, -20_000.0), (20_000.0, -20_000.0), (20_000.0, 20_000.0), (-20_000.0, 20_000.0))


def level(wall: str, profile: str, *, bottom: float, x0: float, x1: float, **changes: Any) -> Strip:
    """Return a level strip of a trim line."""
    row = CATALOG.profiles[profile]
    strip = Strip(
        id=f"{wall}/{row.kind}/1",
        wall=wall,
        use="trim",
        kind=row.kind,
        belongs_to=row.kind,
        profile=row,
        upright=False,
        x0=x0,
        z0=bottom,
        x1=x1,
        z1=bottom + drop(row),
        stands_out=projection(row),
        loose=False,
    )
    return replace(strip, **changes)


def frame(wall: str, profile: str, *, x0: float, x1: float, z0: float, z1: float) -> tuple[Strip, ...]:
    """Return the four sides of a moulding frame."""
    row = CATALOG.profiles[profile]
    broad = drop(row)
    top = level(wall, profile, bottom=z1 - broad, x0=x0 + broad, x1=x1 - broad, use="moulding frame")
    top = replace(top, id=f"{wall}/frame/top", belongs_to="panels")
    bottom = replace(top, id=f"{wall}/frame/bottom", z0=z0, z1=z0 + broad)
    left = replace(top, id=f"{wall}/frame/left", upright=True, x0=x0, x1=x0 + broad, z0=z0, z1=z1)
    right = replace(left, id=f"{wall}/frame/right", x0=x1 - broad, x1=x1)
    return top, right, bottom, left


def strips_on(walls: tuple[BuiltWall, ...], **changes: Any) -> tuple[Strip, ...]:
    """Return base, rail and one moulding frame on every wall."""
    found: list[Strip] = []
    for wall in walls:
        found.append(level(wall.name, "base 120", bottom=0.0, x0=0.0, x1=wall.length, **changes))
        found.append(level(wall.name, "picture rail 44", bottom=2000.0, x0=0.0, x1=wall.length, **changes))
        found += frame(wall.name, "panel 30", x0=100.0, x1=wall.length - 100.0, z0=300.0, z1=1800.0)
    return tuple(found)


def fixed(plan: Plan, *strips: Strip, rules: FixingBrief = RULES, **changes: Any) -> FixingPlan:
    """Return the fixing of a plan's walls under rules and strips of our own, far from any room's wall."""
    return plan_fixing(replace(job_of(plan, *strips, rules=rules), **changes))


def job_of(plan: Plan, *strips: Strip, rules: FixingBrief = RULES) -> FixingJob:
    """Return the job of a plan's walls."""
    return FixingJob(
        walls=plan.walls,
        corners=plan.corners,
        strips=strips,
        rules=rules,
        fittings=plan.brief.hardware,
        hours_a_day=8.0,
        grid=plan.brief.style,
        layout=Layout(walls=plan.layout.walls, pose=Pose(x=0.0, y=0.0, turn=0.0)),
        room=ROOM,
        pillars=(),
    )


def mirrored(wall: BuiltWall) -> BuiltWall:
    """Return a wall's flats, members and sheets as seen in a mirror; ids stay."""
    length = wall.length
    return replace(wall, flats=tuple(_mirrored_flat(flat, length) for flat in reversed(wall.flats)), joints=())


def _mirrored_flat(flat: Flat, length: float) -> Flat:
    return replace(
        flat,
        x0=length - flat.x1,
        x1=length - flat.x0,
        sheet_x0=length - flat.sheet_x1,
        sheet_x1=length - flat.sheet_x0,
        members=tuple(_mirrored_member(m, length) for m in flat.members),
        pieces=tuple(_mirrored_piece(p, length) for p in flat.pieces),
    )


def _mirrored_member(member: Member, length: float) -> Member:
    section = member.section and tuple((length - x, behind) for x, behind in reversed(member.section))
    return replace(member, x=length - member.x - member.wide, section=section)


def _mirrored_piece(piece: SheetPiece, length: float) -> SheetPiece:
    def ring(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((length - x, z) for x, z in reversed(points))

    return replace(piece, outline=ring(piece.outline), holes=tuple(ring(hole) for hole in piece.holes))


def mirrored_strip(strip: Strip, length: float) -> Strip:
    """Return a strip as seen in a mirror."""
    return replace(strip, x0=length - strip.x1, x1=length - strip.x0)
