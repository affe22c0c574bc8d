"""On which day which flat's sheets are glued, and how many weights that takes.

A plain rule until the work has its own calendar: the sheets of one flat are glued together, flats in their order; a
turn takes the hours that the glue is held and one more for laying out. As many turns as fit into a working day follow
each other with the same weights; a glue held longer than a shift takes one flat a day, and its weights stay.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.finishing import busiest_day
from lathlight.fixing.model import GlueRound
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.finishing import Clamping, WeightDay
    from lathlight.fixing.model import SheetFixing

HANDLING = 1.0  # laying out, gluing and clearing one flat [h]: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueDays:
    """All turns, and the day whose turn needs most weights."""

    rounds: tuple[GlueRound, ...]
    busiest: WeightDay | None
    why: Working


def plan_gluing(sheets: Sequence[SheetFixing], *, hours_a_day: float) -> GlueDays:
    """Return the turns in which flats are glued.

    Parameters
    ----------
    sheets
        In the order of their flats; those without glue take no turn.
    hours_a_day
        Of the workshop [h].
    """
    by_flat: dict[str, list[Clamping]] = {}
    for sheet in sheets:
        if sheet.clamping is not None:
            by_flat.setdefault(sheet.flat, []).append(sheet.clamping)
    longest = max((c.hours for held in by_flat.values() for c in held), default=0.0)
    turns = max(1, int(hours_a_day // (longest + HANDLING)))
    rounds = tuple(
        GlueRound(
            flat=flat,
            day=1 + index // turns,
            turn=1 + index % turns,
            number=sum(c.number for c in held if c.held == "weights"),
            mass=sum(c.mass for c in held),
            hours=max(c.hours for c in held),
        )
        for index, (flat, held) in enumerate(by_flat.items())
    )
    return GlueDays(
        rounds=rounds, busiest=_busiest(list(by_flat.values()), turns), why=_why(longest, turns, hours_a_day)
    )


def _busiest(held: Sequence[Sequence[Clamping]], turns: int) -> WeightDay | None:
    """Return the day of the turn that needs most weights: turn by turn they go round, so that they never add up."""
    found = busiest_day((turn, clamping) for turn, each in enumerate(held) for clamping in each)
    return None if found is None else replace(found, day=1 + found.day // turns)


def _why(longest: float, turns: int, hours_a_day: float) -> Working:
    return Working(
        formula="hours a day over the hours that the glue is held and one more: whole turns, at least one, a flat each",
        inputs=(("held", longest, "h"), ("laying out", HANDLING, "h"), ("hours a day", hours_a_day, "h")),
        source=COMMON_PRACTICE,
        value=turns,
    )
