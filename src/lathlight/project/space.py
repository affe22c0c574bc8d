"""The room in its own axes, from what the user measured: outline, doors, pillars, areas kept clear, the way in."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.project.brief import ClearArea, DoorBrief, Passage, RoomBrief
from lathlight.project.crossing import area
from lathlight.project.defaults import STAIR_PITCH, usual
from lathlight.working import Working

if TYPE_CHECKING:
    from lathlight.project.crossing import Point
    from lathlight.project.defaults import Filled
    from lathlight.project.model import Door, KeepClear, Pillar, Room, WayIn


def room_brief(room: Room, filled: Filled) -> RoomBrief:
    """Return the room with its outline anticlockwise, and doors and areas as places in room axes.

    What doors and stages of the way in do not state is kept in `filled`.
    """
    outline = _outline(room)
    return RoomBrief(
        outline=outline,
        ceiling=room.ceiling,
        doors=tuple(_door(door, outline, filled.within(f"doors/{door.name}")) for door in room.doors),
        pillars=tuple(_area(pillar, why="it stands there for good") for pillar in room.pillars),
        keep_clear=tuple(_area(each, why=each.why) for each in room.keep_clear),
        way_in=tuple(_passage(stage, filled.within(f"way_in/{stage.name}")) for stage in room.way_in),
    )


def _outline(room: Room) -> tuple[Point, ...]:
    if room.outline is not None:
        return room.outline if area(room.outline) > 0 else room.outline[::-1]
    assert room.width is not None, "the reader has refused a room without width or outline"
    assert room.depth is not None, "the reader has refused a room without depth or outline"
    return ((0.0, 0.0), (room.width, 0.0), (room.width, room.depth), (0.0, room.depth))


def _door(door: Door, outline: tuple[Point, ...], filled: Filled) -> DoorBrief:
    """Return a door in its side; of a room that is no rectangle, in that side of the rectangle around it."""
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    front, back = min(y for _, y in outline), max(y for _, y in outline)
    near, far = door.at, door.at + door.clear_width
    match door.side:
        case "front" | "back":
            y = front if door.side == "front" else back
            ends, inside = ((left + near, y), (left + far, y)), back - front
        case "left" | "right":
            x = left if door.side == "left" else right
            ends, inside = ((x, front + near), (x, front + far)), right - left
    filled.unstated(door, "side", usual("side of the room", door.side))
    filled.unstated(door, "at", usual("place, at the side's beginning", door.at, "mm"))
    across = Working(formula="the room's size across from the door", value=inside, unit="mm")
    return DoorBrief(
        name=door.name,
        clear_width=door.clear_width,
        clear_height=door.clear_height,
        a=ends[0],
        b=ends[1],
        run_inside=filled.unless("run_inside", door.run_inside, inside, across),
    )


def _area(thing: Pillar | KeepClear, *, why: str) -> ClearArea:
    (x, y), width, depth = thing.at, thing.width, thing.depth
    return ClearArea(name=thing.name, outline=((x, y), (x + width, y), (x + width, y + depth), (x, y + depth)), why=why)


def _passage(stage: WayIn, filled: Filled) -> Passage:
    turn, slope = math.pi / 2, math.radians(STAIR_PITCH)
    if stage.kind == "turn":
        filled.unless("turn_angle", stage.turn_angle, turn, usual("turn of a corridor", turn, "rad"))
    if stage.kind == "stairs":
        filled.unless("slope", stage.slope, slope, usual("pitch of stairs", slope, "rad"))
    return Passage(
        name=stage.name,
        kind=stage.kind,
        clear_width=stage.clear_width,
        clear_height=stage.clear_height,
        length=stage.length,
        next_width=stage.next_width,
        turn_angle=turn if stage.turn_angle is None else stage.turn_angle,
        slope=stage.slope if stage.slope is not None else slope if stage.kind == "stairs" else 0.0,
    )
