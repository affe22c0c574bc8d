"""The order of work: all steps, this set's own flats, and nothing that only holds for another set."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from tests.unit.mouldings.made_up import made_up_trim

from lathlight.book import assembly_order, work_steps
from lathlight.units import drawing_length

TITLES = [
    *("Cut", "Frame", "Square", "Skin", "Dry-assemble", "Mark", "Take down"),
    *("Trim", "Fill", "Paint", "Stand", "Brace", "Base", "Touch up"),
]


def words(plan) -> dict[str, str]:
    return {step.title: "\n".join(step.lines) for step in work_steps(plan)}


def test_the_steps_come_in_the_order_of_the_trade(demo_plan) -> None:
    assert [step.title for step in work_steps(demo_plan)] == TITLES
    assert all(line.strip() for step in work_steps(demo_plan) for line in step.lines)


def test_every_flat_is_stood_up_once(demo_plan) -> None:
    assert sorted(f.id for f in assembly_order(demo_plan)) == sorted(f.id for f in demo_plan.flats)


def test_every_flat_but_the_first_joins_what_stands_already(plan_of) -> None:
    plan = plan_of("parlour")
    places = {flat.id: (i, j) for i, wall in enumerate(plan.walls) for j, flat in enumerate(wall.flats)}
    order = [places[flat.id] for flat in assembly_order(plan)]
    everything = sorted(places.values())
    neighbours = set(pairwise(everything)) | {(b, a) for a, b in pairwise(everything)}
    for number, place in enumerate(order[1:], start=1):
        assert any((place, standing) in neighbours for standing in order[:number]), f"{place} stands alone"


def test_the_middle_wall_is_first_and_taking_down_is_the_reverse(plan_of) -> None:
    plan = plan_of("parlour")
    order = [flat.mark for flat in assembly_order(plan)]
    assert order[0] == plan.walls[1].flats[0].mark
    assert " → ".join(order) in words(plan)["Stand"]
    assert " → ".join(reversed(order)) in words(plan)["Take down"]


def test_squaring_names_every_diagonal(demo_plan) -> None:
    square = words(demo_plan)["Square"]
    for flat in demo_plan.flats:
        assert f"{flat.mark} {drawing_length(flat.diagonal, style=demo_plan.brief.style)}" in square


def test_a_frame_that_laps_is_said_to_stand_beyond_its_sheet(plan_of) -> None:
    plan = plan_of("corner-metric")
    skin = words(plan)["Skin"]
    beyond = [(f, f.sheet_x0 - f.x0, f.x1 - f.sheet_x1) for f in plan.flats]
    laps = [(f, max(left, right)) for f, left, right in beyond if max(left, right) > 1]
    assert laps, "the quick start has a lapping corner"
    for flat, amount in laps:
        line = next(line for line in skin.splitlines() if line.startswith(flat.mark))
        assert f"the frame stands {amount:.0f} mm beyond the sheet" in line


def test_corners_say_how_many_screws_from_which_bay(plan_of) -> None:
    plan = plan_of("corner-metric")
    screws = next(c.screws for c in plan.corners if c.screws)
    mark = next(w.mark for w in plan.walls if w.name == screws.from_wall)
    assert f"{len(screws.heights)} × {screws.screw.name} from wall {mark}'s bay" in words(plan)["Dry-assemble"]


def test_a_straight_wall_has_no_word_about_corners(plan_of) -> None:
    plan = plan_of("schoolhall")
    assert "orner" not in words(plan)["Dry-assemble"]
    assert "a straight wall does not stand by itself" in words(plan)["Stand"]


def test_the_base_is_fixed_last_and_nowhere_else(plan_of) -> None:
    plan = plan_of("parlour")
    kinds = {line.name: line.kind for wall in plan.brief.walls for line in wall.trim}
    base = [name for name, kind in kinds.items() if kind == "base"]
    assert base
    found = words(plan)
    for name, kind in kinds.items():
        assert (name in found["Base"]) == (kind == "base")
        assert (name in found["Trim"]) == (kind != "base")


def test_trim_is_fixed_in_the_plans_order_the_base_apart(demo_plan) -> None:
    found = words(demo_plan)
    base = [p.id for p in demo_plan.trim.pieces if p.kind == "base"]
    told = [each for each in demo_plan.trim.order if each not in base]
    assert " → ".join(told) in found["Trim"]
    assert " → ".join(each for each in demo_plan.trim.order if each in base) in found["Base"]
    assert not any(each in found["Trim"] for each in base)


def test_a_corner_where_one_line_runs_on_is_named(plan_of) -> None:
    found = words(replace(plan_of("parlour"), trim=made_up_trim(cope=True)))
    assert (
        "Corner LR–B: rail of back runs on to the wall and is fixed first, rail of left return is coped to it."
        in (found["Trim"])
    )
    assert "runs on" not in found["Base"]
    assert "runs on" not in words(plan_of("parlour"))["Trim"]


def test_a_set_without_trim_says_so(plan_of) -> None:
    plan = plan_of("parlour")
    bare = replace(plan, brief=replace(plan.brief, walls=tuple(replace(w, trim=()) for w in plan.brief.walls)))
    assert words(bare)["Base"] == "This set has no base."
    assert "no trim" in words(bare)["Trim"]


def test_the_heaviest_flat_names_the_people_it_takes(plan_of) -> None:
    plan = plan_of("parlour")
    crew = replace(plan.brief.crew, lift_per_person=9.0)
    small = replace(plan, brief=replace(plan.brief, crew=crew))
    heaviest = max(f.weight.value for f in plan.flats)
    assert f"at least {-int(-heaviest // 9)} people at 9.0 kg each" in words(small)["Stand"]


def test_bracing_is_never_promised(demo_plan) -> None:
    assert words(demo_plan)["Brace"].startswith("STANDING NOT CHECKED")


def test_painting_names_the_coats_and_the_colour_of_the_project(plan_of) -> None:
    plan = plan_of("parlour")
    finish = plan.brief.project.finish
    paint = words(plan)["Paint"]
    assert finish.colour
    assert f"then {finish.coats} coats of {finish.colour}" in paint
    assert f"Mouldings are painted {finish.mouldings}" in paint
