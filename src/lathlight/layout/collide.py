"""Walls that run into each other: their strips of floor overlap though they share no corner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.geometry import overlapping

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.layout.model import Point

TOUCHING = 1.0  # an overlap smaller than this is rounding [mm2]


def colliding(strips: Sequence[Sequence[Point]]) -> tuple[tuple[int, int], ...]:
    """Return pairs of strips that overlap, neighbours left out, by index and in order.

    Parameters
    ----------
    strips
        Outline of every wall on the floor, in order along the set [mm].
    """
    if len(strips) < 3:  # neighbours share a corner and are fitted there
        return ()
    pairs = overlapping([tuple(strip) for strip in strips], least=TOUCHING)
    return tuple(pair for pair in pairs if pair[1] - pair[0] > 1)
