"""The set as solids in set axes: members, sheet pieces, corner plates, linings, loose wedges."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.geometry import Part, anticlockwise, loft, placement, prism, transformed

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import BuiltWall, Corner, Flat, LiningPiece, Member, Plate, Rib, SheetPiece
    from lathlight.geometry import Solid
    from lathlight.layout import Layout


def member_solid(member: Member) -> Solid:
    """Return a member in its wall's axes [mm]."""
    outline = member.section or (
        (member.x, member.behind),
        (member.x + member.wide, member.behind),
        (member.x + member.wide, member.behind + member.deep),
        (member.x, member.behind + member.deep),
    )
    return prism(outline, low=member.z, high=member.z + member.high, axis="height")


def piece_solid(piece: SheetPiece) -> Solid:
    """Return a sheet piece in its wall's axes [mm]; bevelled ends make its back narrower or wider."""
    thickness = piece.sheet.thickness
    if not piece.bevel_left and not piece.bevel_right:
        return prism(piece.outline, piece.holes, low=0.0, high=thickness, axis="depth")
    xs = [x for x, _ in piece.outline]
    low, high = min(xs), max(xs)
    back = tuple((_bevelled(x, low, high, piece), z) for x, z in piece.outline)
    return loft(piece.outline, back, piece.holes, piece.holes, low=0.0, high=thickness, axis="depth")


def _bevelled(x: float, low: float, high: float, piece: SheetPiece) -> float:
    if x == low:
        return x - piece.bevel_left
    if x == high:
        return x + piece.bevel_right
    return x


def plate_solid(plate: Plate) -> Solid:
    """Return a corner plate in its wall's axes [mm]."""
    back = plate.behind + plate.bracket.thickness
    return prism(plate.outline, low=plate.behind, high=back, axis="depth")


def rib_solid(rib: Rib) -> Solid:
    """Return an arch's rib in its wall's axes [mm]."""
    return prism(rib.outline, low=rib.behind, high=rib.behind + rib.thickness, axis="depth")


def lining_solid(piece: LiningPiece) -> Solid:
    """Return a straight thickness piece in its wall's axes [mm]."""
    x0, z0, x1, z1 = piece.x, piece.z, piece.x + piece.wide, piece.z + piece.high
    return prism(((x0, z0), (x1, z0), (x1, z1), (x0, z1)), low=0.0, high=piece.deep, axis="depth")


def flat_solids(flat: Flat) -> Iterable[Part]:
    """Yield every part of a flat in its wall's axes."""

    def part(identity: str, material: str, solid: Solid) -> Part:
        return Part(id=identity, path=(flat.wall, flat.id), material=material, solid=solid)

    for member in flat.members:
        yield part(member.id, "timber", member_solid(member))
    for piece in flat.pieces:
        yield part(piece.id, "sheet", piece_solid(piece))
    for plate in flat.plates:
        yield part(plate.id, "plate", plate_solid(plate))
    for opening in flat.openings:
        for rib in opening.ribs:
            yield part(rib.id, "sheet", rib_solid(rib))
        for lining in opening.lining:
            if lining.side != "arch":
                yield part(lining.id, "lining", lining_solid(lining))


def set_solids(walls: Sequence[BuiltWall], corners: Sequence[Corner], layout: Layout) -> tuple[Part, ...]:
    """Return every part of the set as a solid in set axes [mm]; an arch's bent strip is left out."""
    parts: list[Part] = []
    for wall in walls:
        line = layout.wall(wall.name)
        matrix = placement(x=line.start[0], y=line.start[1], turn=math.atan2(line.direction[1], line.direction[0]))
        for flat in wall.flats:
            parts += [replace(part, solid=transformed(part.solid, matrix)) for part in flat_solids(flat)]
    for corner in corners:
        if corner.wedge is not None:
            solid = prism(anticlockwise(corner.wedge.outline), low=0.0, high=corner.wedge.length, axis="height")
            parts.append(Part(id=corner.wedge.id, path=("corners",), material="timber", solid=solid))
    return tuple(parts)
