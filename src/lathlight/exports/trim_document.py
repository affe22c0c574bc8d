"""The trim as it stands in ``plan.json``: decides names and order; the shape is in ``lathlight.exports.shape``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_degrees, to_mm, to_points, to_working

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.mouldings import BackingStrip, LineMeeting, PieceEnd, ReturnPiece, SawSetting, TrimPiece, TrimPlan


def trim_document(trim: TrimPlan) -> Json:
    """Return the trim as plain values: millimetres, degrees."""
    return {
        "pieces": [_piece(piece) for piece in trim.pieces],
        "returns": [_return(each) for each in trim.returns],
        "strips": [_strip(strip) for strip in trim.strips],
        "meetings": [_meeting(meeting) for meeting in trim.meetings],
        "order": list(trim.order),
        "cuts": list(trim.cuts),
    }


def _piece(piece: TrimPiece) -> Json:
    return {
        "id": piece.id,
        "wall": piece.wall,
        "line": piece.line,
        "kind": piece.kind,
        "profile": piece.profile.name,
        "top": to_mm(piece.top),
        "bottom": to_mm(piece.bottom),
        "long_point": to_mm(piece.long_point),
        "short_point": to_mm(piece.short_point),
        "back": to_mm(piece.back),
        "front": to_mm(piece.front),
        "left": _end(piece.left),
        "right": _end(piece.right),
        "loose": piece.loose,
        "note": piece.note,
        "working": to_working(piece.why),
    }


def _end(end: PieceEnd) -> Json:
    return {
        "kind": end.kind,
        "station": to_mm(end.station),
        "back": to_mm(end.back),
        "front": to_mm(end.front),
        "slant": to_degrees(end.slant),
        "saw": saw_document(end.saw),
        "beyond_saw": end.beyond_saw,
        "against": end.against,
        "cope": to_mm(end.cope),
        "over": end.over,
    }


def saw_document(saw: SawSetting) -> Json:
    """Return how the saw is set for one cut."""
    return {
        "mitre": to_degrees(saw.mitre),
        "bevel": to_degrees(saw.bevel),
        "swing": saw.swing,
        "fence": saw.fence,
        "kept": saw.kept,
    }


def _return(own: ReturnPiece) -> Json:
    return {
        "id": own.id,
        "piece": own.piece,
        "end": own.end,
        "profile": own.profile.name,
        "long_point": to_mm(own.long_point),
        "saw": saw_document(own.saw),
    }


def _strip(strip: BackingStrip) -> Json:
    return {
        "id": strip.id,
        "piece": strip.piece,
        "start": to_mm(strip.start),
        "end": to_mm(strip.end),
        "length": to_mm(strip.length),
        "section": to_points(strip.section),
        "rip": to_degrees(strip.rip),
    }


def _meeting(meeting: LineMeeting) -> Json:
    return {
        "left": meeting.left,
        "right": meeting.right,
        "left_line": meeting.left_line,
        "right_line": meeting.right_line,
        "angle": to_degrees(meeting.corner),
        "how": meeting.how,
        "first": meeting.first,
        "note": meeting.note,
    }
