"""Ways to bring one part through one place: each a list of needs, the best of them chosen and put into words.

A need is a dimension of the part against the largest that passes. Which ways there are is decided by the modules of
the places (doors, corridors, vehicle, tilt); here they are only compared.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.passage.model import Passing
from lathlight.passage.rectangles import TOUCH, widest_fitting
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

CLEARANCE = 15.0  # kept free of every clear size of the way in [mm], common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One dimension of the part against the largest that passes [mm]."""

    what: str  # "width", "depth", "length along the way"
    figure: float
    limit: float
    formula: str  # how the limit follows, in words

    @property
    def is_met(self) -> bool:
        """True where the part passes in this dimension."""
        return self.figure <= self.limit + TOUCH

    @property
    def strain(self) -> float:
        """How far the figure uses its limit up: above 1 it does not pass."""
        return self.figure / self.limit if self.limit > 0 else math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to carry the part, with all that it asks for."""

    how: str  # "on edge, its width upright"
    needs: tuple[Need, ...]

    @property
    def passes(self) -> bool:
        """True where every need is met."""
        return all(need.is_met for need in self.needs)

    @property
    def tightest(self) -> Need:
        """The need that decides: the one that strains its limit most."""
        return max(self.needs, key=lambda need: need.strain)


def chosen_way(ways: Sequence[Way]) -> Way:
    """Return the first way that passes, or else the one that comes nearest to passing."""
    for way in ways:
        if way.passes:
            return way
    return min(ways, key=lambda way: way.tightest.strain)


def judged(through: str, ways: Sequence[Way], *, place: Sequence[tuple[str, float, str]], source: str) -> Passing:
    """Return how a part passes a place, by the best of the ways.

    Parameters
    ----------
    through
        Name of the place.
    ways
        In order of preference, at least one.
    place
        Sizes of the place as name, value, unit, for the working.
    source
        Where the rule comes from.
    """
    way = chosen_way(ways)
    need = way.tightest
    return Passing(
        through=through,
        passes=way.passes,
        figure=need.figure,
        limit=max(need.limit, 0.0),
        how=way.how,
        why=Working(
            formula=f"{way.how}: its {need.what} at most {need.formula}",
            inputs=((need.what, need.figure, "mm"), ("at most", max(need.limit, 0.0), "mm"), *place),
            source=source,
            value="passes" if way.passes else "does not pass",
        ),
    )


def on_edge(
    *, width: float, height: float, depth: float, across: float, upright: float, along: float = math.inf
) -> tuple[Way, ...]:
    """Return the ways to carry a flat on edge through an opening, the plainest first.

    Parameters
    ----------
    width, height, depth
        Of the flat [mm].
    across, upright
        Width and height of the opening, clearance taken off [mm].
    along
        Longest side that finds room along the way [mm].
    """
    leaning = widest_fitting(q=depth, a=upright, b=across)
    ways: list[Way] = []
    thick = Need(what="depth", figure=depth, limit=across, formula=f"the clear width less {CLEARANCE:.0f} mm")
    for limit, manner, formula in (
        (upright, "", f"the clear height less {CLEARANCE:.0f} mm"),
        (leaning, ", leaning in the opening", "the longest that goes in leaning, at its depth"),
    ):
        for up, run, word, other in ((width, height, "width", "height"), (height, width, "height", "width")):
            needs = [thick, Need(what=word, figure=up, limit=limit, formula=formula)]
            if math.isfinite(along):
                needs.append(Need(what=other, figure=run, limit=along, formula="the room to run on or turn behind it"))
            ways.append(Way(how=f"on edge, its {word} upright{manner}", needs=tuple(needs)))
    return tuple(ways)
