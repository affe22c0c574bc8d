"""The figures that matter of mouldings, fixing, floor and paint: those of the takeoff and of the fixing plan."""

from __future__ import annotations

import math

import pytest

from lathlight.finishing import areas_by_kind


def test_moulding_to_cut_is_the_net_of_the_takeoff(demo_plan) -> None:
    runs = [row.line.net for row in demo_plan.takeoff if row.trade == "mouldings" and row.line.unit == "m"]
    quantity = demo_plan.quantity("set/moulding-length")
    assert quantity.value / 1000 == pytest.approx(math.fsum(runs))
    assert sum(value for _, value, _ in quantity.why.inputs) == pytest.approx(quantity.value)


def test_screws_and_brads_are_those_of_the_fixing_plan(demo_plan) -> None:
    for kind, identity in (("screw", "set/screws"), ("brad", "set/brads")):
        number = sum(count.number for count in demo_plan.fixing.hardware if count.what == kind)
        if number:
            assert demo_plan.quantity(identity).value == number
        else:
            assert identity not in {quantity.id for quantity in demo_plan.quantities}
    assert demo_plan.quantity("set/screws").value > len(demo_plan.fixing.heads)


def test_frames_are_counted_where_there_are_any(plan_of) -> None:
    assert plan_of("parlour").quantity("set/moulding-frames").value == len(plan_of("parlour").frames.frames)
    with pytest.raises(KeyError):
        plan_of("schoolhall").quantity("set/moulding-frames")


def test_paint_and_primer_are_told_apart_with_what_is_added(demo_plan) -> None:
    primer, paint = demo_plan.finish.coatings
    assert demo_plan.quantity("set/primer").value == pytest.approx(primer.need.gross)
    assert demo_plan.quantity("set/paint").value == pytest.approx(paint.need.gross)
    assert demo_plan.quantity("set/paint").unit == "l"
    painted = sum(areas_by_kind([area for area in demo_plan.finish.areas if area.painted]).values())
    assert demo_plan.quantity("set/painted-area").value == pytest.approx(painted)
