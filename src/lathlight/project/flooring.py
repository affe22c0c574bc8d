"""The floor covering: what is wrong with it as the file states it, and what a plan takes it for.

How far it goes where nobody says, and where its strips lie, is left to ``lathlight.flooring``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import FloorBrief
from lathlight.project.defaults import usual
from lathlight.project.findings import Finding
from lathlight.project.known import NO_COVERING
from lathlight.units import format_length, snap
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.project.defaults import Filled
    from lathlight.project.draft import Draft
    from lathlight.project.known import Known
    from lathlight.project.model import Floor, SetTable

FROM_THE_PICTURES = "found from the pictures"
SLACK = 1e-6  # [mm] noise of the arithmetic
EXTENT = "what the pictures show of the floor"


def floor_findings(draft: Draft) -> Iterator[Finding]:
    """Return what is wrong with the floor covering as the file states it."""
    floor = draft.floor
    if floor is None:
        return
    stated = [key for key in type(floor).model_fields if key in floor.model_fields_set]
    if stated and "covering" not in stated:
        yield Finding(
            path=("floor",),
            found=f"{stated[0]} without a covering",
            expected="what the covering is",
            remedy='Add a line such as covering = "boards", or take the table out.',
        )
    across, key = (floor.depth, "depth") if floor.strips == "along" else (floor.width, "width")
    if floor.sheet_width is not None and across is not None and floor.sheet_width > across + SLACK:
        yield Finding(
            path=("floor", "sheet_width"),
            found=f"strips {format_length(floor.sheet_width, style=draft.style)} wide",
            expected=f"at most the covering's {key}, {format_length(across, style=draft.style)}",
            remedy=f"Give the width of one strip, or mend {key} or strips.",
        )
    if floor.sheet_length is not None and floor.sheet_width is None:
        yield Finding(
            path=("floor", "sheet_length"),
            found="boards without a width",
            expected="sheet_width beside sheet_length",
            remedy="Add sheet_width, the width of one board, or take sheet_length out.",
        )


def floor_brief(known: Known, filled: Filled) -> FloorBrief:
    """Return the floor covering; what it does not state is kept where there is one."""
    floor, shared = known.project.floor, known.project.set
    if floor.covering != NO_COVERING:
        _keep_unstated(floor, shared, filled)
    return FloorBrief(
        covering=floor.covering,
        thickness=snap(floor.thickness, known.style),
        stands_on=shared.stands_on,
        width=_snapped(known, floor.width),
        depth=_snapped(known, floor.depth),
        expansion_gap=snap(floor.expansion_gap, known.style),
        strip_width=_snapped(known, floor.sheet_width),
        strip_length=_snapped(known, floor.sheet_length),
        strips=floor.strips,
    )


def _snapped(known: Known, length: float | None) -> float | None:
    return None if length is None else snap(length, known.style)


def _keep_unstated(floor: Floor, shared: SetTable, filled: Filled) -> None:
    table = filled.within("floor")
    table.unstated(floor, "thickness", usual("thickness where none is given", floor.thickness, "mm"))
    table.unstated(floor, "expansion_gap", usual("gap where none is given", floor.expansion_gap, "mm"))
    for key in ("width", "depth"):
        if getattr(floor, key) is None:
            table.keep(key, Working(formula=EXTENT, value=FROM_THE_PICTURES))
    if floor.sheet_width is not None:
        table.unstated(floor, "strips", usual("way strips run, away from the camera", floor.strips))
    what = "foot of the flats, on the room's floor beside the covering"
    filled.within("set").unstated(shared, "stands_on", usual(what, shared.stands_on))
