"""What stands in the lists, held against the plan itself."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from lathlight.app.save import _OWN_NAMES
from lathlight.exports import Table, csv_bytes, hardware, lists, way_in_words
from lathlight.snags import Severity, Snag
from lathlight.units import parse_length
from lathlight.working import Working

SNAG = Snag(
    id="free-sheet-edge@back/1",
    check="free-sheet-edge",
    severity=Severity.STOPS,
    place="back/1",
    what="=HYPERLINK(1): the right edge hangs free.",
    figure=0.0,
    limit=16.0,
    unit="mm",
    remedy="Add a nailer.",
    why=Working(formula="timber behind the edge", inputs=(("edge", 2440.0, "mm"),)),
)


def by_name(plan, snags=()) -> dict[str, Table]:
    return {table.name: table for table in lists(plan, snags)}


def column(table: Table, title: str) -> list[object]:
    index = [c.title for c in table.columns].index(title)
    return [row[index] for row in table.rows]


BUILT = ("timber", "sheet pieces", "boards", "sheets", "flats", "openings", "linings")
LAST = ("hardware", "takeoff", "snags", "quantities")


def test_every_list_is_there_and_every_row_is_whole(demo_plan) -> None:
    tables = lists(demo_plan, [SNAG])
    names = [table.name for table in tables]
    assert tuple(names[: len(BUILT)]) == BUILT
    assert tuple(names[-len(LAST) :]) == LAST
    assert len(set(names)) == len(names)
    assert all(len(row) == len(table.columns) for table in tables for row in table.rows)
    assert all(len(table.name) <= 31 for table in tables)


def test_what_a_set_has_is_listed_and_what_it_lacks_is_left_out(plan_of) -> None:
    parlour, schoolhall = (set(by_name(plan_of(name))) for name in ("parlour", "schoolhall"))
    assert {"moulding frames", "frame pieces", "marking frames", "floor", "paint", "finish schedule"} <= parlour
    assert "casing" not in parlour
    assert "casing" in schoolhall
    assert not {"moulding frames", "frame pieces", "marking frames"} & schoolhall
    assert "floor" not in by_name(plan_of("corner-metric"))


def test_the_folder_knows_every_list_as_its_own(demo_plan) -> None:
    own = _OWN_NAMES["lists"]
    assert [t.name for t in lists(demo_plan, ()) if not own.fullmatch(f"{t.name.replace(' ', '-')}.csv")] == []


def test_every_member_is_on_the_timber_list_once(demo_plan) -> None:
    ids = [each for cell in column(by_name(demo_plan)["timber"], "Ids") for each in str(cell).split("; ")]
    wedges = [corner.wedge.id for corner in demo_plan.corners if corner.wedge]
    assert sorted(ids) == sorted([*(m.id for m in demo_plan.members), *wedges])
    assert sum(column(by_name(demo_plan)["timber"], "Number")) == len(ids)


def test_the_length_in_words_is_the_length_in_millimetres(demo_plan) -> None:
    style = demo_plan.brief.style
    timber = by_name(demo_plan)["timber"]
    for words, mm in zip(column(timber, "Length"), column(timber, "Length [mm]"), strict=True):
        assert parse_length(words.replace("'-", "' "), style=style) == pytest.approx(mm, abs=float(style.step) / 2)


def test_inches_stand_in_imperial_lists_alone(plan_of) -> None:
    imperial = by_name(plan_of("corner-imperial"))["timber"]
    inches, mm = column(imperial, "Length [in]"), column(imperial, "Length [mm]")
    assert [25.4 * each for each in inches] == pytest.approx(mm)
    assert "Length [in]" not in [c.title for c in by_name(plan_of("corner-metric"))["timber"].columns]


def test_weights_stand_in_pounds_too_where_the_project_is_imperial(plan_of) -> None:
    flats = by_name(plan_of("schoolhall"))["flats"]
    ratio = [kg / lb for kg, lb in zip(column(flats, "Weight [kg]"), column(flats, "Weight [lb]"), strict=True)]
    assert ratio == pytest.approx([0.45359237] * len(ratio))


def test_what_is_bought_is_what_is_cut_and_spare(demo_plan) -> None:
    tables = by_name(demo_plan)
    for name, packs in (("boards", demo_plan.boards), ("sheets", demo_plan.sheets)):
        assert sum(column(tables[name], "To buy")) == sum(p.number + p.spare for p in packs)
        assert set(column(tables[name], "How counted")) == {"proven: nothing less will do"}


def test_openings_and_linings_are_listed(plan_of) -> None:
    tables = by_name(plan_of("schoolhall"))
    assert column(tables["openings"], "Kind") == ["window"]
    assert len(tables["linings"].rows) == sum(len(o.lining) for f in plan_of("schoolhall").flats for o in f.openings)


def test_a_lining_is_as_thick_as_the_project_writes_it(plan_of) -> None:
    (opening,) = (o for f in plan_of("schoolhall").flats for o in f.openings)
    assert opening.lining_thickness == pytest.approx(19.05)
    assert '3/4"' in str(by_name(plan_of("schoolhall"))["linings"].rows[0])


def test_a_lining_says_what_it_is_cut_from(plan_of) -> None:
    table = by_name(plan_of("schoolhall"))["sheet pieces"]
    (opening,) = (o for f in plan_of("schoolhall").flats for o in f.openings)
    stocks = [stock for what, stock in zip(column(table, "Part"), column(table, "Sheet"), strict=True)
              if str(what).startswith("lining")]  # fmt: skip
    assert stocks == ["1x3"] * len(opening.lining)  # 3/4 in thick, as wide as sheet and frame together or wider
    assert "1x3" in column(by_name(plan_of("schoolhall"))["boards"], "Stock")


def test_corner_screws_and_plates_are_counted_from_the_plan(plan_of) -> None:
    plan = plan_of("corner-metric")
    counts = {(line.what, line.use): line.number for line in hardware(plan)}
    assert counts["corner plate", "squares the frame, on the back"] == sum(len(f.plates) for f in plan.flats)
    screws = sum(len(c.screws.heights) for c in plan.corners if c.screws)
    assert screws > 0
    assert counts["screw", "corners, through the end studs"] == screws


def test_boxes_stand_once_for_a_name_and_hold_its_takeoff(demo_plan) -> None:
    lines = hardware(demo_plan)
    assert {line.use for line in lines} == {count.use for count in demo_plan.fixing.hardware}
    packs = {row.line.item: row.packs for row in demo_plan.takeoff if row.trade == "fixing"}
    for name in {line.name for line in lines}:
        own = [line for line in lines if line.name == name]
        assert [line.boxes > 0 for line in own] == [True] + [False] * (len(own) - 1)
        assert own[0].to_buy >= sum(line.number for line in own)
        assert own[0].boxes * own[0].box >= own[0].to_buy > (own[0].boxes - 1) * own[0].box
        if own[0].box > 1:
            assert [(p.size, p.number) for p in packs[name]] == [(own[0].box, own[0].boxes)]


def test_a_flat_that_is_stuck_says_where(plan_of) -> None:
    plan = plan_of("corner-metric")
    flat, passage = plan.flats[0], plan.passages[0]
    stage = replace(passage.stages[0], passes=False, figure=1400.0, limit=815.0, through="shed door")
    stuck = replace(passage, stages=(stage,), passes=False)
    words = way_in_words(replace(flat, built_in_room=False), stuck, plan.brief.style)
    assert words == "does not pass shed door: 1400 mm, at most 815 mm"
    assert way_in_words(replace(flat, built_in_room=True), stuck, plan.brief.style) == "built in the room"


def test_a_snag_reaches_the_list_with_figure_limit_and_why(plan_of) -> None:
    table = by_name(plan_of("corner-metric"), [SNAG])["snags"]
    row = dict(zip([c.title for c in table.columns], table.rows[0], strict=True))
    assert (row["Figure"], row["Limit"], row["Unit"]) == (0.0, 16.0, "mm")
    assert row["Severity"] == "stops the job"
    assert row["Why"] == "timber behind the edge; edge 2440 mm (geometry of the set)"
    written = list(csv.reader(io.StringIO(csv_bytes(table).decode("utf-8-sig"), newline="")))
    assert written[1][3] == "'=HYPERLINK(1): the right edge hangs free."


def test_a_set_without_snags_keeps_the_heading_row(plan_of) -> None:
    table = by_name(plan_of("corner-metric"))["snags"]
    assert table.rows == ()
    assert csv_bytes(table).count(b"\n") == 1
