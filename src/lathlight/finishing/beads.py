"""Where glue is laid behind a sheet or a moulding, how long the bead is, and how many cartridges or bottles hold it.

Decides paths and lengths; which glue, and how the joint is held while it sets, is left to the fixing plan and to
``clamping``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.finishing.quantities import takeoff_line
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import Flat, Member, SheetPiece
    from lathlight.catalog import Adhesive
    from lathlight.finishing.quantities import TakeoffLine

Point = tuple[float, float]
MM3 = 1e6  # cubic millimetres in a litre
TOUCH = 1e-3  # [mm]
LEAST_LAND = 10.0  # no bead where sheet and timber share less than this [mm], common practice
WIDE_MOULDING = 60.0  # a moulding broader than this gets two beads [mm], common practice
RESERVE = 0.1  # share for starting cartridges and for squeeze-out at corners, common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """One straight bead on one member, behind one sheet piece; wall axes (x, z) [mm]."""

    piece: str
    member: str
    upright: bool
    start: Point  # bottom or left
    end: Point

    @property
    def length(self) -> float:
        """From start to end [mm]."""
        return math.dist(self.start, self.end)


def bead_length(*, volume: float, section: float) -> float:
    """How far glue of a volume [l] runs as a bead of a section [mm2]; the length [mm] is volume over section.

    Raises
    ------
    InputError
        A bead or a container of no size.

    Examples
    --------
    >>> round(bead_length(volume=0.310, section=round_section(6.0)) / 1000, 2)
    10.96
    """
    for place, value, unit in (("container", volume, "l"), ("bead section", section, "mm2")):
        if not 0 < value < math.inf:
            raise InputError.of(
                place=place,
                found=f"{value:g} {unit}",
                expected=f"more than 0 {unit}",
                remedy="Take the container from its label and the bead from the nozzle: 4 to 8 mm is usual.",
            )
    return volume * MM3 / section


def round_section(diameter: float) -> float:
    """Area of a round bead's section, pi d^2 / 4 [mm2], from its diameter [mm]."""
    return math.pi * diameter**2 / 4


# --- behind a sheet ----------------------------------------------------------------------------------------------


def sheet_beads(flat: Flat) -> tuple[Bead, ...]:
    """Return the beads behind every sheet piece of a flat, piece by piece.

    Every member that carries a piece gets one bead along its middle, as far as the piece covers it; a stud under a
    seam gets one for each of the two sheets. Where a member stops against another that is glued too, its bead runs on
    to that one's, so that the edges close without a break.
    """
    return tuple(bead for piece in flat.pieces for bead in _piece_beads(flat, piece))


def _piece_beads(flat: Flat, piece: SheetPiece) -> list[Bead]:
    carrying = [m for m in flat.members if abs(m.behind - piece.sheet.thickness) < TOUCH]
    beads = [(m, bead) for m in carrying for bead in _on_member(piece, m)]
    return [_joined(bead, member, beads) for member, bead in beads]


def _on_member(piece: SheetPiece, member: Member) -> Iterable[Bead]:
    """Yield the beads along a member's middle where the piece covers it; several where an opening interrupts."""
    axis = 1 if member.upright else 0  # the coordinate that runs along the member
    left, right = front_of(member)
    across = [p[1 - axis] for p in piece.outline]
    low, high = max(left, min(across)), min(right, max(across))
    if high - low < LEAST_LAND:
        return
    at = (low + high) / 2
    first, size = (member.z, member.high) if member.upright else (member.x, member.wide)
    for a, b in stretches_on(piece, at, axis):
        begin, end = max(a, first), min(b, first + size)
        if end - begin > LEAST_LAND:
            yield Bead(
                piece=piece.id,
                member=member.id,
                upright=member.upright,
                start=(at, begin) if member.upright else (begin, at),
                end=(at, end) if member.upright else (end, at),
            )


def front_of(member: Member) -> tuple[float, float]:
    """Return from where to where a member meets the sheet, across its length [mm]; of a wedge, its front side only."""
    if member.section is not None:
        xs = [x for x, behind in member.section if abs(behind - member.behind) < TOUCH]
        return (min(xs), max(xs)) if xs else (member.x, member.x)
    return (member.x, member.x + member.wide) if member.upright else (member.z, member.z + member.high)


def stretches_on(piece: SheetPiece, at: float, axis: int) -> list[tuple[float, float]]:
    """Return the stretches of a line that lie on the piece, by the even-odd rule."""
    crossings: list[float] = []
    for ring in (piece.outline, *piece.holes):
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            p, q = a[1 - axis], b[1 - axis]
            if (p <= at) != (q <= at):
                crossings.append(a[axis] + (b[axis] - a[axis]) * (at - p) / (q - p))
    ordered = sorted(crossings)
    return list(zip(ordered[::2], ordered[1::2], strict=True))


def _joined(bead: Bead, member: Member, beads: Sequence[tuple[Member, Bead]]) -> Bead:
    """Return the bead run on to the beads that its member's ends stop against."""
    axis = 1 if bead.upright else 0
    start, end = bead.start, bead.end
    for other, cross in beads:
        if cross.upright == bead.upright or not _spans(cross, bead, other):
            continue
        low, high = (other.z, other.z + other.high) if bead.upright else (other.x, other.x + other.wide)
        middle = cross.start[axis]
        if abs(high - start[axis]) < TOUCH:
            start = (start[0], middle) if bead.upright else (middle, start[1])
        if abs(low - end[axis]) < TOUCH:
            end = (end[0], middle) if bead.upright else (middle, end[1])
    return replace(bead, start=start, end=end)


def _spans(cross: Bead, bead: Bead, member: Member) -> bool:
    """Return True where a crossing member runs past the bead's line."""
    at = bead.start[0] if bead.upright else bead.start[1]
    low, high = (member.x, member.x + member.wide) if bead.upright else (member.z, member.z + member.high)
    return low - TOUCH <= at <= high + TOUCH and cross.piece == bead.piece


def moulding_bead_length(length: float, *, broad: float) -> float:
    """How much bead a moulding takes [mm]: one along its back, two where it is broader than 60 mm.

    Parameters
    ----------
    length
        Of the moulding [mm].
    broad
        Height of its back on the wall [mm].
    """
    return length * (2 if broad > WIDE_MOULDING else 1)


# --- containers --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """Containers of one glue."""

    adhesive: Adhesive
    length: float  # of the bead, net [mm]
    reserve: float  # share added
    each: float  # bead out of one container [mm]
    number: int  # containers to buy
    why: Working


def glue_need(adhesive: Adhesive, length: float, *, reserve: float = RESERVE) -> Glue:
    """Return how many containers a bead takes, whole ones, with a reserve.

    Parameters
    ----------
    adhesive
        Row of the catalogue, with its container and bead.
    length
        Of the bead [mm], 0 or more; 0 needs none.
    reserve
        Share added, 0 to 1.

    Raises
    ------
    InputError
        A bead, a container or a share out of its range.
    """
    if not (0 <= length < math.inf and 0 <= reserve <= 1):
        raise InputError.of(
            place=f"glue {adhesive.name}",
            found=f"a bead of {length:g} mm with a reserve of {reserve:g}",
            expected="a length of 0 mm or more and a share from 0 to 1",
            remedy="Write 10 % as 0.1.",
        )
    each = bead_length(volume=adhesive.container, section=round_section(adhesive.bead))
    number = math.ceil(length * (1 + reserve) / each - 1e-9)
    why = Working(
        formula="bead and reserve over the bead from one container (volume / (pi x diameter squared / 4)), rounded up",
        inputs=(
            ("bead", length, "mm"),
            ("reserve", reserve, "share"),
            ("container", adhesive.container, "l"),
            ("diameter", adhesive.bead, "mm"),
            ("bead from one", each, "mm"),
        ),
        source=f"{GEOMETRY}; reserve: {COMMON_PRACTICE}",
        value=number,
    )
    return Glue(adhesive=adhesive, length=length, reserve=reserve, each=each, number=number, why=why)


def glue_line(glue: Glue) -> TakeoffLine:
    """Return the glue as a takeoff line, in containers: net as used, the rest reserve and rounding up."""
    net = glue.length / glue.each
    added = glue.number - net
    return takeoff_line(
        item=glue.adhesive.name,
        unit="",
        net=net,
        allowance=added,
        reason=f"{glue.reserve * 100:.3g} % for starting and squeeze-out, then whole containers" if added > 0 else "",
        why=glue.why,
    )
