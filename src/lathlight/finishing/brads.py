"""Which brad or pin a moulding can take at a place, and where the brads of a run sit.

A brad is never longer than what it enters: moulding, skin, the timber behind, less what keeps its point in. Decides
fastener and places; whether a moulding is glued as well is left to the fixing plan. Whoever shoots brads near an edge
keeps the other hand away from where the point could come out.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.finishing.quantities import takeoff_line
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import Flat
    from lathlight.catalog import Fastener, Profile
    from lathlight.finishing.quantities import TakeoffLine

POINT_COVER = 2.0  # of timber or skin that stays in front of the point [mm]
LEAST_BITE = 6.0  # a brad holds where it goes at least this far past the moulding [mm], common practice
SPACING = 300.0  # between brads [mm], common practice
END = 40.0  # first brad from a moulding's end [mm]: nearer it splits, common practice
EDGE = 8.0  # timber is missed nearer than this to its edge [mm], common practice
SPARE = 0.1  # share of bent and lost brads, common practice
TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class BradChoice:
    """The brad for one place; none where every one on sale would come out or not hold."""

    fastener: Fastener | None
    longest: float  # that may be used [mm]
    shortest: float  # that still holds [mm]
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class BradRun:
    """One straight moulding on a wall that is fixed with brads; wall axes [mm]."""

    id: str
    wall: str
    start: tuple[float, float]  # (x, z), along the line in which the brads sit
    end: tuple[float, float]
    thickness: float  # of the moulding where they go through [mm]

    @property
    def length(self) -> float:
        """From end to end [mm]."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class Brad:
    """One brad and where it sits."""

    run: str
    at: tuple[float, float]  # (x, z), wall axes [mm]
    timber: str | None  # id of the member behind; None: skin only
    choice: BradChoice


def thickness_at(profile: Profile, *, up: float) -> float:
    """How thick a moulding is at a height above its bottom edge [mm], from its back on the wall to its front.

    Raises
    ------
    ValueError
        A cornice, which has no back on the wall; a height outside the section.
    """
    if profile.spring is not None:
        raise ValueError(f"{profile.name}: a sprung moulding has no thickness against the wall")
    ring = profile.points
    outs = [
        a[0] + (b[0] - a[0]) * (up - a[1]) / (b[1] - a[1])
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        if a[1] != b[1] and min(a[1], b[1]) <= up <= max(a[1], b[1])
    ]
    if not outs:
        raise ValueError(f"{profile.name}: {up:g} mm lies outside the section")
    return max(outs)


def choose_brad(
    fasteners: Iterable[Fastener], *, moulding: float, skin: float, timber: float, kinds: Sequence[str] = ("brad",)
) -> BradChoice:
    """Return the longest fastener that stays inside what it enters and still holds.

    Parameters
    ----------
    fasteners
        Those on sale.
    moulding, skin, timber
        Thickness of the moulding where it goes through, of the sheet, and of timber behind it (0 between members)
        [mm].
    kinds
        Kinds of fastener in order of liking; a later kind is taken only where no earlier one fits.

    Raises
    ------
    ValueError
        No moulding, or a negative thickness.
    """
    if not (moulding > 0 and skin >= 0 and timber >= 0):
        raise ValueError(f"moulding {moulding:g}, skin {skin:g} and timber {timber:g} mm")
    longest = moulding + skin + timber - POINT_COVER
    shortest = moulding + LEAST_BITE
    fit = [f for f in fasteners if f.kind in kinds and shortest - TOUCH <= f.length <= longest + TOUCH]
    chosen = min(fit, key=lambda f: (kinds.index(f.kind), -f.length, f.name), default=None)
    return BradChoice(
        fastener=chosen,
        longest=longest,
        shortest=shortest,
        why=Working(
            formula="longest on sale that goes at least 6 mm past the moulding and stops 2 mm short of all it enters",
            inputs=(("moulding", moulding, "mm"), ("skin", skin, "mm"), ("timber behind", timber, "mm")),
            source=COMMON_PRACTICE,
            value=chosen.name if chosen else "none fits: glue alone, held until it sets",
        ),
    )


def brad_places(length: float, *, spacing: float = SPACING, end: float = END) -> tuple[float, ...]:
    """Return where brads sit along a moulding, from its start [mm]: evenly, never further apart than the spacing.

    A moulding too short for two ends has one brad in its middle; no length has none.

    Raises
    ------
    ValueError
        A spacing of 0 or less, a negative end.

    Examples
    --------
    >>> brad_places(1000.0, spacing=300.0, end=50.0)
    (50.0, 350.0, 650.0, 950.0)
    """
    if not (spacing > 0 and end >= 0):
        raise ValueError(f"brads {spacing:g} mm apart, {end:g} mm from the end")
    if length <= 0:
        return ()
    inner = length - 2 * end
    if inner <= TOUCH:
        return (length / 2,)
    steps = math.ceil(inner / spacing - TOUCH)
    return tuple(end + inner * i / steps for i in range(steps + 1))


def place_brads(
    run: BradRun,
    flats: Sequence[Flat],
    fasteners: Sequence[Fastener],
    *,
    spacing: float = SPACING,
    kinds: Sequence[str] = ("brad", "pin"),
) -> tuple[Brad, ...]:
    """Return the brads of a run, each chosen by what lies behind it; a place in front of no flat gets none."""
    return tuple(
        Brad(run=run.id, at=at, timber=timber, choice=_choice(run, flat, timber, fasteners, kinds))
        for at in _points(run, spacing)
        for flat, timber in _behind(run, at, flats)
    )


def _points(run: BradRun, spacing: float) -> Iterable[tuple[float, float]]:
    (x0, z0), (x1, z1) = run.start, run.end
    for place in brad_places(run.length, spacing=spacing):
        share = place / run.length
        yield x0 + (x1 - x0) * share, z0 + (z1 - z0) * share


def _behind(run: BradRun, at: tuple[float, float], flats: Sequence[Flat]) -> Iterable[tuple[Flat, str | None]]:
    """Yield the flat at a place, and the member a brad meets there well inside its edges; at most one."""
    x, z = at
    for flat in flats:
        if flat.wall == run.wall and flat.sheet_x0 <= x <= flat.sheet_x1 and flat.z0 <= z <= flat.z1:
            hit = (
                m.id
                for m in flat.members
                if abs(m.behind - flat.sheet.thickness) < TOUCH
                and m.x + EDGE <= x <= m.x + m.wide - EDGE
                and m.z + EDGE <= z <= m.z + m.high - EDGE
            )
            yield flat, next(hit, None)
            return


def _choice(
    run: BradRun, flat: Flat, timber: str | None, fasteners: Sequence[Fastener], kinds: Sequence[str]
) -> BradChoice:
    deep = next((m.deep for m in flat.members if m.id == timber), 0.0)
    return choose_brad(fasteners, moulding=run.thickness, skin=flat.sheet.thickness, timber=deep, kinds=kinds)


def brad_lines(brads: Sequence[Brad]) -> tuple[TakeoffLine, ...]:
    """Return how many of each fastener are wanted, with spares; places that take none are left out."""
    counts = Counter(b.choice.fastener.name for b in brads if b.choice.fastener is not None)
    return tuple(
        takeoff_line(
            item=name,
            unit="",
            net=number,
            allowance=math.ceil(number * SPARE),
            reason=f"{SPARE * 100:.3g} % bent or lost",
            why=Working(
                formula="brads at even places along every run, each as long as what lies behind it allows",
                inputs=(("places", number, ""), ("spares", SPARE, "share")),
                source=f"{GEOMETRY}; spacing and spares: {COMMON_PRACTICE}",
                value=number,
            ),
        )
        for name, number in sorted(counts.items())
    )
