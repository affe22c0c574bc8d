"""The fixing as it stands in ``plan.json``: decides names and order; wall axes, millimetres, kilograms, hours."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_amount, to_mm, to_mms, to_points, to_working

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.finishing import Brad, Clamping, WeightDay
    from lathlight.fixing import Bumper, CornerFixing, FixingPlan, Head, JointFixing, SheetFixing, StripFixing


def fixing_document(fixing: FixingPlan) -> Json:
    """Return how everything is held as plain values."""
    return {
        "sheets": [_sheet(sheet) for sheet in fixing.sheets],
        "mouldings": [_strip(strip) for strip in fixing.strips],
        "joints": [_joint(joint) for joint in fixing.joints],
        "corners": [_corner(corner) for corner in fixing.corners],
        "bumpers": [_bumper(bumper) for bumper in fixing.bumpers],
        "gluing": [
            {
                "flat": turn.flat,
                "day": turn.day,
                "turn": turn.turn,
                "weights": turn.number,
                "mass": to_amount(turn.mass),
                "hours": to_amount(turn.hours),
            }
            for turn in fixing.rounds
        ],
        "most_weights": None if fixing.busiest is None else _day(fixing.busiest),
        "glues": [
            {
                "name": glue.adhesive.name,
                "length": to_mm(glue.length),
                "number": glue.number,
                "working": to_working(glue.why),
            }
            for glue in fixing.glues
        ],
    }


def _sheet(sheet: SheetFixing) -> Json:
    return {
        "piece": sheet.piece,
        "wall": sheet.wall,
        "flat": sheet.flat,
        "held": sheet.mode,
        "heads": [_head(head) for head in sheet.heads],
        "beads": [{"member": bead.member, "line": to_points((bead.start, bead.end))} for bead in sheet.beads],
        "clamping": None if sheet.clamping is None else _clamping(sheet.clamping),
        "working": to_working(sheet.why),
    }


def _head(head: Head) -> Json:
    return {
        "at": to_mms(head.at),
        "member": head.member,
        "fastener": head.fastener.name,
        "hidden_by": head.hidden_by,
    }


def _clamping(clamping: Clamping) -> Json:
    return {
        "held": clamping.held,
        "number": clamping.number,
        "mass": to_amount(clamping.mass),
        "hours": to_amount(clamping.hours),
        "glue": clamping.glue,
        "working": to_working(clamping.why),
    }


def _strip(strip: StripFixing) -> Json:
    return {
        "strip": strip.strip,
        "wall": strip.wall,
        "belongs_to": strip.belongs_to,
        "held": strip.held,
        "glue": to_mm(strip.glue),
        "hours": to_amount(strip.hours),
        "brads": [_brad(brad) for brad in strip.brads],
        "screws": [_head(head) for head in strip.screws],
        "note": strip.note,
    }


def _brad(brad: Brad) -> Json:
    fastener = brad.choice.fastener
    return {
        "at": to_mms(brad.at),
        "member": brad.timber,
        "fastener": None if fastener is None else fastener.name,
    }


def _joint(joint: JointFixing) -> Json:
    return {
        "joint": joint.joint,
        "wall": joint.wall,
        "upright": joint.upright,
        "at": to_mm(joint.at),
        "joined": joint.joined,
        "hardware": joint.hardware,
        "places": to_mms(joint.places),
        "through": joint.through,
        "into": joint.into,
        "temporary": to_mms(joint.temporary),
        "working": to_working(joint.why),
    }


def _corner(corner: CornerFixing) -> Json:
    return {
        "corner": corner.corner,
        "joined": corner.joined,
        "hardware": corner.hardware,
        "heights": to_mms(corner.heights),
        "through": corner.through,
        "into": corner.into,
        "wedge": corner.wedge,
        "temporary": to_mms(corner.temporary),
        "working": to_working(corner.why),
    }


def _bumper(bumper: Bumper) -> Json:
    return {
        "flat": bumper.flat,
        "wall": bumper.wall,
        "end": bumper.end,
        "at": to_mms((bumper.x, bumper.z)),
        "face": bumper.face,
        "near": bumper.near,
        "distance": to_mm(bumper.distance),
    }


def _day(day: WeightDay) -> Json:
    return {"day": day.day, "number": day.number, "mass": to_amount(day.mass), "on": list(day.glued)}
