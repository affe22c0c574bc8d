"""What is put on the built walls as it stands in ``plan.json``: decides the order of its keys; each has a module."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.casing_document import casing_document, end_document, strip_document
from lathlight.exports.finish_document import finish_document, takeoff_document
from lathlight.exports.fixing_document import fixing_document
from lathlight.exports.floor_document import floor_document
from lathlight.exports.frame_document import frame_document
from lathlight.exports.marking_document import marking_document

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.plan import Plan


def dressing_document(plan: Plan) -> Json:
    """Return mouldings, marking out, floor, fixing, paint and takeoff as plain values."""
    return {
        "casings": [casing_document(casing) for casing in plan.casings],
        "wall_ends": [end_document(end) for end in plan.ends],
        "moulding_frames": None if plan.frames is None else frame_document(plan.frames),
        "strips": [strip_document(strip) for strip in plan.strips],
        "marking": None if plan.marking is None else marking_document(plan.marking),
        "floor": None if plan.floor is None else floor_document(plan.floor, plan.brief.floor),
        "fixing": fixing_document(plan.fixing),
        "finish": None if plan.finish is None else finish_document(plan.finish),
        "takeoff": [takeoff_document(row) for row in plan.takeoff],
    }
