"""Corners: the table of reaches, and an independent look at the polygons in plan."""

from __future__ import annotations

import math
import random

import pytest
from shapely.geometry import Polygon

from lathlight.carpentry.corners import (
    Thickness,
    butting_frame,
    butting_sheet,
    chosen_style,
    lapping_frame,
    lapping_sheet,
    wall_end,
    wedge_outline,
)
from lathlight.layout import WallLine, lay_out_walls
from lathlight.units import LengthStyle

FINE = LengthStyle.metric()
A, B = Thickness(sheet=9.0, frame=38.0), Thickness(sheet=12.0, frame=63.0)
RUN = 1500.0  # length of either wall [mm]


def test_at_a_square_corner_the_reaches_are_the_plain_sums() -> None:
    square = math.pi / 2
    assert butting_sheet(angle=square, own=A).front == 0
    assert butting_frame(angle=square, own=A, other=B).square == pytest.approx(B.sheet)
    assert lapping_sheet(angle=square, own=B, other=A).square == pytest.approx(A.sheet)
    assert lapping_frame(angle=square, own=B, other=A).square == pytest.approx(A.sheet + A.frame)


def test_a_lap_is_never_made_above_135_degrees() -> None:
    assert chosen_style(math.radians(136), "lap") == "arris"
    assert chosen_style(math.radians(136), "auto") == "arris"
    assert chosen_style(math.radians(135), "auto") == "lap"


def test_arris_to_arris_is_never_made_below_90_degrees() -> None:
    assert chosen_style(math.radians(80), "arris") == "lap"


def _corner(degrees: float, style: str, own: Thickness, other: Thickness, frame: str, sheet: str):
    angle = math.radians(degrees)
    kind = chosen_style(angle, style)

    def end(mine: Thickness, yours: Thickness, side: str):
        return wall_end(
            angle=angle,
            style=kind,
            own=mine,
            other=yours,
            neighbour="x",
            frame_laps=frame == side,
            sheet_laps=sheet == side,
            grid=FINE,
        )

    return end(own, other, "left"), end(other, own, "right")


def _strip(line: WallLine, a: float, b: float, c: float, d: float, front: float, back: float) -> Polygon:
    """Return a part in plan: from a (front) and b (back) at its left to c and d at its right."""
    return Polygon(
        [
            line.at(along=a, behind=front),
            line.at(along=c, behind=front),
            line.at(along=d, behind=back),
            line.at(along=b, behind=back),
        ]
    )


def _parts(degrees: float, own: Thickness, other: Thickness, ends):
    left_end, right_end = ends
    left, right = lay_out_walls(names="ab", lengths=[RUN, RUN], heights=[2400, 2400], angles=[math.radians(degrees)])
    yield _strip(left, 0, 0, RUN + left_end.sheet_front, RUN + left_end.sheet_back, 0, own.sheet)
    yield _strip(left, 0, 0, RUN + left_end.frame_end, RUN + left_end.frame_end, own.sheet, own.total)
    yield _strip(right, -right_end.sheet_front, -right_end.sheet_back, RUN, RUN, 0, other.sheet)
    yield _strip(right, -right_end.frame_end, -right_end.frame_end, RUN, RUN, other.sheet, other.total)
    for line, end, own_thickness, sign, datum in (
        (left, left_end, own, 1, RUN),
        (right, right_end, other, -1, 0.0),
    ):
        outline = wedge_outline(end, own_thickness)
        if outline is not None:
            yield Polygon([line.at(along=datum + sign * p, behind=behind) for p, behind in outline])


@pytest.mark.parametrize("style", ["auto", "lap", "arris", "mitre"])
@pytest.mark.parametrize("frame", ["left", "right"])
@pytest.mark.parametrize("sheet", ["left", "right"])
def test_no_two_parts_of_a_corner_overlap_at_any_angle(style: str, frame: str, sheet: str) -> None:
    pick = random.Random(7)
    for _ in range(60):
        degrees = pick.uniform(60, 179)
        own = Thickness(sheet=pick.choice((3.2, 9.0, 18.0)), frame=pick.choice((38.0, 63.0, 89.0)))
        other = Thickness(sheet=pick.choice((3.2, 9.0, 18.0)), frame=pick.choice((38.0, 63.0, 89.0)))
        ends = _corner(degrees, style, own, other, frame, sheet)
        parts = list(_parts(degrees, own, other, ends))
        assert all(part.is_valid for part in parts), (degrees, ends)
        for i, one in enumerate(parts):
            for two in parts[i + 1 :]:
                assert one.intersection(two).area < 0.01, (degrees, own, other, ends)


@pytest.mark.parametrize("degrees", [60, 75, 90, 110, 135, 150, 179])
def test_the_faces_meet_in_one_line_so_that_the_gap_lies_behind_them(degrees: float) -> None:
    """Looking from inside the corner, no ray along either face may slip between the two sheets."""
    ends = _corner(degrees, "auto", A, B, "right", "right")
    left, right = lay_out_walls(names="ab", lengths=[RUN, RUN], heights=[2400, 2400], angles=[math.radians(degrees)])
    fronts = [left.at(along=RUN + ends[0].sheet_front, behind=0), right.at(along=-ends[1].sheet_front, behind=0)]
    assert min(math.dist(p, left.end) for p in fronts) < 1.0, "one sheet's front edge lies in the corner line"
    assert all(e.sheet_front > -1e-9 for e in ends), "no sheet stops short of the corner line"


def test_a_square_end_takes_the_smaller_reach_and_the_wedge_is_depth_times_cot() -> None:
    ends = _corner(110, "lap", A, B, "right", "right")
    reach = ends[0].frame
    assert ends[0].frame_end == math.floor(min(reach.front, reach.back))
    assert reach.wedge == pytest.approx(A.frame * abs(1 / math.tan(math.radians(110))))


def test_a_sheet_is_back_bevelled_in_an_open_corner() -> None:
    butting = _corner(110, "lap", A, B, "right", "right")[0]
    assert butting.sheet_front == 0
    assert butting.sheet_back == pytest.approx(A.sheet / math.tan(math.radians(110)))
