"""The story stick at scale: every mark with what lies there, from the level line and from the stick's own foot.

Its length and its marks are to scale, its breadth is not. Which marks there are is decided by ``lathlight.marking``.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.labels import apart, running_figures
from lathlight.drawings.outlines import rectangle
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import make_text, text_width
from lathlight.drawings.views import make_view
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.drawings.sheets import Item, View
    from lathlight.marking import MarkingOut, StoryStick
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

# Sizes on paper [mm].
BROAD = 8.0  # the stick
LETTER = 3.2
ROW = 1.25 * LETTER
FIGURE_AT = 7.0  # from the stick to the words beside it
KNEE = 2.0  # a leader leaves the stick straight so far
COLUMN_GAP = 2.5  # between a figure and its name
POINTER = 2.6  # the black triangles that show where it is held
HOLD = "LEVEL LINE: hold this mark on it"


def signed_length(offset: float, *, style: LengthStyle) -> str:
    """Distance from the level line as it stands on drawings, with an arrow for up or down.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> signed_length(1050.0, style=LengthStyle.metric()), signed_length(-880.0, style=LengthStyle.metric())
    ('↑ 1050', '↓ 880')
    """
    words = drawing_length(abs(offset), style=style)
    return f"{'↑' if offset > 0 else '↓'} {words}" if offset else words


def stick_view(plan: Plan, marking: MarkingOut, *, scale: float) -> View:
    """Return the story stick standing upright.

    Parameters
    ----------
    plan
        Whose units are used.
    marking
        What is marked out.
    scale
        Model mm for one mm of paper.
    """
    stick, style = marking.stick, plan.brief.style
    wide = BROAD * scale
    items: list[Item] = [Path(points=rectangle(0.0, 0.0, wide, stick.length), closed=True, pen=Pen.OUTLINE)]
    items += [Line(a=(0.0, mark.at), b=(wide, mark.at), pen=Pen.OUTLINE) for mark in stick.marks]
    items += _level_mark(stick, scale)
    ends = [(0.0, "foot 0"), (stick.length, drawing_length(stick.length, style=style))]
    figures = [(mark.at, drawing_length(mark.at, style=style)) for mark in stick.marks]
    level = [(stick.level, drawing_length(stick.level, style=style))]
    items += running_figures(
        [*ends, *level, *figures], edge=0.0, level=False, out=-1, scale=scale, size=LETTER, bold=True
    )
    items += _named(stick, style, scale)
    return make_view(name="story-stick", title="Story stick", scale=scale, items=items)


def _level_mark(stick: StoryStick, scale: float) -> list[Item]:
    """Return the level line's mark: the thickest line and a black triangle from either side."""
    wide, far, half = BROAD * scale, POINTER * scale, 0.4 * POINTER * scale
    z = stick.level
    ends = [(0.0, far), (wide, wide - far)]
    pointers = [
        Path(points=((tip, z), (x, z + half), (x, z - half)), closed=True, pen=None, fill=Tone.BLACK) for x, tip in ends
    ]
    return [*pointers, Line(a=(0.0, z), b=(wide, z), pen=Pen.CUT)]


def _named(stick: StoryStick, style: LengthStyle, scale: float) -> list[Item]:
    """Return what lies at every mark, one row a name, its distance from the level line before the uppermost."""
    rows: list[tuple[float, str, str]] = [(stick.level, "0", HOLD)]
    for mark in stick.marks:
        first, *more = mark.names
        rows += [(mark.at, "", name) for name in reversed(more)]
        rows.append((mark.at, signed_length(mark.offset, style=style), first))
    rows.sort(key=lambda row: row[0])  # keeps the order within a mark: names go down from their figure
    places = apart([at for at, _, _ in rows], gap=ROW * scale)
    x = (BROAD + FIGURE_AT) * scale
    after = x + (max(text_width(figure, size=LETTER, bold=True) for _, figure, _ in rows) + COLUMN_GAP) * scale
    items: list[Item] = []
    for (at, figure, name), place in zip(rows, places, strict=True):
        z = place - 0.35 * LETTER * scale
        items.append(make_text(name, at=(after, z), size=LETTER, scale=scale, bold=name == HOLD))
        if figure:
            way = [(BROAD * scale, at), ((BROAD + KNEE) * scale, at), (x - 0.8 * scale, place)]
            items += [Line(a=a, b=b, pen=Pen.DIMENSION) for a, b in pairwise(way)]
            items.append(make_text(figure, at=(x, z), size=LETTER, scale=scale, bold=True))
    return items
