"""Plans with moulding frames, casing, a floor, fixings and paint on the made-up set: each as its own stage makes it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tests.unit.flooring.made_up import PICTURE as SEEN
from tests.unit.flooring.made_up import floor_job
from tests.unit.snags.made_up import WALL, WHY, plan

from lathlight.catalog import Fastener, load_catalog
from lathlight.finishing import Finish, Gap, PaintArea, PaintNeed
from lathlight.flooring import plan_floor
from lathlight.mouldings import (
    CasingJob,
    FrameTier,
    FrameWall,
    MouldingFramesJob,
    OpeningToCase,
    Strip,
    WallToCase,
    lay_out_frames,
    plan_casing,
)
from lathlight.plan import Memo, Plan
from lathlight.plan.fixing import derive_fixing
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from lathlight.finishing import FinishFault

METRIC = LengthStyle.metric()
CATALOG = load_catalog()

# --- moulding frames -----------------------------------------------------------------------------------------------

PANEL = CATALOG.profiles["panel 30"]
TIER = FrameTier(name="panels", moulding=30.0, bottom=300.0, top=1500.0, gap=120.0)
BOUGHT = replace(TIER, bought_width=600.0)


def frame_wall(length: float, *, name: str = "back", **more: Any) -> FrameWall:
    """A wall as its frames see it."""
    return replace(FrameWall(name=name, start=0.0, end=length, height=2400.0), **more)


def framed(*walls: FrameWall, tiers: tuple[FrameTier, ...] = (TIER,), **more: Any) -> Plan:
    """The sound set with moulding frames on these walls; what is left over replaces parts of the brief."""
    layout = lay_out_frames(MouldingFramesJob(walls=walls, tiers=tiers, grid=METRIC))
    return replace(plan(**more), frames=layout)


# --- casing --------------------------------------------------------------------------------------------------------

DOOR = OpeningToCase(  # with its casing of 57 mm and a reveal of 5 mm it takes 62 mm more on either side
    name="hatch",
    kind="door",
    left=300.0,
    width=800.0,
    sill=0.0,
    height=2000.0,
    rise=0.0,
    reveal=5.0,
    profile=CATALOG.profiles["casing 57"],
)


def cased(*openings: OpeningToCase, **more: Any) -> Plan:
    """The sound set with casing round these openings."""
    wall = replace(WallToCase(name="back", length=2440.0, height=2400.0, openings=openings), **more)
    return replace(plan(), casings=plan_casing(CasingJob(walls=(wall,), grid=METRIC)))


# --- floor ---------------------------------------------------------------------------------------------------------


def floored(**changes: Any) -> Plan:
    """The sound set with a floor; the one picture sees it as far as 2100 mm before the wall."""
    return replace(plan(), floor=plan_floor(replace(floor_job(pictures=(SEEN,), width=6000.0), **changes)))


# --- fixing --------------------------------------------------------------------------------------------------------


def fastener(kind: str, length: float) -> Fastener:
    """A fastener of some length."""
    return Fastener(name=f"a {kind}", kind=kind, diameter=4.0, length=length, box=100, source="invented")


SCREW = fastener("screw", 50.0)


def block(x0: float, x1: float, **more: Any) -> Strip:
    """A plain strip 20 mm thick on wall back, by default level and 40 mm broad."""
    strip = Strip(
        id="back/rail/1",
        wall="back",
        use="trim",
        kind="rail",
        belongs_to="rail",
        profile=None,
        upright=False,
        x0=x0,
        z0=860.0,
        x1=x1,
        z1=900.0,
        stands_out=20.0,
        loose=False,
    )
    return replace(strip, **more)


def fixed(*strips: Strip, **rules: Any) -> Plan:
    """The sound set, fixed by these rules: 9 mm of sheet on timber 38 mm wide and 63 mm deep."""
    made = plan()
    brief = replace(made.brief, fixing=replace(made.brief.fixing, **rules))
    fixing = derive_fixing(brief, made.walls, made.corners, made.layout, strips, Memo())
    return replace(made, brief=brief, strips=strips, fixing=fixing)


# --- paint ---------------------------------------------------------------------------------------------------------


def painted(*faults: FinishFault, made: Plan | None = None) -> Plan:
    """The sound set with paint of which these faults were found."""
    finish = Finish(
        areas=(), painted="after fixing", coatings=(), reaches=(), gaps=(), brushwork=0.0, faults=tuple(faults)
    )
    return replace(made or plan(), finish=finish)


def gap(width: float, **more: Any) -> Gap:
    """A gap between two mouldings of wall back."""
    whole = Gap(wall="back", between=("rail", "casing of hatch"), width=width, length=700.0, x=800.0, z=900.0)
    return replace(whole, **more)


def need(litres: float) -> PaintNeed:
    """Two coats of matt paint that take so much."""
    return PaintNeed(coating=CATALOG.paints["matt paint"], coats=2, area=10e6, net=litres, allowances=())


def edge(length: float, *, painted: bool = False, kind: str = "top edge", name: str = "1") -> PaintArea:
    """An edge of a raw sheet."""
    return PaintArea(
        id=f"back/{name}/{kind}",
        wall="back",
        kind=kind,  # pyright: ignore[reportArgumentType] -- the kinds are tried by name
        stuff="sheet",
        material="plywood",
        area=length * 9,
        length=length,
        raw=True,
        painted=painted,
        why=WHY,
    )


def faced(sheet: Any) -> Plan:
    """The sound set, painted, with another sheet on its first flat."""
    first, second = WALL.flats
    pieces = tuple(replace(p, sheet=sheet) for p in first.pieces)
    return painted(made=plan(replace(WALL, flats=(replace(first, pieces=pieces), second))))
