"""Moulding frames over the whole set: how many, how wide, where, and what could not be had.

Tiers with the same gaps and the same wish at joints stand in line: they share their bays and their frames' edges. One
gap holds for the whole set; then, in this order: no frame is odd, no joint that parts and no seam crosses one, widths
are alike to an inch (of bought frames: the end gaps, within limits), frames are clear of joints and of a pleasing
shape, and few (bought: many).
A bay under or over an opening has the opening's width, so it follows: as many frames as come nearest to the others.
The heights are the user's, from the finished floor, so that tiers meet round every corner.
What cannot be had is planned all the same and said as a finding with its figure; what cannot be drawn is a problem.
Bays are left to ``frame_bays``, ways to fill them to ``frame_patterns``, the search to ``frame_gaps``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.mouldings.frame_bays import bays_of, crosses, nearness, upright_seams
from lathlight.mouldings.frame_checks import bad_input, findings_of, no_room_anywhere, not_in_line
from lathlight.mouldings.frame_gaps import DIGITS, Evenness, Way, choose_ways
from lathlight.mouldings.frame_layout import FilledBay, FrameRules, MouldingFrame, MouldingLayout, TiersInLine
from lathlight.mouldings.frame_patterns import Least, bought_patterns, centred_patterns, mitred_patterns
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.frame_bays import Bay, FrameTier, FrameWall
    from lathlight.mouldings.frame_gaps import Choice
    from lathlight.mouldings.frame_patterns import Pattern
    from lathlight.units import LengthStyle

SEAM_COSTS = 2  # the last of a way's first costs: joints that part, seams
MILLIONTHS = 1_000_000  # costs that are no counts are compared as whole numbers of millionths


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingFramesJob:
    """What the moulding frames of a set depend on."""

    walls: tuple[FrameWall, ...]  # left to right
    tiers: tuple[FrameTier, ...]
    grid: LengthStyle
    floor: float = 0.0  # height of the finished floor [mm]: messages tell heights from it
    rules: FrameRules = field(default_factory=FrameRules)


def lay_out_frames(job: MouldingFramesJob) -> MouldingLayout:
    """Return the moulding frames of a set; without tiers, none.

    Raises
    ------
    InputError
        A gap that is not above 0, a frame above its wall, a moulding that leaves no opening, an unknown wall, or a
        tier that has no room for a frame on any wall.
    """
    problems = bad_input(job.walls, job.tiers, rules=job.rules, grid=job.grid, floor=job.floor)
    if problems:
        raise InputError(problems)
    groups = tuple(_lay_out(job, tiers) for tiers in _groups(job.tiers))
    nowhere = [p for group in groups for p in no_room_anywhere(group, rules=job.rules, grid=job.grid)]
    if nowhere:
        raise InputError(nowhere)
    findings = [f for group in groups for f in findings_of(group, job.walls, rules=job.rules, grid=job.grid)]
    return MouldingLayout(
        in_line=groups,
        frames=tuple(frame for group in groups for frame in _frames(group)),
        findings=(*findings, *not_in_line(groups, job.walls)),
    )


def _groups(tiers: Sequence[FrameTier]) -> list[tuple[FrameTier, ...]]:
    """Return tiers that can stand in line, together: alike in all that decides their bays; in the order given."""
    found: dict[tuple[object, ...], list[FrameTier]] = {}
    for tier in tiers:
        key = (tier.gap, tier.ends, tier.bought_width, tier.middles, tier.part_at_joints, tier.loose)
        found.setdefault(key, []).append(tier)
    return [tuple(group) for group in found.values()]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Candidates:
    """A bay with the ways to fill it."""

    bay: Bay
    patterns: tuple[Pattern, ...]
    ways: tuple[Way, ...]

    @property
    def follows(self) -> bool:
        """True where an opening sets the bay's width."""
        return "in line" in self.bay.ends


def _lay_out(job: MouldingFramesJob, tiers: tuple[FrameTier, ...]) -> TiersInLine:
    """Return the best patterns for tiers in line."""
    found = list(_candidates(job, tiers))
    fillable = [each for each in found if each.patterns]
    leading = [each for each in fillable if not each.follows] or fillable
    bought = tiers[0].bought_width is not None
    evenness = Evenness() if bought else Evenness(unseen=job.rules.alike, odd=job.rules.odd)
    choice = choose_ways([each.ways for each in leading], evenness=evenness)
    unseamed = [[replace(way, first=way.first[:-SEAM_COSTS]) for way in each.ways] for each in leading]
    free = choose_ways(unseamed, evenness=evenness)
    picked = {id(each): n for each, n in zip(leading, choice.picks, strict=True)}
    counts = {id(each): each.patterns[n].count for each, n in zip(leading, free.picks, strict=True)}
    sizes = [each.ways[n].low for each, n in zip(leading, choice.picks, strict=True)]
    return TiersInLine(
        tiers=tiers,
        bays=tuple(_filled(each, picked.get(id(each)), sizes, counts.get(id(each))) for each in fillable),
        empty=tuple(each.bay for each in found if not each.patterns),
        spread=choice.spread,
        spread_without_seams=free.spread,
        odd=choice.odd,
        patterns=choice.patterns,
        windows=choice.windows,
        why=_why(tiers, choice, bought=bought),
    )


def _filled(each: _Candidates, pick: int | None, sizes: Sequence[float], unseamed: int | None) -> FilledBay:
    """Return a bay with its chosen pattern; one that only follows the others, with the nearest to them."""
    pattern = each.patterns[_following(each.ways, sizes) if pick is None else pick]
    return FilledBay(bay=each.bay, pattern=pattern, unseamed=pattern.count if unseamed is None else unseamed)


def _candidates(job: MouldingFramesJob, tiers: tuple[FrameTier, ...]) -> Iterator[_Candidates]:
    """Yield every bay for tiers in line, wall by wall, left to right."""
    for wall in job.walls:
        here = tuple(t for t in tiers if t.is_on(wall.name))
        for bay in bays_of(wall, here) if here else ():
            in_bay = tuple(t for t in here if t.name in bay.tiers)
            patterns = tuple(_patterns(bay, in_bay, job))
            ways = tuple(_way(p, bay, wall, in_bay, job.rules) for p in patterns)
            yield _Candidates(bay=bay, patterns=patterns, ways=ways)


def _following(ways: Sequence[Way], sizes: Sequence[float]) -> int:
    """Return the way of a bay that follows: its own first costs, then nearest to the sizes of the others."""

    def rank(n: int) -> tuple[object, ...]:
        beyond = max(min(sizes) - ways[n].low, ways[n].high - max(sizes), 0.0)
        return ways[n].first, round(beyond, DIGITS), ways[n].then

    return min(range(len(ways)), key=rank)


def _patterns(bay: Bay, tiers: Sequence[FrameTier], job: MouldingFramesJob) -> Iterator[Pattern]:
    """Return the ways to fill a bay with frames of these tiers."""
    tier = tiers[0]
    least = least_widths(tiers, job.rules)
    middle = dict(tier.middles).get(bay.wall)
    if middle is not None and bay.left < middle < bay.right:
        return centred_patterns(bay, middle=middle, gap=tier.gap, least=least, bought=tier.bought_width, grid=job.grid)
    if tier.bought_width is not None:
        return bought_patterns(bay, width=tier.bought_width, gap=tier.gap, grid=job.grid)
    return mitred_patterns(bay, gap=tier.gap, least=least, grid=job.grid)


def least_widths(tiers: Sequence[FrameTier], rules: FrameRules) -> Least:
    """Return how narrow mitred frames of these tiers may be, alone in a bay and side by side [mm]."""
    alone = max(t.moulding for t in tiers) * rules.least_mouldings
    return Least(alone=alone, among=max(alone, max(t.height for t in tiers) / rules.slimmest))


def _way(pattern: Pattern, bay: Bay, wall: FrameWall, tiers: Sequence[FrameTier], rules: FrameRules) -> Way:
    """Return what a pattern costs: limits, joints and seams first; then nearness, shape, outer gaps and number."""
    joints, seams, near = _crossings(pattern, wall, tiers)
    if tiers[0].bought_width is None:
        shape = _millionths(_shape(pattern.exact, max(t.height for t in tiers), rules))
        hole = max(pattern.beyond)  # of a pattern centred on a picture: an outer gap that is wider than wished
        hole = _millionths(hole) if hole > rules.alike else 0
        return Way(
            low=round(pattern.exact, DIGITS),
            high=round(pattern.exact, DIGITS),
            first=(joints, seams),
            then=(near, hole, shape, pattern.count),
        )
    low, high = (round(tiers[0].ends + beyond, DIGITS) for beyond in sorted(pattern.beyond))
    beyond = max(0.0, rules.least_end_gap - low, high - rules.greatest_end_gap * tiers[0].ends)
    return Way(low=low, high=high, first=(_millionths(beyond), joints, seams), then=(near, -pattern.count))


def _crossings(pattern: Pattern, wall: FrameWall, tiers: Sequence[FrameTier]) -> tuple[int, int, int]:
    """Return how many frames joints cross, seams cross, and joints come too near to."""
    joints = seams = near = 0
    for tier in tiers:
        for seam in upright_seams(wall, tier):
            for left in pattern.lefts:
                right = left + pattern.width
                if crosses(seam, left=left, right=right, moulding=tier.moulding):
                    joints, seams = (joints + 1, seams) if seam.parts else (joints, seams + 1)
                elif nearness(seam, left=left, right=right) is not None:
                    near += 1
    return joints, seams, near


def _shape(width: float, height: float, rules: FrameRules) -> float:
    """Return how far a frame is beyond the pleasing shapes: the logarithm of a ratio, 0 within them."""
    return max(
        0.0,
        math.log(height / width / rules.shape),
        math.log(width / height / rules.shape),
        math.log(width / rules.widest),
    )


def _millionths(value: float) -> int:
    return round(value * MILLIONTHS)


def _frames(group: TiersInLine) -> Iterator[MouldingFrame]:
    """Yield the frames of tiers in line, tier by tier along the walls."""
    for tier in group.tiers:
        number: dict[str, int] = {}
        for filled in group.bays:
            wall = filled.bay.wall
            for left in filled.pattern.lefts if tier.name in filled.bay.tiers else ():
                number[wall] = number.get(wall, 0) + 1
                yield MouldingFrame(
                    id=f"{wall}/{tier.name}/frame {number[wall]}",
                    wall=wall,
                    tier=tier.name,
                    left=left,
                    bottom=tier.bottom,
                    width=filled.pattern.width,
                    height=tier.height,
                )


def _why(tiers: Sequence[FrameTier], choice: Choice, *, bought: bool) -> Working:
    formula = (
        "bought frames: the gap between them held, (bay - frames - gaps) / 2 at either end, the end gaps most alike"
        if bought
        else "width = (bay - end gaps - (number - 1) x gap) / number, numbers chosen together for widths most alike"
    )
    return Working(
        formula=formula,
        inputs=(
            ("gap", tiers[0].gap, "mm"),
            ("end gap", tiers[0].ends, "mm"),
            ("patterns there are", choice.patterns, ""),
            ("windows of sizes looked into", choice.windows, ""),
        ),
        source=COMMON_PRACTICE,
        value=choice.spread,
        unit="mm",
    )
