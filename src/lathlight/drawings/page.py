"""Pages of drawings: paper, border, title block, captions under the views, notes.

Decides where everything on a page stands that is not inside a view; what the views show is left to their own modules,
how many pages there are to the set book.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.cautions import PLANNING_AID
from lathlight.drawings.scales import BAR_HEIGHT, bar_width, scale_bar, scale_words
from lathlight.drawings.sheets import Page, PageLine, PageText, Pen, Placed, Point, View
from lathlight.drawings.text import LEADING, NOTE_SIZE, page_text, text_width, wrap

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from lathlight.project import TitleBrief
    from lathlight.units import LengthStyle

# Width and height, upright [mm]: ISO 216:2007; ANSI/ASME Y14.1 sizes A and B.
PAPERS = {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4), "Tabloid": (279.4, 431.8)}
LEFT_MARGIN = 20.0  # [mm] for filing, ISO 5457:1999 clause 4.2
MARGIN = 10.0  # [mm] the other three, ISO 5457:1999 clause 4.2
BLOCK_WIDTH = 180.0  # [mm] ISO 7200:2004 clause 4
ROWS = (10.0, 8.0, 7.6)  # heights of the title block's rows, from the top [mm]
BLOCK_HEIGHT = sum(ROWS)
SPACE = 5.0  # [mm] between border, title block and views
NARROWEST_NOTES = 60.0  # [mm] beside the title block; narrower, notes stand over it

TITLE_LETTER = 3.4  # [mm]
CAPTION_LETTER = 3.2  # [mm]
LABEL_LETTER = 1.9  # [mm] what a cell of the title block is
CAPTION_DROP = 6.0  # [mm] from a view to the baseline of its title
CAPTION_HEIGHT = CAPTION_DROP + 2.4 + BAR_HEIGHT  # [mm]
CAUTION = "Do not scale: figures govern. True to scale only when printed at full size on {paper}. " + PLANNING_AID


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """An upright rectangle of a page [paper mm, y up]."""

    low: Point
    high: Point

    @property
    def size(self) -> Point:
        """Width and height [mm]."""
        return self.high[0] - self.low[0], self.high[1] - self.low[1]


def paper_size(paper: str, *, landscape: bool) -> Point:
    """Width and height of a paper as it lies [mm]."""
    width, height = PAPERS[paper]
    return (height, width) if landscape else (width, height)


def view_area(paper: str, *, landscape: bool, notes: Sequence[str] = ()) -> Area:
    """Part of a page that is free for views and tables: inside the border, over title block and notes."""
    frame = _frame(paper_size(paper, landscape=landscape))
    top = max(_block(frame).high[1], _notes_area(frame, notes).high[1])
    return Area(low=(frame.low[0] + SPACE, top + SPACE), high=(frame.high[0] - SPACE, frame.high[1] - SPACE))


def cell_size(view: View, *, style: LengthStyle) -> Point:
    """Width and height that a view takes on a page, its caption included [mm of paper]."""
    width, height = view.paper_size
    words = (
        text_width(view.title, size=CAPTION_LETTER, bold=True)
        + 3
        + text_width(scale_words(view.scale, style=style), size=NOTE_SIZE)
    )
    return max(width, words, bar_width(view.scale, style=style)), height + CAPTION_HEIGHT


def make_page(
    *,
    name: str,
    title: str,
    views: Sequence[Placed],
    heading: TitleBrief,
    style: LengthStyle,
    landscape: bool,
    notes: Sequence[str] = (),
    unscaled: Collection[str] = (),
    texts: Sequence[PageText] = (),
    lines: Sequence[PageLine] = (),
    scale_text: str | None = None,
) -> Page:
    """Page with border, title block, captions and notes; its number is set by `number_page`.

    Parameters
    ----------
    name
        File name without ending.
    title
        Title of the drawing.
    views
        Views and their places, inside `view_area` with the same notes.
    heading
        Title of the project, date, revision, paper.
    style
        The project's units.
    landscape
        Whether the paper lies on its long side.
    notes
        General notes, one a string; they wrap.
    unscaled
        Names of views that are drawn to no scale: their captions say so.
    texts, lines
        What else stands on the page: tables.
    scale_text
        Words for the title block in place of the scale of all views.
    """
    size = paper_size(heading.paper, landscape=landscape)
    frame = _frame(size)
    scale = _common_scale(views, unscaled, style) if scale_text is None else scale_text
    block_texts, block_lines = _title_block(_block(frame), title=title, heading=heading, style=style, scale=scale)
    captions = [_caption(placed, scaled=placed.view.name not in unscaled, style=style) for placed in views]
    return Page(
        name=name,
        title=title,
        number=0,
        size=size,
        views=tuple(views),
        texts=(
            *(text for caption, _ in captions for text in caption),
            *texts,
            *_note_texts(_notes_area(frame, notes), notes),
            *block_texts,
        ),
        lines=(*(line for _, bar in captions for line in bar), *lines, *_outline(frame, Pen.FRAME), *block_lines),
    )


def number_page(page: Page, *, number: int, of: int) -> Page:
    """Page with its number in the title block, in place of any it had."""
    cell = _cells(_block(_frame(page.size)))["Page"]
    spot = _cell_spot(cell)
    kept = tuple(text for text in page.texts if text.at != spot)
    words = page_text(f"{number} of {of}", at=spot, size=TITLE_LETTER, bold=True)
    return replace(page, number=number, texts=(*kept, words))


def _frame(size: Point) -> Area:
    return Area(low=(LEFT_MARGIN, MARGIN), high=(size[0] - MARGIN, size[1] - MARGIN))


def _block(frame: Area) -> Area:
    left = max(frame.high[0] - BLOCK_WIDTH, frame.low[0])
    return Area(low=(left, frame.low[1]), high=(frame.high[0], frame.low[1] + BLOCK_HEIGHT))


def _notes_area(frame: Area, notes: Sequence[str]) -> Area:
    """Return where notes stand: beside the title block where there is room, else over it."""
    block = _block(frame)
    beside = block.low[0] - frame.low[0] >= NARROWEST_NOTES
    left, right = frame.low[0] + SPACE, (block.low[0] if beside else frame.high[0]) - SPACE
    count = sum(len(wrap(note, width=right - left)) for note in notes)
    low = frame.low[1] + SPACE / 2 if beside else block.high[1] + (SPACE / 2 if notes else 0.0)
    return Area(low=(left, low), high=(right, low + count * LEADING * NOTE_SIZE))


def _note_texts(area: Area, notes: Sequence[str]) -> list[PageText]:
    lines = [line for note in notes for line in wrap(note, width=area.size[0])]
    step = LEADING * NOTE_SIZE
    return [page_text(line, at=(area.low[0], area.high[1] - (i + 0.8) * step)) for i, line in enumerate(lines) if line]


def _cells(block: Area) -> dict[str, Area]:
    """Return the title block's cells by what they are."""
    left, right = block.low[0], block.high[0]
    first, second = block.high[1] - ROWS[0], block.high[1] - ROWS[0] - ROWS[1]

    def row(names: Sequence[str], shares: Sequence[float], low: float, high: float) -> dict[str, Area]:
        stops = [left + (right - left) * share for share in (0.0, *shares, 1.0)]
        return {name: Area(low=(stops[i], low), high=(stops[i + 1], high)) for i, name in enumerate(names)}

    return {
        **row(("Set", "Drawing", "Page"), (0.38, 0.86), first, block.high[1]),
        **row(("Scale", "Units", "Date", "Revision"), (0.38, 0.68, 0.86), second, first),
        **row(("Caution",), (), block.low[1], second),
    }


def _cell_spot(cell: Area) -> Point:
    """Return where the words of a cell begin."""
    return cell.low[0] + 1.5, cell.low[1] + 1.8


def _title_block(
    block: Area, *, title: str, heading: TitleBrief, style: LengthStyle, scale: str
) -> tuple[list[PageText], list[PageLine]]:
    cells = _cells(block)
    words = {
        "Set": heading.title,
        "Drawing": title,
        "Page": "",
        "Scale": scale,
        "Units": _units_words(style),
        "Date": "" if heading.date is None else heading.date.isoformat(),
        "Revision": heading.revision,
    }
    texts: list[PageText] = []
    for name, value in words.items():
        cell = cells[name]
        label_at = cell.low[0] + 1.5, cell.high[1] - LABEL_LETTER - 0.6
        texts.append(page_text(name, at=label_at, size=LABEL_LETTER))
        large = name in ("Set", "Drawing")
        texts += _fitted(value, cell, size=TITLE_LETTER if large else NOTE_SIZE, bold=large)
    texts += _caution(cells["Caution"], heading.paper)
    lines = [line for cell in cells.values() for line in _outline(cell, Pen.LIGHT)]
    return texts, [*lines, *_outline(block, Pen.OUTLINE)]


def _fitted(words: str, cell: Area, *, size: float, bold: bool) -> list[PageText]:
    """Return words in one line of a cell, smaller where they are long, cut where they are longer still."""
    room = cell.size[0] - 3.0
    letter = next((s for s in (size, 3.0, 2.6, 2.2) if s <= size and text_width(words, size=s, bold=bold) <= room), 2.2)
    while text_width(words, size=letter, bold=bold) > room:
        words = words.rstrip("…")[:-1].rstrip() + "…"
    return [page_text(words, at=_cell_spot(cell), size=letter, bold=bold)] if words else []


def _caution(cell: Area, paper: str) -> list[PageText]:
    lines = wrap(CAUTION.format(paper=paper), width=cell.size[0] - 3.0, size=2.1)
    return [
        page_text(line, at=(cell.low[0] + 1.5, cell.high[1] - 2.9 - i * 2.1 * LEADING), size=2.1)
        for i, line in enumerate(lines)
    ]


def _units_words(style: LengthStyle) -> str:
    if style.system == "metric":
        return "millimetres"
    return f'feet and inches, to 1/{round(25.4 / float(style.step))}"'


def _common_scale(views: Sequence[Placed], unscaled: Collection[str], style: LengthStyle) -> str:
    scales = {placed.view.scale for placed in views if placed.view.name not in unscaled}
    if len(scales) == 1:
        return scale_words(scales.pop(), style=style)
    return "as shown" if scales else "none"


def _caption(placed: Placed, *, scaled: bool, style: LengthStyle) -> tuple[list[PageText], list[PageLine]]:
    """Return the title under a view, its scale and its scale bar."""
    x, y = placed.at[0], placed.at[1] - CAPTION_DROP
    view = placed.view
    words = scale_words(view.scale, style=style) if scaled else "not to scale"
    after = x + text_width(view.title, size=CAPTION_LETTER, bold=True) + 3
    texts = [
        page_text(view.title, at=(x, y), size=CAPTION_LETTER, bold=True),
        page_text(words, at=(after, y)),
    ]
    if not scaled:
        return texts, []
    figures, bar = scale_bar(view.scale, at=(x, y - 2.4 - BAR_HEIGHT), style=style)
    return [*texts, *figures], list(bar)


def _outline(area: Area, pen: Pen) -> list[PageLine]:
    (x0, y0), (x1, y1) = area.low, area.high
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
    return [PageLine(a=a, b=b, pen=pen) for a, b in pairwise(corners)]
