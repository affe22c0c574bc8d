"""Every default that was filled in, called by the key of the file that would state it, and in words.

An id is the key's path with the names of the entries on the way: ``walls/back/openings/hatch/gap``. Fittings have no
key: they follow from the catalogue. Nor has the light of a set that has no lights yet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lathlight.project.brief import Brief
    from lathlight.working import Working

# Tables in the order in which they are shown; after each of the lists an entry's name stands in the id.
TABLES = (
    "project",
    "room/doors",
    "room/way_in",
    "set",
    "set/flats",
    "walls",
    "walls/openings",
    "trim",
    "moulding_frames",
    "floor",
    "fixing",
    "finish",
    "sitters",
    "pictures",
    "lights",
    "workshop",
    "fittings",
)
LISTS = frozenset(("doors", "way_in", "walls", "openings", "trim", "moulding_frames", "sitters", "pictures"))
LABELS: Mapping[str, str] = {
    "project/paper": "paper",
    "project/precision": "smallest step",
    "project/revision": "revision",
    "room/doors/side": "side of the room",
    "room/doors/at": "distance from that side's left or front corner",
    "room/doors/run_inside": "free run inside",
    "room/way_in/turn_angle": "turn",
    "room/way_in/slope": "pitch",
    "set/at": "place in the room",
    "set/turn": "turn in the room",
    "set/clear_behind": "depth kept clear behind",
    "set/seams": "what counts first in laying out sheets",
    "set/stands_on": "what the flats stand on",
    "set/left_end": "free end on the left",
    "set/right_end": "free end on the right",
    "set/flats/max_weight": "heaviest flat allowed",
    "walls/sheet": "facing sheet",
    "walls/framing": "framing timber",
    "walls/stud_spacing": "studs at most apart",
    "walls/angle_to_next": "inside angle to the next wall",
    "walls/openings/sill": "sill above the floor",
    "walls/openings/rise": "rise of the arch",
    "walls/openings/lining": "thickness of the lining",
    "walls/openings/lining_depth": "depth of the lining",
    "walls/openings/gap": "gap between lining and frame",
    "walls/openings/reveal": "casing set back",
    "trim/inside": "inside corners",
    "trim/ends": "ends that are seen",
    "moulding_frames/end_gap": "gap at the ends",
    "moulding_frames/centre_on": "what the pattern is centred on",
    "floor/thickness": "thickness of the covering",
    "floor/width": "width of the covering",
    "floor/depth": "depth of the covering",
    "floor/expansion_gap": "gap along the covering's edges",
    "floor/strips": "way the strips run",
    "fixing/sheets": "what holds sheets",
    "fixing/hold": "what holds a glued sheet down",
    "fixing/weight": "weight on glued sheets",
    "fixing/glue": "glue between sheet and frame",
    "fixing/moulding_glue": "glue behind mouldings",
    "fixing/screw_spacing": "screws of a sheet at most apart",
    "fixing/brad_spacing": "brads of a moulding at most apart",
    "fixing/joints": "what holds flats together",
    "finish/paint": "paint",
    "finish/primer": "primer",
    "finish/coats": "coats of paint",
    "finish/primer_coats": "coats of primer",
    "finish/touch_up_percent": "paint kept for touching up",
    "finish/raw_loss_percent": "more on the first coat of bare board",
    "finish/mouldings": "mouldings are painted",
    "finish/mouldings_primed": "bought mouldings",
    "finish/paint_edges": "edges at joints and openings",
    "finish/paint_backs": "backs",
    "finish/roller": "narrowest roller",
    "finish/brush": "narrowest brush",
    "sitters/stature": "stature",
    "sitters/forward": "distance in front of the set's face",
    "sitters/right": "place to the right of the set's axis",
    "sitters/seated": "standing or sitting",
    "sitters/seat_height": "height of the seat",
    "pictures/sitters": "who is in it",
    "pictures/sensor": "frame as held",
    "pictures/framing": "framing",
    "pictures/headroom": "room above the head",
    "pictures/angles": "angle of the camera",
    "pictures/camera_height": "height of the lens",
    "lights/flashed": "light of the set",
    "workshop/people": "people who build and lift",
    "workshop/lift_per_person": "what each lifts",
    "workshop/kerf": "saw kerf",
    "workshop/trim_cut": "cut off factory ends",
    "workshop/spare_boards": "spare boards",
    "fittings/corner plate": "corner plate",
    "fittings/sill strap": "sill strap",
    "fittings/frame screw": "screw in the frames",
    "fittings/corner screw": "screw in the corners",
    "fittings/filler": "filler over heads that are seen",
    "fittings/bracket": "bracket while flats are lined up",
    "fittings/connector": "connector between flats",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """One value that the file does not state."""

    id: str  # "walls/back/openings/hatch/gap"
    table: str  # "walls/openings"
    entry: tuple[str, ...]  # names on the way, outermost first: ("back", "hatch")
    key: str  # "gap"
    why: Working

    @property
    def label(self) -> str:
        """What it is, in words."""
        return LABELS[f"{self.table}/{self.key}"]


def assumptions(brief: Brief) -> tuple[Assumption, ...]:
    """Return every default that was filled in, in the order of the file's tables."""
    found = [_assumption(identity, why) for identity, why in _all(brief)]
    return tuple(sorted(found, key=lambda each: TABLES.index(each.table)))


def _all(brief: Brief) -> Iterator[tuple[str, Working]]:
    yield from brief.assumed.items()
    for wall in brief.walls:
        yield from ((f"walls/{wall.name}/{key}", why) for key, why in wall.assumed.items())
    yield from ((f"set/flats/{key}", why) for key, why in brief.limits.assumed.items())


def _assumption(identity: str, why: Working) -> Assumption:
    *steps, key = identity.split("/")
    table: list[str] = []
    entry: list[str] = []
    for step in steps:
        is_name = bool(table) and table[-1] in LISTS and len(entry) < sum(each in LISTS for each in table)
        (entry if is_name else table).append(step)
    return Assumption(id=identity, table="/".join(table), entry=tuple(entry), key=key, why=why)
