"""What is done with the set's two free ends: painted, covered with a strip, or closed with a return board.

A free end shows the edge of the sheet and the side of the end stud. A strip of planed timber or a return board of the
wall's own sheet lies over both, flush with the face: the set grows longer by its thickness. Of a return board the raw
front edge shows; it is filled and painted with the face. Where no timber is broad enough for a strip, it too is cut
from the sheet. Lines of trim end with the face all the same: strip and board run through from floor to top. What holds
the piece and how much paint an edge takes is left to other modules.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, assert_never

from lathlight.units import snap
from lathlight.working import GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Lumber, Sheet
    from lathlight.mouldings.mitres import End
    from lathlight.units import LengthStyle

EndFinish = Literal["painted edge", "cover strip", "return"]

PAINTED = "sheet's edge filled, it and the end stud painted with the wall"
STRIPPED = "strip over sheet's edge and end stud, flush with the face"
RETURNED = "return board over sheet's edge and end stud, flush with the face; its raw front edge filled and painted"


@dataclass(frozen=True, slots=True, kw_only=True)
class EndToCover:
    """One free end of the set and what is wished there; wall axes [mm]."""

    wall: str
    side: End
    finish: EndFinish
    length: float  # of the wall's face
    height: float
    sheet: Sheet
    framing: Lumber
    timbers: tuple[Lumber, ...]  # planed timber to take a strip from


@dataclass(frozen=True, slots=True, kw_only=True)
class WallEndCover:
    """One free end of the set; wall axes, above the foot of the flats [mm]."""

    id: str  # wall / left end
    wall: str
    side: End
    finish: EndFinish
    at: float  # along the wall: the end of the face
    bottom: float
    top: float
    width: float  # of the end that shows: sheet and frame together
    thickness: float  # of what lies over it; 0: nothing does
    stock: str  # what it is cut from; "": nothing is
    note: str
    why: Working

    @property
    def length(self) -> float:
        """Up the wall [mm]."""
        return self.top - self.bottom


def plan_wall_ends(ends: Sequence[EndToCover], *, grid: LengthStyle) -> tuple[WallEndCover, ...]:
    """Return what lies over each free end, and how large what shows there is.

    Parameters
    ----------
    ends
        The free ends: left end of the first wall, right end of the last.
    grid
        What the saw is set to.
    """
    return tuple(_cover(end, grid) for end in ends)


def narrowest_timber(timbers: Iterable[Lumber], *, broad: float) -> Lumber | None:
    """Return the thinnest timber that is at least so broad [mm], of equals the narrowest; None where none is."""
    fitting = [t for t in timbers if max(t.width, t.depth) >= broad]
    return min(fitting, key=lambda t: (min(t.width, t.depth), max(t.width, t.depth), t.system, t.name), default=None)


def _cover(end: EndToCover, grid: LengthStyle) -> WallEndCover:
    broad = snap(end.sheet.thickness + end.framing.depth, grid)
    stock, thickness, note = _material(end, broad)
    return WallEndCover(
        id=f"{end.wall}/{end.side} end",
        wall=end.wall,
        side=end.side,
        finish=end.finish,
        at=0.0 if end.side == "left" else end.length,
        bottom=0.0,
        top=end.height,
        width=broad,
        thickness=thickness,
        stock=stock,
        note=note,
        why=Working(
            formula="sheet's thickness + depth of the frame",
            inputs=(("sheet", end.sheet.thickness, "mm"), ("frame", end.framing.depth, "mm")),
            source=GEOMETRY,
            value=broad,
            unit="mm",
        ),
    )


def _material(end: EndToCover, broad: float) -> tuple[str, float, str]:
    """Return stock, thickness and note."""
    match end.finish:
        case "painted edge":
            return "", 0.0, PAINTED
        case "return":
            return end.sheet.name, end.sheet.thickness, RETURNED
        case "cover strip":
            timber = narrowest_timber(end.timbers, broad=broad)
            if timber is None:
                return end.sheet.name, end.sheet.thickness, STRIPPED
            return timber.name, min(timber.width, timber.depth), STRIPPED
    assert_never(end.finish)
