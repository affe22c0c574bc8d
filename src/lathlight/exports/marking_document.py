"""Marking out as it stands in ``plan.json``: decides names and order; heights as they are marked, millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_maybe_mm, to_mm, to_points, to_working

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.marking import FlatMark, FrameMark, HeightMark, MarkingOut


def marking_document(marking: MarkingOut) -> Json:
    """Return all that is marked as plain values."""
    level, stick = marking.level, marking.stick
    return {
        "level_line": {
            "height": to_mm(level.height),
            "above_foot": to_mm(level.above_foot),
            "working": to_working(level.why),
        },
        "rise": to_mm(marking.rise),
        "heights": [_height(mark) for mark in marking.heights],
        "flats": [_flat(mark) for mark in marking.flats],
        "frames": [_frame(mark) for mark in marking.frames],
        "stick": [
            {"at": to_mm(mark.at), "offset": to_mm(mark.offset), "names": list(mark.names)} for mark in stick.marks
        ],
        "stick_length": to_mm(stick.length),
    }


def _height(mark: HeightMark) -> Json:
    return {
        "id": mark.id,
        "wall": mark.wall,
        "name": mark.name,
        "kind": mark.kind,
        "edge": mark.edge,
        "height": to_mm(mark.height),
        "offset": to_mm(mark.offset),
        "above_foot": to_mm(mark.above_foot),
        "rest": to_mm(mark.rest),
        "stretches": to_points(mark.stretches),
    }


def _flat(mark: FlatMark) -> Json:
    return {
        "mark": mark.mark,
        "flat": mark.flat,
        "height": to_mm(mark.height),
        "rest": to_mm(mark.rest),
        "stretches": to_points(mark.stretches),
        "across": mark.is_across,
    }


def _frame(mark: FrameMark) -> Json:
    return {
        "frame": mark.frame,
        "flat": mark.flat,
        "left": to_maybe_mm(mark.left),
        "right": to_maybe_mm(mark.right),
        "left_along": to_mm(mark.left_along),
        "right_along": to_mm(mark.right_along),
    }
