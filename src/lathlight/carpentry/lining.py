"""What goes into an opening: its thickness pieces, and the strap across a door's foot."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.carpentry.model import FramedOpening, LiningPiece, Rib
from lathlight.carpentry.openings import arch_ordinates, arch_radius, hole_outline
from lathlight.carpentry.uprights import near_end
from lathlight.geometry import anticlockwise
from lathlight.units import snap, snap_up
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.carpentry.openings import Rough
    from lathlight.catalog import Sheet
    from lathlight.units import LengthStyle

RIB = 18.0  # an arch's rib is laminated to at least this [mm], common practice
STRAP_LAP = (
    175.0  # the strap runs on under the plates by this much at each end [mm]: 12 to 16 in in all, common practice
)


def framed_opening(
    rough: Rough, *, wall: str, flat: str, x0: float, x1: float, z0: float, sheet: Sheet, grid: LengthStyle
) -> FramedOpening:
    """Return an opening with its lining, arch ribs, ordinates and strap; x0, x1, z0 are its flat's edges [mm]."""
    o = rough.clear
    to_floor = rough.to_floor and z0 <= 0
    width = rough.right - rough.left
    return FramedOpening(
        id=f"{wall}/{o.name}",
        name=o.name,
        wall=wall,
        flat=flat,
        kind=o.kind,
        clear=(o.left, o.sill, o.width, o.height),
        rough=(rough.left, rough.bottom, width, rough.top - rough.bottom),
        rise=o.rise,
        radius=arch_radius(width=o.width, rise=o.rise) if o.rise > 0 else None,
        ordinates=arch_ordinates(width=o.width, rise=o.rise, grid=grid) if o.rise > 0 else (),
        ribs=tuple(_ribs(rough, wall, sheet)),
        lining=tuple(_lining(rough, wall, grid)),
        lining_thickness=o.lining,
        strap=snap_up(width + 2 * STRAP_LAP, grid) if to_floor else None,
        near_end=near_end(rough, x0=x0, x1=x1),
        why=Working(
            formula="clear size and, on every side that has them, lining and packing gap",
            inputs=(
                ("clear width", o.width, "mm"),
                ("clear height", o.height, "mm"),
                ("lining", o.lining, "mm"),
                ("gap", o.gap, "mm"),
            ),
            source=COMMON_PRACTICE,
            value=width,
            unit="mm",
        ),
    )


def _ribs(rough: Rough, wall: str, sheet: Sheet) -> Iterable[Rib]:
    """Yield the two pieces that carry the face along an arch: from trimmer and header to the curve."""
    if rough.rise <= 0:
        return
    middle = (rough.left + rough.right) / 2
    arch = [p for p in hole_outline(rough) if p[1] >= rough.spring - 1e-6 and p[1] > rough.bottom]
    right_curve = [p for p in arch if p[0] >= middle - 1e-6]  # from the springing to the crown
    left_curve = [p for p in arch if p[0] <= middle + 1e-6]  # from the crown to the springing
    layers = max(1, math.ceil(RIB / sheet.thickness))
    for side, outline in (
        ("right", (*right_curve, (middle, rough.top), (rough.right, rough.top))),
        ("left", (*left_curve, (rough.left, rough.top), (middle, rough.top))),
    ):
        yield Rib(
            id=f"{wall}/{rough.name}/rib/{side}",
            side="right" if side == "right" else "left",
            sheet=sheet,
            layers=layers,
            outline=_distinct(outline),
            behind=sheet.thickness,
        )


def _distinct(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """Return a ring anticlockwise without repeated corners."""
    kept = [p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > 1e-6]
    return anticlockwise(tuple(kept))


def _lining(rough: Rough, wall: str, grid: LengthStyle) -> Iterable[LiningPiece]:
    """Yield the thickness pieces: head and sill run over the sides; an arch is lined along its curve."""
    o, t = rough.clear, rough.clear.lining
    if t <= 0:
        return
    has_sill = not rough.to_floor
    top = o.sill + o.height - (o.rise if o.rise > 0 else 0.0)
    base = f"{wall}/{o.name}/lining"
    for side, x in (("left", o.left - t), ("right", o.left + o.width)):
        yield LiningPiece(
            id=f"{base}/{side}",
            side="left" if side == "left" else "right",
            x=x,
            z=o.sill,
            wide=t,
            high=top - o.sill,
            deep=o.lining_depth,
            length=snap(top - o.sill, grid),
        )
    if o.rise > 0:
        yield _arch_strip(rough, base, grid)
    else:
        yield _level(f"{base}/head", "head", rough, o.sill + o.height, grid)
    if has_sill:
        yield _level(f"{base}/sill", "sill", rough, o.sill - t, grid)


def _level(identity: str, side: str, rough: Rough, z: float, grid: LengthStyle) -> LiningPiece:
    o = rough.clear
    width = o.width + 2 * o.lining
    return LiningPiece(
        id=identity,
        side="head" if side == "head" else "sill",
        x=o.left - o.lining,
        z=z,
        wide=width,
        high=o.lining,
        deep=o.lining_depth,
        length=snap(width, grid),
    )


def _arch_strip(rough: Rough, base: str, grid: LengthStyle) -> LiningPiece:
    """Return the strip bent along an arch: radius x angle."""
    o = rough.clear
    radius = arch_radius(width=o.width, rise=o.rise)
    half = math.asin(min(o.width / (2 * radius), 1.0))
    angle = 2 * half if o.rise <= radius else 2 * (math.pi - half)
    return LiningPiece(
        id=f"{base}/arch",
        side="arch",
        x=o.left - o.lining,
        z=o.sill + o.height - o.rise,
        wide=o.width + 2 * o.lining,
        high=o.rise + o.lining,
        deep=o.lining_depth,
        length=snap_up(radius * angle, grid),
    )
