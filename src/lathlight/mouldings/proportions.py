"""How heights and sizes of mouldings stand to their wall, beside the rules that the trade gives for them.

The rules disagree: shops and writers on classical rooms set the same rail at different heights. All are shown with
their sources and whether the set agrees; none is enforced. A set is a picture first: where a line lands behind the
sitter counts for more, and is left to other modules. A rule stated for a height of room counts as a share of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.catalog import width
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.casing_model import Casing
    from lathlight.mouldings.trim_model import Moulding, TrimWall

FOOT = 304.8  # [mm]
INCH = 25.4
EDGE = 1e-9  # a share on a band's edge agrees

Measure = Literal["top edge to wall", "moulding to wall", "moulding to base"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProportionRule:
    """One rule: a band of a ratio, for one kind of moulding."""

    name: str  # whose rule it is; rules of one name for several heights of room are one rule
    words: str  # as it is given
    kind: str  # "rail", "base", "cornice", "casing"
    measure: Measure
    low: float
    high: float
    source: str
    stated_for: float | None = None  # height of room that it was stated for [mm]; None: any


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """One rule beside the set's own ratio."""

    rule: ProportionRule
    agrees: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    """One ratio of one moulding on one wall, and what the rules say of it."""

    wall: str
    line: str  # trim line, or opening whose casing it is
    kind: str
    measure: Measure
    ratio: float
    over: tuple[float, float]  # what is divided by what [mm]
    verdicts: tuple[Verdict, ...]  # none where the trade gives no rule


CHAIR_RAIL = "carpentry magazine on chair rail heights"
SIZES = "moulding suppliers' tables of sizes by ceiling height"
PANELLING = "rules of thumb for wainscot, trade press"


def _sized(name: str, words: str, kind: str, low: float, high: float, *, feet: float) -> ProportionRule:
    """Return a rule on a moulding's own size, stated in inches for a room of so many feet."""
    return ProportionRule(
        name=name,
        words=words,
        kind=kind,
        measure="moulding to wall",
        low=low * INCH / (feet * FOOT),
        high=high * INCH / (feet * FOOT),
        source=SIZES,
        stated_for=feet * FOOT,
    )


def _placed(
    name: str, words: str, low: float, high: float, *, source: str = CHAIR_RAIL, feet: float | None = None
) -> ProportionRule:
    """Return a rule on a rail's top edge as a share of the wall."""
    return ProportionRule(
        name=name,
        words=words,
        kind="rail",
        measure="top edge to wall",
        low=low,
        high=high,
        source=source,
        stated_for=None if feet is None else feet * FOOT,
    )


RULES: tuple[ProportionRule, ...] = (
    _placed("shop", "32 to 36 in under 8 ft", 32 / 96, 36 / 96, feet=8),
    _placed("classical", "24 to 30 in under 9 to 10 ft", 24 / 120, 30 / 108, feet=9.5),
    _placed("wainscot", "about a third", 0.30, 0.37, source=PANELLING),
    _placed("wainscot with a plate rail", "about two thirds", 0.63, 0.70, source=PANELLING),
    _placed("usual", "between a quarter and two fifths", 0.25, 0.40, source=COMMON_PRACTICE),
    _sized("shop", "3 to 6 in under 8 ft", "rail", 3, 6, feet=8),
    _sized("shop", "5 to 8 in under 8 ft", "base", 5, 8, feet=8),
    ProportionRule(
        name="usual",
        words="about 7 %: between 5 1/2 and 10 %",
        kind="base",
        measure="moulding to wall",
        low=0.055,
        high=0.10,
        source=COMMON_PRACTICE,
    ),
    _sized("shop", "3 1/2 to 4 1/2 in under 8 ft", "casing", 3.5, 4.5, feet=8),
    _sized("shop", "3 1/2 to 5 1/2 in under 8 ft", "cornice", 3.5, 5.5, feet=8),
    _sized("by the ceiling", "2 1/2 to 6 in under 8 ft", "cornice", 2.5, 6, feet=8),
    _sized("by the ceiling", "3 to 7 1/2 in under 9 ft", "cornice", 3, 7.5, feet=9),
    _sized("by the ceiling", "3 1/2 to 8 in under 10 ft", "cornice", 3.5, 8, feet=10),
    ProportionRule(
        name="beside the base",
        words="no taller than the base",
        kind="cornice",
        measure="moulding to base",
        low=0.0,
        high=1.0,
        source=SIZES,
    ),
)


def proportions_of(
    walls: Sequence[TrimWall], casings: Sequence[Casing] = (), *, floor: float = 0.0
) -> tuple[Proportion, ...]:
    """Return the ratios of every trim line and casing to its wall, each beside the rules there are for it.

    Parameters
    ----------
    walls
        With their lines; heights above the foot of the flats [mm].
    casings
        Casing of the openings in these walls.
    floor
        Height of the finished floor [mm]: heights and the wall's height count from there.
    """
    return tuple(p for wall in walls for p in _wall_proportions(wall, casings, floor))


def _wall_proportions(wall: TrimWall, casings: Sequence[Casing], floor: float) -> Iterator[Proportion]:
    height = wall.height - floor
    base = max((width(line.profile) for line in wall.lines if line.kind == "base"), default=None)
    for line in wall.lines:
        own = width(line.profile)
        if line.kind in ("rail", "picture rail"):
            yield _row(wall.name, line.name, line.kind, "top edge to wall", line.top - floor, height)
        yield _row(wall.name, line.name, line.kind, "moulding to wall", own, height)
        if line.kind == "cornice" and base is not None:
            yield _row(wall.name, line.name, line.kind, "moulding to base", _upright(line), base)
    for casing in casings:
        if casing.wall == wall.name:
            yield _row(wall.name, casing.opening, "casing", "moulding to wall", width(casing.profile), height)


def _upright(line: Moulding) -> float:
    """Return how much of the wall a line covers [mm]."""
    return line.top - line.bottom


def _row(wall: str, line: str, kind: str, measure: Measure, part: float, whole: float) -> Proportion:
    ratio = part / whole
    return Proportion(
        wall=wall,
        line=line,
        kind=kind,
        measure=measure,
        ratio=ratio,
        over=(part, whole),
        verdicts=tuple(
            Verdict(rule=rule, agrees=rule.low - EDGE <= ratio <= rule.high + EDGE)
            for rule in rules_for(kind=kind, measure=measure, height=whole)
        ),
    )


def rules_for(*, kind: str, measure: Measure, height: float) -> tuple[ProportionRule, ...]:
    """Return the rules for one ratio; of a rule stated for several heights of room, the one nearest to this wall's."""
    found = [rule for rule in RULES if rule.kind == kind and rule.measure == measure]
    families: dict[str, list[ProportionRule]] = {}
    for rule in found:
        families.setdefault(rule.name, []).append(rule)
    return tuple(min(rules, key=lambda r: abs((r.stated_for or height) - height)) for rules in families.values())
