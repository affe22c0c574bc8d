"""The order of work: all steps, this set's own flats, and nothing that only holds for another set."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from tests.unit.mouldings.made_up import made_up_trim

from lathlight.book import assembly_order, work_steps
from lathlight.plan import derive
from lathlight.units import drawing_length

FIRST = ["Cut", "Frame", "Square", "Skin", "Dry-assemble", "Mark", "Take down"]
LAST = ["Base", "Touch up"]


def words(plan) -> dict[str, str]:
    return {step.title: "\n".join(step.lines) for step in work_steps(plan)}


def titles(plan) -> list[str]:
    return [step.title for step in work_steps(plan)]


def changed(plan, **finish):
    return replace(plan, brief=replace(plan.brief, finish=replace(plan.brief.finish, **finish)))


def on_covering(plan):
    return replace(plan, brief=replace(plan.brief, floor=replace(plan.brief.floor, stands_on="covering")))


def test_the_steps_come_in_the_order_of_the_trade(demo_plan) -> None:
    found = titles(demo_plan)
    assert found[:7] == FIRST
    assert found[-2:] == LAST
    assert found.index("Stand") + 1 == found.index("Brace")
    assert all(line.strip() for step in work_steps(demo_plan) for line in step.lines)


def test_mouldings_painted_before_they_are_fixed_go_on_after_the_paint(plan_of) -> None:
    early = titles(changed(plan_of("parlour"), mouldings="before fixing"))
    late = titles(changed(plan_of("parlour"), mouldings="after fixing"))
    assert early[7:10] == ["Fill", "Paint", "Mouldings"]
    assert late[7:10] == ["Mouldings", "Fill", "Paint"]


def test_the_covering_lies_before_the_base_or_under_the_flats(plan_of) -> None:
    plan = plan_of("parlour")
    beside, under = titles(plan), titles(on_covering(plan))
    assert beside.index("Brace") < beside.index("Floor") < beside.index("Base")
    assert under.index("Floor") < under.index("Stand")
    assert "Floor" not in titles(replace(plan, floor=None))


def test_what_comes_off_for_a_move_goes_on_after_standing(plan_of) -> None:
    plan = plan_of("parlour")
    found = titles(plan)
    assert found.index("Brace") < found.index("Loose mouldings") < found.index("Base")
    rails = [p.id for p in plan.trim.pieces if p.loose and p.kind != "base"]
    assert rails
    assert all(each in words(plan)["Loose mouldings"] and each not in words(plan)["Mouldings"] for each in rails)


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


def mouldings(plan) -> str:
    found = words(plan)
    return "\n".join(found[title] for title in ("Mouldings", "Loose mouldings") if title in found)


def test_the_base_is_fixed_last_and_nowhere_else(plan_of) -> None:
    plan = plan_of("parlour")
    base = [p.id for p in plan.trim.pieces if p.kind == "base"]
    others = [p.id for p in plan.trim.pieces if p.kind != "base"]
    assert base
    assert others
    assert all(each in words(plan)["Base"] and each not in mouldings(plan) for each in base)
    assert all(each in mouldings(plan) and each not in words(plan)["Base"] for each in others)


def test_trim_is_fixed_in_the_plans_order(demo_plan) -> None:
    pieces = {piece.id: piece for piece in demo_plan.trim.pieces}
    found = words(demo_plan)
    for title, base in (("Loose mouldings", False), ("Base", True)):
        told = [e for e in demo_plan.trim.order if pieces[e].loose and (pieces[e].kind == "base") == base]
        assert not told or " → ".join(told) in found[title]


def test_moulding_frames_and_casing_are_told_once_in_their_turn(plan_of) -> None:
    frames = words(plan_of("parlour"))["Mouldings"]
    assert "upper frames of left return → upper frames of back → upper frames of right return → lower frames" in frames
    assert words(plan_of("schoolhall"))["Mouldings"].count("casing of window") == 1


def test_a_corner_where_one_line_runs_on_is_named(plan_of) -> None:
    found = words(replace(plan_of("parlour"), trim=made_up_trim(cope=True)))
    assert (
        "Corner LR–B: rail of back runs on to the wall and is fixed first, rail of left return is coped to it."
        in found["Mouldings"]
    )
    assert "runs on" not in found["Base"]
    assert "runs on" not in mouldings(plan_of("parlour"))


def test_a_set_without_mouldings_says_so(plan_of) -> None:
    plan = plan_of("parlour")
    walls = tuple(replace(w, trim=()) for w in plan.brief.walls)
    bare = replace(plan, brief=replace(plan.brief, walls=walls, frames=()), trim=None, frames=None, strips=())
    assert words(bare)["Base"] == "This set has no base."
    assert "no mouldings" in words(bare)["Mouldings"]
    assert "Loose mouldings" not in titles(bare)


def test_sheets_are_screwed_only_where_the_plan_has_heads(demo_plan) -> None:
    skin = words(demo_plan)["Skin"]
    heads = demo_plan.fixing.heads
    names = {head.fastener.name for head in heads}
    for name in names:
        number = sum(head.fastener.name == name for head in heads)
        assert f"{number} × {name}" in skin
    assert demo_plan.brief.fixing.glue.name in skin
    busiest = demo_plan.fixing.busiest
    assert f"on day {busiest.day}: {busiest.number} × {demo_plan.brief.fixing.weight.name}" in skin


def test_brackets_hold_the_set_while_it_is_marked_out(plan_of) -> None:
    plan = plan_of("parlour")
    number = sum(len(each.temporary) for each in (*plan.fixing.joints, *plan.fixing.corners))
    assert f"{number} × {plan.brief.fixing.bracket.name}" in words(plan)["Dry-assemble"]
    none = replace(plan, fixing=replace(plan.fixing, joints=(), corners=()))
    assert plan.brief.fixing.bracket.name not in words(none)["Dry-assemble"]


def test_heights_are_marked_from_the_level_line_and_told_from_the_finished_floor(plan_of) -> None:
    plan = plan_of("parlour")
    mark = words(plan)["Mark"]
    assert plan.brief.floor.rise == 8
    assert "never from the floor" in mark
    assert f"{plan.marking.level.height:.0f} mm above the finished floor" in mark
    assert f"{plan.marking.level.above_foot:.0f} mm above the flats' foot" in mark
    assert "top edge at 2050 mm" in mark, "as the project file states it, though it lies 8 mm higher on the flats"
    assert "upper from 870 mm to 1430 mm" in mark


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
    finish = plan.brief.finish
    paint = words(plan)["Paint"]
    assert finish.colour
    assert f"then {finish.coats} coats of {finish.colour}" in paint
    assert f"Mouldings are painted {finish.mouldings}" in paint


def test_what_goes_on_after_standing_is_painted_on_the_bench(plan_of) -> None:
    paint = words(changed(plan_of("schoolhall"), mouldings="after fixing"))["Paint"]
    assert "on the bench what goes on after standing: base and rail" in paint


def test_a_set_without_a_coat_of_anything_says_so(plan_of) -> None:
    assert "no coat of anything" in words(changed(plan_of("parlour"), paint=None, primer=None))["Paint"]


def test_no_step_speaks_of_hours(demo_plan) -> None:
    for step in work_steps(demo_plan):
        assert " hour" not in " ".join(step.lines)


def test_sheets_that_are_screwed_all_round_are_not_said_to_have_no_other_head(plan_of) -> None:
    brief = plan_of("corner-metric").brief
    screwed = derive(replace(brief, fixing=replace(brief.fixing, sheets="screws")))
    assert any(head.hidden_by is None for sheet in screwed.fixing.sheets for head in sheet.heads)
    skin = words(screwed)["Skin"]
    assert "Heads that nothing covers" in skin
    assert "no head elsewhere" not in skin
    assert "only where" not in skin
    assert "Screw only where mouldings will cover the heads" in words(plan_of("corner-metric"))["Skin"]


def test_corners_are_joined_with_what_is_bought_for_them(plan_of) -> None:
    brief = plan_of("corner-metric").brief
    bolted = derive(replace(brief, fixing=replace(brief.fixing, joints="bolts")))
    (held,) = bolted.fixing.corners
    assert held.hardware is not None
    text = words(bolted)["Dry-assemble"]
    assert f"{len(held.heights)} × {held.hardware} from wall" in text
    assert bolted.corners[0].screws is not None
    assert bolted.corners[0].screws.screw.name not in text


def test_one_drop_off_the_roll_is_one_row(plan_of) -> None:
    one, many = (plan_of(name) for name in ("schoolhall", "parlour"))
    assert len(one.floor.rows) == 1
    assert "\n1 row from the left" in words(one)["Floor"]
    assert f"\n{len(many.floor.rows)} rows from the left" in words(many)["Floor"]
