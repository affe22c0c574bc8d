"""Paint, fixing, frames, floor and picture heights as the file states them, or as the trade usually has them.

Figures that no file states are common practice, no source.
"""

from __future__ import annotations

import pytest
from tests.unit.project.made_up import BARE

from lathlight.catalog import load_catalog
from lathlight.project import Brief, assumptions, dump_project, parse_project, resolve


def brief_of(more: str = "", *, units: str = "metric") -> Brief:
    text = BARE.format(units=units) + more
    return resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml")


def assumed(brief: Brief) -> set[str]:
    return {each.id for each in assumptions(brief)}


# --- paint ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("units", "paint", "primer"), [("metric", "", ""), ("imperial", " US", " US")])
def test_every_set_has_its_paint(units: str, paint: str, primer: str) -> None:
    finish = brief_of(units=units).finish
    assert finish.paint is not None
    assert finish.primer is not None
    assert (finish.paint.name, finish.primer.name) == (f"flat paint{paint}", f"primer{primer}")
    assert (finish.coats, finish.primer_coats, finish.touch_up, finish.raw_loss) == (2, 1, 0.1, 0.25)


def test_what_is_stated_of_paint_is_taken() -> None:
    finish = brief_of(
        '[finish]\npaint = "eggshell paint"\nprimer = "sealer"\ncolour = "plum"\ncoats = 3\nprimer_coats = 2\n'
        'mouldings = "before fixing"\nmouldings_primed = true\npaint_edges = false\npaint_backs = true\n'
        'touch_up_percent = 5\nraw_loss_percent = 40\npaint_at_hand = "750 ml"\nprimer_at_hand = 2.5\n'
        'roller = "230 mm"\nbrush = "50 mm"\n'
    ).finish
    assert finish.paint is not None
    assert finish.primer is not None
    assert (finish.paint.name, finish.primer.name, finish.colour) == ("eggshell paint", "sealer", "plum")
    assert (finish.coats, finish.primer_coats, finish.touch_up, finish.raw_loss) == (3, 2, 0.05, 0.4)
    assert (finish.mouldings, finish.mouldings_primed) == ("before fixing", True)
    assert (finish.edges, finish.backs) == (False, True)
    assert (finish.paint_at_hand, finish.primer_at_hand) == (0.75, 2.5)
    assert (finish.roller, finish.brush) == (230, 50)


@pytest.mark.parametrize(
    ("lines", "paint", "primer"),
    [
        ("coats = 0", None, None),
        ("coats = 0\nprimer_coats = 1", None, "primer"),
        ('coats = 0\nprimer = "sealer"', None, "sealer"),
        ("primer_coats = 0", "flat paint", None),
        ('primer = "sealer"\nprimer_coats = 0', "flat paint", None),
        ('paint = "satin paint"', "satin paint", "primer"),
    ],
)
def test_no_coats_are_no_paint(lines: str, paint: str | None, primer: str | None) -> None:
    finish = brief_of(f"[finish]\n{lines}\n").finish
    assert (finish.paint.name if finish.paint else None) == paint
    assert (finish.primer.name if finish.primer else None) == primer
    assert (finish.coats > 0, finish.primer_coats > 0) == (paint is not None, primer is not None)


def test_a_set_without_paint_assumes_nothing_about_coats() -> None:
    found = {each for each in assumed(brief_of("[finish]\ncoats = 0\n")) if each.startswith("finish/")}
    assert found == {"finish/roller", "finish/brush"}


@pytest.mark.parametrize(("units", "roller", "brush"), [("metric", 100, 25), ("imperial", 101.6, 25.4)])
def test_roller_and_brush_have_their_usual_widths(units: str, roller: float, brush: float) -> None:
    finish = brief_of(units=units).finish
    assert (finish.roller, finish.brush) == (roller, brush)


LIGHT = '[[lights]]\nname = "{role}"\nrole = "{role}"\n'


@pytest.mark.parametrize(
    ("roles", "flashed"), [((), True), (("key", "ambient"), True), (("ambient",), False), (("background",), True)]
)
def test_a_set_is_flashed_unless_all_its_light_is_ambient(roles: tuple[str, ...], flashed: bool) -> None:
    brief = brief_of("".join(LIGHT.format(role=role) for role in roles))
    assert brief.finish.flashed is flashed
    assert ("lights/flashed" in assumed(brief)) == (not roles)


# --- fixing --------------------------------------------------------------------------------------------------------


def test_fixings_are_of_the_projects_own_system() -> None:
    metric, imperial = brief_of().fixing, brief_of(units="imperial").fixing
    assert (metric.glue.name, metric.moulding_glue.name) == ("PVA wood glue", "construction adhesive")
    assert (imperial.glue.name, imperial.moulding_glue.name) == ("PVA wood glue US", "construction adhesive US")
    assert (metric.filler.name, imperial.filler.name) == ("fine filler", "fine filler US")
    assert (metric.bracket.name, imperial.bracket.name) == ("angle bracket 50", "angle bracket 2 in")
    assert metric.connector.name == imperial.connector.name == "concealed connector"
    assert metric.weight.name == imperial.weight.name == "stage weight"
    assert (metric.screw_spacing, metric.brad_spacing) == (200, 300)
    assert (imperial.screw_spacing, imperial.brad_spacing) == (203.2, 304.8)


@pytest.mark.parametrize(("units", "ends"), [("metric", False), ("imperial", True)])
def test_screws_brads_pins_and_bolts_of_one_system_stand_by_name(units: str, ends: bool) -> None:
    rows = brief_of(units=units).fixing.fasteners
    assert {row.kind for row in rows} == {"screw", "brad", "pin", "bolt"}
    assert [row.name for row in rows] == sorted(row.name for row in rows)
    assert {row.name.endswith(" in") for row in rows} == {ends}


def test_a_screw_that_the_project_adds_can_be_chosen_in_either_system() -> None:
    row = '[[catalog.fasteners]]\nname = "deck screw"\nlike = "screw 4x50"\nlength = "55 mm"\n'
    assert "deck screw" in {each.name for each in brief_of(row, units="imperial").fixing.fasteners}


def test_what_is_stated_of_fixing_is_taken() -> None:
    fixing = brief_of(
        '[fixing]\nsheets = "pins"\nhold = "temporary screws"\nweight = "brick"\nglue = "construction adhesive"\n'
        'moulding_glue = "mitre glue"\nscrew_spacing = 150.4\nbrad_spacing = 250\njoints = "bolts"\n'
    ).fixing
    assert (fixing.sheets, fixing.hold, fixing.joints) == ("pins", "temporary screws", "bolts")
    assert (fixing.weight.name, fixing.glue.name) == ("brick", "construction adhesive")
    assert fixing.moulding_glue.name == "mitre glue"
    assert (fixing.screw_spacing, fixing.brad_spacing) == (150, 250)


# --- mouldings, ends, openings, floor ------------------------------------------------------------------------------

FRAMES = """\
[[pictures]]
name = "portrait"
lens = 85
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = 300.4
top = 1800
gap = 100.4
end_gap = 80
bought_width = 500
centre_on = "portrait"
walls = ["back"]
part_at_joints = true
loose = true
"""


def test_a_tier_of_frames_is_handed_on_as_wished_on_the_grid() -> None:
    (tier,) = brief_of(FRAMES).frames
    assert (tier.name, tier.profile.name, tier.bottom, tier.top) == ("panels", "panel 30", 300, 1800)
    assert (tier.gap, tier.end_gap, tier.bought_width) == (100, 80, 500)
    assert (tier.centre_on, tier.walls, tier.part_at_joints, tier.loose) == ("portrait", ("back",), True, True)


def test_ends_of_the_set_and_of_trim_are_handed_on() -> None:
    text = BARE.format(units="metric").replace("[set]", '[set]\nleft_end = "return"\nright_end = "cover strip"')
    text += '[[trim]]\nname = "r"\nkind = "rail"\nprofile = "rail 57"\nheight = 900\ninside = "cope"\nends = "square"\n'
    brief = resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml")
    assert brief.ends == ("return", "cover strip")
    (line,) = brief.walls[0].trim
    assert (line.inside, line.ends) == ("cope", "square")


def test_blocks_of_a_casing_are_handed_on() -> None:
    opening = '[[walls.openings]]\nname = "door"\nkind = "door"\nat = 500\nwidth = 700\nheight = 2000\n'
    plain = brief_of(opening).walls[0].openings[0]
    both = brief_of(opening + "plinth_blocks = true\ncorner_blocks = true\n").walls[0].openings[0]
    assert (plain.plinth_blocks, plain.corner_blocks) == (False, False)
    assert (both.plinth_blocks, both.corner_blocks) == (True, True)


def test_a_floor_is_handed_on_as_stated() -> None:
    floor = brief_of(
        '[floor]\ncovering = "boards"\nthickness = 8\nwidth = 3600\ndepth = 2400\nexpansion_gap = 9\n'
        'sheet_width = 190\nsheet_length = 1220\nstrips = "along"\n'
    ).floor
    assert (floor.covering, floor.thickness, floor.stands_on, floor.rise) == ("boards", 8, "floor", 8)
    assert (floor.width, floor.depth, floor.expansion_gap) == (3600, 2400, 9)
    assert (floor.strip_width, floor.strip_length, floor.strips) == (190, 1220, "along")


def test_no_floor_assumes_nothing() -> None:
    brief = brief_of()
    assert (brief.floor.covering, brief.floor.rise, brief.floor.width) == ("none", 0, None)
    assert not {each for each in assumed(brief) if each.startswith("floor/") or each == "set/stands_on"}


# --- the upper edge of a picture -----------------------------------------------------------------------------------

CROWN, EYES = 1700.0, 1587.0  # of a usual sitter [mm]: stature, less 113 mm from crown to eye


@pytest.mark.parametrize(
    ("lines", "top"),
    [
        ("", CROWN + 102),  # headroom: 6 % of the stature
        ('framing = "full length"', CROWN + 102),
        ("headroom = 150", CROWN + 150),
        ('framing = "measured"\nframing_height = 900', CROWN + 102),
        ('framing = "measured"\nframing_height = 900\nheadroom = 40', CROWN + 40),
        ('framing = "measured"\nframing_height = 300', EYES + 150),  # close: the eyes come to the middle
        ('framing = "measured"\nframing_height = 2600', 2600 - 102),  # high: as much below the feet as usual
        ("distance = 2000", CROWN + 102),  # 36 mm at 85 mm from 2 m: 847 mm
    ],
)
def test_the_upper_edge_of_a_picture_leaves_room_over_the_head(lines: str, top: float) -> None:
    (picture,) = brief_of(f'[[pictures]]\nname = "one"\nlens = 85\n{lines}\n').pictures
    assert picture.frame_top == pytest.approx(top)


def test_somebody_who_sits_is_framed_from_their_own_crown() -> None:
    text = '[[sitters]]\nname = "a"\nseated = true\nseat_height = 460\n[[pictures]]\nname = "one"\nlens = 85\n'
    (picture,) = brief_of(text).pictures
    assert picture.frame_top == pytest.approx(460 + 0.52 * 1700 + 102)


def test_tables_of_mouldings_floor_fixing_and_finish_are_written_as_they_were_read() -> None:
    text = BARE.format(units="imperial") + FRAMES.replace("panel 30", "panel 1 1-8 in").replace("300.4", '"12 in"')
    for bare, inches in (("1800", "70 in"), ("100.4", "4 in"), ("= 80", "3 in"), ("500", "20 in")):
        text = text.replace(f"= {bare.removeprefix('= ')}\n", f'= "{inches}"\n')
    text += '[floor]\ncovering = "boards"\nthickness = "1/4 in"\nsheet_width = "6 in"\nsheet_length = "4 ft"\n'
    text += '[fixing]\nsheets = "pins"\nweight = "brick"\nscrew_spacing = "6 in"\n'
    text += '[finish]\npaint_at_hand = "1 us gal"\nroller = "7 in"\n'
    project = parse_project(text, name="a.toml")
    assert parse_project(dump_project(project), name="b.toml") == project
