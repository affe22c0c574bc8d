"""Pages and views as SVG, in millimetres of paper, with real words; it places what the drawing holds and no more.

Needs the bundled fonts where it is shown: words are set in them without kerning, so that they cover what their boxes
say. Order: lines, paths and hatches as the view lists them, then chains, then texts.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from html import escape
from typing import TYPE_CHECKING, assert_never

from lathlight.drawings.sheets import Chain, Hatch, Line, PageText, Path, Pen, Point, Text, Tone, View
from lathlight.fonts import FAMILY

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.drawings.sheets import Item, Page

NAMESPACE = "http://www.w3.org/2000/svg"
INK = "#000"
PAPER = "#fff"
ACCENT = "#9a2a14"  # snags and nothing else; dark enough to print as ink
ANCHOR = {"left": "", "centre": ' text-anchor="middle"', "right": ' text-anchor="end"'}

Put = Callable[[Point], str]  # a point as its two coordinates on paper, y down


def page_svg(page: Page) -> bytes:
    """Page as a self-contained SVG of the paper's size."""
    height = page.size[1]
    parts: list[str] = []
    words: list[str] = []
    for placed in page.views:
        put = _onto(placed.view, placed.at, height)
        parts += _marks(placed.view.items, put)
        words += _words(placed.view.items, put)

    def put_page(point: Point) -> str:
        return f"{_number(point[0])} {_number(height - point[1])}"

    parts += _runs((line.pen, f"M{put_page(line.a)}L{put_page(line.b)}") for line in page.lines)
    words += [_text(text, put_page, angle=0.0) for text in page.texts]
    return _document(page.title, page.size, parts, words)


def view_svg(view: View) -> bytes:
    """View alone as a self-contained SVG of the size that it takes on paper."""
    size = view.paper_size
    put = _onto(view, (0.0, 0.0), size[1])
    return _document(view.title, size, _marks(view.items, put), _words(view.items, put))


def _document(title: str, size: Point, marks: Iterable[str], words: Iterable[str]) -> bytes:
    width, height = _number(size[0]), _number(size[1])
    lines = [
        f'<svg xmlns="{NAMESPACE}" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">',
        f"<title>{escape(title)}</title>",
        f'<path d="M0 0H{width}V{height}H0Z" fill="{PAPER}"/>',
        f'<g fill="none" stroke="{INK}" stroke-linecap="square" stroke-miterlimit="1.5">',
        *marks,
        "</g>",
        f'<g fill="{INK}" font-family="{FAMILY}" style="font-kerning:none" xml:space="preserve">',
        *words,
        "</g>",
        "</svg>",
        "",
    ]
    return "\n".join(lines).encode()


def _onto(view: View, at: Point, height: float) -> Put:
    """Return what writes a point of a view that lies at `at` on paper of that height."""
    scale = view.scale
    right, down = at[0] - view.low[0] / scale, height - at[1] + view.low[1] / scale

    def put(point: Point) -> str:
        return f"{_number(right + point[0] / scale)} {_number(down - point[1] / scale)}"

    return put


def _marks(items: Sequence[Item], put: Put) -> Iterator[str]:
    """Yield everything of a view but its words."""
    yield from _runs(stroke for item in items for stroke in _strokes(item, put))
    yield from _runs(
        (line.pen, f"M{put(line.a)}L{put(line.b)}")
        for item in items
        if isinstance(item, Chain)
        for line in sorted(item.lines, key=lambda line: line.pen.width)
    )


def _strokes(item: Item, put: Put) -> Iterator[tuple[Pen | Path, str]]:
    """Yield an item's strokes with their pen, or the item itself in its place where it is filled."""
    match item:
        case Line():
            yield item.pen, f"M{put(item.a)}L{put(item.b)}"
        case Path():
            rings = (item.points, *item.holes)
            outline = "".join("M" + "L".join(map(put, ring)) + ("Z" if item.closed else "") for ring in rings)
            yield item if item.pen is None or item.fill is not None else item.pen, outline
        case Hatch():
            yield item.pen, "".join(f"M{put(a)}L{put(b)}" for a, b in item.lines)
        case Text() | Chain():
            return
        case _:
            assert_never(item)


def _runs(strokes: Iterable[tuple[Pen | Path, str]]) -> Iterator[str]:
    """Yield one element for each run of strokes with one pen, and one for each filled path."""
    pen: Pen | None = None
    run: list[str] = []
    for ink, outline in strokes:
        if run and ink is not pen and pen is not None:
            yield f'<path d="{"".join(run)}"{_pen(pen)}/>'
            run = []
        if isinstance(ink, Path):
            pen = None
            yield f'<path d="{outline}"{_fill(ink.fill)}{_pen(ink.pen)}/>'
        else:
            pen = ink
            run.append(outline)
    if run and pen is not None:
        yield f'<path d="{"".join(run)}"{_pen(pen)}/>'


def _pen(pen: Pen | None) -> str:
    """Return the attributes of a line kind."""
    if pen is None:
        return ' stroke="none"'
    dashes = f' stroke-dasharray="{" ".join(map(_number, pen.pattern))}" stroke-linecap="butt"' if pen.pattern else ""
    colour = f' stroke="{ACCENT}"' if pen is Pen.SNAG else ""
    return f' stroke-width="{_number(pen.width)}"{dashes}{colour}'


def _fill(tone: Tone | None) -> str:
    if tone is None:
        return ""
    grey = f"{round(tone.value * 255):02x}"
    return f' fill="#{grey * 3}" fill-rule="evenodd"'


def _words(items: Iterable[Item], put: Put) -> Iterator[str]:
    """Yield the words of a view: first all white that lies under them, so that none covers another's letters."""
    texts = [text for item in items for text in _texts(item)]
    backs = "".join("M" + "L".join(map(put, text.box)) + "Z" for text in texts if text.backed)
    if backs:
        yield f'<path d="{backs}" fill="{PAPER}"/>'
    for text in texts:
        yield _text(text, put, angle=text.angle)


def _texts(item: Item) -> tuple[Text, ...]:
    if isinstance(item, Chain):
        return item.labels
    return (item,) if isinstance(item, Text) else ()


def _text(text: Text | PageText, put: Put, *, angle: float) -> str:
    spot = put(text.at)
    x, y = spot.split(" ")
    turn = f' transform="rotate({_number(-math.degrees(angle))} {spot})"' if angle else ""
    bold = ' font-weight="600"' if text.bold else ""
    words = escape(text.words, quote=False)
    return f'<text x="{x}" y="{y}" font-size="{_number(text.size)}"{bold}{ANCHOR[text.align]}{turn}>{words}</text>'


def _number(value: float) -> str:
    """Return a number to a hundredth, without trailing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
