"""The plan as one JSON document with a stated, versioned shape (``docs/reference/plan-json.md``).

Decides names, order and rounding; the shape itself is ``lathlight.exports.shape``. Lengths are millimetres,
areas square millimetres, masses kilograms, angles degrees. One line a wall, flat, member, piece or snag, so that two
plans can be compared line by line.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, cast

from lathlight import __version__
from lathlight.exports.dressing_document import dressing_document
from lathlight.exports.hardware_list import hardware
from lathlight.exports.plain import to_box, to_degrees, to_figure, to_mm, to_number, to_points, to_working
from lathlight.exports.trim_document import trim_document
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
    from lathlight.exports.plain import Json
    from lathlight.passage import FlatPassage, Passing
    from lathlight.plan import Plan
    from lathlight.project import Assumption
    from lathlight.snags import Snag
    from lathlight.working import Quantity

FORMAT = "lathlight-plan"
VERSION = 1
STANDING = "STANDING NOT CHECKED"


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
    pose = plan.layout.pose
    passages = {passage.flat: passage for passage in plan.passages}
    return {
        "format": FORMAT,
        "version": VERSION,
        "program": f"lathlight {__version__}",
        "units": {"length": "mm", "area": "mm2", "mass": "kg", "angle": "degree"},
        "standing": STANDING,
        "project": _project(plan),
        "room": _room(plan),
        "place": {"x": to_mm(pose.x), "y": to_mm(pose.y), "turn": to_degrees(pose.turn)},
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
        "trim": None if plan.trim is None else trim_document(plan.trim),
        **dressing_document(plan),
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


def _entries(value: object, margin: str = " ") -> str:
    """Return a list with a line for every entry, and the lists of an object that holds lists of objects likewise."""
    deeper = f",\n{margin} "
    if isinstance(value, dict) and any(_is_list_of_objects(each) for each in cast("Json", value).values()):
        fields = [f"{_line(key)}: {_entries(each, margin + ' ')}" for key, each in cast("Json", value).items()]
        return f"{{\n{margin} {deeper.join(fields)}\n{margin}}}"
    if not isinstance(value, list) or not value:
        return _line(cast("object", value))
    entries = cast("list[object]", value)
    return f"[\n{margin} {deeper.join(_line(each) for each in entries)}\n{margin}]"


def _is_list_of_objects(value: object) -> bool:
    return isinstance(value, list) and any(isinstance(each, dict) for each in cast("list[object]", value))


def _line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


# --- entries -----------------------------------------------------------------------------------------------------


def _project(plan: Plan) -> Json:
    title, style = plan.brief.title, plan.brief.style
    return {
        "title": title.title,
        "date": title.date.isoformat() if title.date else None,
        "revision": title.revision,
        "units": style.system,
        "step": to_number(float(style.step), 6),
        "paper": title.paper,
        "notes": title.notes,
    }


def _room(plan: Plan) -> Json:
    room = plan.brief.room
    return {
        "outline": to_points(room.outline),
        "ceiling": to_mm(room.ceiling),
        "doors": [
            {
                "name": door.name,
                "clear_width": to_mm(door.clear_width),
                "clear_height": to_mm(door.clear_height),
                "ends": to_points((door.a, door.b)),
            }
            for door in room.doors
        ],
        "pillars": [{"name": area.name, "outline": to_points(area.outline)} for area in room.pillars],
        "keep_clear": [
            {"name": area.name, "outline": to_points(area.outline), "why": area.why} for area in room.keep_clear
        ],
    }


def _wall(plan: Plan, wall: BuiltWall) -> Json:
    line = plan.layout.wall(wall.name)
    ids = {flat.name: flat.id for flat in wall.flats}
    return {
        "name": wall.name,
        "mark": wall.mark,
        "start": to_points((line.start,))[0],
        "end": to_points((line.end,))[0],
        "length": to_mm(wall.length),
        "height": to_mm(wall.height),
        "left": _end(wall.left),
        "right": _end(wall.right),
        "flats": [flat.id for flat in wall.flats],
        "seams": [
            {
                "id": seam.id,
                "upright": seam.upright,
                "at": to_mm(seam.at),
                "low": to_mm(seam.low),
                "high": to_mm(seam.high),
                "parts": seam.parts,
                "covered_by": seam.covered_by,
            }
            for seam in wall.seams
        ],
        "joints": [
            {"id": j.id, "left": ids[j.left], "right": ids[j.right], "upright": j.upright, "at": to_mm(j.at)}
            for j in wall.joints
        ],
        "working": to_working(wall.why),
    }


def _end(end: WallEnd) -> Json:
    return {
        "kind": end.kind,
        "angle": to_degrees(end.angle),
        "neighbour": end.neighbour,
        "frame_laps": end.frame_laps,
        "sheet_laps": end.sheet_laps,
        "sheet_front": to_mm(end.sheet_front),
        "sheet_back": to_mm(end.sheet_back),
        "frame": to_mm(end.frame_end),
    }


def _corner(corner: Corner) -> Json:
    screws, wedge = corner.screws, corner.wedge
    return {
        "id": corner.id,
        "left": corner.left,
        "right": corner.right,
        "angle": to_degrees(corner.angle),
        "style": corner.style,
        "frame_laps": corner.frame_laps,
        "sheet_laps": corner.sheet_laps,
        "screws": None
        if screws is None
        else {
            "name": screws.screw.name,
            "heights": [to_mm(h) for h in screws.heights],
            "from_wall": screws.from_wall,
            "through": screws.through,
            "into": screws.into,
        },
        "wedge": None
        if wedge is None
        else {
            "id": wedge.id,
            "outline": to_points(wedge.outline),
            "length": to_mm(wedge.length),
            "angle": to_degrees(wedge.angle),
            "width": to_mm(wedge.wide),
        },
        "working": to_working(corner.why),
    }


def _flat(flat: Flat, passage: FlatPassage | None) -> Json:
    return {
        "id": flat.id,
        "wall": flat.wall,
        "mark": flat.mark,
        "frame": [to_mm(flat.x0), to_mm(flat.z0), to_mm(flat.x1), to_mm(flat.z1)],
        "sheet_ends": [to_mm(flat.sheet_x0), to_mm(flat.sheet_x1)],
        "width": to_mm(flat.width),
        "height": to_mm(flat.height),
        "thickness": to_mm(flat.depth),
        "diagonal": to_mm(flat.diagonal),
        "timber": flat.stock.name,
        "sheet": flat.sheet.name,
        "through": flat.through,
        "built_in_room": flat.built_in_room,
        "weight": to_figure(flat.weight.value, "kg")[0],
        "centre_of_gravity": [to_mm(v) for v in flat.centre],
        "way_in": [_passing(stage) for stage in passage.stages] if passage else [],
        "standing_up": _passing(passage.raises) if passage else None,
        "working": to_working(flat.why),
    }


def _passing(passing: Passing) -> Json:
    return {
        "through": passing.through,
        "passes": passing.passes,
        "figure": to_figure(passing.figure, "mm")[0],
        "limit": to_figure(passing.limit, "mm")[0],
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
        "length": to_mm(member.length),
        "ends": [to_degrees(end) for end in member.ends],
        "box": to_box((member.x, member.behind, member.z), (member.wide, member.deep, member.high)),
        "section": to_points(member.section) if member.section else None,
        "upright": member.upright,
        "laid_flat": member.laid_flat,
        "ripped": member.ripped,
        "may_be_offcut": member.may_be_offcut,
        "straightest": member.straightest,
        "working": to_working(member.why),
    }


def _plate(flat: Flat, plate: Plate) -> Json:
    return {
        "id": plate.id,
        "flat": flat.id,
        "name": plate.bracket.name,
        "outline": to_points(plate.outline),
        "behind": to_mm(plate.behind),
        "thickness": to_mm(plate.bracket.thickness),
    }


def _piece(flat: Flat, piece: SheetPiece) -> Json:
    return {
        "id": piece.id,
        "wall": piece.wall,
        "flat": flat.id,
        "mark": piece.mark,
        "sheet": piece.sheet.name,
        "thickness": to_mm(piece.sheet.thickness),
        "outline": to_points(piece.outline),
        "holes": [to_points(hole) for hole in piece.holes],
        "width": to_mm(piece.width),
        "height": to_mm(piece.height),
        "bevel_left": to_mm(piece.bevel_left),
        "bevel_right": to_mm(piece.bevel_right),
        "turned": piece.turned,
        "factory_edges": sorted(piece.factory),
        "area": to_mm(piece.area),
        "working": to_working(piece.why),
    }


def _opening(flat: Flat, opening: FramedOpening) -> Json:
    return {
        "id": opening.id,
        "name": opening.name,
        "wall": opening.wall,
        "flat": flat.id,
        "kind": opening.kind,
        "clear": [to_mm(v) for v in opening.clear],
        "rough": [to_mm(v) for v in opening.rough],
        "rise": to_mm(opening.rise),
        "radius": None if opening.radius is None else to_mm(opening.radius),
        "ordinates": to_points(opening.ordinates),
        "strap": None if opening.strap is None else to_mm(opening.strap),
        "lining": [
            {
                "id": piece.id,
                "side": piece.side,
                "length": to_mm(piece.length),
                "depth": to_mm(piece.deep),
                "thickness": to_mm(opening.lining_thickness),
            }
            for piece in opening.lining
        ],
        "working": to_working(opening.why),
    }


def _cut_line(line: CutLine) -> Json:
    return {
        "mark": line.mark,
        "what": line.what,
        "stock": line.stock,
        "number": line.number,
        "length": to_mm(line.length),
        "width": None if line.width is None else to_mm(line.width),
        "ends": [to_degrees(end) for end in line.ends],
        "may_be_offcut": line.may_be_offcut,
        "note": line.note,
        "ids": list(line.ids),
    }


def _packed(pack: Packed) -> Json:
    return {
        "stock": pack.stock,
        "length": to_mm(pack.length),
        "width": None if pack.width is None else to_mm(pack.width),
        "number": pack.number,
        "spare": pack.spare,
        "proven": pack.proven,
        "pieces": [list(board) for board in pack.pieces],
        "working": to_working(pack.why),
    }


def _cut_sheet(sheet: CutSheet) -> Json:
    return {
        "sheet": sheet.sheet.name,
        "number": sheet.number,
        "pieces": [
            {
                "id": piece.piece,
                "x": to_mm(piece.x),
                "y": to_mm(piece.y),
                "width": to_mm(piece.width),
                "height": to_mm(piece.height),
                "turned": piece.turned,
            }
            for piece in sheet.pieces
        ],
    }


def _quantity(quantity: Quantity) -> Json:
    value, unit = to_figure(quantity.value, quantity.unit)
    return {
        "id": quantity.id,
        "label": quantity.label,
        "value": value,
        "unit": unit,
        "working": to_working(quantity.why),
    }


def _assumed(plan: Plan) -> list[Json]:
    return [_assumption(each) for each in assumptions(plan.brief)]


def _assumption(assumed: Assumption) -> Json:
    assert assumed.why.value is not None, assumed.id
    value, unit = to_figure(assumed.why.value, assumed.why.unit)
    return {
        "place": assumed.id.removesuffix(f"/{assumed.key}"),
        "what": assumed.key,
        "value": value,
        "unit": unit,
        "working": to_working(assumed.why),
    }


def _snag(snag: Snag) -> Json:
    figure, unit = to_figure(snag.figure, snag.unit)
    return {
        "id": snag.id,
        "check": snag.check,
        "severity": int(snag.severity),
        "severity_words": snag.severity.words,
        "place": snag.place,
        "what": snag.what,
        "figure": figure,
        "limit": to_figure(snag.limit, snag.unit)[0],
        "unit": unit,
        "remedy": snag.remedy,
        "working": to_working(snag.why),
    }
