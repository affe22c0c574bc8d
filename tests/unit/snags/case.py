"""One check tried on both sides of its limit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.plan import Plan


@dataclass(frozen=True, kw_only=True)
class Case:
    """One check with a plan on either side of its limit."""

    check: str
    wrong: Plan
    place: str
    figure: float
    right: Plan
