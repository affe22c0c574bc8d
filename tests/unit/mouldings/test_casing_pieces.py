"""Casing: what stands round an opening, how its pieces end on the saw, blocks, arches, and where it finds no room."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest

from lathlight.catalog import load_catalog, projection, width
from lathlight.mouldings import (
    Casing,
    CasingEnd,
    CasingJob,
    CasingPiece,
    OpeningToCase,
    WallToCase,
    block_bands,
    frame_pieces,
    plan_casing,
)
from lathlight.units import LengthStyle

PROFILES = load_catalog().profiles
CASING = PROFILES["casing 57"]
BROAD, THICK = width(CASING), projection(CASING)  # 57 and 16 mm
DOOR = OpeningToCase(
    name="door", kind="door", left=900.0, width=800.0, sill=0.0, height=2000.0, rise=0.0, reveal=5.0, profile=CASING
)
WINDOW = replace(DOOR, name="window", kind="window", sill=900.0, height=1000.0)
ARCH = replace(DOOR, name="arch", kind="arch", rise=400.0)
WALL = WallToCase(name="back", length=3000.0, height=2440.0, openings=(), base_top=120.0, base_thickness=18.0)
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()


def cased(
    *openings: OpeningToCase, wall: WallToCase = WALL, grid: LengthStyle = METRIC, floor: float = 0.0
) -> tuple[Casing, ...]:
    return plan_casing(CasingJob(walls=(replace(wall, openings=openings),), grid=grid, floor=floor))


def only(*openings: OpeningToCase, wall: WallToCase = WALL, grid: LengthStyle = METRIC, floor: float = 0.0) -> Casing:
    (casing,) = cased(*openings, wall=wall, grid=grid, floor=floor)
    return casing


def piece(casing: Casing, part: str) -> CasingPiece:
    return next(p for p in casing.pieces if p.part == part)


# --- doors and windows -------------------------------------------------------------------------------------------


def test_a_doors_legs_stand_on_the_finished_floor_and_are_mitred_above() -> None:
    casing = only(replace(DOOR, height=2008.0), floor=8.0)
    leg = piece(casing, "left leg")
    assert [p.part for p in casing.pieces] == ["left leg", "right leg", "head"]
    assert (leg.x0, leg.x1, leg.z0, leg.z1) == (900 - 5 - 57, 895, 8, 2008 + 5 + 57)
    assert (leg.short_point, leg.long_point) == (2005, 2062)
    assert (leg.first.kind, leg.first.slant, leg.last.kind, leg.last.slant) == (
        "on the floor",
        0,
        "mitre",
        pytest.approx(math.pi / 4),
    )
    assert leg.last.against == "back/door/head"
    assert not casing.findings


def test_a_doors_head_is_as_long_as_its_clear_width_with_reveals_and_casings() -> None:
    head = piece(only(DOOR), "head")
    assert (head.short_point, head.long_point) == (800 + 2 * 5, 800 + 2 * 5 + 2 * 57)
    assert (head.z0, head.z1) == (2005, 2062)


def test_a_window_is_framed_all_round_like_a_mitred_frame_of_the_same_outside_size() -> None:
    casing = only(WINDOW)
    frame = frame_pieces(width=810 + 2 * BROAD, height=1010 + 2 * BROAD, moulding=BROAD)
    ours = [(p.long_point, p.short_point) for p in casing.pieces]
    upright, level = (frame[1].long_points, frame[1].short_points), (frame[0].long_points, frame[0].short_points)
    assert ours == [upright, upright, level, level]
    assert all(end.kind == "mitre" for p in casing.pieces for end in (p.first, p.last))


def trapezium(part: CasingPiece) -> list[tuple[float, float]]:
    """Return a mitred piece's corners on the wall: the outer edge first, then the inner one (second opinion)."""
    short = (part.long_point - part.short_point) / 2
    match part.part:
        case "left leg":
            return [(part.x0, part.z0), (part.x0, part.z1), (part.x1, part.z1 - short), (part.x1, part.z0 + short)]
        case "right leg":
            return [(part.x1, part.z0), (part.x1, part.z1), (part.x0, part.z1 - short), (part.x0, part.z0 + short)]
        case "head":
            return [(part.x0, part.z1), (part.x1, part.z1), (part.x1 - short, part.z0), (part.x0 + short, part.z0)]
        case "bottom":
            return [(part.x0, part.z0), (part.x1, part.z0), (part.x1 - short, part.z1), (part.x0 + short, part.z1)]


QUARTER_TURNS = {
    "head": 0,
    "left leg": 1,
    "bottom": 2,
    "right leg": 3,
}  # clockwise, until the outer edge lies away


@pytest.mark.parametrize("part", sorted(QUARTER_TURNS))
def test_on_the_saw_each_end_lies_on_its_hand_and_the_handle_goes_where_the_cut_runs(part: str) -> None:
    here = piece(only(WINDOW), part)
    corners = trapezium(here)
    first_outer, first_inner = corners[0], corners[3]
    for _ in range(QUARTER_TURNS[part]):
        first_outer, first_inner = ((z, -x) for x, z in (first_outer, first_inner))
        corners = [(z, -x) for x, z in corners]
    middle = sum(x for x, _ in corners) / 4
    assert first_outer[1] > first_inner[1]  # the outer edge lies at the fence
    assert here.first.hand == ("left" if first_outer[0] < middle else "right")
    for end in (here.first, here.last):
        assert end.saw.fence == "outer edge"
        assert end.saw.mitre == pytest.approx(math.pi / 4)
        assert end.saw.bevel == 0
        assert end.saw.kept == ("right" if end.hand == "left" else "left")
        assert end.saw.swing == end.saw.kept  # the near end of the cut lies towards the middle of the piece
    assert {here.first.hand, here.last.hand} == {"left", "right"}


def test_inches_stay_on_their_grid() -> None:
    casing = only(
        replace(WINDOW, left=914.4, width=812.8, reveal=6.35, profile=PROFILES["casing 2 1-4 in"]), grid=IMPERIAL
    )
    for part in casing.pieces:
        assert part.long_point / float(IMPERIAL.step) == pytest.approx(round(part.long_point / float(IMPERIAL.step)))


# --- blocks ------------------------------------------------------------------------------------------------------


def test_plinth_blocks_are_higher_and_thicker_than_the_base_and_carry_the_legs() -> None:
    casing = only(replace(DOOR, plinth_blocks=True), floor=0.0)
    left, right = casing.blocks
    assert (left.kind, left.z0, left.z1, left.thickness) == ("plinth block", 0, 130, 21)
    assert (left.x0, left.x1) == (900 - 5 - 57 - 3, 895 + 3)
    assert (right.x0, right.x1) == (1705 - 3, 1705 + 57 + 3)
    leg = piece(casing, "left leg")
    assert (leg.z0, leg.first.kind, leg.first.against) == (130, "on a plinth block", "back/door/plinth block left")
    assert leg.long_point == 2062 - 130


def test_a_plinth_block_without_a_base_is_two_casings_high_and_thicker_than_the_casing() -> None:
    casing = only(replace(DOOR, plinth_blocks=True), wall=replace(WALL, base_top=None, base_thickness=0.0))
    assert {(b.z1, b.thickness) for b in casing.blocks} == {(114, 19)}


def test_a_plinth_block_keeps_its_height_above_the_finished_floor() -> None:
    raised = only(replace(DOOR, height=2008.0, plinth_blocks=True), wall=replace(WALL, base_top=128.0), floor=8.0)
    assert {(b.z0, b.z1) for b in raised.blocks} == {(8, 138)}


def test_a_window_gets_no_plinth_blocks() -> None:
    assert not only(replace(WINDOW, plinth_blocks=True)).blocks


def test_corner_blocks_are_square_and_take_square_ends() -> None:
    casing = only(replace(DOOR, corner_blocks=True))
    for block in casing.blocks:
        assert block.width == pytest.approx(block.height)
        assert block.width == 57 + 2 * 3
    left = casing.blocks[0]
    head, leg = piece(casing, "head"), piece(casing, "left leg")
    assert (head.x0, leg.z1) == (left.x1, left.z0)
    assert head.long_point == head.short_point == 810 - 2 * 3
    assert [e.kind for e in (head.first, head.last, leg.last)] == ["against a corner block"] * 3
    assert all(e.slant == 0 for e in (head.first, head.last, leg.last))


def test_no_block_reaches_past_the_clear_edge_where_the_reveal_is_small() -> None:
    casing = only(replace(DOOR, reveal=1.0, corner_blocks=True, plinth_blocks=True))
    assert max(b.x1 for b in casing.blocks if b.side == "left") == 900


def test_the_trim_meets_blocks_at_their_heights() -> None:
    foot, corner = block_bands(only(replace(DOOR, plinth_blocks=True, corner_blocks=True)))
    assert (foot.bottom, foot.top, foot.beyond, foot.thickness) == (0, 130, 3, 21)
    assert (corner.bottom, corner.top, corner.beyond, corner.thickness) == (2002, 2065, 3, 19)


# --- arches ------------------------------------------------------------------------------------------------------


def outline_length(casing: Casing, springing: float) -> float:
    """Return the curve's length along its middle line above the springing, in ten thousand straight steps."""
    curve = casing.curve
    assert curve is not None
    middle = (curve.inner_radius + curve.outer_radius) / 2
    xs = [-1 + 2 * n / 10_000 for n in range(10_001)]
    half = 400 + 5 + BROAD / 2
    points = [(half * x, math.sqrt(max(0.0, middle**2 - (half * x) ** 2))) for x in xs]
    assert points[0][1] + curve.centre[1] >= springing - 1e-6
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


@pytest.mark.parametrize("rise", [400.0, 300.0, 150.0])
def test_the_curve_over_an_arch_is_as_long_as_its_middle_line(rise: float) -> None:
    casing = only(replace(ARCH, rise=rise))
    assert casing.curve is not None
    assert casing.curve.length == pytest.approx(outline_length(casing, 2000 - rise), abs=1.0)
    assert [p.part for p in casing.pieces] == ["left leg", "right leg"]


def test_a_half_round_arch_takes_square_legs_up_to_its_springing_line() -> None:
    leg = piece(only(ARCH), "left leg")
    assert (leg.long_point, leg.short_point, leg.last.kind) == (1600, 1600, "meets the curve")
    assert leg.last.slant == pytest.approx(0, abs=1e-9)


def test_the_legs_of_a_flat_arch_end_on_both_edges_of_the_curve() -> None:
    casing = only(replace(ARCH, rise=150.0))
    leg, curve = piece(casing, "left leg"), casing.curve
    assert curve is not None
    (cx, cz) = curve.centre
    assert math.dist((leg.x0, leg.z1), (cx, cz)) == pytest.approx(curve.outer_radius)
    inner = leg.z1 - math.tan(leg.last.slant) * BROAD
    assert math.dist((leg.x1, inner), (cx, cz)) == pytest.approx(curve.inner_radius)
    assert leg.long_point > leg.short_point


def test_an_arch_takes_no_corner_blocks() -> None:
    assert not only(replace(ARCH, corner_blocks=True)).blocks


# --- no room -----------------------------------------------------------------------------------------------------


def kinds(casing: Casing) -> list[str]:
    return [f.kind for f in casing.findings]


def test_casing_past_the_walls_end_is_said_and_drawn_to_the_end() -> None:
    casing = only(replace(DOOR, left=40.0))
    assert [(f.kind, f.found) for f in casing.findings] == [("past the wall's end", 22)]
    assert piece(casing, "left leg").x0 == 0
    assert kinds(only(replace(DOOR, left=62.0))) == []


def test_casing_past_the_right_end_is_said_with_its_figure() -> None:
    casing = only(replace(DOOR, left=2160.0))
    assert [(f.kind, f.found, f.limit) for f in casing.findings] == [("past the wall's end", 22, 3000)]
    assert piece(casing, "right leg").x1 == 3000


def test_casing_over_the_walls_top_is_said() -> None:
    casing = only(replace(DOOR, height=2400.0))
    assert [(f.kind, f.found) for f in casing.findings] == [("over the wall's top", 22)]
    assert piece(casing, "head").z1 == 2440
    assert kinds(only(replace(DOOR, height=2378.0))) == []


def test_casing_under_the_floor_is_said_from_the_finished_floor() -> None:
    low = only(replace(WINDOW, sill=60.0), floor=8.0)
    assert [(f.kind, f.found) for f in low.findings] == [("under the floor", 10)]
    assert kinds(only(replace(WINDOW, sill=70.0), floor=8.0)) == []


def test_casings_that_lie_over_each_other_are_said_once() -> None:
    first, second = cased(DOOR, replace(WINDOW, left=1800.0))
    assert [(f.kind, f.found, f.with_what) for f in first.findings] == [("into other casing", 24, "window")]
    assert not second.findings
    assert all(not c.findings for c in cased(DOOR, replace(WINDOW, left=1824.0)))


def test_openings_above_each_other_do_not_clash() -> None:
    low = replace(WINDOW, name="low", sill=300.0, height=400.0)
    high = replace(WINDOW, name="high", sill=900.0)
    assert all(not c.findings for c in cased(low, high))


# --- mirrored ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "opening", [DOOR, WINDOW, ARCH, replace(DOOR, plinth_blocks=True, corner_blocks=True), replace(ARCH, rise=200.0)]
)
def test_a_mirrored_opening_gets_mirrored_casing(opening: OpeningToCase) -> None:
    there = only(opening)
    back = only(replace(opening, left=WALL.length - opening.left - opening.width))

    def told(end: CasingEnd, *, turned: bool) -> tuple[str, str, float]:
        hand = end.hand if not turned else ("right" if end.hand == "left" else "left")
        return end.kind, hand, round(end.slant, 9)

    boxes = sorted((round(WALL.length - p.x1, 6), p.z0, round(WALL.length - p.x0, 6), p.z1) for p in there.pieces)
    assert boxes == sorted((round(p.x0, 6), p.z0, round(p.x1, 6), p.z1) for p in back.pieces)
    assert sorted(told(e, turned=True) for p in there.pieces for e in (p.first, p.last)) == sorted(
        told(e, turned=False) for p in back.pieces for e in (p.first, p.last)
    )
