"""Whole commands, as somebody at a terminal, or a script, meets them."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from lathlight.app import log_folder, new_memo, read_example
from lathlight.cli import run, show
from lathlight.drawings import PLANNING_AID

SMALL = """\
[project]
title = "Small"
units = "metric"

[room]
width = "5 m"
depth = "4 m"
ceiling = "2.6 m"

[set]
height = "2.2 m"
sheet = "ply 9 mm"
framing = "38x63"

[[walls]]
name = "back"
length = "1.2 m"
"""
WEAK = """
[workshop]
people = 1
lift_per_person = 3
"""  # nobody there to lift a flat: a snag that stops the job
BROKEN = SMALL.replace('"1.2 m"', '"-1.2 m"').replace("ceiling", "celing")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "small.toml"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str, str]]:
    """Give what runs one command line and returns its exit code and what it printed."""

    def run_it(*arguments: object) -> tuple[int, str, str]:
        code = run([str(each) for each in arguments])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run_it


def files_in(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder).as_posix()): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


Call = Callable[..., tuple[int, str, str]]


# --- plan --------------------------------------------------------------------------------------------------------


def test_plan_writes_the_set_book_beside_the_file_and_says_where(file: Path, call: Call) -> None:
    code, out, err = call("plan", file)
    folder = file.with_name("small-set-book")
    assert (code, err) == (0, "")
    assert out.rstrip().endswith(f"Set book: {folder / 'set-book.pdf'}")
    assert "STANDING NOT CHECKED" in out
    assert PLANNING_AID in " ".join(out.split())  # in the drawings' and the book's own words
    written = files_in(folder)
    assert {"set-book.pdf", "lists.xlsx", "set.glb", "plan.json"} <= set(written)
    assert {Path(name).suffix for name in written if name.startswith("drawings/")} == {".svg", ".dxf"}
    assert {Path(name).suffix for name in written if name.startswith("lists/")} == {".csv"}
    assert written["set-book.pdf"].startswith(b"%PDF")


def test_planning_twice_gives_the_same_bytes(file: Path, call: Call, tmp_path: Path) -> None:
    call("plan", file, "--out", tmp_path / "one")
    call("plan", file, "--out", tmp_path / "two")
    assert files_in(tmp_path / "one") == files_in(tmp_path / "two")


def test_plan_for_scripts_prints_one_document(file: Path, call: Call) -> None:
    code, out, err = call("plan", file, "--json")
    said = json.loads(out)
    assert (code, err, out.count("\n")) == (0, "", 1)
    assert said["title"] == "Small"
    assert said["stops"] is False
    assert said["files"] == sorted(files_in(Path(said["folder"])))
    (length,) = [each for each in said["quantities"] if each["id"] == "set/length"]
    assert (length["value"], length["unit"]) == (1200.0, "mm")


def test_a_snag_that_stops_the_job_is_exit_code_1_and_the_book_is_written(file: Path, call: Call) -> None:
    file.write_text(SMALL + WEAK, encoding="utf-8")
    code, out, _ = call("plan", file)
    assert code == 1
    assert "STOPS THE JOB" in out
    assert file.with_name("small-set-book").is_dir()


def test_problems_are_told_all_at_once_and_nothing_is_written(file: Path, call: Call) -> None:
    file.write_text(BROKEN, encoding="utf-8")
    code, out, err = call("plan", file)
    assert (code, out) == (2, "")
    assert err.count("\n") >= 2
    assert "Traceback" not in err
    assert names(file.parent) == ["small.toml"]


UNFRAMABLE = (
    SMALL
    + """
  [[walls.openings]] # no timber left beside it
  name = "door"
  kind = "door"
  at = 0
  width = 700
  height = 1900
"""
)
COLLIDING = (
    SMALL.replace('length = "1.2 m"', 'length = "1 m"')
    + """
[[walls]] # a ring that does not quite close: the last face passes behind the first one
name = "b"
length = "1 m"

[[walls]]
name = "c"
length = "1.2 m"
angle_to_next = 79

[[walls]]
name = "d"
length = 1080
"""
)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        (UNFRAMABLE, 'small.toml:19 walls[0] "back" openings[0] "door": found the timber beside its rough edge'),
        (COLLIDING, 'small.toml:28 walls[3] "d": found its sheet or frame runs into wall "back"'),
    ],
)
def test_what_shows_only_while_planning_is_told_with_file_line_and_key(
    text: str, place: str, file: Path, call: Call
) -> None:
    file.write_text(text, encoding="utf-8")
    for command in ("plan", "snags", "why"):
        code, out, err = call(command, file)
        assert (code, out) == (2, "")
        assert err.startswith(place)
        assert err.count("\n") == 1
    assert names(file.parent) == ["small.toml"]


def test_slips_of_the_file_and_unknown_names_are_told_together(file: Path, call: Call) -> None:
    file.write_text(BROKEN.replace('"ply 9 mm"', '"pli 9 mm"'), encoding="utf-8")
    code, _, err = call("plan", file)
    told = [line.split(": found")[0] for line in err.splitlines()]
    assert code == 2
    assert "small.toml:12 set sheet" in told
    assert told == sorted(told, key=lambda place: int(place.split(":")[1].split(" ")[0]))
    assert len(told) == 4


def test_problems_for_scripts_have_one_shape(file: Path, call: Call) -> None:
    file.write_text(BROKEN, encoding="utf-8")
    code, out, err = call("plan", file, "--json")
    said = json.loads(out)
    assert (code, err) == (2, "")
    assert said["kind"] == "input"
    assert len(said["problems"]) >= 2
    assert all(set(problem) == {"place", "found", "expected", "remedy"} for problem in said["problems"])


@pytest.mark.parametrize("missing", ["nothing.toml", "no/such/folder/a.toml", "."])
def test_a_file_that_is_not_there_is_a_problem(missing: str, call: Call, tmp_path: Path) -> None:
    code, out, err = call("plan", tmp_path / missing)
    assert (code, out) == (2, "")
    assert err.strip()
    assert names(tmp_path) == []


def test_somebody_elses_folder_is_not_replaced(file: Path, call: Call, tmp_path: Path) -> None:
    (tmp_path / "photographs").mkdir()
    (tmp_path / "photographs" / "one.jpg").write_bytes(b"jpg")
    code, _, err = call("plan", file, "--out", tmp_path / "photographs")
    assert code == 2
    assert "a folder with other things in it" in err
    assert names(tmp_path / "photographs") == ["one.jpg"]


def test_a_file_where_the_folder_should_be_is_a_problem(file: Path, call: Call) -> None:
    file.with_name("small-set-book").write_text("mine")
    code, _, err = call("plan", file, "--json")
    assert code == 2
    assert err == ""
    assert file.with_name("small-set-book").read_text() == "mine"


def test_ctrl_c_leaves_nothing_behind(file: Path, call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("lathlight.app.save._write", interrupted)
    code, out, err = call("plan", file)
    assert (code, out) == (130, "")
    assert "Nothing was left half-written" in err
    assert names(file.parent) == ["small.toml"]


def test_a_fault_of_ours_is_one_line_and_a_log_file(file: Path, call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    def faulty(*_: object, **__: object) -> None:
        raise IndexError("no\nsuch stud")

    monkeypatch.setattr("lathlight.app.run.derive", faulty)
    code, out, err = call("plan", file)
    assert (code, out, err.count("\n")) == (3, "", 1)
    assert "Traceback" not in err
    log = Path(err.split(": found")[0])
    assert log.parent == log_folder()
    assert "IndexError" in log.read_text(encoding="utf-8")
    assert names(file.parent) == ["small.toml"]


# --- plan --watch ------------------------------------------------------------------------------------------------


def test_watch_plans_on_every_save_survives_a_bad_file_and_does_not_repeat_itself(
    file: Path, call: Call, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts = [SMALL, BROKEN, SMALL + "# a remark\n", SMALL.replace("1.2 m", "1.3 m")]
    memo, walls_built = new_memo(), []

    def saves(path: Path) -> Iterator[None]:
        for text in texts:
            path.write_text(text, encoding="utf-8")
            yield
            walls_built.append(memo.runs["wall"])
        raise KeyboardInterrupt

    monkeypatch.setattr("lathlight.app.each_save", saves)
    monkeypatch.setattr("lathlight.app.new_memo", lambda: memo)
    code, out, err = call("plan", file, "--watch")
    assert code == 0
    assert out.count("Set book: ") == 3
    assert "celing" in err, "the problems of the bad file"
    once, broken, remark, longer = walls_built
    assert once > 0
    assert (broken, remark) == (once, once), "a remark builds no wall"
    assert longer > once


# --- snags, why, schema, catalog ---------------------------------------------------------------------------------


def test_snags_lists_them_and_writes_nothing(file: Path, call: Call) -> None:
    file.write_text(SMALL + WEAK, encoding="utf-8")
    code, out, _ = call("snags", file)
    assert code == 1
    assert "STOPS THE JOB" in out
    assert names(file.parent) == ["small.toml"]
    said = json.loads(call("snags", file, "--json")[1])
    assert said["stops"] is True
    assert said["snags"][0]["severity"] == "stops the job"


def test_every_id_that_is_listed_can_be_explained(file: Path, call: Call) -> None:
    file.write_text(read_example("parlour"), encoding="utf-8")
    kinds = json.loads(call("why", file, "--json")[1])
    assert {"quantity", "wall", "flat", "member", "sheet piece", "seam", "corner", "way in", "stock"} <= set(kinds)
    for kind, identities in kinds.items():
        code, out, _ = call("why", file, *identities[0].split(" "))
        assert code == 0
        assert out.startswith(f"{identities[0]}\n")
        assert "  how " in out, kind
        assert "  source " in out, kind


def test_a_misspelt_id_brings_up_the_nearest(file: Path, call: Call) -> None:
    code, out, err = call("why", file, "set/weigth")
    assert (code, out) == (2, "")
    assert "set/weight" in err


def test_an_id_is_found_in_small_or_large_letters(file: Path, call: Call) -> None:
    assert call("why", file, "SET/Weight")[1].startswith("set/weight\n")


def test_the_schema_takes_the_demo_sets(call: Call) -> None:
    import tomllib

    from jsonschema import Draft202012Validator

    code, out, _ = call("schema")
    schema = json.loads(out)
    assert code == 0
    document = tomllib.loads(read_example("parlour"))
    document["project"]["date"] = str(document["project"]["date"])
    Draft202012Validator(schema).validate(document)
    assert json.loads(call("schema", "--json")[1]) == schema


def test_the_catalogue_is_searched_with_trade_words(call: Call) -> None:
    code, out, _ = call("catalog", "skirting")
    assert code == 0
    assert "base 95" in out
    assert "38x38" not in out


def test_every_source_is_named_once_and_every_row_says_which_is_its_own(call: Call) -> None:
    _, out, _ = call("catalog")
    rows, _, sources = out.partition("\nSources:\n")
    entries = re.split(r"\n(?=  \[\d+\] )", f"\n{sources.rstrip()}")[1:]  # one may take several lines
    named = [" ".join(entry.split()).split(" ", 1) for entry in entries]
    assert [number for number, _ in named] == [f"[{n}]" for n in range(1, len(named) + 1)]
    assert len({text for _, text in named}) == len(named)
    used = {line.split()[-1] for line in rows.splitlines() if line.endswith("]")}
    assert used == {number for number, _ in named}


@pytest.mark.parametrize(
    ("typed", "meant"), [("plywod", "plywood"), ("skirtng", "skirting"), ("fasteers screw", "fasteners screw")]
)
def test_words_that_find_nothing_bring_up_the_nearest_that_do(typed: str, meant: str, call: Call) -> None:
    assert f'Did you mean "{meant}"?' in call("catalog", typed)[1]
    assert "No row" not in call("catalog", meant)[1]


def test_words_near_to_nothing_are_told_where_all_rows_are(call: Call) -> None:
    assert "lathlight catalog lists them all" in call("catalog", "zzzz")[1]


def test_a_projects_own_rows_are_in_its_catalogue(file: Path, call: Call) -> None:
    row = '\n[[catalog.weights]]\nname = "old anvil"\nmass = 31\nsource = "weighed"\n'
    file.write_text(SMALL + row, encoding="utf-8")
    assert "old anvil" in call("catalog", "anvil", "--project", file)[1]
    assert "old anvil" not in call("catalog", "anvil")[1]


@pytest.mark.parametrize("option", ["--table", "--units"])
def test_a_table_or_system_that_is_not_there_is_a_problem(option: str, call: Call) -> None:
    code, out, err = call("catalog", option, "sheeets")
    assert (code, out) == (2, "")
    assert option in err


# --- new, demo ---------------------------------------------------------------------------------------------------


def test_new_writes_a_file_that_plans_at_once(tmp_path: Path, call: Call) -> None:
    path = tmp_path / "bay.toml"
    code, out, _ = call("new", path, "--yes", "--title", "Bay", "--wall", "1.2m", "--corner", "110", "--wall", "2 m")
    assert code == 0
    assert f"Wrote {path}" in out
    assert call("plan", path)[0] in (0, 1)
    assert "2 m" in path.read_text(encoding="utf-8")


def test_new_never_replaces_a_file_without_being_told(file: Path, call: Call) -> None:
    code, out, err = call("new", file, "--yes")
    assert (code, out) == (2, "")
    assert "--overwrite" in err
    assert file.read_text(encoding="utf-8") == SMALL
    assert call("new", file, "--yes", "--overwrite")[0] == 0
    assert file.read_text(encoding="utf-8") != SMALL


def test_new_copies_a_demo_set(tmp_path: Path, call: Call) -> None:
    code, out, _ = call("new", tmp_path / "mine.toml", "--example", "parlour", "--json")
    assert code == 0
    assert json.loads(out) == {"file": str(tmp_path / "mine.toml")}
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == read_example("parlour")


def test_a_demo_set_that_is_not_there_brings_up_the_nearest(tmp_path: Path, call: Call) -> None:
    code, _, err = call("new", tmp_path / "mine.toml", "--example", "parlor")
    assert code == 2
    assert "parlour" in err
    assert names(tmp_path) == []


def test_answers_do_not_go_with_an_example(tmp_path: Path, call: Call) -> None:
    code, _, err = call("new", tmp_path / "mine.toml", "--example", "parlour", "--height", "2 m")
    assert code == 2
    assert "height" in err


def test_demo_plans_a_demo_set_and_keeps_your_changes(tmp_path: Path, call: Call) -> None:
    code, out, _ = call("demo", tmp_path / "try")
    project = tmp_path / "try" / "corner-metric.toml"
    assert code == 0
    assert str(tmp_path / "try" / "corner-metric-set-book" / "set-book.pdf") in out
    changed = project.read_text(encoding="utf-8").replace("Potter's corner", "Mine")
    project.write_text(changed, encoding="utf-8")
    said = json.loads(call("demo", tmp_path / "try", "--json")[1])
    assert said["title"] == "Mine"
    assert project.read_text(encoding="utf-8") == changed


@pytest.mark.parametrize("name", ["corner-imperial", "corner-metric", "parlour", "schoolhall"])
def test_no_demo_set_has_a_snag_that_stops_the_job(name: str, file: Path, call: Call) -> None:
    file.write_text(read_example(name), encoding="utf-8")
    code, out, _ = call("snags", file)
    assert code == 0, out


# --- the command line itself -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "arguments", [("paln",), ("plan",), ("plan", "a.toml", "--otu"), ("plan", "a.toml", "b.toml"), ("--nonsense",)]
)
def test_a_wrong_command_line_is_one_line_that_says_where_help_is(arguments: tuple[str, ...], call: Call) -> None:
    code, out, err = call(*arguments)
    assert (code, out, err.count("\n")) == (2, "", 1)
    assert err.startswith("command line: ")
    assert "--help" in err


def test_a_wrong_command_line_for_scripts_has_the_same_shape(call: Call) -> None:
    code, out, _ = call("plan", "--json")
    said = json.loads(out)
    assert code == 2
    assert said["kind"] == "usage"
    assert set(said["problems"][0]) == {"place", "found", "expected", "remedy"}


def test_without_a_command_the_help_is_shown(call: Call) -> None:
    code, out, _ = call()
    assert code == 0
    assert "Usage: lathlight" in out
    assert all(name in out for name in ("plan", "new", "demo", "snags", "why", "schema", "catalog"))


def test_the_version_is_printed(call: Call) -> None:
    assert call("--version") == (0, "lathlight 0.1.0\n", "")
    assert json.loads(call("--version", "--json")[1]) == {"version": "0.1.0"}


@pytest.mark.parametrize(
    "arguments", [("snags", "FILE"), ("why", "FILE"), ("why", "FILE", "set/weight"), ("catalog",), ("schema",)]
)
def test_scripts_get_one_document_on_one_line(arguments: tuple[str, ...], file: Path, call: Call) -> None:
    _, out, err = call(*[file if each == "FILE" else each for each in arguments], "--json")
    assert err == ""
    assert out.count("\n") == 1
    json.loads(out)


@pytest.mark.parametrize("arguments", [("snags", "FILE"), ("catalog", "timber"), ("why", "FILE", "set/weight")])
def test_lines_fit_a_narrow_terminal(
    arguments: tuple[str, ...], file: Path, call: Call, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "60")
    file.write_text(SMALL + WEAK, encoding="utf-8")
    _, out, _ = call(*[file if each == "FILE" else each for each in arguments])
    assert max(map(len, out.splitlines())) <= 60


def test_json_knows_no_infinity() -> None:
    with pytest.raises(ValueError, match="JSON"):
        show.say_json({"limit": float("inf")})
