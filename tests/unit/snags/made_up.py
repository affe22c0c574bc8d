"""A small sound set put together by hand, so that each check is tried without the carpentry.

One wall of two flats in a room with a door: every check lets it pass. Variations by ``dataclasses.replace``. The
figures are invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tests.unit.project.made_up import plain

from lathlight.carpentry import (
    BuiltWall,
    Corner,
    CornerScrews,
    Flat,
    FramedOpening,
    Joint,
    Member,
    Seam,
    SheetPiece,
    Wedge,
    free_end,
)
from lathlight.catalog import Bracket, Catalog, Fastener, Lumber, Sheet
from lathlight.fixing import FixingPlan
from lathlight.geometry import area, rectangle
from lathlight.layout import Layout, Pose, lay_out_walls
from lathlight.passage import flat_passage
from lathlight.plan import Plan, Sawing
from lathlight.project import (
    Brief,
    ClearArea,
    CrewBrief,
    DoorBrief,
    FlatLimitsBrief,
    Hardware,
    Passage,
    PictureBrief,
    PlaceBrief,
    Project,
    RoomBrief,
    SawBrief,
    SitterBrief,
    TitleBrief,
    TrimLine,
    WallBrief,
)
from lathlight.snags import Snag, find_snags
from lathlight.units import LengthStyle
from lathlight.working import Quantity, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import Role

WHY = Working(formula="made up for a test")
TIMBER = Lumber(
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
SHEET = Sheet(
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
PLATE = Bracket(name="plate", kind="corner plate", width=200, height=200, thickness=6, mass=0.1, source="invented")
STRAP = Bracket(name="strap", kind="sill strap", width=25, height=3, thickness=3, mass=0.5, source="invented")
SCREW = Fastener(name="5 x 80", kind="screw", diameter=5, length=80, box=100, source="invented")
DOOR = DoorBrief(name="shed door", clear_width=930, clear_height=2050, a=(600, 0), b=(1530, 0), run_inside=4200)
ROOM = RoomBrief(
    outline=((0, 0), (4800, 0), (4800, 4200), (0, 4200)),
    ceiling=2600,
    doors=(DOOR,),
    pillars=(),
    keep_clear=(),
    way_in=(),
)
UNFIXED = FixingPlan(
    sheets=(),
    strips=(),
    joints=(),
    corners=(),
    bumpers=(),
    rounds=(),
    busiest=None,
    glues=(),
    hardware=(),
    takeoff=(),
    findings=(),
    why_rounds=WHY,
)
HEIGHT = 2400.0
SITTER = SitterBrief(name="potter", right=0, forward=1200, stature=1700, seated=False)
PICTURE = PictureBrief(
    name="straight on",
    sitter=SITTER,
    angles=(0.0, 0.0),
    lens=(85.0, 85.0),
    sensor=(24.0, 36.0),
    frame_height=900.0,
    frame_top=1800.0,
    camera_height=(1500.0, 1500.0),
)
RAIL = TrimLine(name="rail", kind="rail", profile="rail 57", top=900, bottom=843, loose=True)


def member(role: Role, place: str, **box: float) -> Member:
    """A member of flat back/1 from its box: x, z, wide, high."""
    upright = role not in ("bottom plate", "top plate", "header", "sill", "noggin", "seam noggin", "backing")
    return Member(
        id=f"back/1/{role}/{place}",
        wall="back",
        flat="1",
        role=role,
        mark="A",
        stock=TIMBER,
        upright=upright,
        laid_flat=False,
        x=box["x"],
        z=box["z"],
        behind=SHEET.thickness,
        wide=box["wide"],
        high=box["high"],
        deep=TIMBER.depth,
        length=box["high"] if upright else box["wide"],
        ends=(0.0, 0.0),
        ripped=False,
        may_be_offcut=False,
        straightest=False,
        section=None,
        why=WHY,
    )


def frame(x0: float, x1: float, *, studs: Sequence[float] = (), height: float = HEIGHT) -> tuple[Member, ...]:
    """Plates through, end studs, and studs by their left edges."""
    low, high = TIMBER.width, height - 2 * TIMBER.width
    return (
        member("bottom plate", "1", x=x0, z=0, wide=x1 - x0, high=38),
        member("top plate", "1", x=x0, z=height - 38, wide=x1 - x0, high=38),
        member("end stud", "left", x=x0, z=low, wide=38, high=high),
        *(member("stud", f"{x:.0f}", x=x, z=low, wide=38, high=high) for x in studs),
        member("end stud", "right", x=x1 - 38, z=low, wide=38, high=high),
    )


def piece(x0: float, x1: float, *, z0: float = 0.0, z1: float = HEIGHT, name: str = "1-1", **more: Any) -> SheetPiece:
    """A plain piece of sheet of flat back/1."""
    outline = more.pop("outline", rectangle(x0, z0, x1, z1))
    whole = SheetPiece(
        id=f"back/1/sheet/{name}",
        wall="back",
        flat="1",
        mark="S1",
        sheet=SHEET,
        outline=outline,
        holes=(),
        width=x1 - x0,
        height=z1 - z0,
        bevel_left=0.0,
        bevel_right=0.0,
        turned=False,
        factory=frozenset(),
        area=area(outline),
        why=WHY,
    )
    return replace(whole, **more)


def flat(name: str = "1", *, x0: float = 0.0, x1: float = 1220.0, **more: Any) -> Flat:
    """A sound flat of wall back with one sheet and a stud in its middle."""
    members = frame(x0, x1, studs=((x0 + x1) / 2 - 19,))
    whole = Flat(
        id=f"back/{name}",
        wall="back",
        name=name,
        mark=f"B{name}",
        x0=x0,
        x1=x1,
        z0=0.0,
        z1=HEIGHT,
        sheet_x0=x0,
        sheet_x1=x1,
        stock=TIMBER,
        sheet=SHEET,
        through="plates",
        built_in_room=False,
        members=tuple(named(m, name) for m in members),
        plates=(),
        pieces=(named(piece(x0, x1), name),),
        openings=(),
        weight=weight(12.0, name),
        centre=((x0 + x1) / 2, 30.0, 1200.0),
        why=WHY,
    )
    return replace(whole, **more)


def named(part: Any, flat_name: str, wall: str = "back") -> Any:
    """The same part in another flat or wall."""
    _, _, *rest = part.id.split("/")
    return replace(part, id="/".join((wall, flat_name, *rest)), flat=flat_name, wall=wall)


def weight(kg: float, name: str = "1") -> Quantity:
    """A flat's weight."""
    return Quantity(id=f"back/{name}/weight", label="weight", value=kg, unit="kg", why=WHY)


def seam(at: float, *, upright: bool = True, low: float = 0.0, high: float = HEIGHT, **more: Any) -> Seam:
    """A seam of wall back."""
    name = "seam 1" if upright else "level seam 1"
    made = Seam(
        id=f"back/{name}",
        wall="back",
        upright=upright,
        at=at,
        low=low,
        high=high,
        parts=True,
        covered_by=None,
        why=WHY,
    )
    return replace(made, **more)


JOINT = Joint(id="back/joint 1-2", wall="back", left="1", right="2", upright=True, at=1220)
WALL = BuiltWall(
    name="back",
    mark="B",
    length=2440,
    height=HEIGHT,
    left=free_end(),
    right=free_end(),
    flats=(flat("1"), flat("2", x0=1220, x1=2440)),
    seams=(seam(1220),),
    joints=(JOINT,),
    why=WHY,
)
WALL_BRIEF = WallBrief(
    name="back",
    length=2440,
    height=HEIGHT,
    sheet=SHEET,
    framing=TIMBER,
    stud_spacing=610,
    openings=(),
    trim=(),
    loads=(),
    assumed={},
)


def wall_of(*flats: Flat, **more: Any) -> BuiltWall:
    """Wall back with these flats instead of its own."""
    return replace(WALL, flats=flats, **more)


def renamed(wall: BuiltWall, name: str) -> BuiltWall:
    """The same wall under another name, with all its parts."""
    flats = tuple(
        replace(
            f,
            id=f"{name}/{f.name}",
            wall=name,
            members=tuple(named(m, f.name, name) for m in f.members),
            pieces=tuple(named(p, f.name, name) for p in f.pieces),
        )
        for f in wall.flats
    )
    seams = tuple(replace(s, id=s.id.replace("back/", f"{name}/"), wall=name) for s in wall.seams)
    joints = tuple(replace(j, id=j.id.replace("back/", f"{name}/"), wall=name) for j in wall.joints)
    return replace(wall, name=name, flats=flats, seams=seams, joints=joints)


def opening(kind: str = "door", *, x: float = 300.0, z: float = 0.0, wide: float = 600.0, high: float = 2000.0) -> Any:
    """A framed opening of flat back/1 without lining: clear and rough size are one."""
    return FramedOpening(
        id="back/hatch",
        name="hatch",
        wall="back",
        flat="1",
        kind=kind,  # pyright: ignore[reportArgumentType] -- the three kinds are tried by name
        clear=(x, z, wide, high),
        rough=(x, z, wide, high),
        rise=0.0,
        radius=None,
        ordinates=(),
        ribs=(),
        lining=(),
        lining_thickness=0.0,
        strap=950.0 if z == 0 else None,
        near_end=min(x, 1220 - x - wide),
        why=WHY,
    )


def with_window() -> Flat:
    """Flat back/1 with a window in it, framed as it should be."""
    hole = opening("window", x=310, z=900, wide=600, high=800)
    low, high = 38.0, HEIGHT - 76
    x, z, wide, tall = hole.rough
    members = (
        *frame(0, 1220),
        member("trimmer", "left", x=x - 38, z=low, wide=38, high=high),
        member("trimmer", "right", x=x + wide, z=low, wide=38, high=high),
        member("header", "hatch", x=x, z=z + tall, wide=wide, high=38),
        member("sill", "hatch", x=x, z=z - 38, wide=wide, high=38),
        member("stud", "below", x=591, z=low, wide=38, high=z - 38 - low),
        member("stud", "above", x=591, z=z + tall + 38, wide=38, high=HEIGHT - 76 - z - tall),
    )
    sheet = piece(0, 1220, holes=(rectangle(x, z, x + wide, z + tall),))
    return replace(flat(), members=members, pieces=(sheet,), openings=(hole,))


def corner(*, style: str = "lap", degrees: float = 90.0, **more: Any) -> Corner:
    """The corner between wall back and a return called side."""
    made = Corner(
        id="back|side",
        left="back",
        right="side",
        angle=math.radians(degrees),
        style=style,  # pyright: ignore[reportArgumentType] -- the three styles are tried by name
        frame_laps="neither",
        sheet_laps="neither",
        left_end=WALL.right,
        right_end=WALL.left,
        screws=CornerScrews(
            screw=SCREW,
            heights=(150.0, 1200.0, 2250.0),
            from_wall="back",
            through="back/2/end stud/right",
            into="side/1/end stud/left",
            why=WHY,
        ),
        wedge=None,
        why=WHY,
    )
    return replace(made, **more)


def wedge(degrees: float) -> Wedge:
    """A loose wedge of this angle."""
    return Wedge(
        id="back|side/wedge",
        outline=((0, 0), (10, 0), (0, 10)),
        length=HEIGHT,
        angle=math.radians(degrees),
        wide=10,
        why=WHY,
    )


def brief(**more: Any) -> Brief:
    """The sound set's brief, parts replaced."""
    project = Project.model_validate(
        {
            "project": {"title": "Made up", "units": "metric"},
            "room": {"ceiling": "2600", "width": "4800", "depth": "4200"},
            "walls": [{"name": "back", "length": "2440"}],
        }
    )
    whole = Brief(
        title=TitleBrief(title="Made up", date=None, revision="A", paper="A4", currency="EUR", notes=""),
        style=LengthStyle.metric(),
        room=ROOM,
        place=PlaceBrief(at=(2400, 3600), turn=0.0, clear_behind=450),
        walls=(WALL_BRIEF,),
        corners=(),
        limits=FlatLimitsBrief(max_width=1500, max_height=2500, max_weight=30, assumed={}),
        crew=CrewBrief(people=2, lift_per_person=25),
        saw=SawBrief(kerf=3, trim_cut=0, spare_boards=True),
        hardware=Hardware(corner_plate=PLATE, sill_strap=STRAP, corner_screw=SCREW, frame_screw=SCREW),
        **plain(),
        pictures=(),
        sitters=(),
        catalog=Catalog(lumber={TIMBER.name: TIMBER}, sheets={SHEET.name: SHEET}),
        project=project,
    )
    return replace(whole, **more)


def plan(*walls: BuiltWall, corners: tuple[Corner, ...] = (), pose: Pose | None = None, **more: Any) -> Plan:
    """A plan of these walls (the sound one where none is given); what is left over replaces parts of the brief."""
    built = walls or (WALL,)
    made = brief(**more)
    lines = lay_out_walls(
        names=[w.name for w in built],
        lengths=[w.length for w in built],
        heights=[w.height for w in built],
        angles=[c.angle for c in corners] or [math.pi] * (len(built) - 1),
    )
    flats = [f for w in built for f in w.flats]
    passages = tuple(flat_passage(f.id, width=f.width, height=f.height, depth=f.depth, room=made.room) for f in flats)
    return Plan(
        brief=made,
        layout=Layout(walls=lines, pose=pose or Pose(x=2400, y=3600, turn=0.0)),
        corners=corners,
        walls=built,
        passages=passages,
        timber=(),
        panels=(),
        boards=(),
        sheets=(),
        sawing=Sawing(),
        cut_sheets=(),
        trim=None,
        casings=(),
        ends=(),
        frames=None,
        strips=(),
        marking=None,
        floor=None,
        fixing=UNFIXED,
        finish=None,
        takeoff=(),
        quantities=(),
    )


SIDE = renamed(
    replace(WALL, length=1220.0, flats=(flat("1"),), seams=(), joints=()),
    "side",
)


def room(**more: Any) -> RoomBrief:
    """The sound set's room, parts replaced."""
    return replace(ROOM, **more)


def block(x0: float, y0: float, x1: float, y1: float, name: str = "post") -> ClearArea:
    """A rectangle on the room's floor."""
    return ClearArea(name=name, outline=((x0, y0), (x1, y0), (x1, y1), (x0, y1)), why="the fuse box")


def stage(kind: str, *, wide: float = 1200.0, high: float = 2100.0, **more: Any) -> Passage:
    """A stage of the way in."""
    made = Passage(
        name=kind,
        kind=kind,  # pyright: ignore[reportArgumentType] -- the kinds are tried by name
        clear_width=wide,
        clear_height=high,
        length=None,
        next_width=None,
        turn_angle=math.pi / 2,
        slope=0.0,
    )
    return replace(made, **more)


def found(check: str, made: Plan) -> tuple[Snag, ...]:
    """What one check finds in a plan."""
    return tuple(snag for snag in find_snags(made) if snag.check == check)
