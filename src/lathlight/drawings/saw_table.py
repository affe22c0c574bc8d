"""The saw from above for every end of the trim: which side of the moulding lies to the fence, where the handle goes.

A simple picture of our own: fence above, operator below, the piece on its side of the blade. Settings are decided by
``lathlight.mouldings``; ends that are cut alike stand under one picture. Square cuts need none.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.cells import make_cell
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import CAP, LEADING, NOTE_SIZE, make_text, wrap
from lathlight.units import format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from lathlight.drawings.cells import Cell
    from lathlight.drawings.sheets import Item, Point
    from lathlight.drawings.text import Align
    from lathlight.mouldings import SawSetting, TrimPlan

# Sizes of the picture [mm of paper].
HALF = 34.0  # from the blade to either end of the fence
FENCE = 2.0  # its depth
PIECE = 27.0  # how much of the piece is shown at its longer edge
STANDING = 5.0  # its depth where it stands with its back to the fence
LYING = 9.0  # where it lies flat on its back
REACH = 18.0  # of the blade's line in front of the fence
HANDLE = 1.6  # radius of the handle
WORDS = 68.0  # width of the words under a picture
NAME_SIZE = 3.0
SQUARE = math.radians(0.005)  # what prints as 0 degrees is square
MOST = 3  # ends named under one picture; the others are counted


def saw_cells(trim: TrimPlan, marks: Mapping[str, str]) -> tuple[Cell, ...]:
    """Return a picture for every setting of the saw that is not square, ends by ends in order of their pieces.

    Parameters
    ----------
    trim
        The trim of a set.
    marks
        Marks of the walls by name.
    """
    found: dict[SawSetting, list[str]] = {}
    for saw, words in _ends(trim, marks):
        if saw.mitre >= SQUARE or saw.bevel >= SQUARE:
            own = found.setdefault(_rounded(saw, found), [])
            if words not in own:
                own.append(words)
    return tuple(saw_cell(saw, ends) for saw, ends in found.items())


def _rounded(saw: SawSetting, known: Mapping[SawSetting, object]) -> SawSetting:
    """Return a setting that is drawn already and differs by less than what is printed, or this one."""
    for other in known:
        same = (other.swing, other.fence, other.kept) == (saw.swing, saw.fence, saw.kept)
        if same and abs(other.mitre - saw.mitre) < SQUARE and abs(other.bevel - saw.bevel) < SQUARE:
            return other
    return saw


def _ends(trim: TrimPlan, marks: Mapping[str, str]) -> Iterator[tuple[SawSetting, str]]:
    for piece in trim.pieces:
        name = f"{piece.line} of {marks[piece.wall]}"
        yield piece.left.saw, f"left end of {name}"
        yield piece.right.saw, f"right end of {name}"
    pieces = {piece.id: piece for piece in trim.pieces}
    for own in trim.returns:
        piece = pieces[own.piece]
        yield own.saw, f"return at the {own.end} end of {piece.line} of {marks[piece.wall]}"


def saw_cell(saw: SawSetting, ends: Sequence[str]) -> Cell:
    """Return the saw from above for one setting, with its words; the blade meets the fence at the origin."""
    lying = saw.fence != "back"
    deep = LYING if lying else STANDING
    lean = math.tan(saw.mitre) * {"left": -1, "right": 1, "none": 0}[saw.swing]
    side = -1 if saw.kept == "left" else 1
    ring = ((0.0, 0.0), (lean * deep, -deep), (side * PIECE, -deep), (side * PIECE, 0.0))
    handle = (lean * REACH, -REACH)
    items: list[Item] = [
        Path(
            points=((-HALF, 0.0), (HALF, 0.0), (HALF, FENCE), (-HALF, FENCE)),
            closed=True,
            pen=Pen.OUTLINE,
            fill=Tone.MID,
        ),
        Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.PALE),
        Line(a=(0.0, FENCE), b=(0.0, -REACH), pen=Pen.CENTRE),
        Line(a=(-lean * FENCE, FENCE), b=handle, pen=Pen.CUT),
        Path(points=_circle(handle), closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE),
    ]
    items += _labels(saw, side, deep, lying=lying)
    return make_cell([*items, *_words(saw, ends)], scale=1.0)


def _circle(middle: Point) -> tuple[Point, ...]:
    x, y = middle
    return tuple((x + HANDLE * math.cos(math.pi * k / 12), y + HANDLE * math.sin(math.pi * k / 12)) for k in range(24))


def _labels(saw: SawSetting, side: int, deep: float, *, lying: bool) -> list[Item]:
    """Return what lies against the fence, on the piece where there is room, and the swing beside the blade."""
    near = {"back": "", "top edge": "bottom edge", "bottom edge": "top edge"}[saw.fence]
    lean = math.tan(saw.mitre) * {"left": -1, "right": 1, "none": 0}[saw.swing]
    drop = CAP * NOTE_SIZE
    items: list[Item] = [make_text("fence", at=(-side * HALF, FENCE + 1.2), scale=1.0, align=_outwards(side))]
    for words, down in ((saw.fence, drop + 1.0), (near, deep - 1.0)) if lying else ((saw.fence, (deep + drop) / 2),):
        middle = (lean * down + side * PIECE) / 2
        items.append(make_text(words, at=(middle, -down), scale=1.0, align="centre"))
    words = f"{format_angle(saw.mitre)} {saw.swing}" if saw.swing != "none" else "square"
    beside = HANDLE + 1.2 if lean >= 0 else -HANDLE - 1.2
    at = (lean * REACH + beside, -REACH - 0.9)
    items.append(make_text(words, at=at, scale=1.0, align="left" if lean >= 0 else "right", bold=True))
    return items


def _outwards(side: int) -> Align:
    return "left" if side > 0 else "right"


def _words(saw: SawSetting, ends: Sequence[str]) -> list[Item]:
    """Return the ends that are cut so, over the picture, and the settings under it."""
    listed = [*ends[:MOST], *([f"and {len(ends) - MOST} more"] if len(ends) > MOST else [])]
    over = [line for words in listed for line in wrap(words, width=WORDS, bold=True)]
    tilt = f", tilt {format_angle(saw.bevel)} to the left" if saw.bevel >= SQUARE else ""
    swing = f"swing {format_angle(saw.mitre)} {saw.swing}" if saw.swing != "none" else "no swing"
    lies = "standing, back to the fence" if saw.fence == "back" else f"flat on its back, {saw.fence} to the fence"
    under = wrap(f"{swing}{tilt}; {lies}; piece {saw.kept} of the blade", width=WORDS)
    step = LEADING * NOTE_SIZE
    top = FENCE + 6.0
    items: list[Item] = [
        make_text(line, at=(-HALF, top + (len(over) - 1 - k) * step), scale=1.0, bold=True)
        for k, line in enumerate(over)
    ]
    items += [make_text(line, at=(-HALF, -REACH - 7.0 - k * step), scale=1.0) for k, line in enumerate(under)]
    return items
