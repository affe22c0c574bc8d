"""Mouldings on a wall as few plain outlines, for drawings too small for their profiles: moulding frames, casing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.outlines import bounds_of, rectangle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.drawings.outlines import Ring
    from lathlight.mouldings import Casing, CasingCurve, Strip
    from lathlight.plan import Plan

ARC_STEPS = 16  # straight pieces that stand for a curved head


def frame_rings(plan: Plan, wall: str) -> Iterator[tuple[Ring, Ring]]:
    """Yield the outer and the inner edge of every moulding frame on a wall."""
    sides: dict[str, list[Strip]] = {}
    for strip in plan.strips:
        if strip.wall == wall and strip.use == "moulding frame":
            sides.setdefault(strip.id.rpartition("/")[0], []).append(strip)
    for own in sides.values():
        broad = own[0].broad
        x0, z0, x1, z1 = bounds_of([point for s in own for point in ((s.x0, s.z0), (s.x1, s.z1))])
        yield rectangle(x0, z0, x1, z1), rectangle(x0 + broad, z0 + broad, x1 - broad, z1 - broad)


def casing_rings(casings: Iterable[Casing]) -> list[Ring]:
    """Return the outer edge of the casing round every opening; a curved head goes from leg to leg."""
    rings: list[Ring] = []
    for casing in casings:
        corners = [point for p in casing.pieces for point in ((p.x0, p.z0), (p.x1, p.z1))]
        if not corners:
            continue
        x0, z0, x1, z1 = bounds_of(corners)
        head = ((x1, z1), (x0, z1)) if casing.curve is None else _arc(casing.curve)
        rings.append(((x0, z0), (x1, z0), *head))
    return rings


def _arc(curve: CasingCurve) -> Ring:
    """Return the outer edge of a curved head, from its right end to its left."""
    x, z = curve.centre
    turns = (curve.angle * (0.5 - k / ARC_STEPS) for k in range(ARC_STEPS + 1))
    return tuple((x + curve.outer_radius * math.sin(turn), z + curve.outer_radius * math.cos(turn)) for turn in turns)
