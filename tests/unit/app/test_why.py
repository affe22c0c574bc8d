"""Any value can be asked how it came about, and the answer reads well and is exact."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from lathlight.app import by_kind, find_subject, plan_project, subject_document, subjects, working_in_words
from lathlight.app.run import Planned
from lathlight.app.why import Subject, in_words
from lathlight.errors import InputError
from lathlight.units import LengthStyle
from lathlight.working import Working

EXAMPLES = Path(__file__).parents[3] / "examples"
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()


@pytest.fixture(scope="module")
def planned() -> Planned:
    return plan_project(EXAMPLES / "parlour.toml")


def test_every_part_of_the_plan_and_every_snag_can_be_asked_about(planned: Planned) -> None:
    known = subjects(planned)
    plan = planned.plan
    parts = [
        *plan.quantities,
        *plan.flats,
        *plan.members,
        *plan.pieces,
        *plan.corners,
        *(seam for wall in plan.walls for seam in wall.seams),
        *planned.snags,
    ]
    assert {part.id for part in parts} <= set(known)
    assert {wall.name for wall in plan.walls} <= set(known)
    assert all(subject.why.formula and subject.why.source for subject in known.values())


def test_a_length_is_not_rounded_to_the_saws_step() -> None:
    assert in_words(31.6228, "mm", METRIC) == "31.6228 mm"
    assert in_words(2440.0000000001, "mm", METRIC) == "2440 mm"
    assert in_words(38.1, "mm", IMPERIAL) == '1 1/2"'
    assert in_words(math.inf, "mm", METRIC) == "no limit"


def test_the_words_give_value_formula_inputs_and_source_in_this_order() -> None:
    why = Working(formula="height less two plates", inputs=(("height", 2250.0, "mm"),), source="geometry of the set")
    stud = Subject(id="a/1/stud/0", kind="member", what="stud of 38x38", value=2174.0, unit="mm", why=why)
    assert working_in_words(stud, METRIC) == (
        ("what", "stud of 38x38"),
        ("value", "2174 mm"),
        ("how", "height less two plates"),
        ("from", "height: 2250 mm"),
        ("source", "geometry of the set"),
    )


def test_an_infinite_figure_has_no_value_in_a_document() -> None:
    why = Working(formula="none stated", inputs=(("limit", math.inf, "mm"), ("sum", 0.1 + 0.2, "")))
    said = subject_document(Subject(id="x", kind="assumed", what="width", value=math.inf, unit="mm", why=why))
    assert said["value"] is None
    assert said["inputs"] == [
        {"name": "limit", "value": None, "unit": "mm"},
        {"name": "sum", "value": 0.3, "unit": ""},
    ]


def test_the_nearest_ids_are_offered_and_where_none_is_near_the_list(planned: Planned) -> None:
    known = subjects(planned)
    with pytest.raises(InputError, match="set/weight"):
        find_subject(known, "set/wieght")
    with pytest.raises(InputError, match="lists every id"):
        find_subject(known, "zzzzzzzzzzzz")


def test_ids_are_listed_by_kind(planned: Planned) -> None:
    known = subjects(planned)
    kinds = by_kind(known.values())
    assert sum(map(len, kinds.values())) == len(known)
    assert kinds["wall"] == ("left return", "back", "right return")
