"""What holds sheets, mouldings and flats: as the file states it, else the usual things of the project's own system.

Lengths of screws and brads for one place are chosen later, from all the rows that are handed on here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import FixingBrief
from lathlight.project.defaults import usual
from lathlight.project.fittings import SMALLEST, chosen, fitting
from lathlight.units import snap

if TYPE_CHECKING:
    from lathlight.catalog import Adhesive, Fastener
    from lathlight.project.defaults import Filled
    from lathlight.project.known import Known
    from lathlight.project.model import Fixing

FASTENERS = ("screw", "brad", "pin", "bolt")
GLUES_US = " US"  # how names of glues end in feet and inches
CONNECTOR = "concealed connector"


def fixing_brief(known: Known, filled: Filled) -> FixingBrief:
    """Return what holds the set together; what the file does not state is kept in `filled`."""
    fixing, table, fittings = known.project.fixing, filled.within("fixing"), filled.within("fittings")
    _keep_unstated(fixing, table)
    weight = table.unless("weight", fixing.weight, known.usual.weight, usual("weight", known.usual.weight))
    screws = table.size("screw_spacing", fixing.screw_spacing, known.usual.screw_spacing, what="distance of screws")
    brads = table.size("brad_spacing", fixing.brad_spacing, known.usual.brad_spacing, what="distance of brads")
    found = FixingBrief(
        sheets=fixing.sheets,
        hold=fixing.hold,
        weight=known.catalog.weights[weight],
        glue=_glue(known, "glue", fixing.glue, "sheet to timber", table),
        moulding_glue=_glue(known, "moulding_glue", fixing.moulding_glue, "moulding", table),
        filler=_first_of_use(known, "filling"),
        fasteners=_fasteners(known),
        screw_spacing=snap(screws, known.style),
        brad_spacing=snap(brads, known.style),
        joints=fixing.joints,
        bracket=fitting(known, "angle bracket"),
        connector=known.catalog.brackets[CONNECTOR],
        bumper=fitting(known, "bumper"),
    )
    _keep_fittings(found, fittings)
    return found


def _keep_unstated(fixing: Fixing, table: Filled) -> None:
    table.unstated(fixing, "sheets", usual("way to fix sheets that are seen, glued", fixing.sheets))
    if fixing.sheets == "glue":
        table.unstated(fixing, "hold", usual("hold until the glue has set", fixing.hold))
    table.unstated(fixing, "joints", usual("hold between flats", fixing.joints))


def _glue(known: Known, key: str, stated: str | None, use: str, table: Filled) -> Adhesive:
    found = _first_of_use(known, use)
    name = table.unless(key, stated, found.name, usual(f"glue ({use})", found.name))
    return known.catalog.adhesives[name]


def _first_of_use(known: Known, use: str) -> Adhesive:
    """Return the first glue or filler of a use, of the project's own system where it has one."""
    rows = [row for row in known.catalog.adhesives.values() if row.use == use]
    return min(rows, key=lambda row: not known.is_own(row.name, ending=GLUES_US))


def _fasteners(known: Known) -> tuple[Fastener, ...]:
    """Return what there is to choose from: rows of the project's own system, and those that the project added."""
    added = {row.get("name") for row in known.project.catalog.fasteners}
    rows = [
        row
        for row in known.catalog.fasteners.values()
        if row.kind in FASTENERS and (known.is_own(row.name) or row.name in added)
    ]
    return tuple(sorted(rows, key=lambda row: row.name))


def _keep_fittings(found: FixingBrief, fittings: Filled) -> None:
    fittings.keep("filler", chosen(found.filler, "the usual filler of the catalogue over heads that are seen"))
    fittings.keep("bracket", chosen(found.bracket, SMALLEST))
    if found.joints == "connectors":
        fittings.keep("connector", chosen(found.connector, "the connector of the catalogue that is not seen"))
