"""Paint: what no tool reaches, what shines, what stays raw, what runs out, and sheets that warp.

What would go wrong is found where the paint is planned (``lathlight.finishing``); here it gets its words, one snag a
wall or paint. Which colour goes where is not judged.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed, volumes
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.finishing import FinishFault
    from lathlight.plan import Plan
    from lathlight.snags.check import Inputs

FAMILY = "paint"
WARPS_FROM = 6.0  # sheet of fibre from this thickness bows where one side is sealed [mm], trade's reports
FIBRE = ("MDF", "hardboard")
TOUCH = 1e-6
EDGES = {
    "joint edge": "at joints",
    "top edge": "along the top",
    "wall end": "at the set's ends",
    "reveal": "in openings",
}


@check(
    name="gap-narrower-than-brush",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Gap between mouldings that no brush reaches into",
    why="paint is smeared in and stays uneven, at every repaint anew",
    limit="the narrowest brush at hand (brush under [finish]); 25 mm (1 in) where not stated",
    source=COMMON_PRACTICE,
    remedy="Move one of the two mouldings, or state a narrower brush under [finish].",
)
def gap_narrower_than_brush(plan: Plan) -> Iterable[Finding]:
    """Find gaps that no brush reaches into, one finding a wall."""
    for wall, worst, number in _by_place(plan, "gap narrower than a brush"):
        found, brush = lengths(worst.figure, worst.limit, plan)
        among = "" if number == 1 else f", the narrowest of {number},"
        yield _finding(
            plan, worst, f"{_gap(worst, wall)}{among} is {found} wide where the narrowest brush takes {brush}"
        )


@check(
    name="mouldings-before-paint",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Mouldings fixed before painting where no roller reaches",
    why="all that lies between them is brush work, coat by coat",
    limit="the narrowest roller at hand (roller under [finish]); a usual small one where not stated",
    source=COMMON_PRACTICE,
    remedy="Set mouldings = 'before fixing' under [finish], state a narrower roller, or move one of the two.",
)
def mouldings_before_paint(plan: Plan) -> Iterable[Finding]:
    """Find gaps that the order of work leaves to the brush, one finding for the whole set: the order is one."""
    told = _faults(plan, "mouldings glued before painting")
    if told:
        worst = min(told, key=lambda f: f.figure)
        found, roller = lengths(worst.figure, worst.limit, plan)
        among = "" if len(told) == 1 else f", the narrowest of {len(told)},"
        yield _finding(
            plan,
            worst,
            f"{_gap(worst, worst.place)}{among} is {found} wide where the narrowest roller takes {roller}, and the "
            "mouldings are fixed before they are painted",
        )


@check(
    name="glossy-under-flash",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Glossy paint on a set that will be flashed",
    why="flash leaves hot spots on it, and touching up shows",
    limit="matt or flat; one class above that is only worth knowing",
    source="photographers' reports; common practice",
    remedy="Take a matt or flat paint, or try a board of it under the lights first.",
)
def glossy_under_flash(plan: Plan) -> Iterable[Finding]:
    """Find a paint too shiny for flash."""
    for paint, worst, _ in _by_place(plan, "glossy sheen under flash"):
        above = round(worst.figure - worst.limit)
        sheen = _said(worst, "sheen")
        classes = "one class" if above == 1 else f"{above} classes"
        yield _finding(
            plan,
            worst,
            f"The paint {paint} is {sheen}, {classes} of sheen above {_said(worst, 'glares least')}, on a set that "
            "will be flashed",
            severity=Severity.KNOW if above == 1 else None,
        )


@check(
    name="paint-short",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Paint at hand does not last for its coats",
    why="the last coat stops on the wall, and what is bought then is of another batch",
    limit="all coats with their losses, without what is kept for touching up",
    source=COMMON_PRACTICE,
    remedy="Buy the rest now and mix all of it in one bucket, or take paint_at_hand or primer_at_hand out so that "
    "enough is put on the list.",
)
def paint_short(plan: Plan) -> Iterable[Finding]:
    """Find paints of which too little is at hand."""
    for paint, worst, _ in _by_place(plan, "paint short of its coats"):
        have, wanted = volumes(worst.figure, worst.limit, plan)
        coats, lasts = _said(worst, "coats wanted"), _said(worst, "whole coats it lasts for")
        enough = f"enough for {lasts} of {coats} coats" if lasts != "0" else "not enough for one coat"
        yield _finding(
            plan,
            worst,
            f"There are {have} of {paint} at hand where {wanted} are wanted, {enough}",
        )


@check(
    name="raw-edge",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Raw edges left unpainted",
    why="a pale edge glints beside dark paint, and raw timber takes up damp",
    limit="every edge that can be seen painted",
    source=COMMON_PRACTICE,
    remedy="Set paint_edges = true under [finish].",
)
def raw_edge(plan: Plan) -> Iterable[Finding]:
    """Find edges of sheets and ends of walls that stay bare, one finding for the whole set."""
    bare = _faults(plan, "raw edge left unpainted")
    if bare:
        long = math.fsum(f.figure for f in bare)
        where = listed([EDGES.get(kind, kind) for kind in dict.fromkeys(_said(f, "kind") for f in bare)])
        yield Finding(
            place="set",
            what=f"{length(long, plan)} of raw edge {where} stays without paint",
            figure=long,
            limit=0.0,
            inputs=(("edges", float(len(bare)), ""),),
        )


@check(
    name="painted-one-side",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Sheets of fibre painted on one side only",
    why="the raw back takes up damp that the front does not, and a sheet that is not held all over bows",
    limit="both sides of MDF and hardboard from {6 mm} on",
    source="common practice: trade's reports of panels that warp",
    remedy="Set paint_backs = true under [finish], one coat of primer will do, or store the flats dry.",
)
def painted_one_side(plan: Plan) -> Iterable[Finding]:
    """Find sheets that may warp for want of paint on their backs, one finding a sheet."""
    if plan.finish is None or plan.brief.finish.backs:
        return
    used = {piece.sheet.name: piece.sheet for piece in plan.pieces}
    for name in sorted(used):
        sheet = used[name]
        if sheet.material in FIBRE and sheet.thickness >= WARPS_FROM - TOUCH:
            yield Finding(
                place=name,
                what=f"{name} is painted on its face and stays raw on its back",
                figure=sheet.thickness,
                limit=WARPS_FROM,
                inputs=(("material", sheet.material, ""),),
            )


# --- what the checks share ---------------------------------------------------------------------------------------


def _faults(plan: Plan, kind: str) -> list[FinishFault]:
    return [f for f in (() if plan.finish is None else plan.finish.faults) if f.fault == kind]


def _by_place(plan: Plan, kind: str) -> Iterator[tuple[str, FinishFault, int]]:
    """Yield for every place its worst fault of a kind and how many there are."""
    told = _faults(plan, kind)
    for place in dict.fromkeys(f.place for f in told):
        here = [f for f in told if f.place == place]
        yield place, max(here, key=lambda f: abs(f.figure - f.limit)), len(here)


def _said(fault: FinishFault, name: str) -> str:
    value = next(value for label, value, _ in fault.inputs if label == name)
    return value if isinstance(value, str) else f"{value:g}"


def _gap(fault: FinishFault, wall: str) -> str:
    return f"The gap between {_said(fault, 'between')} and {_said(fault, 'and')} on wall {wall}"


def _finding(plan: Plan, fault: FinishFault, what: str, *, severity: Severity | None = None) -> Finding:
    return Finding(
        place=fault.place,
        what=what,
        figure=fault.figure,
        limit=fault.limit,
        unit=fault.unit,
        severity=severity,
        inputs=_from_the_floor(fault, plan.brief.floor.rise),
    )


def _from_the_floor(fault: FinishFault, rise: float) -> Inputs:
    """Return a fault's inputs with heights from the finished floor."""
    return tuple(
        (name, value - rise if name == "above the floor" and not isinstance(value, str) else value, unit)
        for name, value, unit in fault.inputs
    )


CHECKS: tuple[Check, ...] = (
    gap_narrower_than_brush,
    paint_short,
    raw_edge,
    glossy_under_flash,
    mouldings_before_paint,
    painted_one_side,
)
