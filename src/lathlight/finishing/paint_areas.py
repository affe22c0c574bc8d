"""What there is to paint on the set: faces, edges, reveals, wall ends, backs, and the developed girth of mouldings.

Decides which surfaces are seen and how large they are; how much paint they take is ``paint_need``, which tool reaches
them is ``tool_reach``. Areas are of the built pieces: openings and what a lapping sheet hides are not painted. The wall
behind a moulding is not taken off.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.catalog import girth
from lathlight.geometry import area
from lathlight.working import GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from lathlight.carpentry import BuiltWall, Flat, FramedOpening, LiningPiece, SheetPiece
    from lathlight.catalog import Profile

Point = tuple[float, float]
Kind = Literal["face", "joint edge", "opening edge", "top edge", "wall end", "reveal", "back", "moulding"]
Stuff = Literal["sheet", "sheet edge", "timber", "moulding"]
TOUCH = 1e-3  # nearer than this is on the line [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintArea:
    """One surface that paint can go on."""

    id: str  # "back/1/sheet/1-1/face"
    wall: str
    kind: Kind
    stuff: Stuff  # what the paint meets
    material: str  # the sheet's: "MDF", "plywood"; a moulding's profile; "" for timber and plain blocks
    area: float  # [mm2]
    length: float  # along an edge or a moulding [mm]; 0 for a face or a back
    raw: bool  # True: bare, so that the first coat soaks in
    painted: bool  # False: left as it is
    why: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingLength:
    """So much of one moulding on a wall, as it is fixed."""

    id: str
    wall: str
    profile: Profile
    length: float  # at the face, all pieces together [mm]
    primed: bool = False  # True: bought with its primer on


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldingBlock:
    """A plain block at a casing's foot or corner."""

    id: str
    wall: str
    wide: float  # [mm]
    high: float
    thick: float
    primed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Surfaces:
    """Which surfaces get paint."""

    edges: bool  # edges at joints, at openings and along the top
    backs: bool
    ends: bool = True  # free wall ends: sheet edge and end stud, or the strip that covers both


def paint_areas(
    walls: Sequence[BuiltWall],
    mouldings: Sequence[MouldingLength],
    surfaces: Surfaces,
    *,
    blocks: Sequence[MouldingBlock] = (),
) -> tuple[PaintArea, ...]:
    """Return every surface, wall by wall: faces, edges, ends, reveals, backs, then the mouldings.

    Parameters
    ----------
    walls
        As built.
    mouldings
        Lengths of trim, casing and moulding frames; none leaves the walls alone.
    blocks
        Plain blocks, painted on their front and both sides.
    surfaces
        Which of the edges, ends and backs are painted; the others are returned as not painted.
    """
    found = [piece for wall in walls for piece in _wall_areas(wall, surfaces)]
    return (*found, *map(_moulding_area, mouldings), *map(_block_area, blocks))


def unpainted_edges(areas: Iterable[PaintArea]) -> tuple[PaintArea, ...]:
    """Return the raw sheet edges and ends that are left without paint."""
    return tuple(a for a in areas if not a.painted and a.raw and a.kind not in ("face", "back", "moulding"))


def _wall_areas(wall: BuiltWall, surfaces: Surfaces) -> Iterable[PaintArea]:
    for flat in wall.flats:
        for piece in flat.pieces:
            yield _face(wall, piece)
            yield from _edges(wall, flat, piece, surfaces)
        for opening in flat.openings:
            yield from (_reveal(opening, piece) for piece in opening.lining)
    yield from _ends(wall, surfaces)
    yield from (_back(flat, painted=surfaces.backs) for flat in wall.flats)


def _face(wall: BuiltWall, piece: SheetPiece) -> PaintArea:
    seen = _seen_area(wall, piece)
    return PaintArea(
        id=f"{piece.id}/face",
        wall=wall.name,
        kind="face",
        stuff="sheet",
        material=piece.sheet.material,
        area=seen,
        length=0.0,
        raw=True,
        painted=True,
        why=Working(
            formula="the piece's front, openings out, less what the neighbouring wall's sheet covers",
            inputs=(("front", piece.area, "mm2"), ("covered", piece.area - seen, "mm2")),
            source=GEOMETRY,
            value=seen,
            unit="mm2",
        ),
    )


def _seen_area(wall: BuiltWall, piece: SheetPiece) -> float:
    """Return the area of the piece between the wall's two corner lines [mm2]."""

    def seen(ring: Sequence[Point]) -> float:
        return abs(area(_beyond(_beyond(ring, 0.0, right=True), wall.length, right=False)))

    return seen(piece.outline) - sum(map(seen, piece.holes))


def _beyond(ring: Sequence[Point], x: float, *, right: bool) -> tuple[Point, ...]:
    """Return the ring cut off at an upright line, the part to its right or left kept.

    One side of Sutherland and Hodgman's clipping (Reentrant polygon clipping, 1974); on a notched ring the parts hang
    together by lines without area.
    """
    sign = 1.0 if right else -1.0
    kept: list[Point] = []
    for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        inside_a, inside_b = sign * (a[0] - x) >= 0, sign * (b[0] - x) >= 0
        if inside_a:
            kept.append(a)
        if inside_a != inside_b:
            kept.append((x, a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])))
    return tuple(kept)


# --- edges -------------------------------------------------------------------------------------------------------


def _edges(wall: BuiltWall, flat: Flat, piece: SheetPiece, surfaces: Surfaces) -> Iterable[PaintArea]:
    """Yield the piece's own edges that can be seen: at joints that part, in openings without lining, along the top."""
    lengths: dict[Kind, float] = {}
    for ring in (piece.outline, *piece.holes):
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            kind = _edge_kind(wall, flat, a, b)
            if kind is not None:
                lengths[kind] = lengths.get(kind, 0.0) + math.dist(a, b)
    for kind, length in lengths.items():
        yield PaintArea(
            id=f"{piece.id}/{kind}",
            wall=wall.name,
            kind=kind,
            stuff="sheet edge",
            material=piece.sheet.material,
            area=length * piece.sheet.thickness,
            length=length,
            raw=True,
            painted=surfaces.edges,
            why=_product("edge length x sheet thickness", ("length", length), ("thickness", piece.sheet.thickness)),
        )


def _edge_kind(wall: BuiltWall, flat: Flat, a: Point, b: Point) -> Kind | None:
    """Return where a side of a piece lies, or None where nobody sees it: a filled seam, a corner, the floor."""
    x, z = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    upright, level = abs(a[0] - b[0]) < TOUCH, abs(a[1] - b[1]) < TOUCH
    for opening in flat.openings:
        if _within(opening, x, z):
            return None if opening.lining else "opening edge"
    if level and abs(z - wall.height) < TOUCH:
        return "top edge"
    for joint in wall.joints:
        if (upright if joint.upright else level) and abs((x if joint.upright else z) - joint.at) < TOUCH:
            return "joint edge"
    return None


def _within(opening: FramedOpening, x: float, z: float) -> bool:
    left, bottom, width, height = opening.rough
    if bottom <= TOUCH and z <= TOUCH:
        return False
    return left - TOUCH <= x <= left + width + TOUCH and bottom - TOUCH <= z <= bottom + height + TOUCH


def _ends(wall: BuiltWall, surfaces: Surfaces) -> Iterable[PaintArea]:
    """Yield the wall's free ends from the face to the frame's back, flat by flat up the end."""
    for side, end, flats in (
        ("left", wall.left, [f for f in wall.flats if abs(f.x0 - min(g.x0 for g in wall.flats)) < TOUCH]),
        ("right", wall.right, [f for f in wall.flats if abs(f.x1 - max(g.x1 for g in wall.flats)) < TOUCH]),
    ):
        if end.kind == "free":
            yield from (_end(flat, side, surfaces) for flat in flats)


def _end(flat: Flat, side: str, surfaces: Surfaces) -> PaintArea:
    deep = flat.sheet.thickness + flat.stock.depth
    return PaintArea(
        id=f"{flat.id}/end {side}",
        wall=flat.wall,
        kind="wall end",
        stuff="timber",
        material="",
        area=deep * flat.height,
        length=flat.height,
        raw=True,
        painted=surfaces.ends,
        why=_product("height x sheet and frame together", ("height", flat.height), ("depth", deep)),
    )


def _reveal(opening: FramedOpening, piece: LiningPiece) -> PaintArea:
    return PaintArea(
        id=f"{piece.id}/reveal",
        wall=opening.wall,
        kind="reveal",
        stuff="timber",
        material="",
        area=piece.length * piece.deep,
        length=piece.length,
        raw=True,
        painted=True,
        why=_product("lining's length x its depth", ("length", piece.length), ("depth", piece.deep)),
    )


def _back(flat: Flat, *, painted: bool) -> PaintArea:
    shown = sum(p.area for p in flat.pieces)
    return PaintArea(
        id=f"{flat.id}/back",
        wall=flat.wall,
        kind="back",
        stuff="sheet",
        material=flat.sheet.material,
        area=shown,
        length=0.0,
        raw=True,
        painted=painted,
        why=Working(
            formula="as large as the front; the timber's sides are not counted, what it covers is not taken off",
            inputs=(("pieces", len(flat.pieces), ""),),
            source=GEOMETRY,
            value=shown,
            unit="mm2",
        ),
    )


def _moulding_area(run: MouldingLength) -> PaintArea:
    round_front = girth(run.profile)
    return PaintArea(
        id=f"{run.id}/moulding",
        wall=run.wall,
        kind="moulding",
        stuff="moulding",
        material=run.profile.name,
        area=round_front * run.length,
        length=run.length,
        raw=not run.primed,
        painted=True,
        why=_product("length x way round the section's front", ("length", run.length), ("girth", round_front)),
    )


def _block_area(block: MouldingBlock) -> PaintArea:
    shown = block.high * (block.wide + 2 * block.thick)
    return PaintArea(
        id=f"{block.id}/moulding",
        wall=block.wall,
        kind="moulding",
        stuff="moulding",
        material="",
        area=shown,
        length=block.high,
        raw=not block.primed,
        painted=True,
        why=Working(
            formula="height x (width and twice the thickness)",
            inputs=(("height", block.high, "mm"), ("width", block.wide, "mm"), ("thickness", block.thick, "mm")),
            source=GEOMETRY,
            value=shown,
            unit="mm2",
        ),
    )


def _product(formula: str, one: tuple[str, float], other: tuple[str, float]) -> Working:
    return Working(
        formula=formula,
        inputs=((*one, "mm"), (*other, "mm")),
        source=GEOMETRY,
        value=one[1] * other[1],
        unit="mm2",
    )


def areas_by_kind(areas: Iterable[PaintArea]) -> Mapping[Kind, float]:
    """Return the painted area of each kind [mm2], in the order in which the kinds first come."""
    found: dict[Kind, float] = {}
    for each in areas:
        if each.painted:
            found[each.kind] = found.get(each.kind, 0.0) + each.area
    return found
