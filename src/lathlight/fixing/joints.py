"""What holds flats and walls together: screws, bolts or connectors; and brackets while the set is marked out.

Heights keep clear of what stands in the way of a driver: noggins, backing and plates that end at the stud. Which screws
hold a lapped corner has been decided by the carpentry; here they are named, and replaced where bolts or connectors are
wanted.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.carpentry import choose_screw, screw_heights
from lathlight.fixing.lengths import fit_bolt
from lathlight.fixing.model import CornerFixing, FixingFinding, JointFixing
from lathlight.units import snap
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from lathlight.carpentry import BuiltWall, Corner, Flat, Joint, Member
    from lathlight.fixing.model import JoinedWith
    from lathlight.project import FixingBrief
    from lathlight.units import LengthStyle

CONNECTOR_END = 600.0  # a connector's place from a joint's end [mm], about 2 ft: common practice, no source
CONNECTOR_APART = 1250.0  # two an 8 ft joint; longer ones get more [mm]: common practice, no source
TEMPORARY_END = 300.0  # a temporary bracket's place from a joint's end, clear of corner plates [mm]: common practice
DRIVER = 30.0  # room that a driver or a spanner needs beside a noggin [mm]: common practice, no source
LEAST_BITE = 12.0  # a screw shorter than this past the first stud holds nothing [mm]: common practice, no source
TOUCH = 1.0
WAYS = {
    "screws": "screws through one member into the other: near both ends, at most 600 mm apart, clear of noggins",
    "bolts": "bolts through both members: near both ends, at most 600 mm apart, clear of noggins",
    "connectors": "two connectors about 600 mm from the ends, more where they would be over 1250 mm apart",
}


def fix_joint(
    joint: Joint, flats: Mapping[str, Flat], rules: FixingBrief, grid: LengthStyle
) -> tuple[JointFixing, tuple[FixingFinding, ...]]:
    """Return what holds two flats of one wall together, and what would go wrong with it."""
    one, other = flats[joint.left], flats[joint.right]
    through, into = _facing(one, other, upright=joint.upright)
    low, high = _shared(one, other, upright=joint.upright)
    blocked = [*_in_the_way(one, through, upright=joint.upright), *_in_the_way(other, into, upright=joint.upright)]
    thick, deep = _sizes(through, into, upright=joint.upright)
    hardware, findings = _hardware(joint.id, joint.wall, rules, thick, deep)
    return (
        JointFixing(
            joint=joint.id,
            wall=joint.wall,
            upright=joint.upright,
            at=joint.at,
            joined=rules.joints,
            hardware=hardware,
            places=_places(rules.joints, low, high, blocked, grid),
            through=through.id,
            into=into.id,
            temporary=temporary_places(low, high, grid),
            why=_why(rules.joints, high - low, hardware),
        ),
        findings,
    )


def fix_corner(
    corner: Corner, walls: Mapping[str, BuiltWall], rules: FixingBrief, grid: LengthStyle
) -> tuple[CornerFixing, tuple[FixingFinding, ...]]:
    """Return what holds two walls together at their corner, and what would go wrong with it."""
    high = min(walls[corner.left].height, walls[corner.right].height)
    temporary = temporary_places(0.0, high, grid)
    if corner.screws is not None and rules.joints == "screws":
        own = corner.screws
        return (
            CornerFixing(
                corner=corner.id,
                joined="screws",
                hardware=own.screw.name,
                heights=own.heights,
                through=own.through,
                into=own.into,
                wedge=None,
                by_carpentry=True,
                temporary=temporary,
                why=own.why,
            ),
            (),
        )
    return _corner_of_its_own(corner, walls, rules, grid, high, temporary)


def _corner_of_its_own(
    corner: Corner, walls: Mapping[str, BuiltWall], rules: FixingBrief, grid: LengthStyle, high: float,
    temporary: tuple[float, ...],
) -> tuple[CornerFixing, tuple[FixingFinding, ...]]:  # fmt: skip
    left, right = _end_flat(walls[corner.left], at_right=True), _end_flat(walls[corner.right], at_right=False)
    first, second = _end_stud(left, at_right=True), _end_stud(right, at_right=False)
    lapped = corner.screws is not None
    if lapped and corner.screws is not None and corner.screws.through == second.id:
        (left, first), (right, second) = (right, second), (left, first)
    wedge = corner.wedge.wide / 2 if corner.wedge is not None else 0.0
    thick, deep = first.wide + wedge, second.deep if lapped else second.wide
    blocked = [*_at_end(walls[corner.left], at_right=True), *_at_end(walls[corner.right], at_right=False)]
    hardware, findings = _hardware(corner.id, left.wall, rules, thick, deep)
    return (
        CornerFixing(
            corner=corner.id,
            joined=rules.joints,
            hardware=hardware,
            heights=_places(rules.joints, 0.0, high, blocked, grid),
            through=first.id,
            into=second.id,
            wedge=corner.wedge.id if corner.wedge is not None else None,
            by_carpentry=False,
            temporary=temporary,
            why=_why(rules.joints, high, hardware),
        ),
        findings,
    )


def temporary_places(low: float, high: float, grid: LengthStyle) -> tuple[float, ...]:
    """Return a low and a high place for brackets over a stretch [mm]; one in its middle where two do not fit."""
    if high - low < 2 * TEMPORARY_END + TOUCH:
        return (snap((low + high) / 2, grid),)
    return snap(low + TEMPORARY_END, grid), snap(high - TEMPORARY_END, grid)


def connector_places(low: float, high: float, grid: LengthStyle) -> tuple[float, ...]:
    """Return two places about 600 mm from the ends of a stretch [mm], more where they would be far apart."""
    inset = min(CONNECTOR_END, (high - low) / 4)
    first, last = low + inset, high - inset
    steps = max(1, math.ceil((last - first) / CONNECTOR_APART - 1e-9))
    return tuple(snap(first + (last - first) * i / steps, grid) for i in range(steps + 1))


# --- places ----------------------------------------------------------------------------------------------------------


def _places(
    joined: JoinedWith, low: float, high: float, blocked: Sequence[tuple[float, float]], grid: LengthStyle
) -> tuple[float, ...]:
    wished = (
        connector_places(low, high, grid) if joined == "connectors" else screw_heights(low=low, high=high, grid=grid)
    )
    return tuple(sorted({_free(place, blocked, low, high, grid) for place in wished}))


def _free(place: float, blocked: Sequence[tuple[float, float]], low: float, high: float, grid: LengthStyle) -> float:
    """Return the nearest place to a wished one at which a driver reaches the member; itself where there is none."""
    tries = [place, *(edge for a, b in blocked for edge in (a - DRIVER, b + DRIVER))]
    free = [
        snap(each, grid)
        for each in tries
        if low + DRIVER <= each <= high - DRIVER
        and not any(a - DRIVER + TOUCH < each < b + DRIVER - TOUCH for a, b in blocked)
    ]
    return min(free, key=lambda each: (abs(each - place), each), default=place)


def _in_the_way(flat: Flat, member: Member, *, upright: bool) -> Iterable[tuple[float, float]]:
    """Yield the stretches along a member at which another one of its flat ends against it."""
    for m in flat.members:
        if m.upright == upright or m.id == member.id or m.role == "wedge":
            continue
        low, high = (m.x, m.x + m.wide) if upright else (m.z, m.z + m.high)
        face, far = (member.x, member.x + member.wide) if upright else (member.z, member.z + member.high)
        if abs(high - face) < TOUCH or abs(low - far) < TOUCH:
            yield (m.z, m.z + m.high) if upright else (m.x, m.x + m.wide)


def _at_end(wall: BuiltWall, *, at_right: bool) -> Iterable[tuple[float, float]]:
    """Yield what is in the way along a wall's end, storey by storey: what ends at the studs, plates between storeys."""
    edge = max(f.x1 for f in wall.flats) if at_right else min(f.x0 for f in wall.flats)
    for flat in wall.flats:
        if abs((flat.x1 if at_right else flat.x0) - edge) < TOUCH:
            yield from _in_the_way(flat, _end_stud(flat, at_right=at_right), upright=True)
            yield flat.z0 - flat.stock.width, flat.z0 + flat.stock.width


def _shared(one: Flat, other: Flat, *, upright: bool) -> tuple[float, float]:
    if upright:
        return max(one.z0, other.z0), min(one.z1, other.z1)
    return max(one.x0, other.x0), min(one.x1, other.x1)


# --- members and hardware --------------------------------------------------------------------------------------------


def _facing(one: Flat, other: Flat, *, upright: bool) -> tuple[Member, Member]:
    """Return the two members that meet at a joint: end studs, or the lower flat's top plate and the other's bottom."""
    if upright:
        return _end_stud(one, at_right=True), _end_stud(other, at_right=False)
    lower = max((m for m in one.members if m.role == "top plate"), key=lambda m: m.z)
    upper = min((m for m in other.members if m.role == "bottom plate"), key=lambda m: m.z)
    return lower, upper


def _end_stud(flat: Flat, *, at_right: bool) -> Member:
    studs = [m for m in flat.members if m.role == "end stud"]
    return max(studs, key=lambda m: m.x) if at_right else min(studs, key=lambda m: m.x)


def _end_flat(wall: BuiltWall, *, at_right: bool) -> Flat:
    bottom = [f for f in wall.flats if f.z0 <= 0]
    return bottom[-1] if at_right else bottom[0]


def _sizes(through: Member, into: Member, *, upright: bool) -> tuple[float, float]:
    return (through.wide, into.wide) if upright else (through.high, into.high)


def _hardware(
    identity: str, wall: str, rules: FixingBrief, thick: float, deep: float
) -> tuple[str | None, tuple[FixingFinding, ...]]:
    """Return the row that joins so much timber, and the finding where none on sale is long enough."""
    match rules.joints:
        case "connectors":
            return rules.connector.name, ()
        case "bolts":
            fit = fit_bolt(rules.fasteners, timber=thick + deep)
            name = None if fit.fastener is None else fit.fastener.name
            return name, () if name else (_too_short(identity, wall, fit.on_sale, fit.shortest),)
        case "screws":
            screws = [f for f in rules.fasteners if f.kind == "screw"]
            if not screws:
                return None, (_too_short(identity, wall, 0.0, thick + LEAST_BITE),)
            screw = choose_screw(screws, through=thick, into=deep)
            if screw.length < thick + LEAST_BITE:
                return None, (_too_short(identity, wall, screw.length, thick + LEAST_BITE),)
            return screw.name, ()


def _too_short(identity: str, wall: str, found: float, limit: float) -> FixingFinding:
    return FixingFinding(
        kind="joint fastener too short", wall=wall, place=identity, found=found, limit=limit, unit="mm"
    )


def _why(joined: JoinedWith, length: float, hardware: str | None) -> Working:
    return Working(
        formula=WAYS[joined],
        inputs=(("length of the joint", length, "mm"), ("with", hardware or "none is long enough", "")),
        source=COMMON_PRACTICE,
    )
