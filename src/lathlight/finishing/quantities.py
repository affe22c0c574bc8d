"""One line of a takeoff: what is needed, what is added to it, why, and what comes to be bought.

Decides nothing about how much is wanted; each trade (paint, glue, brads) makes its own lines. Sale units and prices
are left to buying.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

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
