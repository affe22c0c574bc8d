"""The plan as JSON: its shape by the schema, its figures by the plan, its boxes by the solids."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.carpentry import flat_solids
from lathlight.exports import plan_json, plan_schema
from lathlight.snags import Severity, Snag, find_snags
from lathlight.working import Working

REFERENCE = Path(__file__).parents[3] / "docs" / "reference" / "plan-json.md"
ROUNDING = 1e-3  # figures are written to a ten-thousandth of a millimetre
CHECK = jsonschema.Draft202012Validator(plan_schema())


def document(plan, snags=()) -> dict:
    return json.loads(plan_json(plan, snags))


def test_the_schema_itself_is_sound() -> None:
    jsonschema.Draft202012Validator.check_schema(plan_schema())


def test_every_demo_set_keeps_the_schema(demo_plan) -> None:
    CHECK.validate(document(demo_plan, find_snags(demo_plan)))


def test_the_schema_refuses_what_it_does_not_know(plan_of) -> None:
    plan = document(plan_of("corner-metric"))
    assert not CHECK.is_valid(plan | {"extra": 1})
    assert not CHECK.is_valid({key: value for key, value in plan.items() if key != "walls"})
    plan["members"][0]["length"] = "long"
    assert not CHECK.is_valid(plan)


def test_boxes_of_members_are_those_of_their_solids(demo_plan) -> None:
    solids = {part.id: part.solid for flat in demo_plan.flats for part in flat_solids(flat)}
    for member in document(demo_plan)["members"]:
        for found, wanted in zip(member["box"], solids[member["id"]].box, strict=True):
            assert found == pytest.approx(wanted, abs=ROUNDING)


def test_every_part_of_the_plan_is_there(demo_plan) -> None:
    found = document(demo_plan)
    assert [m["id"] for m in found["members"]] == [m.id for m in demo_plan.members]
    assert [p["id"] for p in found["pieces"]] == [p.id for p in demo_plan.pieces]
    assert [f["id"] for f in found["flats"]] == [f.id for f in demo_plan.flats]
    assert sum(line["number"] for line in found["timber"]) == sum(line.number for line in demo_plan.timber)


def test_what_belongs_together_names_each_other(demo_plan) -> None:
    found = document(demo_plan)
    flats = {flat["id"] for flat in found["flats"]}
    assert {part["flat"] for key in ("members", "pieces", "openings") for part in found[key]} <= flats
    assert {
        side for wall in found["walls"] for joint in wall["joints"] for side in (joint["left"], joint["right"])
    } <= flats
    cut = {identity for key in ("timber", "panels") for line in found[key] for identity in line["ids"]}
    packed = {each for key in ("boards", "sheets") for pack in found[key] for board in pack["pieces"] for each in board}
    assert {each.split("/layer ")[0] for each in packed} == cut
    assert cut >= {part["id"] for key in ("members", "pieces") for part in found[key]}
    assert {piece["id"] for sheet in found["cut_sheets"] for piece in sheet["pieces"]} <= packed


def test_equal_plans_give_equal_bytes_and_no_set_order_leaks(plan_of) -> None:
    plan = plan_of("parlour")
    assert plan_json(plan, find_snags(plan)) == plan_json(plan, find_snags(plan))
    assert all(piece["factory_edges"] == sorted(piece["factory_edges"]) for piece in document(plan)["pieces"])


def test_angles_are_degrees_and_no_limit_is_null(plan_of) -> None:
    plan = plan_of("parlour")
    assert [corner["angle"] for corner in document(plan)["corners"]] == [110, 110]
    snag = Snag(
        id="x@set",
        check="x",
        severity=Severity.KNOW,
        place="set",
        what="w",
        figure=1.5707963267948966,
        limit=float("inf"),
        unit="rad",
        remedy="r",
        why=Working(formula="f"),
    )
    (found,) = document(plan, [snag])["snags"]
    assert (found["figure"], found["limit"], found["unit"]) == (90, None, "degree")


def test_what_was_assumed_stands_under_its_key_with_its_value(plan_of) -> None:
    found = {(each["place"], each["what"]): each for each in document(plan_of("parlour"))["assumed"]}
    spacing = found["walls/back", "stud_spacing"]
    assert (spacing["value"], spacing["unit"]) == (610, "mm")
    assert spacing["working"]["formula"].startswith("the smaller of")
    assert found["project", "paper"]["value"] == "A4"


def test_words_of_a_user_come_back_as_they_were(plan_of) -> None:
    plan = plan_of("corner-metric")
    title = 'Ünï "quoted" \\ \u2028 \t <b> 漢'
    brief = replace(plan.brief, title=replace(plan.brief.title, title=title))
    assert document(replace(plan, brief=brief))["project"]["title"] == title


def test_one_line_holds_one_part(plan_of) -> None:
    plan = plan_of("corner-metric")
    lines = plan_json(plan, ()).decode().splitlines()
    assert all(sum(m.id == json.loads(line.strip().rstrip(","))["id"] for m in plan.members) <= 1 for line in lines
               if line.startswith('  {"id"'))  # fmt: skip
    assert sum(line.startswith('  {"id"') for line in lines) >= len(plan.members)


def test_the_trim_stands_in_millimetres_and_degrees(plan_of) -> None:
    plan = plan_of("parlour")
    trim = document(plan)["trim"]
    assert [p["id"] for p in trim["pieces"]] == [p.id for p in plan.trim.pieces]
    back = next(p for p in trim["pieces"] if p["id"] == "back/base/1")
    assert back["right"]["saw"] == {"mitre": 35, "bevel": 0, "swing": "left", "fence": "back", "kept": "left"}
    assert (back["back"], back["profile"]) == (3000, "base 120")
    assert {m["angle"] for m in trim["meetings"]} == {110}
    ids = {p["id"] for p in trim["pieces"]}
    assert set(trim["order"]) == set(trim["cuts"]) == ids
    assert {each["piece"] for each in trim["returns"]} <= ids
    assert '   {"id":"back/base/1"' in plan_json(plan, ()).decode(), "a piece stands on a line of its own"


def test_every_kind_of_end_strip_and_meeting_keeps_the_schema(plan_of) -> None:
    found = document(replace(plan_of("parlour"), trim=made_up_trim()))
    CHECK.validate(found)
    ends = {p[side]["kind"] for p in found["trim"]["pieces"] for side in ("left", "right")}
    assert {"cope", "against the wall", "scarf", "returned", "outside mitre"} <= ends
    assert found["trim"]["strips"]


def test_a_set_without_trim_has_none_and_keeps_the_schema(plan_of) -> None:
    found = document(replace(plan_of("parlour"), trim=None))
    CHECK.validate(found)
    assert found["trim"] is None


def test_what_is_put_on_the_walls_is_there_and_names_what_it_belongs_to(demo_plan) -> None:
    found = document(demo_plan)
    strips = {strip["id"] for strip in found["strips"]}
    members = {member["id"] for member in found["members"]}
    assert strips == {strip.id for strip in demo_plan.strips}
    heads = [head for sheet in found["fixing"]["sheets"] for head in sheet["heads"]]
    assert len(heads) == len(demo_plan.fixing.heads)
    assert {head["hidden_by"] for head in heads} - {None} <= strips
    assert {head["member"] for head in heads} <= members
    assert {bead["member"] for sheet in found["fixing"]["sheets"] for bead in sheet["beads"]} <= members
    assert {moulding["strip"] for moulding in found["fixing"]["mouldings"]} == strips
    assert {turn["flat"] for turn in found["fixing"]["gluing"]} <= {flat["id"] for flat in found["flats"]}
    corners = {corner["id"] for corner in found["corners"]}
    assert {corner["corner"] for corner in found["fixing"]["corners"]} == corners


def test_sums_of_takeoff_and_paint_hold_in_the_document(demo_plan) -> None:
    found = document(demo_plan)
    for row in found["takeoff"]:
        assert row["net"] + row["allowance"] == pytest.approx(row["gross"], abs=3e-4)
    for coating in found["finish"]["coatings"]:
        added = sum(each["litres"] for each in coating["allowances"])
        assert coating["net"] + added == pytest.approx(coating["gross"], abs=3e-4)
        assert sum(tin["size"] * tin["number"] for tin in coating["tins"]) >= coating["gross"]
        own = [step["area"] for step in found["finish"]["schedule"] if step["coating"] == coating["coating"]]
        assert sum(own) == pytest.approx(coating["area"], rel=1e-6)


def test_frames_and_gaps_fill_their_bays_in_the_document(plan_of) -> None:
    frames = document(plan_of("parlour"))["moulding_frames"]
    assert frames["bays"]
    for bay in frames["bays"]:
        filled = sum(bay["gaps"]) + bay["width"] * (len(bay["gaps"]) - 1)
        assert filled == pytest.approx(bay["right"] - bay["left"], abs=ROUNDING)


def test_marks_add_up_to_the_level_line_in_the_document(plan_of) -> None:
    marking = document(plan_of("parlour"))["marking"]
    assert marking["rise"] == 8
    for mark in marking["heights"]:
        assert mark["height"] - mark["offset"] == pytest.approx(marking["level_line"]["height"])
    assert {mark["mark"] for mark in marking["flats"]} <= {mark["id"] for mark in marking["heights"]}


def test_a_set_with_nothing_on_it_has_nulls_and_keeps_the_schema(plan_of) -> None:
    plan = replace(plan_of("parlour"), frames=None, marking=None, floor=None, finish=None, casings=(), strips=())
    found = document(plan)
    CHECK.validate(found)
    assert [found[key] for key in ("moulding_frames", "marking", "floor", "finish")] == [None] * 4


def test_the_reference_names_every_key_of_the_document() -> None:
    words = REFERENCE.read_text(encoding="utf-8")
    headings = set(re.findall(r"^### `(\w+)`", words, flags=re.MULTILINE))
    assert headings == set(plan_schema()["properties"])
    for name, schema in plan_schema()["properties"].items():
        section = words.split(f"### `{name}`", 1)[1].split("\n### ", 1)[0]
        for key in schema.get("items", schema).get("properties", {}):
            assert f"`{key}`" in section, f"{name}.{key} is not described"
