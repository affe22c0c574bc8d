"""The lists of mouldings, marking out, fixing, floor and paint, held against the plan itself."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from lathlight.catalog import load_catalog
from lathlight.exports import csv_bytes, figure_words, lists
from lathlight.finishing import finish_schedule
from lathlight.plan import derive
from lathlight.project import parse_project, resolve
from lathlight.units import LengthStyle

GALLON = 3.785411784  # [l], NIST SP 811
FOOT = 0.3048  # [m]
SQUARE_FOOT = 0.09290304  # [m2]
ROUNDED = 6e-4  # amounts are written to a thousandth

OWN = """
[project]
title = "Two walls with everything"
units = "metric"
[room]
width = 9000
depth = 8000
ceiling = 3000
[set]
height = 2440
sheet = "ply 9 mm"
framing = "38x63"
left_end = "cover strip"
right_end = "return"
[[walls]]
name = "back"
length = 2946
angle_to_next = 110
[[walls.openings]]
name = "door"
kind = "door"
at = 600
width = 800
height = 2000
casing = "casing 57"
plinth_blocks = true
corner_blocks = true
[[walls]]
name = "side"
length = 2200
[[trim]]
name = "base"
kind = "base"
profile = "base 120"
[[moulding_frames]]
name = "panels"
profile = "panel 30"
walls = ["side"]
bottom = 300
top = 1500
gap = 100
bought_width = 400
[floor]
covering = "boards"
thickness = 10
width = 2400
depth = 2000
[finish]
paint = "matt paint"
[[sitters]]
name = "sitter"
"""


@pytest.fixture(scope="module")
def own_plan():
    return derive(resolve(parse_project(OWN, name="own.toml"), load_catalog(), place="own.toml"))


def rows(plan, name: str) -> list[dict[str, str]]:
    (table,) = (table for table in lists(plan, ()) if table.name == name)
    return list(csv.DictReader(io.StringIO(csv_bytes(table).decode("utf-8-sig"))))


def number(text: str) -> float:
    return float(text or 0)


# --- mouldings -----------------------------------------------------------------------------------------------------


def test_every_frame_hangs_where_the_plan_has_it_heights_from_the_finished_floor(plan_of) -> None:
    plan = plan_of("parlour")
    assert plan.brief.floor.rise == 8
    found = {row["Id"]: row for row in rows(plan, "moulding frames")}
    assert set(found) == {frame.id for frame in plan.frames.frames}
    for frame in plan.frames.frames:
        row = found[frame.id]
        assert float(row["Bottom [mm]"]) == pytest.approx(frame.bottom - 8)
        assert float(row["Top [mm]"]) - float(row["Bottom [mm]"]) == pytest.approx(float(row["Height [mm]"]))
        assert float(row["From left [mm]"]) == pytest.approx(frame.left)


def test_pieces_of_mitred_frames_add_up_to_the_takeoff(plan_of) -> None:
    plan = plan_of("parlour")
    found = rows(plan, "frame pieces")
    assert sum(int(row["Number"]) for row in found) == 4 * len(plan.frames.frames)
    run = sum(int(row["Number"]) * float(row["Long points [mm]"]) for row in found)
    (line,) = (row.line for row in plan.takeoff if row.line.item == "panel 30")
    assert run / 1000 == pytest.approx(line.net)
    for row in found:
        assert float(row["Long points [mm]"]) - float(row["Short points [mm]"]) == pytest.approx(2 * 30)


def test_frames_that_are_bought_whole_are_counted_by_size(own_plan) -> None:
    (row,) = rows(own_plan, "frame pieces")
    assert (row["What"], int(row["Number"])) == ("frame", len(own_plan.frames.frames))
    assert (row["Width [mm]"], row["Height [mm]"], row["Long points [mm]"]) == ("400", "1200", "")


def test_every_piece_and_block_of_casing_is_listed_with_its_cuts(own_plan) -> None:
    found = {row["Id"]: row for row in rows(own_plan, "casing")}
    (casing,) = own_plan.casings
    assert set(found) == {part.id for part in (*casing.pieces, *casing.blocks)}
    assert {row["What"] for row in found.values()} >= {"left leg", "right leg", "head", "plinth block", "corner block"}
    for block in casing.blocks:
        assert float(found[block.id]["Bottom [mm]"]) == pytest.approx(block.z0 - 10)
        assert float(found[block.id]["Width [mm]"]) == pytest.approx(block.width)
    assert {float(found[b.id]["Bottom [mm]"]) for b in casing.blocks if b.kind == "plinth block"} == {0.0}


def test_mitred_casing_says_how_the_saw_is_set(plan_of) -> None:
    found = rows(plan_of("schoolhall"), "casing")
    assert {row["First swing [°]"] for row in found} == {"45"}
    assert all("outer edge to the fence" in row["Last saw"] for row in found)


def test_wall_ends_say_what_lies_over_them(own_plan, plan_of) -> None:
    left, right = rows(own_plan, "wall ends")
    assert (left["Finish"], right["Finish"], right["Stock"]) == ("cover strip", "return", "ply 9 mm")
    assert float(right["Thickness [mm]"]) == 9
    assert [row["Thickness [mm]"] for row in rows(plan_of("parlour"), "wall ends")] == ["", ""]


# --- openings ------------------------------------------------------------------------------------------------------


def test_a_door_is_as_high_above_the_finished_floor_as_the_file_says(own_plan) -> None:
    (row,) = rows(own_plan, "openings")
    assert (row["Sill [mm]"], row["Clear height [mm]"]) == ("0", "2000")


# --- marking out ---------------------------------------------------------------------------------------------------


def test_every_height_is_told_from_level_line_floor_and_foot(demo_plan) -> None:
    if demo_plan.marking is None:
        pytest.skip("nothing to mark")
    marking = demo_plan.marking
    found = rows(demo_plan, "marking out")
    assert {row["Id"] for row in found} == {mark.id for mark in marking.heights}
    assert sum(bool(row["Flat"]) for row in found) == len(marking.flats)
    for row in found:
        level = float(row["From finished floor [mm]"]) - float(row["From level line [mm]"])
        assert level == pytest.approx(marking.level.height, abs=1e-3)
    assert [r["Level line"] for r in rows(demo_plan, "story stick")].count("yes") == 1


def test_both_sides_of_every_frame_are_marked(plan_of) -> None:
    plan = plan_of("parlour")
    found = rows(plan, "marking frames")
    assert {row["Frame"] for row in found} == {frame.id for frame in plan.frames.frames}


# --- fixing --------------------------------------------------------------------------------------------------------


def test_heads_beads_and_clamps_of_sheets_are_the_plans(demo_plan) -> None:
    found = rows(demo_plan, "sheet fixing")
    fixing = demo_plan.fixing
    assert [row["Sheet piece"] for row in found] == [sheet.piece for sheet in fixing.sheets]
    assert sum(int(row["Heads"]) for row in found) == len(fixing.heads)
    assert all(int(row["Heads"]) == int(row["Hidden"]) + int(row["Filled"]) for row in found)
    for row in found:
        by_line = [int(each.rpartition(" ")[2]) for each in row["Hidden by"].split("; ") if each]
        assert sum(by_line) == int(row["Hidden"])
    metre = FOOT if demo_plan.brief.style.system == "imperial" else 1.0
    (title,) = (key for key in found[0] if key.startswith("Glue bead ["))
    run = sum(number(row[title]) * metre for row in found)
    assert run == pytest.approx(sum(s.bead_length for s in fixing.sheets) / 1000, abs=ROUNDED * len(found))


def test_brads_and_screws_of_mouldings_are_those_of_the_hardware(demo_plan) -> None:
    found = rows(demo_plan, "moulding fixing")
    assert sorted(row["Moulding"] for row in found) == sorted(strip.id for strip in demo_plan.strips)
    brads = sum(c.number for c in demo_plan.fixing.hardware if c.use == "mouldings")
    assert sum(int(row["Brads"]) for row in found) == brads


def test_every_joint_and_corner_has_its_hardware_and_its_brackets(demo_plan) -> None:
    found = {row["Id"]: row for row in rows(demo_plan, "joints")}
    fixing = demo_plan.fixing
    assert set(found) == {*(joint.joint for joint in fixing.joints), *(corner.corner for corner in fixing.corners)}
    for corner in fixing.corners:
        assert int(found[corner.corner]["Number"]) == len(corner.heights)
        assert len(found[corner.corner]["Temporary brackets at"].split("; ")) == len(corner.temporary)


def test_gluing_names_the_day_that_needs_most_weights(plan_of) -> None:
    plan = plan_of("parlour")
    found = rows(plan, "gluing")
    assert [row["Flat"] for row in found] == [flat.id for flat in plan.flats]
    assert {int(row["Day"]) for row in found if row["Most weights"]} == {plan.fixing.busiest.day}


# --- floor, paint, takeoff -----------------------------------------------------------------------------------------


def test_floor_rows_fill_the_covering(plan_of) -> None:
    plan = plan_of("parlour")
    *strips, whole = rows(plan, "floor")
    assert len(strips) == len(plan.floor.rows)
    assert sum(float(row["Width [mm]"]) for row in strips) == pytest.approx(float(whole["Width [mm]"]))
    firsts = [float(row["From [mm]"]) for row in strips]
    assert firsts == sorted(firsts)
    assert firsts[0] == 0


def test_rows_along_the_set_are_told_from_the_back(plan_of) -> None:
    plan = plan_of("parlour")
    floor = plan.floor
    x0, y0, x1, y1 = floor.extent
    rows_along = (
        replace(floor.rows[0], number=1, low=y1 - 190, high=y1, start=x0, end=x1),
        replace(floor.rows[0], number=2, low=y0, high=y0 + 100, start=x0, end=x1, joints=(x0 + 700,)),
    )
    found = rows(replace(plan, floor=replace(floor, runs="along", rows=rows_along)), "floor")
    assert float(found[0]["From [mm]"]) == 0
    assert float(found[1]["From [mm]"]) == pytest.approx(y1 - y0 - 100)
    assert found[1]["Joints from its start"] == "700"


@pytest.mark.parametrize(("name", "unit", "litre"), [("parlour", "l", 1.0), ("schoolhall", "US gal", GALLON)])
def test_net_and_every_allowance_make_up_the_gross_in_the_projects_own_unit(plan_of, name, unit, litre) -> None:
    plan = plan_of(name)
    found = rows(plan, "paint")
    for row, coating in zip(found, plan.finish.coatings, strict=True):
        parts = [number(value) for title, value in row.items() if title.endswith(f" [{unit}]")]
        *added, gross = parts
        assert sum(added) == pytest.approx(gross, abs=ROUNDED * len(parts))
        assert gross * litre == pytest.approx(coating.need.gross, abs=ROUNDED * litre)
        assert row["Tins"]


@pytest.mark.parametrize(("name", "unit", "size"), [("parlour", "m²", 1.0), ("schoolhall", "sq ft", SQUARE_FOOT)])
def test_the_finish_schedule_paints_what_the_coatings_are_for(plan_of, name, unit, size) -> None:
    plan = plan_of(name)
    found = rows(plan, "finish schedule")
    assert len(found) == len(finish_schedule(plan.finish))
    for coating in plan.finish.coatings:
        own = [row for row in found if row["Coating"] == coating.need.coating.name]
        area = sum(number(row[f"Area, one coat [{unit}]"]) * size for row in own)
        assert area == pytest.approx(coating.need.area / 1e6, abs=ROUNDED * len(own))


def test_net_and_allowance_make_up_the_gross_of_every_row_of_the_takeoff(demo_plan) -> None:
    found = rows(demo_plan, "takeoff")
    assert [row["Item"] for row in found] == [row.line.item for row in demo_plan.takeoff]
    for row in found:
        assert number(row["Net"]) + number(row["Allowance"]) == pytest.approx(number(row["Gross"]), abs=2 * ROUNDED)
        assert not number(row["Allowance"]) or row["Reason"]
    own = {"", "l", "m", "m²"} if demo_plan.brief.style.system == "metric" else {"", "US gal", "ft", "sq ft"}
    assert {row["Unit"] for row in found} <= own
    assert {row["Trade"] for row in found} >= {"timber", "sheets", "mouldings", "fixing", "paint"}


def test_a_run_in_feet_is_the_run_in_metres(plan_of) -> None:
    plan = plan_of("schoolhall")
    (metres,) = (row.line.net for row in plan.takeoff if row.line.item == "rail 2 5-8 in")
    (row,) = (row for row in rows(plan, "takeoff") if row["Item"] == "rail 2 5-8 in")
    assert row["Unit"] == "ft"
    assert float(row["Net"]) * FOOT == pytest.approx(metres, abs=ROUNDED)
    assert row["Net in words"] == f"{metres / FOOT:.1f} ft"


def test_millilitres_of_filler_are_told_in_fluid_ounces_in_feet_and_inches() -> None:
    """By hand: 3 ml over 29.57 ml."""
    assert figure_words(3.0, "ml", LengthStyle.metric()) == "3 ml"
    assert figure_words(3.0, "ml", LengthStyle.imperial()) == "0.1 US fl oz"
