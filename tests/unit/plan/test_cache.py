"""A stage runs again when what it needs has changed, and only then."""

from __future__ import annotations

import copy
import dataclasses
import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import Enum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.catalog import load_catalog
from lathlight.plan.cache import Memo, canonical_bytes
from lathlight.project.brief import Load, OpeningBrief, TrimLine, WallBrief
from lathlight.project.model import Light, Wall
from lathlight.units import LengthStyle
from lathlight.working import Quantity, Working


class Kind(Enum):
    PLAIN = 1
    FANCY = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    length: float
    kind: Kind
    why: Working
    assumed: Mapping[str, Working]


def working(words: str) -> Working:
    return Working(formula=words)


BOARD = Board(length=2440.0, kind=Kind.PLAIN, why=working("as bought"), assumed={})


def wall(**changes: object) -> WallBrief:
    catalog = load_catalog()
    opening = OpeningBrief(
        name="window",
        kind="window",
        left=400.0,
        width=800.0,
        height=1100.0,
        sill=900.0,
        rise=0.0,
        lining=18.0,
        lining_depth=72.0,
        gap=6.0,
        reveal=6.0,
        casing="casing 57",
    )
    trim = TrimLine(name="rail", kind="rail", profile="rail 57", top=900.0, bottom=843.0, loose=False)
    load = Load(name="shelf", along=750.0, width=900.0, height=1700.0, mass=12.0)
    made = WallBrief(
        name="back",
        length=2200.0,
        height=2250.0,
        sheet=catalog.sheets["ply 9 mm"],
        framing=catalog.lumber["38x63"],
        stud_spacing=610.0,
        openings=(opening, opening),
        trim=(trim, trim, trim),
        loads=(load,),
        assumed={"height": working("from the set")},
    )
    return replace(made, **changes)


# --- the memo ----------------------------------------------------------------------------------------------------


def test_the_same_inputs_run_once() -> None:
    memo, calls = Memo(), []
    for _ in range(3):
        assert memo.run("double", lambda x: calls.append(x) or 2 * x, 21) == 42
    assert calls == [21]
    assert (memo.runs["double"], memo.hits["double"]) == (1, 2)


def test_other_inputs_and_other_stages_run_for_themselves() -> None:
    memo = Memo()
    assert memo.run("double", lambda x: 2 * x, 21) == 42
    assert memo.run("double", lambda x: 2 * x, 22) == 44
    assert memo.run("treble", lambda x: 3 * x, 21) == 63
    assert memo.hits.total() == 0


def test_inputs_by_keyword_count_by_their_names() -> None:
    def difference(*, high: int, low: int) -> int:
        return high - low

    memo = Memo()
    assert memo.run("difference", difference, high=5, low=3) == 2
    assert memo.run("difference", difference, low=3, high=5) == 2
    assert memo.run("difference", difference, high=3, low=5) == -2
    assert (memo.runs["difference"], memo.hits["difference"]) == (2, 1)


def test_an_equal_wall_read_from_the_file_again_is_the_same() -> None:
    memo = Memo()
    memo.run("frame", lambda _: "frame", wall())
    memo.run("frame", lambda _: "frame", wall())
    assert memo.hits["frame"] == 1


def test_a_longer_wall_is_another() -> None:
    memo = Memo()
    memo.run("frame", lambda w: w.length, wall())
    assert memo.run("frame", lambda w: w.length, wall(length=2201.0)) == 2201.0


def test_a_stage_that_raises_leaves_nothing_behind() -> None:
    memo = Memo()
    with pytest.raises(ZeroDivisionError):
        memo.run("divide", lambda x: 1 / x, 0)
    with pytest.raises(ZeroDivisionError):
        memo.run("divide", lambda x: 1 / x, 0)
    assert len(memo) == 0


def test_a_result_of_none_is_remembered_too() -> None:
    memo = Memo()
    memo.run("nothing", lambda _: None, 1)
    memo.run("nothing", lambda _: None, 1)
    assert memo.hits["nothing"] == 1


def test_the_result_used_longest_ago_is_forgotten_first() -> None:
    memo = Memo(size=2)
    for x in (1, 2, 1, 3):  # 1 was used again after 2
        memo.run("same", lambda x: x, x)
    memo.run("same", lambda x: x, 1)
    memo.run("same", lambda x: x, 2)
    assert len(memo) == 2
    assert memo.hits["same"] == 2, "1 twice, 2 never"


# --- what counts as the same -------------------------------------------------------------------------------------


def test_a_working_does_not_count() -> None:
    other = replace(BOARD, why=working("sawn"), assumed={"length": working("usual")})
    assert canonical_bytes(other) == canonical_bytes(BOARD)
    quantity = Quantity(id="set/weight", label="weight", value=60.0, unit="kg", why=working("sum"))
    assert canonical_bytes(replace(quantity, why=working("guess"))) == canonical_bytes(quantity)


def test_everything_but_the_working_counts() -> None:
    assert canonical_bytes(replace(BOARD, length=2440.5)) != canonical_bytes(BOARD)
    assert canonical_bytes(replace(BOARD, kind=Kind.FANCY)) != canonical_bytes(BOARD)


@pytest.mark.parametrize("field", [f.name for f in dataclasses.fields(WallBrief) if f.name != "assumed"])
def test_every_field_of_a_wall_counts(field: str) -> None:
    catalog = load_catalog()
    other = {
        "name": "side",
        "sheet": catalog.sheets["ply 12 mm"],
        "framing": catalog.lumber["38x38"],
        "openings": (),
        "trim": (),
        "loads": (),
    }
    assert canonical_bytes(wall(**{field: other.get(field, 1234.5)})) != canonical_bytes(wall())


@pytest.mark.parametrize("field", [f.name for f in dataclasses.fields(load_catalog().lumber["38x38"])])
def test_every_column_of_a_catalogue_row_counts(field: str) -> None:
    row = load_catalog().lumber["38x38"]
    other = 1.5 if isinstance(getattr(row, field), float) else (1.5,) if field == "lengths" else "another"
    assert canonical_bytes(replace(row, **{field: other})) != canonical_bytes(row)


def test_rows_that_live_one_after_the_other_are_told_apart() -> None:
    row = load_catalog().lumber["38x38"]
    seen = {canonical_bytes(replace(row, width=float(i))) for i in range(200)}  # identities are used again
    assert len(seen) == 200


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (1, 1.0),
        (1, True),
        (0, None),
        ("1", 1),
        ("", None),
        ((1, 2), (2, 1)),
        ((1, (2,)), ((1, 2),)),
        (("a", "b"), ("a, b",)),
        (("'",), ('"',)),
        (0.1, math.nextafter(0.1, 1.0)),
        (0.0, -0.0),
        (math.inf, -math.inf),
        ({"a": 1}, {"a": 2}),
        ({"a": 1}, (("a", 1),)),
        (frozenset({1}), (1,)),
        (Decimal("1.0"), Decimal(1)),
        (dt.date(2025, 1, 2), "2025-01-02"),
        (Kind.PLAIN, "PLAIN"),
        (LengthStyle.metric(), LengthStyle.imperial()),
        (LengthStyle.imperial(16), LengthStyle.imperial(32)),
    ],
)
def test_different_values_are_told_apart(one: object, other: object) -> None:
    assert canonical_bytes(one) != canonical_bytes(other)


def test_mappings_and_sets_count_without_their_order() -> None:
    assert canonical_bytes({"a": 1, "b": 2}) == canonical_bytes({"b": 2, "a": 1})
    assert canonical_bytes(frozenset(["top", "left"])) == canonical_bytes(frozenset(["left", "top"]))


def test_tables_of_the_project_file_count_by_their_values() -> None:
    one, same = (Light(name="key", role="key", power=3.0) for _ in range(2))
    assert canonical_bytes(one) == canonical_bytes(same)
    assert canonical_bytes(one) != canonical_bytes(Light(name="key", role="key", power=3.1))
    assert canonical_bytes(one) != canonical_bytes(Light(name="key", role="fill", power=3.0))
    table = Wall.model_validate({"name": "back", "length": 2200})
    assert canonical_bytes(table) != canonical_bytes(Wall.model_validate({"name": "back", "length": 2201}))


def test_what_has_no_canonical_bytes_is_refused_by_name() -> None:
    with pytest.raises(TypeError, match="object has no canonical bytes"):
        canonical_bytes((1, object()))


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3).map(tuple),
    max_leaves=8,
)


def is_same(one: object, other: object) -> bool:
    """Return True for values of one type that nothing tells apart, part by part."""
    if type(one) is not type(other):
        return False
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(is_same, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return one == other and math.copysign(1.0, one) == math.copysign(1.0, other)
    return one == other


@given(pair=st.tuples(values, values) | values.map(lambda value: (value, copy.deepcopy(value))))
def test_bytes_are_equal_exactly_when_type_and_value_are(pair: tuple[object, object]) -> None:
    one, other = pair
    assert (canonical_bytes(one) == canonical_bytes(other)) is is_same(one, other)
