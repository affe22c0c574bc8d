"""A corner put into figures: angle, style, who laps, how far every sheet and frame runs past the corner line.

Decides what is told of a corner, and in which words. The figures are those of ``lathlight.carpentry``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.carpentry import Corner, Flat, WallEnd
    from lathlight.plan import Plan
    from lathlight.project import CornerBrief

Figure = tuple[str, float | str, str]  # name, value, unit

SQUARE_EDGE = 1e-6  # [mm] an edge whose front and back end this near each other is square
TRIALS = (
    "Cut counts are those of trial walls, each sheeted by itself: they compare the choices, and are not the cuts of "
    "the walls as they are built."
)
STYLES = {"lap": "lapped", "arris": "arris to arris", "mitre": "mitred"}


def corner_figures(plan: Plan, corner: Corner) -> tuple[Figure, ...]:
    """Return what is to be known of a corner besides who laps and why, in the order in which it is told."""
    (wish,) = (each for each in plan.brief.corners if (each.left, each.right) == (corner.left, corner.right))
    flats = {flat.wall: flat for flat in plan.flats}
    ends = ((corner.left, "right", corner.left_end), (corner.right, "left", corner.right_end))
    return (
        ("inside angle", corner.angle, "rad"),
        ("style", _style(corner, wish), ""),
        *_laps(corner, wish),
        *(figure for wall, side, end in ends for figure in _end(flats[wall], side, end)),
        *_wedges(plan, corner),
    )


def corner_note(corner: Corner) -> str:
    """Return what has to be known to read a corner's inputs; "" where nothing was compared."""
    return TRIALS if any(name.startswith("cuts, ") for name, _, _ in corner.why.inputs) else ""


def _style(corner: Corner, wish: CornerBrief) -> str:
    words = STYLES[corner.style]
    if wish.style == "auto":
        return f"{words}, chosen by the angle (lapped up to 135°, arris to arris above)"
    if wish.style == corner.style:
        return f"{words}, as the project file wishes"
    return f"{words}, although the project file wishes {STYLES[wish.style]} ({_why_not(corner.style)})"


def _why_not(style: str) -> str:
    if style == "arris":
        return "above 135° a lap would be a feather edge"
    return "below 90° the sheets would run into each other"


def _laps(corner: Corner, wish: CornerBrief) -> Iterator[Figure]:
    if corner.style != "lap":
        return
    for part, side, wished in (
        ("frame", corner.frame_laps, wish.frame_laps),
        ("sheet", corner.sheet_laps, wish.sheet_laps),
    ):
        wall = corner.left if side == "left" else corner.right
        how = "chosen" if wished == "auto" else "as the project file wishes"
        yield f"{part} that laps", f"{wall}'s, {how}", ""


def _end(flat: Flat, side: str, end: WallEnd) -> Iterator[Figure]:
    """Yield how far one wall's sheet and frame run past the corner line; negative figures stop short of it."""
    wall, thick = flat.wall, flat.sheet.thickness
    yield f"{wall}: sheet past the corner line, exact, at its front", end.sheet.front, "mm"
    yield f"{wall}: sheet past the corner line, exact, at its back", end.sheet.back, "mm"
    yield f"{wall}: sheet as cut, at its front", end.sheet_front, "mm"
    yield f"{wall}: sheet as cut, at its back", end.sheet_back, "mm"
    lean = end.sheet_back - end.sheet_front
    if abs(lean) > SQUARE_EDGE:
        yield f"{wall}: bevel of the sheet's {side} edge from square", math.atan2(abs(lean), thick), "rad"
    yield f"{wall}: frame past the corner line, exact, at its front", end.frame.front, "mm"
    yield f"{wall}: frame past the corner line, exact, at its back", end.frame.back, "mm"
    yield f"{wall}: frame as cut, square", end.frame_end, "mm"


def _wedges(plan: Plan, corner: Corner) -> Iterator[Figure]:
    for wall, side in ((corner.left, "right"), (corner.right, "left")):
        wide = [m.wide for m in plan.members if m.wall == wall and m.id.endswith(f"/wedge/{side}")]
        if wide:
            yield f"{wall}: wedge at the frame's {side} end, widest side", max(wide), "mm"
    if corner.wedge is not None:
        yield "loose wedge between the flats, widest side", corner.wedge.wide, "mm"
        yield "loose wedge, ripped to", corner.wedge.angle, "rad"
