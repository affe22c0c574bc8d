"""How much primer and paint the surfaces take, in litres, and what is added to it and why.

Decides net and allowances from areas, coats and spreading rates; how large the areas are is ``paint_areas``, which tins
hold the litres is ``containers``. Hours and drying are left to the schedule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.finishing.quantities import takeoff_line
from lathlight.finishing.spread import checked_spread
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.catalog import Paint
    from lathlight.finishing.paint_areas import PaintArea
    from lathlight.finishing.quantities import TakeoffLine

MOST_COATS = 8  # of paint, and half as many of primer: more is a slip of the pen
SQUARE_METRE = 1e6  # [mm2]
SOFT_EDGES = ("MDF",)  # sheets whose sawn edges drink more than their faces


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintRules:
    """What is added to area x coats / spreading rate; all common practice, no source, and the user's to change."""

    raw_loss: float = 0.25  # share by which the first coat on bare sheet or timber takes more (20 to 30 %)
    edge_passes: int = 2  # more first coats on the sawn edges of soft sheet
    tray: float = 0.2  # left in roller and tray, each coating [l]
    touch_up: float = 0.1  # share of the paint kept for touching up


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """One thing that is added."""

    reason: str
    litres: float
    kept: bool = False  # True: stays in the tin for later


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintNeed:
    """What one coating comes to."""

    coating: Paint
    coats: int
    area: float  # one coat [mm2]
    net: float  # area x coats / spreading rate [l]
    allowances: tuple[Allowance, ...]
    on_bare: bool = False  # True: goes on bare surfaces only, as primer does

    @property
    def gross(self) -> float:
        """Net and allowances together [l]."""
        return self.net + math.fsum(a.litres for a in self.allowances)

    @property
    def sheen(self) -> str:
        """Class of sheen, as the catalogue's row has it."""
        return self.coating.sheen


def paint_needs(
    areas: Sequence[PaintArea],
    *,
    paint: Paint | None,
    coats: int,
    primer: Paint | None,
    primer_coats: int,
    rules: PaintRules,
) -> tuple[PaintNeed, ...]:
    """Return what primer (if any) and paint come to; the one that goes on first bears what raw surfaces drink.

    Parameters
    ----------
    areas
        Surfaces; those that are not painted do not count. Bought-in primed mouldings get no primer.
    coats, primer_coats
        0 to 8 and 0 to 4; none of a coating leaves it out.
    paint
        None leaves the set in its primer.
    primer
        None paints straight on the bare sheet.
    rules
        What is added.

    Raises
    ------
    InputError
        Coats out of range, a spreading rate of zero or less, a share that is none.
    """
    _refuse(coats, primer_coats, rules)
    painted = [a for a in areas if a.painted]
    bare = [a for a in painted if a.raw]
    found: list[PaintNeed] = []
    if primer is not None and primer_coats:
        first = _need(primer, primer_coats, bare, drinking=bare, rules=rules, touch_up=0.0)
        found.append(replace(first, on_bare=True))
    if paint is not None and coats:
        drinking = [] if found else bare
        found.append(_need(paint, coats, painted, drinking=drinking, rules=rules, touch_up=rules.touch_up))
    return tuple(found)


def _refuse(coats: int, primer_coats: int, rules: PaintRules) -> None:
    for place, number, most in (("coats", coats, MOST_COATS), ("primer_coats", primer_coats, MOST_COATS // 2)):
        if not 0 <= number <= most or number != int(number):
            raise InputError.of(
                place=place,
                found=f"{number:g}",
                expected=f"a whole number from 0 to {most}",
                remedy="Two coats are usual; three over a strong change of tone.",
            )
    for place, value in (("raw-sheet loss", rules.raw_loss), ("touch-up share", rules.touch_up), ("tray", rules.tray)):
        if not 0 <= value <= 1:
            raise InputError.of(
                place=place, found=f"{value:g}", expected="0 to 1", remedy="Write 10 % as 0.1; a tray in litres."
            )


def _need(
    coating: Paint,
    coats: int,
    areas: Sequence[PaintArea],
    *,
    drinking: Sequence[PaintArea],
    rules: PaintRules,
    touch_up: float,
) -> PaintNeed:
    rate = checked_spread(coating.spread, place=f"paint {coating.name}: spread") * SQUARE_METRE
    area = math.fsum(a.area for a in areas)
    net = area * coats / rate
    raw = math.fsum(a.area for a in drinking) / rate * rules.raw_loss
    soft = math.fsum(a.area for a in drinking if a.stuff == "sheet edge" and a.material in SOFT_EDGES)
    edges = soft / rate * rules.edge_passes
    extra = (
        Allowance(reason="first coat on bare surfaces soaks in", litres=raw),
        Allowance(reason=f"{rules.edge_passes} more passes on soft sheet edges", litres=edges),
        Allowance(reason="kept for touching up", litres=(net + raw + edges) * touch_up, kept=True),
        Allowance(reason="stays in roller and tray", litres=rules.tray if area > 0 else 0.0),
    )
    kept = tuple(a for a in extra if a.litres > 0)
    return PaintNeed(coating=coating, coats=coats, area=area, net=net, allowances=kept)


def need_line(need: PaintNeed) -> TakeoffLine:
    """Return the need as a takeoff line [l], every allowance named with its share of the net."""
    return takeoff_line(
        item=need.coating.name,
        unit="l",
        net=need.net,
        allowance=need.gross - need.net,
        reason="; ".join(f"{a.reason} {a.litres / need.net * 100:.0f} %" for a in need.allowances),
        why=Working(
            formula="area x coats / spreading rate, and what is added",
            inputs=(
                ("area", need.area, "mm2"),
                ("coats", need.coats, ""),
                ("spreading rate", need.coating.spread, "m2/l"),
                ("sheen", need.sheen, ""),
                *((a.reason, a.litres, "l") for a in need.allowances),
            ),
            source=f"spreading rate: {need.coating.source}; what is added: {COMMON_PRACTICE}",
            value=need.gross,
            unit="l",
        ),
    )
