"""Boxes hold every stroke of their letters, lines break where they must, overlaps are found."""

from __future__ import annotations

import functools
import math
import unicodedata

import pytest
from fontTools.ttLib import TTFont

from lathlight.drawings.sheets import Text
from lathlight.drawings.text import boxes_overlap, make_text, page_text, text_width, wrap
from lathlight.fonts import SIZES, font_folder

SQUARE = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
WORDS = ["2440", "11'-11 15/16\"", "Jagged (fjord), Quay", "ÅÉÇ ďľť", "A1-S1 → 38 × 38 mm", "½ of ⅞″", "Wall for Zoë"]
# Never at the end of a label: a bare fraction stroke, and joiners without ink of their own.
REACH_FAR = {"\u2044", "\u2215", "\u200c", "\u200d"}
ROUNDING = 1e-9


@functools.cache
def font(*, bold: bool) -> TTFont:
    return TTFont(font_folder() / ("IBMPlexSans_600SemiBold.ttf" if bold else "IBMPlexSans_400Regular.ttf"))


def ink(words: str, *, size: float, bold: bool) -> tuple[float, float, float, float]:
    """Left, low, right, high of all strokes from the start of the baseline, from the font file itself."""
    opened = font(bold=bold)
    names, glyphs, advances = opened.getBestCmap(), opened["glyf"], opened["hmtx"]
    pen, edges = 0, []
    for letter in words:
        glyph = glyphs[names[ord(letter)]]
        if glyph.numberOfContours:
            edges.append((pen + glyph.xMin, glyph.yMin, pen + glyph.xMax, glyph.yMax))
        pen += advances[names[ord(letter)]][0]
    left, low, right, high = zip(*edges, strict=True)
    k = size / 1000
    return min(left) * k, min(low) * k, max(right) * k, max(high) * k


def on_paper(text: Text, scale: float) -> list[tuple[float, float]]:
    """Corners of the box in the line's own axes, from where its baseline is held [mm of paper]."""
    cos, sin = math.cos(-text.angle), math.sin(-text.angle)
    away = [((x - text.at[0]) / scale, (y - text.at[1]) / scale) for x, y in text.box]
    return [(x * cos - y * sin, x * sin + y * cos) for x, y in away]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
@pytest.mark.parametrize(("align", "before"), [("left", 0.0), ("centre", 0.5), ("right", 1.0)])
@pytest.mark.parametrize("angle", [0.0, math.pi / 2, -0.7])
def test_a_box_holds_every_stroke_of_its_letters(
    words: str, align: str, before: float, angle: float, bold: bool
) -> None:
    text = make_text(words, at=(70.0, -30.0), size=3.0, scale=20.0, align=align, angle=angle, bold=bold)  # type: ignore[arg-type]
    left, low, right, high = ink(words, size=3.0, bold=bold)
    shift = before * text_width(words, size=3.0, bold=bold)
    xs, ys = zip(*on_paper(text, 20.0), strict=True)
    assert min(xs) <= left - shift + ROUNDING
    assert right - shift <= max(xs) + ROUNDING
    assert min(ys) <= low + ROUNDING
    assert high <= max(ys) + ROUNDING


@pytest.mark.parametrize("bold", [False, True])
def test_a_box_holds_each_letter_of_the_font(bold: bool) -> None:
    glyphs, names = font(bold=bold)["glyf"], font(bold=bold).getBestCmap()
    for letter in set(SIZES) - REACH_FAR:
        if unicodedata.combining(letter) or not glyphs[names[ord(letter)]].numberOfContours:
            continue
        left, low, right, high = ink(letter, size=1.0, bold=bold)
        (x0, y0), _, (x1, y1), _ = page_text(letter, at=(0.0, 0.0), size=1.0, bold=bold).box
        over = (x0 - left, y0 - low, right - x1, high - y1)
        assert max(over) < ROUNDING, letter


def test_a_box_is_no_larger_than_its_letters_need() -> None:
    left, _, right, high = ink("HHHH", size=10.0, bold=False)
    (x0, y0), _, (x1, y1), _ = page_text("HHHH", at=(0.0, 0.0), size=10.0).box
    assert left - x0 < 2.0
    assert x1 - right < 2.0
    assert (y0, y1) == (0.0, pytest.approx(high))


def test_a_character_the_font_lacks_counts_as_the_widest() -> None:
    assert text_width("\U0001f600", size=1000.0) == max(text_width(letter, size=1000.0) for letter in SIZES)


def test_a_box_grows_with_the_views_scale() -> None:
    small, large = (make_text("38", at=(0.0, 0.0), scale=scale).box for scale in (1.0, 25.0))
    assert large == tuple((pytest.approx(25 * x), pytest.approx(25 * y)) for x, y in small)


@pytest.mark.parametrize("width", [12.0, 25.0, 60.0])
def test_no_wrapped_line_is_wider_than_asked(width: float) -> None:
    words = "Before a wall is released, every piece must be held by people, jacks or ballast."
    lines = wrap(words, width=width)
    assert all(text_width(line, size=2.5) <= width for line in lines)
    assert " ".join(lines) == words


def test_a_word_wider_than_the_line_is_broken_and_none_of_it_lost() -> None:
    lines = wrap("1234567890123456789", width=10.0)
    assert len(lines) > 1
    assert "".join(lines) == "1234567890123456789"


def test_line_ends_are_kept() -> None:
    assert wrap("one\n\ntwo", width=50.0) == ("one", "", "two")


def moved(box: tuple[tuple[float, float], ...], *, by: tuple[float, float]) -> list[tuple[float, float]]:
    return [(x + by[0], y + by[1]) for x, y in box]


def test_boxes_that_share_a_corner_overlap() -> None:
    assert boxes_overlap(SQUARE, moved(SQUARE, by=(1.9, 1.9)))


def test_boxes_that_touch_do_not_overlap() -> None:
    assert not boxes_overlap(SQUARE, moved(SQUARE, by=(2.0, 0.0)))


def test_a_turned_box_off_a_corner_does_not_overlap_though_its_bounds_do() -> None:
    reach = math.sqrt(2)  # of a square with sides of 2, from its middle to a corner
    far, near = ([(c - reach, c), (c, c - reach), (c + reach, c), (c, c + reach)] for c in (3.2, 2.6))
    assert min(x for x, _ in far) < 2.0
    assert not boxes_overlap(SQUARE, far)
    assert boxes_overlap(SQUARE, near)


def test_slack_forgives_so_much_overlap_and_demands_so_much_gap() -> None:
    near = moved(SQUARE, by=(1.5, 0.0))
    assert not boxes_overlap(SQUARE, near, slack=0.6)
    assert boxes_overlap(SQUARE, near, slack=0.4)
    apart = moved(SQUARE, by=(2.5, 0.0))
    assert boxes_overlap(SQUARE, apart, slack=-0.6)
    assert not boxes_overlap(SQUARE, apart, slack=-0.4)


def test_one_box_inside_another_overlaps_it() -> None:
    assert boxes_overlap(SQUARE, [(0.9, 0.9), (1.1, 0.9), (1.1, 1.1), (0.9, 1.1)])
