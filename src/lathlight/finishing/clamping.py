"""How every glued joint is held while it sets: weights by number and mass, pins or temporary screws, and for how long.

Decides numbers from the beads; on which day a sheet is glued is the schedule's, and comes in as a number. Weights only
bring sheet and timber together: the pressure is common practice, not that of a press.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.errors import InputError
from lathlight.finishing.quantities import takeoff_line
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Adhesive, Weight
    from lathlight.finishing.beads import Bead
    from lathlight.finishing.quantities import TakeoffLine

Held = Literal["weights", "pins", "temporary screws"]
GRAVITY = 9.81  # [m/s2]
SHIFT = 8.0  # [h] what is held no longer than this is free again the same day


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampRules:
    """How tightly a sheet is held; all common practice, no source, and the user's to change."""

    pressure: float = 2.0  # on the glued width of the timber [kN/m2]: contact, no more
    weight_spacing: float = 1200.0  # one weight on a batten for every so much of a bead [mm]
    pin_spacing: float = 200.0  # [mm]
    screw_spacing: float = 300.0  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamping:
    """How one glued sheet or moulding is held."""

    id: str  # the glued thing's
    held: Held
    number: int  # weights, pins or screws
    mass: float  # of all weights [kg]; 0 for pins and screws
    hours: float  # before it may be moved
    glue: str
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightDay:
    """The weights that stand at once on one day."""

    day: int
    number: int
    mass: float  # [kg]
    glued: tuple[str, ...]  # what they stand on, by id


def clamp_with_weights(
    identity: str, beads: Sequence[Bead], *, land: float, adhesive: Adhesive, weight: Weight, rules: ClampRules
) -> Clamping:
    """Return the weights that hold one sheet on its beads: enough mass, and enough of them along every bead.

    Parameters
    ----------
    identity
        Id of the sheet piece.
    beads
        Behind it; none needs no weight.
    land
        Glued width of the timber [mm], above 0.
    adhesive, weight
        Rows of the catalogue.
    rules
        Pressure and spacing.

    Raises
    ------
    InputError
        A weight without mass, a pressure, a spacing or a land of zero or less.

    Notes
    -----
    Mass = pressure x bead length x land / g; number = the larger of mass / weight and of one for every 1200 mm of each
    bead, both rounded up.
    """
    _refuse(identity, land, weight, rules)
    length = math.fsum(b.length for b in beads)
    wanted = rules.pressure * 1e-3 * length * land / GRAVITY  # [kN/m2] = 1e-3 [N/mm2]
    by_mass = math.ceil(wanted / weight.mass - 1e-9)
    by_place = max(1 if beads else 0, sum(math.floor(b.length / rules.weight_spacing + 0.5) for b in beads))
    number = max(by_mass, by_place)
    return Clamping(
        id=identity,
        held="weights",
        number=number,
        mass=number * weight.mass,
        hours=adhesive.clamp_hours,
        glue=adhesive.name,
        why=Working(
            formula="pressure x glued area / g over one weight's mass, and one weight for every so much of a bead, to "
            "the nearest; a short bead is held by what stands beside it",
            inputs=(
                ("pressure", rules.pressure, "kN/m2"),
                ("bead", length, "mm"),
                ("glued width", land, "mm"),
                ("mass wanted", wanted, "kg"),
                ("one weight", weight.mass, "kg"),
                ("by mass", by_mass, ""),
                ("by place", by_place, ""),
            ),
            source=COMMON_PRACTICE,
            value=number,
        ),
    )


def _refuse(identity: str, land: float, weight: Weight, rules: ClampRules) -> None:
    for what, value, unit in (
        ("glued width", land, "mm"),
        (f"weight {weight.name}", weight.mass, "kg"),
        ("pressure", rules.pressure, "kN/m2"),
        ("spacing of the weights", rules.weight_spacing, "mm"),
    ):
        if not 0 < value < math.inf:
            raise InputError.of(
                place=f"{identity}: {what}",
                found=f"{value:g} {unit}",
                expected=f"more than 0 {unit}",
                remedy="Give its figure, or hold the sheet with pins or temporary screws.",
            )


def clamp_with_fasteners(
    identity: str, beads: Sequence[Bead], *, held: Literal["pins", "temporary screws"], adhesive: Adhesive,
    rules: ClampRules,
) -> Clamping:  # fmt: skip
    """Return the pins or temporary screws that hold one sheet or moulding: both ends of every bead, and between."""
    spacing = rules.pin_spacing if held == "pins" else rules.screw_spacing
    if not spacing > 0:
        raise InputError.of(
            place=f"{identity}: spacing of {held}",
            found=f"{spacing:g} mm",
            expected="more than 0 mm",
            remedy="150 to 300 mm is usual.",
        )
    number = sum(math.ceil(b.length / spacing - 1e-9) + 1 for b in beads)
    return Clamping(
        id=identity,
        held=held,
        number=number,
        mass=0.0,
        hours=adhesive.clamp_hours,
        glue=adhesive.name,
        why=Working(
            formula="bead over spacing, and one more, for every bead",
            inputs=(("beads", len(beads), ""), ("spacing", spacing, "mm")),
            source=COMMON_PRACTICE,
            value=number,
        ),
    )


def weight_days(glued: Iterable[tuple[int, Clamping]]) -> tuple[WeightDay, ...]:
    """Return the weights that stand on each day, in order; what is glued on one day is taken to stand at once.

    A sheet held longer than a shift of 8 h keeps its weights into the following days: 24 h is that day and the next.
    """
    standing: dict[int, list[Clamping]] = {}
    for day, clamping in glued:
        if clamping.held == "weights" and clamping.number:
            for each in range(day, day + _days_held(clamping.hours)):
                standing.setdefault(each, []).append(clamping)
    return tuple(
        WeightDay(
            day=day,
            number=sum(c.number for c in held),
            mass=math.fsum(c.mass for c in held),
            glued=tuple(c.id for c in held),
        )
        for day, held in sorted(standing.items())
    )


def _days_held(hours: float) -> int:
    return 1 if hours <= SHIFT else 1 + math.ceil(hours / 24 - 1e-9)


def busiest_day(glued: Iterable[tuple[int, Clamping]]) -> WeightDay | None:
    """Return the day that needs most weights, by mass, the first of equals; None where nothing is held by weights."""
    return max(weight_days(glued), key=lambda d: (round(d.mass, 6), -d.day), default=None)


def weight_line(weight: Weight, busiest: WeightDay | None) -> TakeoffLine:
    """Return how many weights have to be at hand, as a takeoff line: those of the busiest day."""
    number = busiest.number if busiest else 0
    return takeoff_line(
        item=weight.name,
        unit="",
        net=number,
        allowance=0.0,
        reason="",
        why=Working(
            formula="weights that stand at once on the day that needs most; they go round from sheet to sheet",
            inputs=(("day", busiest.day, ""), ("mass", busiest.mass, "kg")) if busiest else (),
            source=COMMON_PRACTICE,
            value=number,
        ),
    )
