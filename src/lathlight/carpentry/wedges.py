"""The ripped wedges that fill a flat's square ends at oblique corners."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.carpentry.corners import wedge_outline
from lathlight.carpentry.framing import letter
from lathlight.carpentry.jobs import thickness
from lathlight.carpentry.model import Member
from lathlight.working import GEOMETRY, Working

if TYPE_CHECKING:
    from lathlight.carpentry.jobs import FlatBox, WallJob
    from lathlight.carpentry.model import WallEnd


def corner_wedges(job: WallJob, box: FlatBox, letters: int) -> list[Member]:
    """Return the ripped wedges that fill a square frame end up to the plane of an oblique corner."""
    sides: tuple[tuple[str, WallEnd, bool, float, float], ...] = (
        ("left", job.left, box.first, -1.0, 0.0),
        ("right", job.right, box.last, 1.0, job.wall.length),
    )
    found: list[Member] = []
    for side, end, here, sign, datum in sides:
        outline = wedge_outline(end, thickness(job.wall)) if here else None
        if outline is not None:
            section = tuple((datum + sign * p, behind) for p, behind in outline)
            found.append(_wedge(job, box, side, end, section, letter(letters + len(found))))
    return found


def _wedge(
    job: WallJob, box: FlatBox, side: str, end: WallEnd, section: tuple[tuple[float, float], ...], mark: str
) -> Member:
    xs, depths = [p[0] for p in section], [p[1] for p in section]
    return Member(
        id=f"{job.wall.name}/{box.name}/wedge/{side}",
        wall=job.wall.name,
        flat=box.name,
        role="wedge",
        mark=mark,
        stock=job.wall.framing,
        upright=True,
        laid_flat=False,
        x=min(xs),
        z=box.z0,
        behind=min(depths),
        wide=max(xs) - min(xs),
        high=box.z1 - box.z0,
        deep=max(depths) - min(depths),
        length=box.z1 - box.z0,
        ends=(0.0, 0.0),
        ripped=True,
        may_be_offcut=True,
        straightest=False,
        section=section,
        why=Working(
            formula="frame depth x |cot of the corner angle|: the wedge a square end leaves open",
            inputs=(("corner angle", end.angle, "rad"), ("frame depth", job.wall.framing.depth, "mm")),
            source=GEOMETRY,
            value=end.frame.wedge,
            unit="mm",
        ),
    )
