"""The whole set as solids for the model: frames and sheets, mouldings, floor covering, in set axes.

Decides their order and how the covering lies: beside the flats on the floor that they stand on, or under them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.carpentry import set_solids
from lathlight.geometry import Part, prism
from lathlight.mouldings import moulding_parts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.plan import Plan

LEAST = 0.1  # a covering without thickness is shown so thick [mm]


def set_parts(plan: Plan) -> tuple[Part, ...]:
    """Return every part of a set in set axes [mm]: timber and sheets, then mouldings, then the floor covering."""
    return (
        *set_solids(plan.walls, plan.corners, plan.layout),
        *moulding_parts(plan.trim, plan.frames, plan.casings, plan.ends, layout=plan.layout),
        *_floor(plan),
    )


def _floor(plan: Plan) -> Iterator[Part]:
    """Yield the covering as one slab; its top is the finished floor, its foot what it lies on."""
    if plan.floor is None:
        return
    brief = plan.brief.floor
    thick = max(brief.thickness, LEAST)
    low = -thick if brief.stands_on == "covering" else 0.0
    solid = prism(plan.floor.outline, low=low, high=low + thick, axis="height")
    yield Part(id="floor/covering", path=("floor",), material="floor", solid=solid)
