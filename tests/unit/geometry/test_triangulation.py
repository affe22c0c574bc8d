"""Triangles of outlines with holes. Second opinion: the areas and cover of the plane-geometry library."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from lathlight.geometry.triangulation import triangulate

ELL = ((0.0, 0.0), (1220.0, 0.0), (1220.0, 2000.0), (800.0, 2000.0), (800.0, 2440.0), (0.0, 2440.0))
AREA = 0.05  # corners are compared on a grid of 0.1 micrometre: half of it along 400 mm [mm2]


def covered(outline, holes) -> None:
    """Assert that all triangles turn anticlockwise and share every side but the rim: then they cover it once."""
    points = [p for ring in (outline, *holes) for p in ring]
    triangles = triangulate(outline, holes)
    assert len(triangles) == len(points) - 2 + 2 * len(holes)
    shapes = [Polygon([points[i] for i in t]) for t in triangles]
    assert all(signed([points[i] for i in t]) > -AREA for t in triangles), "a triangle runs clockwise"
    wanted = Polygon(outline, holes)
    assert sum(s.area for s in shapes) == pytest.approx(wanted.area, abs=AREA)
    sides = [(t[i], t[(i + 1) % 3]) for t in triangles for i in range(3)]
    assert len(set(sides)) == len(sides), "a side is used twice in the same direction"
    start, rim = 0, set()
    for index, ring in enumerate((outline, *holes)):
        for i in range(len(ring)):
            edge = (start + i, start + (i + 1) % len(ring))
            anticlockwise = Polygon(ring).exterior.is_ccw
            rim.add(edge if anticlockwise == (index == 0) else edge[::-1])
        start += len(ring)
    assert {side for side in sides if side[::-1] not in sides} == rim, "the triangles' rim is not the polygon's"


def signed(triangle):
    (ax, ay), (bx, by), (cx, cy) = triangle
    return ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2


def rectangle(x, y, w, h):
    return ((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def arch(x, y, w, h, steps):
    """A door-like outline with a half round head."""
    turns = [math.pi * i / steps for i in range(steps + 1)]
    return ((x, y), (x + w, y), *((x + w / 2 + w / 2 * math.cos(a), y + h + w / 2 * math.sin(a)) for a in turns))


def test_an_l_shape_is_covered_once() -> None:
    covered(ELL, ())


def test_a_corner_on_a_straight_edge_stays_a_corner() -> None:
    covered(((0, 0), (500, 0), (1000, 0), (1000, 700), (0, 700), (0, 350)), ())


def test_two_windows_on_one_sill_line_are_left_out() -> None:
    covered(rectangle(0, 0, 3000, 2400), (rectangle(300, 900, 800, 1000), rectangle(1500, 900, 800, 1000)))


def test_windows_one_above_the_other_are_left_out() -> None:
    covered(rectangle(0, 0, 1220, 2440), tuple(rectangle(300, 200 + 500 * i, 600, 300) for i in range(4)))


def test_holes_run_either_way_round() -> None:
    covered(ELL, (rectangle(100, 100, 200, 300)[::-1],))


def test_an_arch_is_left_out() -> None:
    covered(rectangle(0, 0, 2440, 2440), (arch(600, 300, 900, 1200, 24),))


def test_a_door_with_a_round_head_is_cut_from_the_edge() -> None:
    door = arch(600, 0, 900, 1500, 16)
    covered(((0, 0), door[0], *reversed(door[2:]), door[1], (2440, 0), (2440, 2440), (0, 2440)), ())


def test_a_clockwise_outline_is_refused() -> None:
    with pytest.raises(ValueError, match="anticlockwise"):
        triangulate(ELL[::-1])


def test_a_hole_outside_its_outline_is_refused() -> None:
    with pytest.raises(ValueError, match="outside its part"):
        triangulate(rectangle(0, 0, 100, 100), (rectangle(80, 20, 60, 30),))


@st.composite
def boards(draw):
    """A sheet with windows in a grid of cells, so that sills and jambs often line up, and notched corners."""
    columns, rows = draw(st.integers(1, 4)), draw(st.integers(1, 3))
    cell = st.integers(0, 5)
    holes = []
    for i in range(columns):
        for j in range(rows):
            if draw(st.booleans()):
                x, y = 100 * i + 10 * (1 + draw(cell)), 100 * j + 10 * (1 + draw(cell))
                w, h = draw(st.integers(5, 35)), draw(st.integers(5, 35))
                round_head = draw(st.booleans()) and h + w / 2 < 40
                holes.append(arch(x, y, w, h, draw(st.integers(2, 9))) if round_head else rectangle(x, y, w, h))
    high, wide = 100.0 * rows, 100.0 * columns
    nx, ny = draw(st.integers(0, 9)), draw(st.integers(1, 9))
    notch = ((wide, high),) if nx == 0 else ((wide, high - ny), (wide - nx, high - ny), (wide - nx, high))
    turn = draw(st.floats(0, math.tau))
    outline = ((0.0, 0.0), (wide / 3, 0.0), (wide, 0.0), *notch, (0.0, high))
    return turned(outline, turn), tuple(turned(h, turn) for h in draw(st.permutations(holes)))


def turned(ring, angle):
    c, s = math.cos(angle), math.sin(angle)
    return tuple((c * x - s * y, s * x + c * y) for x, y in ring)


@settings(max_examples=150, deadline=None)
@given(boards())
def test_random_sheets_with_windows_are_covered_once(board) -> None:
    covered(*board)
