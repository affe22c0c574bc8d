"""The paint of a whole set, and what would go wrong with it: every fault found once and once not."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from lathlight.catalog import load_catalog
from lathlight.catalog.columns import SHEENS
from lathlight.errors import InputError
from lathlight.finishing.brads import BradRun
from lathlight.finishing.finish import FinishJob, plan_finish
from lathlight.finishing.finish_faults import (
    RANKS,
    brad_through,
    early_mouldings,
    glossy_sheen,
    narrow_gaps,
    paint_short,
    raw_edges,
)
from lathlight.finishing.paint_areas import MouldingLength, Surfaces, areas_by_kind, paint_areas
from lathlight.finishing.paint_need import PaintRules
from lathlight.finishing.tool_reach import Covered, Field, Gap

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.plan import Plan

CATALOG = load_catalog()
MATT, SATIN = CATALOG.paints["matt paint"], CATALOG.paints["satin paint"]
GAP = Gap(wall="back", between=("frame top", "rail"), width=40.0, length=900.0, x=500.0, z=820.0)
RUN = BradRun(id="back/panel", wall="back", start=(0.0, 0.0), end=(500.0, 0.0), thickness=12.0)
LONG = CATALOG.fasteners["brad 18 ga 50 mm"]


@pytest.fixture
def job(plan_of: Callable[[str], Plan]) -> FinishJob:
    """Return the corner set with one rail above a tier of mouldings, 60 mm apart."""
    walls = plan_of("corner-metric").walls
    rail = CATALOG.profiles["rail 57"]
    return FinishJob(
        walls=walls,
        mouldings=tuple(MouldingLength(id=f"{w.name}/rail", wall=w.name, profile=rail, length=w.length) for w in walls),
        fields=tuple(
            Field(
                wall=w.name,
                length=w.length,
                height=w.height,
                walled_left=w.left.kind != "free",
                walled_right=w.right.kind != "free",
                covered=(
                    Covered(name="rail", x0=0.0, z0=900.0, x1=w.length, z1=957.0),
                    Covered(name="tier", x0=0.0, z0=810.0, x1=w.length, z1=840.0),
                ),
            )
            for w in walls
        ),
        surfaces=Surfaces(edges=True, backs=False),
        paint=MATT,
        coats=2,
        primer=CATALOG.paints["primer"],
        primer_coats=1,
        painted="after fixing",
        flashed=True,
        rules=PaintRules(),
        at_hand={},
    )


def test_a_set_gets_its_primer_and_paint_in_tins_that_hold_them(job: FinishJob) -> None:
    finish = plan_finish(job)
    assert [c.need.coating.name for c in finish.coatings] == ["primer", "matt paint"]
    for coating in finish.coatings:
        assert coating.tins is not None
        assert coating.tins.volume >= coating.line.gross == pytest.approx(coating.need.gross)
    painted = sum(areas_by_kind(finish.areas).values())
    assert finish.coatings[1].need.net == pytest.approx(painted / 1e6 * 2 / MATT.spread)


def test_the_strip_under_the_rail_is_brush_work_only_where_mouldings_are_fixed_first(job: FinishJob) -> None:
    fixed_first = plan_finish(job)
    lengths = {w.name: w.length for w in job.walls}
    assert {r.wall: r.brush for r in fixed_first.reaches} == pytest.approx({n: 60.0 * x for n, x in lengths.items()})
    assert [f.fault for f in fixed_first.faults] == ["mouldings glued before painting"] * 2
    painted_first = plan_finish(replace(job, painted="before fixing"))
    assert {r.brush for r in painted_first.reaches} == {0.0}
    assert painted_first.faults == ()
    assert fixed_first.brushwork - painted_first.brushwork == pytest.approx(60.0 * sum(lengths.values()))


def test_paint_at_hand_is_used_and_found_short(job: FinishJob) -> None:
    enough = plan_finish(replace(job, painted="before fixing", at_hand={"matt paint": 10.0}))
    assert enough.coatings[1].tins is None
    assert enough.faults == ()
    short = plan_finish(replace(job, painted="before fixing", at_hand={"matt paint": 1.0}))
    assert [(f.fault, f.figure) for f in short.faults] == [("paint short of its coats", 1.0)]


def test_a_spreading_rate_of_zero_is_refused_before_anything_is_made(job: FinishJob) -> None:
    with pytest.raises(InputError, match="spread: found 0 m2/l"):
        plan_finish(replace(job, paint=replace(MATT, spread=0.0)))


def test_equal_jobs_give_equal_finishes(job: FinishJob) -> None:
    assert plan_finish(job) == plan_finish(replace(job))


# --- faults ------------------------------------------------------------------------------------------------------


def test_a_gap_narrower_than_a_brush_is_found() -> None:
    (fault,) = narrow_gaps([replace(GAP, width=20.0)])
    assert (fault.figure, fault.limit) == (20.0, 25.0)
    assert narrow_gaps([replace(GAP, width=25.0)]) == ()


def test_a_gap_is_found_once() -> None:
    for width in (20.0, 25.0, 40.0, 99.0, 100.0):
        gap = replace(GAP, width=width)
        found = [*narrow_gaps([gap]), *early_mouldings([gap], mouldings="after fixing")]
        assert len(found) == (0 if width == 100.0 else 1)


def test_mouldings_painted_before_fixing_leave_the_roller_free() -> None:
    assert early_mouldings([GAP], mouldings="before fixing") == ()


def test_a_shiny_paint_is_found_only_under_flash() -> None:
    (fault,) = glossy_sheen(SATIN, flashed=True)
    assert (fault.place, fault.figure, fault.limit) == ("satin paint", 3, 1)
    assert glossy_sheen(SATIN, flashed=False) == ()
    assert glossy_sheen(MATT, flashed=True) == ()
    with pytest.raises(ValueError, match="velvet"):
        glossy_sheen(replace(MATT, sheen="velvet"), flashed=True)


def test_sheens_rank_as_in_the_catalogue() -> None:
    assert tuple(sorted(RANKS, key=lambda sheen: RANKS[sheen])) == SHEENS


def test_paint_short_says_how_many_coats_it_lasts_for(job: FinishJob) -> None:
    need = plan_finish(job).coatings[1].need
    kept = sum(a.litres for a in need.allowances if a.kept)
    assert paint_short(need, have=need.gross - kept) == ()
    (fault,) = paint_short(need, have=need.gross - kept - 0.01)
    assert fault.limit == pytest.approx(need.gross - kept)
    assert ("whole coats it lasts for", 1, "") in fault.inputs
    (empty,) = paint_short(need, have=0.0)
    assert ("whole coats it lasts for", 0, "") in empty.inputs


def test_raw_edges_are_found_where_edges_are_left_out(job: FinishJob) -> None:
    bare = paint_areas(job.walls, (), Surfaces(edges=False, backs=False))
    found = raw_edges(bare)
    assert {f.inputs[0][1] for f in found} == {"joint edge", "top edge"}
    assert all(f.figure > 0 for f in found)
    assert raw_edges(paint_areas(job.walls, (), job.surfaces)) == ()


def test_a_stated_brad_through_the_skin_is_found() -> None:
    (fault,) = brad_through(RUN, LONG, skin=6.0, timber=0.0)
    assert (fault.figure, fault.limit) == (50.0, 16.0)
    assert brad_through(RUN, LONG, skin=6.0, timber=38.0) == ()
    assert brad_through(RUN, LONG, skin=6.0, timber=34.0) == ()
