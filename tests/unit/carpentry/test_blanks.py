"""Wedges are ripped from the least timber that holds them."""

from __future__ import annotations

import math

import pytest

from lathlight.carpentry import wedge_blank
from lathlight.catalog import load_catalog

LUMBER = load_catalog().lumber
METRIC = [row for row in LUMBER.values() if row.system == "metric"]
OWN = LUMBER["38x38"]


def triangle(wide: float, deep: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (wide, 0.0), (0.0, deep))


def turned(outline: tuple[tuple[float, float], ...], angle: float) -> tuple[tuple[float, float], ...]:
    c, s = math.cos(angle), math.sin(angle)
    return tuple((x * c - y * s, x * s + y * c) for x, y in outline)


def test_the_walls_own_timber_is_taken_where_it_holds_the_wedge() -> None:
    blank = wedge_blank(OWN, triangle(38, 38), length=2400, lumber=METRIC)
    assert (blank.stock, blank.layers) == (OWN, 1)


@pytest.mark.parametrize(
    ("wide", "deep", "name"),
    [(39, 38, "44x44"), (50, 38, "38x63"), (70, 40, "44x70"), (80, 38, "38x89"), (90, 40, "44x94")],
)
def test_else_the_smallest_timber_that_does(wide: float, deep: float, name: str) -> None:
    blank = wedge_blank(OWN, triangle(wide, deep), length=2400, lumber=METRIC)
    assert (blank.stock.name, blank.layers) == (name, 1)
    fitting = [
        row.width * row.depth
        for row in METRIC
        for size in ((wide, deep), (deep, wide))
        if row.width >= size[0] and row.depth >= size[1]
    ]  # found by trying all, both ways round
    assert blank.stock.width * blank.stock.depth == min(fitting)


def test_what_nothing_on_sale_holds_is_glued_from_layers_of_the_walls_own() -> None:
    blank = wedge_blank(OWN, triangle(100, 38), length=2400, lumber=METRIC)
    assert (blank.stock, blank.layers) == (OWN, 3)  # 3 x 38 = 114 are the fewest that make 100
    assert ("layers", 3, "") in blank.why.inputs
    assert blank.why.value == "38x38"


def test_timber_too_short_for_the_wedge_or_of_the_other_system_is_left() -> None:
    low = wedge_blank(OWN, triangle(50, 38), length=2400, lumber=METRIC)
    high = wedge_blank(OWN, triangle(50, 38), length=4900, lumber=METRIC)
    assert low.layers == 1
    assert high.layers == 2
    assert wedge_blank(LUMBER["2x2"], triangle(50, 38), length=2000, lumber=METRIC).layers == 2


@pytest.mark.parametrize("angle", [0.3, 1.0, 2.2])
def test_a_wedge_that_stands_askew_in_the_plan_takes_the_same_timber(angle: float) -> None:
    straight = wedge_blank(OWN, triangle(50, 38), length=2400, lumber=METRIC)
    askew = wedge_blank(OWN, turned(triangle(50, 38), angle), length=2400, lumber=METRIC)
    assert askew.stock == straight.stock
    assert askew.size == pytest.approx(straight.size)
