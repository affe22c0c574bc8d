"""Casing, wall ends and strips as they stand in ``plan.json``: decides names and order; wall axes, millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_degrees, to_mm, to_mms, to_working
from lathlight.exports.trim_document import saw_document

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.mouldings import Casing, CasingBlock, CasingCurve, CasingEnd, CasingPiece, Strip, WallEndCover


def casing_document(casing: Casing) -> Json:
    """Return the casing of one opening as plain values."""
    return {
        "wall": casing.wall,
        "opening": casing.opening,
        "kind": casing.kind,
        "profile": casing.profile.name,
        "pieces": [_piece(piece) for piece in casing.pieces],
        "blocks": [_block(block) for block in casing.blocks],
        "curve": None if casing.curve is None else _curve(casing.curve),
    }


def _box(part: CasingPiece | CasingBlock | Strip) -> list[float | int]:
    return to_mms((part.x0, part.z0, part.x1, part.z1))


def _piece(piece: CasingPiece) -> Json:
    return {
        "id": piece.id,
        "part": piece.part,
        "upright": piece.upright,
        "box": _box(piece),
        "long_point": to_mm(piece.long_point),
        "short_point": to_mm(piece.short_point),
        "first": _end(piece.first),
        "last": _end(piece.last),
        "working": to_working(piece.why),
    }


def _end(end: CasingEnd) -> Json:
    return {
        "kind": end.kind,
        "hand": end.hand,
        "slant": to_degrees(end.slant),
        "saw": saw_document(end.saw),
        "against": end.against,
    }


def _block(block: CasingBlock) -> Json:
    return {
        "id": block.id,
        "kind": block.kind,
        "side": block.side,
        "box": _box(block),
        "thickness": to_mm(block.thickness),
        "working": to_working(block.why),
    }


def _curve(curve: CasingCurve) -> Json:
    return {
        "id": curve.id,
        "centre": to_mms(curve.centre),
        "inner_radius": to_mm(curve.inner_radius),
        "outer_radius": to_mm(curve.outer_radius),
        "angle": to_degrees(curve.angle),
        "length": to_mm(curve.length),
        "note": curve.note,
        "working": to_working(curve.why),
    }


def end_document(end: WallEndCover) -> Json:
    """Return one free end of the set as plain values."""
    return {
        "id": end.id,
        "wall": end.wall,
        "side": end.side,
        "finish": end.finish,
        "at": to_mm(end.at),
        "bottom": to_mm(end.bottom),
        "top": to_mm(end.top),
        "width": to_mm(end.width),
        "thickness": to_mm(end.thickness),
        "stock": end.stock,
        "note": end.note,
        "working": to_working(end.why),
    }


def strip_document(strip: Strip) -> Json:
    """Return one straight moulding as the rectangle of wall that it covers."""
    return {
        "id": strip.id,
        "wall": strip.wall,
        "use": strip.use,
        "kind": strip.kind,
        "belongs_to": strip.belongs_to,
        "profile": None if strip.profile is None else strip.profile.name,
        "upright": strip.upright,
        "box": _box(strip),
        "stands_out": to_mm(strip.stands_out),
        "loose": strip.loose,
    }
