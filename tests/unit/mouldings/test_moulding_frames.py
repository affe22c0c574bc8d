from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import pytest

from lathlight.errors import InputError
from lathlight.mouldings.frame_bays import Bay, Block, FrameTier, FrameWall, SeamLine, TrimBand, bays_of
from lathlight.mouldings.frame_gaps import Evenness, Way, choose_ways
from lathlight.mouldings.frame_layout import FrameRules, MouldingLayout
from lathlight.mouldings.frame_patterns import Least, bought_patterns, mitred_patterns
from lathlight.mouldings.frame_pieces import bought_lines, frame_pieces, piece_lines
from lathlight.mouldings.moulding_frames import MouldingFramesJob, lay_out_frames
from lathlight.units import LengthStyle

METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
TIER = FrameTier(name="panels", moulding=30.0, bottom=300.0, top=1500.0, gap=120.0)


def wall(name: str, length: float, **others: object) -> FrameWall:
    return replace(FrameWall(name=name, start=0.0, end=length, height=2440.0), **others)


def upright(name: str, x: float, *, parts: bool = False, top: float = 2440.0) -> SeamLine:
    return SeamLine(name=name, left=x, right=x, bottom=0.0, top=top, parts=parts)


def laid(*walls: FrameWall, tiers: tuple[FrameTier, ...] = (TIER,), **others: object) -> MouldingLayout:
    return lay_out_frames(replace(MouldingFramesJob(walls=walls, tiers=tiers, grid=METRIC), **others))


def counts(layout: MouldingLayout) -> list[int]:
    return [bay.pattern.count for group in layout.in_line for bay in group.bays]


def kinds(layout: MouldingLayout) -> list[str]:
    return [finding.kind for finding in layout.findings]


# --- bays --------------------------------------------------------------------------------------------------------

WINDOW = Block(name="window", left=1200.0, right=1900.0, bottom=900.0, top=2000.0)
LOW = FrameTier(name="low", moulding=30.0, bottom=200.0, top=700.0, gap=100.0)
HIGH = FrameTier(name="high", moulding=30.0, bottom=900.0, top=2200.0, gap=100.0)


def test_a_window_parts_the_wall_for_every_tier_that_stands_in_line() -> None:
    bays = bays_of(wall("w", 3000, blocks=(WINDOW,)), (LOW, HIGH))
    assert [(b.left, b.right, b.tiers, b.ends) for b in bays] == [
        (0, 1200, ("low", "high"), ("end", "block")),
        (1200, 1900, ("low",), ("in line", "in line")),
        (1900, 3000, ("low", "high"), ("block", "end")),
    ]


def test_a_window_that_no_tier_reaches_parts_nothing() -> None:
    assert len(bays_of(wall("w", 3000, blocks=(WINDOW,)), (LOW,))) == 1


def test_a_tier_nearer_than_40_mm_to_the_casing_is_blocked_and_one_at_40_mm_is_not() -> None:
    near, clear = replace(LOW, top=861.0), replace(LOW, top=860.0)
    assert len(bays_of(wall("w", 3000, blocks=(WINDOW,)), (near,))) == 2
    assert len(bays_of(wall("w", 3000, blocks=(WINDOW,)), (clear,))) == 1


def test_overlapping_blocks_leave_one_gap_in_the_wall() -> None:
    other = replace(WINDOW, name="mirror", left=1800.0, right=2100.0)
    bays = bays_of(wall("w", 3000, blocks=(WINDOW, other)), (HIGH,))
    assert [(b.left, b.right) for b in bays] == [(0, 1200), (2100, 3000)]


def test_a_bay_ends_half_a_gap_from_a_joint_only_where_that_is_asked() -> None:
    jointed = wall("w", 3000, seams=(upright("1|2", 1500, parts=True), upright("A", 700)))
    assert len(bays_of(jointed, (TIER,))) == 1
    first, last = bays_of(jointed, (replace(TIER, part_at_joints=True),))
    assert (first.right, first.right_gap, last.left_gap, first.ends[1]) == (1500, 60, 60, "joint")


def test_a_joint_below_the_frames_parts_no_bay() -> None:
    low_joint = wall("w", 3000, seams=(upright("1|2", 1500, parts=True, top=250.0),))
    assert len(bays_of(low_joint, (replace(TIER, part_at_joints=True),))) == 1


# --- one bay -----------------------------------------------------------------------------------------------------


def bay(length: float, gap: float, *, left: float = 0.0) -> Bay:
    return Bay(
        wall="w", left=left, right=left + length, left_gap=gap, right_gap=gap, ends=("end", "end"), tiers=("panels",)
    )


@pytest.mark.parametrize("grid", [METRIC, IMPERIAL])
@pytest.mark.parametrize("length", [2201.0, 2540.0, 3000.0, 1234.5])
def test_every_figure_is_on_the_grid_and_they_add_up(grid: LengthStyle, length: float) -> None:
    step = float(grid.step)
    for pattern in mitred_patterns(bay(length, 100.0), gap=100.0, least=Least(alone=120, among=120), grid=grid):
        for figure in (pattern.width, *pattern.lefts):
            assert figure / step == pytest.approx(round(figure / step), abs=1e-6)
        assert sum(pattern.gaps) + pattern.count * pattern.width == pytest.approx(length, abs=1e-9)
        assert pattern.gaps == pytest.approx([100.0] * len(pattern.gaps), abs=2 * step)


def test_what_rounding_leaves_is_alike_on_both_sides() -> None:
    patterns = list(mitred_patterns(bay(2203.0, 100.0), gap=100.0, least=Least(alone=120, among=120), grid=METRIC))
    assert [p.count for p in patterns] == list(range(1, len(patterns) + 1))
    assert all(p.gaps == pytest.approx(p.gaps[::-1]) for p in patterns)


def test_an_end_gap_of_40_mm_is_not_rounded_below_it() -> None:
    for length in range(1000, 1030):
        for pattern in mitred_patterns(bay(length, 40.0), gap=100.0, least=Least(alone=120, among=120), grid=METRIC):
            assert min(pattern.ends) >= 40


def test_several_frames_are_never_slimmer_than_asked_but_one_may_be() -> None:
    least = Least(alone=120, among=400)
    assert [p.count for p in mitred_patterns(bay(440, 120), gap=120, least=least, grid=METRIC)] == [1]
    assert [p.count for p in mitred_patterns(bay(1159, 120), gap=120, least=least, grid=METRIC)] == [1]
    assert [p.count for p in mitred_patterns(bay(1160, 120), gap=120, least=least, grid=METRIC)] == [1, 2]


def test_bought_frames_keep_their_gap_and_never_leave_the_bay() -> None:
    patterns = list(bought_patterns(bay(2000, 100), width=600, gap=100, grid=METRIC))
    assert [p.gaps for p in patterns] == [(700, 700), (350, 100, 350), (0, 100, 100, 0)]


# --- the search --------------------------------------------------------------------------------------------------


def plain_search(bays: list[list[Way]], evenness: Evenness) -> tuple[object, ...]:
    """Return the best rank by trying every pattern (second opinion, brute force)."""

    def rank(pattern: tuple[Way, ...]) -> tuple[object, ...]:
        low, high = min(w.low for w in pattern), max(w.high for w in pattern)
        first = tuple(map(sum, zip(*(w.first for w in pattern), strict=True)))
        then = tuple(map(sum, zip(*(w.then for w in pattern), strict=True)))
        odd = evenness.odd > 0 and low < evenness.odd * high
        return odd, first, max(0.0, round(high - low - evenness.unseen, 6)), then, round(high - low, 6)

    return min(rank(pattern) for pattern in itertools.product(*bays))


@pytest.mark.parametrize("seed", range(60))
def test_the_search_finds_what_trying_every_pattern_finds(seed: int) -> None:
    chance = random.Random(seed)
    bays: list[list[Way]] = []
    for _ in range(chance.randint(1, 5)):
        ways: list[Way] = []
        for _ in range(chance.randint(1, 5)):
            low = float(chance.randint(1, 40) * 25)
            ways.append(
                Way(
                    low=low,
                    high=low + chance.choice([0, 0, 60]),
                    first=(chance.randint(0, 1), chance.randint(0, 2)),
                    then=(chance.randint(0, 3), chance.randint(-4, 4)),
                )
            )
        bays.append(ways)
    evenness = Evenness(unseen=chance.choice([0.0, 25.0, 120.0]), odd=chance.choice([0.0, 0.6]))
    choice = choose_ways(bays, evenness=evenness)
    excess = max(0.0, round(choice.spread - evenness.unseen, 6))
    assert (choice.odd, choice.first, excess, choice.then, choice.spread) == plain_search(bays, evenness)
    assert choice.patterns == math.prod(map(len, bays))


@pytest.mark.parametrize(
    "lengths", [(1220, 3000, 1220), (1000, 1900), (2946.4, 3987.8), (900, 1500, 2600), (1800,), (700, 3300)]
)
def test_no_other_numbers_of_frames_are_more_even(lengths: tuple[float, ...]) -> None:
    """Second opinion: widths by the printed rule for every set of numbers, in plain loops."""
    rules = FrameRules(alike=0.0, odd=0.0)
    layout = laid(*(wall(str(n), length) for n, length in enumerate(lengths)), rules=rules)
    slimmest = TIER.height / rules.slimmest

    def widths(length: float) -> list[float]:
        found = [(length - 120 * (n + 1)) / n for n in range(1, 30)]
        return [w for n, w in enumerate(found) if w >= (slimmest if n else 120)]

    spreads = [max(pick) - min(pick) for pick in itertools.product(*map(widths, lengths))]
    assert layout.in_line[0].spread == pytest.approx(min(spreads), abs=1e-5)
    assert layout.in_line[0].patterns == len(spreads)


def test_no_bay_has_an_empty_choice() -> None:
    assert choose_ways([], evenness=Evenness()).picks == ()


# --- the whole set -----------------------------------------------------------------------------------------------


def test_a_single_wall_gets_frames_of_a_pleasing_shape() -> None:
    layout = laid(wall("back", 3000))
    assert counts(layout) == [3]
    assert not layout.findings


def test_widths_within_an_inch_count_as_alike_and_fewer_frames_win() -> None:
    assert counts(laid(wall("a", 2946.4), wall("b", 3987.8), tiers=(replace(TIER, gap=101.6),))) == [3, 4]


def test_the_end_gap_is_the_inner_gap_unless_stated() -> None:
    (same,) = laid(wall("back", 3000)).in_line[0].bays
    (other,) = laid(wall("back", 3000), tiers=(replace(TIER, end_gap=180.0),)).in_line[0].bays
    assert same.pattern.gaps == (120, 120, 120, 120)
    assert other.pattern.gaps == (180, 120, 120, 180)


def test_upper_and_lower_frames_stand_in_line_and_the_one_under_the_window_with_the_casing() -> None:
    layout = laid(wall("w", 3100, blocks=(WINDOW,)), tiers=(LOW, HIGH))
    low = [(f.left, f.right) for f in layout.frames if f.tier == "low"]
    high = [(f.left, f.right) for f in layout.frames if f.tier == "high"]
    assert set(high) < set(low)
    assert [edges for edges in low if edges not in high] == [(1200, 1900)]


def test_no_seam_crosses_a_frame_where_another_number_avoids_it() -> None:
    seamless = laid(wall("w", 2440))
    seamed = laid(wall("w", 2440, seams=(upright("A", 1220),)))
    odd = laid(wall("w", 2440, seams=(upright("A", 1220),)), tiers=(replace(TIER, top=700.0),))
    assert counts(seamless) == counts(seamed) == [2]
    assert counts(laid(wall("w", 2440), tiers=(replace(TIER, top=700.0),))) == [3]
    assert counts(odd) == [4]  # three are fewer, with the seam in the middle one
    assert "seam" not in kinds(seamed) + kinds(odd)


def test_a_seam_that_cannot_be_avoided_is_said_with_its_place() -> None:
    layout = laid(wall("w", 900, seams=(upright("A", 400),)))
    (finding,) = [f for f in layout.findings if f.kind == "seam"]
    assert (finding.wall, finding.at, finding.found) == ("w", 400, 280)
    assert "280 mm" in finding.words


def test_a_seam_under_an_upright_moulding_is_hidden_but_a_joint_there_is_not() -> None:
    assert "seam" not in kinds(laid(wall("w", 900, seams=(upright("A", 140),))))
    assert "joint" in kinds(laid(wall("w", 900, seams=(upright("A", 140, parts=True),))))


def test_frames_cross_no_joint_where_bays_end_there() -> None:
    joints = wall("w", 3000, seams=(upright("1|2", 890, parts=True), upright("2|3", 2110, parts=True)))
    assert kinds(laid(joints)).count("joint") == 2
    parted = laid(joints, tiers=(replace(TIER, part_at_joints=True),))
    assert "joint" not in kinds(parted)
    edges = [(f.left, f.right) for f in parted.frames]
    assert not any(left < x < right for x in (890, 2110) for left, right in edges)
    assert any(b - a == 120 for (_, a), (b, _) in itertools.pairwise(edges) if a < 890 < b)  # the gap across the joint


def test_slim_frames_that_keep_off_joints_say_how_many_there_would_be_without() -> None:
    tier = replace(TIER, top=TIER.bottom + 1250.0)
    joints = (upright("1|2", 660, parts=True), upright("2|3", 1340, parts=True))
    jointed, plain = laid(wall("w", 2000, seams=joints), tiers=(tier,)), laid(wall("w", 2000), tiers=(tier,))
    (said,) = [f for f in jointed.findings if f.kind == "shape"]
    assert (counts(jointed), counts(plain)) == ([3], [2])
    assert "2 instead would put seams or joints inside frames" in said.words
    assert "instead" not in "".join(f.words for f in plain.findings)


def test_a_loose_tier_may_cross_a_joint_but_its_line_counts_as_a_seam() -> None:
    joint = wall("w", 900, seams=(upright("1|2", 400, parts=True),))
    loose = replace(TIER, loose=True)
    assert "joint" in kinds(laid(joint))
    assert kinds(laid(joint, tiers=(loose,))) == kinds(laid(wall("w", 900, seams=(upright("1|2", 400),))))
    assert "seam" in kinds(laid(joint, tiers=(loose,)))
    beside = wall("w", 900, seams=(upright("1|2", 140, parts=True),))  # under the upright moulding
    assert "joint" in kinds(laid(beside))
    assert {"joint", "seam", "clear"} & set(kinds(laid(beside, tiers=(loose,)))) == set()


def test_tiers_of_which_one_parts_at_joints_do_not_stand_in_line() -> None:
    jointed = wall("w", 3000, seams=(upright("1|2", 1500, parts=True),))
    low = replace(TIER, name="low", bottom=200.0, top=700.0, part_at_joints=True)
    layout = laid(jointed, tiers=(low, replace(TIER, bottom=900.0, top=2200.0)))
    assert [[t.name for t in group.tiers] for group in layout.in_line] == [["low"], ["panels"]]
    assert "joint" not in [f.kind for f in layout.findings if "low" in f.tiers]


def test_problems_tell_heights_from_the_finished_floor() -> None:
    def problem(tier: FrameTier) -> str:
        with pytest.raises(InputError) as caught:
            laid(wall("w", 3000), tiers=(tier,), floor=8.0)
        return str(caught.value)

    high, low = problem(replace(TIER, top=2508.0)), problem(replace(TIER, bottom=3.0))
    assert "2500 mm above the floor" in high
    assert "2432 mm" in high  # of a wall 2440 mm high
    assert 'moulding_frames "panels" bottom' in low
    assert "-5 mm" in low
    assert laid(wall("w", 3000), tiers=(replace(TIER, bottom=8.0),), floor=8.0).frames


def test_a_joint_nearer_than_40_mm_is_said() -> None:
    near = laid(wall("w", 900, seams=(upright("1|2", 90, parts=True),)))
    far = laid(wall("w", 900, seams=(upright("1|2", 80, parts=True),)))
    assert [f.found for f in near.findings if f.kind == "clear"] == [30]
    assert "clear" not in kinds(far)


def test_a_rail_nearer_than_40_mm_is_said_with_the_figure() -> None:
    rail = TrimBand(name="rail", bottom=1539.0, top=1600.0)
    layout = laid(wall("w", 1000, bands=(rail,)))
    assert [(f.found, f.limit) for f in layout.findings if f.kind == "clear"] == [(39, 40)]
    assert "clear" not in kinds(laid(wall("w", 1000, bands=(replace(rail, bottom=1540.0),))))


def test_a_level_seam_across_the_frames_is_said_once_a_frame() -> None:
    level = SeamLine(name="a", left=0.0, right=3000.0, bottom=1220.0, top=1220.0)
    assert kinds(laid(wall("w", 3000, seams=(level,)))).count("seam") == 3
    assert "seam" not in kinds(laid(wall("w", 3000, seams=(replace(level, bottom=1480.0, top=1480.0),))))


def test_an_end_gap_below_40_mm_is_said() -> None:
    assert kinds(laid(wall("w", 1000), tiers=(replace(TIER, end_gap=30.0),))) == ["clear", "clear"]
    assert kinds(laid(wall("w", 1000), tiers=(replace(TIER, end_gap=40.0),))) == []


def test_a_wall_without_room_is_left_out_and_said_with_a_remedy() -> None:
    layout = laid(wall("back", 3000), wall("return", 340))
    (finding,) = [f for f in layout.findings if f.kind == "no room"]
    assert (finding.wall, finding.found, finding.limit) == ("return", 100, 120)
    assert "An end gap of at most 110 mm" in finding.remedy
    assert {f.wall for f in layout.frames} == {"back"}
    assert counts(laid(wall("return", 340), tiers=(replace(TIER, end_gap=110.0),))) == [1]


def test_one_odd_frame_is_said_where_it_cannot_be_avoided() -> None:
    layout = laid(wall("a", 1200), wall("b", 460))
    assert "odd" in kinds(layout)
    assert next(f for f in layout.findings if f.kind == "odd").wall == "b"
    assert "odd" not in kinds(laid(wall("a", 1200), wall("b", 1100)))


def test_uneven_widths_are_said_with_their_spread() -> None:
    layout = laid(wall("a", 1000), wall("b", 900))
    assert [f.found for f in layout.findings if f.kind == "uneven"] == [100]
    assert "uneven" not in kinds(laid(wall("a", 1000), wall("b", 980)))


def test_bought_frames_beyond_the_limit_of_end_gaps_are_said() -> None:
    bought = replace(TIER, bought_width=600.0)
    assert kinds(laid(wall("a", 1200), tiers=(bought,))) == ["end gap"]
    assert kinds(laid(wall("a", 1080), tiers=(bought,))) == []


def test_a_pattern_on_the_pictures_line_has_a_frame_or_a_gap_there() -> None:
    layout = laid(wall("w", 3000), tiers=(replace(TIER, middles=(("w", 1400.0),)),))
    (filled,) = layout.in_line[0].bays
    lefts, width = filled.pattern.lefts, filled.pattern.width
    middles = [x + width / 2 for x in lefts] + [(a + width + b) / 2 for a, b in itertools.pairwise(lefts)]
    assert min(abs(m - 1400) for m in middles) <= 0.5
    assert min(filled.pattern.ends) == pytest.approx(120, abs=filled.pattern.count)
    assert kinds(layout).count("outer gaps") == 1


def test_a_pattern_centred_on_a_picture_in_the_middle_is_the_walls_own() -> None:
    plain = laid(wall("w", 3000))
    centred = laid(wall("w", 3000), tiers=(replace(TIER, middles=(("w", 1500.0),)),))
    assert [(f.left, f.width) for f in centred.frames] == [(f.left, f.width) for f in plain.frames]
    assert not centred.findings


def test_bought_frames_can_be_centred_on_a_picture() -> None:
    tier = replace(TIER, bought_width=600.0, middles=(("w", 1300.0),))
    (filled,) = laid(wall("w", 3000), tiers=(tier,)).in_line[0].bays
    assert filled.pattern.count == 3
    assert filled.pattern.gaps == (640, 120, 120, 320)  # a frame on the line would leave 280 and 680
    assert filled.pattern.lefts[1] - 60 == 1300


def test_tiers_with_other_gaps_do_not_stand_in_line_and_that_is_said() -> None:
    layout = laid(wall("w", 3000), tiers=(LOW, replace(HIGH, gap=90.0)))
    assert kinds(layout).count("not in line") == 1
    assert "not in line" not in kinds(laid(wall("w", 3000), tiers=(LOW, HIGH)))


def test_heights_are_the_same_on_every_wall() -> None:
    layout = laid(wall("a", 1220), wall("b", 3000), wall("c", 1500))
    assert {(f.bottom, f.top) for f in layout.frames} == {(300, 1500)}


def test_equal_input_gives_equal_output_and_ids_are_unique() -> None:
    walls = (wall("a", 1220), wall("b", 3000, blocks=(WINDOW,)), wall("c", 1500))
    one, two = laid(*walls, tiers=(LOW, HIGH)), laid(*walls, tiers=(LOW, HIGH))
    assert one == two
    assert len({f.id for f in one.frames}) == len(one.frames)


def test_no_tiers_give_no_frames() -> None:
    assert laid(wall("a", 1000), tiers=()) == MouldingLayout(in_line=(), frames=(), findings=())


# --- bad input ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tier", "place", "found"),
    [
        (replace(TIER, gap=-20.0), 'moulding_frames "panels" gap', "-20 mm"),
        (replace(TIER, end_gap=0.0), 'moulding_frames "panels" end_gap', "0 mm"),
        (replace(TIER, top=2500.0), 'moulding_frames "panels" top', "a frame whose top is 2500 mm above the floor"),
        (replace(TIER, top=400.0), 'moulding_frames "panels" top', "a frame 100 mm high"),
        (replace(TIER, bottom=-1.0), 'moulding_frames "panels" bottom', "-1 mm"),
        (replace(TIER, bought_width=60.0), 'moulding_frames "panels" bought_width', "60 mm"),
        (replace(TIER, walls=("bakc",)), 'moulding_frames "panels" walls', '"bakc"'),
    ],
)
def test_what_cannot_be_drawn_is_one_clear_problem(tier: FrameTier, place: str, found: str) -> None:
    with pytest.raises(InputError) as caught:
        laid(wall("back", 1000), tiers=(tier,))
    (problem,) = caught.value.problems
    assert (problem.place, problem.found) == (place, found)


def test_a_tier_with_no_room_on_any_wall_is_a_problem_with_a_figure_and_a_remedy() -> None:
    with pytest.raises(InputError) as caught:
        laid(wall("back", 340))
    (problem,) = caught.value.problems
    assert problem.found == '100 mm left for frames on wall "back", the widest stretch'
    assert problem.expected == "at least 120 mm for one frame"
    assert problem.remedy == "An end gap of at most 110 mm lets one frame in."


def test_a_tier_that_a_door_blocks_wholly_is_a_problem() -> None:
    door = Block(name="door", left=0.0, right=1000.0, bottom=0.0, top=2100.0)
    with pytest.raises(InputError, match="no stretch of wall that is free at its heights"):
        laid(wall("back", 1000, blocks=(door,)))


def test_all_problems_are_told_at_once() -> None:
    with pytest.raises(InputError) as caught:
        laid(wall("back", 1000), tiers=(replace(TIER, gap=-1.0, top=9000.0), replace(TIER, name="b", bottom=-5.0)))
    assert len(caught.value.problems) == 3


# --- pieces ------------------------------------------------------------------------------------------------------


def test_four_pieces_have_a_cut_of_either_hand_each() -> None:
    pieces = frame_pieces(width=400, height=600, moulding=30)
    assert [(p.role, p.long_points, p.short_points) for p in pieces] == [
        ("top", 400, 340),
        ("right", 600, 540),
        ("bottom", 400, 340),
        ("left", 600, 540),
    ]
    assert {p.hands for p in pieces} == {("left", "right")}
    assert {math.degrees(m) for p in pieces for m in p.mitres} == {45}


def test_equal_pieces_are_listed_together_longest_first() -> None:
    lines = piece_lines([(400, 600), (400, 600), (600, 600)], moulding=30)
    assert [(line.long_points, line.number) for line in lines] == [(600, 8), (400, 4)]


def test_bought_frames_are_counted_by_size() -> None:
    assert [(b.width, b.number) for b in bought_lines([(400, 600), (500, 600), (400, 600)])] == [(500, 1), (400, 2)]


def test_a_moulding_that_closes_the_frame_is_refused() -> None:
    with pytest.raises(ValueError, match="leaves no opening"):
        frame_pieces(width=60, height=600, moulding=30)
