"""Vectors of bars between two costs, and what strikes them out."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.cutting import bar_counts
from lathlight.cutting.bar_counts import Window, vectors_between, window_top
from lathlight.cutting.patterns import Grid


def grid(stocks: list[tuple[int, int, int]]) -> Grid:
    """Return a grid of one piece and stocks (room, price, limit)."""
    rooms, prices, limits = (np.array(column, dtype=np.int64) for column in zip(*stocks, strict=True))
    one = np.array([1], dtype=np.int64)
    return Grid(widths=one, counts=one, rooms=rooms, prices=prices, limits=limits)


stocks = st.lists(st.tuples(st.integers(1, 50), st.integers(0, 12), st.integers(0, 4)), min_size=1, max_size=4)


def plainly(some: Grid, low: int, high: int) -> set[tuple[int, ...]]:
    """Return the same vectors by trying all."""
    bought = some.bought
    every = itertools.product(*(range(int(n) + 1) for n in some.limits[bought]))
    return {v for v in every if low <= int(np.array(v, dtype=np.int64) @ some.prices[bought]) < high}


@given(stocks, st.integers(0, 60), st.integers(1, 60))
def test_all_vectors_of_the_window_are_listed_cheapest_first(
    some: list[tuple[int, int, int]], low: int, wide: int
) -> None:
    lumber = grid(some)
    found = vectors_between(lumber, low=low, high=low + wide)
    assert found is not None
    assert {tuple(v) for v in found.tolist()} == plainly(lumber, low, low + wide)
    assert len(found) == len(plainly(lumber, low, low + wide))
    assert sorted((found @ lumber.prices[lumber.bought]).tolist()) == (found @ lumber.prices[lumber.bought]).tolist()


@given(stocks, st.integers(0, 40), st.integers(1, 90))
def test_a_window_holds_no_more_vectors_than_allowed(some: list[tuple[int, int, int]], low: int, wide: int) -> None:
    lumber = grid(some)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bar_counts, "MOST_VECTORS", 6)
        top = window_top(lumber, low=low, high=low + wide)
    assert top <= low + wide
    by_cost: dict[int, int] = {}
    for vector in plainly(lumber, low, top):
        cost = int(np.array(vector, dtype=np.int64) @ lumber.prices[lumber.bought])
        by_cost[cost] = by_cost.get(cost, 0) + 1
    assert sum(by_cost.values()) <= 6 or len(by_cost) <= 1


def test_what_has_no_more_of_anything_goes_with_an_excluded_vector() -> None:
    lumber = grid([(20, 3, 3), (30, 4, 3)])
    vectors = vectors_between(lumber, low=0, high=100)
    assert vectors is not None
    window = Window(lumber, vectors=vectors, cuts=())
    window.exclude(np.array([1, 1]))
    gone = {tuple(v) for v in vectors.tolist()} - {tuple(v) for v in window.left().tolist()}
    assert gone == {(0, 0), (1, 0), (2, 0), (0, 1), (1, 1)}
