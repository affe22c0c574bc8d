"""Walls made up for marking out: a low one, and one of two storeys with a door and a cornice; figures are invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from lathlight.marking import MarkedFlat, MarkedFrame, MarkedLine, MarkedWall, MarkingJob
from lathlight.units import LengthStyle

RISE = 8.0  # [mm] the finished floor over the flats' foot


def line(name: str, top: float, *stretches: tuple[float, float], broad: float = 50.0, **changes: Any) -> MarkedLine:
    """Return a rail with its top so high above the finished floor."""
    rail = MarkedLine(
        name=name, kind="rail", top=top + RISE, bottom=top + RISE - broad, backing=None, stretches=stretches
    )
    return replace(rail, **changes)


def frame(wall: str, number: int, left: float, right: float) -> MarkedFrame:
    """Return a moulding frame from 300 to 700 above the finished floor."""
    return MarkedFrame(
        id=f"{wall}/panels/{number}", tier="panels", left=left, right=right, bottom=300.0 + RISE, top=700.0 + RISE
    )


LOW = MarkedWall(
    name="low",
    length=1200.0,
    height=1800.0,
    flats=(MarkedFlat(id="low/1", mark="L1", left=0.0, right=1200.0, foot=0.0, top=1800.0),),
    lines=(line("base", 120.0, (0.0, 1200.0), broad=120.0, kind="base"), line("rail", 900.0, (0.0, 1200.0))),
    frames=(frame("low", 1, 100.0, 1100.0),),
)
BACK = MarkedWall(
    name="back",
    length=2400.0,
    height=2600.0,
    flats=(
        MarkedFlat(id="back/1", mark="B1", left=-9.0, right=1220.0, foot=0.0, top=2000.0),
        MarkedFlat(id="back/2", mark="B2", left=1220.0, right=2400.0, foot=0.0, top=2000.0),
        MarkedFlat(id="back/3", mark="B3", left=0.0, right=2400.0, foot=2000.0, top=2600.0),
    ),
    lines=(
        line("base", 120.0, (0.0, 1500.0), (2200.0, 2400.0), broad=120.0, kind="base"),
        line("rail", 900.0, (0.0, 1500.0), (2200.0, 2400.0)),
        line("picture rail", 2100.0, (0.0, 2400.0), kind="picture rail"),
        MarkedLine(name="crown", kind="cornice", top=2600.0, bottom=2530.0, backing=2545.0, stretches=((0.0, 2400.0),)),
    ),
    frames=(frame("back", 1, 100.0, 700.0), frame("back", 2, 800.0, 1400.0)),
    sills=(1950.0,),
)


def job(*walls: MarkedWall, grid: LengthStyle | None = None) -> MarkingJob:
    """Return what marking out depends on; both walls where none is given."""
    return MarkingJob(walls=walls or (LOW, BACK), rise=RISE, grid=grid or LengthStyle.metric())


def mirrored(wall: MarkedWall) -> MarkedWall:
    """Return a wall seen in a mirror; flats and frames keep their names."""

    def turned(stretches: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple(sorted((wall.length - b, wall.length - a) for a, b in stretches))

    def swapped(each: Any) -> Any:
        return replace(each, left=wall.length - each.right, right=wall.length - each.left)

    return replace(
        wall,
        flats=tuple(swapped(each) for each in wall.flats),
        frames=tuple(swapped(each) for each in wall.frames),
        lines=tuple(replace(each, stretches=turned(each.stretches)) for each in wall.lines),
    )
