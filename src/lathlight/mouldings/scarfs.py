"""Where a run that is longer than the stock is joined.

Decides, in this order: fewest joints; none near a picture's middle line; no piece so short that it looks a mistake;
each joint on a stud; as far from the pictures as can be; the shortest piece as long as can be. The best chain of places
is found by dynamic programming. How the joint is cut and which piece lies over the other is left to
``lathlight.mouldings.trim_ends``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.units import snap, snap_down

if TYPE_CHECKING:
    from lathlight.mouldings.trim_model import PictureMiddle
    from lathlight.units import LengthStyle

SHORTEST = 300.0  # a piece below this looks a mistake at the end of a run [mm]: common practice, no source
LEAST_OVERLAPS = 2.0  # a piece between two joints is longer than both of them
TOUCH = 1e-6

Cost = tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScarfJob:
    """One stretch of moulding and what its joints keep to [mm along the wall]."""

    start: float
    end: float
    before: float  # how far the first piece's long point lies before the start
    beyond: float  # how far the last piece's long point lies beyond the end
    longest: float  # stock, less what is cut off its factory end
    overlap: float  # length of the sloping joint along the wall
    studs: tuple[float, ...]
    middles: tuple[PictureMiddle, ...]
    grid: LengthStyle


def place_scarfs(job: ScarfJob) -> tuple[float, ...] | None:
    """Middles of the joints along the wall [mm], left to right; empty where one length does, None where none can.

    A joint is centred on its place: either piece reaches half the overlap past it.
    """
    if _fits(job, job.start, job.end):
        return ()
    places = [job.start, *_candidates(job), job.end]
    best: list[tuple[Cost, int] | None] = [((0.0, 0.0, 0.0, 0.0, -math.inf, -math.inf), -1)]
    for j in range(1, len(places)):
        found: tuple[Cost, int] | None = None
        for i in range(j):
            before = best[i]
            if before is None or not _fits(job, places[i], places[j]):
                continue
            cost = _with_piece(job, before[0], places[i], places[j])
            if found is None or cost < found[0]:
                found = (cost, i)
        best.append(found)
    return _chain(best, places)


def near_middle(place: float, middles: tuple[PictureMiddle, ...]) -> PictureMiddle | None:
    """Return the picture whose middle a joint at this place would be seen in, the nearest of them; or None."""
    seen = [m for m in middles if abs(place - m.at) < m.clear - TOUCH]
    return min(seen, key=lambda m: (abs(place - m.at), m.at, m.picture), default=None)


def _chain(best: list[tuple[Cost, int] | None], places: list[float]) -> tuple[float, ...] | None:
    last = best[-1]
    if last is None:
        return None
    back: list[float] = []
    step = last[1]
    while step > 0:
        back.append(places[step])
        before = best[step]
        assert before is not None  # only places that were reached are stepped from
        step = before[1]
    return tuple(reversed(back))


def _fits(job: ScarfJob, a: float, b: float) -> bool:
    whole = a == job.start and b == job.end
    if not whole and b - a < LEAST_OVERLAPS * job.overlap:
        return False
    left = job.before if a == job.start else job.overlap / 2
    right = job.beyond if b == job.end else job.overlap / 2
    return left + (b - a) + right <= job.longest + TOUCH


def _with_piece(job: ScarfJob, before: Cost, a: float, b: float) -> Cost:
    """Cost of the joints up to a, with the piece from a to b and, unless it ends the run, the joint at b."""
    joints, seen, short, off, near, least = before
    short += b - a < SHORTEST - TOUCH
    least = max(least, -round(b - a, 6))
    if b < job.end:
        joints += 1
        seen += near_middle(b, job.middles) is not None
        off += all(abs(b - s) > float(job.grid.step) / 2 + TOUCH for s in job.studs)
        near = max(near, -round(min((abs(b - m.at) for m in job.middles), default=math.inf), 6))
    return joints, seen, short, off, near, least


def _candidates(job: ScarfJob) -> list[float]:
    """Return studs, the bounds of what pictures see first, whole lengths from either end, equal shares; on the grid."""
    step = snap_down(job.longest - job.overlap - max(job.before, job.beyond, 0.0), job.grid)
    found = {snap(s, job.grid) for s in job.studs}
    found |= {snap(m.at + side * m.clear, job.grid) for m in job.middles for side in (-1, 1)}
    if step > 0:
        count = math.ceil((job.end - job.start) / step)
        found |= {snap(job.start + k * step, job.grid) for k in range(1, count)}
        found |= {snap(job.end - k * step, job.grid) for k in range(1, count)}
        found |= {snap(job.start + (job.end - job.start) * k / count, job.grid) for k in range(1, count)}
    inner = sorted(p for p in found if job.start + TOUCH < p < job.end - TOUCH)
    assert all(a < b for a, b in pairwise(inner))
    return inner
