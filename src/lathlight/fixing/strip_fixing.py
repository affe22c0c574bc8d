"""How every moulding is held: glue and brads, or, where it comes off for a move, screws that come out.

A brad goes into every stud that its line crosses, and between them no further apart than the spacing, each as long as
what lies behind it allows; where none fits the glue holds alone. Loose pieces get few screws into timber, no glue.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.finishing import Brad, choose_brad, moulding_bead_length
from lathlight.fixing.lands import TIMBER_EDGE
from lathlight.fixing.lengths import MOULDING_BITE, fit_fastener
from lathlight.fixing.model import FixingFinding, Head, StripFixing
from lathlight.fixing.strip_lines import fix_lines, strip_screw_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Member
    from lathlight.finishing import BradChoice
    from lathlight.fixing.behind import Behind
    from lathlight.fixing.model import Point, StripHold
    from lathlight.fixing.strip_lines import FixLine
    from lathlight.mouldings import Strip
    from lathlight.project import FixingBrief

KINDS = ("brad", "pin")
END = 40.0  # first brad or screw from a moulding's end [mm]: nearer it splits, common practice, no source
SOONEST_END, LATEST_END = 25.0, 80.0  # it moves so far towards timber at most [mm]: common practice, no source
NEAR = 30.0  # two brads are no nearer than this [mm]: common practice, no source
CLEAR = 10.0  # a brad or a screw keeps so far from the middle of another screw [mm]: common practice, no source
ASIDE = 10.5  # and is moved so far where it does not [mm]
LOOSE = 600.0  # screws of a piece that comes off, no further apart than this [mm]: common practice, no source
LOOSE_NEAR = 100.0  # nor nearer [mm]
LOOSE_END = 15.0  # nor nearer to its end, drilled before [mm]: common practice, no source
CROSSED = 100.0  # timber shorter than this along a moulding is crossed by it [mm]
LEAST_LINE = 300.0  # a piece shorter than this does with one screw [mm]: common practice, no source

TOUCH = 1e-6

_Choices = dict[tuple[float, float, float], "BradChoice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallStrips:
    """The mouldings of one wall as fixed, and what would go wrong with them."""

    strips: tuple[StripFixing, ...]
    findings: tuple[FixingFinding, ...]


def fix_strips(
    strips: Sequence[Strip], behind: Behind, rules: FixingBrief, *, taken: dict[str, list[Point]]
) -> WallStrips:
    """Return how every strip of one wall is held.

    Parameters
    ----------
    strips
        Of the wall.
    behind
        Its skin and timber.
    rules
        Spacing, glue, fasteners to choose from.
    taken
        Heads of sheet screws under each strip, by its id: brads keep clear of them.
    """
    choices: _Choices = {}
    fixed: list[StripFixing] = []
    findings: list[FixingFinding] = []
    for strip in strips:
        heads = taken.get(strip.id, [])
        lines = fix_lines(strip)
        one = _loose(strip, lines, behind, rules, heads) if strip.loose else _fast(
            strip, lines, behind, rules, heads, choices
        )  # fmt: skip
        fixed.append(one)
        findings += _no_timber(strip, one, lines, behind)
    return WallStrips(strips=tuple(fixed), findings=(*findings, *_too_long(fixed, rules)))


# --- pieces that stay ------------------------------------------------------------------------------------------------


def _fast(
    strip: Strip, lines: Sequence[FixLine], behind: Behind, rules: FixingBrief, heads: Sequence[Point],
    choices: _Choices,
) -> StripFixing:  # fmt: skip
    brads = tuple(
        brad
        for line in lines
        for along in _seats(line, behind, rules.brad_spacing, heads)
        for brad in _brad(strip, line, line.point(along), behind, rules, choices)
    )
    screws = _strip_screws(strip, behind, rules, heads)
    shot = any(b.choice.fastener is not None for b in brads)
    held: StripHold = "brads" if shot else "glue, taped until it sets"
    return StripFixing(
        strip=strip.id,
        wall=strip.wall,
        belongs_to=strip.belongs_to,
        held=held if lines else "nothing",
        glue=moulding_bead_length(strip.length, broad=strip.broad) if lines else 0.0,
        hours=rules.moulding_glue.clamp_hours if lines else 0.0,
        brads=brads,
        screws=screws,
        note="" if shot or not lines else "no brad fits: tape or props hold it until the glue has set",
    )


def _seats(line: FixLine, behind: Behind, spacing: float, heads: Sequence[Point]) -> Iterator[float]:
    """Yield where brads sit along a line: near both ends, in every stud, evenly between, clear of screws."""
    first, last = _ends(line, behind)
    if last - first < NEAR:
        anchors = [(line.start + line.end) / 2]
    else:
        anchors = [first, *_studs(line, behind, spacing, first, last), last]
    for along in _filled(anchors, spacing):
        clear = _clear(line, along, heads)
        if clear is not None:
            yield clear


def _ends(line: FixLine, behind: Behind) -> tuple[float, float]:
    """Return the places of the first and the last brad: over timber where there is some near the end."""
    first, last = line.start + END, line.end - END
    if line.into != "wall" or line.length < 2 * LATEST_END:
        return first, last
    near = behind.timber_along(line.at, line.start + SOONEST_END, line.start + LATEST_END, upright=line.upright)
    far = behind.timber_along(line.at, line.end - LATEST_END, line.end - SOONEST_END, upright=line.upright)
    return (
        min((max(a, min(b, first)) for a, b, _ in near), key=lambda x: abs(x - first), default=first),
        min((max(a, min(b, last)) for a, b, _ in far), key=lambda x: abs(x - last), default=last),
    )


def _studs(line: FixLine, behind: Behind, spacing: float, first: float, last: float) -> list[float]:
    if line.into != "wall":
        return []
    found: list[float] = []
    for low, high, _ in behind.timber_along(line.at, first, last, upright=line.upright):
        middle = (low + high) / 2
        if high - low < spacing and min(middle - first, last - middle) >= NEAR:
            found.append(middle)
    return [b for a, b in itertools.pairwise([-math.inf, *found]) if b - a >= NEAR]


def _filled(anchors: Sequence[float], spacing: float) -> list[float]:
    """Return the anchors with even places between those further apart than the spacing."""
    found = [anchors[0]]
    for a, b in itertools.pairwise(anchors):
        steps = math.ceil((b - a) / spacing - 1e-9)
        found += [a + (b - a) * i / steps for i in range(1, steps + 1)]
    return found


def _clear(
    line: FixLine, along: float, heads: Sequence[Point], *, within: tuple[float, float] = (-math.inf, math.inf)
) -> float | None:
    """Return a place clear of all screws: this one, or a little nearer to the middle or to the end; None: neither."""
    inward = ASIDE if along <= (line.start + line.end) / 2 else -ASIDE
    for place in (along, along + inward, along - inward):
        x, z = line.point(place)
        if within[0] - TOUCH <= place <= within[1] + TOUCH and all(math.hypot(x - a, z - b) >= CLEAR for a, b in heads):
            return place
    return None


def _brad(
    strip: Strip, line: FixLine, at: Point, behind: Behind, rules: FixingBrief, choices: _Choices
) -> Iterable[Brad]:
    """Yield the brad of one place; none where there is no flat behind it."""
    if line.into == "strip":
        yield Brad(
            run=strip.id, at=at, timber=f"{strip.id}/strip", choice=_choice(line, 0.0, line.hollow, rules, choices)
        )
        return
    here = behind.at(*(at if line.into == "wall" else (line.probe, at[1])))
    if here is None:
        return
    flat, member = here
    skin = flat.sheet.thickness if line.into == "wall" else 0.0
    deep = 0.0 if member is None else member.deep if line.into == "wall" else member.wide
    choice = _choice(line, skin, deep, rules, choices)
    yield Brad(run=strip.id, at=at, timber=member.id if member else None, choice=choice)


def _choice(line: FixLine, skin: float, timber: float, rules: FixingBrief, choices: _Choices) -> BradChoice:
    key = (line.thickness, skin, timber)
    found = choices.get(key)
    if found is None:
        found = choices[key] = choose_brad(
            rules.fasteners, moulding=line.thickness, skin=skin, timber=timber, kinds=KINDS
        )
    return found


def _strip_screws(strip: Strip, behind: Behind, rules: FixingBrief, heads: Sequence[Point]) -> tuple[Head, ...]:
    """Return the screws that hold the strip behind a cornice, at the height with most timber behind it."""

    def timber(line: FixLine) -> float:
        return sum(b - a for a, b, _ in behind.timber_along(line.at, line.start, line.end, upright=False))

    best = max(strip_screw_lines(strip), key=timber, default=None)
    if best is None:
        return ()
    return _screws(best, behind, rules, heads, through=best.thickness, hidden_by=strip.id)


# --- pieces that come off --------------------------------------------------------------------------------------------


def _loose(
    strip: Strip, lines: Sequence[FixLine], behind: Behind, rules: FixingBrief, heads: Sequence[Point]
) -> StripFixing:
    screws = (
        *_best_screws([line for line in lines if line.into == "wall"], behind, rules, heads),
        *(head for line in lines if line.into == "strip" for head in _into_strip(strip, line, rules)),
        *_strip_screws(strip, behind, rules, heads),
    )
    return StripFixing(
        strip=strip.id,
        wall=strip.wall,
        belongs_to=strip.belongs_to,
        held="screws that come out" if screws else "nothing",
        glue=0.0,
        hours=0.0,
        brads=(),
        screws=screws,
        note="heads are filled anew after every move, or left under caps" if screws else "no timber to screw it to",
    )


def _best_screws(
    lines: Sequence[FixLine], behind: Behind, rules: FixingBrief, heads: Sequence[Point]
) -> tuple[Head, ...]:
    """Return the screws along the line with most of them: one may run between plate and studs; of equals the thinner.

    A line of few screws is no better for another beside it: the piece comes off for every move.
    """
    tried = [(line, _screws(line, behind, rules, heads, through=line.thickness, hidden_by=None)) for line in lines]
    return max(tried, key=lambda each: (len(each[1]), -each[0].thickness), default=(None, ()))[1]


def _into_strip(strip: Strip, line: FixLine, rules: FixingBrief) -> Iterator[Head]:
    """Yield the screws of a cornice that comes off, through its middle into the strip behind it."""
    fit = fit_fastener(
        rules.fasteners, kinds=("screw",), through=line.thickness, timber=line.hollow, most=MOULDING_BITE
    )
    if fit.fastener is None:
        return
    for along in _along(line.start + min(END, line.length / 2), line.end - min(END, line.length / 2)):
        yield Head(at=line.point(along), member=f"{strip.id}/strip", fastener=fit.fastener, hidden_by=None)


def _screws(
    line: FixLine, behind: Behind, rules: FixingBrief, heads: Sequence[Point], *, through: float, hidden_by: str | None
) -> tuple[Head, ...]:
    """Return screws into timber along a line, at or near even places."""
    found: list[Head] = []
    for along, member in _timber_seats(line, behind):
        clear = _clear(line, along, heads, within=_inside(member, upright=line.upright))
        skin = member.behind  # the sheet lies in front of it
        fit = fit_fastener(
            rules.fasteners, kinds=("screw",), through=through + skin, timber=member.deep, most=MOULDING_BITE
        )
        if clear is not None and fit.fastener is not None:
            found.append(Head(at=line.point(clear), member=member.id, fastener=fit.fastener, hidden_by=hidden_by))
    return tuple(found)


def _inside(member: Member, *, upright: bool) -> tuple[float, float]:
    """Return from where to where along a line a screw keeps inside a member."""
    low, size = (member.z, member.high) if upright else (member.x, member.wide)
    return low + TIMBER_EDGE, low + size - TIMBER_EDGE


def _timber_seats(line: FixLine, behind: Behind) -> list[tuple[float, Member]]:
    """Return one place in all timber that a line crosses, even ones in what runs along it; from end to end.

    Of two so near to each other that one will do, that nearer to the line's middle stays.
    """
    timber = behind.timber_along(line.at, line.start + LOOSE_END, line.end - LOOSE_END, upright=line.upright)
    seats = [(place, member) for low, high, member in timber for place in _along(low, high)]
    middle = (line.start + line.end) / 2

    def from_middle(seat: tuple[float, Member]) -> float:
        return round(abs(seat[0] - middle), 6)

    kept: list[tuple[float, Member]] = []
    for seat in sorted(seats, key=lambda s: (from_middle(s), s[0])):
        rivals = [k for k in kept if abs(k[0] - seat[0]) < LOOSE_NEAR and from_middle(k) < from_middle(seat)]
        if not rivals:
            kept.append(seat)
    return sorted(kept, key=lambda seat: seat[0])


def _along(low: float, high: float) -> list[float]:
    """Return the middle of timber that is crossed; places at most 600 mm apart in timber that runs along."""
    if high - low < CROSSED:
        return [(low + high) / 2]
    steps = math.ceil((high - low) / LOOSE - 1e-9)
    return [low + (high - low) * i / steps for i in range(steps + 1)]


# --- what would go wrong ---------------------------------------------------------------------------------------------


def _no_timber(strip: Strip, fixed: StripFixing, lines: Sequence[FixLine], behind: Behind) -> Iterable[FixingFinding]:
    """Yield a trim line, or a loose piece, with too little timber behind it to screw to."""
    if strip.loose:
        wanted = 2 if strip.length > LEAST_LINE else 1
        if len(fixed.screws) < wanted:
            yield _finding(strip, len(fixed.screws), wanted)
    elif strip.use == "trim" and strip.length > LEAST_LINE and not fixed.screws:  # a cornice's strip has its own
        crossed = sum(
            len(behind.timber_along(line.at, line.start, line.end, upright=line.upright))
            for line in lines
            if line.into == "wall"
        )
        if not crossed:
            yield _finding(strip, 0, 1)


def _finding(strip: Strip, found: int, wanted: int) -> FixingFinding:
    return FixingFinding(
        kind="no timber under the trim",
        wall=strip.wall,
        place=strip.id,
        found=found,
        limit=wanted,
        unit="",
        inputs=(("length", strip.length, "mm"),),
    )


def _too_long(strips: Iterable[StripFixing], rules: FixingBrief) -> Iterator[FixingFinding]:
    """Yield, line by line, the pieces that take no brad at all: every one on sale would come out, or not hold."""
    by_line: dict[tuple[str, str], list[StripFixing]] = {}
    for one in strips:
        if one.brads and not one.shot:
            by_line.setdefault((one.wall, one.belongs_to), []).append(one)
    lengths = sorted(f.length for f in rules.fasteners if f.kind in KINDS)
    for (wall, line), bare in by_line.items():
        worst = min((b.choice for one in bare for b in one.brads), key=lambda choice: choice.longest)
        holding = [length for length in lengths if length >= worst.shortest - TOUCH]
        yield FixingFinding(
            kind="brad through the skin",
            wall=wall,
            place=line,
            found=min(holding, default=max(lengths, default=0.0)),
            limit=worst.longest,
            unit="mm",
            number=len(bare),
            inputs=(("shortest that holds", worst.shortest, "mm"), ("first piece", bare[0].strip, "")),
        )
