"""What there is to paint: the demo sets' surfaces, and edges that nobody sees."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from lathlight.catalog import load_catalog
from lathlight.finishing.paint_areas import (
    MouldingBlock,
    MouldingLength,
    PaintArea,
    Surfaces,
    areas_by_kind,
    paint_areas,
    unpainted_edges,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.plan import Plan

ALL = Surfaces(edges=True, backs=True)
PROFILES = load_catalog().profiles


def of_kind(areas: tuple[PaintArea, ...], kind: str) -> list[PaintArea]:
    return [a for a in areas if a.kind == kind]


def test_faces_without_openings_are_length_times_height(plan_of: Callable[[str], Plan]) -> None:
    for name in ("corner-metric", "corner-imperial", "parlour"):
        walls = plan_of(name).walls
        faces = sum(a.area for a in of_kind(paint_areas(walls, (), ALL), "face"))
        assert faces == pytest.approx(sum(w.length * w.height for w in walls), rel=1e-9), name


def test_a_window_is_not_painted_but_its_lining_is(plan_of: Callable[[str], Plan]) -> None:
    (wall,) = plan_of("schoolhall").walls
    (opening,) = (o for f in wall.flats for o in f.openings)
    areas = paint_areas([wall], (), ALL)
    _, _, width, height = opening.rough
    assert sum(a.area for a in of_kind(areas, "face")) == pytest.approx(wall.length * wall.height - width * height)
    reveals = of_kind(areas, "reveal")
    assert sum(a.area for a in reveals) == pytest.approx(sum(p.length * p.deep for p in opening.lining))
    assert not of_kind(areas, "opening edge")


def test_without_lining_the_sheets_own_edge_is_painted_round_the_window(plan_of: Callable[[str], Plan]) -> None:
    (wall,) = plan_of("schoolhall").walls
    bare = replace(
        wall,
        flats=tuple(replace(f, openings=tuple(replace(o, lining=()) for o in f.openings)) for f in wall.flats),
    )
    (opening,) = (o for f in wall.flats for o in f.openings)
    _, _, width, height = opening.rough
    edges = of_kind(paint_areas([bare], (), ALL), "opening edge")
    assert sum(e.length for e in edges) == pytest.approx(2 * (width + height))
    assert sum(e.area for e in edges) == pytest.approx(2 * (width + height) * wall.flats[0].sheet.thickness)


def test_a_joint_shows_the_edges_of_both_flats_and_a_filled_seam_none(plan_of: Callable[[str], Plan]) -> None:
    for wall in plan_of("parlour").walls:
        edges = of_kind(paint_areas([wall], (), ALL), "joint edge")
        assert sum(e.length for e in edges) == pytest.approx(2 * len(wall.joints) * wall.height)
    side = next(w for w in plan_of("corner-metric").walls if w.name == "side")
    assert side.seams
    assert not side.joints
    assert not of_kind(paint_areas([side], (), ALL), "joint edge")


def test_only_free_ends_are_painted(plan_of: Callable[[str], Plan]) -> None:
    plan = plan_of("parlour")
    ends = of_kind(paint_areas(plan.walls, (), ALL), "wall end")
    free = [w for w in plan.walls for end in (w.left, w.right) if end.kind == "free"]
    assert len(ends) == len(free) == 2
    flat = plan.walls[0].flats[0]
    assert ends[0].area == pytest.approx(flat.height * (flat.sheet.thickness + flat.stock.depth))


def test_a_moulding_is_painted_round_its_section() -> None:
    rail = MouldingLength(id="back/rail", wall="back", profile=PROFILES["rail 57"], length=2000.0)
    (area,) = paint_areas((), (rail,), ALL)
    assert area.area > 57.0 * 2000.0
    base = MouldingLength(id="back/base", wall="back", profile=PROFILES["base 70"], length=1000.0, primed=True)
    (painted,) = paint_areas((), (base,), ALL)
    assert not painted.raw
    slope = (8.4**2 + 5.4**2) ** 0.5  # its sloping top, by hand from the section's corners
    assert painted.area == pytest.approx((61.6 + slope + 6.6) * 1000.0)


def test_a_block_is_painted_on_its_front_and_both_sides() -> None:
    block = MouldingBlock(id="back/door/plinth block", wall="back", wide=70.0, high=150.0, thick=20.0)
    (area,) = paint_areas((), (), ALL, blocks=(block,))
    assert area.area == pytest.approx(70 * 150 + 2 * 20 * 150)
    assert (area.kind, area.raw, area.painted) == ("moulding", True, True)


def test_edges_and_backs_are_left_alone_where_not_wanted(plan_of: Callable[[str], Plan]) -> None:
    walls = plan_of("corner-metric").walls
    areas = paint_areas(walls, (), Surfaces(edges=False, backs=False, ends=False))
    assert set(areas_by_kind(areas)) == {"face"}
    assert {a.kind for a in unpainted_edges(areas)} == {"joint edge", "top edge", "wall end"}
    assert unpainted_edges(paint_areas(walls, (), ALL)) == ()


def test_ids_are_unique(demo_plan: Plan) -> None:
    ids = [a.id for a in paint_areas(demo_plan.walls, (), ALL)]
    assert len(ids) == len(set(ids))
