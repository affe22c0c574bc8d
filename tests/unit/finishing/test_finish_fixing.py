"""Beads, brads and what holds a glued sheet down."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.finishing.beads import bead_length, glue_line, glue_need, moulding_bead_length, sheet_beads
from lathlight.finishing.brads import (
    BradRun,
    brad_lines,
    brad_places,
    choose_brad,
    place_brads,
    thickness_at,
)
from lathlight.finishing.clamping import (
    Clamping,
    ClampRules,
    busiest_day,
    clamp_with_fasteners,
    clamp_with_weights,
    weight_days,
    weight_line,
)
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.carpentry import Flat, Member, SheetPiece
    from lathlight.finishing.beads import Bead
    from lathlight.plan import Plan

CATALOG = load_catalog()
FASTENERS = tuple(CATALOG.fasteners.values())
PVA = CATALOG.adhesives["PVA wood glue"]
STAGE = CATALOG.weights["stage weight"]
RULES = ClampRules()


@pytest.fixture
def flat(plan_of: Callable[[str], Plan]) -> Flat:
    """Return a flat with one whole sheet on it."""
    return plan_of("corner-metric").walls[0].flats[0]


# --- beads -------------------------------------------------------------------------------------------------------


def test_every_member_behind_a_sheet_gets_one_bead_for_it(demo_plan: Plan) -> None:
    for flat in demo_plan.flats:
        beads = Counter((b.piece, b.member) for b in sheet_beads(flat))
        wanted = {(p.id, m.id) for p in flat.pieces for m in flat.members if carries(m, p) >= 10.0}
        assert set(beads) == wanted
        if not flat.openings:  # an opening may break a bead in two
            assert set(beads.values()) == {1}


def carries(member: Member, piece: SheetPiece) -> float:
    """Return the least side of what member and piece share, by their true outlines [mm]."""
    from shapely import Polygon, box

    if member.behind != piece.sheet.thickness:
        return 0.0
    left, right = member.x, member.x + member.wide
    if member.section is not None:  # a wedge meets the sheet with its front side
        left, *_, right = sorted(x for x, behind in member.section if behind == member.behind)
    shared = Polygon(piece.outline, piece.holes).intersection(box(left, member.z, right, member.z + member.high))
    x0, z0, x1, z1 = shared.bounds if not shared.is_empty else (0.0, 0.0, 0.0, 0.0)
    return min(x1 - x0, z1 - z0)


def test_the_bead_round_a_sheets_edges_closes(flat: Flat) -> None:
    edges = [b for b in sheet_beads(flat) if any(r in b.member for r in ("plate", "end stud"))]
    assert len(edges) == 4
    upright = [b for b in edges if b.upright]
    level = [b for b in edges if not b.upright]
    touching = [(u, v) for u in upright for v in level if _meet(u, v)]
    assert len(touching) == 4


def _meet(upright: Bead, level: Bead) -> bool:
    x, z = upright.start[0], level.start[1]
    along = level.start[0] - 1e-3 <= x <= level.end[0] + 1e-3
    return along and upright.start[1] - 1e-3 <= z <= upright.end[1] + 1e-3


def test_beads_stay_on_their_sheet_and_their_member(demo_plan: Plan) -> None:
    for flat in demo_plan.flats:
        pieces = {p.id: p for p in flat.pieces}
        for bead in sheet_beads(flat):
            xs, zs = zip(*pieces[bead.piece].outline, strict=True)
            for x, z in (bead.start, bead.end):
                assert min(xs) <= x <= max(xs)
                assert min(zs) <= z <= max(zs)


def test_a_stud_under_a_seam_gets_a_bead_for_each_sheet(plan_of: Callable[[str], Plan]) -> None:
    side = next(w for w in plan_of("corner-metric").walls if w.name == "side").flats[0]
    (stud,) = (m for m in side.members if m.role == "seam stud")
    beads = [b for b in sheet_beads(side) if b.member == stud.id]
    assert len({b.piece for b in beads}) == len(beads) == 2
    assert beads[0].start[0] < stud.x + stud.wide / 2 < beads[1].start[0]


def test_glue_is_bought_in_whole_containers_with_a_reserve() -> None:
    glue = glue_need(CATALOG.adhesives["construction adhesive"], 10_000.0, reserve=0.1)
    assert glue.each == pytest.approx(10_964.0, abs=1.0)
    assert glue.number == 2
    line = glue_line(glue)
    assert (line.gross, line.item) == (pytest.approx(2), "construction adhesive")
    assert glue_need(PVA, 0.0).number == 0
    assert glue_line(glue_need(PVA, 0.0)).gross == 0


def test_a_broad_moulding_gets_two_beads() -> None:
    assert moulding_bead_length(1000.0, broad=30.0) == 1000.0
    assert moulding_bead_length(1000.0, broad=95.0) == 2000.0


@pytest.mark.parametrize(("volume", "section"), [(0.0, 28.0), (0.31, 0.0), (-0.31, 28.0), (0.31, math.nan)])
def test_a_bead_of_no_size_is_refused(volume: float, section: float) -> None:
    with pytest.raises(InputError, match="expected more than 0"):
        bead_length(volume=volume, section=section)


@pytest.mark.parametrize(("length", "reserve"), [(-1.0, 0.1), (math.nan, 0.1), (1.0, 10.0)])
def test_a_reserve_is_a_share(length: float, reserve: float) -> None:
    with pytest.raises(InputError, match=r"Write 10 % as 0\.1"):
        glue_need(PVA, length, reserve=reserve)


# --- brads -------------------------------------------------------------------------------------------------------


def test_a_brad_stops_two_millimetres_short_of_all_it_enters() -> None:
    choice = choose_brad(FASTENERS, moulding=12.0, skin=9.0, timber=38.0)
    assert choice.longest == 57.0
    assert choice.fastener is not None
    assert choice.fastener.length == pytest.approx(50.8)  # 2 in
    exact = choose_brad(FASTENERS, moulding=12.0, skin=9.0, timber=31.0)
    assert exact.fastener is not None
    assert exact.fastener.length == 50.0


def test_a_long_brad_is_never_shot_into_a_thin_skin() -> None:
    choice = choose_brad(FASTENERS, moulding=12.0, skin=6.0, timber=0.0)
    assert choice.fastener is None
    assert "glue alone" in str(choice.why.value)
    thicker = choose_brad(FASTENERS, moulding=12.0, skin=12.0, timber=0.0)
    assert thicker.fastener is not None
    assert thicker.fastener.length <= 22.0


def test_a_brad_that_only_reaches_through_the_moulding_does_not_hold() -> None:
    short = [f for f in FASTENERS if f.length < 24.0]
    assert choose_brad(short, moulding=18.0, skin=9.0, timber=38.0).fastener is None


def test_kinds_are_taken_in_the_order_of_liking() -> None:
    pin = choose_brad(FASTENERS, moulding=12.0, skin=9.0, timber=38.0, kinds=("pin", "brad")).fastener
    assert pin is not None
    assert pin.kind == "pin"


def test_brads_are_even_and_no_further_apart_than_their_spacing() -> None:
    for length in (81.0, 400.0, 1234.5, 2400.0):
        places = brad_places(length)
        steps = [b - a for a, b in itertools.pairwise(places)]
        assert max(steps) <= 300.0 + 1e-9
        assert max(steps) == pytest.approx(min(steps))
        assert (places[0], places[-1]) == pytest.approx((40.0, length - 40.0))
    assert brad_places(60.0) == (30.0,)
    assert brad_places(0.0) == ()


def test_each_brad_is_as_long_as_what_lies_behind_it_allows(flat: Flat) -> None:
    z = flat.z0 + flat.stock.width / 2
    plate = BradRun(id="base", wall=flat.wall, start=(100.0, z), end=(1100.0, z), thickness=12.0)
    on_timber = place_brads(plate, [flat], FASTENERS)
    assert {b.timber is not None for b in on_timber} == {True}
    assert all(b.choice.fastener and b.choice.fastener.length > 50.0 for b in on_timber)
    high = flat.z0 + 700.0
    across = BradRun(id="rail", wall=flat.wall, start=(100.0, high), end=(1100.0, high), thickness=12.0)
    brads = place_brads(across, [flat], FASTENERS, spacing=100.0)
    for brad in brads:
        deep = flat.stock.depth if brad.timber else 0.0
        assert brad.choice.longest == 12.0 + flat.sheet.thickness + deep - 2.0
        assert brad.choice.fastener is None or brad.choice.fastener.length <= brad.choice.longest
    assert {b.timber is None for b in brads} == {True, False}


def test_brads_are_counted_with_spares(flat: Flat) -> None:
    z = flat.z0 + flat.stock.width / 2
    run = BradRun(id="base", wall=flat.wall, start=(100.0, z), end=(1100.0, z), thickness=12.0)
    brads = place_brads(run, [flat], FASTENERS)
    (line,) = brad_lines(brads)
    assert (line.net, line.allowance, line.reason) == (len(brads), 1, "10 % bent or lost")
    assert place_brads(replace(run, wall="elsewhere"), [flat], FASTENERS) == ()


def test_a_moulding_is_as_thick_as_its_section_is_at_that_height() -> None:
    assert thickness_at(CATALOG.profiles["base 70"], up=30.0) == 12.0
    assert thickness_at(CATALOG.profiles["base 70"], up=65.8) == pytest.approx(9.3)  # halfway up its slope
    with pytest.raises(ValueError, match="sprung"):
        thickness_at(CATALOG.profiles["cornice 92 at 38"], up=10.0)
    with pytest.raises(ValueError, match="outside the section"):
        thickness_at(CATALOG.profiles["base 70"], up=71.0)


# --- clamping ----------------------------------------------------------------------------------------------------


def test_weights_answer_for_the_mass_and_for_every_bead(flat: Flat) -> None:
    beads = sheet_beads(flat)
    held = clamp_with_weights("sheet", beads, land=38.0, adhesive=PVA, weight=STAGE, rules=RULES)
    metres = sum(b.length for b in beads) / 1000
    wanted = 2000 * metres * 0.038 / 9.81
    assert held.number >= max(math.ceil(wanted / 12.6), len(beads))
    assert held.mass == pytest.approx(held.number * 12.6)
    assert held.hours == PVA.clamp_hours
    light = replace(STAGE, name="brick", mass=1.0)
    many = clamp_with_weights("sheet", beads, land=38.0, adhesive=PVA, weight=light, rules=RULES)
    assert many.number == math.ceil(wanted)


def test_no_bead_needs_no_weight() -> None:
    assert clamp_with_weights("x", (), land=38.0, adhesive=PVA, weight=STAGE, rules=RULES).number == 0


def test_pins_hold_both_ends_of_every_bead(flat: Flat) -> None:
    beads = sheet_beads(flat)[:1]
    spacing = beads[0].length / 3 + 1
    rules = replace(RULES, pin_spacing=spacing)
    pins = clamp_with_fasteners("sheet", beads, held="pins", adhesive=PVA, rules=rules)
    assert (pins.number, pins.mass) == (4, 0.0)


@pytest.mark.parametrize(
    ("land", "mass", "pressure"), [(0.0, 12.6, 2.0), (38.0, 0.0, 2.0), (38.0, 12.6, -2.0), (38.0, math.nan, 2.0)]
)
def test_weights_without_a_figure_are_refused(land: float, mass: float, pressure: float) -> None:
    with pytest.raises(InputError, match="pins or temporary screws"):
        clamp_with_weights(
            "sheet",
            (),
            land=land,
            adhesive=PVA,
            weight=replace(STAGE, mass=mass),
            rules=replace(RULES, pressure=pressure),
        )


def held(identity: str, number: int, *, hours: float = 1.0) -> Clamping:
    return Clamping(
        id=identity, held="weights", number=number, mass=number * 12.6, hours=hours, glue="PVA",
        why=Working(formula="given"),
    )  # fmt: skip


def test_the_day_that_needs_most_weights() -> None:
    glued = [(1, held("a", 10)), (1, held("b", 6)), (2, held("c", 12))]
    day = busiest_day(glued)
    assert day is not None
    assert (day.day, day.number, day.glued) == (1, 16, ("a", "b"))
    assert weight_line(STAGE, day).gross == 16
    assert busiest_day([]) is None
    assert weight_line(STAGE, None).gross == 0


def test_slow_glue_keeps_its_weights_into_the_next_day() -> None:
    glued = [(1, held("a", 10, hours=24.0)), (2, held("b", 6)), (3, held("c", 12))]
    assert [(d.day, d.number) for d in weight_days(glued)] == [(1, 10), (2, 16), (3, 12)]
