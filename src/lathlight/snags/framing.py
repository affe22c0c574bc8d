"""Frames: too slender, too open for their sheet, weak at openings, without backing where something hangs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.timber import TOUCH, bands, bays_at
from lathlight.snags.wording import length, lengths, mass
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.carpentry import BuiltWall, Flat, FramedOpening
    from lathlight.plan import Plan
    from lathlight.project import Load, WallBrief
    from lathlight.snags.timber import Bay

FAMILY = "framing"
SLENDER = 80.0  # height of an upright over its depth, common practice
HEADER_SLENDER = 40.0  # span of a header over its height, common practice: it carries sheet and trim, no floor
TRIM_SPAN = 610.0  # trim wants backing where uprights stand further apart (24 in) [mm], common practice
OFF_TIMBER = 20.0  # a fixing this near to timber finds it [mm], common practice


@check(
    name="slender-framing",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Uprights too slender for their height",
    why="a slender frame whips when it is carried, bows as it dries, and lets the face ripple",
    limit="height of an upright at most 80 times its depth behind the sheet",
    source=COMMON_PRACTICE,
    remedy="Take deeper timber, or split the wall's height into two flats.",
)
def slender_framing(plan: Plan) -> Iterable[Finding]:
    """Find flats whose longest upright is too slender, one finding a flat."""
    for flat in plan.flats:
        uprights = [m for m in flat.members if m.upright and m.role not in ("wedge", "packing")]
        if not uprights:
            continue
        worst = max(uprights, key=lambda m: m.length / m.deep)
        ratio = worst.length / worst.deep
        if ratio > SLENDER + TOUCH:
            yield Finding(
                place=flat.id,
                what=f"Flat {flat.id} has uprights {length(worst.length, plan)} long and only "
                f"{length(worst.deep, plan)} deep, {ratio:.0f} to 1 where {SLENDER:.0f} to 1 is the most",
                figure=ratio,
                limit=SLENDER,
                unit="",
                inputs=(("length", worst.length, "mm"), ("depth", worst.deep, "mm"), ("upright", worst.id, "")),
            )


@check(
    name="slender-header",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Header too slender for its span",
    why="a header that sags binds the door and cracks the seam above it",
    limit="span of a header at most 40 times its height",
    source=COMMON_PRACTICE,
    remedy="Stand the header on edge, double it, or take deeper timber for it.",
)
def slender_header(plan: Plan) -> Iterable[Finding]:
    """Find headers that span too far."""
    for flat in plan.flats:
        for member in flat.members:
            if member.role == "header" and member.length / member.high > HEADER_SLENDER + TOUCH:
                ratio = member.length / member.high
                yield Finding(
                    place=member.id,
                    what=f"Header {member.id} spans {length(member.length, plan)} and is only "
                    f"{length(member.high, plan)} high, {ratio:.0f} to 1 where {HEADER_SLENDER:.0f} to 1 is the most",
                    figure=ratio,
                    limit=HEADER_SLENDER,
                    unit="",
                )


@check(
    name="sheet-too-thin",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Sheet too thin for the space between studs",
    why="the face sinks between the studs, ripples under paint and drums",
    limit="the sheet's own largest distance between studs, centre to centre, from the catalogue",
    source="the sheet's row in the catalogue",
    remedy="Set stud_spacing to the sheet's own distance or less, or take a thicker sheet.",
)
def sheet_too_thin(plan: Plan) -> Iterable[Finding]:
    """Find bays wider than their sheet allows, one finding a flat."""
    step = float(plan.brief.style.step)
    for flat in plan.flats:
        widest = max((bay.centres for z in bands(flat) for bay in bays_at(flat, z)), default=0.0)
        limit = flat.sheet.stud_spacing
        if widest > limit + step + TOUCH:
            found, wanted = lengths(widest, limit, plan)
            yield Finding(
                place=flat.id,
                what=f"Flat {flat.id} has studs {found} apart, centre to centre, behind {flat.sheet.name}, "
                f"which spans {wanted}",
                figure=widest,
                limit=limit,
                inputs=(("sheet", flat.sheet.name, ""),),
            )


@check(
    name="opening-near-end",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Opening too near a flat's end",
    why="there is no room for a trimmer beside the end stud, so that the leg twists and the opening racks",
    limit="two stud widths between the rough opening and the flat's end",
    source=COMMON_PRACTICE,
    remedy="Move the opening away from the end, or lengthen the wall.",
)
def opening_near_end(plan: Plan) -> Iterable[Finding]:
    """Find openings with less than two stud widths beside them."""
    for flat in plan.flats:
        limit = 2 * flat.stock.width
        for opening in flat.openings:
            if opening.near_end < limit - TOUCH:
                found, wanted = lengths(opening.near_end, limit, plan)
                yield Finding(
                    place=opening.id,
                    what=f"{_titled(opening)} leaves {found} to the end of flat {flat.id} where {wanted} is wanted",
                    figure=opening.near_end,
                    limit=limit,
                )


@check(
    name="opening-without-header",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Opening without a header",
    why="nothing but the top plate carries the sheet over the opening, and it sags",
    limit="one header over the whole rough width",
    source=COMMON_PRACTICE,
    remedy="Lower the opening or raise the wall until a header fits under the top plate.",
)
def opening_without_header(plan: Plan) -> Iterable[Finding]:
    """Find openings that no header spans."""
    for flat in plan.flats:
        headers = [m for m in flat.members if m.role == "header"]
        for opening in flat.openings:
            x, z, wide, high = opening.rough
            over = [
                m for m in headers if m.x <= x + TOUCH and m.x + m.wide >= x + wide - TOUCH and m.z >= z + high - 1.0
            ]
            if not over and z + high < flat.z1 - TOUCH:
                room = flat.z1 - flat.stock.width - (z + high)
                yield Finding(
                    place=opening.id,
                    what=f"{_titled(opening)} leaves {length(max(room, 0.0), plan)} under the top plate "
                    f"where a header takes {length(flat.stock.width, plan)}",
                    figure=max(room, 0.0),
                    limit=flat.stock.width,
                )


@check(
    name="door-without-strap",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Door without a sill strap",
    why="the bottom plate is cut through, so that the legs spread when the flat is carried or slid",
    limit="one flat bar across the foot of every opening to the floor",
    source=COMMON_PRACTICE,
    remedy="Add a sill strap to the catalogue's fittings, or a loose batten across the foot for every move.",
)
def door_without_strap(plan: Plan) -> Iterable[Finding]:
    """Find openings to the floor that nothing ties at the foot."""
    for flat in plan.flats:
        for opening in flat.openings:
            if opening.rough[1] <= TOUCH and flat.z0 <= TOUCH and opening.strap is None:
                yield Finding(
                    place=opening.id,
                    what=f"{_titled(opening)} has no strap across its foot, {length(opening.rough[2], plan)} wide",
                    figure=0.0,
                    limit=opening.rough[2],
                )


@check(
    name="load-without-backing",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Something hangs where there is no timber",
    why="a hook in sheet alone pulls out and what hangs on it falls",
    limit="timber within {20 mm} of the fixing",
    source=COMMON_PRACTICE,
    remedy="Move it along the wall, or lower, until a stud, a plate or a noggin lies behind its fixing, or hang it "
    "from a batten that is screwed to two studs.",
)
def load_without_backing(plan: Plan) -> Iterable[Finding]:
    """Find props that hang on sheet alone."""
    briefs = {w.name: w for w in plan.brief.walls if w.loads}
    for wall in plan.walls:
        brief = briefs.get(wall.name)
        if brief is None:
            continue
        for load in brief.loads:
            distance = _to_timber(wall, load.along, load.height)
            if distance > OFF_TIMBER:
                yield _unbacked(load, wall, distance, plan)


def _unbacked(load: Load, wall: BuiltWall, distance: float, plan: Plan) -> Finding:
    """Return the finding of a prop that hangs so far from timber [mm]; one above its wall has its own words."""
    what = f"{load.name} ({mass(load.mass, plan)})"
    found, wanted = lengths(distance, OFF_TIMBER, plan)
    words = f"{what} hangs {found} from the nearest timber of wall {wall.name} where at most {wanted} does"
    remedy = None
    over = load.height - wall.height
    if over > TOUCH:
        words = f"{what} reaches {length(over, plan)} above wall {wall.name}, which is {length(wall.height, plan)} high"
        remedy = f"Hang it lower by at least {length(over, plan)} (above_floor), or make the wall higher."
    return Finding(
        place=f"{wall.name}/{load.name}",
        what=words,
        figure=distance,
        limit=OFF_TIMBER,
        remedy=remedy,
        inputs=(
            ("along the wall", load.along, "mm"),
            ("height above the finished floor", load.height - plan.brief.floor.rise, "mm"),
        ),
    )


def _to_timber(wall: BuiltWall, x: float, z: float) -> float:
    """Return the distance from a point of the wall to the nearest member [mm]."""
    best = float("inf")
    for flat in wall.flats:
        for m in flat.members:
            dx = max(m.x - x, 0.0, x - (m.x + m.wide))
            dz = max(m.z - z, 0.0, z - (m.z + m.high))
            best = min(best, (dx**2 + dz**2) ** 0.5)
    return best


@check(
    name="trim-without-backing",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Trim line without timber behind it",
    why="pins find nothing to hold in and the moulding comes off at the first move",
    limit="uprights or a noggin at most {610 mm} apart, centre to centre, along a trim line",
    source=COMMON_PRACTICE,
    remedy="Add noggins behind the line, or glue it as well as pin it.",
)
def trim_without_backing(plan: Plan) -> Iterable[Finding]:
    """Find trim lines over bays that are too wide, one finding a line."""
    step = float(plan.brief.style.step)
    for wall, brief in _with_brief(plan):
        for line in brief.trim:
            z = (line.top + line.bottom) / 2
            open_bays = [
                bay
                for flat in wall.flats
                if flat.z0 < z < flat.z1
                for bay in bays_at(flat, z)
                if bay.centres > TRIM_SPAN + step and not _is_bridged(flat, bay, line.bottom, line.top)
            ]
            if open_bays:
                widest = max(bay.centres for bay in open_bays)
                found, wanted = lengths(widest, TRIM_SPAN, plan)
                yield Finding(
                    place=f"{wall.name}/{line.name}",
                    what=f"{line.name} on wall {wall.name} runs {found} between uprights without backing "
                    f"where {wanted} is the most",
                    figure=widest,
                    limit=TRIM_SPAN,
                )


def _with_brief(plan: Plan) -> Iterator[tuple[BuiltWall, WallBrief]]:
    briefs = {w.name: w for w in plan.brief.walls}
    return ((wall, briefs[wall.name]) for wall in plan.walls if wall.name in briefs)


def _is_bridged(flat: Flat, bay: Bay, low: float, high: float) -> bool:
    return any(
        not m.upright
        and m.x <= bay.left + 1.0
        and m.x + m.wide >= bay.right - 1.0
        and m.z < high
        and m.z + m.high > low
        for m in flat.members
    )


def _titled(opening: FramedOpening) -> str:
    return f"{opening.kind.capitalize()} {opening.name}"


CHECKS: tuple[Check, ...] = (
    load_without_backing,
    slender_framing,
    slender_header,
    sheet_too_thin,
    opening_near_end,
    opening_without_header,
    door_without_strap,
    trim_without_backing,
)
