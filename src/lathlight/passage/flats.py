"""One flat on its whole way in: every stage from the vehicle to the room, a door of the room, and standing up.

A flat is a box of width, height and depth here. Between stages it may be set down and taken up another way.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from lathlight.passage.bends import RIGHT_ANGLE
from lathlight.passage.corridors import passes_corridor, passes_stairs, passes_turn
from lathlight.passage.doors import passes_door
from lathlight.passage.model import FlatPassage
from lathlight.passage.tilt import raises
from lathlight.passage.vehicle import passes_vehicle

if TYPE_CHECKING:
    from lathlight.passage.model import Passing
    from lathlight.project import DoorBrief, Passage, RoomBrief

LARGEST = 100_000.0  # a flat this wide passes only where nothing limits it [mm]
STEP = 0.001  # fineness of the widest that passes [mm]


def flat_passage(flat_id: str, *, width: float, height: float, depth: float, room: RoomBrief) -> FlatPassage:
    """Return how a flat comes into its room and stands up there.

    Parameters
    ----------
    flat_id
        Id of the flat.
    width, height, depth
        Of the flat, trim and hardware included [mm].
    room
        Its doors, its ceiling and the way in. Where it has several doors, any one that passes will do; a door that
        the way in names already is not passed twice. A room without doors or a way in limits nothing.
    """
    stages = _stages(width, height, depth, room)
    return FlatPassage(
        flat=flat_id,
        stages=stages,
        raises=raises(width=width, height=height, depth=depth, ceiling=room.ceiling),
        passes=all(stage.passes for stage in stages),
    )


def widest_that_passes(*, height: float, depth: float, room: RoomBrief) -> float:
    """Return the largest face width with which a flat of this height and depth still gets into the room [mm].

    Infinite where nothing limits it, zero where no width gets in. Found by halving: a narrower flat passes wherever a
    wider one does, since it lies inside it. Rounded down to a thousandth of a millimetre.
    """
    return _widest(height, depth, room)


@lru_cache(maxsize=512)
def _widest(height: float, depth: float, room: RoomBrief) -> float:
    def passes(width: float) -> bool:
        return all(stage.passes for stage in _stages(width, height, depth, room))

    if passes(LARGEST):
        return math.inf
    if not passes(STEP):
        return 0.0
    low, high = 0, round(LARGEST / STEP)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if passes(middle * STEP) else (low, middle)
    return low * STEP


def _stages(width: float, height: float, depth: float, room: RoomBrief) -> tuple[Passing, ...]:
    stages = [_stage(width, height, depth, passage) for passage in room.way_in]
    named = {passage.name for passage in room.way_in}
    if room.doors and not any(door.name in named for door in room.doors):
        stages.append(_best_door(width, height, depth, room.doors))
    return tuple(stages)


def _best_door(width: float, height: float, depth: float, doors: tuple[DoorBrief, ...]) -> Passing:
    """Return the first door that lets the flat in, or else the one that comes nearest to it."""
    tried = [
        passes_door(
            name=door.name,
            width=width,
            height=height,
            depth=depth,
            door_width=door.clear_width,
            door_height=door.clear_height,
            run_inside=door.run_inside,
        )
        for door in doors
    ]
    for passing in tried:
        if passing.passes:
            return passing
    return min(tried, key=lambda p: p.figure / p.limit if p.limit > 0 else math.inf)


def _stage(width: float, height: float, depth: float, passage: Passage) -> Passing:
    name, across, up = passage.name, passage.clear_width, passage.clear_height
    match passage.kind:
        case "door":
            return passes_door(name=name, width=width, height=height, depth=depth, door_width=across, door_height=up)
        case "corridor":
            return passes_corridor(
                name=name, width=width, height=height, depth=depth, clear_width=across, clear_height=up
            )
        case "turn":
            return passes_turn(
                name=name,
                width=width,
                height=height,
                depth=depth,
                clear_width=across,
                next_width=passage.next_width or across,
                clear_height=up,
                angle=passage.turn_angle or RIGHT_ANGLE,
            )
        case "stairs":
            return passes_stairs(
                name=name,
                width=width,
                height=height,
                depth=depth,
                clear_width=across,
                clear_height=up,
                slope=passage.slope,
            )
        case "vehicle":
            return passes_vehicle(
                name=name,
                width=width,
                height=height,
                depth=depth,
                load_width=across,
                load_height=up,
                load_length=passage.length,
            )
