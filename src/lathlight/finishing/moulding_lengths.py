"""The takeoff of mouldings: whole lengths of each, as they were cut.

Pieces count from long point to long point. Which piece comes out of which length is decided by whoever cuts.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.finishing.quantities import Pack, TakeoffRow, takeoff_line
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.catalog import Profile

REASON = "whole lengths, long point to long point"
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
    counted: str  # how near the number is to the least that will do, in words

    @property
    def number(self) -> int:
        """How many lengths."""
        return len(self.cuts)


def moulding_rows(stocks: Sequence[MouldingStock]) -> tuple[TakeoffRow, ...]:
    """Return one row of the takeoff a moulding, in metres, with the lengths to buy."""
    groups = itertools.groupby(stocks, key=lambda s: s.profile.name)
    return tuple(_row(name, list(group)) for name, group in groups)


def _row(name: str, stocks: Sequence[MouldingStock]) -> TakeoffRow:
    net = math.fsum(s.net for s in stocks) / 1000
    gross = math.fsum(s.length * s.number for s in stocks) / 1000
    reasons = [f"{REASON}, {stocks[0].counted}"] if any(s.on_sale for s in stocks) else []
    reasons += [TOO_LONG] if not all(s.on_sale for s in stocks) else []
    line = takeoff_line(
        item=name,
        unit="m",
        net=net,
        allowance=max(gross - net, 0.0),
        reason="; ".join(reasons) if gross > net else "",
        why=Working(
            formula=f"pieces from long point to long point, cut from whole lengths; {stocks[0].counted}",
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
