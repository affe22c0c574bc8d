"""The plan as one JSON document with a stated, versioned shape (``docs/reference/plan-json.md``).

Decides names, order and rounding; the shape itself is ``lathlight.exports.shape``. Lengths are millimetres,
areas square millimetres, masses kilograms, angles degrees. One line a wall, flat, member, piece or snag, so that two
plans can be compared line by line.
"""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any, cast

from lathlight import __version__
from lathlight.exports.contents import hardware
from lathlight.project import assumptions

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.carpentry import (
        BuiltWall,
        Corner,
        CutLine,
        CutSheet,
        Flat,
        FramedOpening,
        Member,
        Packed,
        Plate,
        SheetPiece,
        WallEnd,
    )
    from lathlight.passage import FlatPassage, Passing
    from lathlight.plan import Plan
    from lathlight.project import Assumption
    from lathlight.snags import Snag
    from lathlight.working import Quantity, Working

FORMAT = "lathlight-plan"
VERSION = 1
STANDING = "STANDING NOT CHECKED"
Json = dict[str, Any]


def plan_json(plan: Plan, snags: Sequence[Snag]) -> bytes:
    """Return the plan as JSON in UTF-8; equal plans give equal bytes.

    Parameters
    ----------
    plan, snags
        What is written, in the plan's own order: walls from left to right, flats and parts within them.
    """
    return _text(plan_document(plan, snags)).encode("utf-8")


def plan_document(plan: Plan, snags: Sequence[Snag]) -> Json:
    """Return the document as plain values."""
    passages = {passage.flat: passage for passage in plan.passages}
    return {
        "format": FORMAT,
        "version": VERSION,
        "program": f"lathlight {__version__}",
        "units": {"length": "mm", "area": "mm2", "mass": "kg", "angle": "degree"},
        "standing": STANDING,
        "project": _project(plan),
        "room": _room(plan),
        "place": {"x": _mm(plan.layout.pose.x), "y": _mm(plan.layout.pose.y), "turn": _angle(plan.layout.pose.turn)},
        "walls": [_wall(plan, wall) for wall in plan.walls],
        "corners": [_corner(corner) for corner in plan.corners],
        "flats": [_flat(flat, passages.get(flat.id)) for flat in plan.flats],
        "members": [_member(flat, member) for flat in plan.flats for member in flat.members],
        "corner_plates": [_plate(flat, plate) for flat in plan.flats for plate in flat.plates],
        "pieces": [_piece(flat, piece) for flat in plan.flats for piece in flat.pieces],
        "openings": [_opening(flat, opening) for flat in plan.flats for opening in flat.openings],
        "timber": [_cut_line(line) for line in plan.timber],
        "panels": [_cut_line(line) for line in plan.panels],
        "boards": [_packed(pack) for pack in plan.boards],
        "sheets": [_packed(pack) for pack in plan.sheets],
        "cut_sheets": [_cut_sheet(sheet) for sheet in plan.cut_sheets],
        "hardware": [
            {"what": h.what, "name": h.name, "use": h.use, "number": h.number, "box": h.box, "boxes": h.boxes}
            for h in hardware(plan)
        ],
        "quantities": [_quantity(quantity) for quantity in plan.quantities],
        "assumed": _assumed(plan),
        "snags": [_snag(snag) for snag in snags],
    }


def _text(document: Mapping[str, Any]) -> str:
    """Return JSON with one line for every value of the document, and one for every entry of its lists."""
    lines = [f" {_line(key)}: {_entries(value)}" for key, value in document.items()]
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _entries(value: object) -> str:
    if not isinstance(value, list) or not value:
        return _line(cast("object", value))
    entries = cast("list[object]", value)
    return "[\n  " + ",\n  ".join(_line(each) for each in entries) + "\n ]"


def _line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


# --- numbers -----------------------------------------------------------------------------------------------------


def _rounded(value: float, decimals: int) -> float | int:
    figure = round(value, decimals)
    return int(figure) if figure.is_integer() else figure


def _mm(value: float) -> float | int:
    return _rounded(float(value), 4)


def _angle(radians: float) -> float | int:
    return _rounded(math.degrees(radians), 6)


def _figure(value: float | str, unit: str) -> tuple[float | int | str | None, str]:
    """Return a value and its unit as the document writes them: degrees for radians, null where nothing limits."""
    if isinstance(value, str):
        return value, unit
    if not math.isfinite(value):
        return None, unit
    return (_angle(value), "degree") if unit == "rad" else (_rounded(float(value), 4), unit)


def _points(points: Sequence[tuple[float, float]]) -> list[list[float | int]]:
    return [[_mm(x), _mm(y)] for x, y in points]


def _box(low: tuple[float, float, float], size: tuple[float, float, float]) -> list[list[float | int]]:
    return [[_mm(v) for v in low], [_mm(a + b) for a, b in zip(low, size, strict=True)]]


# --- entries -----------------------------------------------------------------------------------------------------


def _working(why: Working) -> Json:
    entry: Json = {"formula": why.formula, "source": why.source}
    if why.inputs:
        entry["inputs"] = [
            {"name": name, "value": shown, "unit": unit}
            for name, (shown, unit) in ((name, _figure(value, unit)) for name, value, unit in why.inputs)
        ]
    return entry


def _project(plan: Plan) -> Json:
    title, style = plan.brief.title, plan.brief.style
    return {
        "title": title.title,
        "date": title.date.isoformat() if title.date else None,
        "revision": title.revision,
        "units": style.system,
        "step": _rounded(float(style.step), 6),
        "paper": title.paper,
        "notes": title.notes,
    }


def _room(plan: Plan) -> Json:
    room = plan.brief.room
    return {
        "outline": _points(room.outline),
        "ceiling": _mm(room.ceiling),
        "doors": [
            {
                "name": door.name,
                "clear_width": _mm(door.clear_width),
                "clear_height": _mm(door.clear_height),
                "ends": _points((door.a, door.b)),
            }
            for door in room.doors
        ],
        "pillars": [{"name": area.name, "outline": _points(area.outline)} for area in room.pillars],
        "keep_clear": [
            {"name": area.name, "outline": _points(area.outline), "why": area.why} for area in room.keep_clear
        ],
    }


def _wall(plan: Plan, wall: BuiltWall) -> Json:
    line = plan.layout.wall(wall.name)
    ids = {flat.name: flat.id for flat in wall.flats}
    return {
        "name": wall.name,
        "mark": wall.mark,
        "start": _points((line.start,))[0],
        "end": _points((line.end,))[0],
        "length": _mm(wall.length),
        "height": _mm(wall.height),
        "left": _end(wall.left),
        "right": _end(wall.right),
        "flats": [flat.id for flat in wall.flats],
        "seams": [
            {
                "id": seam.id,
                "upright": seam.upright,
                "at": _mm(seam.at),
                "low": _mm(seam.low),
                "high": _mm(seam.high),
                "parts": seam.parts,
                "covered_by": seam.covered_by,
            }
            for seam in wall.seams
        ],
        "joints": [
            {"id": j.id, "left": ids[j.left], "right": ids[j.right], "upright": j.upright, "at": _mm(j.at)}
            for j in wall.joints
        ],
        "working": _working(wall.why),
    }


def _end(end: WallEnd) -> Json:
    return {
        "kind": end.kind,
        "angle": _angle(end.angle),
        "neighbour": end.neighbour,
        "frame_laps": end.frame_laps,
        "sheet_laps": end.sheet_laps,
        "sheet_front": _mm(end.sheet_front),
        "sheet_back": _mm(end.sheet_back),
        "frame": _mm(end.frame_end),
    }


def _corner(corner: Corner) -> Json:
    screws, wedge = corner.screws, corner.wedge
    return {
        "id": corner.id,
        "left": corner.left,
        "right": corner.right,
        "angle": _angle(corner.angle),
        "style": corner.style,
        "frame_laps": corner.frame_laps,
        "sheet_laps": corner.sheet_laps,
        "screws": None
        if screws is None
        else {
            "name": screws.screw.name,
            "heights": [_mm(h) for h in screws.heights],
            "from_wall": screws.from_wall,
            "through": screws.through,
            "into": screws.into,
        },
        "wedge": None
        if wedge is None
        else {
            "id": wedge.id,
            "outline": _points(wedge.outline),
            "length": _mm(wedge.length),
            "angle": _angle(wedge.angle),
            "width": _mm(wedge.wide),
        },
        "working": _working(corner.why),
    }


def _flat(flat: Flat, passage: FlatPassage | None) -> Json:
    return {
        "id": flat.id,
        "wall": flat.wall,
        "mark": flat.mark,
        "frame": [_mm(flat.x0), _mm(flat.z0), _mm(flat.x1), _mm(flat.z1)],
        "sheet_ends": [_mm(flat.sheet_x0), _mm(flat.sheet_x1)],
        "width": _mm(flat.width),
        "height": _mm(flat.height),
        "thickness": _mm(flat.depth),
        "diagonal": _mm(flat.diagonal),
        "timber": flat.stock.name,
        "sheet": flat.sheet.name,
        "through": flat.through,
        "built_in_room": flat.built_in_room,
        "weight": _figure(flat.weight.value, "kg")[0],
        "centre_of_gravity": [_mm(v) for v in flat.centre],
        "way_in": [_passing(stage) for stage in passage.stages] if passage else [],
        "standing_up": _passing(passage.raises) if passage else None,
        "working": _working(flat.why),
    }


def _passing(passing: Passing) -> Json:
    return {
        "through": passing.through,
        "passes": passing.passes,
        "figure": _figure(passing.figure, "mm")[0],
        "limit": _figure(passing.limit, "mm")[0],
        "how": passing.how,
    }


def _member(flat: Flat, member: Member) -> Json:
    return {
        "id": member.id,
        "wall": member.wall,
        "flat": flat.id,
        "role": member.role,
        "mark": member.mark,
        "timber": member.stock.name,
        "length": _mm(member.length),
        "ends": [_angle(end) for end in member.ends],
        "box": _box((member.x, member.behind, member.z), (member.wide, member.deep, member.high)),
        "section": _points(member.section) if member.section else None,
        "upright": member.upright,
        "laid_flat": member.laid_flat,
        "ripped": member.ripped,
        "may_be_offcut": member.may_be_offcut,
        "straightest": member.straightest,
        "working": _working(member.why),
    }


def _plate(flat: Flat, plate: Plate) -> Json:
    return {
        "id": plate.id,
        "flat": flat.id,
        "name": plate.bracket.name,
        "outline": _points(plate.outline),
        "behind": _mm(plate.behind),
        "thickness": _mm(plate.bracket.thickness),
    }


def _piece(flat: Flat, piece: SheetPiece) -> Json:
    return {
        "id": piece.id,
        "wall": piece.wall,
        "flat": flat.id,
        "mark": piece.mark,
        "sheet": piece.sheet.name,
        "thickness": _mm(piece.sheet.thickness),
        "outline": _points(piece.outline),
        "holes": [_points(hole) for hole in piece.holes],
        "width": _mm(piece.width),
        "height": _mm(piece.height),
        "bevel_left": _mm(piece.bevel_left),
        "bevel_right": _mm(piece.bevel_right),
        "turned": piece.turned,
        "factory_edges": sorted(piece.factory),
        "area": _mm(piece.area),
        "working": _working(piece.why),
    }


def _opening(flat: Flat, opening: FramedOpening) -> Json:
    return {
        "id": opening.id,
        "name": opening.name,
        "wall": opening.wall,
        "flat": flat.id,
        "kind": opening.kind,
        "clear": [_mm(v) for v in opening.clear],
        "rough": [_mm(v) for v in opening.rough],
        "rise": _mm(opening.rise),
        "radius": None if opening.radius is None else _mm(opening.radius),
        "ordinates": _points(opening.ordinates),
        "strap": None if opening.strap is None else _mm(opening.strap),
        "lining": [
            {
                "id": piece.id,
                "side": piece.side,
                "length": _mm(piece.length),
                "depth": _mm(piece.deep),
                "thickness": _mm(opening.lining_thickness),
            }
            for piece in opening.lining
        ],
        "working": _working(opening.why),
    }


def _cut_line(line: CutLine) -> Json:
    return {
        "mark": line.mark,
        "what": line.what,
        "stock": line.stock,
        "number": line.number,
        "length": _mm(line.length),
        "width": None if line.width is None else _mm(line.width),
        "ends": [_angle(end) for end in line.ends],
        "may_be_offcut": line.may_be_offcut,
        "note": line.note,
        "ids": list(line.ids),
    }


def _packed(pack: Packed) -> Json:
    return {
        "stock": pack.stock,
        "length": _mm(pack.length),
        "width": None if pack.width is None else _mm(pack.width),
        "number": pack.number,
        "spare": pack.spare,
        "proven": False,
        "pieces": [list(board) for board in pack.pieces],
        "working": _working(pack.why),
    }


def _cut_sheet(sheet: CutSheet) -> Json:
    return {
        "sheet": sheet.sheet.name,
        "number": sheet.number,
        "pieces": [
            {
                "id": piece.piece,
                "x": _mm(piece.x),
                "y": _mm(piece.y),
                "width": _mm(piece.width),
                "height": _mm(piece.height),
                "turned": piece.turned,
            }
            for piece in sheet.pieces
        ],
    }


def _quantity(quantity: Quantity) -> Json:
    value, unit = _figure(quantity.value, quantity.unit)
    return {
        "id": quantity.id,
        "label": quantity.label,
        "value": value,
        "unit": unit,
        "working": _working(quantity.why),
    }


def _assumed(plan: Plan) -> list[Json]:
    return [_assumption(each) for each in assumptions(plan.brief)]


def _assumption(assumed: Assumption) -> Json:
    assert assumed.why.value is not None, assumed.id
    value, unit = _figure(assumed.why.value, assumed.why.unit)
    return {
        "place": assumed.id.removesuffix(f"/{assumed.key}"),
        "what": assumed.key,
        "value": value,
        "unit": unit,
        "working": _working(assumed.why),
    }


def _snag(snag: Snag) -> Json:
    figure, unit = _figure(snag.figure, snag.unit)
    return {
        "id": snag.id,
        "check": snag.check,
        "severity": int(snag.severity),
        "severity_words": snag.severity.words,
        "place": snag.place,
        "what": snag.what,
        "figure": figure,
        "limit": _figure(snag.limit, snag.unit)[0],
        "unit": unit,
        "remedy": snag.remedy,
        "working": _working(snag.why),
    }
