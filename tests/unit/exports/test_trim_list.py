"""The list of mouldings to cut: every piece once, longest first, each end with its saw in plain words."""

from __future__ import annotations

import csv
import io
import math
import zipfile
from dataclasses import replace

import pytest
from tests.unit.mouldings.made_up import made_up_trim

from lathlight.exports import csv_bytes, lists, saw_words, trim_cuts, workbook_bytes
from lathlight.mouldings import SawSetting
from lathlight.units import LengthStyle

METRIC = LengthStyle.metric()


def rows_of(plan) -> list[dict[str, str]]:
    table = next(table for table in lists(plan, ()) if table.name == "trim")
    return list(csv.DictReader(io.StringIO(csv_bytes(table).decode("utf-8-sig"))))


def test_every_piece_return_and_strip_has_one_row(demo_plan) -> None:
    trim = demo_plan.trim
    assert sorted(row["Id"] for row in rows_of(demo_plan)) == sorted(
        each.id for each in (*trim.pieces, *trim.returns, *trim.strips)
    )


def test_pieces_are_sawn_longest_first_within_a_profile_strips_last() -> None:
    trim = made_up_trim()
    cuts = trim_cuts(trim, METRIC)
    assert tuple(cut.id for cut in cuts if cut.what == "piece") == trim.cuts
    for profile in {cut.profile for cut in cuts}:
        long = [cut.long_point for cut in cuts if cut.profile == profile and cut.what != "return"]
        assert long == sorted(long, reverse=True)
    whats = [cut.what for cut in cuts]
    assert "backing strip" in whats
    assert whats.index("backing strip") == len(whats) - len(trim.strips)


def test_a_piece_says_its_lengths_and_both_ends(plan_of) -> None:
    row = next(row for row in rows_of(plan_of("parlour")) if row["Id"] == "back/base/1")
    assert (row["Wall"], row["Line"], row["Profile"], row["Loose"]) == ("back", "base", "base 120", "yes")
    assert (row["Long point [mm]"], row["Short point [mm]"], row["At the back [mm]"]) == ("3000", "2975", "3000")
    assert (row["Left end"], row["Left swing [°]"], row["Left bevel [°]"]) == ("inside mitre (left return)", "35", "0")
    assert row["Right saw"] == "swing 35° left; back to the fence; piece left of the blade"


def test_a_return_is_mitred_where_it_meets_its_piece_and_nothing_is_left_at_its_back(plan_of) -> None:
    rows = {row["Id"]: row for row in rows_of(plan_of("parlour"))}
    left, right = rows["left return/base/1/return left"], rows["right return/base/1/return right"]
    assert (left["Left end"], left["Right swing [°]"]) == ("square", "45")
    assert (right["Left swing [°]"], right["Right end"]) == ("45", "square")
    assert (left["Long point [mm]"], left["At the back [mm]"]) == ("18", "0")


def test_a_sprung_end_names_the_tilt_and_the_edge_at_the_fence() -> None:
    crown = next(cut for cut in trim_cuts(made_up_trim(), METRIC) if cut.id == "left return/crown/1")
    assert math.degrees(crown.right.mitre) == pytest.approx(31.62, abs=0.005)  # spring 38, corner 90
    assert "tilt 33.86° left" in crown.right.saw
    assert "flat on its back" in crown.right.saw


def test_a_cope_says_how_deep_and_a_scarf_which_lies_over() -> None:
    cuts = {cut.id: cut for cut in trim_cuts(made_up_trim(), METRIC)}
    assert cuts["left return/rail/1"].right.saw == "square; then cope it back 20 mm to the neighbour's profile"
    joint = [cuts["back/rail/1"].right.kind, cuts["back/rail/2"].left.kind]
    assert sorted(joint) == ["scarf, lies over", "scarf, lies under"]


def test_an_end_beyond_the_saw_is_cut_by_hand() -> None:
    saw = SawSetting(mitre=math.radians(60), bevel=0.0, swing="left", fence="back", kept="left")
    assert saw_words(saw, beyond_saw=True).startswith("beyond the saw's swing: mark it and cut by hand to the line")
    assert "by hand" not in saw_words(saw)


def test_a_set_without_trim_has_no_such_list(plan_of) -> None:
    assert "trim" not in [table.name for table in lists(replace(plan_of("parlour"), trim=None), ())]


def test_the_workbook_has_the_sheet_with_inches_in_an_imperial_project(plan_of) -> None:
    tables = lists(plan_of("schoolhall"), ())
    with zipfile.ZipFile(io.BytesIO(workbook_bytes(tables, date=None))) as book:
        assert 'name="trim"' in book.read("xl/workbook.xml").decode()
    titles = {column.title for table in tables if table.name == "trim" for column in table.columns}
    assert {"Long point [in]", "Short point [in]", "At the back [in]", "Left saw", "Note"} <= titles
