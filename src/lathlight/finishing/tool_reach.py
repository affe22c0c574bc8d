"""Where a roller fits between the mouldings and where only a brush does, and the gaps too narrow even for that.

Works on the upright rectangles that mouldings cover on one wall (x along, z up) [mm]. Decides the split of the area and
names the narrow gaps; what they mean is left to ``finish_faults``. Cutting in along the mouldings is not counted here:
it is part of rolling.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

HAIR = 1e-3  # a roller as wide as its gap passes [mm]
TOUCH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered:
    """A rectangle of wall that is not painted with it: under a moulding, or in an opening [mm]."""

    name: str
    x0: float
    z0: float
    x1: float
    z1: float
    stands_out: bool = True  # False: an opening without casing, over which the roller runs on


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The face of one wall above the foot of the flats; a walled side is one that the tool cannot run past."""

    wall: str
    length: float
    height: float
    walled_left: bool
    walled_right: bool
    covered: tuple[Covered, ...]
    floor: float = 0.0  # finished floor, above the foot of the flats [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Clear wall between two things that stand out from it."""

    wall: str
    between: tuple[str, str]
    width: float  # clear distance [mm]
    length: float  # how far it runs [mm]
    x: float  # its middle, wall axes [mm]
    z: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How the free area of a wall divides between the tools [mm2]."""

    wall: str
    roller: float
    brush: float


def tool_reach(field: Field, *, roller: float) -> Reach:
    """Return what of the free wall a roller covers and what is left to the brush.

    Parameters
    ----------
    field
        The wall and what is covered on it.
    roller
        Width of the roller [mm], above 0; it may run up or along.

    Notes
    -----
    The area that a square of the roller's width reaches without touching anything: the morphological opening of the
    free wall. Every edge is upright or level, so it is found exactly on the grid of the edges.

    Raises
    ------
    ValueError
        A roller without width.
    """
    if not roller > 0:
        raise ValueError(f"a roller {roller:g} mm wide")
    w = roller - HAIR
    boxes = [*_boxes(c for c in field.covered if c.stands_out), *_rims(field, beyond=2 * roller)]
    every = [*boxes, *_boxes(field.covered), (0.0, field.floor, field.length, field.height)]
    low_x, high_x, low_z, high_z = _window(field, beyond=2 * roller)
    xs = _lines([v for b in every for v in (b[0] - w, b[0], b[2])], low_x, high_x)
    zs = _lines([v for b in every for v in (b[1] - w, b[1], b[3])], low_z, high_z)
    blocked = _marked(xs, zs, ((a - w, c - w, b, d) for a, c, b, d in boxes))  # corners from which it would touch
    reached = _widened(_widened(~blocked, xs, w).T, zs, w).T
    free = _marked(xs, zs, [(0.0, field.floor, field.length, field.height)]) & ~_marked(xs, zs, _boxes(field.covered))
    cells = np.outer(np.diff(xs), np.diff(zs))
    rolled = float(cells[free & reached].sum())
    return Reach(wall=field.wall, roller=rolled, brush=max(float(cells[free].sum()) - rolled, 0.0))


def frame_strips(name: str, *, x0: float, z0: float, x1: float, z1: float, broad: float) -> tuple[Covered, ...]:
    """Return the four strips of wall that a moulding frame covers, all by its name: uprights whole [mm]."""
    return (
        Covered(name=name, x0=x0, z0=z0, x1=x0 + broad, z1=z1),
        Covered(name=name, x0=x1 - broad, z0=z0, x1=x1, z1=z1),
        Covered(name=name, x0=x0 + broad, z0=z0, x1=x1 - broad, z1=z0 + broad),
        Covered(name=name, x0=x0 + broad, z0=z1 - broad, x1=x1 - broad, z1=z1),
    )


def _boxes(covered: Iterable[Covered]) -> list[tuple[float, float, float, float]]:
    return [(c.x0, c.z0, c.x1, c.z1) for c in covered]


def _rims(field: Field, *, beyond: float) -> Iterable[tuple[float, float, float, float]]:
    """Yield what lies beyond the walled sides; over the top and past a free end the roller runs out."""
    low_x, high_x, low_z, high_z = _window(field, beyond=beyond)
    yield low_x, low_z, high_x, field.floor
    if field.walled_left:
        yield low_x, low_z, 0.0, high_z
    if field.walled_right:
        yield field.length, low_z, high_x, high_z


def _window(field: Field, *, beyond: float) -> tuple[float, float, float, float]:
    return -beyond, field.length + beyond, -beyond, field.height + beyond


def _lines(values: Iterable[float], low: float, high: float) -> NDArray[np.float64]:
    return np.unique(np.clip(np.array([low, high, *values]), low, high))


def _marked(
    xs: NDArray[np.float64], zs: NDArray[np.float64], boxes: Iterable[tuple[float, float, float, float]]
) -> NDArray[np.bool_]:
    """Return which cells of the grid the boxes cover; box edges lie on the grid or outside it."""
    cells = np.zeros((len(xs) - 1, len(zs) - 1), dtype=np.bool_)
    for x0, z0, x1, z1 in boxes:
        a, b = np.searchsorted(xs, (x0 - TOUCH, x1 - TOUCH))
        c, d = np.searchsorted(zs, (z0 - TOUCH, z1 - TOUCH))
        cells[a:b, c:d] = True
    return cells


def _widened(cells: NDArray[np.bool_], lines: NDArray[np.float64], by: float) -> NDArray[np.bool_]:
    """Return the cells with each reaching further along the first axis by so much; where it ends lies on the grid."""
    ends = np.searchsorted(lines, lines[1:] + by - TOUCH)
    wider = np.zeros_like(cells)
    for i, end in enumerate(ends.tolist()):
        wider[i:end] |= cells[i]
    return wider


def gaps_between(field: Field, *, narrower: float) -> tuple[Gap, ...]:
    """Return the clear gaps narrower than a width [mm] between things that face each other, narrowest first.

    Two things face each other where they overlap along or up the wall and nothing stands between them. Inside corners
    and the floor count as things; what touches leaves no gap. Stretches between the same two that follow each other are
    one gap, as along a frame's side and its corners; a gap within a frame has its name twice.
    """
    things = [*(c for c in field.covered if c.stands_out), *_borders(field)]
    openings = [c for c in field.covered if not c.stands_out]
    found: dict[tuple[str, str, bool, float, float], list[tuple[float, float]]] = {}
    for a, b in itertools.combinations(things, 2):
        clear = _clear(a, b)
        if clear is not None and clear.high - clear.low < narrower - HAIR:
            others = [t for t in (*things, *openings) if t is not a and t is not b]
            between = [stood for t in others for stood in _stood_in(clear, t)]
            key = (*clear.between, clear.upright, clear.low, clear.high)
            found.setdefault(key, []).extend(_left_over(clear, between))
    gaps = [_gap(field.wall, key, stretch) for key, stretches in found.items() for stretch in _run_together(stretches)]
    return tuple(sorted(gaps, key=lambda g: (g.width, g.x, g.z)))


def _borders(field: Field) -> Iterable[Covered]:
    yield Covered(name="floor", x0=0.0, z0=field.floor, x1=field.length, z1=field.floor)
    if field.walled_left:
        yield Covered(name="left corner", x0=0.0, z0=0.0, x1=0.0, z1=field.height)
    if field.walled_right:
        yield Covered(name="right corner", x0=field.length, z0=0.0, x1=field.length, z1=field.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Clear:
    """The clear rectangle between two things: across from low to high, along from start to end [mm]."""

    between: tuple[str, str]  # left or lower first
    upright: bool  # True: the gap runs up
    low: float
    high: float
    start: float
    end: float


def _clear(a: Covered, b: Covered) -> _Clear | None:
    """Return what lies between two things that face each other; None where they touch or stand askew."""
    left, right = sorted((a, b), key=lambda t: (t.x0, t.x1))
    lower, upper = sorted((a, b), key=lambda t: (t.z0, t.z1))
    x0, x1 = max(a.x0, b.x0), min(a.x1, b.x1)
    z0, z1 = max(a.z0, b.z0), min(a.z1, b.z1)
    if x1 - x0 > TOUCH and upper.z0 - lower.z1 > TOUCH:
        return _Clear(between=(lower.name, upper.name), upright=False, low=lower.z1, high=upper.z0, start=x0, end=x1)
    if z1 - z0 > TOUCH and right.x0 - left.x1 > TOUCH:
        return _Clear(between=(left.name, right.name), upright=True, low=left.x1, high=right.x0, start=z0, end=z1)
    return None


def _stood_in(clear: _Clear, thing: Covered) -> Iterable[tuple[float, float]]:
    """Yield the stretch of a gap in which another thing stands, if any."""
    x, z = (thing.x0, thing.x1), (thing.z0, thing.z1)
    across, along = (x, z) if clear.upright else (z, x)
    if across[0] < clear.high - TOUCH and across[1] > clear.low + TOUCH:
        yield along


def _left_over(clear: _Clear, taken: Iterable[tuple[float, float]]) -> Iterable[tuple[float, float]]:
    at = clear.start
    for start, end in sorted(taken):
        if min(start, clear.end) - at > TOUCH:
            yield at, min(start, clear.end)
        at = max(at, end)
    if clear.end - at > TOUCH:
        yield at, clear.end


def _run_together(stretches: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return stretches with those joined that touch."""
    joined: list[tuple[float, float]] = []
    for start, end in sorted(stretches):
        if joined and start <= joined[-1][1] + TOUCH:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def _gap(wall: str, key: tuple[str, str, bool, float, float], stretch: tuple[float, float]) -> Gap:
    first, second, upright, low, high = key
    across, along = (low + high) / 2, (stretch[0] + stretch[1]) / 2
    return Gap(
        wall=wall,
        between=(first, second),
        width=high - low,
        length=stretch[1] - stretch[0],
        x=across if upright else along,
        z=along if upright else across,
    )
