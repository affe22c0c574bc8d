"""How much covering the floor takes, as lines of the takeoff: net area, what is added and why, and whole boards."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.finishing import TakeoffLine, takeoff_line
from lathlight.units import INCH, format_length
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.flooring.model import FloorJob, FloorRow, Goods

CUTTING = 0.1  # share of a floor that falls off in cutting, common practice, no source
TRIM, TRIM_US = 100.0, float(4 * INCH)  # a drop is cut so much longer and trimmed in place, common practice [mm]
SQUARE_METRE = 1e6  # [mm2]


def floor_lines(
    job: FloorJob, goods: Goods, *, area: float, rows: Sequence[FloorRow], number: int | None
) -> tuple[TakeoffLine, ...]:
    """Return the covering by area [m2], and boards by number or roll by length [m] where that is known.

    Parameters
    ----------
    area
        Of the covering as laid [mm2].
    number
        Boards or drops; None where their length is not known.
    """
    match goods:
        case "area only":
            return (_by_share(job, area, area),)
        case "strips":
            return (_by_share(job, area, sum(row.length for row in rows) * (job.strip_width or 0.0)),)
        case "boards":
            return _by_board(job, area, number or 0)
        case "roll":
            return _by_drop(job, area, rows)


def _by_share(job: FloorJob, area: float, strips: float) -> TakeoffLine:
    """Return a line with a tenth added, or with what ripping and bevelling whole strips wastes, if that is more."""
    ripped = strips - area > CUTTING * area
    reason = (
        "whole strips, ripped along the edges and cut to the walls" if ripped else f"{CUTTING * 100:.0f} % for cutting"
    )
    added = max(strips - area, CUTTING * area)
    return _area_line(job, area, added, reason, (("strips", strips, "mm2"),) if ripped else ())


def _by_board(job: FloorJob, area: float, number: int) -> tuple[TakeoffLine, ...]:
    wide, long = job.strip_width or 0.0, job.strip_length or 0.0
    reason = "whole boards, end joints staggered; first fit, not proven to be the fewest"
    sizes = (("board's width", wide, "mm"), ("board's length", long, "mm"))
    bought, net = number * wide * long, area / (wide * long)
    count = takeoff_line(
        item=f"{job.covering}, by number",
        unit="",
        net=net,
        allowance=max(number - net, 0.0),
        reason=reason,
        why=Working(
            formula="boards cut in turn, rows begun with offcuts; net: area over a board's",
            inputs=(("area", area, "mm2"), *sizes),
            source=COMMON_PRACTICE,
            value=number,
        ),
    )
    return _area_line(job, area, max(bought - area, 0.0), reason, (("boards", number, ""), *sizes)), count


def _by_drop(job: FloorJob, area: float, rows: Sequence[FloorRow]) -> tuple[TakeoffLine, ...]:
    wide, trim = job.strip_width or 0.0, TRIM if job.grid.system == "metric" else TRIM_US
    net = math.fsum(row.length for row in rows)
    gross = net + trim * len(rows)
    longer = format_length(trim, style=job.grid)
    reason = f"whole drops off the roll ({len(rows)}), each {longer} longer and trimmed in place"
    inputs = (("drops", len(rows), ""), ("roll's width", wide, "mm"), ("added to a drop", trim, "mm"))
    run = takeoff_line(
        item=f"{job.covering}, off the roll",
        unit="m",
        net=net / 1000,
        allowance=(gross - net) / 1000,
        reason=reason,
        why=Working(
            formula="lengths of all drops", inputs=inputs, source=COMMON_PRACTICE, value=gross / 1000, unit="m"
        ),
    )
    return _area_line(job, area, max(gross * wide - area, 0.0), reason, inputs), run


def _area_line(
    job: FloorJob, area: float, added: float, reason: str, inputs: tuple[tuple[str, float | str, str], ...]
) -> TakeoffLine:
    return takeoff_line(
        item=job.covering,
        unit="m2",
        net=area / SQUARE_METRE,
        allowance=added / SQUARE_METRE,
        reason=reason if added > 0 else "",
        why=Working(
            formula="area before the faces, gaps taken off, and what is added",
            inputs=(("area", area, "mm2"), *inputs),
            source=f"{GEOMETRY}; what is added: {COMMON_PRACTICE}",
            value=(area + added) / SQUARE_METRE,
            unit="m2",
        ),
    )
