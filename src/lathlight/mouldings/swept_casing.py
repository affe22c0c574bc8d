"""Casing as bodies, in the axes of its wall: legs, head, bottom piece, blocks, and the curve over an arch in chords.

Casing that finds no room is drawn whole: it runs past the wall's edge by what its finding says. The curve and its legs
share the plane in which they meet; between, each chord's corners lie on the arc.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.catalog import drop
from lathlight.geometry import EndCut, prism, rectangle, swept_through
from lathlight.mouldings.swept_frames import on_edge, side_body

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.geometry import Body, Place
    from lathlight.mouldings.casing_model import Casing, CasingBlock, CasingCurve, CasingEnd, CasingPart, CasingPiece
    from lathlight.mouldings.frame_pieces import PieceRole

SAG = 0.5  # how far a chord of the outer edge may lie off its arc [mm]: below what filler hides, our choice
ROLES: dict[CasingPart, PieceRole] = {"left leg": "left", "right leg": "right", "head": "top", "bottom": "bottom"}


def casing_bodies(casing: Casing) -> Iterator[tuple[str, Body]]:
    """Yield every piece, block and curve of one opening's casing with its id."""
    for piece in casing.pieces:
        body = _piece_body(piece, casing)
        if body is not None:
            yield piece.id, body
    for block in casing.blocks:
        yield block.id, _block_body(block)
    if casing.curve is not None:
        yield casing.curve.id, _curve_body(casing.curve, casing)


def _piece_body(piece: CasingPiece, casing: Casing) -> Body | None:
    role = ROLES[piece.part]
    first = _end_cut(piece.first, casing, at=piece.z0 if piece.upright else piece.x0, low=True, upright=piece.upright)
    last = _end_cut(piece.last, casing, at=piece.z1 if piece.upright else piece.x1, low=False, upright=piece.upright)
    return side_body(casing.profile, role=role, inner=_inner(casing, role), first=first, last=last)


def _inner(casing: Casing, role: PieceRole) -> float:
    """Return where the inner edge of one side lies; the wall's edge clips the outer edges alone."""
    pieces = {ROLES[p.part]: p for p in casing.pieces}
    piece = pieces[role]
    return {"left": piece.x1, "right": piece.x0, "top": piece.z0, "bottom": piece.z1}[role]


def _end_cut(end: CasingEnd, casing: Casing, *, at: float, low: bool, upright: bool) -> EndCut:
    """Return a piece's end: mitred from the inner edge of what it meets, or as it stands."""
    outwards = -1.0 if low else 1.0
    if end.kind == "mitre":
        meets: PieceRole = ("bottom" if low else "top") if upright else ("left" if low else "right")
        return EndCut(at=_inner(casing, meets), by_up=outwards * math.tan(end.slant))
    if end.kind == "meets the curve":
        rise = outwards * math.tan(end.slant)
        lowest = at - max(0.0, rise * drop(casing.profile))  # the box reaches to the higher of its two edges
        return EndCut(at=lowest, by_up=rise)
    return EndCut(at=at)


def _block_body(block: CasingBlock) -> Body:
    outline = rectangle(block.x0, block.z0, block.x1, block.z1)
    return prism(outline, low=-block.thickness, high=0.0, axis="depth")


def _curve_body(curve: CasingCurve, casing: Casing) -> Body:
    """Return the curve over an arch, from the left leg's end to the right leg's."""
    section = on_edge(casing.profile)
    legs = {p.part: p for p in casing.pieces}
    ends: list[list[Place]] = []
    angles: list[float] = []
    sides: tuple[tuple[CasingPart, float], ...] = (("left leg", -1.0), ("right leg", 1.0))
    for part, towards in sides:
        leg = legs[part]
        x = _inner(casing, ROLES[part])
        cut = _end_cut(leg.last, casing, at=leg.z1, low=False, upright=True)
        row = [(x + towards * up, -out, cut.along(out, up)) for out, up in section]
        ends.append(row)
        angles += [math.atan2(z - curve.centre[1], towards * (px - curve.centre[0])) for px, _, z in row]
    rows = [_row(section, curve, angle) for angle in _between(max(angles), curve.outer_radius)]
    return swept_through(section, [ends[0], *rows, ends[1]])


def _between(lowest: float, radius: float) -> list[float]:
    """Return the angles of the arc's inner corners from left to right, its ends apart, seen from its centre [rad]."""
    whole = math.pi - 2 * lowest
    chords = max(2, math.ceil(whole / (2 * math.acos(1 - SAG / radius))))
    return [math.pi - lowest - whole * k / chords for k in range(1, chords)]


def _row(section: tuple[tuple[float, float], ...], curve: CasingCurve, angle: float) -> list[Place]:
    (x, z), c, s = curve.centre, math.cos(angle), math.sin(angle)
    return [(x + (curve.inner_radius + up) * c, -out, z + (curve.inner_radius + up) * s) for out, up in section]
