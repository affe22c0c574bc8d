"""Corridors, turns and stairs: what goes round a corner and under a stair's ceiling.

A flat is carried on edge, its face upright. Whether the people who carry it get round is not computed.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.passage.bends import CORNER, longest_round_corner
from lathlight.passage.rectangles import CARVER, widest_fitting
from lathlight.passage.ways import CLEARANCE, Need, Way, judged, on_edge

if TYPE_CHECKING:
    from lathlight.passage.model import Passing


def passes_corridor(
    *, name: str, width: float, height: float, depth: float, clear_width: float, clear_height: float
) -> Passing:
    """Return how a flat goes along a straight corridor [mm]: as through a door, with all the room it wants to run."""
    ways = on_edge(
        width=width, height=height, depth=depth, across=clear_width - CLEARANCE, upright=clear_height - CLEARANCE
    )
    place = (("clear width", clear_width, "mm"), ("clear height", clear_height, "mm"), ("kept free", CLEARANCE, "mm"))
    return judged(name, ways, place=place, source=CARVER)


def passes_stairs(
    *, name: str, width: float, height: float, depth: float, clear_width: float, clear_height: float, slope: float
) -> Passing:
    """Return how a flat goes up straight stairs, carried along their pitch.

    Parameters
    ----------
    width, height, depth
        Of the flat [mm].
    clear_width, clear_height
        Between the walls, and upright from the line of the steps' noses to the ceiling [mm].
    slope
        Pitch of the stairs [rad], 0 to below pi/2.

    Notes
    -----
    Square to the pitch there is room for clear height x cos(slope); a rectangle in a strip needs its shorter side.
    Landings are turns of their own.
    """
    headroom = clear_height * math.cos(slope)
    ways = on_edge(
        width=width, height=height, depth=depth, across=clear_width - CLEARANCE, upright=headroom - CLEARANCE
    )
    place = (
        ("clear width", clear_width, "mm"),
        ("headroom, upright", clear_height, "mm"),
        ("pitch", slope, "rad"),
        ("headroom square to the pitch", headroom, "mm"),
        ("kept free", CLEARANCE, "mm"),
    )
    return judged(name, ways, place=place, source=f"headroom x cos(pitch); {CARVER}")


def passes_turn(
    *,
    name: str,
    width: float,
    height: float,
    depth: float,
    clear_width: float,
    next_width: float,
    clear_height: float,
    angle: float,
) -> Passing:
    """Return how a flat turns from one corridor into the next.

    Parameters
    ----------
    width, height, depth
        Of the flat [mm].
    clear_width, next_width, clear_height
        Of the corridor before and after the turn, and under the ceiling [mm].
    angle
        Angle turned through [rad].

    Notes
    -----
    Carried level, its length along the way is at most the longest panel round the corner. With one end raised its
    face has to go into a rectangle of that length and the clear height.
    """
    round_corner = longest_round_corner(
        a=max(clear_width - CLEARANCE, 0.0), b=max(next_width - CLEARANCE, 0.0), thickness=depth, angle=angle
    )
    upright = clear_height - CLEARANCE
    across = min(clear_width, next_width) - CLEARANCE
    thick = Need(what="depth", figure=depth, limit=across, formula=f"the narrower corridor less {CLEARANCE:.0f} mm")
    ways: list[Way] = []
    for up, run, word, other in ((width, height, "width", "height"), (height, width, "height", "width")):
        ways.append(
            Way(
                how=f"on edge, its {word} upright",
                needs=(
                    thick,
                    Need(what=word, figure=up, limit=upright, formula=f"the clear height less {CLEARANCE:.0f} mm"),
                    Need(what=other, figure=run, limit=round_corner, formula="the longest panel round the corner"),
                ),
            )
        )
    long, short, word = (width, height, "width") if width > height else (height, width, "height")
    limit = widest_fitting(q=short, a=round_corner, b=upright)
    formula = "what goes into the longest panel round the corner by the clear height"
    ways.append(
        Way(
            how="on edge, one end raised",
            needs=(thick, Need(what=word, figure=long, limit=limit, formula=formula)),
        )
    )
    place = (
        ("clear width before", clear_width, "mm"),
        ("clear width after", next_width, "mm"),
        ("clear height", clear_height, "mm"),
        ("turn", angle, "rad"),
        ("longest panel round the corner", round_corner, "mm"),
        ("kept free", CLEARANCE, "mm"),
    )
    return judged(name, ways, place=place, source=f"{CORNER}; {CARVER}")
