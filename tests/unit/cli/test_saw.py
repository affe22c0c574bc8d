"""The command that cuts a plain list, as somebody at a terminal, or a script, meets it."""

from __future__ import annotations

import json
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lathlight.app import saw_run
from lathlight.cli import run
from lathlight.cutting import solve_boards

Call = Callable[..., tuple[int, str, str]]

TWO = """\
{"id": "one", "capacity": 10, "items": [[6, 2], [4, 2]]}
{"id": "two", "kerf": 1, "stocks": [{"length": 20, "price": 7, "limit": null}], "items": [[9, 3]]}
"""
IMPOSSIBLE = '{"id": "few", "stocks": [{"length": 10, "price": 3, "limit": 1}], "items": [[6, 2]]}\n'


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Call:
    def run_it(*arguments: object) -> tuple[int, str, str]:
        code = run([str(each) for each in arguments])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run_it


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "jobs.jsonl"
    path.write_text(TWO, encoding="utf-8")
    return path


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_pages_of_all_jobs_are_printed(file: Path, call: Call) -> None:
    code, out, err = call("saw", file)
    assert (code, err) == (0, "")
    assert out.count("Stop settings, longest first") == 2
    assert out.startswith("one\n")


def test_scripts_get_one_line_a_job(file: Path, call: Call) -> None:
    code, out, err = call("saw", file, "--json")
    lines = [json.loads(line) for line in out.splitlines()]
    assert (code, err) == (0, "")
    assert [(line["id"], line["cost"], line["proven"]) for line in lines] == [("one", 2, True), ("two", 14, True)]


def test_a_file_is_written_whole_and_not_replaced_unasked(file: Path, call: Call, tmp_path: Path) -> None:
    target = tmp_path / "out" / "plans.txt"
    code, out, _ = call("saw", file, "--out", target)
    assert code == 0
    assert out.rstrip().endswith(f"Wrote {target}")
    text = target.read_text(encoding="utf-8")
    assert text.count("Stop settings") == 2
    code, _, err = call("saw", file, "--out", target)
    assert code == 2
    assert "--overwrite" in err
    assert call("saw", file, "--out", target, "--overwrite", "--json")[0] == 0
    assert [json.loads(line)["id"] for line in target.read_text(encoding="utf-8").splitlines()] == ["one", "two"]


def test_a_folder_gets_a_page_a_job_and_all_documents(file: Path, call: Call, tmp_path: Path) -> None:
    code, out, _ = call("saw", file, "--out", tmp_path / "bench", "--json")
    assert code == 0
    assert json.loads(out) == {"file": str(tmp_path / "bench"), "jobs": 2, "proven": 2}
    assert names(tmp_path / "bench") == ["one.txt", "plans.jsonl", "two.txt"]


def test_a_folder_with_things_in_it_is_left_alone_and_nothing_is_solved(
    file: Path, call: Call, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(saw_run, "solve_boards", lambda *_, **__: pytest.fail("solved in vain"))
    code, _, err = call("saw", file, "--out", tmp_path)
    assert code == 2
    assert "a folder with things in it" in err
    assert names(tmp_path) == ["jobs.jsonl"]


def test_jobs_of_one_name_get_pages_of_their_own(file: Path, call: Call, tmp_path: Path) -> None:
    file.write_text(TWO.replace('"two"', '"One"'), encoding="utf-8")
    call("saw", file, "--out", tmp_path / "bench")
    assert names(tmp_path / "bench") == ["One-2.txt", "one.txt", "plans.jsonl"]


def test_problems_of_a_file_are_told_and_nothing_is_written(file: Path, call: Call, tmp_path: Path) -> None:
    file.write_text(TWO + '{"id": "three", "capacity": 10, "items": [[6, 2]\n', encoding="utf-8")
    code, out, err = call("saw", file, "--out", tmp_path / "plans.txt")
    assert (code, out) == (2, "")
    assert err.startswith("jobs.jsonl:3: found a line that breaks off")
    assert names(tmp_path) == ["jobs.jsonl"]
    code, out, err = call("saw", file, "--json")
    assert (code, err) == (2, "")
    assert json.loads(out)["kind"] == "input"


def test_a_job_without_an_answer_does_not_keep_the_others_from_theirs(file: Path, call: Call) -> None:
    file.write_text(IMPOSSIBLE + TWO, encoding="utf-8")
    code, out, _ = call("saw", file, "--json")
    *plans, last = [json.loads(line) for line in out.splitlines()]
    assert code == 2
    assert [plan["id"] for plan in plans] == ["one", "two"]
    assert last["kind"] == "no answer"


@pytest.mark.parametrize(
    ("option", "value"),
    [("--limit", "0"), ("--limit", "nan"), ("--limit", "soon"), ("--stages", "0"), ("--stages", "x")],
)
def test_an_option_that_cannot_be_meant_is_a_problem(option: str, value: str, file: Path, call: Call) -> None:
    code, out, err = call("saw", file, option, value)
    assert (code, out) == (2, "")
    assert option in err
    assert "Traceback" not in err


def test_more_stages_are_taken_from_the_command_line(file: Path, call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[int | None] = []
    solve = saw_run.solve_sheets

    def spy(job: Any, **options: Any) -> Any:
        seen.append(job.stages)
        return solve(job, **options)

    monkeypatch.setattr(saw_run, "solve_sheets", spy)
    file.write_text('{"name": "s", "W": 9, "H": 9, "pieces": [[4, 4, 2]]}\n', encoding="utf-8")
    for stages in ((), ("--stages", "2"), ("--stages", "any")):
        assert call("saw", file, "--json", *stages)[0] == 0
    assert seen == [None, 2, None]


def test_the_limit_reaches_the_solver_as_its_clock(file: Path, call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    clocks: list[float | None] = []

    def spy(job: Any, **options: Any) -> Any:
        clocks.append(options["clock"])
        return solve_boards(job, **options)

    monkeypatch.setattr(saw_run, "solve_boards", spy)
    call("saw", file)
    call("saw", file, "--limit", "10")
    assert clocks == [None, None, 9.8, 9.8], "a little is kept back for the step that is under way"


# --- Ctrl-C ------------------------------------------------------------------------------------------------------


def interrupting(monkeypatch: pytest.MonkeyPatch, *, times: int) -> None:
    """Let Ctrl-C be pressed as the first job is solved."""

    def solve(job: Any, **options: Any) -> Any:
        for _ in range(times):
            signal.raise_signal(signal.SIGINT)
        return solve_boards(job, **options)

    monkeypatch.setattr(saw_run, "solve_boards", solve)


@pytest.mark.skipif(not hasattr(signal, "raise_signal"), reason="no signals")
def test_ctrl_c_takes_the_best_plan_so_far(file: Path, call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    before = signal.getsignal(signal.SIGINT)
    hard = {
        "id": "hard",
        "kerf": 2,
        "stocks": [{"length": 97, "price": 13}, {"length": 61, "price": 9}],
        "items": [[41, 7], [37, 9], [23, 11], [17, 5]],
    }
    file.write_text(json.dumps(hard), encoding="utf-8")
    interrupting(monkeypatch, times=1)
    code, out, _ = call("saw", file)
    assert code == 0, "every job has its plan"
    assert "above the least possible" in out or "nothing is known" in out
    assert "The search was stopped" in out
    assert signal.getsignal(signal.SIGINT) is before


def test_jobs_that_were_not_begun_make_it_exit_code_130(
    file: Path, call: Call, monkeypatch: pytest.MonkeyPatch
) -> None:
    interrupting(monkeypatch, times=1)
    code, out, err = call("saw", file, "--json")
    assert code == 130
    assert [json.loads(line)["id"] for line in out.splitlines()] == ["one"]
    assert err == ""


def test_a_second_ctrl_c_ends_at_once_and_leaves_nothing(
    file: Path, call: Call, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    interrupting(monkeypatch, times=2)
    code, out, err = call("saw", file, "--out", tmp_path / "plans.txt")
    assert (code, out) == (130, "")
    assert "Nothing was left half-written" in err
    assert names(tmp_path) == ["jobs.jsonl"]
