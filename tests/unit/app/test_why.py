"""Any value can be asked how it came about, and the answer reads well and is exact."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from lathlight.app import by_kind, find_subject, plan_project, subject_document, subjects, working_in_words
from lathlight.app.run import Planned
from lathlight.app.subject import Subject
from lathlight.app.why import (
    _assumed,
    _corners,
    _flats,
    _passages,
    _quantities,
    _size,
    _snags,
    _stock,
    _trim,
    _walls,
)
from lathlight.app.why_dressing import dressing_subjects
from lathlight.carpentry import Packed
from lathlight.errors import InputError
from lathlight.units import LengthStyle
from lathlight.working import Working

EXAMPLES = Path(__file__).parents[3] / "examples"
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()


@pytest.fixture(scope="module")
def planned() -> Planned:
    return plan_project(EXAMPLES / "parlour.toml")


def test_every_part_of_the_plan_and_every_snag_can_be_asked_about(planned: Planned) -> None:
    known = subjects(planned)
    plan = planned.plan
    parts = [
        *plan.quantities,
        *plan.flats,
        *plan.members,
        *plan.pieces,
        *plan.corners,
        *(plan.trim.pieces if plan.trim else ()),
        *(seam for wall in plan.walls for seam in wall.seams),
        *planned.snags,
    ]
    assert {part.id for part in parts} <= set(known)
    assert {wall.name for wall in plan.walls} <= set(known)
    assert all(subject.why.formula and subject.why.source for subject in known.values())


def test_every_working_of_what_is_put_on_the_walls_can_be_asked_for(planned: Planned) -> None:
    known = subjects(planned)
    plan = planned.plan
    assert plan.frames
    assert plan.finish
    assert {frame.id for frame in plan.frames.frames} | {end.id for end in plan.ends} <= set(known)
    assert {area.id for area in plan.finish.areas} <= set(known)
    held = {*(s.piece for s in plan.fixing.sheets), *(j.joint for j in plan.fixing.joints)}
    held |= {corner.corner for corner in plan.fixing.corners} | {s.strip for s in plan.fixing.strips if s.brads}
    assert {f"{each}/fixing" for each in held} <= set(known)
    assert {"marking/level line", "marking/story stick", "floor/area", "paint/flat paint", "fixing/gluing"} <= set(
        known
    )
    assert sum(subject.kind == "takeoff" for subject in known.values()) == len(plan.takeoff)


def test_no_two_things_share_an_id(planned: Planned) -> None:
    plan = planned.plan
    every = [*_quantities(plan), *_walls(plan), *_flats(plan), *_corners(plan), *_trim(plan), *dressing_subjects(plan),
             *_passages(plan), *_stock(plan), *_snags(planned), *_assumed(plan.brief)]  # fmt: skip
    assert len({subject.id for subject in every}) == len(every)
    assert set(subjects(planned)) == {subject.id for subject in every}


def test_a_moulding_frame_tells_its_heights_from_the_finished_floor(planned: Planned) -> None:
    frame = next(f for f in planned.plan.frames.frames if f.tier == "lower")
    said = told(planned, frame.id)
    assert said["bottom edge above the finished floor"] == "240 mm"
    assert said["height"] == "530 mm"
    words = dict(working_in_words(subjects(planned)[frame.id], METRIC))
    assert words["value"] == said["width"] == f"{frame.width:g} mm"


def test_tins_are_told_in_the_projects_units(planned: Planned) -> None:
    tins = subjects(planned)["paint/primer/tins"]
    sizes = [words for head, words in working_in_words(tins, LengthStyle.imperial()) if head == "from"]
    assert "a size on sale: 0.20 US gal" in sizes  # 0.75 l, by hand
    assert not [words for words in sizes if words.endswith(" l")]


def test_tiers_are_found_by_their_name(planned: Planned) -> None:
    found = find_subject(subjects(planned), "moulding frames/upper")
    assert dict(working_in_words(found, METRIC))["and"]
    assert find_subject(subjects(planned), "panel 30").id == "takeoff/mouldings/panel 30"


def test_a_row_of_the_takeoff_tells_net_allowance_and_gross(planned: Planned) -> None:
    known = subjects(planned)
    found = dict(working_in_words(known["takeoff/paint/flat paint"], METRIC))
    assert found["value"] == "3.55 l"
    assert told(planned, "takeoff/paint/flat paint") == {"net": "3.05 l", "allowance": "0.50 l"}
    boards = next(row for row in planned.plan.takeoff if row.trade == "timber")
    assert known[f"takeoff/timber/{boards.line.item}"].why.value == boards.line.gross


def test_paint_is_told_in_gallons_where_the_project_is_imperial() -> None:
    planned = plan_project(EXAMPLES / "schoolhall.toml")
    found = working_in_words(subjects(planned)["paint/eggshell paint US"], IMPERIAL)
    assert dict(found)["value"] == "0.75 US gal"
    assert ("from", "spreading rate: 350 sq ft/US gal") in found


def test_casing_tells_its_points_and_how_the_saw_is_set() -> None:
    planned = plan_project(EXAMPLES / "schoolhall.toml")
    said = told(planned, "back/window/head")
    assert said["long point to long point"] == "3'-1\""
    assert said["short point to short point"] == "2'-8 1/2\""
    note = dict(working_in_words(subjects(planned)["back/window/head"], IMPERIAL))["note"]
    assert note.startswith("left end, mitre: swing 45°")


def test_a_misspelt_id_of_the_new_things_finds_the_nearest(planned: Planned) -> None:
    with pytest.raises(InputError, match="paint/flat paint"):
        find_subject(subjects(planned), "paint/flat pant")
    with pytest.raises(InputError, match="marking/level line"):
        find_subject(subjects(planned), "marking/levl line")


def test_lengths_read_as_on_the_drawings(planned: Planned) -> None:
    known = subjects(planned)
    assert dict(working_in_words(known["set/width"], METRIC))["value"] == "3834.5 mm"
    said = dict(working_in_words(known["set/length"], IMPERIAL))
    assert said["value"] == "17'-10 3/16\""


def test_the_words_give_value_formula_inputs_and_source_in_this_order() -> None:
    why = Working(formula="height less two plates", inputs=(("height", 2250.0, "mm"),), source="geometry of the set")
    stud = Subject(id="a/1/stud/0", kind="member", what="stud of 38x38", value=2174.0, unit="mm", why=why)
    assert working_in_words(stud, METRIC) == (
        ("what", "stud of 38x38"),
        ("value", "2174 mm"),
        ("how", "height less two plates"),
        ("from", "height: 2250 mm"),
        ("source", "geometry of the set"),
    )


def test_an_infinite_figure_has_no_value_in_a_document() -> None:
    why = Working(formula="none stated", inputs=(("limit", math.inf, "mm"), ("sum", 0.1 + 0.2, "")))
    said = subject_document(Subject(id="x", kind="assumed", what="width", value=math.inf, unit="mm", why=why))
    assert said["value"] is None
    assert said["inputs"] == [
        {"name": "limit", "value": None, "unit": "mm"},
        {"name": "sum", "value": 0.3, "unit": ""},
    ]


def test_an_id_may_be_typed_without_the_signs_that_a_shell_minds(planned: Planned) -> None:
    known = subjects(planned)
    assert find_subject(known, "left return back").id == "left return|back"
    assert find_subject(known, "SET/WEIGHT").id == "set/weight"
    assert find_subject(known, "workshop/trim cut").id == "workshop/trim_cut"


def test_the_end_of_an_id_will_do_where_no_other_has_it(planned: Planned) -> None:
    known = subjects(planned)
    assert find_subject(known, "trim_cut").id == "workshop/trim_cut"
    with pytest.raises(InputError, match="Which one: walls/left return/stud_spacing or walls/back/stud_spacing"):
        find_subject(known, "stud spacing")


def test_ids_of_stock_to_buy_need_no_quotation_marks() -> None:
    known = subjects(plan_project(EXAMPLES / "corner-imperial.toml"))
    assert {"buy/2x2/8ft", "buy/ply 3-8 in/8ftx4ft"} <= set(known)
    assert not [each for each in by_kind(known.values())["stock"] if set(each) & set("'\"|&;()<>$`\\*?[]#~!{}")]


def test_stock_of_the_other_system_keeps_its_size_in_the_id() -> None:
    pack = Packed(stock="s", length=2440.0, width=1219.2, number=1, pieces=(), spare=0, why=Working(formula="f"))
    assert _size(pack, IMPERIAL) == "2440-mmx4ft"
    assert _size(replace(pack, width=1225.55), IMPERIAL) == "2440-mmx4ft-0-1-4in"
    assert _size(pack, METRIC) == "2440x1219.2"


def test_what_was_assumed_is_found_by_the_key_that_would_state_it(planned: Planned) -> None:
    said = dict(working_in_words(find_subject(subjects(planned), "set/flats/max_weight"), METRIC))
    assert said["what"] == "heaviest flat allowed: the file does not state it"
    assert said["value"] == "33.3 kg"
    said = dict(working_in_words(find_subject(subjects(planned), "walls/back/stud_spacing"), METRIC))
    assert said["what"] == "studs at most apart (back): the file does not state it"


# --- corners -----------------------------------------------------------------------------------------------------


def told(planned: Planned, identity: str) -> dict[str, str]:
    pairs = working_in_words(subjects(planned)[identity], planned.plan.brief.style)
    figures = (text.rpartition(": ") for heading, text in pairs if heading == "and")
    return {name: value for name, _, value in figures}


def test_a_corner_tells_angle_style_laps_reaches_bevels_and_wedges(planned: Planned) -> None:
    said = told(planned, "left return|back")
    assert said["inside angle"] == "110°"
    assert said["frame that laps"] == "back's, chosen"
    assert said["sheet that laps"] == "back's, chosen"
    # DESIGN's table of reaches with w = 110 degrees, sheets 9 mm, frames 63 mm, the right wall's parts lapping
    assert said["left return: sheet past the corner line, exact, at its front"] == "0 mm"
    assert said["left return: sheet past the corner line, exact, at its back"] == "-3.3 mm"
    assert said["back: sheet past the corner line, exact, at its front"] == "9.6 mm"
    assert said["back: sheet as cut, at its front"] == "6 mm"
    assert said["left return: bevel of the sheet's right edge from square"] == "20°"
    assert said["back: frame past the corner line, exact, at its front"] == "73.3 mm"
    assert said["back: frame as cut, square"] == "73 mm"
    assert said["left return: wedge at the frame's right end, widest side"] == "23.3 mm"


def test_a_piece_of_trim_tells_its_lengths_its_cuts_and_how_the_saw_is_set(planned: Planned) -> None:
    found = dict(working_in_words(find_subject(subjects(planned), "back/base/1"), METRIC))
    assert found["value"] == "3000 mm"
    assert "base 120" in found["what"]
    assert "left end, inside mitre: swing 35° right; back to the fence" in found["note"]
    assert "stands on the floor covering" in found["note"]


def test_a_set_without_trim_is_asked_about_without_it(planned: Planned) -> None:
    bare = replace(planned, plan=replace(planned.plan, trim=None))
    assert "trim" not in by_kind(s for s in subjects(bare).values())


def test_cut_counts_of_a_corner_are_said_to_be_those_of_trial_walls(planned: Planned) -> None:
    corner = subjects(planned)["left return|back"]
    assert "trial walls" in dict(working_in_words(corner, METRIC))["note"]
    assert "trial walls" in str(subject_document(corner)["note"])
    assert "note" not in dict(working_in_words(subjects(planned)["set/weight"], METRIC))


@pytest.mark.parametrize(
    ("angle", "wish", "words"),
    [
        ("110", "auto", "lapped, chosen by the angle"),
        ("140", "auto", "arris to arris, chosen by the angle"),
        ("110", "mitre", "mitred, as the project file wishes"),
        ("140", "lap", "arris to arris, although the project file wishes lapped (above 135°"),
        ("80", "arris", "lapped, although the project file wishes arris to arris (below 90°"),
    ],
)
def test_a_corner_tells_whether_its_style_was_wished_or_chosen(
    angle: str, wish: str, words: str, tmp_path: Path
) -> None:
    text = (EXAMPLES / "corner-metric.toml").read_text(encoding="utf-8")
    file = tmp_path / "corner.toml"
    file.write_text(text.replace("angle_to_next = 90", f'angle_to_next = {angle}\ncorner = "{wish}"'), encoding="utf-8")
    assert told(plan_project(file), "back|side")["style"].startswith(words)


def test_the_nearest_ids_are_offered_and_where_none_is_near_the_list(planned: Planned) -> None:
    known = subjects(planned)
    with pytest.raises(InputError, match="set/weight"):
        find_subject(known, "set/wieght")
    with pytest.raises(InputError, match="lists every id"):
        find_subject(known, "zzzzzzzzzzzz")


def test_ids_are_listed_by_kind(planned: Planned) -> None:
    known = subjects(planned)
    kinds = by_kind(known.values())
    assert sum(map(len, kinds.values())) == len(known)
    assert kinds["wall"] == ("left return", "back", "right return")
