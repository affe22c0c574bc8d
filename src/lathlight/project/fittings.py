"""Fittings and screws of the carpentry, chosen from the catalogue in the project's own system.

No key of the file states them: they follow from the timber. What holds sheets, mouldings and flats is left to
``lathlight.project.fixing``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import Hardware
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.catalog import Adhesive, Bracket, Fastener
    from lathlight.project.brief import WallBrief
    from lathlight.project.defaults import Filled
    from lathlight.project.known import Known

LEAST_BETWEEN = 6.0  # [mm] a corner screw ends this far inside the far stud's back: common practice, no source
SMALLEST = "the smallest of the catalogue in the project's own system"


def hardware(known: Known, walls: tuple[WallBrief, ...], filled: Filled) -> Hardware:
    """Return fittings of the project's own system, and screws long enough for its timber and not too long."""
    broad, narrow = max(wall.framing.width for wall in walls), min(wall.framing.width for wall in walls)
    screws = [row for row in known.catalog.fasteners.values() if row.kind == "screw" and known.is_own(row.name)]
    found = Hardware(
        corner_plate=fitting(known, "corner plate"),
        sill_strap=fitting(known, "sill strap"),
        corner_screw=_longest_within(screws, 2 * narrow - LEAST_BETWEEN),
        corner_screws=tuple(sorted(screws, key=lambda row: (row.length, row.diameter, row.name))),
        frame_screw=_shortest_of_at_least(screws, 2 * broad),
    )
    _keep_fittings(found, walls, broad, narrow, filled)
    return found


def _keep_fittings(found: Hardware, walls: tuple[WallBrief, ...], broad: float, narrow: float, filled: Filled) -> None:
    """Keep why each fitting that the walls use was taken: no key of the file states one."""
    filled.keep("corner plate", chosen(found.corner_plate, SMALLEST))
    if any(opening.sill <= 0 for wall in walls for opening in wall.openings):
        filled.keep("sill strap", chosen(found.sill_strap, SMALLEST))
    formula = "the shortest of the catalogue that holds as deep as the thickest plate"
    filled.keep("frame screw", chosen(found.frame_screw, formula, ("thickest plate", broad, "mm")))
    if len(walls) > 1:
        formula = "the longest of the catalogue that ends inside the second stud"
        inputs = (("narrowest stud", narrow, "mm"), ("left before its back", LEAST_BETWEEN, "mm"))
        filled.keep("corner screw", chosen(found.corner_screw, formula, *inputs))


def chosen(row: Bracket | Fastener | Adhesive, formula: str, *inputs: tuple[str, float, str]) -> Working:
    """Return why a row was taken."""
    return Working(formula=formula, inputs=inputs, source=COMMON_PRACTICE, value=row.name)


def fitting(known: Known, kind: str) -> Bracket:
    """Return the smallest fitting of a kind in the project's own system."""
    rows = [row for row in known.catalog.brackets.values() if row.kind == kind]
    return min(rows, key=lambda row: (not known.is_own(row.name), row.width, row.name))


def _longest_within(screws: list[Fastener], limit: float) -> Fastener:
    """Return the longest screw that does not come out at the back: through one stud, into the other."""
    fitting = [row for row in screws if row.length <= limit + 1e-6] or [min(screws, key=lambda row: row.length)]
    return max(fitting, key=lambda row: (row.length, row.diameter, row.name))


def _shortest_of_at_least(screws: list[Fastener], least: float) -> Fastener:
    """Return the shortest screw that holds as deep as the plate is thick (common practice, no source)."""
    fitting = [row for row in screws if row.length >= least - 1e-6] or [max(screws, key=lambda row: row.length)]
    return min(fitting, key=lambda row: (row.length, row.diameter, row.name))
