"""How two walls meet: how far every sheet and frame runs past the corner line, at any angle.

Inside angle ``w`` between the finished faces; ``p`` is the depth behind the left wall's face, ``q`` behind the right
wall's. No solids overlap, the faces meet in one line, gaps lie only behind the faces. Which frame laps and which sheet
laps are chosen apart. Cut ends are rounded to the grid inwards, so that nothing collides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.carpentry.model import Reach, WallEnd
from lathlight.units import snap_down

if TYPE_CHECKING:
    from lathlight.units import LengthStyle

ACUTEST = math.radians(60)  # the file refuses less
WIDEST_LAP = math.radians(135)  # above this a lap is a feather edge
SQUARE = 1e-9  # |cos w| below this is a square corner

Side = Literal["left", "right", "neither"]
Style = Literal["lap", "arris", "mitre"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """Sheet thickness and frame depth of one wall [mm]."""

    sheet: float
    frame: float

    @property
    def total(self) -> float:
        """Sheet and frame together [mm]."""
        return self.sheet + self.frame


def free_end() -> WallEnd:
    """Return a wall's end with nothing beside it: everything stops at the face's end."""
    none = Reach(front=0.0, back=0.0)
    return WallEnd(
        kind="free",
        angle=math.pi,
        neighbour=None,
        sheet=none,
        frame=none,
        frame_laps=False,
        sheet_laps=False,
        sheet_front=0.0,
        sheet_back=0.0,
        frame_end=0.0,
    )


def chosen_style(angle: float, wish: Literal["auto", "lap", "arris", "mitre"]) -> Style:
    """Return how the walls meet: as wished; else lapped up to 135 degrees and arris to arris above.

    A lap above 135 degrees is a feather edge and becomes arris to arris; arris to arris below 90 degrees would let
    the sheets collide and becomes a lap.
    """
    if wish == "auto":
        return "lap" if angle <= WIDEST_LAP + SQUARE else "arris"
    if wish == "lap" and angle > WIDEST_LAP + SQUARE:
        return "arris"
    if wish == "arris" and angle < math.pi / 2 - SQUARE:
        return "lap"
    return wish


def butting_frame(*, angle: float, own: Thickness, other: Thickness) -> Reach:
    """Return the reach of a frame that stops at the front of the neighbour's frame (plane q = t_b) [mm]."""
    sine, cosine = math.sin(angle), math.cos(angle)
    return Reach(front=(other.sheet + own.sheet * cosine) / sine, back=(other.sheet + own.total * cosine) / sine)


def lapping_frame(*, angle: float, own: Thickness, other: Thickness) -> Reach:
    """Return the reach of a frame that runs past the neighbour's frame with a square end [mm]."""
    reach = (other.total + own.sheet * math.cos(angle)) / math.sin(angle)
    return Reach(front=reach, back=reach)


def butting_sheet(*, angle: float, own: Thickness) -> Reach:
    """Return the reach of a sheet that stops at the neighbour's face (plane q = 0) [mm]."""
    return Reach(front=0.0, back=own.sheet * math.cos(angle) / math.sin(angle))


def lapping_sheet(*, angle: float, own: Thickness, other: Thickness) -> Reach:
    """Return the reach of a sheet that runs on behind the neighbour's sheet (plane p = t_a) [mm]."""
    sine, cosine = math.sin(angle), math.cos(angle)
    return Reach(front=other.sheet / sine, back=(other.sheet + own.sheet * cosine) / sine)


def mitred(*, angle: float, own: Thickness) -> tuple[Reach, Reach]:
    """Return the reaches of sheet and frame cut on the plane that halves the corner [mm]."""
    slope = 1.0 / math.tan(angle / 2)
    return (
        Reach(front=0.0, back=own.sheet * slope),
        Reach(front=own.sheet * slope, back=own.total * slope),
    )


def wall_end(
    *,
    angle: float,
    style: Style,
    own: Thickness,
    other: Thickness,
    neighbour: str,
    frame_laps: bool,
    sheet_laps: bool,
    grid: LengthStyle,
) -> WallEnd:
    """Return how one wall ends at a corner.

    Parameters
    ----------
    angle
        Inside angle between the finished faces [rad].
    style
        Lapped, arris to arris, or mitred.
    own, other
        Thicknesses of this wall and of its neighbour.
    frame_laps, sheet_laps
        Whether this wall's frame and sheet run past the neighbour's; only for a lap.
    """
    sheet, frame = _reaches(angle, style, own, other, frame_laps=frame_laps, sheet_laps=sheet_laps)
    front, back = _cut_sheet(angle, style, sheet, own, grid, laps=sheet_laps)
    return WallEnd(
        kind=style,
        angle=angle,
        neighbour=neighbour,
        sheet=sheet,
        frame=frame,
        frame_laps=style == "lap" and frame_laps,
        sheet_laps=style == "lap" and sheet_laps,
        sheet_front=front,
        sheet_back=back,
        frame_end=snap_down(frame.square, grid),
    )


def _reaches(
    angle: float, style: Style, own: Thickness, other: Thickness, *, frame_laps: bool, sheet_laps: bool
) -> tuple[Reach, Reach]:
    if style == "arris":
        return Reach(front=0.0, back=0.0), Reach(front=0.0, back=0.0)
    if style == "mitre":
        return mitred(angle=angle, own=own)
    sheet = lapping_sheet(angle=angle, own=own, other=other) if sheet_laps else butting_sheet(angle=angle, own=own)
    frame = (
        lapping_frame(angle=angle, own=own, other=other)
        if frame_laps
        else butting_frame(angle=angle, own=own, other=other)
    )
    return sheet, frame


def _cut_sheet(
    angle: float, style: Style, sheet: Reach, own: Thickness, grid: LengthStyle, *, laps: bool
) -> tuple[float, float]:
    """Return where the cut sheet's front and back end [mm past the corner line].

    A square end takes the smaller figure. It is bevelled where a square end would open a gap in the face: the
    butting sheet of an open corner, the lapping sheet where its back would stop short of the corner line, a mitre.
    """
    if style == "mitre":
        return sheet.front, sheet.back
    if math.cos(angle) < -SQUARE and style == "lap" and (not laps or sheet.back < 0):
        front = snap_down(sheet.front, grid)
        return front, front + own.sheet * math.cos(angle) / math.sin(angle)
    square = snap_down(sheet.square, grid)
    return square, square


def wedge_outline(end: WallEnd, own: Thickness) -> tuple[tuple[float, float], ...] | None:
    """Return the section of the wedge that a square frame end leaves open, or None where it is a hair.

    Points are (past the corner line, behind the face) [mm]. The wedge fills the space between the square end and the
    plane that bounds the frame; it also carries the sheet's edge where the frame stops short of it.
    """
    if end.kind != "lap" or end.frame_laps or end.frame.wedge < LEAST_WEDGE:
        return None
    front, back = own.sheet, own.total
    corners = [(end.frame_end, front), (end.frame.front, front), (end.frame.back, back), (end.frame_end, back)]
    kept = [p for i, p in enumerate(corners) if i in (0, 3) or p[0] > end.frame_end + HAIR]
    return tuple(kept) if len(kept) > 2 else None


LEAST_WEDGE = 2.0  # narrower gaps are left to the glue [mm], common practice
HAIR = 1.2  # a side this short is planed away [mm]
