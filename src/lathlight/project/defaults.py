"""What is taken where the project file says nothing, each with the reason that is shown for it.

Every figure here is trade usage that the user can overrule by one line in the file.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeVar

from lathlight.units import INCH
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.project.model import Table
    from lathlight.units import LengthStyle

T = TypeVar("T")


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
    paint: str
    primer: str
    weight: str
    roller: float
    brush: float
    screw_spacing: float
    brad_spacing: float
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
    paint="flat paint",
    primer="primer",
    weight="stage weight",
    roller=100.0,
    brush=25.0,
    screw_spacing=200.0,
    brad_spacing=300.0,
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
    paint="flat paint US",
    primer="primer US",
    weight="stage weight",
    roller=_inches("4"),
    brush=_inches("1"),
    screw_spacing=_inches("8"),
    brad_spacing=_inches("12"),
    ending=" in",
)
STAIR_PITCH = 38.0  # degrees: common practice, no source


def defaults_of(style: LengthStyle) -> Defaults:
    """Return the usual things of a project's system."""
    return METRIC if style.system == "metric" else IMPERIAL


def usual(what: str, value: float | str, unit: str = "") -> Working:
    """Return the working of a value that the file does not state."""
    return Working(formula=f"usual {what}", source=COMMON_PRACTICE, value=value, unit=unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """Fills in what one table of the file does not state, and keeps why, by the key that would state it."""

    assumed: dict[str, Working] = field(default_factory=dict[str, Working], repr=False)
    table: str = ""  # where the keys belong: "sitters/potter"

    def within(self, table: str) -> Filled:
        """Return the same for a table inside this one."""
        return replace(self, table=self._key(table))

    def unless(self, key: str, stated: T | None, otherwise: T, why: Working) -> T:
        """Return what is stated; else the other value, with its working kept."""
        if stated is None:
            self.keep(key, why)
            return otherwise
        return stated

    def size(self, key: str, stated: float | None, otherwise: float, *, what: str) -> float:
        """Return a stated length; else the usual one [mm]."""
        return self.unless(key, stated, otherwise, usual(what, otherwise, "mm"))

    def unstated(self, table: Table, key: str, why: Working) -> None:
        """Keep the working of a value that the table holds without the file having stated it."""
        if key not in table.model_fields_set:
            self.keep(key, why)

    def keep(self, key: str, why: Working) -> None:
        """Keep the working of a value that was filled in."""
        self.assumed[self._key(key)] = why

    def _key(self, key: str) -> str:
        return f"{self.table}/{key}" if self.table else key
