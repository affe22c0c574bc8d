"""Small drawings keep their shape when they are moved, stay on their page and never run into each other."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from lathlight.drawings.cells import flow, make_cell, moved
from lathlight.drawings.dims import overall
from lathlight.drawings.hatch import hatch
from lathlight.drawings.labels import texts_of
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.text import make_text
from lathlight.drawings.views import bounds
from lathlight.units import LengthStyle

RING = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
HOLE = ((10.0, 10.0), (20.0, 10.0), (20.0, 20.0))
ITEMS = (
    Line(a=(0.0, 0.0), b=(40.0, 30.0), pen=Pen.CUT),
    Path(points=RING, closed=True, pen=Pen.CUT, fill=Tone.PALE, holes=(HOLE,)),
    hatch(RING, scale=2.0),
    make_text("lath", at=(3.0, 4.0), scale=2.0, angle=math.pi / 2),
    overall(RING[0], RING[2], offset=3.0, scale=2.0, style=LengthStyle.metric()),
)


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: type(item).__name__)
def test_an_item_covers_the_same_place_beside_itself(item) -> None:
    low, high = bounds([item], scale=2.0)
    after = bounds([moved(item, (7.0, -3.0))], scale=2.0)
    assert after[0] == pytest.approx((low[0] + 7.0, low[1] - 3.0))
    assert after[1] == pytest.approx((high[0] + 7.0, high[1] - 3.0))


def _names(count: int) -> list:
    ring = [Path(points=RING, closed=True, pen=Pen.CUT)]
    return [make_cell([*ring, make_text(f"n{k}", at=(5.0, 5.0), scale=1.0)], scale=1.0) for k in range(count)]


def test_cells_stand_in_reading_order_and_apart() -> None:
    (items,) = flow(_names(5), room=(100.0, 200.0), scale=1.0)
    spots = [text.at for text in texts_of(items)]
    assert [text.words for text in texts_of(items)] == ["n0", "n1", "n2", "n3", "n4"]
    assert spots[0][1] == spots[1][1] > spots[2][1] == spots[3][1] > spots[4][1]
    rings = [item.points for item in items if isinstance(item, Path)]
    for a, b in combinations(rings, 2):
        assert max(x for x, _ in a) < min(x for x, _ in b) or min(y for _, y in a) > max(y for _, y in b)


def test_what_finds_no_room_goes_on_to_the_next_page() -> None:
    pages = flow(_names(9), room=(100.0, 80.0), scale=1.0)
    assert [len(texts_of(page)) for page in pages] == [4, 4, 1]
    for page in pages:
        (x0, y0), (x1, y1) = bounds(page, scale=1.0)
        assert x1 - x0 <= 100.0
        assert y1 - y0 <= 80.0
