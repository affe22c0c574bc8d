"""Trim: lines that miss each other, ends that cannot be cut, joints in sight, bases that miss the floor, proportions.

What goes wrong with runs and ends is found where they are cut (``lathlight.mouldings``); here it gets its words, one
snag a line on a wall. Proportions are taste: they are worth knowing and nothing more.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.wording import length, lengths, listed
from lathlight.units import format_angle
from lathlight.working import COMMON_PRACTICE, GEOMETRY

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.mouldings import FindingKind, TrimFinding
    from lathlight.plan import Plan

FAMILY = "trim"
TOUCH = 1e-6
DADO = 1 / 3  # height of a dado over its wall's, common practice
LOW_WALL = 2750.0  # a wall of at most 9 ft is low [mm], common practice


@check(
    name="trim-lines-miss",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Lines of trim miss each other in a corner",
    why="the eye follows a line round the corner, and the step shows in every picture of it",
    limit="one height and one profile on both sides of a corner",
    source=COMMON_PRACTICE,
    remedy="Give both lines one height and one profile, or let one [[trim]] line run on both walls (trim of the wall).",
)
def trim_lines_miss(plan: Plan) -> Iterable[Finding]:
    """Find lines that belong together and do not meet, one finding a line and corner."""
    for worst, more in _told(plan, "lines miss each other"):
        wall, _, line = worst.with_what.partition("/")
        pair = f"{worst.line} on wall {worst.wall} and {line} on wall {wall}"
        gap = f"miss each other by {length(worst.found, plan)} in height or thickness"
        yield _finding(worst, f"{pair} {gap if worst.found > TOUCH else 'have different profiles'}{more}")


@check(
    name="trim-crosses-joint",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Fixed trim crosses a joint that is taken apart",
    why="no fixed piece can span flats that part, and the cut shows at every set-up",
    limit="no fixed trim across a joint",
    source=COMMON_PRACTICE,
    remedy="Mark the line loose = true so that one piece spans the joint and comes off, or leave it cut there.",
)
def trim_crosses_joint(plan: Plan) -> Iterable[Finding]:
    """Find fixed lines that are cut at upright joints or lie across level ones, one finding a line."""
    cut = _cut_at_joints(plan)
    level = {(f.wall, f.line): f for f, _ in _told(plan, "trim across a joint that parts")}
    for wall, line in sorted(cut.keys() | level.keys(), key=lambda key: (_order(plan, key[0]), key[1])):
        count, across = cut.get((wall, line), 0), level.get((wall, line))
        upright = [f"is cut at {'a joint' if count == 1 else f'{count} joints'}"] if count else []
        lying = [f"lies {length(across.found, plan)} over a level joint"] if across is not None else []
        yield Finding(
            place=f"{wall}/{line}",
            what=f"{line} on wall {wall} {listed(upright + lying)} of flats that are taken apart",
            figure=float(count + len(lying)),
            limit=0.0,
            unit="",
        )


def _cut_at_joints(plan: Plan) -> dict[tuple[str, str], int]:
    """Count the joints that cut each line on each wall; those that a picture sees first have a check of their own."""
    if plan.trim is None:
        return {}
    told = {(f.wall, f.line, f.at) for f in plan.trim.findings if f.kind == "joint in mid-picture"}
    ends = [(p.wall, p.line, p.right.station) for p in plan.trim.pieces if p.right.kind == "at a joint"]
    return dict(Counter((wall, line) for wall, line, at in ends if (wall, line, at) not in told))


@check(
    name="trim-joint-in-picture",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="A run of trim is joined in mid-picture",
    why="the joint opens as the timber dries, and it is where everybody looks",
    limit="{400 mm} along the wall to either side of a picture's middle line",
    source=COMMON_PRACTICE,
    remedy="Mark the line loose = true so that no joint of flats cuts it, give its moulding longer lengths in the "
    "catalogue, or move the sitter along the wall.",
)
def trim_joint_in_picture(plan: Plan) -> Iterable[Finding]:
    """Find joints of runs near a picture's middle, one finding a line."""
    for worst, more in _told(plan, "joint in mid-picture"):
        found, wanted = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} is joined {found} from the middle of picture {worst.with_what} "
            f"where {wanted} is wanted{more}",
        )


@check(
    name="mitre-beyond-saw",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Mitre beyond the saw's swing",
    why="no stop of the saw gives this cut, and what is cut by hand takes time and a spare length",
    limit="mitre_swing of the workshop; 50 degrees from square where not stated",
    source=COMMON_PRACTICE,
    remedy="State mitre_swing under [workshop] if the saw swings further, open the corner (angle_to_next), or cut a "
    "spare length to practise on.",
)
def mitre_beyond_saw(plan: Plan) -> Iterable[Finding]:
    """Find ends that the saw does not swing to, one finding a line; a coped end is only worth knowing."""
    for worst, more in _told(plan, "mitre beyond the saw"):
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} wants a cut of {format_angle(worst.found)} from square "
            f"({worst.with_what}) where the saw swings to {format_angle(worst.limit)}, and is {worst.answer}{more}",
            severity=Severity.KNOW if worst.answer == "coped" else None,
        )


@check(
    name="cope-impossible",
    family=FAMILY,
    severity=Severity.COSTS,
    title="A profile that cannot be coped where a cope is wanted",
    why="a mitre that is cut by hand opens a little at every set-up",
    limit="a profile that takes a cope wherever one is wanted",
    source="the profile's row in the catalogue",
    remedy="Choose a profile that can be coped (lathlight catalog says which), or open the corner (angle_to_next) "
    "until the saw reaches its mitre.",
)
def cope_impossible(plan: Plan) -> Iterable[Finding]:
    """Find corners that want a cope of a profile that takes none, one finding a line and corner."""
    for worst, more in _told(plan, "cope impossible"):
        yield Finding(
            place=_place(worst),
            what=f"{worst.line} on wall {worst.wall} wants a cope in the corner with {worst.with_what}, its profile "
            f"takes none, and it is {worst.answer} at {format_angle(worst.found)} from square{more}",
            figure=1.0,
            limit=0.0,
            unit="",
            inputs=(("mitre", worst.found, "rad"), ("swing of the saw", worst.limit, "rad")),
        )


@check(
    name="base-short-of-gap",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Base too thin to cover the floor covering's gap",
    why="a dark line runs along the foot of the wall",
    limit="a foot thicker than the covering's expansion_gap",
    source=GEOMETRY,
    remedy="Take a base with a thicker foot (profile), or a smaller expansion_gap under [floor] where the covering's "
    "maker allows it.",
)
def base_short_of_gap(plan: Plan) -> Iterable[Finding]:
    """Find bases whose foot is no thicker than the gap, one finding a line and wall."""
    for worst, more in _told(plan, "base does not cover the gap"):
        found, gap = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"The foot of {worst.line} on wall {worst.wall} is {found} thick and has to cover a gap of {gap}{more}",
        )


@check(
    name="base-off-floor",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Base that does not stand on the floor",
    why="light and the studio's floor show under it",
    limit="a base's foot on the finished floor",
    source=COMMON_PRACTICE,
    remedy="Take the base's height out of its [[trim]] table, so that it stands on the floor.",
)
def base_off_floor(plan: Plan) -> Iterable[Finding]:
    """Find bases that hang above the floor, one finding a line and wall."""
    for worst, more in _told(plan, "base off the floor"):
        found = lengths(worst.found, worst.limit, plan)[0]
        yield _finding(worst, f"{worst.line} on wall {worst.wall} hangs {found} above the floor{more}")


@check(
    name="trim-thicker-than-casing",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Trim stands out further than the casing it ends at",
    why="the raw end of the moulding shows beside the casing",
    limit="trim no thicker than the casing's outer edge",
    source=COMMON_PRACTICE,
    remedy="Take a thicker casing, a thinner profile for the line, or plinth_blocks = true where it is the base.",
)
def trim_thicker_than_casing(plan: Plan) -> Iterable[Finding]:
    """Find lines that die into thinner casing, one finding a line and wall."""
    for worst, more in _told(plan, "trim thicker than casing"):
        found, casing = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} stands out {found} and the casing of {worst.with_what} only "
            f"{casing}{more}",
        )


@check(
    name="trim-longer-than-stock",
    family=FAMILY,
    severity=Severity.STOPS,
    title="No length of moulding reaches from joint to joint",
    why="the run cannot be made from the lengths that the moulding is sold in",
    limit="the moulding's longest length in the catalogue, less trim_cut",
    source="the profile's row in the catalogue",
    remedy="Give the moulding longer lengths in the catalogue, or choose another profile.",
)
def trim_longer_than_stock(plan: Plan) -> Iterable[Finding]:
    """Find runs that no chain of lengths fills, one finding a line and wall."""
    for worst, more in _told(plan, "no stock long enough"):
        found, longest = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} needs {found} of {worst.with_what}, which gives at most {longest}"
            f"{more}",
        )


@check(
    name="no-room-for-trim",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="A stretch of wall too short for its piece of trim",
    why="the piece is left out and the line has a hole",
    limit="room for the cuts at both ends of a piece",
    source=GEOMETRY,
    remedy="Move the opening, take the line off this wall (trim of the wall), or choose a thinner profile.",
)
def no_room_for_trim(plan: Plan) -> Iterable[Finding]:
    """Find stretches whose two ends need more than there is, one finding a line and wall."""
    for worst, more in _told(plan, "no room for a piece"):
        found, needed = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} has {found} of wall beside {worst.with_what} where its ends take "
            f"{needed}{more}",
        )


@check(
    name="trim-sliver",
    family=FAMILY,
    severity=Severity.COSTS,
    title="A piece of trim too short to be cut and fixed well",
    why="a short piece jumps at the saw, splits at its brads, and shows as a patch",
    limit="{50 mm}, and three times what the moulding stands out",
    source=COMMON_PRACTICE,
    remedy="Move the opening or the joint, or mark the line loose = true so that one piece goes past the joint.",
)
def trim_sliver(plan: Plan) -> Iterable[Finding]:
    """Find pieces shorter than can be worked, one finding a line and wall."""
    for worst, more in _told(plan, "sliver of a piece"):
        found, wanted = lengths(worst.found, worst.limit, plan)
        yield _finding(
            worst,
            f"{worst.line} on wall {worst.wall} has a piece of {found} beside {worst.with_what} where {wanted} is "
            f"wanted{more}",
        )


@check(
    name="high-dado",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Dado over a third of a low wall",
    why="the wall looks top-heavy and lower than it is, though not all rules say so",
    limit="a third of the wall's height, from the finished floor, on walls of at most 2750 mm (9 ft); shop advice "
    "also allows 900 mm (36 in), classical writers want less than a third",
    source=COMMON_PRACTICE,
    remedy="Set the rail's height to a third of the wall's, or leave it if the pictures like it there.",
)
def high_dado(plan: Plan) -> Iterable[Finding]:
    """Find rails too high for a low wall, one finding a line, on the wall where it is the furthest over."""
    step, floor = float(plan.brief.style.step), plan.brief.floor.rise
    over = [
        (line.name, wall.name, line.top - floor, (wall.height - floor) * DADO)
        for wall in plan.brief.walls
        for line in wall.trim
        if line.kind == "rail"
        and wall.height <= LOW_WALL + TOUCH
        and line.top - floor > (wall.height - floor) * DADO + step + TOUCH
    ]
    for name, wall, top, third in _furthest_over(over):
        found, wanted = lengths(top, third, plan)
        yield Finding(
            place=f"{wall}/{name}",
            what=f"{name} on wall {wall} is {found} high where a third of the wall is {wanted}",
            figure=top,
            limit=third,
            inputs=(("height of the wall above the finished floor", third / DADO, "mm"),),
        )


@check(
    name="heavy-cornice",
    family=FAMILY,
    severity=Severity.KNOW,
    title="Cornice heavier than the base",
    why="the wall looks top-heavy",
    limit="a cornice no higher on the wall than the base",
    source=COMMON_PRACTICE,
    remedy="Take a higher base or a smaller cornice (profile).",
)
def heavy_cornice(plan: Plan) -> Iterable[Finding]:
    """Find cornices that cover more of the wall than its base, one finding a line."""
    over: list[tuple[str, str, float, float]] = []
    for wall in plan.brief.walls:
        bases = [line.top - line.bottom for line in wall.trim if line.kind == "base"]
        over += [
            (line.name, wall.name, line.top - line.bottom, max(bases))
            for line in wall.trim
            if bases and line.kind == "cornice" and line.top - line.bottom > max(bases) + TOUCH
        ]
    for name, wall, cornice, base in _furthest_over(over):
        found, wanted = lengths(cornice, base, plan)
        yield Finding(
            place=f"{wall}/{name}",
            what=f"{name} on wall {wall} covers {found} of the wall and its base only {wanted}",
            figure=cornice,
            limit=base,
        )


# --- what the checks share ---------------------------------------------------------------------------------------


def _furthest_over(
    found: Sequence[tuple[str, str, float, float]],
) -> Iterator[tuple[str, str, float, float]]:
    """Yield of each line (its name comes first) the entry whose figure is the furthest over its limit."""
    for name in dict.fromkeys(entry[0] for entry in found):
        yield max((e for e in found if e[0] == name), key=lambda e: e[2] - e[3])


def _told(plan: Plan, kind: FindingKind) -> Iterator[tuple[TrimFinding, str]]:
    """Yield the worst finding of a kind for each line on each wall, left to right, and words for how many there are."""
    found = [f for f in (() if plan.trim is None else plan.trim.findings) if f.kind == kind]
    places = dict.fromkeys((f.wall, f.line) for f in sorted(found, key=lambda f: (_order(plan, f.wall), f.at, f.line)))
    for place in places:
        here = [f for f in found if (f.wall, f.line) == place]
        worst = max(here, key=lambda f: (abs(f.found - f.limit), -f.at))
        yield worst, "" if len(here) == 1 else f", the worst of {len(here)} places"


def _order(plan: Plan, wall: str) -> int:
    names = [w.name for w in plan.walls]
    return names.index(wall)


def _place(found: TrimFinding) -> str:
    return f"{found.wall}/{found.line}"


def _finding(found: TrimFinding, what: str, *, severity: Severity | None = None) -> Finding:
    return Finding(
        place=_place(found),
        what=what,
        figure=found.found,
        limit=found.limit,
        unit=found.unit,
        severity=severity,
        inputs=(("along the wall", found.at, "mm"),),
    )


CHECKS: tuple[Check, ...] = (
    trim_longer_than_stock,
    trim_lines_miss,
    trim_joint_in_picture,
    no_room_for_trim,
    trim_sliver,
    trim_thicker_than_casing,
    base_short_of_gap,
    base_off_floor,
    mitre_beyond_saw,
    cope_impossible,
    trim_crosses_joint,
    high_dado,
    heavy_cornice,
)
