"""The floor covering as it stands in ``plan.json``: decides names and order; set axes, millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_mm, to_mms, to_points, to_working

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.flooring import FloorPlan, FloorRow
    from lathlight.project import FloorBrief


def floor_document(floor: FloorPlan, brief: FloorBrief) -> Json:
    """Return the covering as plain values."""
    return {
        "covering": floor.covering,
        "thickness": to_mm(brief.thickness),
        "flats_stand_on": brief.stands_on,
        "outline": to_points(floor.outline),
        "extent": to_mms(floor.extent),
        "area": to_mm(floor.area),
        "gap": to_mm(floor.gap),
        "width_from": floor.width_from,
        "depth_from": floor.depth_from,
        "goods": floor.goods,
        "runs": floor.runs,
        "number": floor.number,
        "rows": [_row(row) for row in floor.rows],
        "seams": [to_points(seam) for seam in floor.seams],
        "seen": [
            {
                "picture": seen.picture,
                "left": to_mm(seen.left),
                "right": to_mm(seen.right),
                "front": to_mm(seen.front),
            }
            for seen in floor.seen
        ],
        "working": to_working(floor.why),
    }


def _row(row: FloorRow) -> Json:
    return {
        "number": row.number,
        "low": to_mm(row.low),
        "high": to_mm(row.high),
        "start": to_mm(row.start),
        "end": to_mm(row.end),
        "joints": to_mms(row.joints),
    }
