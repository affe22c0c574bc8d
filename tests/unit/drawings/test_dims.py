"""How a dimension chain looks: figures, ticks, feet, and where narrow figures go."""

from __future__ import annotations

import math

import pytest

from lathlight.drawings.dims import (
    FIRST_LINE,
    FOOT_GAP,
    OVERSHOOT,
    chain,
    level_chain,
    level_chains,
    overall,
    upright_chain,
    upright_chains,
)
from lathlight.drawings.sheets import Chain, Line, Pen
from lathlight.units import LengthStyle

METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
INCH = 25.4


def words(drawn: Chain) -> list[str]:
    return [label.words for label in drawn.labels]


def extension_lines(drawn: Chain) -> list[Line]:
    return [line for line in drawn.lines if line.pen is Pen.DIMENSION and line.a[0] == line.b[0]]


def test_labels_are_differences_of_rounded_positions() -> None:
    drawn = level_chain([0.0, 10.4, 20.8, 31.2], y_line=-100.0, feet_y=0.0, scale=5.0, style=METRIC)
    assert words(drawn) == ["10", "11", "10"]  # not 10, 10, 10: the whole is 31
    assert drawn.stops == (0.0, 10.0, 21.0, 31.0)


def test_positions_are_rounded_from_the_datum() -> None:
    drawn = level_chain([100.4, 200.8], y_line=0.0, feet_y=50.0, scale=5.0, style=METRIC, datum=100.4)
    assert drawn.stops == (0.0, 100.0)
    assert drawn.origin == (100.4, 0.0)
    assert drawn.feet == ((100.4, 50.0), (200.8, 50.0))


def test_a_96_inch_frame_reads_in_feet_and_inches() -> None:
    stops = [0.0, 1.5 * INCH, 94.5 * INCH, 96 * INCH]
    drawn = upright_chain(stops, x_line=500.0, feet_x=0.0, scale=24.0, style=IMPERIAL)
    assert words(drawn) == ['1 1/2"', "7'-9\"", '1 1/2"']


def test_stops_that_round_to_one_position_become_one() -> None:
    drawn = level_chain([0.0, 0.3, 500.0], y_line=-100.0, feet_y=0.0, scale=20.0, style=METRIC)
    assert words(drawn) == ["500"]


def test_stops_in_any_order_give_the_same_chain() -> None:
    there, back = (
        level_chain(stops, y_line=-100.0, feet_y=0.0, scale=20.0, style=METRIC)
        for stops in ([0.0, 38.0, 610.0], [610.0, 0.0, 38.0])
    )
    assert there == back


def test_one_stop_makes_no_chain() -> None:
    with pytest.raises(ValueError, match="two stops"):
        level_chain([5.0, 5.2], y_line=0.0, feet_y=0.0, scale=20.0, style=METRIC)


def test_extension_lines_leave_a_gap_at_the_foot_and_pass_the_line() -> None:
    drawn = level_chain([0.0, 600.0], y_line=-200.0, feet_y=0.0, scale=20.0, style=METRIC)
    for line in extension_lines(drawn):
        assert sorted((line.a[1], line.b[1])) == pytest.approx([-200.0 - OVERSHOOT * 20, -FOOT_GAP * 20])


def test_each_foot_may_lie_at_its_own_height() -> None:
    drawn = level_chain([0.0, 600.0], y_line=-200.0, feet_y=[0.0, 100.0], scale=20.0, style=METRIC)
    tops = [max(line.a[1], line.b[1]) for line in extension_lines(drawn)]
    assert tops == pytest.approx([-20.0, 80.0])


def test_ticks_rise_at_45_degrees_and_are_heavier_than_lines() -> None:
    drawn = level_chain([0.0, 600.0, 1200.0], y_line=-200.0, feet_y=0.0, scale=20.0, style=METRIC)
    ticks = [line for line in drawn.lines if line.pen is Pen.TICK]
    assert len(ticks) == 3
    for tick in ticks:
        assert math.atan2(tick.b[1] - tick.a[1], tick.b[0] - tick.a[0]) == pytest.approx(math.pi / 4)
    assert Pen.TICK.width > Pen.DIMENSION.width


def test_a_figure_stands_in_the_middle_above_its_line() -> None:
    (label,) = level_chain([0.0, 600.0], y_line=-200.0, feet_y=0.0, scale=20.0, style=METRIC).labels
    assert label.at[0] == pytest.approx(300.0)
    assert -200.0 < min(y for _, y in label.box) < max(y for _, y in label.box) < -200.0 + 4 * 20


def test_figures_of_an_upright_chain_stand_left_of_it_and_read_from_the_right() -> None:
    (label,) = upright_chain([0.0, 600.0], x_line=700.0, feet_x=0.0, scale=20.0, style=METRIC).labels
    assert label.angle == pytest.approx(math.pi / 2)
    assert max(x for x, _ in label.box) < 700.0


def test_a_narrow_figure_moves_away_from_the_feet_and_keeps_a_leader() -> None:
    stops = [0.0, 600.0, 638.0, 1200.0]
    under, over = (level_chain(stops, y_line=y, feet_y=0.0, scale=20.0, style=METRIC) for y in (-200.0, 200.0))
    assert max(y for _, y in under.labels[1].box) < -200.0 - OVERSHOOT * 20
    assert min(y for _, y in over.labels[1].box) > max(y for _, y in over.labels[0].box)
    for drawn, y in ((under, -200.0), (over, 200.0)):
        leader = [line for line in drawn.lines if line.a == pytest.approx((619.0, y)) and line.pen is Pen.DIMENSION]
        assert leader


def test_figures_of_ten_thin_members_side_by_side_stay_in_order() -> None:
    drawn = level_chain([38.0 * i for i in range(11)], y_line=-200.0, feet_y=0.0, scale=50.0, style=IMPERIAL)
    rows: dict[float, list[float]] = {}
    for label in drawn.labels:
        rows.setdefault(round(label.at[1], 3), []).append(label.at[0])
    assert len(rows) == 3
    assert all(row == sorted(row) for row in rows.values())


def test_a_narrow_figure_far_from_others_stays_in_the_first_row() -> None:
    crowd = [38.0 * i for i in range(6)]
    drawn = level_chain([*crowd, 2000.0, 2038.0, 3000.0], y_line=-200.0, feet_y=0.0, scale=50.0, style=IMPERIAL)
    heights = [round(label.at[1], 3) for label in drawn.labels]
    assert len(set(heights[:5])) == 3
    assert heights[6] == max(heights[:5])


def test_the_overall_of_two_points_measures_the_line_between_them() -> None:
    drawn = overall((0.0, 0.0), (300.0, 400.0), offset=5.0, scale=10.0, style=METRIC)
    assert words(drawn) == ["500"]
    assert math.dist(drawn.origin, (0.0, 0.0)) == pytest.approx(50.0)
    assert drawn.origin[0] < 0 < drawn.origin[1]  # to the left when going from a to b


def test_a_diagonal_on_the_line_itself_has_no_extension_lines() -> None:
    drawn = overall((0.0, 0.0), (300.0, 400.0), offset=0.0, scale=10.0, style=METRIC)
    assert [line.pen for line in drawn.lines].count(Pen.DIMENSION) == 1


def test_a_chain_against_the_reading_direction_is_not_upside_down() -> None:
    drawn = chain(
        origin=(0.0, 0.0), angle=math.pi, stops=[0.0, 600.0, 900.0], feet=[(0.0, 200.0)] * 3, scale=20.0, style=METRIC
    )
    assert [round(label.angle, 9) for label in drawn.labels] == [0.0, 0.0]
    assert drawn.labels[0].at[0] == pytest.approx(-300.0)
    assert drawn.labels[0].at[1] > 0


def test_a_stack_starts_clear_of_the_edge_and_leaves_out_what_repeats() -> None:
    rows = [[0.0, 600.0, 1200.0], [0.0, 1200.0], [0.2, 1200.0], [0.0]]
    stack = level_chains(rows, edge_y=0.0, below=True, scale=20.0, style=METRIC)
    assert [words(each) for each in stack] == [["600", "600"], ["1200"]]
    assert stack[0].origin[1] == pytest.approx(-FIRST_LINE * 20)
    assert stack[1].origin[1] < stack[0].origin[1]


@pytest.mark.parametrize("left", [True, False])
def test_an_upright_stack_lies_on_its_side_of_the_edge(left: bool) -> None:
    stack = upright_chains([[0.0, 38.0, 600.0], [0.0, 600.0]], edge_x=50.0, left=left, scale=20.0, style=METRIC)
    sides = [each.origin[0] < 50.0 for each in stack]
    assert sides == [left, left]
    corners = [x for each in stack for label in each.labels for x, _ in label.box]
    assert all((x < 50.0) == left for x in corners)


def test_no_rows_make_no_chains() -> None:
    assert level_chains([], edge_y=0.0, below=True, scale=20.0, style=METRIC) == ()
