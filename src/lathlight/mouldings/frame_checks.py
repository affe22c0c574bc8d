"""What is wrong with moulding frames: problems that stop the layout, findings that it is planned with.

A problem is a frame that cannot be drawn (no room anywhere, above the wall, no gap). A finding names what could not be
had, by how much, and what would mend it; how it is shown as a snag is left to ``lathlight.snags``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.errors import Problem, nearest
from lathlight.mouldings.frame_bays import LEAST_CLEAR, TOUCH, crosses, nearness, seams_for, upright_seams
from lathlight.mouldings.frame_layout import FrameFinding
from lathlight.units import drawing_length, snap_down

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.frame_bays import Bay, FrameTier, FrameWall
    from lathlight.mouldings.frame_layout import FilledBay, FrameRules, TiersInLine
    from lathlight.units import LengthStyle


# --- problems ----------------------------------------------------------------------------------------------------


def bad_input(
    walls: Sequence[FrameWall], tiers: Sequence[FrameTier], *, rules: FrameRules, grid: LengthStyle, floor: float = 0.0
) -> list[Problem]:
    """Return what makes tiers impossible to draw, in their order; heights told from the finished floor."""
    return [problem for tier in tiers for problem in _tier_problems(tier, walls, rules, grid, floor)]


def _tier_problems(
    tier: FrameTier, walls: Sequence[FrameWall], rules: FrameRules, grid: LengthStyle, floor: float
) -> Iterator[Problem]:
    def problem(key: str, found: str, expected: str, remedy: str) -> Problem:
        return Problem(place=f'moulding_frames "{tier.name}" {key}', found=found, expected=expected, remedy=remedy)

    if tier.gap <= 0:
        remedy = "Give a gap such as " + ('"100 mm".' if grid.system == "metric" else '"4 in".')
        yield problem("gap", _show(tier.gap, grid), "a gap above 0", remedy)
    if tier.end_gap is not None and tier.end_gap <= 0:
        yield problem(
            "end_gap", _show(tier.end_gap, grid), "a gap above 0", "Take the line out: the ends then get the gap."
        )
    least = rules.least_mouldings * tier.moulding
    if tier.bottom < floor - TOUCH:
        yield problem("bottom", _show(tier.bottom - floor, grid), "a height above the finished floor", "Raise it.")
    if tier.height < least - TOUCH:
        found = f"a frame {_show(tier.height, grid)} high"
        yield problem(
            "top",
            found,
            f"at least {_show(least, grid)} for this moulding",
            "Raise the top or take a narrower moulding.",
        )
    if tier.bought_width is not None and tier.bought_width <= 2 * tier.moulding:
        yield problem(
            "bought_width",
            _show(tier.bought_width, grid),
            f"more than two widths of the moulding, {_show(2 * tier.moulding, grid)}",
            "Give the outside width of the frame as bought.",
        )
    known = [w.name for w in walls]
    for name in tier.walls or ():
        if name not in known:
            near = nearest(name, known)
            yield problem(
                "walls",
                f'"{name}"',
                "a wall of this set",
                f'Did you mean "{near}"?' if near else f"Known: {', '.join(known)}.",
            )
    for wall in walls:
        if tier.is_on(wall.name) and tier.top > wall.height + TOUCH:
            yield problem(
                "top",
                f"a frame whose top is {_show(tier.top - floor, grid)} above the floor",
                f'at most the height of wall "{wall.name}", {_show(wall.height - floor, grid)}',
                "Lower it, make the wall higher, or leave it out on that wall.",
            )
            break


def no_room_anywhere(group: TiersInLine, *, rules: FrameRules, grid: LengthStyle) -> Iterator[Problem]:
    """Yield a problem for each tier that has no frame on any wall."""
    for tier in group.tiers:
        if any(tier.name in filled.bay.tiers for filled in group.bays):
            continue
        place = f'moulding_frames "{tier.name}"'
        bays = [b for b in group.empty if tier.name in b.tiers]
        if not bays:
            yield Problem(
                place=place,
                found="no stretch of wall that is free at its heights",
                expected="room for one frame",
                remedy="Move it above or below the openings, or take it out.",
            )
            continue
        bay = max(bays, key=lambda b: b.room)
        left = f"{_show(bay.room, grid)} left" if bay.room > 1.0 else "nothing left"  # [mm]: less is no room
        yield Problem(
            place=place,
            found=f'{left} for frames on wall "{bay.wall}", the widest stretch',
            expected=f"at least {_show(_needed(tier, rules), grid)} for one frame",
            remedy=_make_room(tier, bay, rules, grid),
        )


def _needed(tier: FrameTier, rules: FrameRules) -> float:
    """Return the narrowest frame of a tier [mm]."""
    return tier.bought_width if tier.bought_width is not None else rules.least_mouldings * tier.moulding


def _make_room(tier: FrameTier, bay: Bay, rules: FrameRules, grid: LengthStyle) -> str:
    """Return what would let one frame into a bay."""
    spare = snap_down((bay.right - bay.left - _needed(tier, rules)) / 2, grid)
    if spare >= LEAST_CLEAR and set(bay.ends) <= {"end", "block"}:
        return f"An end gap of at most {_show(spare, grid)} lets one frame in."
    part = "bought frame" if tier.bought_width is not None else "moulding"
    return f"Take a narrower {part}: no end gap lets one frame in."


# --- findings ----------------------------------------------------------------------------------------------------


def findings_of(
    group: TiersInLine, walls: Sequence[FrameWall], *, rules: FrameRules, grid: LengthStyle
) -> Iterator[FrameFinding]:
    """Yield what could not be had for tiers in line: bay by bay, then for the set."""
    by_name = {w.name: w for w in walls}
    for bay in group.empty:
        yield _no_room(group, bay, rules, grid)
    for filled in group.bays:
        wall = by_name[filled.bay.wall]
        tiers = [t for t in group.tiers if t.name in filled.bay.tiers]
        for tier in tiers:
            yield from _crossed(tier, filled, wall, grid)
        yield from _close_ends(filled, grid)
        yield from _outer_gaps(filled, rules, grid)
        yield from _shape(filled, tiers, rules, grid)
        yield from _end_gap_limits(filled, tiers[0], rules, grid)
    for tier in group.tiers:
        for wall in walls:
            if any(f.bay.wall == wall.name and tier.name in f.bay.tiers for f in group.bays):
                yield from _close_bands(tier, wall, grid)
    yield from _unevenness(group, rules, grid)


def _no_room(group: TiersInLine, bay: Bay, rules: FrameRules, grid: LengthStyle) -> FrameFinding:
    tier = next(t for t in group.tiers if t.name in bay.tiers)
    needed = _needed(tier, rules)
    return FrameFinding(
        kind="no room",
        wall=bay.wall,
        tiers=bay.tiers,
        at=(bay.left + bay.right) / 2,
        found=bay.room,
        limit=needed,
        words=f"the gaps leave {_show(max(0.0, bay.room), grid)} of {_show(bay.right - bay.left, grid)}, "
        f"a frame needs {_show(needed, grid)}",
        remedy=_make_room(tier, bay, rules, grid),
    )


def _crossed(tier: FrameTier, filled: FilledBay, wall: FrameWall, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield the seams and joints that cross frames or that joints come too near to."""
    width = filled.pattern.width
    for seam in upright_seams(wall, tier):
        for left in filled.pattern.lefts:
            right = left + width
            near = nearness(seam, left=left, right=right)
            if crosses(seam, left=left, right=right, moulding=tier.moulding):
                yield _crossing(
                    tier, wall, seam.name, parts=seam.parts, at=seam.left, left=left, right=right, grid=grid
                )
            elif near is not None:
                yield _too_near(tier.name, wall.name, f"joint {seam.name}", at=seam.left, found=near, grid=grid)
    for seam in seams_for(wall, tier):
        inset = 0.0 if seam.parts else tier.moulding
        if not seam.upright and tier.bottom + inset + TOUCH < seam.bottom < tier.top - inset - TOUCH:
            for left in filled.pattern.lefts:
                if left < seam.right - TOUCH and left + width > seam.left + TOUCH:
                    yield _crossing(
                        tier,
                        wall,
                        seam.name,
                        parts=seam.parts,
                        at=seam.bottom,
                        left=tier.bottom,
                        right=tier.top,
                        grid=grid,
                    )


def _crossing(
    tier: FrameTier, wall: FrameWall, seam: str, *, parts: bool, at: float, left: float, right: float, grid: LengthStyle
) -> FrameFinding:
    inside = min(at - left, right - at)
    return FrameFinding(
        kind="joint" if parts else "seam",
        wall=wall.name,
        tiers=(tier.name,),
        at=at,
        found=inside,
        limit=0.0,
        with_what=seam,
        words=f"{'joint' if parts else 'seam'} {seam} crosses a frame, {_show(inside, grid)} from its nearer side",
        remedy="Part the bays at the joints, or fix these frames last as loose pieces."
        if parts
        else "Move the seam, change the gap, or fill and sand it before the frame goes on.",
    )


def _too_near(tier: str, wall: str, what: str, *, at: float, found: float, grid: LengthStyle) -> FrameFinding:
    return FrameFinding(
        kind="clear",
        wall=wall,
        tiers=(tier,),
        at=at,
        found=found,
        limit=LEAST_CLEAR,
        with_what=what,
        words=f"a frame overlaps {what} by {_show(-found, grid)}"
        if found < -TOUCH
        else f"a frame stands {_show(abs(found), grid)} from {what}",
        remedy=f"Keep {_show(LEAST_CLEAR, grid)} clear: move one of the two, or change the gap.",
    )


def _close_bands(tier: FrameTier, wall: FrameWall, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield the trim lines that a tier touches or comes too near to."""
    for band in wall.bands:
        distance = max(tier.bottom - band.top, band.bottom - tier.top)
        if distance < LEAST_CLEAR - TOUCH:
            yield _too_near(tier.name, wall.name, band.name, at=band.top, found=distance, grid=grid)


def _close_ends(filled: FilledBay, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield the ends of a bay that its outer frames come too near to."""
    bay, names = filled.bay, {"end": "the wall's end", "block": "the casing"}
    for edge, at, gap in zip(bay.ends, (bay.left, bay.right), filled.pattern.ends, strict=True):
        if edge in names and gap < LEAST_CLEAR - TOUCH:
            yield _too_near(bay.tiers[0], bay.wall, names[edge], at=at, found=gap, grid=grid)


def _outer_gaps(filled: FilledBay, rules: FrameRules, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield the outer gaps of a pattern that is centred on a picture, where they differ visibly."""
    difference = abs(filled.pattern.beyond[0] - filled.pattern.beyond[1])
    if difference > rules.alike:
        first, last = (_show(gap, grid) for gap in filled.pattern.ends)
        yield FrameFinding(
            kind="outer gaps",
            wall=filled.bay.wall,
            tiers=filled.bay.tiers,
            at=None,
            found=difference,
            limit=rules.alike,
            words=f"centred on the picture, the pattern leaves {first} on the left and {last} on the right",
            remedy="Centre it on the wall, or move the wall or the camera sideways by half the difference.",
        )


def _shape(
    filled: FilledBay, tiers: Sequence[FrameTier], rules: FrameRules, grid: LengthStyle
) -> Iterator[FrameFinding]:
    """Yield frames that are slimmer or wider than the pleasing shapes, judged on the bay's tallest tier."""
    width, height = filled.pattern.width, max(t.height for t in tiers)
    ratio = max(width, height) / min(width, height)
    dodging = filled.unseamed != filled.pattern.count
    because = f"; {filled.unseamed} instead would put seams or joints inside frames" if dodging else ""
    if ratio > rules.shape:
        yield FrameFinding(
            kind="shape",
            wall=filled.bay.wall,
            tiers=filled.bay.tiers,
            at=filled.pattern.lefts[0],
            found=ratio,
            limit=rules.shape,
            words=f"frames of {_show(width, grid)} by {_show(height, grid)} high are "
            f"{'slim' if height > width else 'wide'}: 1 to {ratio:.1f}{because}",
            remedy="Let the bays part at the joints, or let the frames come off for a move."
            if dodging
            else "Change the height, the gap or the walls they are on, if it shows in the picture.",
        )


def _end_gap_limits(filled: FilledBay, tier: FrameTier, rules: FrameRules, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield end gaps of bought frames that are wider than the limit; narrow ones are found by their clear distance."""
    limit = rules.greatest_end_gap * tier.ends
    found = tier.ends + max(filled.pattern.beyond)
    if tier.bought_width is not None and found > limit + TOUCH:
        yield FrameFinding(
            kind="end gap",
            wall=filled.bay.wall,
            tiers=filled.bay.tiers,
            at=None,
            found=found,
            limit=limit,
            words=f"bought frames leave an end gap of {_show(found, grid)}, wished {_show(tier.ends, grid)}",
            remedy="Take another bought width, another gap, or frames mitred from lengths.",
        )


def _unevenness(group: TiersInLine, rules: FrameRules, grid: LengthStyle) -> Iterator[FrameFinding]:
    """Yield visibly unequal widths over the set, and a frame that is odd beside the others."""
    names = tuple(t.name for t in group.tiers)
    if group.tiers[0].bought_width is None and group.spread > rules.alike + TOUCH:
        cost = group.spread - group.spread_without_seams
        because = f"; {_show(cost, grid)} of it keeps frames off seams" if cost > rules.alike else ""
        yield FrameFinding(
            kind="uneven",
            wall=None,
            tiers=names,
            at=None,
            found=group.spread,
            limit=rules.alike,
            words=f"widths differ by {_show(group.spread, grid)} over the set{because}",
            remedy="Change the gap, a wall's length, or the walls they are on.",
        )
    if group.odd:
        bays = [f for f in group.bays if "in line" not in f.bay.ends] or group.bays
        narrow = min(bays, key=lambda f: f.pattern.exact)
        share = narrow.pattern.exact / max(f.pattern.exact for f in bays)
        yield FrameFinding(
            kind="odd",
            wall=narrow.bay.wall,
            tiers=narrow.bay.tiers,
            at=narrow.pattern.lefts[0],
            found=share,
            limit=rules.odd,
            words=f"a frame {_show(narrow.pattern.width, grid)} wide is {100 * share:.0f} % of the widest",
            remedy="Leave the frames out on that wall, or change its length.",
        )


def not_in_line(groups: Sequence[TiersInLine], walls: Sequence[FrameWall]) -> Iterator[FrameFinding]:
    """Yield the walls on which tiers do not stand in line, because their gaps, widths or middle lines differ."""
    for wall in walls:
        here = [tuple(t for t in group.tiers if t.is_on(wall.name)) for group in groups]
        firsts = [tiers[0] for tiers in here if tiers]
        for tier in firsts[1:]:
            yield FrameFinding(
                kind="not in line",
                wall=wall.name,
                tiers=(firsts[0].name, tier.name),
                at=None,
                found=abs(tier.gap - firsts[0].gap),
                limit=0.0,
                words=f"{tier.name} does not stand in line with {firsts[0].name}: other gaps, widths or middle lines",
                remedy="Give both the same gap, end gap and bought width.",
            )


def _show(mm: float, grid: LengthStyle) -> str:
    """Return a length for a message, on the grid."""
    text = drawing_length(mm, style=grid)
    return f"{text} mm" if grid.system == "metric" else text
