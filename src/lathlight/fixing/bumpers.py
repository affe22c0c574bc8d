"""Where the set stands so near to the room's wall or a pillar that a soft pad keeps the two apart.

Decides places; that the set fits into the room at all is checked elsewhere.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.fixing.lands import nearest_on
from lathlight.fixing.model import Bumper

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import BuiltWall, Flat
    from lathlight.fixing.model import Point
    from lathlight.layout import Layout, Pose, WallLine

NEARER = 300.0  # a flat nearer to the room than this gets bumpers [mm], 12 in: common practice, no source
FROM_END = 300.0  # a bumper's height from the flat's foot and head [mm]: common practice, no source
SAME_SPOT = 100.0  # two pads nearer to each other than this are one [mm]: common practice, no source
Side = tuple["Point", "Point"]
End = Literal["left", "right", "between"]
Face = Literal["back", "end", "front"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Near:
    """How near one side of a flat is to something in the room."""

    distance: float
    on: Point  # the nearest place of the side, room axes
    to: Point  # what it is nearest to
    name: str


def place_bumpers(
    walls: Sequence[BuiltWall],
    layout: Layout,
    *,
    room: Sequence[Point],
    pillars: Sequence[Sequence[Point]],
    nearer: float = NEARER,
) -> tuple[Bumper, ...]:
    """Return two bumpers, low and high, at every end of a flat that stands nearer than a limit to room or pillar.

    A flat that is near only between its ends has them there. Where two flats meet one pad serves both: the first
    flat's.

    Parameters
    ----------
    walls
        As built.
    layout
        Where the set stands in the room.
    room
        The room's outline, room axes [mm].
    pillars
        Outlines of what stands in it.
    nearer
        The limit [mm]; what stands exactly so far away is clear.
    """
    things = [("room", _sides(room)), *((f"pillar {i}", _sides(p)) for i, p in enumerate(pillars, start=1))]
    lines = {line.name: line for line in layout.walls}
    found: list[Bumper] = []
    for wall in walls:
        for flat in wall.flats:
            new = _of_flat(flat, lines[wall.name], layout.pose, things, nearer)
            found += [one for one in new if not any(_serves(other, one) for other in found)]
    return tuple(found)


def _serves(other: Bumper, one: Bumper) -> bool:
    """Return True where a pad sits so near on the same wall, as across a joint of flats, that one will do."""
    return (
        other.wall == one.wall and other.face == one.face and math.hypot(other.x - one.x, other.z - one.z) < SAME_SPOT
    )


def _sides(ring: Sequence[Point]) -> tuple[Side, ...]:
    return tuple(zip(ring, (*ring[1:], ring[0]), strict=True))


def _of_flat(
    flat: Flat, line: WallLine, pose: Pose, things: Sequence[tuple[str, tuple[Side, ...]]], nearer: float
) -> Iterator[Bumper]:
    def room(x: float, behind: float) -> Point:
        return pose.to_room(line.at(along=x, behind=behind))

    x0, x1, depth = flat.sheet_x0, flat.sheet_x1, flat.depth
    nearest: list[tuple[End, float, _Near]] = [
        ("left", x0, _nearest((room(x0, 0.0), room(x0, depth)), things)),
        ("right", x1, _nearest((room(x1, 0.0), room(x1, depth)), things)),
    ]
    close: list[tuple[End, float, _Near]] = [each for each in nearest if each[2].distance < nearer]
    if not close:
        faces = [_nearest((room(x0, behind), room(x1, behind)), things) for behind in (depth, 0.0)]
        near = min(faces, key=lambda each: each.distance)
        if near.distance < nearer:
            close = [("between", x0 + math.dist(near.on, room(x0, depth if near is faces[0] else 0.0)), near)]
    along, back = _towards(room(x0, 0.0), room(x1, 0.0)), _towards(room(x0, 0.0), room(x0, depth))
    for end, x, near in close:
        for z in _heights(flat):
            yield Bumper(
                flat=flat.id,
                wall=flat.wall,
                end=end,
                x=x,
                z=z,
                face=_face(near, along, back),
                near=near.name,
                distance=round(near.distance, 3),
            )


def _towards(a: Point, b: Point) -> Point:
    length = math.dist(a, b)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _face(near: _Near, along: Point, back: Point) -> Face:
    """Return the side of the flat that looks towards what is near; the back where they touch."""
    dx, dy = near.to[0] - near.on[0], near.to[1] - near.on[1]
    sideways, backwards = dx * along[0] + dy * along[1], dx * back[0] + dy * back[1]
    if abs(sideways) > abs(backwards):
        return "end"
    return "back" if backwards >= 0 else "front"


def _heights(flat: Flat) -> tuple[float, ...]:
    if flat.height < 3 * FROM_END:
        return (flat.z0 + flat.height / 2,)
    return flat.z0 + FROM_END, flat.z1 - FROM_END


def _nearest(side: Side, things: Sequence[tuple[str, tuple[Side, ...]]]) -> _Near:
    """Return the nearest that anything comes to one side of a flat, the first of equals."""
    best = _Near(distance=math.inf, on=side[0], to=side[0], name="")
    for name, sides in things:
        for other in sides:
            away, on, to = _apart(side, other)
            if away < best.distance - 1e-6:
                best = _Near(distance=away, on=on, to=to, name=name)
    return best


def _apart(one: Side, other: Side) -> tuple[float, Point, Point]:
    """Distance between two stretches, and the places on both where they are nearest."""
    crossing = _crossing(one, other)
    if crossing is not None:
        return 0.0, crossing, crossing
    found = [(p, nearest_on(p, *other)) for p in one] + [(nearest_on(q, *one), q) for q in other]
    return min((math.dist(p, q), p, q) for p, q in found)


def _crossing(one: Side, other: Side) -> Point | None:
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    turn = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if turn == 0:
        return None
    s = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / turn
    t = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / turn
    return (ax + s * (bx - ax), ay + s * (by - ay)) if 0 <= s <= 1 and 0 <= t <= 1 else None
