"""How many lengths of every moulding all pieces of a set come out of, by first fit.

Takes lengths from long point to long point. The count is not proven to be the fewest; which piece comes out of which
length, with its mitres, is left to the cutting.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry import pack_boards
from lathlight.finishing.quantities import Pack, TakeoffRow, takeoff_line
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Profile

TOUCH = 1e-6
REASON = "whole lengths, first fit, longest first; not proven to be the fewest"
TOO_LONG = "longer than any length sold: each piece a length of its own"


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingCut:
    """One piece to be cut out of a moulding, from long point to long point [mm]."""

    id: str
    profile: Profile
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingStock:
    """Lengths of one moulding, all of one length on sale."""

    profile: Profile
    length: float  # of each [mm]
    on_sale: bool  # False: a piece is longer than any that is sold
    cuts: tuple[tuple[str, ...], ...]  # ids of pieces, length by length
    net: float  # all pieces together [mm]

    @property
    def number(self) -> int:
        """How many lengths."""
        return len(self.cuts)


def pack_mouldings(cuts: Sequence[MouldingCut], *, kerf: float, trim_cut: float) -> tuple[MouldingStock, ...]:
    """Return the lengths of every moulding, by its name; pieces longer than any that is sold stand apart.

    Parameters
    ----------
    cuts
        Pieces, in any order.
    kerf, trim_cut
        Width of a cut; what is cut off a factory end first [mm].
    """
    ordered = sorted(cuts, key=lambda c: (c.profile.name, -c.length, c.id))
    return tuple(
        stock
        for _, group in itertools.groupby(ordered, key=lambda c: c.profile.name)
        for stock in _packed(list(group), kerf, trim_cut)
    )


def _packed(cuts: Sequence[MouldingCut], kerf: float, trim_cut: float) -> Iterable[MouldingStock]:
    profile = cuts[0].profile
    longest = max(profile.lengths)
    sold = [c for c in cuts if c.length <= longest + TOUCH]
    if sold:
        plan = pack_boards([c.length for c in sold], stock=profile.lengths, kerf=kerf, trim_cut=trim_cut)
        yield MouldingStock(
            profile=profile,
            length=plan.length,
            on_sale=True,
            cuts=tuple(tuple(sold[i].id for i in items) for items in plan.items),
            net=math.fsum(c.length for c in sold),
        )
    for length, group in itertools.groupby([c for c in cuts if c.length > longest + TOUCH], key=lambda c: c.length):
        same = list(group)
        yield MouldingStock(
            profile=profile,
            length=length,
            on_sale=False,
            cuts=tuple((c.id,) for c in same),
            net=length * len(same),
        )


def moulding_rows(stocks: Sequence[MouldingStock]) -> tuple[TakeoffRow, ...]:
    """Return one row of the takeoff a moulding, in metres, with the lengths to buy."""
    groups = itertools.groupby(stocks, key=lambda s: s.profile.name)
    return tuple(_row(name, list(group)) for name, group in groups)


def _row(name: str, stocks: Sequence[MouldingStock]) -> TakeoffRow:
    net = math.fsum(s.net for s in stocks) / 1000
    gross = math.fsum(s.length * s.number for s in stocks) / 1000
    reasons = [REASON] if any(s.on_sale for s in stocks) else []
    reasons += [TOO_LONG] if not all(s.on_sale for s in stocks) else []
    line = takeoff_line(
        item=name,
        unit="m",
        net=net,
        allowance=max(gross - net, 0.0),
        reason="; ".join(reasons) if gross > net else "",
        why=Working(
            formula="pieces from long point to long point, packed into whole lengths, longest first",
            inputs=(
                ("pieces", sum(len(c) for s in stocks for c in s.cuts), ""),
                *(("lengths", s.number, "") for s in stocks),
                *(("of", s.length, "mm") for s in stocks),
            ),
            source=COMMON_PRACTICE,
            value=gross,
            unit="m",
        ),
    )
    packs = tuple(Pack(size=s.length, unit="mm", number=s.number) for s in stocks)
    return TakeoffRow(trade="mouldings", line=line, packs=packs)
