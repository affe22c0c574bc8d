"""Standing a flat up under a ceiling: walked up over its bottom edge, or turned up in its own plane.

Forces and hands are left to the standing part; here only what sweeps how high.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.passage.ways import Need, Way, judged

if TYPE_CHECKING:
    from lathlight.passage.model import Passing

UNDER_CEILING = 20.0  # kept free under the ceiling [mm], common practice, no source
SWEEP = "sweep of a box about its bottom edge (Pythagoras); clearance: common practice"


def walked_up(*, height: float, depth: float) -> float:
    """Return how high a flat reaches while it is walked up over its bottom edge: sqrt(height^2 + depth^2) [mm].

    ``depth`` is the whole depth, braces that are fixed already included.

    Examples
    --------
    >>> round(walked_up(height=2400, depth=90), 2)
    2401.69
    """
    return math.hypot(height, depth)


def turned_up(*, width: float, height: float) -> float:
    """Return how high a flat reaches while it is turned up in its own plane: the face's diagonal [mm].

    Examples
    --------
    >>> turned_up(width=1800, height=2400)
    3000.0
    """
    return math.hypot(width, height)


def raises(*, width: float, height: float, depth: float, ceiling: float, clearance: float = UNDER_CEILING) -> Passing:
    """Return how a flat is stood up under a ceiling; either way that fits counts.

    Parameters
    ----------
    width, height, depth
        Of the flat as it is raised [mm].
    ceiling
        Least clear height of the room [mm].
    clearance
        Kept free under the ceiling [mm].
    """
    limit = ceiling - clearance
    formula = f"the ceiling less {clearance:.0f} mm"
    ways = (
        Way(
            how="walked up over its bottom edge",
            needs=(
                Need(
                    what="sweep, from height and depth",
                    figure=walked_up(height=height, depth=depth),
                    limit=limit,
                    formula=formula,
                ),
            ),
        ),
        Way(
            how="turned up in its own plane",
            needs=(
                Need(
                    what="sweep, the face's diagonal",
                    figure=turned_up(width=width, height=height),
                    limit=limit,
                    formula=formula,
                ),
            ),
        ),
    )
    place = (("height", height, "mm"), ("width", width, "mm"), ("depth", depth, "mm"), ("ceiling", ceiling, "mm"))
    return judged("ceiling", ways, place=place, source=SWEEP)
