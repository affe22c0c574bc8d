"""Everything that is on a cut list is also counted among what is bought, and lies on a sheet or board."""

from __future__ import annotations

from collections import Counter

import pytest
from tests.unit.plan.test_stages import HEAD, plan_of, wall

from lathlight.plan import Plan

ARCH = """[[walls.openings]]
name = "{name}"
kind = "arch"
at = {at}
width = 900
height = 2000
rise = 300
lining = {lining}
"""


def arched(lining: int, *, more: str = "") -> Plan:
    return plan_of(HEAD + wall("back", 3000, ARCH.format(name="arch", at=1000, lining=lining)) + more)


def bought(plan: Plan) -> Counter[str]:
    """How often each part is on a board or sheet; layers of one part together."""
    ids = (i for packed in (*plan.boards, *plan.sheets) for one in packed.pieces for i in one)
    return Counter(i.split("/layer ")[0] for i in ids)


def listed(plan: Plan) -> Counter[str]:
    """How many pieces the cut lists ask for, by the id of the part; equal members share a line."""
    found: Counter[str] = Counter()
    for line in (*plan.timber, *plan.panels):
        for identity in line.ids:
            found[identity] += line.number // len(line.ids)
    return found


@pytest.mark.parametrize("lining", [0, 9, 18, 22])
def test_whatever_is_on_a_cut_list_is_bought(lining: int) -> None:
    plan = arched(lining)
    assert listed(plan) == bought(plan)


def test_ribs_lie_on_sheets_of_the_wall_once_a_layer() -> None:
    plan = arched(0)
    (opening,) = [o for flat in plan.flats for o in flat.openings]
    placed = [p for sheet in plan.cut_sheets for p in sheet.pieces if "/rib/" in p.piece]
    assert len(placed) == sum(rib.layers for rib in opening.ribs) == 4  # 18 mm in layers of 9 mm, on both sides
    assert {p.part.sheet.name for p in placed} == {"ply 9 mm"}


def test_a_lining_as_thick_as_a_sheet_is_strips_of_it() -> None:
    plan = arched(18)
    assert {line.stock for line in plan.panels if line.what.startswith("lining")} == {"ply 18 mm"}
    assert [p.number for p in plan.sheets if p.stock == "ply 18 mm"] == [1]
    strips = [p for sheet in plan.cut_sheets if sheet.sheet.name == "ply 18 mm" for p in sheet.pieces]
    assert len(strips) == 3  # two legs and the arch
    assert all(p.width == 47 for p in strips if not p.turned)


def test_a_lining_of_no_stock_thickness_is_boards_with_their_run() -> None:
    plan = arched(22)
    (packed,) = [p for p in plan.boards if p.stock == "lining 22 mm x 47 mm"]
    pieces = [p for flat in plan.flats for o in flat.openings for p in o.lining]
    assert ("run in all", sum(p.length for p in pieces), "mm") in packed.why.inputs
    assert packed.length == max(p.length for p in pieces)
    assert "no such board" in packed.why.formula


def test_a_wedge_wider_than_the_framing_is_bought_as_the_timber_that_holds_it() -> None:
    plan = plan_of(HEAD + wall("a", 2000, 'corner = "arris"\n') + wall("b", 2000))
    (line,) = [line for line in plan.timber if line.what == "wedge"]
    assert (line.stock, line.number) == ("44x70", 1)  # its long side lies in the 70 mm
    assert listed(plan) == bought(plan)


def test_a_wedge_that_no_timber_holds_is_bought_layer_by_layer() -> None:
    deep = HEAD.replace("38x38", "38x89")
    plan = plan_of(deep + wall("a", 2000, "angle_to_next = 120\n") + wall("b", 2000))
    (member,) = [m for m in plan.members if m.role == "wedge"]
    (line,) = [line for line in plan.timber if line.what == "wedge"]
    assert member.wide > 44  # wider than any 89 mm deep timber on sale
    assert (line.stock, line.number) == ("38x89", 2)
    assert line.note.startswith("2 layers glued")
    assert listed(plan) == bought(plan)
