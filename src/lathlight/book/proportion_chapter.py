"""Trim beside the rules of proportion that the trade gives: they disagree, and none is enforced.

Ratios and rules are those of ``lathlight.mouldings``; here lines that are alike on several walls are told once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn
from lathlight.book.words import listed
from lathlight.exports import length_words
from lathlight.plan import derive_proportions

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.book.blocks import Cell
    from lathlight.mouldings import Proportion, Verdict
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LEAD = (
    "What shops and writers advise for rooms, beside this set. The rules disagree with each other; none is enforced, "
    "and where a line lands behind the sitter counts for more."
)
DISAGREE = "rules disagree"
COLUMNS = (
    ListColumn(title="Line", kind="mark", grow=2),
    ListColumn(title="Walls", grow=2),
    ListColumn(title="Ratio", grow=3),
    ListColumn(title="Agrees with", grow=4),
    ListColumn(title="Not with", grow=4),
    ListColumn(title="Verdict", grow=2),
)
MEASURES = {"top edge to wall": "top edge at", "moulding to wall": "moulding of", "moulding to base": "moulding of"}
WHOLES = {"top edge to wall": "the wall", "moulding to wall": "the wall", "moulding to base": "the base"}


def proportion_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the proportions of the trim; nothing where no rule says anything of it."""
    alike: dict[tuple[str, str, str, float, float], list[Proportion]] = {}
    for each in derive_proportions(plan.brief, plan.casings):
        if each.verdicts:
            alike.setdefault((each.line, each.kind, each.measure, *each.over), []).append(each)
    if alike:
        every = {wall.name for wall in plan.walls}
        rows = tuple(_row(group, every, plan.brief.style) for group in alike.values())
        grid = Grid(columns=COLUMNS, groups=(Group(heading="", detail="", rows=rows),))
        yield Chapter(title="Proportions", lead=LEAD, blocks=(grid,))


def _row(alike: Sequence[Proportion], every: set[str], style: LengthStyle) -> tuple[Cell, ...]:
    first = alike[0]
    walls = list(dict.fromkeys(each.wall for each in alike))
    where = "all walls" if set(walls) == every and len(every) > 1 else listed(walls)
    part, whole = (length_words(mm, style) for mm in first.over)
    percent = f"{100 * first.ratio:.3g} % of {WHOLES[first.measure]}"
    yes = [_rule(v) for v in first.verdicts if v.agrees]
    no = [_rule(v) for v in first.verdicts if not v.agrees]
    verdict = DISAGREE if yes and no else "agrees" if yes else "beside the rule" if len(no) == 1 else "beside the rules"
    name = first.line if first.kind in first.line else f"{first.line}, {first.kind}"
    return name, where, f"{MEASURES[first.measure]} {part}, {percent} ({whole})", "; ".join(yes), "; ".join(no), verdict


def _rule(verdict: Verdict) -> str:
    return f"{verdict.rule.name}: {verdict.rule.words}"
