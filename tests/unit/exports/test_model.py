"""What the model of a set holds: every solid, every moulding, and the floor covering where it lies."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lathlight.carpentry import set_solids
from lathlight.exports import set_glb, set_parts
from lathlight.exports.gltf import MATERIALS


def test_solids_come_first_then_mouldings_then_the_floor(demo_plan) -> None:
    parts = set_parts(demo_plan)
    solids = tuple(set_solids(demo_plan.walls, demo_plan.corners, demo_plan.layout))
    assert parts[: len(solids)] == solids
    assert [part.id for part in parts if part.material == "floor"] == ["floor/covering"] * (demo_plan.floor is not None)
    assert len({part.id for part in parts}) == len(parts)
    assert {part.material for part in parts} <= set(MATERIALS)


def test_every_moulding_is_in_the_model(demo_plan) -> None:
    ids = {part.id for part in set_parts(demo_plan)}
    assert {strip.id for strip in demo_plan.strips} <= ids


@pytest.mark.parametrize(("stands_on", "low", "high"), [("floor", 0.0, 8.0), ("covering", -8.0, 0.0)])
def test_the_covering_lies_beside_the_flats_or_under_them(plan_of, stands_on, low, high) -> None:
    plan = plan_of("parlour")
    brief = replace(plan.brief, floor=replace(plan.brief.floor, stands_on=stands_on))
    (slab,) = (part for part in set_parts(replace(plan, brief=brief)) if part.material == "floor")
    assert (slab.solid.box[0][2], slab.solid.box[1][2]) == (low, high)
    assert slab.solid.volume == pytest.approx(plan.floor.area * 8.0)


def test_equal_plans_give_equal_models(plan_of) -> None:
    assert set_glb(set_parts(plan_of("parlour"))) == set_glb(set_parts(plan_of("parlour")))
