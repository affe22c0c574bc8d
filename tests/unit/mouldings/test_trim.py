"""Trim: how ends, lengths, scarfs, order and findings come about on small sets."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest

from lathlight.catalog import Profile, load_catalog
from lathlight.errors import InputError
from lathlight.mouldings.backing_strips import strip_section
from lathlight.mouldings.scarfs import SHORTEST, ScarfJob, near_middle, place_scarfs
from lathlight.mouldings.trim import plan_trim
from lathlight.mouldings.trim_model import (
    BlockBand,
    CasedOpening,
    Moulding,
    Parting,
    PictureMiddle,
    TrimPiece,
    TrimPlan,
    TrimRules,
    TrimWall,
)
from lathlight.units import LengthStyle

PROFILES = load_catalog().profiles
RULES = TrimRules(grid=LengthStyle.metric())
RIGHT_ANGLE = math.pi / 2
RAIL = Moulding(name="rail", kind="rail", profile=PROFILES["rail 57"], top=900.0, spring=None)  # stands out 20 mm
BASE = Moulding(name="base", kind="base", profile=PROFILES["base 95"], top=95.0, spring=None)  # stands out 15 mm
HIGH = Moulding(name="high", kind="picture rail", profile=PROFILES["picture rail 44"], top=2050.0, spring=None)
CROWN = Moulding(
    name="crown",
    kind="cornice",
    profile=PROFILES["cornice 92 at 38"],
    top=2400.0,
    spring=PROFILES["cornice 92 at 38"].spring,
)


def wall(name: str, length: float, *lines: Moulding) -> TrimWall:
    return TrimWall(name=name, length=length, height=2400.0, lines=lines)


def pair(line: Moulding, corner: float, *, rules: TrimRules = RULES) -> TrimPlan:
    walls = (wall("long", 2200.0, line), wall("short", 1400.0, line))
    return plan_trim(walls, corners=(corner,), rules=rules)


def kinds(plan: TrimPlan) -> list[str]:
    return sorted(f.kind for f in plan.findings)


def ends(piece: TrimPiece) -> tuple[str, str]:
    return piece.left.kind, piece.right.kind


# --- corners -----------------------------------------------------------------------------------------------------


def test_an_inside_mitre_keeps_the_faces_length_at_the_back_and_loses_its_projection_at_the_front() -> None:
    plan = pair(replace(RAIL, free="square"), RIGHT_ANGLE)
    a, b = plan.pieces
    assert (ends(a), ends(b)) == (("square", "inside mitre"), ("inside mitre", "square"))
    assert (a.long_point, a.back, a.short_point, a.front) == (2200, 2200, 2180, 2180)
    assert (b.long_point, b.short_point) == (1400, 1380)
    assert plan.meetings[0].how == "mitre"
    assert plan.meetings[0].first is None
    assert not plan.findings


def test_an_outside_mitre_adds_one_projection_at_90_degrees() -> None:
    a, b = pair(replace(RAIL, free="square"), math.radians(270)).pieces
    assert (a.right.kind, b.left.kind) == ("outside mitre", "outside mitre")
    assert (a.long_point, a.back, a.short_point) == (2220, 2200, 2200)


def test_left_and_right_ends_of_an_inside_corner_swing_the_saw_to_opposite_sides() -> None:
    a, b = pair(RAIL, RIGHT_ANGLE).pieces
    assert (a.right.saw.swing, a.right.saw.kept, a.right.saw.fence) == ("left", "left", "back")
    assert (b.left.saw.swing, b.left.saw.kept, b.left.saw.fence) == ("right", "right", "back")


def test_a_wished_cope_runs_the_longer_walls_piece_to_the_face_and_fixes_it_first() -> None:
    plan = pair(replace(RAIL, inside="cope"), RIGHT_ANGLE)
    a, b = plan.pieces
    assert (a.right.kind, b.left.kind) == ("against the wall", "cope")
    assert b.left.cope == pytest.approx(20)
    assert (plan.meetings[0].how, plan.meetings[0].first) == ("cope", "long")
    assert plan.order == (a.id, b.id)
    assert "coped to the line on long" in b.note


def test_a_mitre_beyond_the_saws_swing_is_coped_and_told() -> None:
    plan = pair(RAIL, math.radians(78))
    assert [p.kind for p in (plan.pieces[0].right, plan.pieces[1].left)] == ["against the wall", "cope"]
    (finding,) = plan.findings
    assert (finding.kind, finding.answer, finding.unit) == ("mitre beyond the saw", "coped", "rad")
    assert math.degrees(finding.found) == pytest.approx(51)
    assert finding.limit == RULES.swing
    assert not pair(RAIL, math.radians(81)).findings


def test_a_profile_that_cannot_be_coped_stays_mitred_and_is_told() -> None:
    plan = pair(HIGH, math.radians(78))
    assert kinds(plan) == ["cope impossible", "mitre beyond the saw"]
    assert plan.pieces[0].right.kind == "inside mitre"
    assert plan.pieces[0].right.beyond_saw
    assert kinds(pair(replace(HIGH, inside="cope"), RIGHT_ANGLE)) == ["cope impossible"]
    assert not pair(HIGH, RIGHT_ANGLE).findings


def test_an_outside_mitre_beyond_the_saw_is_cut_by_hand_since_it_cannot_be_coped() -> None:
    plan = pair(RAIL, math.radians(290))
    assert [(f.kind, f.answer) for f in plan.findings] == [("mitre beyond the saw", "cut by hand to the line")]


def test_rails_of_other_heights_miss_each_other_and_one_slides_past_the_other() -> None:
    lower = replace(RAIL, top=880.0)
    plan = plan_trim((wall("long", 2200, RAIL), wall("short", 1400, lower)), corners=(RIGHT_ANGLE,), rules=RULES)
    a, b = plan.pieces
    assert (a.right.kind, b.left.kind) == ("against the wall", "against the line")
    assert (b.left.back, b.left.front) == pytest.approx((20, 20))
    assert (plan.meetings[0].how, plan.meetings[0].first) == ("slides past", "long")
    assert plan.order == (a.id, b.id)
    (finding,) = plan.findings
    assert (finding.kind, finding.found, finding.with_what) == ("lines miss each other", 20, "short/rail")


@pytest.mark.parametrize(("degrees", "back", "front"), [(60, 23.094, 34.641), (110, 21.284, 14.004)])
def test_the_rail_that_stops_does_so_at_the_front_of_the_other_at_any_corner(
    degrees: float, back: float, front: float
) -> None:
    walls = (wall("long", 2200, RAIL), wall("short", 1400, replace(RAIL, top=880.0)))
    stops = plan_trim(walls, corners=(math.radians(degrees),), rules=RULES).pieces[1].left
    assert (stops.back, stops.front) == pytest.approx((back, front), abs=1e-3)  # 20 / sin w; 20 cos w / sin w more


def test_rails_that_pass_clear_of_each_other_both_run_to_the_face() -> None:
    plan = plan_trim(
        (wall("long", 2200, RAIL), wall("short", 1400, replace(RAIL, top=1200.0))), corners=(RIGHT_ANGLE,), rules=RULES
    )
    assert [plan.pieces[0].right.kind, plan.pieces[1].left.kind] == ["against the wall"] * 2
    assert plan.meetings[0].how == "clear of each other"
    assert kinds(plan) == ["lines miss each other"]


def test_a_line_that_the_neighbour_lacks_ends_against_its_face_and_is_no_mistake() -> None:
    plan = plan_trim((wall("long", 2200, RAIL), wall("short", 1400)), corners=(RIGHT_ANGLE,), rules=RULES)
    assert plan.pieces[0].right.kind == "against the wall"
    assert plan.meetings[0].how == "ends alone"
    assert not plan.findings


def test_a_line_that_ends_alone_at_a_flat_corner_is_returned() -> None:
    plan = plan_trim((wall("long", 2200, RAIL), wall("short", 1400)), corners=(math.radians(160),), rules=RULES)
    assert plan.pieces[0].right.kind == "returned"


# --- free ends, casing, joints -----------------------------------------------------------------------------------


def test_a_free_end_is_returned_with_a_small_piece_or_square_as_chosen() -> None:
    plan = plan_trim((wall("only", 2000, RAIL),), corners=(), rules=RULES)
    (piece,) = plan.pieces
    assert ends(piece) == ("returned", "returned")
    assert (piece.front, piece.long_point, piece.back, piece.short_point) == (2000, 2000, 1960, 1960)
    assert [(r.end, r.long_point) for r in plan.returns] == [("left", 20), ("right", 20)]
    assert {piece.left.saw.swing, plan.returns[0].saw.swing} == {"left", "right"}
    square = plan_trim((wall("only", 2000, replace(RAIL, free="square")),), corners=(), rules=RULES)
    assert not square.returns
    assert square.pieces[0].short_point == 2000


DOOR = CasedOpening(
    name="door", left=600.0, width=800.0, sill=0.0, height=2000.0, reveal=5.0, casing=57.0, thickness=16.0
)
HATCH = replace(DOOR, name="hatch", sill=1000.0, height=600.0)


def test_base_and_rail_die_into_the_casings_outer_edge() -> None:
    plan = plan_trim((replace(wall("only", 2000, BASE), openings=(DOOR,)),), corners=(), rules=RULES)
    assert [(p.start, p.end) for p in plan.pieces] == [(0, 538), (1462, 2000)]
    assert plan.pieces[0].right.kind == "against casing"
    assert plan.pieces[0].right.against == "door"
    assert not plan.findings


def test_trim_that_stands_out_from_the_casing_is_told_once_with_both_figures() -> None:
    plan = plan_trim((replace(wall("only", 2000, RAIL), openings=(DOOR,)),), corners=(), rules=RULES)
    (finding,) = plan.findings
    assert (finding.kind, finding.found, finding.limit) == ("trim thicker than casing", 20, 16)
    assert finding.with_what == "door"


def test_a_line_below_a_hatchs_casing_runs_through() -> None:
    plan = plan_trim((replace(wall("only", 2000, RAIL), openings=(HATCH,)),), corners=(), rules=RULES)
    assert len(plan.pieces) == 1
    cut = plan_trim(
        (replace(wall("only", 2000, replace(RAIL, top=939.0)), openings=(HATCH,)),), corners=(), rules=RULES
    )
    assert len(cut.pieces) == 2  # its casing begins at 938


def test_an_opening_without_casing_shows_the_lines_end_which_is_returned() -> None:
    bare = replace(DOOR, casing=0.0, thickness=0.0)
    plan = plan_trim((replace(wall("only", 2000, BASE), openings=(bare,)),), corners=(), rules=RULES)
    assert plan.pieces[0].right.kind == "returned"
    assert plan.pieces[0].end == 600


JOINT = Parting(upright=True, at=1200.0, low=0.0, high=2400.0)


def test_a_piece_never_spans_a_joint_that_parts_unless_its_line_is_loose() -> None:
    fixed = replace(wall("only", 2000, RAIL), partings=(JOINT,))
    plan = plan_trim((fixed,), corners=(), rules=RULES)
    assert [(p.start, p.end) for p in plan.pieces] == [(0, 1200), (1200, 2000)]
    assert plan.pieces[0].right.kind == plan.pieces[1].left.kind == "at a joint"
    (loose,) = plan_trim((replace(fixed, lines=(replace(RAIL, loose=True),)),), corners=(), rules=RULES).pieces
    assert (loose.start, loose.end) == (0, 2000)
    assert "comes off before the flats part" in loose.note


def test_a_joint_above_the_line_does_not_cut_it() -> None:
    above = replace(JOINT, low=1200.0)
    plan = plan_trim((replace(wall("only", 2000, RAIL), partings=(above,)),), corners=(), rules=RULES)
    assert len(plan.pieces) == 1


def test_a_fixed_line_that_lies_across_a_level_joint_is_told() -> None:
    level = Parting(upright=False, at=880.0, low=0.0, high=2000.0)
    plan = plan_trim((replace(wall("only", 2000, RAIL), partings=(level,)),), corners=(), rules=RULES)
    (finding,) = plan.findings
    assert (finding.kind, finding.found) == ("trim across a joint that parts", 20)
    for at in (843.0, 900.0):  # along either edge of the line
        edge = replace(wall("only", 2000, RAIL), partings=(replace(level, at=at),))
        assert not plan_trim((edge,), corners=(), rules=RULES).findings
    loose = replace(wall("only", 2000, replace(RAIL, loose=True)), partings=(level,))
    assert not plan_trim((loose,), corners=(), rules=RULES).findings


def test_a_joint_of_the_run_in_mid_picture_is_told() -> None:
    seen = PictureMiddle(picture="portrait", at=1150.0, clear=200.0)
    plan = plan_trim((replace(wall("only", 2000, RAIL), partings=(JOINT,), middles=(seen,)),), corners=(), rules=RULES)
    (finding,) = plan.findings
    assert (finding.kind, finding.at, finding.found, finding.limit) == ("joint in mid-picture", 1200, 50, 200)
    aside = replace(seen, at=900.0)
    assert not plan_trim(
        (replace(wall("only", 2000, RAIL), partings=(JOINT,), middles=(aside,)),), corners=(), rules=RULES
    ).findings


# --- scarfs ------------------------------------------------------------------------------------------------------

LONG_WALL = replace(
    wall("back", 6000.0, RAIL),
    studs=tuple(400.0 * k for k in range(1, 15)),
    middles=(PictureMiddle(picture="group", at=3300.0, clear=500.0),),
)


def test_a_long_run_is_joined_on_a_stud_away_from_the_picture() -> None:
    plan = plan_trim((LONG_WALL,), corners=(), rules=RULES)
    a, b = plan.pieces
    assert a.right.kind == b.left.kind == "scarf"
    assert a.end == 2000  # of the studs from 1800 to 4200 that one length reaches, the farthest from the picture
    assert max(p.long_point for p in plan.pieces) <= max(RAIL.profile.lengths)
    assert not plan.findings


def test_in_a_scarf_the_piece_nearer_to_the_picture_lies_over_the_other_and_is_fixed_last() -> None:
    plan = plan_trim((LONG_WALL,), corners=(), rules=RULES)
    a, b = plan.pieces
    assert (a.right.over, b.left.over) == (False, True)
    assert b.left.front < b.left.back == a.right.back
    assert b.left.front == a.right.front
    assert plan.order == (a.id, b.id)
    away = replace(LONG_WALL, middles=(PictureMiddle(picture="group", at=1000.0, clear=500.0),))
    other = plan_trim((away,), corners=(), rules=RULES)
    assert other.pieces[0].right.over
    assert other.order == (other.pieces[1].id, other.pieces[0].id)


def job(*, end: float, studs: tuple[float, ...], middles: tuple[PictureMiddle, ...]) -> ScarfJob:
    return ScarfJob(
        start=0.0,
        end=end,
        before=0.0,
        beyond=0.0,
        longest=2400.0,
        overlap=20.0,
        studs=studs,
        middles=middles,
        grid=LengthStyle.metric(),
    )


def brute_force(one: ScarfJob) -> tuple[int, int, int, float]:
    """Fewest joints, then fewest seen, then fewest short pieces, then farthest from pictures, of joints on studs."""
    found: list[tuple[int, int, int, float]] = []
    for count in range(len(one.studs) + 1):
        for places in itertools.combinations(one.studs, count):
            marks = [one.start, *places, one.end]
            pieces = [b - a for a, b in itertools.pairwise(marks)]
            long = [p + 20 * ((k > 0) + (k < count)) / 2 for k, p in enumerate(pieces)]
            if max(long) <= one.longest:
                found.append(rated(one, places))
        if found:
            return min(found)  # more joints are never better
    raise AssertionError


def rated(one: ScarfJob, places: tuple[float, ...]) -> tuple[int, int, int, float]:
    marks = [one.start, *places, one.end]
    short = sum(b - a < SHORTEST for a, b in itertools.pairwise(marks))
    seen = sum(near_middle(p, one.middles) is not None for p in places)
    far = min((abs(p - m.at) for p in places for m in one.middles), default=math.inf)
    return len(places), seen, short, -far


@pytest.mark.parametrize("end", [2300.0, 2500.0, 4000.0, 5300.0, 6900.0])
@pytest.mark.parametrize("at", [700.0, 1900.0, 2450.0])
def test_no_choice_of_studs_beats_the_scarfs(end: float, at: float) -> None:
    studs = tuple(float(x) for x in range(130, int(end), 390))
    one = job(end=end, studs=studs, middles=(PictureMiddle(picture="p", at=at, clear=400.0),))
    got = place_scarfs(one)
    assert got is not None
    assert rated(one, got) <= brute_force(one)


def test_a_joint_leaves_the_stud_rather_than_stand_in_a_pictures_middle() -> None:
    """The one stud of the run lies 50 mm beside the middle; a joint off the stud is the smaller evil."""
    middle = PictureMiddle(picture="p", at=1950.0, clear=400.0)
    for studs in ((1900.0,), (1900.0, 2000.0)):
        got = place_scarfs(job(end=3900.0, studs=studs, middles=(middle,)))
        assert got is not None
        assert len(got) == 1
        assert abs(got[0] - middle.at) >= middle.clear
    assert place_scarfs(job(end=3900.0, studs=(1900.0,), middles=())) == (1900.0,)


def test_a_mirrored_run_is_joined_at_mirrored_places() -> None:
    one = job(
        end=4300.0,
        studs=(410.0, 1010.0, 1900.0, 2130.0, 3700.0),
        middles=(PictureMiddle(picture="p", at=1500.0, clear=450.0),),
    )
    flipped = replace(
        one,
        studs=tuple(sorted(4300.0 - s for s in one.studs)),
        middles=(PictureMiddle(picture="p", at=2800.0, clear=450.0),),
    )
    here, there = place_scarfs(one), place_scarfs(flipped)
    assert here
    assert there == tuple(sorted(4300.0 - x for x in here))


def test_stock_too_short_for_its_mitres_is_told() -> None:
    stub = replace(RAIL, profile=short_stock(90.0))
    plan = pair(stub, math.radians(300))
    assert ("no stock long enough", 90) in [(f.kind, f.limit) for f in plan.findings]
    assert "no stock long enough" not in kinds(pair(stub, RIGHT_ANGLE))


def test_a_stretch_too_narrow_for_its_returns_stays_bare_and_is_told() -> None:
    bare = replace(DOOR, left=30.0, casing=0.0, thickness=0.0)
    plan = plan_trim((replace(wall("only", 2000, RAIL), openings=(bare,)),), corners=(), rules=RULES)
    assert [(p.start, p.end) for p in plan.pieces] == [(830, 2000)]
    (finding,) = plan.findings
    assert (finding.kind, finding.found, finding.limit) == ("no room for a piece", 30, 40)
    wider = replace(bare, left=60.0)
    assert not plan_trim((replace(wall("only", 2000, RAIL), openings=(wider,)),), corners=(), rules=RULES).findings


@pytest.mark.parametrize(("beside", "told"), [(36.0, True), (59.0, True), (60.0, False)])
def test_a_sliver_between_a_joint_and_casing_is_told(beside: float, told: bool) -> None:
    """A rail that stands out 20 mm: a piece below 60 mm looks a mistake."""
    joint = Parting(upright=True, at=DOOR.left - DOOR.reveal - DOOR.casing - beside, low=0.0, high=2400.0)
    one = replace(wall("only", 3000, RAIL), openings=(DOOR,), partings=(joint,))
    plan = plan_trim((one,), corners=(), rules=RULES)
    slivers = [(f.found, f.limit, f.with_what) for f in plan.findings if f.kind == "sliver of a piece"]
    assert slivers == ([(pytest.approx(beside), 60.0, DOOR.name)] if told else [])


# --- cornice, base, order ----------------------------------------------------------------------------------------


def test_a_cornice_gets_compound_settings_and_the_edge_that_lies_to_the_fence() -> None:
    a, b = pair(CROWN, RIGHT_ANGLE).pieces
    for end in (a.right, b.left):
        assert math.degrees(end.saw.mitre) == pytest.approx(31.62, abs=0.005)
        assert math.degrees(end.saw.bevel) == pytest.approx(33.86, abs=0.005)
    assert (a.right.saw.fence, b.left.saw.fence) == ("bottom edge", "top edge")


def test_the_backing_strip_fills_the_hollow_and_stays_clear_of_its_neighbour() -> None:
    plan = pair(CROWN, RIGHT_ANGLE)
    first = plan.strips[0]
    (foot, _), (wide, top), _ = first.section
    assert foot == 0
    assert top == 2400
    assert wide == pytest.approx(48.93, abs=0.02)  # the section's own back ends there
    assert first.rip == CROWN.spring
    assert first.end == pytest.approx(2200 - wide)


def test_a_strip_from_thinner_timber_stops_where_the_timber_does() -> None:
    section = strip_section(CROWN, thickness=38.0)
    assert max(out for out, _ in section) == 38
    assert len(section) == 4
    assert strip_section(CROWN, thickness=60.0) == strip_section(CROWN, thickness=None)


def test_trim_goes_up_from_the_top_and_the_base_is_last() -> None:
    plan = plan_trim(
        (wall("a", 1500, BASE, RAIL, CROWN), wall("b", 1000, BASE, RAIL, CROWN)), corners=(2.0,), rules=RULES
    )
    lines = [piece.split("/")[1] for piece in plan.order]
    assert lines == ["crown", "crown", "rail", "rail", "base", "base"]
    assert "fixed last" in plan.pieces[0].note


def test_the_longest_pieces_of_a_profile_are_cut_first() -> None:
    plan = plan_trim(
        (wall("a", 900, RAIL), wall("b", 2000, RAIL), wall("c", 1100, RAIL)), corners=(2.0, 2.0), rules=RULES
    )
    assert [piece.split("/")[0] for piece in plan.cuts] == ["b", "c", "a"]


def test_a_base_thinner_than_the_coverings_gap_is_told_and_one_that_covers_it_is_not() -> None:
    walls = (wall("only", 2000, BASE),)
    plan = plan_trim(walls, corners=(), rules=replace(RULES, floor_gap=15.0))
    (finding,) = plan.findings
    assert (finding.kind, finding.found, finding.limit) == ("base does not cover the gap", 15, 15)
    assert not plan_trim(walls, corners=(), rules=replace(RULES, floor_gap=10.0)).findings


def test_a_base_that_does_not_reach_the_floor_is_told() -> None:
    plan = plan_trim((wall("only", 2000, replace(BASE, top=110.0)),), corners=(), rules=RULES)
    assert [(f.kind, f.found) for f in plan.findings] == [("base off the floor", 15)]


def test_a_saw_that_does_not_swing_to_45_degrees_cannot_cut_returns() -> None:
    plan = plan_trim((wall("only", 2000, RAIL),), corners=(), rules=replace(RULES, swing=math.radians(40)))
    assert kinds(plan) == ["mitre beyond the saw"] * 2
    assert not plan_trim((wall("only", 2000, RAIL),), corners=(), rules=RULES).findings


def test_lengths_come_out_on_the_projects_grid() -> None:
    inches = TrimRules(grid=LengthStyle.imperial())
    plan = pair(RAIL, math.radians(110), rules=inches)
    for piece in plan.pieces:
        for length in (piece.long_point, piece.short_point, piece.back, piece.front):
            assert length / (25.4 / 16) == pytest.approx(round(length / (25.4 / 16)))


# --- what is refused ---------------------------------------------------------------------------------------------


def short_stock(length: float) -> Profile:
    return replace(RAIL.profile, lengths=(length,))


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (replace(RAIL, top=2401.0), "at most the wall's height"),
        (replace(RAIL, top=50.0), "the height of rail 57 itself"),
        (replace(CROWN, spring=None), "without a spring angle"),
        (replace(CROWN, spring=math.pi / 2), "less than 90°"),
        (replace(RAIL, profile=short_stock(60.0)), "longer lengths"),
        (replace(BASE, profile=replace(BASE.profile, lengths=())), "longer lengths"),
    ],
)
def test_trim_that_cannot_be_drawn_is_refused_with_its_place(line: Moulding, words: str) -> None:
    with pytest.raises(InputError) as caught:
        plan_trim((wall("only", 2000, line),), corners=(), rules=RULES)
    assert words in str(caught.value)
    assert f'walls "only" trim "{line.name}"' in str(caught.value)


def test_a_base_taller_than_a_sill_is_refused() -> None:
    low = replace(HATCH, sill=90.0)
    with pytest.raises(InputError, match="above the sill"):
        plan_trim((replace(wall("only", 2000, BASE), openings=(low,)),), corners=(), rules=RULES)


def test_walls_and_corners_that_do_not_belong_together_are_a_callers_fault() -> None:
    with pytest.raises(ValueError, match="corners"):
        plan_trim((wall("only", 2000, RAIL),), corners=(1.5,), rules=RULES)


# --- blocks of casing and the finished floor ---------------------------------------------------------------------

FOOT = BlockBand(bottom=0.0, top=130.0, beyond=3.0, thickness=19.0)
CASED = CasedOpening(
    name="door", left=900.0, width=800.0, sill=0.0, height=2000.0, reveal=5.0, casing=57.0, thickness=16.0
)
BLOCKED = replace(CASED, blocks=(FOOT,))
THICK = replace(BASE, profile=PROFILES["base 120"], top=120.0)  # stands out 18 mm


def beside(opening: CasedOpening, *lines: Moulding, rules: TrimRules = RULES) -> TrimPlan:
    return plan_trim((replace(wall("back", 3000.0, *lines), openings=(opening,)),), corners=(), rules=rules)


def test_a_base_stops_at_the_plinth_block_and_a_rail_above_it_at_the_casing() -> None:
    plan = beside(BLOCKED, BASE, RAIL)
    stops = {p.line: p.right.station for p in plan.pieces if p.right.kind == "against casing"}
    assert stops == {"base": 900 - 5 - 57 - 3, "rail": 900 - 5 - 57}


def test_a_base_thicker_than_the_casing_dies_into_a_thicker_block_without_a_finding() -> None:
    assert kinds(beside(CASED, THICK)) == ["trim thicker than casing"]
    assert kinds(beside(BLOCKED, THICK)) == []


def test_a_base_thicker_or_higher_than_its_block_is_said() -> None:
    thin = replace(CASED, blocks=(replace(FOOT, thickness=17.0),))
    low = replace(CASED, blocks=(replace(FOOT, top=100.0),))
    assert [(f.kind, f.found, f.limit) for f in beside(thin, THICK).findings] == [("trim thicker than casing", 18, 17)]
    assert [(f.kind, f.limit) for f in beside(low, THICK).findings] == [("trim thicker than casing", 16)]


def test_a_base_on_the_finished_floor_is_not_off_it_and_one_above_is() -> None:
    rules = replace(RULES, floor=8.0)
    assert kinds(beside(CASED, replace(BASE, top=103.0), rules=rules)) == []
    off = beside(CASED, replace(BASE, top=110.0), rules=rules)
    assert [(f.kind, f.found) for f in off.findings] == [("base off the floor", 7)]


def test_refusals_tell_heights_from_the_finished_floor() -> None:
    rules = replace(RULES, floor=8.0)
    with pytest.raises(InputError) as above:
        beside(CASED, replace(RAIL, top=2420.0), rules=rules)
    assert "found top edge at 2412" in str(above.value)
    assert "2392" in str(above.value)  # of a wall 2400 mm high
    with pytest.raises(InputError) as below:
        beside(CASED, replace(BASE, top=95.0), rules=rules)
    assert "found top edge at 87" in str(below.value)
