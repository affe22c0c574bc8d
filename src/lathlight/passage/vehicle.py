"""A vehicle's load space: whether one flat goes in, and how much room flats side by side take."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.passage.rectangles import CARVER, widest_fitting
from lathlight.passage.ways import CLEARANCE, Need, Way, judged

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.passage.model import Passing


def stacked(depths: Sequence[float], *, between: float = 0.0) -> float:
    """Return the width that flats take side by side on edge [mm]; none take nothing.

    Parameters
    ----------
    depths
        Of the flats, trim and hardware included [mm].
    between
        Packing between neighbours [mm].

    Examples
    --------
    >>> stacked([90.0] * 30)
    2700.0
    """
    return math.fsum(depths) + between * max(len(depths) - 1, 0)


def passes_vehicle(
    *,
    name: str,
    width: float,
    height: float,
    depth: float,
    load_width: float,
    load_height: float,
    load_length: float | None,
    clearance: float = CLEARANCE,
) -> Passing:
    """Return how a flat lies in a load space.

    Parameters
    ----------
    name
        Of the vehicle.
    width, height, depth
        Of the flat [mm].
    load_width, load_height, load_length
        Of the load space at its narrowest, its door included [mm]; ``None``: the length is not stated and not checked.
    clearance
        Kept free of each [mm].

    Notes
    -----
    On edge along the length, lying on its back, or leaning over the width; in the first two one end may lie askew.
    """
    across, up = load_width - clearance, load_height - clearance
    along = math.inf if load_length is None else load_length - clearance
    long, short = max(width, height), min(width, height)
    word, other = ("width", "height") if width > height else ("height", "width")
    free = f"less {clearance:.0f} mm"
    ways = (
        _way(
            f"on edge, its {other} upright",
            ("depth", depth, across, f"the load width {free}"),
            (other, short, up, f"the load height {free}"),
            (word, long, along, f"the load length {free}"),
        ),
        _way(
            "lying on its back",
            ("depth", depth, up, f"the load height {free}"),
            (other, short, across, f"the load width {free}"),
            (word, long, along, f"the load length {free}"),
        ),
        _way(
            "on edge, leaning over the width",
            (other, short, widest_fitting(q=depth, a=up, b=across), "what leans in height and width, at its depth"),
            (word, long, along, f"the load length {free}"),
        ),
        _way(
            "on edge, one end raised",
            ("depth", depth, across, f"the load width {free}"),
            (word, long, widest_fitting(q=short, a=along, b=up), "what lies askew in length and height"),
        ),
        _way(
            "lying on its back, askew",
            ("depth", depth, up, f"the load height {free}"),
            (word, long, widest_fitting(q=short, a=along, b=across), "what lies askew in length and width"),
        ),
    )
    place = [("load width", load_width, "mm"), ("load height", load_height, "mm"), ("kept free", clearance, "mm")]
    if load_length is not None:
        place.append(("load length", load_length, "mm"))
    return judged(name, ways, place=place, source=CARVER)


def _way(how: str, *needs: tuple[str, float, float, str]) -> Way:
    return Way(how=how, needs=tuple(Need(what=w, figure=f, limit=limit, formula=text) for w, f, limit, text in needs))
