"""Sheets of a wall: how many, which way, where the seams lie."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.unit.carpentry.test_uprights import rough

from lathlight.carpentry.flats import FlatCells, Span
from lathlight.carpentry.openings import hole_outline
from lathlight.carpentry.sheeting import SheetJob, cells_of, choose_sheeting, factory_edges
from lathlight.catalog import load_catalog
from lathlight.geometry import area
from lathlight.project.brief import TrimLine
from lathlight.units import LengthStyle

SPAN = Span(start=0.0, end=2440.0, beyond_start=0.0, beyond_end=0.0)
FREE = FlatCells(
    widest=math.inf,
    tallest=math.inf,
    heaviest=math.inf,
    weight_binds=False,
    weight_per_area=8e-6,
    weight_per_noggin=6e-4,
    upright=38.0,
    span=SPAN,
)
JOB = SheetJob(
    span=SPAN,
    height=2400.0,
    sheet=load_catalog().sheets["ply 9 mm"],
    openings=(),
    trim=(),
    keep_off=(),
    flats=FREE,
    kerf=3.0,
    grid=LengthStyle.metric(),
)


def wide(length: float, **more: object) -> SheetJob:
    span = replace(SPAN, end=length)
    return replace(JOB, span=span, flats=replace(FREE, span=span), **more)


def test_whole_sheets_stay_whole() -> None:
    assert choose_sheeting(JOB).xs == (0.0, 1220.0, 2440.0)


def test_seams_keep_away_from_the_pictures_middle() -> None:
    chosen = choose_sheeting(wide(3000.0, keep_off=(1500.0,)))
    assert chosen.xs == (0.0, 890.0, 2110.0, 3000.0)
    moved = choose_sheeting(wide(3000.0, keep_off=(900.0,)))
    assert min(abs(x - 900.0) for x in moved.xs[1:-1]) > min(abs(x - 900.0) for x in chosen.xs[1:-1])


def test_a_level_seam_hides_behind_a_rail_that_can_cover_it() -> None:
    rail = TrimLine(name="rail", kind="rail", profile="rail 57", top=1000.0, bottom=943.0, loose=False)
    chosen = choose_sheeting(wide(2440.0, height=3000.0, trim=(rail,)))
    assert any(rail.bottom < z < rail.top for z in chosen.zs[1:-1])


def test_a_wall_lower_than_a_sheet_is_wide_takes_turned_sheets() -> None:
    chosen = choose_sheeting(wide(2440.0, height=1220.0))
    assert chosen.turned
    assert chosen.sheets == 1


def test_sheets_with_grain_are_never_turned() -> None:
    grained = replace(JOB.sheet, grain=True)
    assert not choose_sheeting(wide(2440.0, height=1220.0, sheet=grained)).turned


def test_a_door_leaves_a_notched_piece() -> None:
    door = rough(1000.0, 1800.0)
    cells = cells_of((0.0, 1220.0, 2440.0), (0.0, 2400.0), (door,))
    assert [len(c.outline) for c in cells] == [6, 6]


def test_an_opening_across_a_whole_column_splits_it() -> None:
    window = rough(0.0, 1220.0, bottom=800.0, top=1800.0)
    cells = cells_of((0.0, 1220.0), (0.0, 2400.0), (window,))
    assert [c.box for c in cells] == [(0.0, 0.0, 1220.0, 800.0), (0.0, 1800.0, 1220.0, 2400.0)]


def test_the_makers_edge_lies_at_the_seam_and_the_sawn_one_at_the_end() -> None:
    chosen = choose_sheeting(wide(2000.0))
    cells = cells_of(chosen.xs, chosen.zs, ())
    first, last = (factory_edges(chosen, c, JOB.sheet) for c in (cells[0], cells[-1]))
    assert "right" in first
    assert "left" in last
    assert not {"left"} & first or chosen.xs[1] == 1220.0


def test_joints_avoid_the_door_when_flats_must_be_narrow() -> None:
    door = rough(1000.0, 1800.0)
    job = wide(3600.0, openings=(door,))
    job = replace(job, flats=replace(job.flats, widest=1900.0))
    chosen = choose_sheeting(job)
    joints = [chosen.xs[b] for _, b in chosen.columns[:-1]]
    assert chosen.excess == 0
    assert all(x <= door.left - 76 or x >= door.right + 76 for x in joints)


def test_a_flat_that_cannot_be_narrow_enough_is_weighed() -> None:
    job = wide(2440.0, openings=(rough(400.0, 2000.0),))
    job = replace(job, flats=replace(job.flats, widest=1300.0))
    assert choose_sheeting(job).excess > 0


def test_a_seam_through_an_archs_crown_loses_no_sheet() -> None:
    arch = replace(rough(400.0, 1600.0, top=850.0), kind="arch", rise=425.0, spring=425.0)
    whole = 2000.0 * 1900.0 - area(hole_outline(arch))
    cells = cells_of((0.0, 1000.0, 2000.0), (0.0, 1900.0), (arch,))
    assert math.isclose(sum(area(c.outline) for c in cells), whole)


def test_a_sheet_more_is_spent_where_the_pictures_count_first() -> None:
    openings = (rough(450.0, 1250.0), rough(2300.0, 3200.0, bottom=850.0, top=1950.0, name="window"))
    job = wide(3600.0, openings=openings, keep_off=(1800.0,))
    job = replace(job, flats=replace(job.flats, widest=2100.0))
    saving, seeing = choose_sheeting(job), choose_sheeting(replace(job, pictures_first=True))
    assert saving.sheets <= seeing.sheets
    near = [min((abs(x - 1800.0) for x in chosen.xs[1:-1]), default=999.0) for chosen in (saving, seeing)]
    assert near[1] >= near[0]
    assert len(seeing.zs) == 2, "no level seam in the open"
