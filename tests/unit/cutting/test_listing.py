"""Listings hold every pattern that a plan could use."""

from __future__ import annotations

import itertools

import numpy as np
from hypothesis import given, settings
from tests.unit.cutting.board_cases import small_jobs

from lathlight.cutting import BoardJob
from lathlight.cutting.board_input import read_job
from lathlight.cutting.cuts import length_cut
from lathlight.cutting.listing import Listing


@settings(max_examples=50, deadline=None)
@given(small_jobs())
def test_with_slack_enough_every_pattern_is_listed_and_the_full_ones_are_those_without_room(small: BoardJob) -> None:
    grid = read_job(small).grid
    cut = length_cut(grid)
    ways = [np.array(w) for w in itertools.product(*(range(n + 1) for n in grid.counts.tolist()))]
    for stock, room in enumerate(grid.rooms.tolist()):
        fitting = [w for w in ways if int(w @ grid.widths) <= room]
        full = [
            w
            for w in fitting
            if all(
                c == d or int(w @ grid.widths) + v > room for c, d, v in zip(w, grid.counts, grid.widths, strict=True)
            )
        ]
        for want, flag in ((fitting, False), (full, True)):
            found = Listing(grid).patterns(stock, cuts=[cut], slacks=[10**6], most=10**5, full=flag)
            assert found is not None
            assert {p.counts for p in found} == {tuple(w.tolist()) for w in want}


@settings(max_examples=50, deadline=None)
@given(small_jobs())
def test_a_pattern_that_wastes_more_than_the_slack_is_left_out(small: BoardJob) -> None:
    grid = read_job(small).grid
    cut = length_cut(grid)
    for stock in range(len(grid.rooms)):
        found = Listing(grid).patterns(stock, cuts=[cut], slacks=[5], most=10**5, full=False)
        assert found is not None
        wasted = {p.counts: int(cut.bar_values[stock]) - int(np.array(p.counts) @ grid.widths) for p in found}
        assert all(waste <= 5 for waste in wasted.values())
