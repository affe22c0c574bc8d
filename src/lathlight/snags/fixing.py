"""Fixing: screws and brads that come through or hold nothing, sheets and trim that nothing holds, joints too thick.

Which fastener goes where, and what does not fit, is found where the fixing is planned (``lathlight.fixing``); here it
gets its words. Where no brad fits, mouldings are glued alone: that is the plan's own answer, so it is only worth
knowing.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed
from lathlight.working import COMMON_PRACTICE, GEOMETRY

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.fixing import FixingFinding
    from lathlight.mouldings import Strip
    from lathlight.plan import Plan

FAMILY = "fixing"
ENOUGH = 2  # screws that hold a moulding frame as a whole, common practice


@check(
    name="sheet-held-by-nothing",
    family=FAMILY,
    severity=Severity.STOPS,
    title="A sheet that nothing holds",
    why="such a sheet falls off its frame",
    limit="glue, or at least one screw or pin, for every sheet",
    source=GEOMETRY,
    remedy="Set sheets = 'glue' under [fixing], or add fasteners of other lengths to the catalogue.",
)
def sheet_held_by_nothing(plan: Plan) -> Iterable[Finding]:
    """Find sheets with neither glue nor a fastener, one finding a wall."""
    for wall, found in _told(plan, "sheet held by nothing"):
        number = len(found)
        yield Finding(
            place=wall,
            what=f"{number} {'sheet' if number == 1 else 'sheets'} of wall {wall} {'has' if number == 1 else 'have'} "
            "neither glue nor a screw or pin that fits",
            figure=0.0,
            limit=1.0,
            unit="",
            inputs=tuple(("sheet", f.place, "") for f in found),
        )


@check(
    name="screw-through-skin",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="No screw or pin fits sheet and timber",
    why="a longer one comes out where hands go, a shorter one does not hold, so it is left out",
    limit="{12 mm} of hold in the timber, the point {2 mm} short of its far side",
    source=COMMON_PRACTICE,
    remedy="Add a fastener of that length to the catalogue ([[catalog.fasteners]]), or set sheets = 'glue' under "
    "[fixing].",
)
def screw_through_skin(plan: Plan) -> Iterable[Finding]:
    """Find places of sheets where no fastener fits, one finding a wall."""
    for wall, found in _told(plan, "fastener through the timber"):
        worst = max(found, key=lambda f: f.found - f.limit)
        number = sum(f.number for f in found)
        yield Finding(
            place=wall,
            what=f"At {_places(number)} of wall {wall} no screw or pin fits the sheet, since {_misfit(worst, plan)}",
            figure=worst.found,
            limit=worst.limit,
            inputs=worst.inputs,
        )


@check(
    name="brad-through-skin",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Mouldings that no brad can hold",
    why="a point that holds comes through the skin, so these are glued alone and taped until the glue has set",
    limit="{6 mm} of hold past the moulding, the point {2 mm} short of the far side of all that it enters",
    source=COMMON_PRACTICE,
    remedy="Leave it so, add a brad short enough to the catalogue ([[catalog.fasteners]]), or take a thicker sheet.",
)
def brad_through_skin(plan: Plan) -> Iterable[Finding]:
    """Find pieces of moulding that take no brad at all, one finding for the whole set."""
    found = [f for f in plan.fixing.findings if f.kind == "brad through the skin"]
    if found:
        worst = max(found, key=lambda f: f.found - f.limit)
        number = sum(f.number for f in found)
        pieces = f"{number} {'piece' if number == 1 else 'pieces'}"
        yield Finding(
            place="set",
            what=f"No brad fits {pieces} of {listed(list(dict.fromkeys(_line(plan, f) for f in found)))}, since "
            f"{_misfit(worst, plan)}",
            figure=worst.found,
            limit=worst.limit,
            inputs=worst.inputs,
        )


def _line(plan: Plan, found: FixingFinding) -> str:
    """Return what the pieces of a finding belong to: a line or tier by its name, casing by its opening's."""
    first = next((value for name, value, _ in found.inputs if name == "first piece"), "")
    uses = {strip.id: strip.use for strip in plan.strips}
    return f"the casing of {found.place}" if uses.get(str(first)) in ("casing", "block") else found.place


@check(
    name="trim-not-held",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Trim with too little timber behind it",
    why="it comes off at the first knock or move",
    limit="two screws into timber for a piece, or a moulding frame, that comes off; some timber behind any other",
    source=COMMON_PRACTICE,
    remedy="Move the line to a plate or a noggin, set stud_spacing smaller, or take loose off so that it is glued.",
)
def trim_not_held(plan: Plan) -> Iterable[Finding]:
    """Find pieces that hold in no timber, one finding a line on a wall; loose ones that nothing holds spoil the set."""
    strips = {strip.id: strip for strip in plan.strips}
    frames = _screws_of_frames(plan)
    for wall, told in _told(plan, "no timber under the trim"):
        found = [f for f in told if frames.get(_frame_of(strips[f.place]), 0) < ENOUGH]
        for line in dict.fromkeys(strips[f.place].belongs_to for f in found):
            here = [f for f in found if strips[f.place].belongs_to == line]
            worst = min(here, key=lambda f: f.found - f.limit)
            yield _not_held(plan, f"{line} on wall {wall}", f"{wall}/{line}", strips[worst.place], worst, len(here))


def _not_held(plan: Plan, line: str, place: str, strip: Strip, worst: FixingFinding, number: int) -> Finding:
    more = "" if number == 1 else f", the worst of {number} pieces"
    screws = "1 screw" if worst.found == 1 else f"{worst.found:.0f} screws"
    what = f"{line} comes off for a move and has timber for {screws} in a piece where {worst.limit:.0f} are wanted"
    if not strip.loose:
        what = f"{line} has a piece {length(strip.length, plan)} long with no timber behind it"
    return Finding(
        place=place,
        what=f"{what}{more}",
        figure=worst.found,
        limit=worst.limit,
        unit="",
        severity=Severity.SPOILS if strip.loose and not worst.found else None,
        inputs=(("piece", strip.id, ""), *worst.inputs),
    )


def _frame_of(strip: Strip) -> str:
    """Return the id of the moulding frame that a strip is a side of; "" of any other strip."""
    return strip.id.rpartition("/")[0] if strip.use == "moulding frame" else ""


def _screws_of_frames(plan: Plan) -> Counter[str]:
    """Count the screws that hold each loose moulding frame: its four sides come off in one."""
    strips = {strip.id: strip for strip in plan.strips if strip.use == "moulding frame"}
    found: Counter[str] = Counter()
    for fixed in plan.fixing.strips:
        if fixed.strip in strips:
            found[_frame_of(strips[fixed.strip])] += len(fixed.screws)
    return found


@check(
    name="joint-fastener-too-short",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="No screw or bolt is long enough for a joint between flats",
    why="flats that are not pulled together gape at the face",
    limit="{12 mm} of hold past the first stud for a screw; both studs, washers and nut for a bolt",
    source=COMMON_PRACTICE,
    remedy="Add a longer screw or bolt to the catalogue ([[catalog.fasteners]]), or set joints = 'connectors' under "
    "[fixing].",
)
def joint_fastener_too_short(plan: Plan) -> Iterable[Finding]:
    """Find joints and corners that no fastener on sale goes through, one finding a wall."""
    for _, found in _told(plan, "joint fastener too short"):
        worst = max(found, key=lambda f: f.limit - f.found)
        longest, wanted = lengths(worst.found, worst.limit, plan)
        more = "" if len(found) == 1 else f", the worst of {len(found)}"
        there = f"the longest there is has {longest}" if worst.found else "there is none of the kind"
        yield Finding(
            place=worst.place,
            what=f"{worst.place} wants a screw or bolt {wanted} long and {there}{more}",
            figure=worst.found,
            limit=worst.limit,
        )


# --- what the checks share ---------------------------------------------------------------------------------------


def _told(plan: Plan, kind: str) -> Iterator[tuple[str, list[FixingFinding]]]:
    """Yield every wall with its findings of a kind."""
    told = [f for f in plan.fixing.findings if f.kind == kind]
    for wall in dict.fromkeys(f.wall for f in told):
        yield wall, [f for f in told if f.wall == wall]


def _places(number: int) -> str:
    return "1 place" if number == 1 else f"{number} places"


def _misfit(found: FixingFinding, plan: Plan) -> str:
    """Return what is wrong with the fasteners on sale: too long, too short, or none."""
    if not found.found:
        return "there is none of the kind"
    if found.found > found.limit:
        on_sale, most = lengths(found.found, found.limit, plan)
        return f"the shortest that holds is {on_sale} long where {most} is the most"
    shortest = next((value for name, value, _ in found.inputs if name == "shortest that holds"), found.limit)
    on_sale, least = lengths(found.found, float(shortest), plan)
    return f"the longest there is has {on_sale} where {least} is the least that holds"


CHECKS: tuple[Check, ...] = (
    sheet_held_by_nothing,
    screw_through_skin,
    joint_fastener_too_short,
    trim_not_held,
    brad_through_skin,
)
