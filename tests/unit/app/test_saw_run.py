"""Saw jobs are solved in whole steps, sawn again by the checkers, and told in the file's own figures."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from lathlight.app import Sawn, parse_saw_jobs, saw, saw_document, saw_page
from lathlight.cutting import check_boards, check_sheets
from lathlight.errors import NoAnswerError

BOARDS = """\
[job]
kerf = 3
trim_cut = 10
least_offcut = 300
currency = "EUR"
[[pieces]]
name = "stud"
length = 2134
number = 3
[[pieces]]
name = "noggin"
length = 561.5
number = 5
[[stock]]
length = 2400
price = 4.20
[[stock]]
name = "rack 3"
length = 905
offcut = true
"""
SHEETS = """\
[job]
kerf = 3
[[pieces]]
name = "back"
length = 1200
width = 600
number = 4
[[stock]]
length = 2440
width = 1220
price = 36
"""


def sawn(text: str, *, name: str = "job.toml") -> Sawn:
    (job,) = parse_saw_jobs(text, name=name)
    found = saw(job)
    if found.boards is not None:
        assert check_boards(*found.boards) == []
    if found.sheets is not None:
        assert check_sheets(*found.sheets) == []
    return found


def plan_of(line: dict[str, Any]) -> dict[str, Any]:
    document = saw_document(sawn(json.dumps(line), name="jobs.jsonl"))
    assert json.loads(json.dumps(document)) == document
    return document


# --- documents ---------------------------------------------------------------------------------------------------


def test_a_document_has_the_shape_that_scripts_read() -> None:
    stock = {"length": 96, "price": 300, "limit": None}
    document = plan_of({"id": "two", "stocks": [stock], "kerf": 0, "items": [[46, 4]]})
    assert list(document) == ["id", "cost", "lower_bound", "proven", "seconds", "plan"]
    assert (document["id"], document["cost"], document["lower_bound"], document["proven"]) == ("two", 600, 600, True)
    assert document["plan"] == [{"stock": stock, "times": 2, "pieces": [46, 46]}]


def test_four_pieces_of_24_inches_do_not_come_out_of_96_and_two_of_46_and_a_half_do() -> None:
    # common practice, no source
    eighths = {"stocks": [{"length": 96 * 8, "price": 1}], "kerf": 1}
    assert plan_of({"id": "a", **eighths, "items": [[24 * 8, 4]]})["cost"] == 2
    assert plan_of({"id": "b", **eighths, "items": [[372, 2]]})["cost"] == 1


def test_a_line_with_a_capacity_counts_boards_at_price_1() -> None:
    document = plan_of({"id": "bins", "capacity": 10, "items": [[6, 2], [4, 2]]})
    assert (document["cost"], document["proven"]) == (2, True)
    assert document["plan"] == [{"stock": {"length": 10, "price": 1}, "times": 2, "pieces": [6, 4]}]


def test_money_comes_out_exactly_and_lengths_in_the_files_own_unit() -> None:
    document = saw_document(sawn(BOARDS))
    assert document["cost"] == 16.8  # three of 4.20 for the studs, one for four noggins, the shelf for the fifth
    pieces = sorted(length for each in document["plan"] for length in each["pieces"] * each["times"])
    assert pieces == [561.5] * 5 + [2134] * 3
    (shelf,) = [each for each in document["plan"] if "offcut" in each["stock"]]
    assert shelf["stock"] == {"name": "rack 3", "length": 905, "price": 0, "offcut": True}


def test_inches_stay_inches() -> None:
    text = "kind,length,number,price,value\nunits,,,,imperial\npiece,46 1/2 in,2,,\nstock,8 ft,,3,\nkerf,,,,1/8 in\n"
    document = saw_document(sawn(text, name="job.csv"))
    assert document["plan"] == [{"stock": {"length": 96, "price": 3}, "times": 1, "pieces": [46.5, 46.5]}]


def test_a_sheets_pieces_lie_with_x_along_w_and_the_kerf_between_neighbours() -> None:
    stock = {"l": 200, "w": 100, "price": 7, "limit": None}
    item = {"l": 99, "w": 49, "qty": 4, "rotate": False}
    document = plan_of({"id": "s", "stocks": [stock], "kerf": 2, "items": [item]})
    ((sheet,), cost) = document["plan"], document["cost"]
    assert (cost, sheet["stock"], sheet["times"]) == (7, stock, 1)
    corners = sorted((p["x"], p["y"], p["w"], p["h"]) for p in sheet["pieces"])
    assert corners == [(0, 0, 49, 99), (0, 101, 49, 99), (51, 0, 49, 99), (51, 101, 49, 99)]


def test_sheets_cut_alike_stand_once() -> None:
    document = plan_of({"name": "two", "W": 10, "H": 10, "pieces": [[10, 6, 2]]})
    assert [(each["times"], len(each["pieces"])) for each in document["plan"]] == [(2, 1)]


def test_a_sheet_of_a_pinwheel_needs_more_stages_than_three() -> None:
    line = {
        "id": "p",
        "W": 30,
        "H": 30,
        "pieces": [[30, 6, 1], [10, 24, 1], [20, 8, 1], [12, 16, 1], [8, 10, 1], [8, 6, 1]],
    }
    assert plan_of(line)["cost"] == 1, "guillotine cuts of any number of stages"
    assert plan_of({**line, "stages": 2})["cost"] > 1


def test_the_same_job_gives_the_same_plan() -> None:
    one, two = saw_document(sawn(BOARDS)), saw_document(sawn(BOARDS))
    assert {**one, "seconds": 0} == {**two, "seconds": 0}
    assert saw_page(sawn(BOARDS)) == saw_page(sawn(BOARDS))


def test_stock_that_cannot_hold_the_pieces_is_no_answer() -> None:
    line = {"id": "few", "stocks": [{"length": 10, "price": 3, "limit": 1}], "items": [[6, 2]]}
    with pytest.raises(NoAnswerError, match=r"jobs\.jsonl:1 few: found no way to cut all pieces"):
        plan_of(line)


def test_a_straight_edge_shorter_than_every_cut_is_no_answer_and_says_what_would_help() -> None:
    with pytest.raises(NoAnswerError, match="longer straight edge"):
        sawn(SHEETS.replace("kerf = 3", "kerf = 3\nstraight_edge = 500"))


def test_ten_thousand_pieces_end_with_a_plan_and_its_gap_when_time_is_up() -> None:
    rows = "".join(f"piece,{200 + 37 * n},100\n" for n in range(100))
    (job,) = parse_saw_jobs(
        f"kind,length,number,price\n{rows}stock,4800,,6.90\n".replace("\npiece", ",\npiece"), name="t.csv"
    )
    found = saw(job, limit=0.5)
    assert job.piece_count == 10_000
    assert found.boards is not None
    assert check_boards(*found.boards) == []
    assert 0 < found.plan.lower_bound <= found.plan.cost


# --- pages -------------------------------------------------------------------------------------------------------


def test_the_page_of_boards_tells_cost_proof_and_what_to_buy() -> None:
    page = saw_page(sawn(BOARDS))
    assert "  cost            16.80 EUR (proven: no plan costs less)" in page
    assert "4 of 2400 mm, 4.20 EUR each" in page
    assert '1 of 905 mm ("rack 3")' in page
    assert "kerf            3 mm" in page
    assert "10 mm off the factory end of a bought board" in page
    assert "eye and ear protection" in page


def test_stop_settings_stand_longest_first_with_their_boards() -> None:
    block = saw_page(sawn(BOARDS)).split("Stop settings")[1].split("\n\n")[0].splitlines()[3:]
    assert [line.split()[0] for line in block] == ["2134", "561.5"]
    assert re.search(r"2134 mm +3 +stud +1 each from \d to \d", block[0])
    assert re.search(r"561.5 mm +5 +noggin +4 from \d; 1 from \d", block[1])


def test_running_figures_of_a_board_add_trim_pieces_and_kerf() -> None:
    page = saw_page(sawn(BOARDS))
    studs = next(part for part in page.split("\n\n") if part.startswith("Boards") and "stud" in part)
    assert re.search(r"1 +10 mm +off the factory end +10 mm of 2400 mm", studs)
    assert re.search(r"2 +2134 mm +stud +2147 mm of 2400 mm", studs)
    assert "Left: 253 mm from each, waste (shorter than 300 mm)." in studs


def test_what_is_left_goes_to_the_shelf_where_it_is_long_enough() -> None:
    page = saw_page(sawn(BOARDS))
    assert "Left: 340.5 mm, to the offcut shelf." in page
    assert "Left: 132 mm, waste (shorter than 300 mm)." in page
    assert "shelf or waste" in saw_page(sawn(BOARDS.replace("least_offcut = 300\n", "")))


def test_the_last_piece_that_ends_with_the_board_has_no_cut() -> None:
    page = saw_page(sawn('{"id": "whole", "capacity": 10, "items": [[4, 1], [6, 1]]}', name="j.jsonl"))
    assert re.search(r"1 +6 +piece +6 of 10", page)
    assert re.search(r"no cut +4 +piece: what is left +10 of 10", page)
    assert "saw cuts        1 " in page
    assert "Left: nothing." in page


def test_sixteenths_of_an_inch_are_shown_as_feet_and_inches() -> None:
    line = {"id": "i", "unit": "1/16in", "kerf": 2, "stocks": [{"length": 1536, "price": 1}], "items": [[1468, 1]]}
    page = saw_page(sawn(json.dumps(line), name="j.jsonl"))
    assert "7' 7 3/4\"" in page
    assert "8' 0\"" in page


def test_a_gap_is_printed_where_the_cost_is_not_proven() -> None:
    class Stopped:
        def report(self, *, done: float, text: str) -> None: ...

        def stop_requested(self) -> bool:
            return True

    line = {"id": "hard", "kerf": 2, "stocks": [{"length": 97, "price": 13}, {"length": 61, "price": 9}],
            "items": [[41, 7], [37, 9], [23, 11], [17, 5]]}  # fmt: skip
    (job,) = parse_saw_jobs(json.dumps(line), name="j.jsonl")
    found = saw(job, progress=Stopped())
    assert found.was_stopped
    page = saw_page(found)
    if found.plan.proven:
        pytest.fail("stopped before any search, the plan should not be proven")
    assert "not proven" in page
    assert "The search was stopped" in page


def cuts_of(page: str) -> list[tuple[str, str]]:
    """Return each numbered cut with the line below it."""
    lines = page.splitlines()
    return [(line, lines[n + 1]) for n, line in enumerate(lines) if re.match(r"  +\d+\. ", line)]


def test_the_page_of_sheets_numbers_its_cuts_with_tape_figures_and_the_side_of_the_kerf() -> None:
    page = saw_page(sawn(SHEETS))
    cuts = cuts_of(page)
    assert [int(cut.split(".")[0]) for cut, _ in cuts] == list(range(1, len(cuts) + 1))
    assert "1. whole sheet, along its " in cuts[0][0]
    assert all(
        re.search(r" mm from the (left edge, kerf right of|lower edge, kerf above) the line", cut) for cut, _ in cuts
    )
    assert sum(leaves.count('piece "back" 600 mm x 1200 mm') for _, leaves in cuts) == 4
    assert "largest offcut" in page


def test_a_part_is_named_by_the_cut_that_left_it() -> None:
    cuts = cuts_of(saw_page(sawn(SHEETS)))
    for cut, _ in cuts[1:]:
        found = re.search(r"part (\d+) (left|right|lower|upper),", cut)
        assert found is not None
        assert f"{found[2]}: " in cuts[int(found[1]) - 1][1]


def test_a_whole_sheet_that_is_the_piece_has_no_cut() -> None:
    page = saw_page(sawn('{"name": "w", "W": 10, "H": 20, "pieces": [[10, 20, 1]]}', name="j.jsonl"))
    assert "No cut: the whole sheet is piece 10 x 20." in page
