"""Random sets: nothing overlaps, every edge is backed, areas add up, mirrored sets mirror, ids are unique."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, repeat

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from tests.properties.strategies import briefs

from lathlight.carpentry import set_solids
from lathlight.carpentry.openings import hole_outline, rough_opening
from lathlight.errors import InputError
from lathlight.geometry import area
from lathlight.plan import Plan, derive
from lathlight.project import Brief
from lathlight.snags import find_snags
from lathlight.units import snap

manifold3d = pytest.importorskip("manifold3d")

SLOW = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
TOUCH = 0.05  # solids that touch share a face [mm]
DUST = 200.0  # what single-precision corners may overlap [mm3]


def planned(brief: Brief) -> Plan:
    """Return the plan, or give the example up where its openings cannot be framed."""
    try:
        return derive(brief)
    except InputError:
        assume(False)
        raise


def _manifold(solid):
    vertices, faces = solid.triangles()
    return manifold3d.Manifold(
        manifold3d.Mesh(np.asarray(vertices, dtype=np.float32), np.asarray(faces, dtype=np.uint32))
    )


def overlaps(plan: Plan) -> list[tuple[str, str, float]]:
    """Return pairs of parts that share more than dust, by an independent library of solids."""
    found: list[tuple[str, str, float]] = []
    parts = sorted(set_solids(plan.walls, plan.corners, plan.layout), key=lambda p: p.solid.box[0][0])
    bodies = [_manifold(p.solid) for p in parts]
    for i, one in enumerate(parts):
        (x0, y0, z0), (x1, y1, z1) = one.solid.box
        for j in range(i + 1, len(parts)):
            (u0, v0, w0), (u1, v1, w1) = parts[j].solid.box
            if u0 > x1 - TOUCH:
                break
            if v0 > y1 - TOUCH or y0 > v1 - TOUCH or w0 > z1 - TOUCH or z0 > w1 - TOUCH or x0 > u1 - TOUCH:
                continue
            shared = (bodies[i] ^ bodies[j]).volume()
            if shared >= DUST:
                found.append((one.id, parts[j].id, shared))
    return found


def bare_edges(plan: Plan) -> list[str]:
    """Return sheet edges without backing, looked for in finished pieces and members alone."""
    return [s.what for s in find_snags(plan) if s.check == "free-sheet-edge"]


@SLOW
@given(briefs())
def test_no_two_solids_overlap(brief: Brief) -> None:
    assert overlaps(planned(brief)) == []


@pytest.mark.slow
@settings(SLOW, max_examples=600)
@given(briefs())
def test_many_sets_overlap_nowhere_and_back_every_edge(brief: Brief) -> None:
    plan = planned(brief)
    assert overlaps(plan) == []
    assert bare_edges(plan) == []


@SLOW
@given(briefs(most_walls=1))
def test_sheet_areas_are_the_walls_area_less_its_openings(brief: Brief) -> None:
    plan = planned(brief)
    wall = brief.walls[0]
    holes = sum(abs(area(hole_outline(rough_opening(o, grid=brief.style)))) for o in wall.openings)
    assert sum(p.area for p in plan.pieces) == pytest.approx(wall.length * wall.height - holes, rel=1e-9)


@SLOW
@given(briefs())
def test_every_sheet_edge_has_backing(brief: Brief) -> None:
    assert bare_edges(planned(brief)) == []


@SLOW
@given(briefs())
def test_every_member_and_piece_has_an_id_of_its_own(brief: Brief) -> None:
    plan = planned(brief)
    ids = [m.id for m in plan.members] + [p.id for p in plan.pieces] + [f.id for f in plan.flats]
    ids += [p.id for f in plan.flats for p in f.plates] + [s.id for w in plan.walls for s in w.seams]
    assert len(ids) == len(set(ids))


@SLOW
@given(briefs())
def test_cut_lengths_and_places_lie_on_the_grid(brief: Brief) -> None:
    plan = planned(brief)
    for member in plan.members:
        if member.role != "wedge":
            assert member.length == pytest.approx(snap(member.length, brief.style), abs=1e-6), member.id
            assert member.x == pytest.approx(snap(member.x, brief.style), abs=1e-6), member.id


@SLOW
@given(briefs())
def test_studs_are_never_further_apart_than_the_spacing(brief: Brief) -> None:
    plan = planned(brief)
    spacing = {w.name: w.stud_spacing for w in brief.walls}
    step = float(brief.style.step)
    for flat in plan.flats:
        upright = sorted((m.x + m.wide / 2, m.x, m.x + m.wide) for m in flat.members if m.upright and not m.section)
        full = [c for c, _, _ in upright]
        gaps = [(a, b) for a, b in pairwise(full) if b - a > spacing[flat.wall] + 2 * step]
        for a, b in gaps:
            assert any(o.rough[0] - 1 <= b and o.rough[0] + o.rough[2] + 1 >= a for o in flat.openings), flat.id


def _mirrored(brief: Brief) -> Brief:
    """Return the set as seen in a mirror: walls in the other order, laps and openings changed over."""
    flip = {"auto": "auto", "this": "next", "next": "this"}
    walls = [
        replace(
            w,
            openings=tuple(replace(o, left=w.length - o.left - o.width) for o in reversed(w.openings)),
        )
        for w in reversed(brief.walls)
    ]
    corners = [
        replace(
            c,
            left=c.right,
            right=c.left,
            frame_laps=flip[c.frame_laps],
            sheet_laps=flip[c.sheet_laps],
        )
        for c in reversed(brief.corners)
    ]
    return replace(brief, walls=tuple(walls), corners=tuple(corners))


def _settled(brief: Brief) -> Brief:
    """Return the brief with nothing left to a tie between this wall and the next."""
    corners = tuple(
        replace(
            c,
            frame_laps="next" if c.frame_laps == "auto" else c.frame_laps,
            sheet_laps="next" if c.sheet_laps == "auto" else c.sheet_laps,
        )
        for c in brief.corners
    )
    return replace(brief, corners=corners)


@SLOW
@given(briefs(most_walls=2))
def test_a_mirrored_set_gives_a_mirrored_plan(brief: Brief) -> None:
    brief = _settled(brief)
    plan, other = planned(brief), planned(_mirrored(brief))
    assert [c.angle for c in plan.corners] == [c.angle for c in reversed(other.corners)]
    for wall in plan.walls:
        twin = next(w for w in other.walls if w.name == wall.name)
        assert wall.left.frame_end == twin.right.frame_end
        assert wall.left.sheet_front == twin.right.sheet_front
        areas = [sum(p.area for f in w.flats for p in f.pieces) for w in (wall, twin)]
        assert areas[0] == pytest.approx(areas[1], rel=1e-9)
    if [p.number for p in plan.sheets] == [p.number for p in other.sheets] and not brief.walls[0].openings:
        assert len(plan.walls) > 1 or len(plan.flats) == len(other.flats)
    sheets = [sum(p.number for p in q.sheets) for q in (plan, other)]
    assert abs(sheets[0] - sheets[1]) <= 1, "first fit may turn on half a grid step"
    if not any(w.openings for w in brief.walls):  # a seam may tie between two sides of an opening
        weights = [q.quantity("set/weight").value for q in (plan, other)]
        assert math.isclose(*weights, rel_tol=0.1)


@SLOW
@given(briefs())
def test_equal_input_gives_an_equal_plan(brief: Brief) -> None:
    assert planned(brief) == planned(brief)


def _cut(plan: Plan) -> Iterator[str]:
    """Yield the id of every piece on the cut lists, once for each layer of it."""
    for line in (*plan.timber, *plan.panels):
        for identity in line.ids:
            yield from repeat(identity, line.number // len(line.ids))


@SLOW
@given(briefs())
def test_every_piece_is_on_exactly_one_board_or_sheet(brief: Brief) -> None:
    plan = planned(brief)
    boards = [i.split("/layer ")[0] for packed in plan.boards for board in packed.pieces for i in board]
    sheets = [i.split("/layer ")[0] for packed in plan.sheets for sheet in packed.pieces for i in sheet]
    assert Counter([*boards, *sheets]) == Counter(_cut(plan))
    assert {p.id for p in plan.pieces} <= set(sheets)
    assert {m.id for m in plan.members} <= set(boards)
