"""A view's bounds hold everything in it, pens and words included."""

from __future__ import annotations

import math

import pytest

from lathlight.drawings.dims import level_chains
from lathlight.drawings.hatch import hatch
from lathlight.drawings.sheets import Item, Line, Path, Pen
from lathlight.drawings.text import make_text
from lathlight.drawings.views import bounds, make_view
from lathlight.units import LengthStyle

RING = ((0.0, 0.0), (600.0, 0.0), (600.0, 900.0))
FRAME: list[Item] = [
    Path(points=RING, closed=True, pen=Pen.CUT),
    hatch(RING, scale=20.0),
    make_text("over the edge", at=(600.0, 950.0), scale=20.0, angle=0.3),
    *level_chains([[0.0, 38.0, 600.0], [0.0, 600.0]], edge_y=0.0, below=True, scale=20.0, style=LengthStyle.metric()),
]


def test_bounds_of_one_line_leave_room_for_its_pen() -> None:
    low, high = bounds([Line(a=(0.0, 0.0), b=(100.0, 0.0), pen=Pen.CUT)], scale=20.0)
    assert low[0] <= -Pen.CUT.width / 2 * 20 * math.sqrt(2)  # the corner of a square end
    assert high[1] >= Pen.CUT.width / 2 * 20


def test_bounds_hold_labels_of_chains_and_turned_words() -> None:
    view = make_view(name="v", title="V", scale=20.0, items=FRAME)
    corners = [corner for item in FRAME[2:3] for corner in item.box]  # type: ignore[union-attr]
    corners += [corner for chain in FRAME[3:] for label in chain.labels for corner in label.box]  # type: ignore[union-attr]
    corners += [end for chain in FRAME[3:] for line in chain.lines for end in (line.a, line.b)]  # type: ignore[union-attr]
    assert all(view.low[0] <= x <= view.high[0] and view.low[1] <= y <= view.high[1] for x, y in corners)


def test_taking_an_item_out_never_widens_the_bounds() -> None:
    low, high = bounds(FRAME, scale=20.0)
    for i in range(len(FRAME)):
        inner_low, inner_high = bounds(FRAME[:i] + FRAME[i + 1 :], scale=20.0)
        assert inner_low[0] >= low[0]
        assert inner_low[1] >= low[1]
        assert inner_high[0] <= high[0]
        assert inner_high[1] <= high[1]


def test_paper_size_is_the_bounds_over_the_scale() -> None:
    view = make_view(name="v", title="V", scale=20.0, items=[Path(points=RING, closed=True, pen=None)])
    assert view.paper_size == (30.0, 45.0)


def test_a_view_of_nothing_is_a_fault() -> None:
    with pytest.raises(ValueError, match="at least one item"):
        make_view(name="v", title="V", scale=20.0, items=[])
