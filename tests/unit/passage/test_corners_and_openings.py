"""Second opinions: slow plain searches of angles against the closed forms."""

from __future__ import annotations

import math

import pytest

from lathlight.passage import fits_rectangle, longest_round_corner, widest_fitting

STEPS = 20_000


def longest_by_search(a: float, b: float, t: float, angle: float) -> float:
    """The panel as four points: at each angle, how far each end's two corners may run before they meet a wall."""
    best = math.inf
    for i in range(1, STEPS):
        x = angle * i / STEPS
        y = angle - x
        one = min((a - t * math.cos(x)) / math.sin(x), a / math.sin(x))
        other = min((b - t * math.cos(y)) / math.sin(y), b / math.sin(y))
        best = min(best, one + other)
    return best


def fits_by_search(p: float, q: float, a: float, b: float) -> bool:
    angles = [math.pi / 2 * i / STEPS for i in range(STEPS + 1)]
    return any(
        p * math.cos(w) + q * math.sin(w) <= a + 1e-6 and p * math.sin(w) + q * math.cos(w) <= b + 1e-6 for w in angles
    )


@pytest.mark.parametrize("degrees", [20, 45, 90, 110, 135, 170])
@pytest.mark.parametrize(("a", "b", "t"), [(900, 1200, 60), (1000, 800, 0), (700, 2000, 300)])
def test_the_longest_panel_is_what_a_search_over_angles_finds(a: float, b: float, t: float, degrees: float) -> None:
    angle = math.radians(degrees)
    got = longest_round_corner(a=a, b=b, thickness=t, angle=angle)
    assert got == pytest.approx(longest_by_search(a, b, t, angle), rel=2e-4)
    assert got <= longest_by_search(a, b, t, angle) + 1e-6


def test_the_corner_does_not_care_which_corridor_comes_first() -> None:
    there = longest_round_corner(a=900, b=1300, thickness=80, angle=1.2)
    back = longest_round_corner(a=1300, b=900, thickness=80, angle=1.2)
    assert there == pytest.approx(back)


def test_straight_on_there_is_no_longest_panel() -> None:
    assert longest_round_corner(a=900, b=900, thickness=60, angle=0) == math.inf


def test_a_panel_thicker_than_the_corridor_does_not_turn() -> None:
    assert longest_round_corner(a=900, b=1200, thickness=900, angle=math.pi / 2) == 0


def test_an_impossible_corner_is_a_callers_mistake() -> None:
    with pytest.raises(ValueError, match="no such corner"):
        longest_round_corner(a=900, b=1200, thickness=60, angle=4)


@pytest.mark.parametrize(
    ("p", "q"), [(2100, 60), (2050, 100), (2080, 60), (1960, 700), (1900, 800), (790, 700), (2000, 0)]
)
def test_carvers_rule_is_what_a_search_over_angles_finds(p: float, q: float) -> None:
    assert fits_rectangle(p=p, q=q, a=1965, b=745) is fits_by_search(p, q, 1965, 745)


@pytest.mark.parametrize("q", [0, 40, 200, 700, 745, 800, 1900, 1964, 2050])
def test_the_widest_that_fits_fits_and_a_hair_more_does_not(q: float) -> None:
    widest = widest_fitting(q=q, a=745, b=1965)
    assert fits_rectangle(p=widest, q=q, a=1965, b=745)
    assert not fits_rectangle(p=widest + 0.01, q=q, a=1965, b=745)


def test_nothing_is_widest_where_the_other_side_does_not_fit() -> None:
    assert widest_fitting(q=2200, a=1965, b=745) == 0
    assert widest_fitting(q=60, a=1965, b=-5) == 0


@pytest.mark.parametrize(("q", "widest"), [(500, math.inf), (900, 745)])
def test_an_opening_without_end_takes_any_length_that_lies_along_it(q: float, widest: float) -> None:
    assert widest_fitting(q=q, a=math.inf, b=745) == widest
