"""Random walls, corners and whole briefs, all of which a carpenter could be asked to build."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from hypothesis import strategies as st
from tests.unit.project.made_up import plain

from lathlight.catalog import Catalog, load_catalog
from lathlight.project import (
    Brief,
    CornerBrief,
    CrewBrief,
    FlatLimitsBrief,
    Hardware,
    OpeningBrief,
    PlaceBrief,
    RoomBrief,
    SawBrief,
    SitterBrief,
    TitleBrief,
    TrimLine,
    WallBrief,
    parse_project,
)
from lathlight.units import LengthStyle, snap

if TYPE_CHECKING:
    from lathlight.catalog import Lumber, Sheet

CATALOG = load_catalog()
RAIL = CATALOG.profiles["rail 57"]
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
EMPTY_PROJECT = parse_project(
    '[project]\ntitle = "random"\nunits = "metric"\n[room]\nwidth = 9000\ndepth = 9000\nceiling = 3500\n'
    '[set]\nheight = 2400\n[[walls]]\nname = "only"\nlength = 1000\n',
    name="random.toml",
)
ROOM = RoomBrief(
    outline=((0.0, 0.0), (9000.0, 0.0), (9000.0, 9000.0), (0.0, 9000.0)),
    ceiling=3500.0,
    doors=(),
    pillars=(),
    keep_clear=(),
    way_in=(),
)


def sheets(style: LengthStyle) -> list[Sheet]:
    """Return the catalogue's sheets of one system, by name."""
    inches = style.system == "imperial"
    return [CATALOG.sheets[name] for name in sorted(CATALOG.sheets) if name.endswith(" in") == inches]


def timbers(style: LengthStyle) -> list[Lumber]:
    """Return the catalogue's timber of one system, by name."""
    system = "us" if style.system == "imperial" else "metric"
    return [CATALOG.lumber[name] for name in sorted(CATALOG.lumber) if CATALOG.lumber[name].system == system]


def lengths(style: LengthStyle, low: float, high: float) -> st.SearchStrategy[float]:
    """Return lengths on the grid [mm]."""
    return st.integers(int(low), int(high)).map(lambda mm: snap(float(mm), style))


@st.composite
def openings(draw: st.DrawFn, style: LengthStyle, length: float, height: float) -> tuple[OpeningBrief, ...]:
    """Draw openings from left to right with piers between them."""
    found: list[OpeningBrief] = []
    x = draw(lengths(style, 250, 700))
    while x + 700 < length and draw(st.booleans()):
        width = draw(lengths(style, 300, min(1200, int(length - x) - 250)))
        kind = draw(st.sampled_from(("door", "window", "arch")))
        sill = draw(lengths(style, 250, 900)) if kind == "window" else 0.0
        tall = draw(lengths(style, 700, int(height - sill) - 250))
        found.append(
            OpeningBrief(
                name=f"opening {len(found) + 1}",
                kind=kind,
                left=x,
                width=width,
                height=tall,
                sill=sill,
                rise=min(width / 2, tall / 2) if kind == "arch" else 0.0,
                lining=draw(st.sampled_from((0.0, 12.0))),
                lining_depth=60.0,
                gap=3.0,
                reveal=5.0,
                casing=None,
            )
        )
        x = snap(x + width + draw(lengths(style, 300, 900)), style)
    return tuple(found)


@st.composite
def walls(draw: st.DrawFn, style: LengthStyle, name: str) -> WallBrief:
    """Draw one wall."""
    length, height = draw(lengths(style, 600, 5000)), draw(lengths(style, 1900, 3000))
    trim = TrimLine(name="rail", kind="rail", profile=RAIL.name, top=1000.0, bottom=940.0, loose=False)
    return WallBrief(
        name=name,
        length=length,
        height=height,
        sheet=draw(st.sampled_from(sheets(style))),
        framing=draw(st.sampled_from(timbers(style))),
        stud_spacing=draw(st.sampled_from((410.0, 610.0))),
        openings=draw(openings(style, length, height)),
        trim=draw(st.sampled_from(((), (trim,)))),
        loads=(),
        assumed={},
    )


@st.composite
def corners(draw: st.DrawFn, left: str, right: str) -> CornerBrief:
    """Draw one corner; half of them are square."""
    degrees = draw(st.one_of(st.just(90.0), st.floats(90, 179), st.floats(80, 100)))
    laps = st.sampled_from(("auto", "this", "next"))
    return CornerBrief(
        left=left,
        right=right,
        angle=math.radians(degrees),
        style=draw(st.sampled_from(("auto", "auto", "lap", "arris", "mitre"))),
        frame_laps=draw(laps),
        sheet_laps=draw(laps),
    )


def brief_of(
    *,
    style: LengthStyle,
    walls: tuple[WallBrief, ...],
    corners: tuple[CornerBrief, ...] = (),
    limits: FlatLimitsBrief | None = None,
    room: RoomBrief = ROOM,
    spare: bool = False,
) -> Brief:
    """Return a brief of walls with everything else at its plainest."""
    inches = style.system == "imperial"
    sitter = SitterBrief(name="sitter", right=0.0, forward=1500.0, stature=1750.0, seated=False)
    nothing = FlatLimitsBrief(max_width=math.inf, max_height=math.inf, max_weight=math.inf, assumed={})
    return Brief(
        title=TitleBrief(title="random", date=None, revision="A", paper="A4", currency="EUR", notes=""),
        style=style,
        room=room,
        place=PlaceBrief(at=None, turn=0.0, clear_behind=450.0),
        walls=walls,
        corners=corners,
        limits=limits if limits is not None else nothing,
        crew=CrewBrief(people=2, lift_per_person=25.0),
        saw=SawBrief(kerf=3.175 if inches else 3.0, trim_cut=0.0, spare_boards=spare),
        seams="save sheets",
        hardware=Hardware(
            corner_plate=CATALOG.brackets["corner plate 6 in" if inches else "corner plate 150"],
            sill_strap=CATALOG.brackets["sill strap 3-4 in" if inches else "sill strap 19x4"],
            corner_screw=CATALOG.fasteners["screw no 10 x 3 in" if inches else "screw 5x70"],
            frame_screw=CATALOG.fasteners["screw no 8 x 2 1-2 in" if inches else "screw 4x50"],
        ),
        **plain(style.system),
        pictures=(),
        sitters=(sitter,),
        catalog=Catalog(profiles={RAIL.name: RAIL}),
        project=EMPTY_PROJECT,
    )


@st.composite
def briefs(draw: st.DrawFn, most_walls: int = 3) -> Brief:
    """Draw a whole brief: one to three walls at any angles, with openings, limits, any timber and sheet."""
    style = draw(st.sampled_from((METRIC, IMPERIAL)))
    count = draw(st.integers(1, most_walls))
    names = [f"wall {i + 1}" for i in range(count)]
    limits = FlatLimitsBrief(
        max_width=draw(st.sampled_from((math.inf, 1300.0, 2000.0))),
        max_height=draw(st.sampled_from((math.inf, math.inf, 1500.0))),
        max_weight=draw(st.sampled_from((math.inf, 30.0))),
        assumed={},
    )
    return brief_of(
        style=style,
        walls=tuple(draw(walls(style, name)) for name in names),
        corners=tuple(draw(corners(a, b)) for a, b in itertools.pairwise(names)),
        limits=limits,
    )
