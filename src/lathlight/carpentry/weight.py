"""Weight and centre of gravity of a flat, from its parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.geometry import area
from lathlight.working import Quantity, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry.model import FramedOpening, Member, Plate, SheetPiece
    from lathlight.catalog import Bracket

MM3 = 1e-9  # cubic metres in a cubic millimetre
Centre = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """A mass [kg] and where it acts (x, behind, z) [mm]."""

    kg: float
    at: Centre


def member_volume(member: Member) -> float:
    """Return the volume of a member [mm3]; a ripped one by its own section."""
    if member.section is None:
        return member.wide * member.high * member.deep
    return abs(area(member.section)) * member.high


def member_mass(member: Member) -> Mass:
    """Return a member's mass at the middle of its box."""
    at = (member.x + member.wide / 2, member.behind + member.deep / 2, member.z + member.high / 2)
    return Mass(kg=member_volume(member) * MM3 * member.stock.density, at=at)


def piece_mass(piece: SheetPiece) -> Mass:
    """Return a sheet piece's mass at the centroid of its face, holes taken out."""
    outer, x, z = _moments(piece.outline)
    holes = [(abs(a), hx, hz) for a, hx, hz in map(_moments, piece.holes)]
    net = outer - sum(a for a, _, _ in holes)
    x = (outer * x - sum(a * hx for a, hx, _ in holes)) / net
    z = (outer * z - sum(a * hz for a, _, hz in holes)) / net
    kg = piece.area * piece.sheet.thickness * MM3 * piece.sheet.density
    return Mass(kg=kg, at=(x, piece.sheet.thickness / 2, z))


def _moments(ring: Sequence[tuple[float, float]]) -> tuple[float, float, float]:
    """Return signed area and centroid of a ring."""
    twice = mx = mz = 0.0
    for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        cross = x0 * z1 - x1 * z0
        twice += cross
        mx += (x0 + x1) * cross
        mz += (z0 + z1) * cross
    return twice / 2, mx / (3 * twice), mz / (3 * twice)


def plate_mass(plate: Plate) -> Mass:
    """Return a corner plate's mass at the middle of its corners."""
    n = len(plate.outline)
    x, z = sum(p[0] for p in plate.outline) / n, sum(p[1] for p in plate.outline) / n
    return Mass(kg=plate.bracket.mass, at=(x, plate.behind + plate.bracket.thickness / 2, z))


def opening_masses(opening: FramedOpening, *, density: float, strap: Bracket) -> Iterable[Mass]:
    """Yield the masses of an opening's ribs, lining and sill strap."""
    for rib in opening.ribs:
        signed, x, z = _moments(rib.outline)
        kg = abs(signed) * rib.thickness * MM3 * rib.sheet.density
        yield Mass(kg=kg, at=(x, rib.behind + rib.thickness / 2, z))
    for p in opening.lining:
        kg = p.length * opening.lining_thickness * p.deep * MM3 * density
        yield Mass(kg=kg, at=(p.x + p.wide / 2, p.deep / 2, p.z + p.high / 2))
    if opening.strap is not None:
        x, z, width, _ = opening.clear
        kg = strap.mass * opening.strap / strap.width
        yield Mass(kg=kg, at=(x + width / 2, opening.lining[0].deep / 2 if opening.lining else 0.0, z))


def flat_weight(identity: str, masses: Sequence[Mass]) -> tuple[Quantity, Centre]:
    """Return a flat's weight with its working, and its centre of gravity (x, behind, z) in wall axes [mm]."""
    total = sum(m.kg for m in masses)
    centre = tuple(sum(m.kg * m.at[i] for m in masses) / total for i in range(3))
    quantity = Quantity(
        id=f"{identity}/weight",
        label="weight of the flat",
        value=total,
        unit="kg",
        why=Working(
            formula="sum over all parts of volume x density; fixings, glue and paint are not counted",
            inputs=(("parts", len(masses), ""),),
            source="densities of the catalogue's rows",
            value=total,
            unit="kg",
        ),
    )
    return quantity, (centre[0], centre[1], centre[2])
