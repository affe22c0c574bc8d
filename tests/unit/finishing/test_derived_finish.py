"""The paint of a set from its project file: mouldings, gaps, tools, litres, and the schedule of what goes on when."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from lathlight.catalog import girth, load_catalog, width
from lathlight.finishing import Finish, areas_by_kind, finish_schedule
from lathlight.mouldings import Strip, strips_of
from lathlight.plan import Memo, Plan, derive
from lathlight.plan.finish import derive_finish
from lathlight.project import parse_project, resolve

CATALOG = load_catalog()
GALLON = 3.785411784  # [l], NIST SP 811
HEAD = """
[project]
title = "{title}"
units = "metric"
[room]
width = 9000
depth = 8000
ceiling = 3000
[set]
height = 2400
sheet = "ply 9 mm"
framing = "38x38"
[[walls]]
name = "back"
length = 3000
[[walls]]
name = "side"
length = 1200
"""
RAIL = '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 900\n'
BASE = '[[trim]]\nname = "base"\nkind = "base"\nprofile = "base 120"\n'


def plan_of(more: str, head: str = HEAD) -> Plan:
    text = head.format(title="a corner") + more
    return derive(resolve(parse_project(text, name="set.toml"), CATALOG, place="set.toml"))


def finish_of(more: str, head: str = HEAD, *, extra: tuple[Strip, ...] = ()) -> Finish:
    plan = plan_of(more, head)
    finish = derive_finish(plan.brief, plan.walls, (*strips_of(plan.trim, None), *extra), Memo())
    assert finish is not None
    return finish


def test_a_set_without_any_coat_has_no_finish() -> None:
    plan = plan_of("[finish]\ncoats = 0\nprimer_coats = 0\n")
    assert derive_finish(plan.brief, plan.walls, (), Memo()) is None


def test_a_set_left_in_its_primer_has_one_coating() -> None:
    finish = finish_of('[finish]\nprimer = "primer"\ncoats = 0\n')
    assert [c.need.coating.name for c in finish.coatings] == ["primer"]
    assert finish.faults == ()


def test_a_moulding_is_painted_over_its_girth_and_its_whole_length() -> None:
    finish = finish_of(RAIL)
    painted = areas_by_kind(finish.areas)["moulding"]
    profile = CATALOG.profiles["rail 57"]
    assert girth(profile) >= width(profile)
    assert painted == pytest.approx(girth(profile) * (3000 + 1200), rel=0.01)


def test_mouldings_bought_with_their_primer_get_none() -> None:
    bare, primed = finish_of(RAIL), finish_of(RAIL + "[finish]\nmouldings_primed = true\n")
    moulding = areas_by_kind(bare.areas)["moulding"]
    assert bare.coatings[0].need.area - primed.coatings[0].need.area == pytest.approx(moulding)
    assert bare.coatings[1].need.area == primed.coatings[1].need.area


def frame_side(upright: bool, x0: float, z0: float, x1: float, z1: float, side: str) -> Strip:
    return Strip(
        id=f"back/panels/frame 1/{side}",
        wall="back",
        use="moulding frame",
        kind="panel",
        belongs_to="panels",
        profile=CATALOG.profiles["panel 30"],
        upright=upright,
        x0=x0,
        z0=z0,
        x1=x1,
        z1=z1,
        stands_out=12.0,
        loose=False,
    )


FRAME = (
    frame_side(False, 530.0, 970.0, 2470.0, 1000.0, "bottom"),
    frame_side(False, 530.0, 1770.0, 2470.0, 1800.0, "top"),
    frame_side(True, 500.0, 970.0, 530.0, 1800.0, "left"),
    frame_side(True, 2470.0, 970.0, 2500.0, 1800.0, "right"),
)


def test_a_frame_near_the_rail_leaves_a_strip_to_the_brush() -> None:
    finish = finish_of(RAIL, extra=FRAME)
    assert [(f.fault, f.figure) for f in finish.faults] == [
        ("mouldings glued before painting", pytest.approx(70.0)),
    ]
    assert finish.gaps[0].between == ("rail", "frame 1 of panels")
    assert finish_of(RAIL + '[finish]\nmouldings = "before fixing"\n', extra=FRAME).faults == ()


def test_a_mitred_frame_is_as_long_as_the_middle_of_its_four_pieces() -> None:
    without, with_frame = finish_of(RAIL), finish_of(RAIL, extra=FRAME)
    added = areas_by_kind(with_frame.areas)["moulding"] - areas_by_kind(without.areas)["moulding"]
    middle = 2 * (2000.0 - 30.0) + 2 * (830.0 - 30.0)
    assert added == pytest.approx(girth(CATALOG.profiles["panel 30"]) * middle)


def test_the_finished_floor_stops_the_brush_where_the_covering_lies() -> None:
    low = '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 137\n'
    floor = '[floor]\ncovering = "boards"\nthickness = {}\nwidth = 3000\ndepth = 2000\n'
    for thick in (1, 20):
        widths = [gap.width for gap in finish_of(low + floor.format(thick)).gaps]
        assert widths == pytest.approx([80.0, 80.0])  # one a wall, above the finished floor


def test_a_wall_end_is_painted_once_under_its_cover() -> None:
    plain = finish_of("")
    cover = replace(
        FRAME[0], id="back/left end", use="wall end", kind="cover strip", belongs_to="left end", profile=None, x0=-9.0
    )
    assert finish_of("", extra=(cover,)).areas == plain.areas


def test_paint_at_hand_is_found_short_of_its_coats() -> None:
    short = finish_of("[finish]\npaint_at_hand = 1.0\n")
    assert [f.fault for f in short.faults] == ["paint short of its coats"]
    assert short.coatings[1].tins is None
    assert finish_of("[finish]\npaint_at_hand = 9.0\n").faults == ()


def test_raw_edges_glossy_paint_and_a_narrow_gap_are_found_from_the_file() -> None:
    assert {f.fault for f in finish_of("[finish]\npaint_edges = false\n").faults} == {"raw edge left unpainted"}
    assert [f.fault for f in finish_of('[finish]\npaint = "satin paint"\n').faults] == ["glossy sheen under flash"]
    near = BASE + '[[trim]]\nname = "rail"\nkind = "rail"\nprofile = "rail 57"\nheight = 197\n'
    assert {f.fault for f in finish_of(near).faults} == {"gap narrower than a brush"}


# --- the schedule ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("when", ["before fixing", "after fixing"])
def test_the_schedule_adds_up_to_what_the_litres_came_from(when: str) -> None:
    finish = finish_of(RAIL + BASE + f'[finish]\nmouldings = "{when}"\nmouldings_primed = true\n', extra=FRAME)
    steps = finish_schedule(finish)
    for coating in finish.coatings:
        own = [s for s in steps if s.coating == coating.need.coating.name]
        assert math.fsum(s.area for s in own) == pytest.approx(coating.need.area)
        assert {s.coats for s in own} == {coating.need.coats}
    assert [s.number for s in steps] == list(range(1, len(steps) + 1))
    brushed = math.fsum(
        s.area for s in steps if s.tool == "brush" and s.coating == finish.coatings[1].need.coating.name
    )
    assert brushed == pytest.approx(finish.brushwork)


def test_mouldings_painted_before_fixing_come_first() -> None:
    steps = finish_schedule(finish_of(RAIL + '[finish]\nmouldings = "before fixing"\n'))
    assert [(s.surface, s.stuff) for s in steps[:2]] == [("mouldings", "rail 57")] * 2
    assert all(s.surface != "mouldings" for s in steps[2:])
    assert "nail holes" in steps[0].note
    after = finish_schedule(finish_of(RAIL))
    assert after[0].surface == "faces"
    assert [s.surface for s in after if s.coating == after[0].coating][-1] == "mouldings"


def test_what_a_roller_cannot_reach_has_its_own_line() -> None:
    steps = finish_schedule(finish_of(RAIL, extra=FRAME))
    (between,) = [s for s in steps if s.surface == "faces between mouldings" and s.coats == 2]
    assert between.tool == "brush"
    assert between.area == pytest.approx(70.0 * 2000.0)


def test_several_tins_are_mixed_together_and_that_is_said_once() -> None:
    finish = finish_of("")
    for coating in finish.coatings:
        notes = [s.note for s in finish_schedule(finish) if s.coating == coating.need.coating.name]
        assert sum("one batch" in note for note in notes) == (1 if coating.note else 0)
    assert any(c.note for c in finish.coatings)


# --- an estimate every painter knows -----------------------------------------------------------------------------


@pytest.mark.published(
    source="common practice, no source", place="L of 12 ft by 8 ft with its mouldings: about three quarters of a gallon"
)
def test_two_coats_on_an_l_of_12_ft_by_8_ft_take_about_three_quarters_of_a_gallon() -> None:
    head = """
[project]
title = "{title}"
units = "imperial"
[room]
width = "20 ft"
depth = "20 ft"
ceiling = "9 ft"
[set]
height = "8 ft"
sheet = "ply 1-4 in"
framing = "2x2"
[[walls]]
name = "long"
length = "8 ft"
[[walls]]
name = "short"
length = "4 ft"
[[trim]]
name = "base"
kind = "base"
profile = "base 3 1-4 in"
[[trim]]
name = "rail"
kind = "rail"
profile = "rail 2 5-8 in"
height = "3 ft"
[finish]
paint = "matt paint US"
coats = 2
raw_loss_percent = 0
touch_up_percent = 10
primer_coats = 0
"""
    (coating,) = finish_of("", head).coatings
    assert coating.need.coating.spread == pytest.approx(350 * 0.09290304 / GALLON)
    assert coating.need.gross / GALLON == pytest.approx(0.75, abs=0.08)
    without_tray = coating.need.gross - 0.2
    assert without_tray / GALLON == pytest.approx(0.676, abs=0.05)  # with 12 % girth and 10 % loss, by hand
