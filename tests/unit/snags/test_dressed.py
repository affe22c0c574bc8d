"""Snags of frames, casing, floor, fixing and paint: what they say, how many they are, what keeps them quiet."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.unit.flooring.made_up import floor_job
from tests.unit.snags.dressed import (
    BOUGHT,
    CATALOG,
    DOOR,
    SCREW,
    TIER,
    block,
    cased,
    edge,
    fixed,
    floored,
    frame_wall,
    framed,
    gap,
    need,
    painted,
)
from tests.unit.snags.dressed_cases import HIGH, LOW, jointed, two_walls, under_rail
from tests.unit.snags.made_up import PICTURE, SITTER, UNFIXED, found, plan

from lathlight.finishing import early_mouldings, glossy_sheen, narrow_gaps, paint_short, raw_edges
from lathlight.fixing import FixingFinding
from lathlight.mouldings import SeamLine
from lathlight.snags import CHECKS, Severity, find_snags
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from lathlight.plan import Plan

DRESSING = ("moulding frames", "casing", "fixing", "floor", "paint")


def test_a_bare_set_has_no_snags_of_what_is_put_on_it() -> None:
    families = {entry.name: entry.family for entry in CHECKS}
    assert set(DRESSING) <= set(families.values())
    assert not [s for s in find_snags(plan()) if families[s.check] in DRESSING]


def test_no_demo_set_is_spoilt_and_its_list_is_short(demo_plan: Plan) -> None:
    snags = find_snags(demo_plan)
    assert all(snag.severity >= Severity.COSTS for snag in snags)
    assert len(snags) <= 6


# --- moulding frames -----------------------------------------------------------------------------------------------


def test_a_joint_inside_frames_that_come_off_is_told_as_a_line_that_shows() -> None:
    (snag,) = found("seam-through-frame", jointed(400.0, parts=True, loose=True))
    assert snag.what.startswith("Joint back/joint 1-2 shows 300 mm inside a moulding frame of panels on wall back")
    assert "part_at_joints" in snag.remedy


def test_tiers_in_line_are_one_snag_that_counts_its_places() -> None:
    seam = SeamLine(name="back/seam 3", left=400.0, right=400.0, bottom=0.0, top=2400.0)
    tiers = tuple(replace(t, bought_width=600.0, gap=100.0) for t in (LOW, HIGH))
    (snag,) = found("seam-through-frame", framed(frame_wall(800.0, seams=(seam,)), tiers=tiers))
    assert snag.place == "back/low|high"
    assert "the worst of 2 places" in snag.what


def test_a_frame_over_a_rail_says_by_how_much() -> None:
    (snag,) = found("frame-too-near", under_rail(1490.0))
    assert "overlaps rail by 10 mm" in snag.what
    assert snag.figure == -10


def test_no_distance_and_no_room_are_said_in_words_instead_of_as_0_mm() -> None:
    (near,) = found("frame-too-near", under_rail(1500.0))
    assert "stands right at rail where 40 mm is wanted" in near.what
    (bare,) = found("no-room-for-frame", two_walls(1040, 230))
    assert bare.what.startswith("The gaps leave nothing of wall side for panels where a frame takes 120 mm")
    assert "An end gap of at most 55 mm lets one frame in." in bare.remedy  # by hand: (230 - 120) / 2
    (narrow,) = found("no-room-for-frame", two_walls(1040, 190))
    assert "no end gap lets one frame in" in narrow.remedy  # 35 mm would be left, 40 are wanted


def test_widths_that_differ_by_more_than_two_inches_spoil_the_picture() -> None:
    (known,) = found("frames-uneven", two_walls(1040, 1090))
    (spoilt,) = found("frames-uneven", two_walls(1040, 1091))
    assert (known.severity, spoilt.severity) == (Severity.KNOW, Severity.SPOILS)


def test_a_pattern_is_held_against_pictures_that_show_it_square_on_and_no_others() -> None:
    moved = replace(PICTURE, sitter=replace(SITTER, right=100.0))
    askew = replace(moved, angles=(math.radians(31), math.radians(31)))
    above = replace(moved, frame_top=2400.0)  # ends at 1500, the height of the camera and of the frames' tops
    for picture in (askew, above):
        assert not found("pattern-off-picture", framed(frame_wall(2440.0), pictures=(picture,), sitters=(SITTER,)))
    lower = replace(above, frame_top=2399.0)
    for picture in (replace(askew, angles=(math.radians(29), math.radians(29))), lower):
        assert found("pattern-off-picture", framed(frame_wall(2440.0), pictures=(picture,), sitters=(SITTER,)))


def test_a_pattern_that_was_centred_on_a_picture_is_not_blamed_for_another() -> None:
    tier = replace(TIER, middles=(("back", 1230.0),))
    sitter = replace(SITTER, right=200.0)
    made = framed(frame_wall(2440.0), tiers=(tier,), pictures=(replace(PICTURE, sitter=sitter),), sitters=(sitter,))
    assert not found("pattern-off-picture", made)


def test_the_worst_picture_of_a_wall_is_told_with_its_share() -> None:
    near = replace(PICTURE, name="near", sitter=replace(SITTER, right=50.0))
    far = replace(PICTURE, name="far", sitter=replace(SITTER, right=-200.0))
    (snag,) = found("pattern-off-picture", framed(frame_wall(2440.0), pictures=(near, far), sitters=(SITTER,)))
    assert "200 mm (22 % of the picture's width) beside the middle of picture far" in snag.what  # 600 x 3410 / 2210
    assert "the worst of 2 pictures" in snag.what


def test_bought_frames_have_no_sides_to_cut() -> None:
    tier = replace(BOUGHT, profile=replace(CATALOG.profiles["panel 30"], lengths=(500.0,)))
    assert not found("frame-longer-than-stock", framed(frame_wall(1000.0), tiers=(tier,)))


# --- casing and floor ------------------------------------------------------------------------------------------------


def test_casing_that_runs_off_on_two_sides_is_one_snag_with_both() -> None:
    (snag,) = found("casing-off-the-wall", cased(replace(DOOR, left=60.0, height=2390.0)))
    assert "runs 2 mm past the wall's end and 52 mm over the wall's top" in snag.what
    assert snag.figure == 52


def test_a_picture_that_sees_past_two_edges_is_one_snag_with_both() -> None:
    (snag,) = found("floor-short-of-picture", floored(depth=2000.0, width=1000.0))
    assert "100 mm at the front" in snag.what
    assert "on the left" in snag.what
    assert ("side", "left", "") in snag.why.inputs or ("side", "right", "") in snag.why.inputs


def test_walls_that_reach_past_one_covering_are_one_snag() -> None:
    made = floored(
        depth=2200.0, under_flats=True, width=1600.0, walls=floor_job(3000.0, 1200.0).walls, depths=(50.0, 50.0)
    )
    (snag,) = found("flats-half-on-covering", made)
    assert "the worst of 2 walls" in snag.what


# --- fixing --------------------------------------------------------------------------------------------------------


def told(kind: str, place: str, *, at: float, limit: float, wall: str = "back", number: int = 1) -> FixingFinding:
    """A finding of the fixing."""
    return FixingFinding(
        kind=kind,  # pyright: ignore[reportArgumentType] -- the kinds are tried by name
        wall=wall,
        place=place,
        found=at,
        limit=limit,
        unit="mm",
        number=number,
        inputs=(("shortest that holds", 18.0, "mm"),),
    )


def test_brads_of_all_walls_are_one_snag_that_counts_the_pieces() -> None:
    findings = (
        told("brad through the skin", "upper", at=20, limit=19, number=10),
        told("brad through the skin", "upper", at=20, limit=19, number=26, wall="side"),
        told("brad through the skin", "lower", at=20, limit=18, number=4),
    )
    (snag,) = found("brad-through-skin", replace(plan(), fixing=replace(UNFIXED, findings=findings)))
    assert "No brad fits 40 pieces of upper and lower" in snag.what
    assert snag.severity == Severity.KNOW
    assert snag.limit == 18


def test_casing_without_brads_is_called_by_its_opening() -> None:
    leg = block(100, 140, upright=True, z0=500, z1=1500, use="casing", belongs_to="hatch", id="back/hatch/left leg")
    (snag,) = found("brad-through-skin", fixed(leg, fasteners=(SCREW,)))
    assert "No brad fits 1 piece of the casing of hatch, since there is none of the kind" in snag.what


@pytest.mark.parametrize(
    ("at", "words"),
    [
        (71.0, "the shortest that holds is 71 mm long where 70 mm is the most"),
        (15.0, "the longest there is has 15 mm where 18 mm is the least that holds"),
        (0.0, "there is none of the kind"),
    ],
)
def test_a_misfit_says_whether_fasteners_are_too_long_too_short_or_missing(at: float, words: str) -> None:
    finding = told("fastener through the timber", "back/1/sheet/1-1", at=at, limit=70)
    (snag,) = found("screw-through-skin", replace(plan(), fixing=replace(UNFIXED, findings=(finding,))))
    assert words in snag.what


def test_a_loose_piece_that_nothing_holds_spoils_the_set_and_a_glued_one_costs() -> None:
    (loose,) = found("trim-not-held", fixed(block(50, 580, loose=True), fasteners=(SCREW,)))
    (glued,) = found("trim-not-held", fixed(block(50, 580), fasteners=(SCREW,)))
    assert (loose.severity, glued.severity) == (Severity.SPOILS, Severity.COSTS)
    assert "has a piece 530 mm long with no timber behind it" in glued.what


def test_the_sides_of_a_moulding_frame_that_comes_off_hold_each_other() -> None:
    sides = (
        block(0, 800, loose=True, use="moulding frame", id="back/panels/frame 1/top", belongs_to="panels"),
        block(400, 580, loose=True, use="moulding frame", id="back/panels/frame 1/bottom", belongs_to="panels"),
    )
    assert not found("trim-not-held", fixed(*sides, fasteners=(SCREW,)))
    assert found("trim-not-held", fixed(sides[1], fasteners=(SCREW,)))


# --- paint ---------------------------------------------------------------------------------------------------------


def test_paint_that_shines_more_than_eggshell_spoils_the_picture() -> None:
    satin = replace(CATALOG.paints["matt paint"], name="satin paint", sheen="satin")
    (snag,) = found("glossy-under-flash", painted(*glossy_sheen(satin, flashed=True)))
    assert snag.severity == Severity.SPOILS
    assert "2 classes of sheen above matt" in snag.what
    assert not found("glossy-under-flash", painted(*glossy_sheen(satin, flashed=False)))


def test_gaps_left_to_the_brush_are_one_snag_a_set_since_one_order_of_work_makes_them() -> None:
    gaps = early_mouldings([gap(90.0), gap(70.0, wall="side"), gap(80.0)], mouldings="after fixing")
    (snag,) = found("mouldings-before-paint", painted(*gaps))
    assert "on wall side, the narrowest of 3, is 70 mm wide where the narrowest roller takes 100 mm" in snag.what


def test_paint_that_lasts_for_no_coat_says_so() -> None:
    (snag,) = found("paint-short", painted(*paint_short(need(2.0), have=0.9)))
    assert "0.90 l of matt paint at hand where 2.00 l are wanted, not enough for one coat" in snag.what


def test_paint_is_told_in_gallons_where_the_project_is_imperial() -> None:
    made = painted(*paint_short(need(3.785411784), have=1.892705892))
    (snag,) = found("paint-short", replace(made, brief=replace(made.brief, style=LengthStyle.imperial())))
    assert "0.50 US gal of matt paint at hand where 1.00 US gal are wanted, enough for 1 of 2 coats" in snag.what


def test_raw_edges_of_a_set_are_one_snag_with_their_length_together() -> None:
    edges = [edge(1220.0), edge(1000.0, name="2"), edge(2400.0, kind="joint edge")]
    (snag,) = found("raw-edge", painted(*raw_edges(edges)))
    assert "4620 mm of raw edge along the top and at joints" in snag.what


def test_the_narrowest_gap_of_a_wall_is_told_with_its_height_from_the_finished_floor() -> None:
    raised = replace(plan().brief.floor, covering="boards", thickness=8.0, stands_on="floor")
    gaps = narrow_gaps([gap(20.0, z=508.0), gap(10.0, z=908.0), gap(5.0, wall="side")])
    back, side = found("gap-narrower-than-brush", painted(*gaps, made=plan(floor=raised)))
    assert (back.figure, side.figure) == (10, 5)
    assert "the narrowest of 2, is 10 mm wide" in back.what
    assert ("above the floor", 900.0, "mm") in back.why.inputs
