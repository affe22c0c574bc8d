"""Saw jobs are read exactly from each notation, and every slip is told with its line and its mend."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from lathlight.app import parse_saw_jobs, read_saw_jobs
from lathlight.app.saw_checks import MOST_STEPS
from lathlight.app.saw_job import steps_of
from lathlight.app.saw_slips import MOST_TOLD
from lathlight.errors import InputError

METRIC = """\
[job]
kerf = 3
trim_cut = 10
[[pieces]]
name = "stud"
length = 2134
number = 8
[[stock]]
length = "2.4 m"
price = 4.20
"""
TABLE = """\
kind,name,length,number,price,value
units,,,,,metric
kerf,,,,,3
trim cut,,,,,10
piece,stud,2134,8,,
stock,,2.4 m,,4.20,
"""
LINE = '{"id": "a", "stocks": [{"length": 2400, "price": 420, "limit": null}], "kerf": 3, "items": [[2134, 8]]}'


def problems(text: str, *, name: str = "job.toml") -> list[str]:
    with pytest.raises(InputError) as caught:
        parse_saw_jobs(text, name=name)
    return [str(problem) for problem in caught.value.problems]


def test_toml_and_csv_say_the_same() -> None:
    (one,), (other,) = parse_saw_jobs(METRIC, name="job.toml"), parse_saw_jobs(TABLE, name="job.csv")
    assert (one.kerf, one.trim_cut, one.unit) == (other.kerf, other.trim_cut, other.unit) == (3, 10, "mm")
    assert [(p.name, p.length, p.count) for p in one.pieces] == [(p.name, p.length, p.count) for p in other.pieces]
    assert [(s.length, s.price) for s in one.stocks] == [(s.length, s.price) for s in other.stocks]
    assert one.stocks[0].price == Decimal("4.20")


def test_semicolons_and_a_decimal_comma_are_read_as_spreadsheets_write_them() -> None:
    text = "kind;length;number;price\npiece;500 mm;2;\nstock;2,4 m;;4,20\n"
    (job,) = parse_saw_jobs(text, name="job.csv")
    assert (job.stocks[0].length, job.stocks[0].price) == (2400, Decimal("4.20"))


def test_inches_come_out_exactly_on_their_fractions() -> None:
    text = """
[job]
units = "imperial"
kerf = "3/32 in"
[[pieces]]
length = "7' 6 1/2\\""
[[stock]]
length = "8 ft"
price = 3
"""
    (job,) = parse_saw_jobs(text, name="job.toml")
    assert (job.kerf, job.pieces[0].length, job.stocks[0].length) == (Fraction(3, 32), Fraction(181, 2), 96)
    assert steps_of(job).length == 32


def test_half_millimetres_are_counted_in_half_millimetres() -> None:
    (job,) = parse_saw_jobs(METRIC.replace("2134", "2134.5"), name="job.toml")
    assert steps_of(job).length == 2
    assert steps_of(job).whole(job.pieces[0].length) == 4269


def test_each_section_is_a_job_of_its_own_and_sheets_stay_apart_from_boards() -> None:
    text = """
kind,name,section,length,width,number,price,grain
piece,stud,38x63,2134,,2,,
piece,back,ply,1200,600,1,,free
piece,plate,38x63,900,,1,,
stock,,38x63,2400,,,4.20,
stock,,ply,2440,1220,,30,
"""
    boards, sheets = parse_saw_jobs(text.lstrip(), name="bay.csv", stem="bay")
    assert (boards.name, boards.is_sheets, boards.piece_count) == ("bay 38x63", False, 3)
    assert (sheets.name, sheets.is_sheets, sheets.pieces[0].turns) == ("bay ply", True, True)


@pytest.mark.parametrize(
    ("line", "is_sheets", "pieces", "price"),
    [
        ('{"id": "one", "capacity": 100, "items": [[50, 2], [30, 1]]}', False, 3, Decimal(1)),
        (LINE, False, 8, Decimal(420)),
        (
            '{"id": "s", "kerf": 3, "stocks": [{"l": 2440, "w": 1220, "price": 36, "limit": null}],'
            ' "items": [{"l": 500, "w": 300, "qty": 4, "rotate": true}]}',
            True,
            4,
            Decimal(36),
        ),
        ('{"name": "t", "W": 200, "H": 100, "pieces": [[120, 80, 2]], "area": 1}', True, 2, Decimal(1)),
        ('{"name": "v", "W": 20, "H": 10, "pieces_w_h_value": [[5, 4, 66]]}', True, 1, Decimal(1)),
        ('{"name": "v", "W": 20, "H": 10, "pieces_w_h_max_value": [[5, 4, 3, 66]]}', True, 3, Decimal(1)),
    ],
)
def test_every_form_of_a_json_line_is_read(line: str, is_sheets: bool, pieces: int, price: Decimal) -> None:
    (job,) = parse_saw_jobs(line, name="jobs.jsonl")
    assert (job.is_sheets, job.piece_count, job.stocks[0].price) == (is_sheets, pieces, price)


def test_w_lies_across_and_h_along_the_sheet() -> None:
    (job,) = parse_saw_jobs('{"name": "t", "W": 200, "H": 100, "pieces": [[120, 80, 1]]}', name="jobs.jsonl")
    assert (job.stocks[0].width, job.stocks[0].length) == (200, 100)
    assert (job.pieces[0].width, job.pieces[0].length) == (120, 80)
    assert job.stages is None


def test_values_that_a_least_cost_plan_does_not_use_are_said_to_be_unused() -> None:
    (job,) = parse_saw_jobs('{"name": "v", "W": 20, "H": 10, "pieces_w_h_value": [[5, 4, 66]]}', name="jobs.jsonl")
    assert "values" in job.ignored


BAD = [
    (METRIC.replace("kerf = 3", "kerf = -3"), "job.toml:2 job kerf: found -3, expected 0 or more"),
    (METRIC.replace("kerf", "krf"), "job.toml:2 job krf: found a key that is not known"),
    (METRIC.replace("[[pieces]]", "[[peices]]"), 'Did you mean "pieces"?'),
    (METRIC.replace("4.20", '"dear"'), 'job.toml:10 stock[0] price: found "dear", expected a number'),
    (METRIC.replace("4.20", "nan"), "job.toml:10 stock[0] price: found NaN"),
    (METRIC.replace("4.20", "-4"), "job.toml:10 stock[0] price: found -4"),
    (METRIC.replace("price = 4.20", ""), "job.toml:8 stock[0] price: found no price"),
    (METRIC.replace("2134", "2395"), 'pieces[0] "stud" length: found "stud" 2395 mm, expected at most 2390 mm'),
    (METRIC.split("[[stock]]")[0], 'job.toml:4 pieces[0] "stud": found a piece without stock'),
    (METRIC.replace("number = 8", "number = 2.5"), 'pieces[0] "stud" number: found 2.5, expected a whole number'),
    (METRIC.replace("number = 8", "number = 9000000"), "expected a whole number from 0 to 100000"),
    (METRIC.replace("2134", "0"), 'job.toml:6 pieces[0] "stud" length: found 0, expected more than 0'),
    (METRIC.replace("2134", '"1/3 in"'), "which needs steps too fine for the longest stock"),
    (
        METRIC + "[[stock]]\nlength = 2400\nprice = 5\n",
        "job.toml:11 stock[1]: found price 5 for what costs 4.20 before",
    ),
    (
        METRIC + '[[stock]]\nname="r"\nlength=500\noffcut=true\n' * 2,
        'job.toml:15 stock[2] "r": found offcut "r" a second',
    ),
    (METRIC + "[[stock]]\nlength=500\noffcut=true\n" * 2, "found an offcut of 500 mm a second time"),
    (METRIC + "[[stock]]\nlength=500\noffcut=true\nprice=2\n", "what is on the shelf is free"),
    (METRIC.replace("4.20", "0"), "found stock that is free without end"),
    (METRIC.replace('"2.4 m"', '"8\' 0 1/2""'), "which is not TOML"),
    (METRIC.replace("[job]", "[job]\nstages = 0"), "job.toml:2 job stages: found 0"),
    (METRIC.replace("[job]", '[job]\nunits = "cubits"'), 'found "cubits", expected metric or imperial'),
    (METRIC.replace("[[stock]]", "[stock]"), "job.toml:8 stock: found a table, expected a list of tables"),
    (METRIC.replace("[[pieces]]", '[[pieces]]\ngrain = "along"'), 'found "along", expected fixed or free'),
    ("pieces = []\n", "job.toml pieces: found none"),
    ("", "job.toml: found an empty file"),
    (" \n\n", "job.toml: found an empty file"),
]


@pytest.mark.parametrize(("text", "said"), BAD)
def test_a_slip_in_toml_is_told_with_its_place(text: str, said: str) -> None:
    told = problems(text)
    assert any(said in line for line in told), told


def test_a_moulding_that_is_too_long_is_offered_a_scarf_and_a_board_is_not() -> None:
    text = METRIC.replace("2134", "2500")
    assert "scarf" not in problems(text)[0]
    (told,) = problems(text + "moulding = true\n")
    assert "Add stock of at least 2510 mm, or join it from two lengths with a scarf" in told


def test_a_misspelt_section_brings_up_the_nearest() -> None:
    text = METRIC.replace("[[pieces]]", '[[pieces]]\nsection = "38x36"').replace(
        "[[stock]]", '[[stock]]\nsection = "38x63"'
    )
    (told,) = problems(text)
    assert 'found a piece without stock of section "38x36"' in told
    assert 'Did you mean section "38x63"?' in told


def test_an_offcut_is_cut_without_the_trim_that_a_bought_board_needs() -> None:
    text = METRIC.replace("2134", "2395").replace("number = 8", "number = 1")
    offcut = "[[stock]]\nlength = 2395\noffcut = true\n"
    assert parse_saw_jobs(text + offcut, name="job.toml")
    assert problems(text)


def test_all_slips_of_a_file_are_told_in_its_order() -> None:
    text = METRIC.replace("kerf = 3", "kerf = -3").replace("2134", '"long"').replace("4.20", '"dear"')
    assert [line.split(" ")[0] for line in problems(text)] == ["job.toml:2", "job.toml:6", "job.toml:10"]


def test_thousands_of_slips_are_not_all_told() -> None:
    text = "kind,length\n" + "piece,long\n" * 5000
    assert len(problems(text, name="job.csv")) == MOST_TOLD


CSV_BAD = [
    (TABLE.replace("piece,stud", "peice,stud"), 'job.csv:5 kind: found "peice"', 'Did you mean "piece"?'),
    (TABLE.replace("kind,name", "kind,nam"), 'job.csv:1: found a column "nam"', 'Did you mean "name"?'),
    (TABLE.replace("kind,name", "sort,name"), 'job.csv:1: found a column "sort"', "Begin the file with a line"),
    (TABLE.replace("kerf,,,,,3", "kerf,,3,,,"), "job.csv:3 kerf: found no value", "Move the figure there."),
    (TABLE + "kerf,,,,,4\n", "job.csv:7 kerf: found it a second time", "Take one of the two lines out."),
    (TABLE.replace("4.20,", "4.20,,,9"), "job.csv:6: found 8 cells", "quotation marks"),
    (TABLE.replace("4.20", "cheap"), 'job.csv:6 stock price: found "cheap"', "such as 4.20"),
]


@pytest.mark.parametrize(("text", "said", "mend"), CSV_BAD)
def test_a_slip_in_csv_is_told_with_its_line(text: str, said: str, mend: str) -> None:
    told = problems(text, name="job.csv")
    assert any(line.startswith(said) and mend in line for line in told), told


LINES_BAD = [
    (LINE[:-4], "jobs.jsonl:2: found a line that breaks off or is not JSON"),
    ("[1, 2]", "jobs.jsonl:2: found a list, expected a job in braces"),
    (LINE.replace('"kerf"', '"kref"'), "jobs.jsonl:2 a kref: found a key that is not known"),
    (LINE.replace("420", '"dear"'), 'jobs.jsonl:2 a stocks[0] price: found "dear"'),
    (LINE.replace("420", "NaN"), "jobs.jsonl:2 a stocks[0] price: found nan"),
    (LINE.replace('"kerf": 3', '"kerf": -3'), "jobs.jsonl:2 a kerf: found -3"),
    (LINE.replace("2134", "2500"), "jobs.jsonl:2 a items[0]: found 2500, expected at most 2400"),
    (LINE.replace("[2134, 8]", "[2134]"), "jobs.jsonl:2 a items[0]: found another entry"),
    (LINE.replace("[[2134, 8]]", "[]"), "jobs.jsonl:2 a items: found nothing under it"),
    (LINE.replace('"price"', '"prise"'), "jobs.jsonl:2 a stocks[0] prise: found a key that is not known"),
    (LINE.replace("[2134, 8]", '[2134, 8], {"l": 3, "w": 2, "qty": 1}'), "jobs.jsonl:2 a items: found pieces of board"),
    (LINE.replace('"limit": null', '"offcut": "yes"'), 'jobs.jsonl:2 a stocks[0] offcut: found "yes"'),
    (LINE.replace("stocks", "shop"), "jobs.jsonl:2 a stocks: found no such key"),
]


@pytest.mark.parametrize(("line", "said"), LINES_BAD)
def test_a_slip_in_json_lines_is_told_with_the_number_of_its_line(line: str, said: str) -> None:
    told = problems(f"{LINE}\n{line}\n", name="jobs.jsonl")
    assert any(each.startswith(said) for each in told), told


def test_a_line_may_hold_remarks_of_its_own() -> None:
    text = LINE.replace('"id"', '"seed": 7, "optimum": null, "tier": "easy", "id"')
    assert parse_saw_jobs(text, name="jobs.jsonl")


@pytest.mark.parametrize("stage", ["missing.toml", "."])
def test_a_file_that_is_not_there_is_a_problem(stage: str, tmp_path: Path) -> None:
    with pytest.raises(InputError):
        read_saw_jobs(tmp_path / stage)


def test_a_misspelt_file_brings_up_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "bench.toml").write_text(METRIC, encoding="utf-8")
    with pytest.raises(InputError, match=r'Did you mean "bench\.toml"'):
        read_saw_jobs(tmp_path / "bensh.toml")


def test_a_file_in_another_encoding_is_told_with_the_line(tmp_path: Path) -> None:
    (tmp_path / "job.csv").write_bytes(b"kind,name,length\npiece,caf\xe9,300\n")
    with pytest.raises(InputError, match=r"job\.csv:2: found byte 0xe9"):
        read_saw_jobs(tmp_path / "job.csv")


def test_the_form_shows_in_the_text_where_the_name_does_not_say() -> None:
    for text in (METRIC, TABLE, LINE):
        (job,) = parse_saw_jobs(text, name="list")
        assert job.piece_count == 8


def test_the_finest_grid_that_is_taken_is_one_that_a_table_can_hold() -> None:
    text = METRIC.replace("2134", "2133.9991")
    (told,) = problems(text)
    assert "2133.9991 mm" in told
    assert MOST_STEPS < 2400 * 10_000
