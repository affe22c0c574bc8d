"""Dimension chains of any stops: they add up, and every figure stands clear of the others and of the lines."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from lathlight.drawings.dims import BESIDE_TICK, chain, level_chains, upright_chains
from lathlight.drawings.sheets import Chain, Line, Pen
from lathlight.drawings.text import boxes_overlap
from lathlight.units import LengthStyle, drawing_length, parse_length, snap

STYLES = st.sampled_from([LengthStyle.metric(), LengthStyle.imperial(), LengthStyle.imperial(32)])
SCALES = st.sampled_from([1.0, 5.0, 10.0, 20.0, 24.0, 25.0, 48.0, 50.0, 100.0])
ANGLES = st.sampled_from([0.0, math.pi / 2, math.pi, -math.pi / 2, 0.4, 2.3, -2.9])
NOISE = 1e-6  # [mm of paper]


@st.composite
def stop_lists(draw: st.DrawFn) -> list[float]:
    """Stops as they come in frames: thin members and wide bays in any order, from anywhere."""
    gaps = draw(st.lists(st.one_of(st.floats(2.0, 60.0), st.floats(60.0, 900.0)), min_size=1, max_size=24))
    start = draw(st.floats(-500.0, 500.0))
    return [start + sum(gaps[:i]) for i in range(len(gaps) + 1)]


@st.composite
def chains(draw: st.DrawFn) -> tuple[Chain, float, LengthStyle]:
    stops, scale, style, angle = draw(stop_lists()), draw(SCALES), draw(STYLES), draw(ANGLES)
    aside = draw(st.sampled_from([-1, 1])) * draw(st.floats(3.0, 30.0)) * scale
    along = math.cos(angle), math.sin(angle)
    feet = [(along[0] * s - along[1] * aside, along[1] * s + along[0] * aside) for s in stops]
    made = chain(origin=(0.0, 0.0), angle=angle, stops=stops, feet=feet, scale=scale, style=style)
    return made, scale, style


@given(chains())
def test_labels_add_up_to_the_label_of_the_whole(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, _, style = made
    read = [parse_length(label.words, style=style) for label in drawn.labels]
    whole = parse_length(drawing_length(drawn.stops[-1] - drawn.stops[0], style=style), style=style)
    assert sum(read) == pytest.approx(whole, abs=1e-9)


@given(chains())
def test_every_stop_lies_on_the_projects_step(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, _, style = made
    assert list(drawn.stops) == [snap(stop, style) for stop in drawn.stops]
    assert all(b > a for a, b in pairwise(drawn.stops))
    assert len(drawn.feet) == len(drawn.stops) == len(drawn.labels) + 1


@given(chains())
def test_no_label_overlaps_another(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, scale, _ = made
    for a, b in combinations(drawn.labels, 2):
        assert not boxes_overlap(a.box, b.box, slack=NOISE * scale), (a.words, b.words)


@given(chains())
def test_no_line_of_a_chain_runs_through_a_label(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, scale, _ = made
    for label in drawn.labels:
        for line in drawn.lines:
            assert not boxes_overlap(label.box, (line.a, line.b), slack=NOISE * scale), label.words


@given(chains())
def test_leaders_never_cross(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, *_ = made
    leaders = [
        (owner, LineString((line.a, line.b)))
        for line, owner in zip(drawn.lines, drawn.owners, strict=True)
        if line.pen is Pen.DIMENSION and is_leader(line, drawn)
    ]
    for (owner, one), (other_owner, other) in combinations(leaders, 2):
        assert owner == other_owner or not one.intersects(other)


def is_leader(line: Line, drawn: Chain) -> bool:
    """Neither on the dimension line nor at a stop: what is left of a chain's thin lines."""
    along = math.cos(drawn.angle), math.sin(drawn.angle)
    spots = [(x * along[0] + y * along[1], y * along[0] - x * along[1]) for x, y in (line.a, line.b)]
    is_on_line = all(abs(above) < 1e-6 for _, above in spots)
    is_at_stop = all(any(abs(at - stop) < 1e-6 for stop in drawn.stops) for at, _ in spots)
    return not (is_on_line or is_at_stop)


@given(chains())
def test_labels_read_from_the_bottom_or_from_the_right(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, *_ = made
    assert all(-math.pi / 2 + 1e-6 < label.angle < math.pi / 2 + 1e-6 for label in drawn.labels)


@given(chains())
def test_each_label_owns_its_piece_of_the_dimension_line(made: tuple[Chain, float, LengthStyle]) -> None:
    drawn, *_ = made
    assert len(drawn.owners) == len(drawn.lines)
    along = math.cos(drawn.angle), math.sin(drawn.angle)
    for i, (a, b) in enumerate(pairwise(drawn.stops)):
        ends = {tuple(round(c * stop, 6) for c in along) for stop in (a, b)}
        own = [line for line, owner in zip(drawn.lines, drawn.owners, strict=True) if owner == i]
        assert any({tuple(round(c, 6) for c in end) for end in (line.a, line.b)} == ends for line in own)


@settings(max_examples=60)
@given(stop_lists(), st.lists(st.integers(0, 24), max_size=5), SCALES, STYLES, st.booleans(), st.booleans())
def test_stacked_chains_keep_clear_of_each_other(
    stops: list[float], picked: list[int], scale: float, style: LengthStyle, upright: bool, first: bool
) -> None:
    coarse = [stops[0], *(stops[i] for i in sorted(set(picked)) if 0 < i < len(stops) - 1), stops[-1]]
    rows = [stops, coarse, [stops[0], stops[-1]]]
    if upright:
        stack = upright_chains(rows, edge_x=100.0, left=first, scale=scale, style=style)
    else:
        stack = level_chains(rows, edge_y=100.0, below=first, scale=scale, style=style)
    for a, b in combinations(stack, 2):
        for label in a.labels:
            assert not any(boxes_overlap(label.box, other.box, slack=NOISE * scale) for other in b.labels)
    distances = [abs((each.origin[0] if upright else each.origin[1]) - 100.0) for each in stack]
    assert distances == sorted(distances)
    assert all(b - a >= 2 * BESIDE_TICK * scale for a, b in pairwise(distances))
