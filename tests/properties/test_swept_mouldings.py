"""Mouldings as bodies round any set: closed, on the wall, one plane in every corner, nothing within anything else.

Second opinions: an independent library of solids for closedness, volumes and overlaps; the plane that halves a corner.
"""

from __future__ import annotations

import itertools
import math
from typing import Literal

import manifold3d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon
from tests.properties.test_trim_runs import PROFILES, RULES, laid_out, sets

from lathlight.catalog import Profile, drop, projection
from lathlight.catalog.profiles import face
from lathlight.geometry import EndCut, Part, placement, prism, swept, transformed
from lathlight.layout import Layout, Pose, WallLine
from lathlight.mouldings import moulding_parts
from lathlight.mouldings.casing_model import CasingJob, OpeningToCase, WallToCase
from lathlight.mouldings.casing_pieces import plan_casing
from lathlight.mouldings.frame_layout import MouldingFrame
from lathlight.mouldings.swept_frames import frame_bodies
from lathlight.mouldings.trim import plan_trim
from lathlight.mouldings.trim_model import TrimPlan, TrimWall

Drawn = tuple[tuple[TrimWall, ...], tuple[float, ...]]

FINE = 1e-6  # [mm]
DUST = 1e-2  # of bodies that touch [mm3]
WRITTEN = 0.01  # sections are written to this [mm]: a cornice's back and its strip may differ by it
SHEET = 9.0  # [mm]
AROUND = 200.0  # a corner lies in other planes too, further off [mm]


def manifold(body) -> manifold3d.Manifold:
    vertices, faces = body.triangles()
    solid = manifold3d.Manifold(manifold3d.Mesh64(np.array(vertices), faces.astype(np.uint64)))
    assert solid.status() == manifold3d.Error.NoError, "the surface is not closed"
    return solid


def layout_of(walls: tuple[TrimWall, ...], corners: tuple[float, ...]) -> Layout:
    faces = laid_out(walls, corners)
    return Layout(walls=tuple(faces[w.name] for w in walls), pose=Pose(x=0.0, y=0.0, turn=0.0))


def planned(drawn: Drawn) -> tuple[TrimPlan, Layout, tuple[Part, ...]]:
    walls, corners = drawn
    plan, layout = plan_trim(walls, corners=corners, rules=RULES), layout_of(walls, corners)
    return plan, layout, moulding_parts(plan, layout=layout)


def in_wall_axes(body, line: WallLine) -> np.ndarray:
    """Corners of a body along its wall, behind its face and up, (n, 3) mm."""
    x, y, z = np.array(body.points).T
    (sx, sy), (dx, dy) = line.start, line.direction
    return np.array(((x - sx) * dx + (y - sy) * dy, (y - sy) * dx - (x - sx) * dy, z)).T


def near(one: Part, other: Part) -> bool:
    a, b = one.solid.box, other.solid.box
    return all(a[0][k] < b[1][k] and b[0][k] < a[1][k] for k in range(3))


def allowed(plan: TrimPlan, one: Part, other: Part) -> float:
    """Volume that two parts may share: a cornice and the strips behind its run what the section's rounding comes to."""
    strips = {s.id: s for s in plan.strips}
    line = {p.id: (p.wall, p.line) for p in plan.pieces}
    for a, b in ((one, other), (other, one)):
        if a.id in strips and line.get(b.id) == line[strips[a.id].piece]:
            (x0, z0), (x1, z1) = strips[a.id].section[:2]
            return DUST + WRITTEN * math.hypot(x1 - x0, z1 - z0) * (strips[a.id].end - strips[a.id].start)
    return DUST


@given(sets())
def test_every_moulding_is_closed_has_volume_and_is_there_once(drawn: Drawn) -> None:
    plan, _, parts = planned(drawn)
    wanted = [x.id for x in (*plan.pieces, *plan.returns, *plan.strips)]
    assert sorted(p.id for p in parts) == sorted(wanted)
    for part in parts:
        assert part.solid.volume > 0
        assert manifold(part.solid).volume() == pytest.approx(part.solid.volume, rel=1e-9)


@given(sets())
def test_every_moulding_touches_its_wall_and_lies_before_it(drawn: Drawn) -> None:
    _, layout, parts = planned(drawn)
    for part in parts:
        behind = in_wall_axes(part.solid, layout.wall(part.path[0]))[:, 1]
        assert behind.max() == pytest.approx(0.0, abs=FINE)


@given(sets())
def test_a_piece_ends_where_it_was_planned_to(drawn: Drawn) -> None:
    plan, layout, parts = planned(drawn)
    bodies = {p.id: p.solid for p in parts}
    for piece in plan.pieces:
        corners = in_wall_axes(bodies[piece.id], layout.wall(piece.wall))
        assert (corners[:, 2].min(), corners[:, 2].max()) == pytest.approx((piece.bottom, piece.top), abs=FINE)
        if piece.left.cope or piece.right.cope:
            continue
        on_wall = corners[np.abs(corners[:, 1]) < FINE][:, 0]
        assert (on_wall.min(), on_wall.max()) == pytest.approx((piece.left.back, piece.right.back), abs=FINE)
        foremost = corners[np.abs(corners[:, 1] + projection(piece.profile)) < FINE][:, 0]
        assert (foremost.min(), foremost.max()) == pytest.approx((piece.left.front, piece.right.front), abs=FINE)
        assert on_wall.max() - on_wall.min() == pytest.approx(piece.back, abs=float(RULES.grid.step) / 2 + FINE)


@given(sets())
def test_mitred_neighbours_share_one_outline_in_the_plane_that_halves_the_corner(drawn: Drawn) -> None:
    plan, layout, parts = planned(drawn)
    bodies = {p.id: p.solid for p in parts}
    for meeting in plan.meetings:
        a = [p for p in plan.pieces if (p.wall, p.line) == (meeting.left, meeting.left_line)]
        b = [p for p in plan.pieces if (p.wall, p.line) == (meeting.right, meeting.right_line)]
        if meeting.how != "mitre" or meeting.note or not a or not b:
            continue
        if a[-1].right.kind not in ("inside mitre", "outside mitre") or a[-1].right.against != meeting.right:
            continue  # an opening in the corner
        if b[0].left.kind != a[-1].right.kind or b[0].left.against != meeting.left:
            continue
        left, right = layout.wall(meeting.left), layout.wall(meeting.right)
        halving = np.array(left.direction) + np.array(right.direction)  # square to the plane that halves the corner
        outlines = [in_plane(bodies[p.id], left.end, halving) for p in (a[-1], b[0])]
        apart = np.abs(outlines[0][:, None, :] - outlines[1][None, :, :]).max(axis=2)
        assert (apart.min(axis=1) < FINE).sum() >= len(a[-1].profile.points)  # a cope elsewhere adds corners
        np.testing.assert_allclose(outlines[0].min(axis=0), outlines[1].min(axis=0), atol=FINE)
        np.testing.assert_allclose(outlines[0].max(axis=0), outlines[1].max(axis=0), atol=FINE)


def in_plane(body, corner: tuple[float, float], normal: np.ndarray) -> np.ndarray:
    """Corners of a body that lie in an upright plane round a corner, (n, 3) mm."""
    points = np.array(body.points)
    reach = points[:, :2] - corner
    on = (np.abs(reach @ normal) / np.linalg.norm(normal) < FINE) & (np.linalg.norm(reach, axis=1) < AROUND)
    return points[on]


@given(sets())
def test_mouldings_overlap_neither_each_other_nor_the_sheets(drawn: Drawn) -> None:
    plan, layout, parts = planned(drawn)
    order = [w.name for w in drawn[0]]
    bodies = {p.id: manifold(p.solid) for p in parts}
    for one, other in itertools.combinations(parts, 2):
        if abs(order.index(one.path[0]) - order.index(other.path[0])) > 1 or not near(one, other):
            continue  # walls that are no neighbours may cross in such a set
        shared = (bodies[one.id] ^ bodies[other.id]).volume()
        assert shared <= allowed(plan, one, other), (one.id, other.id)
    for k, line in enumerate(layout.walls):
        sheet = sheet_of(line, *(None, *drawn[1], None)[k : k + 2])
        for part in parts:
            if abs(order.index(part.path[0]) - order.index(line.name)) <= 1:
                assert (sheet ^ bodies[part.id]).volume() <= DUST, (part.id, line.name)


def sheet_of(line: WallLine, left: float | None, right: float | None) -> manifold3d.Manifold:
    """Return a wall's sheets as one, meeting its neighbours' in the planes that halve the corners."""
    past = [0.0 if corner is None else SHEET / math.tan(corner / 2) for corner in (left, right)]
    plan = ((0.0, 0.0), (line.length, 0.0), (line.length + past[1], SHEET), (-past[0], SHEET))
    return manifold(prism([line.at(along=x, behind=y) for x, y in plan], low=0.0, high=2400.0, axis="height"))


# --- copes -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", sorted(n for n, p in PROFILES.items() if p.kind in ("base", "rail", "cornice")))
@pytest.mark.parametrize("degrees", [60.0, 90.0, 110.0, 135.0])
def test_a_coped_end_is_the_blank_less_all_up_to_the_neighbours_front(name: str, degrees: float) -> None:
    section, corner = PROFILES[name].points, math.radians(degrees)
    cot = math.cos(corner) / math.sin(corner)
    far = EndCut(at=600.0)
    coped = swept(section, left=EndCut(at=0.0, by_out=cot, by_front=1 / math.sin(corner)), right=far)
    blank = swept(section, left=EndCut(at=0.0, by_out=cot), right=far)
    neighbour = swept(filled(PROFILES[name]), left=EndCut(at=0.0), right=EndCut(at=1200.0))
    assert coped is not None
    assert blank is not None
    assert neighbour is not None
    into_the_corner = placement(x=900 * math.cos(corner), y=-900 * math.sin(corner), turn=math.pi - corner)
    cut = manifold(blank) - manifold(transformed(neighbour, into_the_corner))
    assert manifold(coped).volume() == pytest.approx(cut.volume(), rel=1e-9)
    assert (manifold(coped) ^ cut).volume() == pytest.approx(cut.volume(), rel=1e-9)


def filled(profile: Profile) -> tuple[tuple[float, float], ...]:
    """Return all that lies between the wall and a section's front."""
    points = [(0.0, 0.0), *face(profile), (0.0, drop(profile))]
    return tuple(p for k, p in enumerate(points) if p != points[k - 1])


@given(sets())
def test_a_coped_piece_follows_the_front_of_its_neighbour_without_a_gap(drawn: Drawn) -> None:
    plan, layout, parts = planned(drawn)
    bodies = {p.id: p.solid for p in parts}
    for meeting in plan.meetings:
        if meeting.how != "cope":
            continue
        first = layout.wall(meeting.first or "")
        for piece in plan.pieces:
            end = piece.right if piece.wall == meeting.left else piece.left
            coped = piece.wall in (meeting.left, meeting.right) and piece.wall != first.name
            if coped and piece.line in (meeting.left_line, meeting.right_line) and end.cope > 0:
                corners = in_wall_axes(bodies[piece.id], first)
                lowest = corners[corners[:, 2] < piece.bottom + FINE]
                fronts = [out for out, up in piece.profile.points if up == 0]
                assert lowest[:, 1].max() == pytest.approx(-max(fronts), abs=FINE)


# --- moulding frames and casing ----------------------------------------------------------------------------------


@given(
    name=st.sampled_from(sorted(n for n, p in PROFILES.items() if p.kind in ("panel", "casing"))),
    width=st.floats(150, 1500),
    height=st.floats(150, 2000),
)
def test_a_frames_four_sides_close_and_fill_it_once(name: str, width: float, height: float) -> None:
    profile = PROFILES[name]
    frame = MouldingFrame(id="w/t/1", wall="w", tier="t", left=100.0, bottom=300.0, width=width, height=height)
    sides = dict(frame_bodies(frame, profile))
    bodies = {role: manifold(body) for role, body in sides.items()}
    assert list(bodies) == ["top", "right", "bottom", "left"]
    for one, other in itertools.combinations(bodies.values(), 2):
        assert (one ^ other).volume() <= DUST
    whole = manifold3d.Manifold.batch_boolean(list(bodies.values()), manifold3d.OpType.Add)
    x0, y0, z0, x1, y1, z1 = whole.bounding_box()
    assert (x0, z0, x1, z1) == pytest.approx((frame.left, frame.bottom, frame.right, frame.top), abs=FINE)
    assert (y0, y1) == pytest.approx((-projection(profile), 0.0), abs=FINE)
    assert whole.genus() == 1, "a ring"
    area, centre = section_figures(profile.points)
    length = 2 * (width + height) - 8 * (drop(profile) - centre)
    assert whole.volume() == pytest.approx(area * length, rel=1e-6)  # Pappus: area times its centre's way


def section_figures(points: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """Area of a section and the height of its centre."""
    polygon = Polygon(points)
    return polygon.area, polygon.centroid.y


@given(
    kind=st.sampled_from(("door", "window", "arch")),
    name=st.sampled_from(("casing 57", "casing 2 1-4 in")),
    width=st.integers(400, 1400),
    height=st.integers(900, 1900),
    rise=st.floats(0.1, 0.5),
    blocks=st.tuples(st.booleans(), st.booleans()),
)
def test_casing_closes_round_its_opening_and_overlaps_nowhere(
    kind: Literal["door", "window", "arch"],
    name: str,
    width: int,
    height: int,
    rise: float,
    blocks: tuple[bool, bool],
) -> None:
    opening = OpeningToCase(
        name="o",
        kind=kind,
        left=600.0,
        width=float(width),
        sill=400.0 if kind == "window" else 0.0,
        height=float(height),
        rise=rise * width if kind == "arch" else 0.0,
        reveal=5.0,
        profile=PROFILES[name],
        plinth_blocks=blocks[0],
        corner_blocks=blocks[1],
    )
    wall = WallToCase(name="w", length=3000.0, height=2800.0, openings=(opening,), base_top=95.0, base_thickness=15.0)
    casings = plan_casing(CasingJob(walls=(wall,), grid=RULES.grid))
    line = WallLine(name="w", start=(0.0, 0.0), direction=(1.0, 0.0), length=3000.0, height=2800.0)
    parts = moulding_parts(None, casings=casings, layout=Layout(walls=(line,), pose=Pose(x=0.0, y=0.0, turn=0.0)))
    (casing,) = casings
    wanted = [x.id for x in (*casing.pieces, *casing.blocks)] + ([casing.curve.id] if casing.curve else [])
    assert [p.id for p in parts] == wanted
    for part in parts:
        assert part.solid.box[1][1] == pytest.approx(0.0, abs=FINE)
    bodies = [manifold(p.solid) for p in parts]
    for one, other in itertools.combinations(bodies, 2):
        assert (one ^ other).volume() <= DUST
    grown = manifold3d.Manifold.batch_boolean(bodies, manifold3d.OpType.Add)
    assert len(grown.decompose()) == 1, "a gap between two pieces"
    for piece in casing.pieces:
        (body,) = (p.solid for p in parts if p.id == piece.id)
        (x0, _, z0), (x1, _, z1) = body.box
        assert (x0, z0, x1, z1) == pytest.approx((piece.x0, piece.z0, piece.x1, piece.z1), abs=FINE)
