"""Whether a flat goes through doors, corridors, turns, stairs and vehicles, and stands up under the ceiling."""

from lathlight.passage.bends import longest_round_corner
from lathlight.passage.corridors import passes_corridor, passes_stairs, passes_turn
from lathlight.passage.doors import passes_door
from lathlight.passage.flats import flat_passage, widest_that_passes
from lathlight.passage.model import FlatPassage, Passing
from lathlight.passage.rectangles import fits_rectangle, widest_fitting
from lathlight.passage.tilt import UNDER_CEILING, raises, turned_up, walked_up
from lathlight.passage.vehicle import passes_vehicle, stacked
from lathlight.passage.ways import CLEARANCE

__all__ = [
    "CLEARANCE",
    "UNDER_CEILING",
    "FlatPassage",
    "Passing",
    "fits_rectangle",
    "flat_passage",
    "longest_round_corner",
    "passes_corridor",
    "passes_door",
    "passes_stairs",
    "passes_turn",
    "passes_vehicle",
    "raises",
    "stacked",
    "turned_up",
    "walked_up",
    "widest_fitting",
    "widest_that_passes",
]
