"""Drawing scales: which one fits the paper, how it is written, and the bar that shows it.

Lists of scales: metric ISO 5455:1979 with 1:25 (common practice for sets); imperial the architect's scales, common
practice, no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.sheets import PageLine, PageText, Pen, Point
from lathlight.drawings.text import page_text, text_width
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.units import LengthStyle

METRIC = (1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0)
IMPERIAL = {
    1.0: "full size",
    2.0: '6" = 1\'-0"',
    4.0: '3" = 1\'-0"',
    8.0: '1 1/2" = 1\'-0"',
    12.0: '1" = 1\'-0"',
    16.0: '3/4" = 1\'-0"',
    24.0: '1/2" = 1\'-0"',
    48.0: '1/4" = 1\'-0"',
    96.0: '1/8" = 1\'-0"',
    192.0: '1/16" = 1\'-0"',
}
INCH = 25.4  # [mm]

# The bar of a scale: four divisions, each the longest of these that is not longer than this on paper.
LONGEST_DIVISION = 13.0  # [mm of paper]
METRIC_DIVISIONS = (5.0, 10.0, 25.0, 50.0, 100.0, 250.0, 500.0, 1000.0, 2500.0)  # [mm]
IMPERIAL_DIVISIONS = tuple(inches * INCH for inches in (0.5, 1.0, 1.5, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0))  # [mm]
DIVISIONS = 4
BAR_LETTER = 2.0  # [mm]
BAR_TICK = 1.4  # [mm]
BAR_HEIGHT = 4.4  # [mm] figures included


def choose_scale(width: float, height: float, *, room: Point, style: LengthStyle) -> float:
    """Largest standard scale at which a thing fits the room on paper, as model mm for one mm of paper.

    Parameters
    ----------
    width, height
        Of the thing [mm]; what is a fixed size on paper (dimensions, words) is taken from `room` beforehand.
    room
        Width and height on paper [mm].
    style
        Metric or imperial list.

    Returns
    -------
    float
        Where no standard scale is small enough: the smallest one.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> choose_scale(3000.0, 2440.0, room=(160.0, 200.0), style=LengthStyle.metric())
    20.0
    >>> choose_scale(3000.0, 2440.0, room=(160.0, 200.0), style=LengthStyle.imperial())
    24.0
    """
    scales = METRIC if style.system == "metric" else tuple(IMPERIAL)
    fitting = (scale for scale in scales if width <= room[0] * scale and height <= room[1] * scale)
    return next(fitting, scales[-1])


def scale_words(scale: float, *, style: LengthStyle) -> str:
    r"""Scale as it stands in title blocks.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> scale_words(25.0, style=LengthStyle.metric()), scale_words(24.0, style=LengthStyle.imperial())
    ('1:25', '1/2" = 1\'-0"')
    """
    if style.system == "imperial" and scale in IMPERIAL:
        return IMPERIAL[scale]
    return f"1:{scale:g}" if scale >= 1 else f"{1 / scale:g}:1"


def bar_width(scale: float, *, style: LengthStyle) -> float:
    """Width of the scale bar with its last figure [mm of paper]."""
    return DIVISIONS * _division(scale, style) / scale + text_width(_figures(scale, style)[-1], size=BAR_LETTER) / 2


def scale_bar(scale: float, *, at: Point, style: LengthStyle) -> tuple[tuple[PageText, ...], tuple[PageLine, ...]]:
    """Bar that shows real lengths on paper.

    Parameters
    ----------
    scale
        Model mm for one mm of paper.
    at
        Its lower left corner [paper mm]; it is `bar_width` wide and `BAR_HEIGHT` high.
    style
        The units of its figures.
    """
    step = _division(scale, style) / scale
    x, y = at
    stops = [x + i * step for i in range(DIVISIONS + 1)]
    lines = [PageLine(a=(stops[0], y), b=(stops[-1], y), pen=Pen.LIGHT)]
    lines += [PageLine(a=(stop, y), b=(stop, y + BAR_TICK), pen=Pen.LIGHT) for stop in stops]
    thick = Pen.FRAME.width / 2
    lines += [
        PageLine(a=(a + thick, y + thick), b=(a + step - thick, y + thick), pen=Pen.FRAME) for a in stops[:DIVISIONS:2]
    ]
    words = _figures(scale, style)
    texts = [page_text(words[0], at=(x, y + BAR_TICK + 0.8), size=BAR_LETTER)]
    texts += [
        page_text(word, at=(stop, y + BAR_TICK + 0.8), size=BAR_LETTER, align="centre")
        for word, stop in zip(words[1:], stops[2::2], strict=True)
    ]
    return tuple(texts), tuple(lines)


def _division(scale: float, style: LengthStyle) -> float:
    """Return the real length of one division of the bar [mm]."""
    divisions = METRIC_DIVISIONS if style.system == "metric" else IMPERIAL_DIVISIONS
    return max((each for each in divisions if each <= LONGEST_DIVISION * scale), default=divisions[0])


def _figures(scale: float, style: LengthStyle) -> tuple[str, str, str]:
    """Return what stands at the start, the middle and the end of the bar."""
    half = DIVISIONS / 2 * _division(scale, style)
    if style.system == "imperial":
        return "0", drawing_length(half, style=style), drawing_length(2 * half, style=style)
    if 2 * half < 1000:
        return "0", f"{half:g}", f"{2 * half:g} mm"
    return "0", f"{half / 1000:g}", f"{2 * half / 1000:g} m"
