"""The triangular plates that hold a frame square."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.carpentry.model import Plate
from lathlight.units import snap_down

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry.jobs import FlatBox, WallJob
    from lathlight.carpentry.openings import Rough


PLATE_SETBACK = 20.0  # corner plates stay clear of the frame's edge [mm] (3/4 in), common practice


def place_corner_plates(job: WallJob, box: FlatBox, inside: Sequence[Rough]) -> tuple[Plate, ...]:
    """Return the triangular plates in the four corners of the frame's back, clear of openings."""
    x0, x1 = box.x0 + PLATE_SETBACK, box.x1 - PLATE_SETBACK
    z0, z1 = box.z0 + PLATE_SETBACK, box.z1 - PLATE_SETBACK
    leg = min(job.corner_plate.width, (x1 - x0) / 2, (z1 - z0) / 2)
    behind = job.wall.sheet.thickness + job.wall.framing.depth
    found: list[Plate] = []
    for name, x, z, dx, dz in (
        ("bottom left", x0, z0, 1, 1),
        ("bottom right", x1, z0, -1, 1),
        ("top right", x1, z1, -1, -1),
        ("top left", x0, z1, 1, -1),
    ):
        free = min([leg, *(_room(o, x, z, dx, dz) for o in inside)])
        if free < 2 * job.wall.framing.width - PLATE_SETBACK:
            continue
        leg_here = snap_down(free, job.grid)
        corner, along, up = (x, z), (x + dx * leg_here, z), (x, z + dz * leg_here)
        outline = (corner, along, up) if dx * dz > 0 else (corner, up, along)
        found.append(
            Plate(
                id=f"{job.wall.name}/{box.name}/corner plate/{name}",
                bracket=job.corner_plate,
                outline=outline,
                behind=behind,
            )
        )
    return tuple(found)


def _room(o: Rough, x: float, z: float, dx: int, dz: int) -> float:
    """Return how long a plate's leg may be before it reaches an opening at its height [mm]."""
    along = (o.left - x) if dx > 0 else (x - o.right)
    up = (o.bottom - z) if dz > 0 else (z - o.top)
    room = max(along, up)
    return math.inf if room > 1e6 else max(room, 0.0)
