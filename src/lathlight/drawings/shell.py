"""The room itself in plan: its walls with their doors, pillars, and what must stay free."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.hatch import hatch
from lathlight.drawings.labels import words_in
from lathlight.drawings.outlines import bounds_of, intervals_without
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.text import NOTE_SIZE, make_text
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.drawings.labels import Taken
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point
    from lathlight.plan import Plan
    from lathlight.project import ClearArea, DoorBrief
    from lathlight.units import LengthStyle

SHELL = 2.5  # thickness that stands for the room's walls [mm of paper]
SPARSE = 3.2  # between hatch lines of what must stay free [mm of paper]
ARC_STEPS = 12


def shell_items(plan: Plan, scale: float) -> list[Item]:
    """Return the room's walls with gaps at its doors."""
    room = plan.brief.room
    outline = room.outline
    outer = _offset(outline, SHELL * scale)
    items: list[Item] = []
    for (a, b), (c, d) in zip(sides_of(outline), sides_of(outer), strict=True):
        length = math.dist(a, b)
        gaps = [gap for door in room.doors if (gap := _gap_on(a, b, door)) is not None]
        for low, high in intervals_without((0.0, length), gaps):
            inner = _between(a, b, low / length), _between(a, b, high / length)
            out = _outer_point(a, b, c, d, low), _outer_point(a, b, c, d, high)
            ring = (*inner, out[1], out[0])
            items.append(hatch(ring, scale=scale))
            items.append(Line(a=inner[0], b=inner[1], pen=Pen.CUT))
            edges = [out, *_jambs(inner, out, low, high, length)]
            items += [Line(a=p, b=q, pen=Pen.LIGHT) for p, q in edges]
    return items


def _jambs(
    inner: tuple[Point, Point], out: tuple[Point, Point], low: float, high: float, length: float
) -> list[tuple[Point, Point]]:
    """Return the ends of a stretch of wall that lie at a door."""
    ends: list[tuple[Point, Point]] = []
    if low > 0:
        ends.append((inner[0], out[0]))
    if high < length:
        ends.append((inner[1], out[1]))
    return ends


def _outer_point(a: Point, b: Point, c: Point, d: Point, along: float) -> Point:
    """Return the outer face's point beside a place of the inner face; its own corner at the ends."""
    length = math.dist(a, b)
    if along <= 0:
        return c
    if along >= length:
        return d
    foot = _between(a, b, along / length)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    deep = (c[0] - a[0]) * uy - (c[1] - a[1]) * ux
    return foot[0] + uy * deep, foot[1] - ux * deep


def sides_of(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    """Return the sides of an outline, in order."""
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _offset(ring: Sequence[Point], out: float) -> Ring:
    """Return an anticlockwise outline moved outwards with mitred corners."""
    found: list[Point] = []
    for index, point in enumerate(ring):
        before, after = ring[index - 1], ring[(index + 1) % len(ring)]
        n1, n2 = _outward(before, point), _outward(point, after)
        share = max(1 + n1[0] * n2[0] + n1[1] * n2[1], 0.2)
        found.append((point[0] + out * (n1[0] + n2[0]) / share, point[1] + out * (n1[1] + n2[1]) / share))
    return tuple(found)


def _outward(a: Point, b: Point) -> Point:
    """Return the unit vector to the right of the way from a to b: out of an anticlockwise outline."""
    length = math.dist(a, b)
    return (b[1] - a[1]) / length, (a[0] - b[0]) / length


def _gap_on(a: Point, b: Point, door: DoorBrief) -> tuple[float, float] | None:
    """Return the stretch of a side that a door takes, or None where it is in another side."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    places: list[float] = []
    for px, py in (door.a, door.b):
        if abs((px - a[0]) * uy - (py - a[1]) * ux) > 1.0:
            return None
        places.append((px - a[0]) * ux + (py - a[1]) * uy)
    low, high = sorted(places)
    return (low, high) if low > -1.0 and high < length + 1.0 else None


def door_items(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return every door's leaf, swing, name and clear size."""
    items: list[Item] = []
    style = plan.brief.style
    for door in plan.brief.room.doors:
        side = next((s for s in sides_of(plan.brief.room.outline) if _gap_on(*s, door) is not None), None)
        if side is None:
            continue
        nx, ny = _outward(*side)
        items += _swing(door, (-nx, -ny))
        size = clear_size(door.clear_width, door.clear_height, style)
        middle = _between(door.a, door.b, 0.5)
        align = "centre" if abs(ny) > abs(nx) else "right" if nx < 0 else "left"
        step = 1.3 * NOTE_SIZE * scale
        out = (SHELL + 2) * scale
        first = middle[1] + ny * out - (NOTE_SIZE * scale if ny < -0.5 else -step if ny > 0.5 else 0.0)
        for number, words in enumerate((door.name, f"{size} clear")):
            texts = (
                make_text(words, at=(x, first - number * step), scale=scale, align=align)
                for x in (middle[0] + nx * (out + k * scale) for k in range(0, 30, 3))
            )
            text = taken.first_free(texts)
            items += [text] if text else []
    return items


def _swing(door: DoorBrief, inward: Point) -> list[Item]:
    """Return a leaf that stands open into the room, and the arc it goes through."""
    wide = math.dist(door.a, door.b)
    (ax, ay), (bx, by) = door.a, door.b
    along = (bx - ax) / wide, (by - ay) / wide
    arc = tuple(
        (
            ax + wide * (math.cos(turn) * along[0] + math.sin(turn) * inward[0]),
            ay + wide * (math.cos(turn) * along[1] + math.sin(turn) * inward[1]),
        )
        for turn in (k * math.pi / 2 / ARC_STEPS for k in range(ARC_STEPS + 1))
    )
    return [
        Line(a=door.a, b=arc[-1], pen=Pen.OUTLINE),
        Path(points=arc, closed=False, pen=Pen.LIGHT),
    ]


def area_items(area: ClearArea, scale: float, *, keep_clear: bool) -> list[Item]:
    """Return a pillar or a place that must stay free, with its name."""
    x0, y0, x1, y1 = bounds_of(area.outline)
    items: list[Item] = [
        hatch(
            area.outline,
            scale=scale,
            spacing=SPARSE if keep_clear else 1.0,
            angle=3 * math.pi / 4 if keep_clear else math.pi / 4,
        ),
        Path(points=area.outline, closed=True, pen=Pen.OVERHEAD if keep_clear else Pen.CUT),
    ]
    lines = (area.name, "keep clear") if keep_clear else (area.name,)
    return [*items, *words_in(lines, low=(x0, y0), high=(x1, y1), scale=scale)]


def clear_size(width: float, height: float, style: LengthStyle) -> str:
    """Return a clear width and height in words."""
    return f"{drawing_length(width, style=style)} × {drawing_length(height, style=style)}"
