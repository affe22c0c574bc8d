"""Where the set stands in the room, and what it covers of the floor."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.layout.model import Layout, Pose

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.layout.model import Point, WallLine


def footprint(walls: Sequence[WallLine], depths: Sequence[float]) -> tuple[tuple[Point, ...], ...]:
    """Return the outline of every wall on the floor, sheet and frame together, in set axes [mm].

    Each is the strip from the finished face back to the wall's depth; what runs past at corners is left out.
    """
    strips: list[tuple[Point, ...]] = []
    for wall, depth in zip(walls, depths, strict=True):
        strips.append(
            (
                wall.at(along=0, behind=0),
                wall.at(along=wall.length, behind=0),
                wall.at(along=wall.length, behind=depth),
                wall.at(along=0, behind=depth),
            )
        )
    return tuple(strips)


def place_set(
    walls: Sequence[WallLine],
    *,
    depths: Sequence[float],
    room: Sequence[Point],
    at: Point | None,
    turn: float,
    clear_behind: float,
) -> Layout:
    """Return the layout with the set placed in the room.

    Parameters
    ----------
    walls, depths
        The faces, and the depth of sheet and frame behind each [mm].
    room
        Outline of the room in its own axes [mm].
    at
        Where the foot of the set's axis lies in the room; None: the set stands in the middle of the room's width, with
        ``clear_behind`` between its backmost point and the room's back [mm].
    turn
        Turn of the set [rad], anticlockwise from above.
    clear_behind
        Free depth behind the set [mm]; used where ``at`` is None.
    """
    if at is not None:
        return Layout(walls=tuple(walls), pose=Pose(x=at[0], y=at[1], turn=turn))
    turned = Pose(x=0.0, y=0.0, turn=turn)
    points = [turned.to_room(p) for strip in footprint(walls, depths) for p in strip]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    middle = (min(p[0] for p in room) + max(p[0] for p in room)) / 2
    back = max(p[1] for p in room)
    pose = Pose(x=_whole(middle - (min(xs) + max(xs)) / 2), y=_whole(back - clear_behind - max(ys)), turn=turn)
    return Layout(walls=tuple(walls), pose=pose)


def _whole(value: float) -> float:
    """Return the value rounded down to whole millimetres: a place on the floor is no finer."""
    return float(math.floor(value + 1e-6))
