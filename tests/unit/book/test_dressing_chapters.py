"""The chapters of what is put on built walls: mouldings, fixing, finish, floor, takeoff, proportions."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import pytest
from tests.unit.book.everything import everything

from lathlight.book.blocks import Grid
from lathlight.book.finish_chapter import finish_chapters
from lathlight.book.fixing_chapter import fixing_chapters
from lathlight.book.floor_chapter import floor_chapters, stand_words
from lathlight.book.moulding_pieces import moulding_chapters
from lathlight.book.proportion_chapter import DISAGREE, proportion_chapters
from lathlight.book.takeoff_chapter import takeoff_chapters
from lathlight.exports import volume_words

CHAPTERS = (
    moulding_chapters,
    fixing_chapters,
    finish_chapters,
    floor_chapters,
    takeoff_chapters,
    proportion_chapters,
)


@pytest.fixture(scope="module")
def plan():
    return everything()


def grids(chapters, plan) -> list[Grid]:
    return [block for chapter in chapters(plan) for block in chapter.blocks if isinstance(block, Grid)]


def rows(chapters, plan, first: str) -> list[tuple]:
    """Return the rows of all grids whose first column has this title."""
    found = [grid for grid in grids(chapters, plan) if grid.columns[0].title == first]
    assert found
    return [row for grid in found for group in grid.groups for row in group.rows]


def words_of(chapters, plan) -> str:
    found = [chapter.lead for chapter in chapters(plan)]
    for chapter in chapters(plan):
        for block in chapter.blocks:
            if block.kind == "words":
                found.append(block.words)
            if block.kind == "notes":
                found += [note.words for note in block.notes]
    return "\n".join(found)


@pytest.mark.parametrize("chapters", CHAPTERS)
def test_every_row_fills_its_columns(plan, chapters) -> None:
    found = grids(chapters, plan)
    assert found
    for grid in found:
        for row in (row for group in grid.groups for row in group.rows):
            assert len(row) == len(grid.columns)
            ticks = [cell for cell, column in zip(row, grid.columns, strict=True) if column.kind == "ticks"]
            assert all(isinstance(cell, int) for cell in ticks)


@pytest.mark.parametrize("chapters", [moulding_chapters, finish_chapters, floor_chapters])
def test_a_chapter_is_left_out_where_it_has_nothing(plan, chapters) -> None:
    bare = replace(plan, trim=None, casings=(), frames=None, ends=(), floor=None, finish=None)
    assert list(chapters(plan))
    assert not list(chapters(bare))


def test_nothing_to_take_off_leaves_its_chapter_out(plan) -> None:
    assert not list(takeoff_chapters(replace(plan, takeoff=())))


def test_no_rule_of_proportion_leaves_its_chapter_out(plan) -> None:
    walls = tuple(replace(wall, trim=(), openings=()) for wall in plan.brief.walls)
    assert not list(proportion_chapters(replace(plan, brief=replace(plan.brief, walls=walls), casings=())))


# --- mouldings -----------------------------------------------------------------------------------------------------


def test_every_piece_of_trim_and_casing_has_a_box_to_tick(plan) -> None:
    trim = plan.trim
    wanted = [x.id for x in (*trim.pieces, *trim.returns, *trim.strips)]
    wanted += [piece.id for casing in plan.casings for piece in casing.pieces]
    found = [row for row in rows(moulding_chapters, plan, "Piece") if row[0] in wanted]
    assert sorted(row[0] for row in found) == sorted(wanted)
    assert {row[-1] for row in found} == {1}


def test_four_pieces_to_a_frame_that_is_mitred_and_one_line_for_one_that_is_bought(plan) -> None:
    tiers = Counter(frame.tier for frame in plan.frames.frames)
    assert tiers["low"]
    assert tiers["high"]
    found = rows(moulding_chapters, plan, "For")
    assert sum(row[-1] for row in found if row[0].startswith("low")) == 4 * tiers["low"]
    assert sum(row[-1] for row in found if row[0].startswith("high")) == tiers["high"]
    assert {row[2] for row in found if row[0].startswith("high")} == {""}


def test_blocks_and_covers_of_wall_ends_are_cut_too(plan) -> None:
    wanted = [block.id for casing in plan.casings for block in casing.blocks] + [end.id for end in plan.ends]
    assert len(wanted) == 6
    assert set(wanted) <= {row[0] for row in rows(moulding_chapters, plan, "Piece")}


# --- fixing --------------------------------------------------------------------------------------------------------


def test_every_head_is_counted_under_its_flat(plan) -> None:
    found = {row[0]: row for row in rows(fixing_chapters, plan, "Flat")}
    assert list(found) == [flat.mark for flat in plan.flats]
    assert sum(int(row[2] or 0) + int(row[3] or 0) for row in found.values()) == len(plan.fixing.heads)


def test_the_day_that_needs_most_weights_says_how_many(plan) -> None:
    busiest = plan.fixing.busiest
    assert f"on day {busiest.day}: {busiest.number} × {plan.brief.fixing.weight.name}" in words_of(
        fixing_chapters, plan
    )
    none = replace(plan, fixing=replace(plan.fixing, busiest=None))
    assert "Most weights" not in words_of(fixing_chapters, none)


def test_every_moulding_is_held_by_something(plan) -> None:
    found = rows(fixing_chapters, plan, "Line")
    assert sum(int(row[1]) for row in found) == len(plan.fixing.strips)
    brads = sum(len(each.shot) for each in plan.fixing.strips)
    screws = sum(len(each.screws) for each in plan.fixing.strips)
    assert sum(int(n) for row in found for n in re.findall(r"(\d+) ×", row[3])) == brads + screws


def test_joints_and_corners_name_their_hardware(plan) -> None:
    found = rows(fixing_chapters, plan, "Between")
    assert len(found) == len(plan.fixing.joints) + len(plan.fixing.corners)
    assert all("×" in row[1] and row[2] and row[3] for row in found)


def test_the_cautions_speak_of_hands_eyes_air_and_labels(plan) -> None:
    said = words_of(fixing_chapters, plan)
    assert all(word in said for word in ("hand", "eye protection", "label", "air"))


# --- finish --------------------------------------------------------------------------------------------------------


def test_mouldings_painted_on_the_bench_come_first(plan) -> None:
    early = replace(plan, finish=replace(plan.finish, painted="before fixing"))
    (steps,) = (grid for grid in grids(finish_chapters, early) if grid.columns[0].title == "Surface")
    benched = ["on the bench" in group.detail for group in steps.groups]
    assert any(benched)
    assert benched == sorted(benched, reverse=True)
    assert all(group.heading.startswith(f"{n}. ") for n, group in enumerate(steps.groups, start=1))


def test_every_coat_of_every_surface_has_a_box(plan) -> None:
    (steps,) = (grid for grid in grids(finish_chapters, plan) if grid.columns[0].title == "Surface")
    coats = {coating.need.coating.name.lower(): coating.need.coats for coating in plan.finish.coatings}
    for group in steps.groups:
        wanted = coats[group.heading.split(". ", 1)[1].lower()]
        assert {row[-1] for row in group.rows} == {wanted}


def test_litres_stand_with_their_allowances_and_tins_are_mixed(plan) -> None:
    found = {row[0]: row for row in rows(finish_chapters, plan, "Coating")}
    for coating in plan.finish.coatings:
        row = found[coating.need.coating.name]
        assert row[6] == volume_words(coating.need.gross, plan.brief.style)
        assert row[5]
        assert ("mixed together" in row[7]) == (coating.tins.number > 1)


# --- floor ---------------------------------------------------------------------------------------------------------


def test_how_the_covering_meets_the_flats_is_stated(plan) -> None:
    assert "stops at the flats, with a gap of 10 mm" in stand_words(plan)
    assert "fixed last" in stand_words(plan)
    floor = plan.brief.floor
    under = replace(plan, brief=replace(plan.brief, floor=replace(floor, stands_on="covering")))
    assert "The flats stand on the covering" in stand_words(under)
    tight = replace(plan, brief=replace(plan.brief, floor=replace(floor, expansion_gap=0.0)))
    assert "no gap left" in stand_words(tight)


def test_rows_that_are_alike_are_told_together_and_none_is_lost(plan) -> None:
    found = rows(floor_chapters, plan, "Row")
    assert sum(int(row[1]) for row in found) == len(plan.floor.rows)
    assert len(found) < len(plan.floor.rows)


# --- takeoff and proportions ---------------------------------------------------------------------------------------


def test_every_row_of_the_takeoff_stands_under_its_trade(plan) -> None:
    (grid,) = grids(takeoff_chapters, plan)
    assert [group.heading.lower() for group in grid.groups] == list(dict.fromkeys(row.trade for row in plan.takeoff))
    assert [row[0] for group in grid.groups for row in group.rows] == [row.line.item for row in plan.takeoff]
    for row in (row for group in grid.groups for row in group.rows):
        assert bool(row[2]) == bool(row[3]), "what is added has its reason"


def test_rules_that_disagree_say_so_and_those_that_agree_do_not(plan) -> None:
    found = {row[0]: row for row in rows(proportion_chapters, plan, "Line")}
    dado = [row for row in rows(proportion_chapters, plan, "Line") if row[0] == "dado, rail" and "top edge" in row[2]]
    assert [row[-1] for row in dado] == [DISAGREE]
    assert "900 mm" in dado[0][2], "from the finished floor"
    assert found["crown, cornice"][-1] == "agrees"
    assert all(bool(row[3] and row[4]) == (row[-1] == DISAGREE) for row in rows(proportion_chapters, plan, "Line"))
