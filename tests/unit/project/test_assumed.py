"""Whatever a file does not state is taken by a rule, and can be asked for by the key that would state it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.project.made_up import BARE

from lathlight.catalog import load_catalog
from lathlight.plan.cache import canonical_bytes
from lathlight.project import Assumption, Brief, Change, assumptions, parse_project, resolve, set_values
from lathlight.project.assumed import LABELS, TABLES

MORE = """
[[walls.openings]]
name = "hatch"
kind = "window"
at = "0.5 m"
width = "0.6 m"
height = "1 m"
casing = "casing 57"
[[walls.openings]]
name = "niche"
kind = "arch"
at = "1.3 m"
width = "0.6 m"
height = "1 m"
[[walls]]
name = "side"
length = "1.4 m"
[[room.doors]]
name = "shed door"
clear_width = "0.9 m"
clear_height = "2 m"
[[room.way_in]]
name = "bend"
kind = "turn"
clear_width = "1 m"
clear_height = "2 m"
[[room.way_in]]
name = "steps"
kind = "stairs"
clear_width = "1 m"
clear_height = "2 m"
[[trim]]
name = "rail"
kind = "rail"
profile = "rail 57"
height = "0.85 m"
[[moulding_frames]]
name = "panels"
profile = "panel 30"
bottom = "1 m"
top = "2 m"
gap = "0.1 m"
[floor]
covering = "boards"
sheet_width = "0.19 m"
[[sitters]]
name = "potter"
seated = true
[[pictures]]
name = "head"
lens = 85
"""


def brief_of(text: str, *, units: str = "metric") -> Brief:
    text = text.format(units=units)
    return resolve(parse_project(text, name="a.toml"), load_catalog(), place="a.toml", text=text)


def by_id(brief: Brief) -> dict[str, Assumption]:
    return {each.id: each for each in assumptions(brief)}


def test_a_bare_file_tells_every_default_it_was_planned_with() -> None:
    assert list(by_id(brief_of(BARE))) == [
        *("project/precision", "project/revision", "project/paper"),
        *("set/clear_behind", "set/at", "set/turn", "set/seams"),
        *("set/left_end", "set/right_end", "set/flats/max_weight"),
        *("walls/back/sheet", "walls/back/framing", "walls/back/stud_spacing"),
        *("fixing/sheets", "fixing/hold", "fixing/joints", "fixing/weight"),
        *("fixing/screw_spacing", "fixing/brad_spacing", "fixing/glue", "fixing/moulding_glue"),
        *("finish/paint", "finish/primer", "finish/coats", "finish/touch_up_percent", "finish/primer_coats"),
        *("finish/raw_loss_percent", "finish/mouldings", "finish/mouldings_primed"),
        *("finish/paint_edges", "finish/paint_backs", "finish/roller", "finish/brush"),
        "lights/flashed",
        *("workshop/kerf", "workshop/trim_cut", "workshop/spare_boards"),
        *("workshop/people", "workshop/lift_per_person"),
        *("fittings/corner plate", "fittings/frame screw", "fittings/filler", "fittings/bracket"),
    ]


def test_every_entry_tells_what_it_does_not_state() -> None:
    found = set(by_id(brief_of(BARE + MORE))) - set(by_id(brief_of(BARE)))
    assert found == {
        "room/doors/shed door/side",
        "room/doors/shed door/at",
        "room/doors/shed door/run_inside",
        "room/way_in/bend/turn_angle",
        "room/way_in/steps/slope",
        "walls/back/angle_to_next",
        "walls/back/openings/hatch/sill",
        "walls/back/openings/hatch/lining",
        "walls/back/openings/hatch/lining_depth",
        "walls/back/openings/hatch/gap",
        "walls/back/openings/hatch/reveal",
        "walls/back/openings/niche/sill",
        "walls/back/openings/niche/lining",
        "walls/back/openings/niche/rise",
        "walls/side/sheet",
        "walls/side/framing",
        "walls/side/stud_spacing",
        "trim/rail/inside",
        "trim/rail/ends",
        "moulding_frames/panels/end_gap",
        "moulding_frames/panels/centre_on",
        "floor/thickness",
        "floor/width",
        "floor/depth",
        "floor/expansion_gap",
        "floor/strips",
        "set/stands_on",
        "sitters/potter/stature",
        "sitters/potter/forward",
        "sitters/potter/right",
        "sitters/potter/seat_height",
        "pictures/head/sitters",
        "pictures/head/sensor",
        "pictures/head/framing",
        "pictures/head/headroom",
        "pictures/head/angles",
        "pictures/head/camera_height",
        "fittings/sill strap",
        "fittings/corner screw",
    }


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_what_is_told_is_what_the_plan_takes(units: str) -> None:
    brief = brief_of(BARE + MORE, units=units)
    told = {identity: each.why.value for identity, each in by_id(brief).items()}
    wall, (sitter,), (picture,) = brief.walls[0], brief.sitters, brief.pictures
    hatch, niche = wall.openings
    assert told["project/paper"] == brief.title.paper
    assert told["project/precision"] == float(brief.style.step)
    assert told["set/clear_behind"] == brief.place.clear_behind
    assert told["set/flats/max_weight"] == brief.limits.max_weight
    assert told["set/seams"] == brief.seams
    assert (told["walls/back/sheet"], told["walls/back/framing"]) == (wall.sheet.name, wall.framing.name)
    assert told["walls/back/stud_spacing"] == wall.stud_spacing
    assert told["walls/back/angle_to_next"] == brief.corners[0].angle == math.pi / 2
    for key in ("sill", "lining", "lining_depth", "gap", "reveal"):
        assert told[f"walls/back/openings/hatch/{key}"] == getattr(hatch, key)
    assert told["walls/back/openings/niche/rise"] == pytest.approx(niche.rise, abs=1)
    assert (told["workshop/kerf"], told["workshop/trim_cut"]) == (brief.saw.kerf, brief.saw.trim_cut)
    assert told["workshop/people"] == brief.crew.people
    assert told["workshop/lift_per_person"] == brief.crew.lift_per_person
    assert (told["sitters/potter/stature"], told["sitters/potter/forward"]) == (sitter.stature, sitter.forward)
    assert told["pictures/head/camera_height"] == picture.camera_height[0]
    assert told["pictures/head/sitters"] == picture.sitter.name == "potter"
    assert told["room/doors/shed door/run_inside"] == brief.room.doors[0].run_inside
    assert told["room/way_in/bend/turn_angle"] == brief.room.way_in[0].turn_angle
    assert told["room/way_in/steps/slope"] == brief.room.way_in[1].slope
    assert told["fittings/corner screw"] == brief.hardware.corner_screw.name
    assert told["fittings/frame screw"] == brief.hardware.frame_screw.name
    assert (told["set/left_end"], told["set/right_end"]) == brief.ends


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_what_is_told_of_mouldings_floor_fixing_and_finish_is_what_the_plan_takes(units: str) -> None:
    brief = brief_of(BARE + MORE.replace("57", "2 1-4 in").replace("rail 2 1-4 in", "rail 2 5-8 in"), units=units)
    told = {identity: each.why.value for identity, each in by_id(brief).items()}
    (line,), (tier,), finish, fixing = brief.walls[0].trim, brief.frames, brief.finish, brief.fixing
    assert (told["trim/rail/inside"], told["trim/rail/ends"]) == (line.inside, line.ends)
    assert (told["moulding_frames/panels/end_gap"], tier.end_gap) == ("as the gap", None)
    assert told["moulding_frames/panels/centre_on"] == tier.centre_on
    for key in ("thickness", "expansion_gap", "strips"):
        assert told[f"floor/{key}"] == getattr(brief.floor, key)
    assert told["set/stands_on"] == brief.floor.stands_on
    for key in ("sheets", "hold", "screw_spacing", "brad_spacing", "joints"):
        assert told[f"fixing/{key}"] == getattr(fixing, key)
    for key in ("weight", "glue", "moulding_glue"):
        assert told[f"fixing/{key}"] == getattr(fixing, key).name
    assert (told["fittings/filler"], told["fittings/bracket"]) == (fixing.filler.name, fixing.bracket.name)
    assert finish.paint is not None
    assert finish.primer is not None
    assert (told["finish/paint"], told["finish/primer"]) == (finish.paint.name, finish.primer.name)
    for key in ("coats", "primer_coats", "mouldings", "roller", "brush"):
        assert told[f"finish/{key}"] == getattr(finish, key)
    assert told["finish/touch_up_percent"] == pytest.approx(100 * finish.touch_up)
    assert told["finish/raw_loss_percent"] == pytest.approx(100 * finish.raw_loss)


def test_every_id_has_words_and_a_working() -> None:
    for each in assumptions(brief_of(BARE + MORE)):
        assert each.label == LABELS[f"{each.table}/{each.key}"]
        assert each.table in TABLES
        assert each.why.formula
        assert each.why.value is not None


IN_THE_FILE = {  # what is told in words, as the file would state it
    "project/precision": "1 mm",
    "workshop/spare_boards": True,
    "sitters/potter/seated": False,
    "pictures/head/sensor": (24.0, 36.0),
    "pictures/head/angles": (0.0, 0.0),
    "pictures/head/sitters": ("potter",),
    "finish/mouldings_primed": False,
    "finish/paint_edges": True,
    "finish/paint_backs": False,
}
NOT_AS_TOLD = (  # found later, or no key of the file
    *("set/at", "floor/width", "floor/depth", "moulding_frames/panels/end_gap", "lights/flashed"),
)
STATABLE = [
    identity
    for identity in by_id(brief_of(BARE + MORE))
    if not identity.startswith("fittings/") and identity not in NOT_AS_TOLD
]


@pytest.mark.parametrize("identity", STATABLE)
def test_to_state_under_its_id_what_is_told_changes_nothing_but_that_it_is_stated(identity: str) -> None:
    text = (BARE + MORE).format(units="metric")
    before = brief_of(text)
    value = IN_THE_FILE.get(identity, by_id(before)[identity].why.value)
    stated = set_values(text, [Change(path=tuple(identity.split("/")), value=value, why="")])
    after = resolve(parse_project(stated, name="b.toml"), load_catalog(), place="b.toml")
    assert list(by_id(after)) == [each for each in by_id(before) if each != identity]
    assert canonical_bytes(replace(after, project=before.project)) == canonical_bytes(before)


def test_every_label_is_in_use() -> None:
    texts = (BARE + MORE, BARE + MORE.replace("seated = true", ""), BARE + '[fixing]\njoints = "connectors"\n')
    found = [each for text in texts for each in assumptions(brief_of(text))]
    assert {f"{each.table}/{each.key}" for each in found} == set(LABELS)


def test_a_stated_place_needs_no_depth_behind() -> None:
    found = by_id(brief_of(BARE.replace("[set]", '[set]\nat = ["2 m", "3 m"]')))
    assert not {"set/at", "set/clear_behind"} & set(found)


def test_a_distance_needs_no_framing() -> None:
    found = by_id(brief_of(BARE + MORE + "distance = 2000\n"))
    assert not {"pictures/head/framing", "pictures/head/headroom"} & set(found)


def test_what_the_set_states_is_stated_for_all_walls() -> None:
    found = by_id(brief_of((BARE + MORE).replace("[set]", '[set]\nsheet = "ply 12 mm"\nstud_spacing = 400')))
    assert {key for key in found if key.startswith("walls/") and key.count("/") == 2} == {
        "walls/back/framing",
        "walls/back/angle_to_next",
        "walls/side/framing",
    }


def test_somebody_usual_stands_in_where_a_file_has_pictures_and_no_sitters() -> None:
    found = by_id(brief_of(BARE + '[[pictures]]\nname = "head"\nlens = 85\n'))
    assert found["sitters/sitter/stature"].why.value == 1700.0
    assert found["sitters/sitter/forward"].why.value == 1500.0


def test_the_word_on_seams_reaches_the_brief() -> None:
    assert brief_of(BARE).seams == "save sheets"
    assert brief_of(BARE.replace("[set]", '[set]\nseams = "save pictures"')).seams == "save pictures"


def test_what_was_assumed_is_part_of_no_memo_key() -> None:
    brief = brief_of(BARE)
    walls = tuple(replace(wall, assumed={}) for wall in brief.walls)
    bare = replace(brief, assumed={}, walls=walls, limits=replace(brief.limits, assumed={}))
    assert assumptions(bare) == ()
    assert canonical_bytes(bare) == canonical_bytes(brief)
    assert canonical_bytes(replace(brief, seams="save pictures")) != canonical_bytes(brief)
