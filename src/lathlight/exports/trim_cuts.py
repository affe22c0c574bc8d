"""What is sawn for the trim, one cut piece after another, and how the saw is set for each end, in plain words.

Decides the order (profile by profile, longest first, each profile's returns after its pieces, backing strips last) and
the words; what the pieces are is decided by ``lathlight.mouldings``. List, book and document say the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.exports.figures import SQUARE, length_words
from lathlight.units import format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.mouldings import BackingStrip, PieceEnd, ReturnPiece, SawSetting, TrimPiece, TrimPlan
    from lathlight.units import LengthStyle

STRIP = "backing strip"


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """One end of what is sawn."""

    kind: str  # with what it meets: "inside mitre (back)"
    mitre: float  # swing of the saw from square [rad]
    bevel: float  # tilt of the blade from upright [rad]
    saw: str  # how the saw is set and the piece lies, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimCut:
    """One thing that is sawn for the trim [mm]."""

    id: str
    what: Literal["piece", "return", "backing strip"]
    wall: str
    line: str
    profile: str  # row of the catalogue; "backing strip" for a strip
    long_point: float
    short_point: float
    back: float  # length against the wall
    left: EndCut
    right: EndCut
    loose: bool
    note: str


RAW = EndCut(kind="square", mitre=0.0, bevel=0.0, saw="square")


def trim_cuts(trim: TrimPlan, style: LengthStyle) -> tuple[TrimCut, ...]:
    """Return all that is sawn for the trim, in the order in which it is sawn."""
    pieces = {piece.id: piece for piece in trim.pieces}
    ordered = [pieces[each] for each in trim.cuts]
    found: list[TrimCut] = []
    for name in dict.fromkeys(piece.profile.name for piece in ordered):
        own = [piece for piece in ordered if piece.profile.name == name]
        found += [_piece(piece, style) for piece in own]
        found += [_return(each, piece) for piece in own for each in trim.returns if each.piece == piece.id]
    strips = sorted(trim.strips, key=lambda strip: -strip.length)
    return (*found, *(_strip(strip, pieces[strip.piece], style) for strip in strips))


def saw_words(saw: SawSetting, *, beyond_saw: bool = False) -> str:
    """Return how one end is cut, facing the fence: swing, tilt, what lies against the fence, which side is kept.

    Examples
    --------
    >>> import math
    >>> from lathlight.mouldings import saw_setting
    >>> saw_words(saw_setting(slant=math.radians(35), end="left", spring=None))
    'swing 35° right; back to the fence; piece right of the blade'
    """
    return "; ".join(_saw_parts(saw, beyond_saw=beyond_saw))


def _saw_parts(saw: SawSetting, *, beyond_saw: bool) -> Iterator[str]:
    if saw.mitre < SQUARE and saw.bevel < SQUARE:
        yield "square"
        return
    if beyond_saw:
        yield "beyond the saw's swing: mark it and cut by hand to the line"
    yield f"swing {format_angle(saw.mitre)} {saw.swing}"
    if saw.bevel >= SQUARE:
        yield f"tilt {format_angle(saw.bevel)} left"
    yield f"{'' if saw.fence == 'back' else 'flat on its back, '}{saw.fence} to the fence"
    yield f"piece {saw.kept} of the blade"


def _end(end: PieceEnd, style: LengthStyle) -> EndCut:
    words = saw_words(end.saw, beyond_saw=end.beyond_saw)
    if end.kind == "cope":
        words += f"; then cope it back {length_words(end.cope, style)} to the neighbour's profile"
    kind = f"{end.kind}, lies {'over' if end.over else 'under'}" if end.kind == "scarf" else end.kind
    return EndCut(
        kind=f"{kind} ({end.against})" if end.against else kind, mitre=end.saw.mitre, bevel=end.saw.bevel, saw=words
    )


def _piece(piece: TrimPiece, style: LengthStyle) -> TrimCut:
    return TrimCut(
        id=piece.id,
        what="piece",
        wall=piece.wall,
        line=piece.line,
        profile=piece.profile.name,
        long_point=piece.long_point,
        short_point=piece.short_point,
        back=piece.back,
        left=_end(piece.left, style),
        right=_end(piece.right, style),
        loose=piece.loose,
        note=piece.note,
    )


def _return(own: ReturnPiece, piece: TrimPiece) -> TrimCut:
    """Return the small piece at a free end: mitred where it meets its piece, nothing left at the back."""
    mitred = EndCut(kind="outside mitre", mitre=own.saw.mitre, bevel=own.saw.bevel, saw=saw_words(own.saw))
    left, right = (RAW, mitred) if own.end == "left" else (mitred, RAW)
    return TrimCut(
        id=own.id,
        what="return",
        wall=piece.wall,
        line=piece.line,
        profile=own.profile.name,
        long_point=own.long_point,
        short_point=0.0,
        back=0.0,
        left=left,
        right=right,
        loose=piece.loose,
        note="glued to its piece; cut it off a longer length, never hold it by hand at the blade",
    )


def _strip(strip: BackingStrip, piece: TrimPiece, style: LengthStyle) -> TrimCut:
    sides = [max(along) - min(along) for along in zip(*strip.section, strict=True)]
    size = " × ".join(length_words(side, style) for side in sides)
    return TrimCut(
        id=strip.id,
        what=STRIP,
        wall=piece.wall,
        line=piece.line,
        profile=STRIP,
        long_point=strip.length,
        short_point=strip.length,
        back=strip.length,
        left=RAW,
        right=RAW,
        loose=piece.loose,
        note=f"{size}, its slope ripped at {format_angle(strip.rip)} to the wall",
    )
