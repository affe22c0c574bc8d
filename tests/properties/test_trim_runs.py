"""Trim round any set: lines meet in every corner, pieces cover their runs, mirrored sets mirror.

Second opinion: the pieces' plan outlines, laid out in set axes and looked at with a geometry library.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from lathlight.catalog import load_catalog, projection
from lathlight.layout import WallLine, lay_out_walls
from lathlight.mouldings.trim import plan_trim
from lathlight.mouldings.trim_model import (
    CasedOpening,
    Moulding,
    Parting,
    PictureMiddle,
    PieceEnd,
    TrimPiece,
    TrimPlan,
    TrimRules,
    TrimWall,
)
from lathlight.units import LengthStyle

PROFILES = load_catalog().profiles
RULES = TrimRules(grid=LengthStyle.metric())
NAMES = ("base 120", "rail 57", "picture rail 44", "cornice 67 at 45")
FINE = 1e-6  # [mm], [mm2]
TOUCHES = 1e-4  # two outlines that share a side overlap by no more than noise [mm2]


@st.composite
def sets(draw: st.DrawFn) -> tuple[tuple[TrimWall, ...], tuple[float, ...]]:
    """Draw walls of unequal lengths with lines, joints, a door and a picture, and corners of any angle."""
    count = draw(st.integers(1, 4))
    lengths = draw(st.lists(st.integers(900, 7000), min_size=count, max_size=count, unique=True))
    degrees = st.one_of(st.floats(60, 179), st.floats(181, 300), st.sampled_from((60.0, 90.0, 110.0, 135.0, 270.0)))
    corners = tuple(math.radians(draw(degrees)) for _ in range(count - 1))
    lines = tuple(draw(_line(name)) for name in NAMES if draw(st.booleans()))
    return tuple(draw(_wall(f"w{k}", float(length), lines)) for k, length in enumerate(lengths)), corners


@st.composite
def _line(draw: st.DrawFn, name: str) -> Moulding:
    profile = PROFILES[name]
    tops = {"base": 120.0, "rail": 900.0, "picture rail": 2050.0, "cornice": 2400.0}
    return Moulding(
        name=profile.kind,
        kind=profile.kind,
        profile=profile,
        top=tops[profile.kind],
        spring=profile.spring,
        loose=draw(st.booleans()),
        inside=draw(st.sampled_from(("mitre", "cope"))),
        free=draw(st.sampled_from(("returned", "square"))),
    )


@st.composite
def _wall(draw: st.DrawFn, name: str, length: float, lines: tuple[Moulding, ...]) -> TrimWall:
    inner = st.integers(250, int(length) - 250).map(float)
    joints = tuple(
        Parting(upright=True, at=x, low=0.0, high=2400.0)
        for x in sorted(draw(st.lists(inner, max_size=2, unique=True)))
    )
    door = CasedOpening(
        name="door",
        left=length / 2 - 100,
        width=200.0,
        sill=0.0,
        height=1500.0,
        reveal=5.0,
        casing=40.0,
        thickness=25.0,
    )
    return TrimWall(
        name=name,
        length=length,
        height=2400.0,
        lines=draw(
            st.sampled_from((lines, lines, lines, lines[1:], tuple(replace(m, top=m.top - 20) for m in lines[1:])))
        ),
        openings=(door,) if draw(st.booleans()) else (),
        partings=joints,
        studs=tuple(float(x) for x in range(19, int(length), 397)),
        middles=(PictureMiddle(picture="p", at=draw(inner), clear=350.0),) if draw(st.booleans()) else (),
    )


def outline(face: WallLine, piece: TrimPiece) -> Polygon:
    """Plan of a piece as if it stood out by its full projection over its whole height; a cope at its deepest."""
    out = projection(piece.profile)
    left, right = piece.left.cope, -piece.right.cope
    return Polygon(
        [
            face.at(along=piece.left.back + left, behind=0.0),
            face.at(along=piece.right.back + right, behind=0.0),
            face.at(along=piece.right.front + right, behind=-out),
            face.at(along=piece.left.front + left, behind=-out),
        ]
    )


def cut_line(face: WallLine, piece: TrimPiece, end: PieceEnd) -> tuple[Point, Point]:
    out = projection(piece.profile)
    return Point(face.at(along=end.back, behind=0.0)), Point(face.at(along=end.front, behind=-out))


def laid_out(walls: tuple[TrimWall, ...], corners: tuple[float, ...]) -> dict[str, WallLine]:
    faces = lay_out_walls(
        names=[w.name for w in walls],
        lengths=[w.length for w in walls],
        heights=[w.height for w in walls],
        angles=corners,
    )
    return {face.name: face for face in faces}


def at_corner(plan: TrimPlan, wall: str, line: str | None, side: Literal["left", "right"]) -> TrimPiece | None:
    own = [p for p in plan.pieces if p.wall == wall and p.line == line]
    if not own:
        return None
    return own[0] if side == "left" else own[-1]


@given(sets())
def test_lines_meet_round_every_corner_at_any_angle(drawn: tuple[tuple[TrimWall, ...], tuple[float, ...]]) -> None:
    walls, corners = drawn
    plan = plan_trim(walls, corners=corners, rules=RULES)
    faces = laid_out(walls, corners)
    for meeting in plan.meetings:
        a = at_corner(plan, meeting.left, meeting.left_line, "right")
        b = at_corner(plan, meeting.right, meeting.right_line, "left")
        if a is None or b is None:
            continue
        left, right = outline(faces[a.wall], a), outline(faces[b.wall], b)
        assert left.is_valid
        assert right.is_valid
        if meeting.how == "clear of each other" and meeting.corner < math.pi:
            continue  # at different heights
        assert left.intersection(right).area < TOUCHES
        if meeting.how == "mitre":
            (foot_a, tip_a), (foot_b, tip_b) = (cut_line(faces[p.wall], p, e) for p, e in ((a, a.right), (b, b.left)))
            assert foot_a.distance(foot_b) < FINE
            assert tip_a.distance(tip_b) < FINE
            side = LineString([foot_a, tip_a])
            assert left.boundary.buffer(FINE).contains(side)
            assert right.boundary.buffer(FINE).contains(side)
        elif meeting.how != "clear of each other":
            assert left.distance(right) < FINE  # coped at its deepest: the full projection of the first


@given(sets())
def test_pieces_cover_their_runs_exactly_and_span_no_joint_unless_loose(
    drawn: tuple[tuple[TrimWall, ...], tuple[float, ...]],
) -> None:
    walls, corners = drawn
    plan = plan_trim(walls, corners=corners, rules=RULES)
    pieces = {p.id: p for p in plan.pieces}
    assert len(pieces) == len(plan.pieces)
    assert sorted(plan.order) == sorted(plan.cuts) == sorted(pieces) == sorted(i for r in plan.runs for i in r.pieces)
    joints = {w.name: [p.at for p in w.partings] for w in walls}
    for run in plan.runs:
        own = [pieces[i] for i in run.pieces]
        assert (own[0].start, own[-1].end) == (run.start, run.end)
        for a, b in itertools.pairwise(own):
            assert a.end == b.start
            assert (a.right.back, a.right.front) == pytest.approx((b.left.back, b.left.front))
        for piece in own:
            assert piece.long_point <= max(piece.profile.lengths) + 0.5
            assert piece.short_point <= min(piece.back, piece.front) <= max(piece.back, piece.front) <= piece.long_point
            assert piece.loose or not any(piece.start < x < piece.end for x in joints[piece.wall])


@given(sets())
def test_the_base_is_fixed_last(drawn: tuple[tuple[TrimWall, ...], tuple[float, ...]]) -> None:
    walls, corners = drawn
    plan = plan_trim(walls, corners=corners, rules=RULES)
    kinds = {p.id: p.kind == "base" for p in plan.pieces}
    assert [kinds[i] for i in plan.order] == sorted(kinds.values())


def mirrored(wall: TrimWall) -> TrimWall:
    def flip(x: float) -> float:
        return wall.length - x

    return replace(
        wall,
        openings=tuple(replace(o, left=flip(o.left + o.width)) for o in wall.openings),
        partings=tuple(replace(p, at=flip(p.at)) for p in reversed(wall.partings)),
        studs=tuple(flip(s) for s in reversed(wall.studs)),
        middles=tuple(replace(m, at=flip(m.at)) for m in wall.middles),
    )


def flipped_end(end: PieceEnd, length: float) -> tuple[object, ...]:
    swing = {"left": "right", "right": "left", "none": "none"}[end.saw.swing]
    places = tuple(round(length - x, 6) for x in (end.station, end.back, end.front))
    return end.kind, places, round(end.slant, 9), swing, end.against, round(end.cope, 6)


def as_it_is(end: PieceEnd) -> tuple[object, ...]:
    places = tuple(round(x, 6) for x in (end.station, end.back, end.front))
    return end.kind, places, round(end.slant, 9), end.saw.swing, end.against, round(end.cope, 6)


@given(sets())
def test_a_mirrored_set_has_mirrored_trim(drawn: tuple[tuple[TrimWall, ...], tuple[float, ...]]) -> None:
    walls, corners = drawn
    long = tuple(
        replace(w, lines=tuple(replace(m, profile=replace(m.profile, lengths=(8000.0,))) for m in w.lines))
        for w in walls
    )  # in one length: of two scarfs that are equally good the left one is taken
    here = plan_trim(long, corners=corners, rules=RULES)
    there = plan_trim(tuple(mirrored(w) for w in reversed(long)), corners=tuple(reversed(corners)), rules=RULES)
    length = {w.name: w.length for w in walls}
    ours = {
        (p.wall, p.line, flipped_end(p.right, length[p.wall]), flipped_end(p.left, length[p.wall])) for p in here.pieces
    }
    theirs = {(p.wall, p.line, as_it_is(p.left), as_it_is(p.right)) for p in there.pieces}
    assert ours == theirs
    assert sorted(f.kind for f in here.findings) == sorted(f.kind for f in there.findings)
    assert sorted(s.length for s in here.strips) == sorted(s.length for s in there.strips)
