"""Every check finds what is wrong, lets pass what is right, and says so in words."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.snags.case import Case
from tests.unit.snags.cases import CASES
from tests.unit.snags.made_up import found, plan

from lathlight.snags import CHECKS, Severity, find_snags, reference_page
from lathlight.units import LengthStyle

PAGE = Path(__file__).parents[3] / "docs" / "reference" / "snags.md"
NAMES = ("back", "other", "rail", "looking", "base", "cornice")  # what the cases call their parts: names stay as typed
BY_NAME = pytest.mark.parametrize("case", CASES, ids=[case.check for case in CASES])


def test_a_sound_set_has_no_snags() -> None:
    assert find_snags(plan()) == ()


def test_every_check_has_its_case() -> None:
    assert sorted(case.check for case in CASES) == sorted(entry.name for entry in CHECKS)


@BY_NAME
def test_the_check_finds_what_is_wrong(case: Case) -> None:
    snag = found(case.check, case.wrong)[0]
    assert snag.place == case.place
    assert snag.id == f"{case.check}@{case.place}"
    assert snag.figure == pytest.approx(case.figure, rel=1e-6)


@BY_NAME
def test_the_check_lets_pass_what_is_right(case: Case) -> None:
    assert found(case.check, case.right) == ()


@BY_NAME
def test_a_snag_says_what_why_and_how_to_mend_it_in_one_sentence_each(case: Case) -> None:
    snag = found(case.check, case.wrong)[0]
    for sentence in (snag.what, snag.remedy):
        assert sentence[0].isupper() or sentence[0].isdigit() or sentence.startswith(NAMES)
        assert sentence.endswith(".")
        assert "  " not in sentence
        assert "inf" not in sentence.split()
        assert "0000" not in sentence  # no raw float
    assert snag.why.source
    assert ("limit", snag.limit, snag.unit) in snag.why.inputs


FOOT_OR_INCH = re.compile(r"\d['\"]")
MILLIMETRES = re.compile(r"\d mm")
METRIC_LIMIT = re.compile(r"\d (mm|m|kg)\b(?! \()")  # words that name both systems put the other in brackets


@BY_NAME
def test_a_check_speaks_the_projects_units(case: Case) -> None:
    metric = found(case.check, case.wrong)[0]
    assert not FOOT_OR_INCH.search(metric.what)
    imperial_brief = replace(case.wrong.brief, style=LengthStyle.imperial())
    imperial = found(case.check, replace(case.wrong, brief=imperial_brief))[0]
    assert imperial.figure == metric.figure
    assert not MILLIMETRES.search(imperial.what.replace("ply 9 mm", "").replace("ply 12 mm", ""))


@BY_NAME
def test_a_limit_is_said_in_the_projects_units(case: Case) -> None:
    metric = found(case.check, case.wrong)[0]
    assert "{" not in metric.why.formula
    imperial_brief = replace(case.wrong.brief, style=LengthStyle.imperial())
    imperial = found(case.check, replace(case.wrong, brief=imperial_brief))[0]
    assert not METRIC_LIMIT.search(imperial.why.formula)


def test_the_reference_names_limits_in_both_systems() -> None:
    assert "15 kg (33 lb) a flat" in reference_page()
    assert "{" not in reference_page()


def test_worst_snags_come_first() -> None:
    for case in CASES:
        severities = [snag.severity for snag in find_snags(case.wrong)]
        assert severities == sorted(severities)


def test_equal_plans_give_equal_snags() -> None:
    for case in CASES:
        assert find_snags(case.wrong) == find_snags(case.wrong)


def test_names_of_checks_are_there_once_and_in_small_letters() -> None:
    names = [entry.name for entry in CHECKS]
    assert len(set(names)) == len(names)
    assert all(name == name.lower() and "_" not in name for name in names)


def test_nothing_calls_itself_safe() -> None:
    words = " ".join(" ".join((e.title, e.why, e.limit, e.source, e.remedy)).lower() for e in CHECKS)
    assert "safe" not in words


def test_the_reference_page_is_the_catalogue_in_words(request: pytest.FixtureRequest) -> None:
    if request.config.getoption("--write-golden", default=False):
        PAGE.write_text(reference_page(), encoding="utf-8")
    text = PAGE.read_text(encoding="utf-8")
    assert text == reference_page(), "write it anew with --write-golden"
    for entry in CHECKS:
        assert f"\n### {entry.name}\n" in text


def test_every_severity_is_used() -> None:
    assert {entry.severity for entry in CHECKS} == set(Severity)
