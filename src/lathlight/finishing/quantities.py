"""One line of a takeoff: what is needed, what is added to it, why, and what comes to be bought.

Decides nothing about how much is wanted; each trade (paint, glue, brads) makes its own lines. A row is a line with its
trade and the whole pieces that it is sold in, where they are known. Prices are left to buying.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from lathlight.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeoffLine:
    """How much of one thing the set needs; net and allowance make up the gross."""

    item: str  # a catalogue row's name
    unit: str  # "l", "m", "m2", "" for a count
    net: float  # what the drawing asks for
    allowance: float  # what is added
    reason: str  # of the allowance, in words; "" where there is none
    gross: float
    why: Working


Trade = Literal["timber", "sheets", "mouldings", "fixing", "floor", "paint"]
TRADES: tuple[Trade, ...] = ("timber", "sheets", "mouldings", "fixing", "floor", "paint")  # in the order of the list


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """Whole pieces of one size: boards, lengths of moulding, tins, boxes."""

    size: float  # of one
    unit: Literal["mm", "l", ""]  # of the size; "" for a box, whose size is how many it holds
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeoffRow:
    """One row of the takeoff of a set."""

    trade: Trade
    line: TakeoffLine
    packs: tuple[Pack, ...] = ()  # what is bought whole; () where the line's own figure is what is bought
    size: tuple[float, float] | None = None  # width and height of a thing that is bought by its size [mm]


def takeoff_line(*, item: str, unit: str, net: float, allowance: float, reason: str, why: Working) -> TakeoffLine:
    """Return a line whose gross is net and allowance together.

    Raises
    ------
    ValueError
        A negative figure, or an allowance without its reason.
    """
    if not (net >= 0 and allowance >= 0):
        raise ValueError(f"{item}: net {net:g} and allowance {allowance:g} must not be negative")
    if allowance > 0 and not reason:
        raise ValueError(f"{item}: an allowance needs its reason")
    return TakeoffLine(
        item=item, unit=unit, net=net, allowance=allowance, reason=reason, gross=net + allowance, why=why
    )
