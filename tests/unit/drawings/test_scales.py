"""Scales: the one that fits, how it is written, and a bar that is as long as it says."""

from __future__ import annotations

import math

import pytest

from lathlight.drawings.scales import IMPERIAL, METRIC, bar_width, choose_scale, scale_bar, scale_words
from lathlight.units import LengthStyle, parse_length

STYLES = {"metric": LengthStyle.metric(), "imperial": LengthStyle.imperial()}
ALL = [("metric", scale) for scale in METRIC] + [("imperial", scale) for scale in IMPERIAL]


@pytest.mark.parametrize(("system", "scale"), ALL)
def test_a_thing_that_just_fits_gets_that_scale_and_one_larger_the_next(system: str, scale: float) -> None:
    scales = METRIC if system == "metric" else tuple(IMPERIAL)
    style, room = STYLES[system], (150.0, 100.0)
    assert choose_scale(150.0 * scale, 1.0, room=room, style=style) == scale
    assert choose_scale(1.0, 100.0 * scale, room=room, style=style) == scale
    larger = scales[min(scales.index(scale) + 1, len(scales) - 1)]
    assert choose_scale(150.0 * scale + 0.1, 1.0, room=room, style=style) == larger


def test_what_fits_no_scale_gets_the_smallest() -> None:
    assert choose_scale(1e6, 1e6, room=(150.0, 100.0), style=STYLES["metric"]) == METRIC[-1]


@pytest.mark.parametrize("scale", IMPERIAL)
def test_imperial_words_say_their_own_ratio(scale: float) -> None:
    words = scale_words(scale, style=STYLES["imperial"])
    if scale == 1:
        assert words == "full size"
        return
    paper, real = (parse_length(part, style=STYLES["imperial"]) for part in words.split(" = "))
    assert real / paper == pytest.approx(scale)


def test_metric_scales_are_ratios() -> None:
    assert [scale_words(s, style=STYLES["metric"]) for s in (1.0, 25.0, 100.0, 0.5)] == ["1:1", "1:25", "1:100", "2:1"]


@pytest.mark.parametrize(("system", "scale"), ALL)
def test_the_bar_is_as_long_as_its_last_figure_says(system: str, scale: float) -> None:
    texts, lines = scale_bar(scale, at=(10.0, 20.0), style=STYLES[system])
    whole = max(math.dist(line.a, line.b) for line in lines)
    assert whole * scale == pytest.approx(parse_length(texts[-1].words, style=STYLES[system]))
    middle = parse_length(texts[1].words + (" m" if texts[-1].words.endswith(" m") else ""), style=STYLES[system])
    assert middle == pytest.approx(whole * scale / 2)
    assert texts[1].at[0] == pytest.approx(10.0 + whole / 2)


@pytest.mark.parametrize(("system", "scale"), ALL)
def test_the_bar_is_neither_tiny_nor_wider_than_it_says(system: str, scale: float) -> None:
    texts, lines = scale_bar(scale, at=(0.0, 0.0), style=STYLES[system])
    right = max(max(line.a[0], line.b[0]) for line in lines)
    assert 18.0 <= right <= 55.0
    assert max(x for text in texts for x, _ in text.box) <= bar_width(scale, style=STYLES[system]) + 0.2
