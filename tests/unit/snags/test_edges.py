"""Sheet edges and the timber behind them, with a slow plain sampling as second opinion."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.unit.snags.made_up import SHEET, flat, found, frame, member, piece, plan, wall_of, with_window

from lathlight.geometry import rectangle
from lathlight.snags.edges import CHECKS
from lathlight.snags.outlines import edges_of, thinnest

if TYPE_CHECKING:
    from lathlight.carpentry import Flat, Member, SheetPiece
    from lathlight.plan import Plan

SECOND = flat("2", x0=1220, x1=2440)


def free(*members: Member, pieces: tuple[SheetPiece, ...] = (piece(0, 1220),)) -> str:
    """What the check says of a flat with these members and sheets."""
    snags = found("free-sheet-edge", plan(wall_of(flat("1", members=members, pieces=pieces), SECOND)))
    return " | ".join(snag.what.split(":")[0] for snag in snags)


def test_a_missing_end_stud_leaves_the_edge_free_between_the_plates() -> None:
    left_out = tuple(m for m in frame(0, 1220) if m.id != "back/1/end stud/right")
    assert "right edge (38 mm to 2362 mm)" in free(*left_out)


def test_a_missing_top_plate_leaves_the_top_edge_free_between_the_studs() -> None:
    left_out = tuple(m for m in frame(0, 1220) if m.role != "top plate")
    assert "top edge (0 mm to 1220 mm)" in free(*left_out)


def test_a_seam_that_misses_its_stud_is_told_of_both_sheets() -> None:
    beside = (*frame(0, 1220, studs=(700,)),)
    pieces = (piece(0, 610), piece(610, 1220, name="2-1"))
    words = free(*beside, pieces=pieces)
    assert "back/1/sheet/1-1 has 0 mm of timber behind its right edge" in words
    assert "back/1/sheet/2-1 has 0 mm of timber behind its left edge" in words


def test_one_stud_under_the_middle_of_a_seam_bears_both_sheets() -> None:
    pieces = (piece(0, 610), piece(610, 1220, name="2-1"))
    assert free(*frame(0, 1220, studs=(591,)), pieces=pieces) == ""


def test_two_studs_side_by_side_bear_as_one() -> None:
    thin = tuple(replace(m, wide=8.0) for m in frame(0, 1220, studs=(602, 610, 594, 618)) if m.role == "stud")
    rest = tuple(m for m in frame(0, 1220) if m.role != "stud")
    pieces = (piece(0, 610), piece(610, 1220, name="2-1"))
    assert free(*rest, *thin, pieces=pieces) == ""
    assert free(*rest, *thin[:2], pieces=pieces) != ""


def test_a_level_seam_wants_noggins_from_stud_to_stud() -> None:
    pieces = (piece(0, 1220, z1=1500), piece(0, 1220, z0=1500, name="1-2"))
    studs = frame(0, 1220, studs=(591,))
    left = member("seam noggin", "bay 1", x=38, z=1481, wide=553, high=38)
    right = member("seam noggin", "bay 2", x=629, z=1481, wide=553, high=38)
    assert free(*studs, left, right, pieces=pieces) == ""
    words = free(*studs, left, pieces=pieces)
    assert "top edge (629 mm to 1182 mm)" in words
    assert "bottom edge (629 mm to 1182 mm)" in words


def test_the_edges_of_an_opening_want_timber_too() -> None:
    window = with_window()
    assert found("free-sheet-edge", plan(wall_of(window, SECOND))) == ()
    bare = replace(window, members=tuple(m for m in window.members if m.role != "sill"))
    (snag,) = found("free-sheet-edge", plan(wall_of(bare, SECOND)))
    assert "top edge (310 mm to 910 mm)" in snag.what


def test_a_back_that_is_bevelled_away_bears_where_it_ends() -> None:
    over = piece(-20, 1220, bevel_left=-20.0)
    assert free(*frame(0, 1220), pieces=(over,)) == ""
    assert "left edge" in free(*frame(0, 1220), pieces=(replace(over, bevel_left=0.0),))


def test_a_wedge_bears_over_the_width_of_its_front() -> None:
    end = replace(
        member("wedge", "right", x=1220, z=0, wide=23, high=2400),
        section=((1220.0, 9.0), (1243.0, 9.0), (1220.0, 72.0)),
    )
    assert free(*frame(0, 1220), end, pieces=(piece(0, 1240),)) == ""
    knife = replace(end, section=((1220.0, 72.0), (1243.0, 72.0), (1220.0, 9.0)))
    assert "right edge" in free(*frame(0, 1220), knife, pieces=(piece(0, 1240),))


def test_timber_that_does_not_touch_the_sheet_backs_nothing() -> None:
    set_back = tuple(replace(m, behind=SHEET.thickness + 5) for m in frame(0, 1220))
    assert free(*set_back).count("edge (") == 4


def test_a_stretch_shorter_than_fifty_millimetres_carries_itself() -> None:
    short = tuple(
        replace(m, high=m.high - gap) if m.id.endswith("stud/right") else m for gap in (50,) for m in frame(0, 1220)
    )
    assert free(*short) == ""
    shorter = tuple(replace(m, high=m.high - 51) if m.id.endswith("stud/right") else m for m in frame(0, 1220))
    assert "right edge (2311 mm to 2362 mm)" in free(*shorter)


@pytest.mark.parametrize("clockwise", [False, True])
def test_edges_know_on_which_side_their_sheet_lies(clockwise: bool) -> None:
    hole = rectangle(300, 900, 900, 1700)
    ring = rectangle(0, 0, 1220, 2400)
    if clockwise:
        hole, ring = tuple(reversed(hole)), tuple(reversed(ring))
    edges = edges_of(piece(0, 1220, outline=ring, holes=(hole,)))
    got = sorted((e.side, e.at, e.inwards) for e in edges)
    assert got == [
        ("bottom", 0, 1),
        ("bottom", 1700, 1),
        ("left", 0, 1),
        ("left", 900, 1),
        ("right", 300, -1),
        ("right", 1220, -1),
        ("top", 900, -1),
        ("top", 2400, -1),
    ]


def test_the_thinnest_part_of_a_piece_is_its_narrowest_leg_not_its_narrowest_notch() -> None:
    outline = ((0.0, 0.0), (1180.0, 0.0), (1180.0, 2000.0), (1220.0, 2000.0), (1220.0, 2400.0), (0.0, 2400.0))
    assert thinnest(piece(0, 1220, outline=outline)) == 400
    assert thinnest(piece(0, 1220)) == 1220
    assert thinnest(piece(0, 1220, holes=(rectangle(70, 300, 1000, 900),))) == 70


def sampled_free(flat_: Flat, sheet: SheetPiece) -> bool:
    """Plainly: walk every straight edge in steps of 5 mm and look 3 and 9 mm inside its back for timber."""
    boxes = []
    for m in flat_.members:
        xs = [x for x, b in m.section if b <= flat_.sheet.thickness + 1] if m.section else [m.x, m.x + m.wide]
        boxes.append((min(xs), max(xs), m.z, m.z + m.high))

    def is_timber(x: float, z: float) -> bool:
        return any(a <= x <= b and c <= z <= d for a, b, c, d in boxes)

    for edge in edges_of(sheet):
        run = 0.0
        for i in range(int((edge.high - edge.low) / 5)):
            along = edge.low + 5 * i + 2.5
            inside = [edge.at + deep * edge.inwards for deep in (3, 9)]
            points = [(x, along) if edge.upright else (along, x) for x in inside]
            run = 0.0 if all(is_timber(*p) for p in points) else run + 5
            if run > 55:
                return True
    return False


def test_sampling_every_edge_finds_the_same_free_edges_whichever_member_is_left_out(demo_plan: Plan) -> None:
    for flat_ in demo_plan.flats:
        for gone in (None, *flat_.members):
            bare = replace(flat_, members=tuple(m for m in flat_.members if m is not gone))
            walls = (replace(demo_plan.walls[0], flats=(bare,)),)
            said = {f.place for f in CHECKS[0].find(replace(demo_plan, walls=walls))}
            assert said == {p.id for p in bare.pieces if sampled_free(bare, p)}


def test_the_family_is_complete() -> None:
    assert [entry.name for entry in CHECKS] == ["free-sheet-edge", "thin-bearing", "free-curved-edge"]
