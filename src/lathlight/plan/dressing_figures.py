"""The figures that matter of what is put on built walls, as quantities with their working."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.working import COMMON_PRACTICE, GEOMETRY, Quantity, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.finishing import Finish, TakeoffRow
    from lathlight.fixing import FixingPlan
    from lathlight.flooring import FloorPlan
    from lathlight.mouldings import MouldingLayout
    from lathlight.plan.dressing import Dressing

DRIVEN = (("screw", "screws"), ("brad", "brads"), ("pin", "pins"))  # kinds of fastener, with their words


def dressing_quantities(dressing: Dressing, takeoff: Sequence[TakeoffRow]) -> tuple[Quantity, ...]:
    """Return how much moulding, how many frames, screws and brads, how much floor and paint; none of what is not there.

    Parameters
    ----------
    dressing
        What is put on the walls.
    takeoff
        For the lengths of moulding.
    """
    return (
        *_mouldings(takeoff),
        *_frames(dressing.frames),
        *_fasteners(dressing.fixing),
        *_floor(dressing.floor),
        *_paint(dressing.finish),
    )


def _mouldings(takeoff: Sequence[TakeoffRow]) -> Iterator[Quantity]:
    runs = [(row.line.item, row.line.net * 1000, "mm") for row in takeoff if row.line.unit == "m"
            and row.trade == "mouldings"]  # fmt: skip
    if runs:
        total = math.fsum(mm for _, mm, _ in runs)
        why = Working(formula="pieces from long point to long point", inputs=tuple(runs), value=total, unit="mm")
        yield Quantity(id="set/moulding-length", label="mouldings to cut", value=total, unit="mm", why=why)


def _frames(layout: MouldingLayout | None) -> Iterator[Quantity]:
    if layout is not None and layout.frames:
        tiers = dict.fromkeys(frame.tier for frame in layout.frames)
        inputs = tuple((tier, sum(f.tier == tier for f in layout.frames), "") for tier in tiers)
        number = len(layout.frames)
        why = Working(formula="sum over the tiers", inputs=inputs, value=number)
        yield Quantity(id="set/moulding-frames", label="moulding frames", value=number, unit="", why=why)


def _fasteners(fixing: FixingPlan) -> Iterator[Quantity]:
    for kind, words in DRIVEN:
        inputs = tuple((f"{c.name}, {c.use}", c.number, "") for c in fixing.hardware if c.what == kind)
        number = sum(c.number for c in fixing.hardware if c.what == kind)
        if number:
            why = Working(
                formula="every place of the fixing plan, without spares",
                inputs=inputs,
                source=COMMON_PRACTICE,
                value=number,
            )
            yield Quantity(id=f"set/{words}", label=words, value=number, unit="", why=why)


def _floor(floor: FloorPlan | None) -> Iterator[Quantity]:
    if floor is not None:
        yield Quantity(id="set/floor-area", label="floor covering as laid", value=floor.area, unit="mm2", why=floor.why)


def _paint(finish: Finish | None) -> Iterator[Quantity]:
    """Yield primer and paint in litres, with what is added to them."""
    if finish is None:
        return
    area = math.fsum(a.area for a in finish.areas if a.painted)
    why = Working(
        formula="sum of all painted surfaces, mouldings by their girth", source=GEOMETRY, value=area, unit="mm2"
    )
    yield Quantity(id="set/painted-area", label="painted area, one coat", value=area, unit="mm2", why=why)
    for coating in finish.coatings:
        need, line = coating.need, coating.line
        identity, label = ("set/primer", "primer") if need.on_bare else ("set/paint", "paint")
        yield Quantity(id=identity, label=f"{label}, {need.coating.name}", value=line.gross, unit="l", why=line.why)
