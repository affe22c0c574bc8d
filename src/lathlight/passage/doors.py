"""Doors: a flat goes through on edge, one side of its face upright, its depth across the opening.

Straight up first; leaning in the opening where that does not do. The other side of the face needs room to run on
behind the door, or to turn there. The people who carry it are not computed.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.passage.bends import RIGHT_ANGLE, longest_round_corner
from lathlight.passage.rectangles import CARVER
from lathlight.passage.ways import CLEARANCE, judged, on_edge

if TYPE_CHECKING:
    from lathlight.passage.model import Passing


def passes_door(
    *,
    name: str,
    width: float,
    height: float,
    depth: float,
    door_width: float,
    door_height: float,
    run_inside: float = math.inf,
) -> Passing:
    """Return how a flat goes through a door.

    Parameters
    ----------
    name
        Of the door.
    width, height, depth
        Of the flat, trim and hardware included [mm].
    door_width, door_height
        Clear opening [mm].
    run_inside
        Free straight length behind the door [mm]; infinite where nothing stands in the way.
    """
    run = _room_to_run(door_width=door_width, depth=depth, run_inside=run_inside)
    ways = on_edge(
        width=width,
        height=height,
        depth=depth,
        across=door_width - CLEARANCE,
        upright=door_height - CLEARANCE,
        along=run,
    )
    place = [("clear width", door_width, "mm"), ("clear height", door_height, "mm"), ("kept free", CLEARANCE, "mm")]
    if math.isfinite(run_inside):
        place += [("free length inside", run_inside, "mm"), ("longest that runs or turns inside", run, "mm")]
    return judged(name, ways, place=place, source=CARVER)


def _room_to_run(*, door_width: float, depth: float, run_inside: float) -> float:
    """Return the longest flat that finds room behind a door: straight on, or turned along the wall [mm].

    Turning there is turning from a corridor as wide as the door into one as wide as the free length; a real door has
    more room on its outer side.
    """
    if math.isinf(run_inside):
        return run_inside
    clear = max(door_width - CLEARANCE, 0.0)
    turned = longest_round_corner(a=clear, b=run_inside, thickness=depth, angle=RIGHT_ANGLE)
    return max(run_inside, turned)
