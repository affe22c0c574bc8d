"""What every carpenter expects of a framed flat.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from tests.properties.strategies import CATALOG, IMPERIAL, brief_of

from lathlight.carpentry import Member
from lathlight.carpentry.packing import pack_boards
from lathlight.plan import Memo, Plan, derive
from lathlight.plan.saw_boards import Bench, Length, saw_section
from lathlight.project import CornerBrief, WallBrief
from lathlight.units import LengthStyle, parse_length

PRACTICE = "common practice, no source"
KERF = 3.175  # 1/8 in


def inches(text: str) -> float:
    return parse_length(text, style=IMPERIAL)


def wall(name: str, length: float) -> WallBrief:
    return WallBrief(
        name=name,
        length=length,
        height=inches("96 in"),
        sheet=CATALOG.sheets["ply 1-4 in"],
        framing=CATALOG.lumber["2x2"],
        stud_spacing=inches("24 in"),
        openings=(),
        trim=(),
        loads=(),
        assumed={},
    )


@pytest.mark.published(source=PRACTICE, place="a 2x2 is 1 1/2 in square")
def test_a_2x2_is_an_inch_and_a_half_square() -> None:
    stock = CATALOG.lumber["2x2"]
    assert (stock.width, stock.depth) == (inches("1 1/2 in"), inches("1 1/2 in"))


@pytest.mark.published(source=PRACTICE, place="four 24 in pieces do not come out of a 96 in board; two 46 1/2 in do")
def test_the_kerf_counts() -> None:
    assert len(pack_boards([inches("24 in")] * 4, stock=[inches("96 in")], kerf=KERF).items) == 2
    assert len(pack_boards([inches("46 1/2 in")] * 2, stock=[inches("96 in")], kerf=KERF).items) == 1


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Return an L of a 96 in frame and a lapping 49 1/2 in frame, 96 in high, studs at 24 in."""
    sheet = CATALOG.sheets["ply 1-4 in"].thickness
    a, b = wall("long", inches("96 in") - sheet), wall("short", inches("48 in") - sheet)
    corner = CornerBrief(
        left="long", right="short", angle=math.pi / 2, style="lap", frame_laps="next", sheet_laps="next"
    )
    return derive(brief_of(style=IMPERIAL, walls=(a, b), corners=(corner,)))


@pytest.mark.published(source=PRACTICE, place="a 48 in sheet on a lapping 2x2 frame makes it 49 1/2 in wide")
def test_the_lapping_frame_is_wider_than_its_sheet(plan: Plan) -> None:
    flat = plan.walls[1].flats[0]
    assert flat.pieces[0].width == pytest.approx(inches("48 in"))
    assert flat.width == pytest.approx(inches("49 1/2 in"))


@pytest.mark.published(source=PRACTICE, place="two plates on a 96 in frame leave studs of 93 in")
def test_the_butting_frame_has_whole_plates_and_five_studs(plan: Plan) -> None:
    flat = plan.walls[0].flats[0]
    assert flat.width == pytest.approx(inches("96 in"))
    plates = [m.length for m in flat.members if "plate" in m.role]
    studs = [m.length for m in flat.members if "stud" in m.role]
    assert plates == pytest.approx([inches("96 in")] * 2)
    assert studs == pytest.approx([inches("93 in")] * 5)


@pytest.mark.published(source=PRACTICE, place="its plates between whole end studs are 46 1/2 in")
def test_the_lapping_frame_has_whole_end_studs(plan: Plan) -> None:
    flat = plan.walls[1].flats[0]
    assert [m.length for m in flat.members if m.role == "end stud"] == pytest.approx([inches("96 in")] * 2)
    assert [m.length for m in flat.members if "plate" in m.role] == pytest.approx([inches("46 1/2 in")] * 2)
    assert [m.length for m in flat.members if m.role == "stud"] == pytest.approx([inches("93 in")])


def number_of_boards(members: Sequence[Member]) -> int:
    stock = members[0].stock
    pieces = [Length(id=m.id, length=m.length, may_be_offcut=m.may_be_offcut) for m in members]
    bench = Bench(style=LengthStyle.imperial(), kerf=KERF, trim_cut=0.0, least_offcut=0.0)
    section = saw_section(stock.name, pieces, stock.lengths, bench, (), Memo())
    assert section.proven
    return len(section.boards)


@pytest.mark.published(source=PRACTICE, place="eleven 8 ft 2x2s, twelve with the corner nailer")
def test_it_takes_eleven_boards_and_a_twelfth_for_the_nailer(plan: Plan) -> None:
    without = [m for m in plan.members if m.role != "nailer"]
    assert number_of_boards(without) == 11
    assert number_of_boards(plan.members) == 12


def test_the_nailer_may_be_an_offcut(plan: Plan) -> None:
    assert [m.may_be_offcut for m in plan.members if m.role == "nailer"] == [True]


def test_a_stud_cannot_come_from_a_shorter_board() -> None:
    """2.4 m stock makes no 2 440 mm stud."""
    assert pack_boards([2440.0], stock=[2400.0, 3000.0], kerf=3.0).length == 3000.0
