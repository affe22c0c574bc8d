"""For every check a plan that it must find fault with, and one just inside its limit that it must let pass."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.unit.snags.case import Case
from tests.unit.snags.dressed_cases import DRESSED_CASES
from tests.unit.snags.made_up import (
    HEIGHT,
    PICTURE,
    RAIL,
    SCREW,
    SHEET,
    SIDE,
    SITTER,
    TIMBER,
    WALL,
    WALL_BRIEF,
    block,
    brief,
    corner,
    flat,
    frame,
    member,
    opening,
    piece,
    plan,
    room,
    seam,
    stage,
    wall_of,
    wedge,
    weight,
)

from lathlight.carpentry import Rib
from lathlight.catalog import Catalog, load_catalog
from lathlight.layout import Pose
from lathlight.mouldings import CasedOpening, Moulding, Parting, PictureMiddle, TrimRules, TrimWall, plan_trim
from lathlight.plan import Plan
from lathlight.project import CornerBrief, CrewBrief, FlatLimitsBrief, Load, Project, SawBrief, TrimLine
from lathlight.units import LengthStyle
from lathlight.working import Working

SECOND = flat("2", x0=1220, x1=2440)


def wished(style: str) -> Plan:
    """A plan whose corner of 150 degrees is made arris to arris, whatever the project file wishes."""
    wish = CornerBrief(
        left="back",
        right="side",
        angle=math.radians(150),
        style=style,  # pyright: ignore[reportArgumentType] -- the wishes are tried by name
        frame_laps="auto",
        sheet_laps="auto",
    )
    made = plan(WALL, SIDE, corners=(corner(style="arris", degrees=150, screws=None, wedge=wedge(30)),))
    return replace(made, brief=replace(made.brief, corners=(wish,)))


def one(*, studs: tuple[float, ...] = (591,), **more: object) -> Plan:
    """A plan whose first flat is changed."""
    parts: dict[str, object] = {"members": frame(0, 1220, studs=studs), **more}
    return plan(wall_of(flat("1", **parts), SECOND))


def own_rows(**rows: list[dict[str, object]]) -> Project:
    """The sound set's project with catalogue rows of its own."""
    made = brief().project
    return made.model_copy(update={"catalog": made.catalog.model_copy(update={k: tuple(v) for k, v in rows.items()})})


def with_catalogue(*, width: float) -> Plan:
    """A plan whose project enters a timber of this width and depth beside one called 2x2."""
    real = replace(TIMBER, name="2x2", nominal="2x2", width=38.1, depth=38.1)
    typed = replace(TIMBER, name="shed stock", nominal="", width=width, depth=width)
    catalog = Catalog(lumber={r.name: r for r in (TIMBER, real, typed)}, sheets={SHEET.name: SHEET})
    return plan(catalog=catalog, project=own_rows(lumber=[{"name": "shed stock"}]))


def door_flat(*, strap: float | None = 950.0, x: float = 300.0, header: bool = True, span: float = 600.0) -> Plan:
    """A plan whose first flat has a door."""
    hole = replace(opening("door", x=x, wide=span), strap=strap)
    head = (member("header", "hatch", x=x, z=2000, wide=span, high=38),) if header else ()
    made = flat("1", openings=(hole,), members=(*frame(0, 1220), *head), pieces=())
    return plan(wall_of(made, SECOND))


def longer_wall(*, length: float) -> Plan:
    """One straight wall of some length."""
    return plan(replace(WALL, length=length), pose=Pose(x=2400, y=3600, turn=0.0))


def walls_of_sheets(one_sheet: float, other: float, *, style: str) -> Plan:
    """Two walls that meet at 90 degrees, faced with sheets of these thicknesses."""
    thick = tuple(replace(p, sheet=replace(SHEET, thickness=other)) for p in SIDE.flats[0].pieces)
    thin = tuple(
        replace(f, pieces=tuple(replace(p, sheet=replace(SHEET, thickness=one_sheet)) for p in f.pieces))
        for f in WALL.flats
    )
    back, side = replace(WALL, flats=thin), replace(SIDE, flats=(replace(SIDE.flats[0], pieces=thick),))
    held = corner(style=style, wedge=None if style == "lap" else wedge(90))
    return plan(back, side, corners=(held,))


def arch(*, ribbed: bool) -> Plan:
    """A plan whose first flat has a pointed arch: two straight slopes of 500 mm, with or without ribs behind them."""
    hole = replace(opening("arch", x=310, z=0.0), rise=400.0, radius=312.5)
    point = ((310.0, 0.0), (910.0, 0.0), (910.0, 1600.0), (610.0, 2000.0), (310.0, 1600.0))
    sides = (
        ("left", ((310.0, 1600.0), (610.0, 2000.0), (310.0, 2000.0))),
        ("right", ((610.0, 2000.0), (910.0, 1600.0), (910.0, 2000.0))),
    )
    ribs = tuple(
        Rib(id=f"back/hatch/rib/{side}", side=side, sheet=SHEET, layers=2, outline=outline, behind=9)  # pyright: ignore[reportArgumentType]
        for side, outline in sides
    )
    made = flat("1", openings=(replace(hole, ribs=ribs if ribbed else ()),), pieces=(piece(0, 1220, holes=(point,)),))
    return plan(wall_of(made, SECOND))


def edge_at(x: float) -> Plan:
    """A plan whose first sheet ends at x, in front of an end stud from 1182 to 1220."""
    return one(pieces=(piece(0, x),))


def screwed(length: float) -> Plan:
    """A corner held by screws of this length: through 38 mm into 63 mm."""
    screws = corner().screws
    assert screws is not None
    held = corner(screws=replace(screws, screw=replace(SCREW, length=length)))
    return plan(WALL, SIDE, corners=(held,))


def many(count: int) -> Plan:
    """A wall of so many flats; their own sizes do not matter here."""
    flats = tuple(flat(str(i + 1), x0=i * 1220, x1=(i + 1) * 1220) for i in range(count))
    return plan(wall_of(*flats))


def crew(people: int, kg: float) -> Plan:
    """A flat of this weight and a crew who lift 20 kg each."""
    return plan(wall_of(flat("1", weight=weight(kg)), SECOND), crew=CrewBrief(people=people, lift_per_person=20))


def limited(width: float, *, assumed: bool = False) -> Plan:
    """A set under a limit of width."""
    why = {"max_width": Working(formula="made up")} if assumed else {}
    return plan(limits=FlatLimitsBrief(max_width=width, max_height=2500, max_weight=30, assumed=why))


def hung(along: float, *, height: float = 1500) -> Plan:
    """Something heavy on wall back, fixed at this height; the nearest timber is the stud from 591 to 629."""
    load = Load(name="looking-glass", along=along, width=400, height=height, mass=6)
    return plan(walls=(replace(WALL_BRIEF, loads=(load,)),))


def railed(*, loose: bool, gap: float = 610.0) -> Plan:
    """A rail over flats whose first has one stud, placed so that the widest bay is gap."""
    made = flat("1", members=frame(0, 1220, studs=(gap,)))  # end stud's centre at 19, stud's at gap + 19
    return plan(wall_of(made, SECOND), walls=(replace(WALL_BRIEF, trim=(replace(RAIL, loose=loose),)),))


PROFILES = load_catalog().profiles
RULES = TrimRules(grid=LengthStyle.metric())
CHAIR_RAIL = Moulding(name="rail", kind="rail", profile=PROFILES["rail 57"], top=900.0, spring=None)  # 20 mm thick
BASE = Moulding(name="base", kind="base", profile=PROFILES["base 95"], top=95.0, spring=None)  # 15 mm thick
UNCOPED = replace(CHAIR_RAIL, profile=PROFILES["picture rail 44"])  # has an undercut that no cope follows
STUB = replace(CHAIR_RAIL, profile=replace(PROFILES["rail 57"], lengths=(90.0,)))
CASED = CasedOpening(name="hatch", left=600, width=800, sill=0, height=2000, reveal=5, casing=57, thickness=16)
MIDDLE = PictureMiddle(picture="straight on", at=1220.0, clear=400.0)


def trimmed(line: Moulding, *, rules: TrimRules = RULES, **more: object) -> Plan:
    """The sound set with one line of trim along its wall."""
    wall = TrimWall(name="back", length=2440.0, height=HEIGHT, lines=(line,))
    return replace(plan(), trim=plan_trim((replace(wall, **more),), corners=(), rules=rules))


def wedged(wide: float) -> Plan:
    """A plan whose loose wedge takes a rectangle so wide and 20 mm deep."""
    strip = replace(wedge(30), outline=((0, 0), (wide, 0), (wide, 20), (0, 20)), wide=wide)
    return plan(WALL, SIDE, corners=(corner(style="arris", degrees=150, screws=None, wedge=strip),))


def trimmed_corner(line: Moulding, other: Moulding | None = None, *, degrees: float = 90.0) -> Plan:
    """Two walls with a line of trim each, the same where no other is given."""
    back = TrimWall(name="back", length=2440.0, height=HEIGHT, lines=(line,))
    side = TrimWall(name="side", length=1220.0, height=HEIGHT, lines=(other or line,))
    trim = plan_trim((back, side), corners=(math.radians(degrees),), rules=RULES)
    return replace(plan(WALL, SIDE, corners=(corner(),)), trim=trim)


def parted(at: float, *, upright: bool = True) -> tuple[Parting, ...]:
    """One joint of flats at this place along the wall, or at this height."""
    return (Parting(upright=upright, at=at, low=0.0, high=HEIGHT),)


def lined(*lines: TrimLine) -> Plan:
    """The sound set with these lines asked for; what is cut for them does not matter here."""
    return plan(walls=(replace(WALL_BRIEF, trim=lines),))


def topped(cornice: float) -> Plan:
    """A base 95 mm high under a cornice that covers so much of the wall."""
    return lined(
        TrimLine(name="base", kind="base", profile="base 95", top=95, bottom=0, loose=False),
        TrimLine(name="cornice", kind="cornice", profile="any", top=HEIGHT, bottom=HEIGHT - cornice, loose=False),
    )


def in_picture(at: float) -> Plan:
    """A seam at this place along a wall whose middle, at 1220, lies behind the sitter."""
    return plan(replace(WALL, seams=(seam(at),)), pictures=(PICTURE,), sitters=(SITTER,))


def in_room(**more: object) -> Plan:
    """The sound set in another room."""
    return plan(room=room(**more))


def standing_at(x: float, y: float) -> Plan:
    """The sound set at another place: its wall reaches 1220 to either side and 72 mm back."""
    return plan(pose=Pose(x=x, y=y, turn=0.0))


def high(height: float) -> Plan:
    """The sound set with a wall said to be this high, in a room 2600 high."""
    return plan(replace(WALL, height=height))


def sheeted(**more: object) -> Plan:
    """A plan whose first sheet is changed."""
    return one(pieces=(piece(0, 1220, **more),))


def wide_sheet(width: float, length: float) -> Plan:
    """A plan whose second flat is faced with a sheet of this size."""
    other = replace(SHEET, name="other ply", width=width, length=length)
    pieces = tuple(replace(p, sheet=other) for p in SECOND.pieces)
    return plan(wall_of(flat("1"), replace(SECOND, pieces=pieces)))


def notched(x: float) -> Plan:
    """A sheet cut out from x to its right edge, from the floor up to 2000."""
    outline = ((0.0, 0.0), (x, 0.0), (x, 2000.0), (1220.0, 2000.0), (1220.0, HEIGHT), (0.0, HEIGHT))
    return sheeted(outline=outline)


def sized(second: float) -> Plan:
    """Three flats 1220, second and 900 wide."""
    return plan(wall_of(flat("1"), flat("2", x0=1220, x1=1220 + second), flat("3", x0=1220 + second, x1=2120 + second)))


CASES = (
    Case(
        check="set-larger-than-room",
        wrong=standing_at(1100, 3600),
        place="back",
        figure=120,
        right=standing_at(1220, 3600),
    ),
    Case(
        check="set-through-pillar",
        wrong=in_room(pillars=(block(1000, 3500, 1300, 3640),)),
        place="back/post",
        figure=40,
        right=in_room(pillars=(block(1000, 3300, 1300, 3600),)),
    ),
    Case(check="wall-over-ceiling", wrong=high(2581), place="back", figure=2581, right=high(2580)),
    Case(
        check="over-keep-clear",
        wrong=in_room(keep_clear=(block(0, 3590, 1300, 4200, "fuse box"),)),
        place="back/fuse box",
        figure=82,
        right=in_room(keep_clear=(block(0, 3700, 1300, 4200, "fuse box"),)),
    ),
    Case(
        check="exit-narrowed",
        wrong=standing_at(2400, 1100),
        place="shed door",
        figure=1100,
        right=standing_at(2400, 1200),
    ),
    Case(
        check="no-access-behind",
        wrong=standing_at(2400, 3700),
        place="back",
        figure=428,
        right=standing_at(2400, 3678),
    ),
    Case(
        check="passes-no-door",
        wrong=in_room(way_in=(stage("door", wide=500, high=1000),)),
        place="back/1",
        figure=1220,
        right=in_room(way_in=(stage("door", wide=500, high=1235),)),
    ),
    Case(
        check="cannot-tilt-up",
        wrong=in_room(ceiling=2420),
        place="back/1",
        figure=math.hypot(2400, 72),
        right=in_room(ceiling=2422),
    ),
    Case(
        check="more-than-one-load",
        wrong=in_room(way_in=(stage("vehicle", wide=143),)),
        place="vehicle",
        figure=144,
        right=in_room(way_in=(stage("vehicle", wide=144),)),
    ),
    Case(
        check="leans-through-door",
        wrong=in_room(way_in=(stage("door", wide=500, high=1234),)),
        place="back/1",
        figure=1220,
        right=in_room(way_in=(stage("door", wide=500, high=1235),)),
    ),
    Case(check="way-in-not-stated", wrong=in_room(doors=()), place="set", figure=0, right=plan()),
    Case(check="free-sheet-edge", wrong=edge_at(1191), place="back/1/sheet/1-1", figure=9, right=edge_at(1192)),
    Case(check="thin-bearing", wrong=edge_at(1197), place="back/1/sheet/1-1", figure=15, right=edge_at(1198)),
    Case(
        check="free-curved-edge",
        wrong=arch(ribbed=False),
        place="back/1/sheet/1-1",
        figure=1000,
        right=arch(ribbed=True),
    ),
    Case(check="load-without-backing", wrong=hung(650), place="back/looking-glass", figure=21, right=hung(649)),
    Case(
        check="slender-framing",
        wrong=one(members=(member("stud", "1", x=0, z=0, wide=38, high=63 * 81),)),
        place="back/1",
        figure=81,
        right=one(members=(member("stud", "1", x=0, z=0, wide=38, high=63 * 80),)),
    ),
    Case(
        check="slender-header",
        wrong=door_flat(span=38 * 41),
        place="back/1/header/hatch",
        figure=41,
        right=door_flat(span=38 * 40),
    ),
    Case(
        check="sheet-too-thin",
        wrong=one(studs=(612,)),  # as far from the left end stud, centre to centre
        place="back/1",
        figure=612,
        right=one(studs=(611,)),  # the rounding to whole millimetres is forgiven
    ),
    Case(check="opening-near-end", wrong=door_flat(x=75), place="back/hatch", figure=75, right=door_flat(x=76)),
    Case(
        check="opening-without-header",
        wrong=door_flat(header=False),
        place="back/hatch",
        figure=HEIGHT - 38 - 2000,
        right=door_flat(),
    ),
    Case(check="door-without-strap", wrong=door_flat(strap=None), place="back/hatch", figure=0, right=door_flat()),
    Case(
        check="trim-without-backing",
        wrong=railed(loose=True, gap=612),
        place="back/rail",
        figure=612,
        right=railed(loose=True, gap=610),
    ),
    Case(
        check="trim-lines-miss",
        wrong=trimmed_corner(CHAIR_RAIL, replace(CHAIR_RAIL, top=899.0)),
        place="back/rail",
        figure=1,
        right=trimmed_corner(CHAIR_RAIL),
    ),
    Case(
        check="trim-crosses-joint",
        wrong=trimmed(CHAIR_RAIL, partings=parted(1220)),
        place="back/rail",
        figure=1,
        right=trimmed(replace(CHAIR_RAIL, loose=True), partings=parted(1220)),
    ),
    Case(
        check="trim-joint-in-picture",
        wrong=trimmed(CHAIR_RAIL, partings=parted(1220 + 399), middles=(MIDDLE,)),
        place="back/rail",
        figure=399,
        right=trimmed(CHAIR_RAIL, partings=parted(1220 + 400), middles=(MIDDLE,)),
    ),
    Case(
        check="mitre-beyond-saw",
        wrong=trimmed_corner(CHAIR_RAIL, degrees=79),  # a mitre halves the corner: 90 - 79/2
        place="back/rail",
        figure=math.radians(50.5),
        right=trimmed_corner(CHAIR_RAIL, degrees=80),
    ),
    Case(
        check="cope-impossible",
        wrong=trimmed_corner(UNCOPED, degrees=79),
        place="back/rail",
        figure=1,
        right=trimmed_corner(CHAIR_RAIL, degrees=79),
    ),
    Case(
        check="base-short-of-gap",
        wrong=trimmed(BASE, rules=replace(RULES, floor_gap=15.0)),
        place="back/base",
        figure=15,
        right=trimmed(BASE, rules=replace(RULES, floor_gap=14.9)),
    ),
    Case(
        check="base-off-floor",
        wrong=trimmed(replace(BASE, top=96.0)),
        place="back/base",
        figure=1,
        right=trimmed(BASE),
    ),
    Case(
        check="trim-thicker-than-casing",
        wrong=trimmed(CHAIR_RAIL, openings=(replace(CASED, thickness=19.9),)),
        place="back/rail",
        figure=20,
        right=trimmed(CHAIR_RAIL, openings=(replace(CASED, thickness=20.0),)),
    ),
    Case(
        check="trim-longer-than-stock",
        wrong=trimmed_corner(STUB, degrees=300),  # the outside mitre adds 20 tan 60
        place="back/rail",
        figure=2440 + 20 * math.sqrt(3),
        right=trimmed_corner(STUB),
    ),
    Case(
        check="no-room-for-trim",
        wrong=trimmed(CHAIR_RAIL, openings=(replace(CASED, left=39, casing=0, thickness=0),)),
        place="back/rail",
        figure=39,  # two returns of 20 mm
        right=trimmed(CHAIR_RAIL, openings=(replace(CASED, left=41, casing=0, thickness=0),)),
    ),
    Case(
        check="trim-sliver",
        wrong=trimmed(CHAIR_RAIL, openings=(replace(CASED, left=59, casing=0, thickness=0),)),
        place="back/rail",
        figure=59,
        right=trimmed(CHAIR_RAIL, openings=(replace(CASED, left=60, casing=0, thickness=0),)),  # three times 20 mm
    ),
    Case(
        check="high-dado",
        wrong=lined(replace(RAIL, top=802, bottom=745)),
        place="back/rail",
        figure=802,
        right=lined(replace(RAIL, top=801, bottom=744)),  # the rounding to whole millimetres is forgiven
    ),
    Case(check="heavy-cornice", wrong=topped(96), place="back/cornice", figure=96, right=topped(95)),
    Case(
        check="longer-than-stock",
        wrong=one(members=(member("stud", "1", x=0, z=0, wide=38, high=3001),)),
        place="back/1/stud/1",
        figure=3001,
        right=one(members=(member("stud", "1", x=0, z=0, wide=38, high=3000),)),
    ),
    Case(
        check="larger-than-sheet",
        wrong=sheeted(height=2441.0),
        place="back/1/sheet/1-1",
        figure=2441,
        right=sheeted(height=2440.0),
    ),
    Case(
        check="nominal-as-actual",
        wrong=with_catalogue(width=50.8),
        place="shed stock",
        figure=50.8,
        right=with_catalogue(width=44),
    ),
    Case(
        check="wedge-wider-than-framing",
        wrong=wedged(64),
        place="back|side/wedge",
        figure=64,
        right=wedged(63),
    ),
    Case(
        check="no-kerf",
        wrong=plan(saw=SawBrief(kerf=0, trim_cut=0, spare_boards=True)),
        place="set",
        figure=0,
        right=plan(),
    ),
    Case(check="thin-leg", wrong=notched(59), place="back/1/sheet/1-1", figure=59, right=notched(60)),
    Case(
        check="grain-turned",
        wrong=sheeted(turned=True),
        place="back/1/sheet/1-1",
        figure=math.pi / 2,
        right=sheeted(turned=True, sheet=replace(SHEET, grain=False)),
    ),
    Case(
        check="bevel-past-saw",
        wrong=sheeted(bevel_left=9.5),
        place="back/1/sheet/1-1",
        figure=math.atan2(9.5, 9),
        right=sheeted(bevel_left=9.0),
    ),
    Case(
        check="narrow-strip",
        wrong=sheeted(width=149.0),
        place="back/1/sheet/1-1",
        figure=149,
        right=sheeted(width=150.0),
    ),
    Case(
        check="just-over-whole-sheets",
        wrong=plan(wall_of(flat("1", x0=0, x1=1220), flat("2", x0=1220, x1=2489))),
        place="back",
        figure=49,
        right=plan(wall_of(flat("1", x0=0, x1=1220), flat("2", x0=1220, x1=2490))),
    ),
    Case(
        check="no-spare-board",
        wrong=plan(saw=SawBrief(kerf=3, trim_cut=0, spare_boards=False)),
        place="set",
        figure=0,
        right=plan(),
    ),
    # the sitter stands 1200 in front; the camera 85 (1 + 900/36) = 2210 further off: 1 / (3410 / 2210)
    Case(
        check="seam-on-axis",
        wrong=in_picture(1220 + 185),
        place="back/seam 1",
        figure=185 * 2210 / 3410,
        right=in_picture(1220 + 186),
    ),
    Case(
        check="sheets-differ-flush",
        wrong=walls_of_sheets(9, 9.4, style="arris"),
        place="back|side",
        figure=0.4,
        right=walls_of_sheets(9, 9.4, style="lap"),
    ),
    Case(
        check="open-level-seam",
        wrong=plan(replace(WALL, seams=(seam(1500, upright=False, high=2440),))),
        place="back",
        figure=2440,
        right=plan(replace(WALL, seams=(seam(1500, upright=False, high=2440, covered_by="rail"),))),
    ),
    Case(
        check="mixed-sheet-modules",
        wrong=wide_sheet(1219.2, 2438.4),
        place="other ply|ply 9 mm",
        figure=1.6,
        right=wide_sheet(1220, 3050),
    ),
    Case(
        check="corner-not-held",
        wrong=plan(WALL, SIDE, corners=(corner(screws=None),)),
        place="back|side",
        figure=0,
        right=plan(WALL, SIDE, corners=(corner(screws=None, wedge=wedge(45)),)),
    ),
    Case(
        check="corner-style-changed",
        wrong=wished("lap"),
        place="back|side",
        figure=math.radians(150),
        right=wished("auto"),
    ),
    Case(check="corner-screw-length", wrong=screwed(57), place="back|side", figure=57, right=screwed(58)),
    Case(check="many-flats-add-up", wrong=many(5), place="back", figure=7.5, right=many(4)),
    Case(check="distinct-flat-sizes", wrong=sized(1000), place="set", figure=3, right=sized(1220)),
    Case(check="flat-too-heavy", wrong=crew(2, 26.7), place="back/1", figure=26.7, right=crew(2, 26.6)),
    Case(
        check="flat-over-limit",
        wrong=limited(1219),
        place="back/1",
        figure=1220,
        right=limited(1220),
    ),
    Case(
        check="heavy-sheet",
        wrong=sheeted(sheet=replace(SHEET, name="ply 12 mm", thickness=12.3)),
        place="ply 12 mm",
        figure=1.220 * 2.440 * 0.0123 * 550,
        right=sheeted(sheet=replace(SHEET, name="ply 12 mm", thickness=12.2)),
    ),
    Case(
        check="no-hand-holds",
        wrong=plan(wall_of(flat("1", weight=weight(15.1)), SECOND)),
        place="set",
        figure=15.1,
        right=plan(wall_of(flat("1", weight=weight(15.0)), SECOND)),
    ),
    Case(
        check="long-wall-no-return",
        wrong=longer_wall(length=4801),
        place="back",
        figure=4801 / 2400,
        right=longer_wall(length=4800),
    ),
    Case(check="tall-wall", wrong=high(2501), place="set", figure=2501, right=high(2500)),
    *DRESSED_CASES,
)
