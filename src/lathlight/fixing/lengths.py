"""Which fastener of those on sale is long enough to hold and short enough to stay inside.

Decides by length alone; kinds come in order of liking. A bolt shows on both sides; every other stays inside.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Fastener

POINT_COVER = 2.0  # timber that stays in front of a point [mm]: common practice, no source
GOOD_BITE = 2.0  # a screw goes into the timber twice as deep as the sheet is thick: common practice, no source
MOULDING_BITE = 25.0  # but one through a moulding this deep, however thick it and the sheet are: common practice
LEAST_BITE = 12.0  # and never less than this [mm]: common practice, no source
NUT = 12.0  # a bolt's thread past the timber, for washers and nut [mm]: common practice, no source
TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """What fits at a place: None where everything on sale comes out or does not hold."""

    fastener: Fastener | None
    shortest: float  # that holds [mm]
    longest: float  # that stays inside [mm]
    on_sale: float  # the shortest on sale that would hold, or the longest there is [mm]; 0: nothing of the kind


def fit_fastener(
    fasteners: Iterable[Fastener], *, kinds: Sequence[str], through: float, timber: float, most: float = inf
) -> Fit:
    """Return the shortest that bites twice the thickness it goes through; else the longest that holds at all.

    Parameters
    ----------
    fasteners
        Those on sale.
    kinds
        In order of liking; a later kind is taken only where no earlier one fits.
    through, timber
        What it goes through, and depth of the timber that it holds in [mm].
    most
        A bite that is good enough for any thickness [mm]: a longer screw is thicker, and splits a moulding.
    """
    shortest, longest = through + LEAST_BITE, through + timber - POINT_COVER
    wanted = through + max(LEAST_BITE, min(GOOD_BITE * through, most))
    of_kind = [f for f in fasteners if f.kind in kinds]
    for kind in kinds:
        fits = [f for f in of_kind if f.kind == kind and shortest - TOUCH <= f.length <= longest + TOUCH]
        good = [f for f in fits if f.length >= wanted - TOUCH]
        if good:
            best = min(good, key=lambda f: (f.length, f.diameter, f.name))
        elif fits:
            best = max(fits, key=lambda f: (f.length, -f.diameter, f.name))
        else:
            continue
        return Fit(fastener=best, shortest=shortest, longest=longest, on_sale=best.length)
    holding = [f.length for f in of_kind if f.length >= shortest - TOUCH]
    on_sale = min(holding, default=max((f.length for f in of_kind), default=0.0))
    return Fit(fastener=None, shortest=shortest, longest=longest, on_sale=on_sale)


def fit_bolt(fasteners: Iterable[Fastener], *, timber: float) -> Fit:
    """Return the shortest bolt that goes through so much timber [mm] and still takes its washers and nut."""
    bolts = [f for f in fasteners if f.kind == "bolt"]
    shortest = timber + NUT
    best = min((b for b in bolts if b.length >= shortest - TOUCH), key=lambda b: (b.length, b.name), default=None)
    on_sale = best.length if best else max((b.length for b in bolts), default=0.0)
    return Fit(fastener=best, shortest=shortest, longest=inf, on_sale=on_sale)
