"""Framing drawings show every member where it is, seen from behind, and the figures the carpenter lays out."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import pytest
from tests.unit.drawings.looks import chain_stops, covered_words
from tests.unit.drawings.made_up import Hole, WallWish, bay_wish, corner_wish, make_plan

from lathlight.drawings.framing import arch_listings, framing_notes, framing_view, opening_listings, timber_listing
from lathlight.drawings.labels import texts_of
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Line, Path, Pen, View
from lathlight.plan import Plan
from lathlight.units import drawing_length


@pytest.fixture(scope="module")
def bay() -> Plan:
    return make_plan(bay_wish())


def _words(plan: Plan, flat) -> list[str]:
    return [text.words for text in texts_of(framing_view(plan, flat, scale=20).items)]


def test_every_member_is_drawn_as_large_as_it_is_cut(bay: Plan) -> None:
    for flat in bay.flats:
        drawn = Counter(
            (round(x1 - x0, 6), round(y1 - y0, 6))
            for x0, y0, x1, y1 in (
                bounds_of(item.points)
                for item in framing_view(bay, flat, scale=20).items
                if isinstance(item, Path) and item.pen is Pen.OUTLINE and len(item.points) == 4
            )
        )
        wanted = Counter((round(member.wide, 6), round(member.high, 6)) for member in flat.members)
        assert drawn == wanted


def test_left_and_right_are_those_of_somebody_behind_the_set() -> None:
    door = Hole(name="door", kind="door", left=150, width=500, height=1900)
    plan = make_plan(corner_wish(walls=(WallWish(name="w", length=1200, holes=(door,)),), angles=()))
    (flat,) = plan.flats
    header = next(member for member in flat.members if member.role == "header")
    assert header.x + header.wide / 2 < flat.width / 2  # on the left for the camera
    boxes = [
        bounds_of(item.points)
        for item in framing_view(plan, flat, scale=20).items
        if isinstance(item, Path) and item.pen is Pen.OUTLINE
    ]
    (drawn,) = [
        box for box in boxes if box[1] == pytest.approx(header.z) and box[2] - box[0] == pytest.approx(header.wide)
    ]
    assert (drawn[0] + drawn[2]) / 2 > flat.width / 2
    assert any("SEEN FROM BEHIND" in words for words in _words(plan, flat))


def test_outside_width_and_height_are_measured(bay: Plan) -> None:
    for flat in bay.flats:
        stops = chain_stops(framing_view(bay, flat, scale=20))
        assert (0.0, flat.width) in stops
        assert (0.0, flat.height) in stops


def test_both_diagonals_are_drawn_equal_and_figured(bay: Plan) -> None:
    flat = bay.flats[1]
    view = framing_view(bay, flat, scale=20)
    lengths = [math.dist(item.a, item.b) for item in view.items if isinstance(item, Line)]
    diagonal = math.hypot(flat.width, flat.height)
    assert sum(length == pytest.approx(diagonal) for length in lengths) == 2
    figure = f"diagonal {drawing_length(diagonal, style=bay.brief.style)}"
    assert [text.words for text in texts_of(view.items)].count(figure) == 2


def test_every_member_carries_its_mark(bay: Plan) -> None:
    for flat in bay.flats:
        found = Counter(_words(bay, flat))
        for mark, number in Counter(member.mark for member in flat.members).items():
            assert found[mark] == number


def test_left_edges_of_studs_run_from_the_left_end(bay: Plan) -> None:
    for flat in bay.flats:
        lefts = [flat.x1 - m.x - m.wide for m in flat.members if m.upright and m.role != "wedge"]
        figures = {drawing_length(left, style=bay.brief.style) for left in lefts}
        assert figures <= set(_words(bay, flat))
        assert "0" in figures


def test_stud_centres_are_chained_across_the_frame(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if not flat.openings)
    centres = sorted(
        flat.x1 - m.x - m.wide / 2 for m in flat.members if m.upright and m.role not in ("end stud", "wedge")
    )
    wanted = [0.0, *centres, flat.width]
    chains = [stops for stops in chain_stops(framing_view(bay, flat, scale=20)) if len(stops) == len(wanted)]
    assert any(
        all(abs(a - b) <= 0.5 for a, b in zip(stops, wanted, strict=True)) for stops in chains
    )  # rounded once, to the millimetre


def test_the_sheet_on_the_far_side_is_dashed_at_its_true_place() -> None:
    plan = make_plan(corner_wish())
    flat = next(flat for flat in plan.flats if abs(flat.sheet_x1 - flat.x1) > 1)
    hidden = [
        bounds_of(item.points)
        for item in framing_view(plan, flat, scale=20).items
        if isinstance(item, Path) and item.pen is Pen.HIDDEN
    ]
    assert min(box[0] for box in hidden) == pytest.approx(flat.x1 - flat.sheet_x1)
    assert max(box[2] for box in hidden) == pytest.approx(flat.x1 - flat.sheet_x0)


def test_up_is_marked_with_an_arrow(bay: Plan) -> None:
    view = framing_view(bay, bay.flats[0], scale=20)
    (up,) = [text for text in texts_of(view.items) if text.words == "UP"]
    heads = [item for item in view.items if isinstance(item, Path) and item.pen is None]
    assert len(heads) == 1
    assert heads[0].points[0][1] > up.at[1]  # the tip is over the word


def test_the_timber_table_counts_every_member_once(bay: Plan) -> None:
    for flat in bay.flats:
        rows = timber_listing(bay, flat).rows
        timber = [row for row in rows if row[0] != "rib"]
        assert sum(int(row[1]) for row in timber) == len(flat.members)
        assert {row[0] for row in timber} == {member.mark for member in flat.members}


def test_the_table_names_the_ribs_of_an_arch(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if any(o.kind == "arch" for o in flat.openings))
    listing = timber_listing(bay, flat)
    (row,) = [row for row in listing.rows if row[0] == "rib"]
    assert row[:4] == ("rib", "2", "rib, 2 layers of ply 9 mm, to the ordinates", "300 × 200")
    assert "ribs" in listing.title


def test_ribs_are_drawn_at_their_place_and_named(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if any(o.kind == "arch" for o in flat.openings))
    (arch,) = flat.openings
    view = framing_view(bay, flat, scale=20)
    light = [bounds_of(i.points) for i in view.items if isinstance(i, Path) and i.pen is Pen.LIGHT]
    for rib in arch.ribs:
        x0, z0, x1, z1 = bounds_of(rib.outline)
        assert any(box == pytest.approx((flat.x1 - x1, z0, flat.x1 - x0, z1)) for box in light)
    assert [text.words for text in texts_of(view.items)].count("rib") == 2


def test_a_rib_behind_timber_is_dashed(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if any(o.kind == "arch" for o in flat.openings))
    x, z, w, h = flat.openings[0].rough
    low, high = z + h - 100.0, z + h - 60.0
    across = replace(flat.members[0], x=x, z=low, wide=w, high=high - low)
    bare, covered = (
        framing_view(bay, each, scale=20) for each in (flat, replace(flat, members=(*flat.members, across)))
    )
    assert any(low + 1 < up < high - 1 for up in _light_heights(bare))
    assert not any(low + 1 < up < high - 1 for up in _light_heights(covered))
    assert _dashed(covered) == _dashed(bare) + len(flat.openings[0].ribs)


def _light_heights(view: View) -> list[float]:
    paths = [i for i in view.items if isinstance(i, Path) and i.pen is Pen.LIGHT and not i.closed]
    return [up for path in paths for _, up in path.points]


def _dashed(view: View) -> int:
    return sum(isinstance(i, Path) and i.pen is Pen.HIDDEN for i in view.items)


def test_the_table_of_an_opening_counts_its_place_from_behind(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if any(o.kind == "window" for o in flat.openings))
    (listing,) = opening_listings(bay, flat)
    x, _, w, _ = flat.openings[0].rough
    (row,) = listing.rows
    assert row[3] == drawing_length(flat.x1 - (x + w), style=bay.brief.style)
    assert listing.narrow is not None
    assert ("From the left end", row[3]) in listing.narrow.rows
    assert listing.narrow.width < listing.width


def test_an_arch_prints_ordinates_up_to_its_crown(bay: Plan) -> None:
    flat = next(flat for flat in bay.flats if any(o.kind == "arch" for o in flat.openings))
    (listing,) = arch_listings(bay, flat)
    assert listing.narrow is not None
    assert listing.narrow.rows[0] == ("0", "0")
    assert listing.narrow.rows[-1] == ("300", "200")
    pairs = tuple(zip((column.heading for column in listing.columns), listing.rows[0], strict=True))
    assert pairs[1:] == listing.narrow.rows


def test_notes_name_the_flats_it_is_joined_to(bay: Plan) -> None:
    back = bay.walls[1]
    first, second = back.flats[:2]
    assert any(f"Joint with {second.mark} at the left end" in note for note in framing_notes(bay, first))
    assert any(f"Joint with {first.mark} at the right end" in note for note in framing_notes(bay, second))


def test_notes_give_mass_size_and_diagonals(bay: Plan) -> None:
    flat = bay.flats[0]
    note = framing_notes(bay, flat)[0]
    for figure in (flat.width, flat.height, flat.diagonal):
        assert drawing_length(figure, style=bay.brief.style) in note
    assert f"{flat.weight.value:.0f} kg" in note


@pytest.mark.parametrize("scale", [16.0, 20.0, 25.0, 50.0])
def test_words_do_not_cover_each_other(bay: Plan, scale: float) -> None:
    for flat in bay.flats:
        assert not covered_words(framing_view(bay, flat, scale=scale))


def test_a_door_is_clear_over_the_finished_floor_and_rough_from_the_frame() -> None:
    level = make_plan(corner_wish())
    floor = replace(level.brief.floor, covering="boards", thickness=14.0, stands_on="floor")
    raised = replace(level, brief=replace(level.brief, floor=floor))
    assert raised.brief.floor.rise == 14.0
    flat = next(flat for flat in level.flats if any(o.kind == "door" for o in flat.openings))
    (door,) = flat.openings
    width, height = (round(mm) for mm in door.clear[2:])
    for plan, clear in ((level, height), (raised, height - 14)):
        (listing,) = opening_listings(plan, flat)
        assert listing.rows[0][1] == f"{width} × {clear}"
        assert listing.rows[0][2] == f"{round(door.rough[2])} × {round(door.rough[3])}"
    words = "Clear heights are over the finished floor, 14 above this flat's bottom."
    assert words in framing_notes(raised, flat)
    assert words not in framing_notes(level, flat)
