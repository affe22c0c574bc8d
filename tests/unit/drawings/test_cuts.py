"""Sheet drawings: pieces in the wall and on their sheets, never flipped, never over the edge."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from tests.unit.drawings.looks import chain_stops, covered_words
from tests.unit.drawings.made_up import METRIC_SHEET, Hole, WallWish, bay_wish, corner_wish, make_plan

from lathlight.drawings.cuts import cut_sheets_view, piece_listing, sheet_map_view
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Path, Tone
from lathlight.plan import Plan


def _area(ring) -> float:
    """Return the area, positive anticlockwise (shoelace)."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)) / 2


@pytest.fixture(scope="module")
def bay() -> Plan:
    return make_plan(bay_wish())


@pytest.fixture(scope="module")
def turned() -> Plan:
    """A low wall of a sheet without grain, whose last piece lies across its sheet, with an opening to one side."""
    sheet = replace(METRIC_SHEET, grain=False)
    window = Hole(name="hatch", kind="window", left=100, width=200, height=300, sill=500)
    walls = (
        WallWish(name="low", length=1000, height=1100, holes=(window,)),
        WallWish(name="next", length=1250, height=1100),
    )
    return make_plan(corner_wish(sheet=sheet, walls=walls))


def test_the_map_shows_each_piece_as_large_as_it_is_sawn(bay: Plan) -> None:
    for wall in bay.walls:
        view = sheet_map_view(bay, wall.name, scale=25)
        drawn = sorted(abs(_area(item.points)) for item in view.items if isinstance(item, Path))
        pieces = [piece for flat in wall.flats for piece in flat.pieces]
        rings = [ring for piece in pieces for ring in (piece.outline, *piece.holes)]
        assert drawn == pytest.approx(sorted(abs(_area(ring)) for ring in rings))


def test_widths_of_pieces_add_up_along_the_wall(bay: Plan) -> None:
    pieces = [piece for flat in bay.walls[1].flats for piece in flat.pieces]
    edges = tuple(sorted({x for piece in pieces for x in bounds_of(piece.outline)[::2]}))
    assert edges in chain_stops(sheet_map_view(bay, "back", scale=25))


def test_every_piece_carries_mark_and_size(bay: Plan) -> None:
    for wall in bay.walls:
        words = " ".join(text.words for text in texts_of(sheet_map_view(bay, wall.name, scale=20).items))
        for flat in wall.flats:
            for piece in flat.pieces:
                assert f"{flat.mark}-{piece.mark}" in words


def test_every_factory_edge_is_marked(bay: Plan) -> None:
    for wall in bay.walls:
        words = [text.words for text in texts_of(sheet_map_view(bay, wall.name, scale=20).items)]
        assert words.count("F") == sum(len(piece.factory) for flat in wall.flats for piece in flat.pieces)


def _layout(plan: Plan):
    """Return sheets and pieces as drawn: boxes of sheets, rings of pieces."""
    view = cut_sheets_view(plan, plan.cut_sheets, columns=3, scale=25, name="cut-sheets")
    paths = [item for item in view.items if isinstance(item, Path)]
    sheets = [bounds_of(path.points) for path in paths if path.fill is Tone.PALE]
    return sheets, [path for path in paths if path.fill is Tone.WHITE]


@pytest.mark.parametrize("which", ["bay", "turned"])
def test_pieces_lie_inside_their_sheets_and_apart(which: str, request: pytest.FixtureRequest) -> None:
    plan: Plan = request.getfixturevalue(which)
    sheets, pieces = _layout(plan)
    assert len(pieces) == sum(len(sheet.pieces) for sheet in plan.cut_sheets) >= len(plan.pieces)
    assert len(sheets) == len(plan.cut_sheets)
    boxes = [bounds_of(path.points) for path in pieces]
    for x0, y0, x1, y1 in boxes:
        assert any(
            a - 0.01 <= x0 and low - 0.01 <= y0 and x1 <= b + 0.01 and y1 <= high + 0.01 for a, low, b, high in sheets
        )
    for (a0, b0, a1, b1), (c0, d0, c1, d1) in combinations(boxes, 2):
        assert a1 <= c0 + 0.01 or c1 <= a0 + 0.01 or b1 <= d0 + 0.01 or d1 <= b0 + 0.01


def test_a_turned_piece_is_turned_and_not_flipped(turned: Plan) -> None:
    assert any(placed.turned for cut in turned.cut_sheets for placed in cut.pieces)
    _, pieces = _layout(turned)
    areas = sorted(_area(path.points) for path in pieces)
    assert areas == pytest.approx(sorted(_area(piece.outline) for piece in turned.pieces))  # sign kept: not flipped


def test_the_table_gives_the_size_and_place_of_a_cut_out(bay: Plan) -> None:
    rows = {row[0]: row for row in piece_listing(bay, "back").rows}
    assert any("cut out" in row[-1] and "1000 up" in row[-1] for row in rows.values())
    assert set(rows) == {f"{flat.mark}-{piece.mark}" for flat in bay.walls[1].flats for piece in flat.pieces}


def test_a_lined_opening_is_sawn_out_as_large_as_its_lining_needs() -> None:
    window = Hole(name="window", kind="window", left=300, width=400, height=600, sill=900, lining=18)
    plan = make_plan(corner_wish(walls=(WallWish(name="w", length=1100, holes=(window,)),), angles=()))
    (piece,) = plan.pieces
    x0, z0, x1, z1 = bounds_of(piece.holes[0])
    assert x1 - x0 > 400
    stops = chain_stops(sheet_map_view(plan, "w", scale=20))
    assert (0.0, x0, x1, 1100.0) in stops
    assert (0.0, z0, z1, 2400.0) in stops
    (row,) = piece_listing(plan, "w").rows
    assert f"cut out {x1 - x0:.0f} × {z1 - z0:.0f}, {x0:.0f} from the left, {z0:.0f} up" in row[-1]


@pytest.mark.parametrize("which", ["bay", "turned"])
def test_words_do_not_cover_each_other(which: str, request: pytest.FixtureRequest) -> None:
    plan: Plan = request.getfixturevalue(which)
    for wall in plan.walls:
        assert not covered_words(sheet_map_view(plan, wall.name, scale=25))
    assert not covered_words(cut_sheets_view(plan, plan.cut_sheets, columns=2, scale=25, name="x"))
