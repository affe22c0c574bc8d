"""Tins that cover a need: second opinion by trying every combination."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.finishing.containers import cover_need

PAINTS = load_catalog().paints
METRIC, US = PAINTS["matt paint"].containers, PAINTS["matt paint US"].containers
ODD = (0.7, 1.13, 3.3)


def every_combination(need: float, sizes: tuple[float, ...]) -> tuple[float, int]:
    """Return the fewest tins with at most one smallest tin more than the least volume, and their volume."""
    counts = itertools.product(*(range(math.ceil(need / size) + 2) for size in sizes))
    volumes = ((sum(n * s for n, s in zip(c, sizes, strict=True)), sum(c)) for c in counts)
    holding = [(number, round(volume, 3)) for volume, number in volumes if volume >= need - 0.0005]
    least = min(volume for _, volume in holding)
    number, volume = min(pair for pair in holding if pair[1] <= least + min(sizes) + 0.0011)
    return volume, number


@given(need=st.floats(0.01, 14.0), sizes=st.sampled_from((METRIC, US, ODD, (2.5,))))
def test_no_combination_needs_fewer_tins_without_leaving_a_tin_over(need: float, sizes: tuple[float, ...]) -> None:
    found = cover_need(need, sizes=sizes)
    assert found.volume >= need - 0.0005
    assert (round(found.volume, 3), found.number) == pytest.approx(every_combination(need, sizes), abs=0.0011)


def test_nothing_needs_no_tin() -> None:
    assert cover_need(0.0, sizes=METRIC).tins == ()
    assert cover_need(0.0, sizes=METRIC).note == ""


def test_a_need_that_fits_a_tin_takes_that_tin() -> None:
    assert cover_need(5.0, sizes=METRIC).tins == ((5.0, 1),)
    assert cover_need(US[1], sizes=US).tins == ((US[1], 1),)


def test_five_small_tins_are_not_bought_for_a_large_one_and_two() -> None:
    assert cover_need(3.5, sizes=METRIC).tins == ((2.5, 1), (0.75, 2))
    assert cover_need(1.8, sizes=METRIC).tins == ((2.5, 1),)
    assert cover_need(1.4, sizes=METRIC).tins == ((0.75, 2),)  # a large tin would leave a whole litre over
    assert cover_need(2.4, sizes=US).tins == ((US[1], 1),)  # rather than three quarts


def test_equal_volumes_take_the_fewest_and_then_the_largest_tins() -> None:
    assert cover_need(9.8, sizes=(2.5, 5.0, 10.0)).tins == ((10.0, 1),)
    assert cover_need(6.0, sizes=(1.0, 2.0, 3.0, 4.0, 5.0)).tins == ((5.0, 1), (1.0, 1))


def test_several_tins_are_one_batch_mixed_together() -> None:
    assert cover_need(3.2, sizes=METRIC).note == "2 tins of one batch, mixed together before the first coat"
    assert cover_need(2.4, sizes=METRIC).note == ""


@pytest.mark.parametrize("sizes", [(), (0.0,), (2.5, -1.0), (math.nan,)])
def test_tins_that_no_shop_sells_are_refused(sizes: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="containers: found"):
        cover_need(1.0, sizes=sizes)


@pytest.mark.parametrize("need", [-0.1, math.nan, math.inf, 1e6])
def test_a_need_that_no_set_has_is_refused(need: float) -> None:
    with pytest.raises(InputError, match="paint needed: found"):
        cover_need(need, sizes=METRIC)
