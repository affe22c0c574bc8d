"""The book's standing words, and figures, snags and assumptions in words."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace

from lathlight.book import words
from lathlight.book.piece_lists import cutting_chapters, shopping_chapter
from lathlight.book.words import (
    CAUTIONS,
    assumed_list,
    date_words,
    leading_figures,
    snag_counts,
    snag_note,
)
from lathlight.drawings import PLANNING_AID, STANDING_CAUTION
from lathlight.project import assumptions
from lathlight.snags import Severity, Snag
from lathlight.working import Working

SNAG = Snag(
    id="flat-too-heavy@back/1",
    check="flat-too-heavy",
    severity=Severity.STOPS,
    place="back/1",
    what="Flat back/1 weighs 60 kg.",
    figure=60.0,
    limit=50.0,
    unit="kg",
    remedy="Split it.",
    why=Working(formula="sum of its parts", source="the catalogue"),
)


def test_nothing_is_ever_called_safe() -> None:
    said = [STANDING_CAUTION, PLANNING_AID, *(f"{note.title} {note.words}" for note in CAUTIONS)]
    assert not [line for line in said if re.search(r"\bsafe(ly)?\b", line, re.IGNORECASE)]


def test_the_cautions_defer_to_codes_makers_and_people() -> None:
    assert all(each in PLANNING_AID for each in ("local codes", "product makers", "competent person"))
    assert {note.title for note in CAUTIONS} >= {"Standing walls fall", "Lifting", "Saws and nail guns", "Dust", "Fire"}


def test_a_date_is_written_out_and_a_missing_one_is_nothing() -> None:
    assert date_words(dt.date(2026, 3, 12)) == "12 March 2026"
    assert date_words(None) == ""


def test_the_first_page_has_the_figures_that_matter(plan_of) -> None:
    figures = dict(leading_figures(plan_of("parlour")))
    assert figures["Corners, left to right"] == "110° · 110°"
    assert figures["Height"] == "2440 mm"
    assert figures["Flats"] == str(len(plan_of("parlour").flats))
    assert {"Boards, proven", "Sheets, proven", "Weight of the set"} <= set(figures)
    assert any(label.startswith("Heaviest flat") for label in figures)


def test_the_first_page_says_how_much_moulding_and_paint_there_is(plan_of) -> None:
    plan = plan_of("parlour")
    figures = dict(leading_figures(plan))
    metres = sum(row.line.net for row in plan.takeoff if row.trade == "mouldings")
    litres = sum(coating.need.gross for coating in plan.finish.coatings)
    assert figures["Mouldings, as cut"] == f"{metres:.1f} m"
    assert figures["Moulding frames"] == str(len(plan.frames.frames))
    assert figures["Paint and primer, with allowances"] == f"{litres:.1f} l"
    bare = dict(leading_figures(replace(plan, takeoff=(), frames=None, finish=None)))
    assert not {"Mouldings, as cut", "Moulding frames", "Paint and primer, with allowances"} & set(bare)


def test_a_straight_wall_has_no_depth_in_plan(plan_of) -> None:
    labels = {label for label, _ in leading_figures(plan_of("schoolhall"))}
    assert not labels & {"Depth in plan", "Width in plan", "Corners, left to right"}


def test_a_snag_says_figure_limit_why_and_remedy(plan_of) -> None:
    note = snag_note(SNAG, plan_of("corner-metric").brief.style)
    assert (note.severity, note.stops) == ("Stops the job", True)
    assert note.figures == "60.0 kg; limit 50.0 kg"
    assert note.why == "sum of its parts (the catalogue)"
    assert note.remedy == "Split it."


def test_a_snag_without_a_limit_shows_its_figure_alone(plan_of) -> None:
    note = snag_note(replace(SNAG, limit=float("inf")), plan_of("corner-metric").brief.style)
    assert note.figures == "60.0 kg"


def test_snags_are_counted_worst_first() -> None:
    mild = replace(SNAG, severity=Severity.KNOW)
    assert snag_counts([mild, SNAG, mild]) == "1 × stops the job, 2 × worth knowing."
    assert "What is not checked" in snag_counts([])


def test_every_default_is_listed_with_its_value_and_why(demo_plan) -> None:
    rows = [row for group in assumed_list(demo_plan).groups for row in group.rows]
    assert {str(row[0]) for row in rows} == {words.sentence(each.label) for each in assumptions(demo_plan.brief)}
    assert all(value and why for _, value, _, why in rows)
    assert not any(str(row[3]).endswith("(common practice, no source)") for row in rows), "said once, above the list"


def test_a_default_with_a_source_says_it(plan_of) -> None:
    (limits,) = (group for group in assumed_list(plan_of("parlour")).groups if group.heading == "Limits of a flat")
    ((what, value, _, why),) = limits.rows
    assert (what, value) == ("Heaviest flat allowed", "33.3 kg")
    assert "railway" in str(why)


def test_one_default_of_all_walls_is_said_once(plan_of) -> None:
    plan = plan_of("parlour")
    (walls,) = (group for group in assumed_list(plan).groups if group.heading == "Walls")
    ((what, value, where, _),) = walls.rows
    assert (what, value, where) == ("Studs at most apart", "610 mm", "all walls")
    stated = (replace(plan.brief.walls[0], assumed={}), *plan.brief.walls[1:])
    (walls,) = (
        group
        for group in assumed_list(replace(plan, brief=replace(plan.brief, walls=stated))).groups
        if group.heading == "Walls"
    )
    assert walls.rows[0][2] == "back, right return"


def test_a_default_of_an_opening_names_it_and_its_wall(plan_of) -> None:
    (openings,) = (group for group in assumed_list(plan_of("schoolhall")).groups if group.heading == "Openings")
    assert {row[2] for row in openings.rows} == {"window of back"}


def test_every_piece_has_a_box_to_tick(demo_plan) -> None:
    timber, panels, *_ = cutting_chapters(demo_plan)
    for chapter, lines in ((timber, demo_plan.timber), (panels, demo_plan.panels)):
        (grid,) = chapter.blocks
        assert grid.columns[-1].kind == "ticks"
        rows = [row for group in grid.groups for row in group.rows]
        assert sum(row[-1] for row in rows) == sum(line.number for line in lines)
        assert sorted(row[0] for row in rows) == sorted(line.mark for line in lines)


def test_pieces_stand_under_their_flat(demo_plan) -> None:
    (grid,) = cutting_chapters(demo_plan)[0].blocks
    for group in grid.groups:
        if group.heading.startswith("Flat "):
            mark = group.heading.removeprefix("Flat ")
            assert all(row[0].startswith(f"{mark}-") for row in group.rows)


def test_the_shopping_list_says_whether_its_counts_are_proven(plan_of) -> None:
    plan = plan_of("parlour")
    chapter = shopping_chapter(plan)
    assert chapter.title == "To buy"
    assert [group.detail for group in chapter.blocks[0].groups] == ["proven: nothing less will do"] * 2
    doubtful = tuple(replace(pack, proven=False, gap=0.025) for pack in plan.boards)
    boards, _ = shopping_chapter(replace(plan, boards=doubtful)).blocks[0].groups
    assert boards.detail == "not proven: at most 2.5 % above the least"
