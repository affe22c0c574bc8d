"""Sets made up for the views: briefs without a project file, and the plans that follow. The figures are invented."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from tests.unit.project.made_up import plain

from lathlight.catalog.rows import Bracket, Catalog, Fastener, Lumber, Profile, Sheet
from lathlight.plan import Plan, derive
from lathlight.project import Project, parse_project
from lathlight.project.brief import (
    Brief,
    ClearArea,
    CornerBrief,
    CrewBrief,
    DoorBrief,
    FlatLimitsBrief,
    Hardware,
    OpeningBrief,
    Passage,
    PictureBrief,
    PlaceBrief,
    RoomBrief,
    SawBrief,
    SitterBrief,
    TitleBrief,
    TrimLine,
    WallBrief,
)
from lathlight.units import LengthStyle

PLATE = Bracket(name="plate", kind="corner plate", width=200, height=200, thickness=6, mass=0.1, source="invented")
STRAP = Bracket(name="strap", kind="sill strap", width=25, height=3, thickness=3, mass=0.5, source="invented")
SCREW = Fastener(name="5 x 80", kind="screw", diameter=5, length=80, box=100, source="invented")
SHORT_SCREW = Fastener(name="4 x 50", kind="screw", diameter=4, length=50, box=200, source="invented")
METRIC_TIMBER = Lumber(
    name="38x63",
    nominal="CLS 3x2",
    system="metric",
    width=38,
    depth=63,
    lengths=(2400, 3000),
    density=450,
    modulus=8000,
    source="invented",
)
METRIC_SHEET = Sheet(
    name="ply 9 mm",
    material="plywood",
    width=1220,
    length=2440,
    thickness=9,
    nominal="9 mm",
    density=550,
    stud_spacing=610,
    grain=True,
    source="invented",
)
US_TIMBER = replace(METRIC_TIMBER, name="2x2", nominal="2x2", system="us", width=38.1, depth=38.1, lengths=(2438.4,))
US_SHEET = replace(
    METRIC_SHEET,
    name="ply 3-8 in",
    width=1219.2,
    length=2438.4,
    thickness=8.73125,
    nominal="3/8 in",
    stud_spacing=609.6,
)


@dataclass(frozen=True, kw_only=True)
class Hole:
    """An opening wanted in a wall; clear sizes [mm]."""

    name: str
    kind: Literal["door", "window", "arch"]
    left: float
    width: float
    height: float
    sill: float = 0.0
    rise: float = 0.0
    lining: float = 0.0


@dataclass(frozen=True, kw_only=True)
class WallWish:
    """A wall wanted."""

    name: str
    length: float
    height: float = 2400.0
    holes: tuple[Hole, ...] = ()
    trim: tuple[TrimLine, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Wish:
    """A whole set wanted."""

    walls: tuple[WallWish, ...]
    angles: tuple[float, ...]  # inside angles [rad]
    style: LengthStyle = field(default_factory=LengthStyle.metric)
    timber: Lumber = METRIC_TIMBER
    sheet: Sheet = METRIC_SHEET
    paper: Literal["A4", "A3", "Letter", "Tabloid"] = "A4"
    room: tuple[float, float] = (4800.0, 4200.0)
    title: str = "Shelves corner"


def _rectangle(x0: float, z0: float, x1: float, z1: float) -> tuple[tuple[float, float], ...]:
    return (x0, z0), (x1, z0), (x1, z1), (x0, z1)


def _project(wish: Wish) -> Project:
    """Return the least project file of these walls, for what reads the file's own tables."""
    corners = [*(f'angle_to_next = "{math.degrees(angle):.6f} deg"\n' for angle in wish.angles), ""]
    walls = "".join(
        f'[[walls]]\nname = "{wall.name}"\nlength = "{wall.length} mm"\nheight = "{wall.height} mm"\n{corner}'
        for wall, corner in zip(wish.walls, corners, strict=True)
    )
    text = f"""
[project]
title = "{wish.title}"
units = "{wish.style.system}"
[room]
width = "{wish.room[0]} mm"
depth = "{wish.room[1]} mm"
ceiling = "2500 mm"
{walls}
[[trim]]
name = "base"
kind = "base"
profile = "base"
[[trim]]
name = "rail"
kind = "rail"
profile = "rail"
height = "930 mm"
"""
    return parse_project(text, name="made-up.toml")


def _profile(name: str, high: float) -> Profile:
    return Profile(
        name=name,
        kind=name,
        points=((0.0, 0.0), (15.0, 0.0), (15.0, high), (0.0, high)),
        spring=None,
        lengths=(2400.0, 4800.0),
        density=500.0,
        coping=True,
        source="made up",
    )


def make_brief(wish: Wish) -> Brief:
    """Return the brief of a set wanted, in an invented shed."""
    wide, deep = wish.room
    sitter = SitterBrief(name="potter", right=120, forward=1100, stature=1680, seated=False)
    picture = PictureBrief(
        name="at the wheel",
        sitter=sitter,
        angles=(math.radians(-15), math.radians(20)),
        lens=(70, 85),
        sensor=(24, 36),
        frame_height=1100,
        frame_top=1780,
        camera_height=(1300, 1500),
    )
    return Brief(
        title=TitleBrief(title=wish.title, date=None, revision="A", paper=wish.paper, currency="EUR", notes=""),
        style=wish.style,
        room=RoomBrief(
            outline=((0, 0), (wide, 0), (wide, deep), (0, deep)),
            ceiling=2500,
            doors=(
                DoorBrief(
                    name="yard door", clear_width=830, clear_height=2000, a=(400, 0), b=(1230, 0), run_inside=deep
                ),
            ),
            pillars=(ClearArea(name="post", outline=_rectangle(wide - 300, 300, wide - 100, 500), why="a pillar"),),
            keep_clear=(
                ClearArea(
                    name="fuse board", outline=_rectangle(0, 1500, 600, 2400), why="kept free for the fuse board"
                ),
            ),
            way_in=(
                Passage(
                    name="yard door",
                    kind="door",
                    clear_width=830,
                    clear_height=2000,
                    length=None,
                    next_width=None,
                    turn_angle=math.pi / 2,
                    slope=0,
                ),
            ),
        ),
        place=PlaceBrief(at=None, turn=0, clear_behind=450),
        walls=tuple(
            WallBrief(
                name=wall.name,
                length=wall.length,
                height=wall.height,
                sheet=wish.sheet,
                framing=wish.timber,
                stud_spacing=wish.sheet.stud_spacing,
                openings=tuple(
                    OpeningBrief(
                        name=hole.name,
                        kind=hole.kind,
                        left=hole.left,
                        width=hole.width,
                        height=hole.height,
                        sill=hole.sill,
                        rise=hole.rise,
                        lining=hole.lining,
                        lining_depth=70,
                        gap=0,
                        reveal=0,
                        casing=None,
                    )
                    for hole in wall.holes
                ),
                trim=wall.trim,
                loads=(),
                assumed={},
            )
            for wall in wish.walls
        ),
        corners=tuple(
            CornerBrief(
                left=wish.walls[k].name,
                right=wish.walls[k + 1].name,
                angle=angle,
                style="auto",
                frame_laps="auto",
                sheet_laps="auto",
            )
            for k, angle in enumerate(wish.angles)
        ),
        limits=FlatLimitsBrief(max_width=math.inf, max_height=math.inf, max_weight=50, assumed={}),
        crew=CrewBrief(people=2, lift_per_person=25),
        saw=SawBrief(kerf=3, trim_cut=0, spare_boards=True),
        hardware=Hardware(corner_plate=PLATE, sill_strap=STRAP, corner_screw=SCREW, frame_screw=SHORT_SCREW),
        **plain(wish.style.system),
        pictures=(picture,),
        sitters=(sitter,),
        catalog=Catalog(profiles={name: _profile(name, high) for name, high in (("base", 120.0), ("rail", 50.0))}),
        project=_project(wish),
    )


def make_plan(wish: Wish) -> Plan:
    """Return the plan of a set wanted."""
    return derive(make_brief(wish))


RAIL = TrimLine(name="rail", kind="rail", profile="rail", top=930, bottom=880, loose=False)
BASE = TrimLine(name="base", kind="base", profile="base", top=120, bottom=0, loose=False)


def corner_wish(**changes: Any) -> Wish:
    """Two walls in a square corner; the first is two flats, one of them with a door."""
    wish = Wish(
        walls=(
            WallWish(
                name="left",
                length=2200,
                holes=(Hole(name="door", kind="door", left=1400, width=600, height=1950),),
                trim=(BASE, RAIL),
            ),
            WallWish(name="right", length=1200, trim=(BASE, RAIL)),
        ),
        angles=(math.pi / 2,),
    )
    return replace(wish, **changes)


def bay_wish(**changes: Any) -> Wish:
    """Three walls of a splayed bay with a window and an arch."""
    wish = Wish(
        walls=(
            WallWish(name="left return", length=1180, trim=(RAIL,)),
            WallWish(
                name="back",
                length=3000,
                holes=(Hole(name="window", kind="window", left=1400, width=800, height=900, sill=1000),),
                trim=(RAIL,),
            ),
            WallWish(
                name="right return",
                length=1200,
                holes=(Hole(name="arch", kind="arch", left=300, width=600, height=1900, rise=200),),
            ),
        ),
        angles=(math.radians(110), math.radians(110)),
        room=(6400, 5100),
        title="Puppet parlour",
    )
    return replace(wish, **changes)


def random_wish(seed: int) -> Wish:
    """Return a set of one to five walls with any angles, openings, papers and units; the same for the same seed."""
    dice = random.Random(seed)
    count = dice.randint(1, 5)
    walls = tuple(_random_wall(dice, k) for k in range(count))
    imperial = dice.random() < 0.4
    paper = dice.choice(("Letter", "Tabloid") if imperial else ("A4", "A3"))
    return Wish(
        walls=walls,
        angles=tuple(math.radians(dice.choice((75, 90, 90, 100, 110, 125, 140, 160))) for _ in range(count - 1)),
        style=LengthStyle.imperial() if imperial else LengthStyle.metric(),
        timber=US_TIMBER if imperial else METRIC_TIMBER,
        sheet=US_SHEET if imperial else METRIC_SHEET,
        paper=paper,
        room=(dice.uniform(5000, 14000), dice.uniform(5000, 12000)),
        title=f"Made-up set {seed}",
    )


def _random_wall(dice: random.Random, number: int) -> WallWish:
    length, height = float(dice.randint(700, 5200)), float(dice.randint(1900, 2900))
    holes: list[Hole] = []
    left = 150.0
    while left < length - 700 and dice.random() < 0.6:
        kind = dice.choice(("door", "window", "arch"))
        width = float(dice.randint(350, min(1000, int(length - left) - 250)))
        start = float(dice.randint(int(left), int(length - width) - 100))
        sill = float(dice.randint(400, 1000)) if kind == "window" else 0.0
        tall = float(dice.randint(600, int(height - sill) - 150))
        rise = float(dice.randint(80, int(min(width / 2, tall / 2)))) if kind == "arch" else 0.0
        holes.append(
            Hole(name=f"{kind} {len(holes) + 1}", kind=kind, left=start, width=width, height=tall, sill=sill, rise=rise)
        )
        left = start + width + 300
    trim = tuple(line for line in (BASE, RAIL) if dice.random() < 0.6)
    name = dice.choice(("back", "return", "window wall", "alcove of the old pantry")) + f" {number + 1}"
    return WallWish(name=name, length=length, height=height, holes=tuple(holes), trim=trim)
