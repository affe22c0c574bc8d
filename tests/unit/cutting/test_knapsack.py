"""The knapsack tables against trying every filling."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lathlight.cutting import knapsack

pieces = st.lists(st.tuples(st.integers(3, 30), st.integers(0, 3), st.integers(-2, 40)), min_size=1, max_size=4)


@pytest.mark.parametrize("long", [10_000, 10], ids=["one table", "worked in place"])
@settings(max_examples=60, deadline=None)
@given(pieces=pieces, rooms=st.lists(st.integers(1, 70), min_size=1, max_size=3))
def test_the_best_filling_is_found(long: int, pieces: list[tuple[int, int, int]], rooms: list[int]) -> None:
    widths, counts, values = (np.array(column, dtype=np.int64) for column in zip(*pieces, strict=True))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(knapsack, "LONG", long)
        patch.setattr(knapsack, "EVERY", 2)
        fillings = knapsack.fill(widths=widths, counts=counts, values=values, rooms=np.array(rooms))
        held = fillings.held().tolist()
        for stock, room in enumerate(rooms):
            ways = itertools.product(*(range(count + 1) for count in counts.tolist()))
            assert held[stock] == max(int(values @ way) for way in ways if int(widths @ way) <= room)
            found = np.array(fillings.counts(stock))
            assert (found <= counts).all()
            assert int(widths @ found) <= room
            assert int(values @ found) == held[stock]
