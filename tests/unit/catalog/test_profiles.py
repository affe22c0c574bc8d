"""What a moulding's section measures. Second opinion on crossing: an independent geometry library."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LinearRing, Polygon

from lathlight.catalog import Profile, drop, face, girth, load_catalog, projection, width
from lathlight.catalog.profiles import crossing, signed_area, turned

PROFILES = list(load_catalog().profiles.values())
BOARD = Profile(
    name="board",
    kind="rail",
    points=((0, 0), (15, 0), (15, 95), (0, 95)),
    spring=None,
    lengths=(2400,),
    density=750,
    coping=True,
    source="made for the test",
)
WEDGE = replace(
    BOARD, name="wedge", kind="cornice", spring=math.radians(45), points=((0, 0), (10, 0), (50, 40), (50, 50))
)


def test_a_plain_board_measures_its_two_sides() -> None:
    assert (projection(BOARD), width(BOARD), drop(BOARD)) == (15, 95, 95)


def test_a_rails_face_goes_round_its_two_edges() -> None:
    assert girth(BOARD) == 15 + 95 + 15


def test_a_base_stands_on_its_underside() -> None:
    assert girth(replace(BOARD, kind="base")) == 95 + 15


def test_the_back_of_a_hollow_backed_board_is_not_painted() -> None:
    hollow = replace(BOARD, points=((0, 0), (15, 0), (15, 95), (0, 95), (0, 85), (3, 85), (3, 10), (0, 10)))
    assert girth(hollow) == girth(BOARD)


def test_a_cornice_is_measured_across_its_face_and_not_along_its_back() -> None:
    assert face(WEDGE) == ((0, 0), (10, 0), (50, 40), (50, 50))
    assert girth(WEDGE) == pytest.approx(20 + math.hypot(40, 40))
    assert width(WEDGE) == pytest.approx(math.hypot(50, 50))
    assert (projection(WEDGE), drop(WEDGE)) == (50, 50)


@pytest.mark.parametrize("profile", PROFILES, ids=lambda row: row.name)
def test_girth_is_never_less_than_width(profile: Profile) -> None:
    assert girth(profile) >= width(profile)


@pytest.mark.parametrize("profile", PROFILES, ids=lambda row: row.name)
def test_a_shipped_section_is_as_broad_as_its_name_says(profile: Profile) -> None:
    figures = profile.name.removeprefix(profile.kind).split(" at ")[0].split()
    if figures[-1] == "in":
        whole = sum(int(a) / int(b) if b else int(a) for a, _, b in (each.partition("-") for each in figures[:-1]))
        assert width(profile) == pytest.approx(whole * 25.4, abs=0.1)
    else:
        assert width(profile) == pytest.approx(float(figures[0]), abs=0.1)


@pytest.mark.parametrize("profile", PROFILES, ids=lambda row: row.name)
def test_a_shipped_section_is_a_proper_one(profile: Profile) -> None:
    ring = Polygon(profile.points)
    assert ring.is_valid
    assert signed_area(profile.points) == pytest.approx(ring.area)
    assert profile.points == turned(profile.points)


heights = st.floats(5, 200)


@given(height=heights, outs=st.lists(st.floats(0.5, 40), min_size=1, max_size=12))
def test_the_girth_of_any_stepless_face_is_at_least_its_width(height: float, outs: list[float]) -> None:
    ups = [height * (i + 1) / (len(outs) + 1) for i in range(len(outs))]
    points = ((0.0, 0.0), *zip(outs, ups, strict=True), (0.0, height))
    profile = replace(BOARD, points=points)
    assert girth(profile) >= width(profile) - 1e-9
    assert width(profile) == height


corner = st.tuples(st.integers(0, 6), st.integers(0, 6)).map(lambda p: (float(p[0]), float(p[1])))


@given(st.lists(corner, min_size=3, max_size=8))
def test_a_polyline_crosses_itself_where_an_independent_library_says_so(points: list[tuple[float, float]]) -> None:
    if any(a == b for a, b in zip(points, [*points[1:], points[0]], strict=True)):
        assert crossing(points) is not None  # a side without length
    else:
        assert (crossing(points) is None) == bool(LinearRing(points).is_simple)


@given(st.lists(corner, min_size=3, max_size=8, unique=True), st.integers(0, 7), st.booleans())
def test_where_a_polyline_begins_and_which_way_it_runs_changes_nothing(
    points: list[tuple[float, float]], shift: int, back: bool
) -> None:
    area = signed_area(points)
    if area == 0:
        return
    k = shift % len(points)
    other = points[k:] + points[:k]
    assert turned(other[::-1] if back else other) == turned(points)
    assert signed_area(turned(points)) == pytest.approx(abs(area))
