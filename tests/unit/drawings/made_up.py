"""Plans made up by hand, plainly framed, so that the views can be tested without the carpentry.

Nothing here is the program's own carpentry: walls are split where the caller says, studs stand at a fixed spacing, a
square corner laps, a wider one ends square at the corner line with a wedge behind. The figures are invented.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any, Literal, cast

from lathlight.carpentry.model import (
    BuiltWall,
    Corner,
    CornerScrews,
    CutLine,
    Flat,
    FramedOpening,
    Joint,
    Member,
    Packed,
    Plate,
    Reach,
    Seam,
    SheetPiece,
    WallEnd,
    Wedge,
)
from lathlight.catalog.rows import Bracket, Catalog, Fastener, Lumber, Sheet
from lathlight.layout.model import Layout, Pose, WallLine
from lathlight.passage.model import FlatPassage, Passing
from lathlight.plan.model import Plan
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
from lathlight.working import Quantity, Working

WHY = Working(formula="made up for a test")
PLATE = Bracket(
    name="plate", kind="corner plate", width=200, height=200, thickness=6, mass=0.1, source="invented"
)
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
    METRIC_SHEET, name="ply 3-8 in", width=1219.2, length=2438.4, thickness=8.73125, nominal="3/8 in", stud_spacing=609.6
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


@dataclass(frozen=True, kw_only=True)
class WallWish:
    """A wall wanted: where it splits, its level seams, its openings."""

    name: str
    length: float
    height: float = 2400.0
    splits: tuple[float, ...] = ()
    level_seam: float | None = None
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


def lines_of(wish: Wish) -> tuple[WallLine, ...]:
    """Lay the faces out; the set's axis runs through the middle wall or halves the middle corner."""
    count = len(wish.walls)
    turns = [0.0]
    for angle in wish.angles:
        turns.append(turns[-1] - (math.pi - angle))
    middle = turns[count // 2] if count % 2 else (turns[count // 2 - 1] + turns[count // 2]) / 2
    x = y = 0.0
    lines: list[WallLine] = []
    for wall, turn in zip(wish.walls, turns, strict=True):
        dx, dy = math.cos(turn - middle), math.sin(turn - middle)
        lines.append(
            WallLine(name=wall.name, start=(x, y), direction=(dx, dy), length=wall.length, height=wall.height)
        )
        x, y = x + dx * wall.length, y + dy * wall.length
    mid = lines[count // 2]
    foot = mid.at(along=mid.length / 2, behind=0) if count % 2 else mid.start
    return tuple(replace(line, start=(line.start[0] - foot[0], line.start[1] - foot[1])) for line in lines)


def ends_of(wish: Wish) -> tuple[tuple[WallEnd, ...], tuple[WallEnd, ...]]:
    """Left and right ends of every wall; the right wall laps at a square or sharp corner."""
    free = WallEnd(
        kind="free",
        angle=math.pi,
        neighbour=None,
        sheet=Reach(front=0, back=0),
        frame=Reach(front=0, back=0),
        frame_laps=False,
        sheet_laps=False,
        sheet_front=0,
        sheet_back=0,
        frame_end=0,
    )
    t, d = wish.sheet.thickness, wish.timber.depth
    lefts, rights = [free], []
    for index, w in enumerate(wish.angles):
        names = wish.walls[index].name, wish.walls[index + 1].name
        if w > math.radians(91):
            end = replace(free, kind="arris", angle=w)
            rights.append(replace(end, neighbour=names[1]))
            lefts.append(replace(end, neighbour=names[0]))
            continue
        s, c = math.sin(w), math.cos(w)
        a_sheet = Reach(front=0, back=t * c / s)
        a_frame = Reach(front=(t + t * c) / s, back=(t + (t + d) * c) / s)
        b_sheet = Reach(front=t / s, back=(t + t * c) / s)
        b_end = (t + d + t * c) / s
        rights.append(
            WallEnd(
                kind="lap",
                angle=w,
                neighbour=names[1],
                sheet=a_sheet,
                frame=a_frame,
                frame_laps=False,
                sheet_laps=False,
                sheet_front=0,
                sheet_back=0,
                frame_end=a_frame.square,
            )
        )
        lefts.append(
            WallEnd(
                kind="lap",
                angle=w,
                neighbour=names[0],
                sheet=b_sheet,
                frame=Reach(front=b_end, back=b_end),
                frame_laps=True,
                sheet_laps=True,
                sheet_front=b_sheet.front,
                sheet_back=b_sheet.back,
                frame_end=b_end,
            )
        )
    return tuple(lefts), (*rights, free)


class _Marks:
    """Letters for equal pieces of one flat."""

    def __init__(self) -> None:
        self.known: dict[tuple[str, float], str] = {}

    def letter(self, role: str, length: float) -> str:
        key = role, round(length, 3)
        if key not in self.known:
            self.known[key] = chr(ord("A") + len(self.known))
        return self.known[key]


def _member(wish: Wish, flat: str, marks: _Marks, role: str, box: tuple[float, float, float, float]) -> Member:
    x, z, wide, high = box
    length = max(wide, high)
    return Member(
        id=f"{flat}/{role}/{x:.0f}-{z:.0f}",
        wall=flat.split("/")[0],
        flat=flat,
        role=cast(Any, role),
        mark=marks.letter(role, length),
        stock=wish.timber,
        upright=high > wide,
        laid_flat=False,
        x=x,
        z=z,
        behind=wish.sheet.thickness,
        wide=wide,
        high=high,
        deep=wish.timber.depth,
        length=length,
        ends=(0.0, 0.0),
        ripped=False,
        may_be_offcut=role in ("noggin", "nailer"),
        straightest=role == "end stud",
        section=None,
        why=WHY,
    )


def _frame(
    wish: Wish, wall: WallWish, flat: str, x0: float, x1: float, holes: tuple[Hole, ...]
) -> tuple[Member, ...]:
    w, h, marks = wish.timber.width, wall.height, _Marks()

    def add(role: str, x: float, z: float, wide: float, high: float) -> Member:
        return _member(wish, flat, marks, role, (x, z, wide, high))

    doors = [hole for hole in holes if hole.sill == 0]
    out = [add("top plate", x0, h - w, x1 - x0, w)]
    cuts = [x0, *(edge for hole in doors for edge in (hole.left, hole.left + hole.width)), x1]
    out += [add("bottom plate", a, 0, b - a, w) for a, b in zip(cuts[::2], cuts[1::2], strict=True)]
    out += [add("end stud", x, w, w, h - 2 * w) for x in (x0, x1 - w)]
    for hole in holes:
        foot = w if hole.sill == 0 else hole.sill - w
        out += [
            add("trimmer", x, w, w, h - 2 * w) for x in (hole.left - w, hole.left + hole.width)
        ]
        out.append(add("header", hole.left, hole.sill + hole.height, hole.width, w))
        if hole.sill:
            out.append(add("sill", hole.left, foot, hole.width, w))
    taken = [(m.x - w, m.x + m.wide + w) for m in out if m.upright]
    taken += [(hole.left - w, hole.left + hole.width + w) for hole in holes]
    spacing = wish.sheet.stud_spacing
    for step in range(1, int((x1 - x0) / spacing) + 1):
        at = x0 + step * spacing - w / 2
        if all(at + w < low or at > high for low, high in taken):
            out.append(add("stud", at, w, w, h - 2 * w))
    uprights = sorted((m for m in out if m.upright), key=lambda m: m.x)
    for left, right in zip(uprights, uprights[1:], strict=False):
        gap = (left.x + left.wide, right.x)
        inside_hole = any(hole.left <= gap[0] and gap[1] <= hole.left + hole.width for hole in holes)
        if gap[1] - gap[0] > 80 and not inside_hole:
            out.append(add("noggin", gap[0], (wall.level_seam or h / 2) - w / 2, gap[1] - gap[0], w))
    return tuple(out)


def _rectangle(x0: float, z0: float, x1: float, z1: float) -> tuple[tuple[float, float], ...]:
    return (x0, z0), (x1, z0), (x1, z1), (x0, z1)


def _piece(
    wish: Wish, flat: str, number: int, box: tuple[float, float, float, float], holes: tuple[Hole, ...]
) -> SheetPiece:
    x0, z0, x1, z1 = box
    inside = [hole for hole in holes if x0 < hole.left and hole.left + hole.width < x1 and z0 < hole.sill + hole.height]
    doors = [hole for hole in inside if hole.sill == 0 and z0 == 0]
    outline: list[tuple[float, float]] = [(x0, z0)]
    for hole in doors:
        outline += [
            (hole.left, 0),
            (hole.left, hole.height),
            (hole.left + hole.width, hole.height),
            (hole.left + hole.width, 0),
        ]
    outline += [(x1, z0), (x1, z1), (x0, z1)]
    return SheetPiece(
        id=f"{flat}/sheet/{number}",
        wall=flat.split("/")[0],
        flat=flat,
        mark=str(number),
        sheet=wish.sheet,
        outline=tuple(outline),
        holes=tuple(
            _rectangle(hole.left, hole.sill, hole.left + hole.width, hole.sill + hole.height)
            for hole in inside
            if hole.sill > 0
        ),
        width=x1 - x0,
        height=z1 - z0,
        bevel_left=0,
        bevel_right=0,
        turned=False,
        factory=frozenset({"bottom", "right"}),
        area=(x1 - x0) * (z1 - z0) - sum(hole.width * hole.height for hole in inside),
        why=WHY,
    )


def _openings(wish: Wish, wall: WallWish, flat: str, x0: float, x1: float) -> tuple[FramedOpening, ...]:
    out: list[FramedOpening] = []
    for hole in wall.holes:
        if not x0 < hole.left < x1:
            continue
        clear = hole.left, hole.sill, hole.width, hole.height
        half = hole.width / 2
        radius = (half**2 + hole.rise**2) / (2 * hole.rise) if hole.rise else None
        steps = [half * k / 4 - half for k in range(9)] if radius else []
        ordinates = tuple(
            (x + half, math.sqrt((radius or 0) ** 2 - x**2) - ((radius or 0) - hole.rise)) for x in steps
        )
        out.append(
            FramedOpening(
                id=f"{flat}/{hole.name}",
                name=hole.name,
                wall=wall.name,
                flat=flat,
                kind=hole.kind,
                clear=clear,
                rough=clear,
                rise=hole.rise,
                radius=radius,
                ordinates=ordinates,
                lining=(),
                lining_thickness=0,
                strap=hole.width + 300 if hole.sill == 0 else None,
                near_end=min(hole.left - x0, x1 - hole.left - hole.width),
                why=WHY,
            )
        )
    return tuple(out)


def _plates(flat: str, x0: float, x1: float, height: float, behind: float) -> tuple[Plate, ...]:
    size = PLATE.width
    return tuple(
        Plate(
            id=f"{flat}/plate/{k}",
            bracket=PLATE,
            outline=((x, z), (x + size * a, z), (x, z + size * b)),
            behind=behind,
        )
        for k, (x, z, a, b) in enumerate(((x0, 0, 1, 1), (x1, 0, -1, 1), (x0, height, 1, -1), (x1, height, -1, -1)))
    )


def _wall(wish: Wish, index: int, left: WallEnd, right: WallEnd) -> BuiltWall:
    wall = wish.walls[index]
    mark = chr(ord("A") + index)
    frame_edges = [-left.frame_end, *wall.splits, wall.length + right.frame_end]
    sheet_edges = [-left.sheet_front, *wall.splits, wall.length + right.sheet_front]
    flats: list[Flat] = []
    for k in range(len(frame_edges) - 1):
        x0, x1 = frame_edges[k], frame_edges[k + 1]
        s0, s1 = sheet_edges[k], sheet_edges[k + 1]
        name = f"{wall.name}/{k + 1}"
        levels = [0.0, *([wall.level_seam] if wall.level_seam else []), wall.height]
        boxes = [(s0, a, s1, b) for a, b in zip(levels, levels[1:], strict=False)]
        flats.append(
            Flat(
                id=name,
                wall=wall.name,
                name=str(k + 1),
                mark=f"{mark}{k + 1}",
                x0=x0,
                x1=x1,
                z0=0,
                z1=wall.height,
                sheet_x0=s0,
                sheet_x1=s1,
                stock=wish.timber,
                sheet=wish.sheet,
                through="plates",
                built_in_room=False,
                members=_frame(wish, wall, name, x0, x1, tuple(h for h in wall.holes if x0 < h.left < x1)),
                plates=_plates(name, x0, x1, wall.height, wish.sheet.thickness + wish.timber.depth),
                pieces=tuple(_piece(wish, name, n + 1, box, wall.holes) for n, box in enumerate(boxes)),
                openings=_openings(wish, wall, name, x0, x1),
                weight=Quantity(
                    id=f"{name}/weight", label="weight", value=(x1 - x0) * wall.height * 1e-5, unit="kg", why=WHY
                ),
                centre=((x0 + x1) / 2, 30, wall.height / 2),
                why=WHY,
            )
        )
    seams = [
        Seam(
            id=f"{wall.name}/seam/{at:.0f}",
            wall=wall.name,
            upright=True,
            at=at,
            low=0,
            high=wall.height,
            parts=True,
            covered_by=None,
            why=WHY,
        )
        for at in wall.splits
    ]
    if wall.level_seam:
        seams.append(
            Seam(
                id=f"{wall.name}/seam/level",
                wall=wall.name,
                upright=False,
                at=wall.level_seam,
                low=sheet_edges[0],
                high=sheet_edges[-1],
                parts=False,
                covered_by=None,
                why=WHY,
            )
        )
    joints = tuple(
        Joint(
            id=f"{wall.name}/joint/{at:.0f}",
            wall=wall.name,
            left=flats[k].id,
            right=flats[k + 1].id,
            upright=True,
            at=at,
        )
        for k, at in enumerate(wall.splits)
    )
    return BuiltWall(
        name=wall.name,
        mark=mark,
        length=wall.length,
        height=wall.height,
        left=left,
        right=right,
        flats=tuple(flats),
        seams=tuple(seams),
        joints=joints,
        why=WHY,
    )


def _corner(wish: Wish, index: int, lines: tuple[WallLine, ...], walls: tuple[BuiltWall, ...]) -> Corner:
    left, right = walls[index], walls[index + 1]
    lap = left.right.kind == "lap"
    wedge = None
    if not lap:
        a, b = lines[index], lines[index + 1]
        front, back = wish.sheet.thickness, wish.sheet.thickness + wish.timber.depth
        wedge = Wedge(
            id=f"{left.name}|{right.name}/wedge",
            outline=(
                a.at(along=a.length, behind=front),
                b.at(along=0, behind=front),
                b.at(along=0, behind=back),
                a.at(along=a.length, behind=back),
            ),
            length=min(left.height, right.height),
            angle=math.pi - left.right.angle,
            wide=2 * back * math.sin((math.pi - left.right.angle) / 2),
            why=WHY,
        )
    through = [m for m in left.flats[-1].members if m.role == "end stud"][-1]
    into = next(m for m in right.flats[0].members if m.role == "end stud")
    screws = CornerScrews(
        screw=SCREW,
        heights=(150.0, 900.0, 1500.0, min(left.height, right.height) - 150.0),
        from_wall=left.name,
        through=through.id,
        into=into.id,
        why=WHY,
    )
    return Corner(
        id=f"{left.name}|{right.name}",
        left=left.name,
        right=right.name,
        angle=wish.angles[index],
        style="lap" if lap else "arris",
        frame_laps="right" if lap else "neither",
        sheet_laps="right" if lap else "neither",
        left_end=left.right,
        right_end=right.left,
        screws=screws if lap else None,
        wedge=wedge,
        why=WHY,
    )


def _brief(wish: Wish, lines: tuple[WallLine, ...]) -> Brief:
    wide, deep = wish.room
    sitter = SitterBrief(name="potter", right=120, forward=1100, stature=1680, seated=False)
    picture = PictureBrief(
        name="at the wheel",
        sitter=sitter,
        angles=(math.radians(-15), math.radians(20)),
        lens=(70, 85),
        sensor=(24, 36),
        frame_height=1100,
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
                ClearArea(name="fuse board", outline=_rectangle(0, 1500, 600, 2400), why="kept free for the fuse board"),
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
                        lining=0,
                        lining_depth=0,
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
        pictures=(picture,),
        sitters=(sitter,),
        catalog=Catalog(),
        project=cast(Any, None),
    )


def _passage(flat: Flat) -> FlatPassage:
    on_edge = min(flat.width, flat.height)
    door = Passing(
        through="yard door",
        passes=on_edge <= 1985,
        figure=on_edge,
        limit=1985,
        how="on edge",
        why=WHY,
    )
    raises = Passing(
        through="ceiling",
        passes=flat.height < 2480,
        figure=math.hypot(flat.height, flat.depth),
        limit=2500,
        how="walked up",
        why=WHY,
    )
    return FlatPassage(flat=flat.id, stages=(door,), raises=raises, passes=door.passes)


def _timber_lists(walls: tuple[BuiltWall, ...]) -> tuple[CutLine, ...]:
    out: list[CutLine] = []
    for wall in walls:
        for flat in wall.flats:
            groups: dict[str, list[Member]] = {}
            for member in flat.members:
                groups.setdefault(member.mark, []).append(member)
            out += [
                CutLine(
                    mark=f"{flat.mark}-{mark}",
                    what=group[0].role,
                    stock=group[0].stock.name,
                    number=len(group),
                    length=group[0].length,
                    width=None,
                    ends=(0.0, 0.0),
                    may_be_offcut=group[0].may_be_offcut,
                    note="",
                    ids=tuple(m.id for m in group),
                )
                for mark, group in groups.items()
            ]
    return tuple(out)


def make_plan(wish: Wish) -> Plan:
    """Return the plan of a set wanted."""
    lines = lines_of(wish)
    lefts, rights = ends_of(wish)
    walls = tuple(_wall(wish, k, lefts[k], rights[k]) for k in range(len(wish.walls)))
    flats = [flat for wall in walls for flat in wall.flats]
    wide, deep = wish.room
    back = max(y for line in lines for _, y in (line.start, line.end))
    pieces = [piece for flat in flats for piece in flat.pieces]
    return Plan(
        brief=_brief(wish, lines),
        layout=Layout(walls=lines, pose=Pose(x=wide / 2, y=deep - 450 - back - 80, turn=0.0)),
        corners=tuple(_corner(wish, k, lines, walls) for k in range(len(wish.angles))),
        walls=walls,
        passages=tuple(_passage(flat) for flat in flats),
        timber=_timber_lists(walls),
        panels=tuple(
            CutLine(
                mark=f"{next(f.mark for f in flats if f.id == piece.flat)}-{piece.mark}",
                what="sheet",
                stock=piece.sheet.name,
                number=1,
                length=piece.height,
                width=piece.width,
                ends=(0.0, 0.0),
                may_be_offcut=False,
                note="",
                ids=(piece.id,),
            )
            for piece in pieces
        ),
        boards=(
            Packed(
                stock=wish.timber.name,
                length=wish.timber.lengths[0],
                width=None,
                number=12,
                pieces=(),
                spare=1,
                why=WHY,
            ),
        ),
        sheets=(
            Packed(
                stock=wish.sheet.name,
                length=wish.sheet.length,
                width=wish.sheet.width,
                number=len(pieces),
                pieces=tuple((piece.id,) for piece in pieces),
                spare=0,
                why=WHY,
            ),
        ),
        quantities=(
            Quantity(id="set/weight", label="weight of the set", value=96.0, unit="kg", why=WHY),
        ),
    )


RAIL = TrimLine(name="rail", kind="rail", profile="rail", top=930, bottom=880, loose=False)
BASE = TrimLine(name="base", kind="base", profile="base", top=120, bottom=0, loose=False)


def corner_wish(**changes: Any) -> Wish:
    """Two walls in a square corner; the first is two flats, the second of them with a door."""
    wish = Wish(
        walls=(
            WallWish(
                name="left",
                length=2200,
                splits=(1220,),
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
                splits=(1220, 2440),
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
