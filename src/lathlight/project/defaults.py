"""What is taken where the project file says nothing, each with the reason that is shown for it.

Every figure here is trade usage that the user can overrule by one line in the file.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from lathlight.units import INCH
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class Defaults:
    """The usual things of one system of units; lengths [mm]."""

    sheet: str
    framing: str
    stud_spacing: float
    lining: float
    gap: float
    reveal: float
    kerf: float
    clear_behind: float
    stature: float
    forward: float
    paper: Literal["A4", "Letter"]
    ending: str  # how the catalogue's names of this system's fittings end; "" where they end in a figure


METRIC = Defaults(
    sheet="ply 9 mm",
    framing="38x38",
    stud_spacing=610.0,
    lining=18.0,
    gap=6.0,
    reveal=5.0,
    kerf=3.0,
    clear_behind=450.0,
    stature=1700.0,
    forward=1500.0,
    paper="A4",
    ending="",
)


def _inches(number: str) -> float:
    return float(Fraction(number) * INCH)


IMPERIAL = Defaults(
    sheet="ply 3-8 in",
    framing="2x2",
    stud_spacing=_inches("24"),
    lining=_inches("3/4"),
    gap=_inches("1/4"),
    reveal=_inches("3/16"),
    kerf=_inches("1/8"),
    clear_behind=_inches("18"),
    stature=_inches("67"),
    forward=_inches("60"),
    paper="Letter",
    ending=" in",
)
STAIR_PITCH = 38.0  # degrees: common practice, no source


def defaults_of(style: LengthStyle) -> Defaults:
    """Return the usual things of a project's system."""
    return METRIC if style.system == "metric" else IMPERIAL


def usual(what: str, value: float | str, unit: str = "") -> Working:
    """Return the working of a value that the file does not state."""
    return Working(formula=f"usual {what}, as none is stated", source=COMMON_PRACTICE, value=value, unit=unit)
