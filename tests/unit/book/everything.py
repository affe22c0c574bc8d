"""A set made up for the book: unequal walls, one corner of 110 degrees, and one of everything that is put on walls."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.app import brief_of_text
from lathlight.plan import derive

if TYPE_CHECKING:
    from lathlight.plan import Plan

CABIN = """\
format = 1
[project]
title = "Ferry captain's cabin"
date = 2025-05-02
units = "metric"
paper = "A4"
notes = "Made up: everything at once."

[room]
width = "7 m"
depth = "6 m"
ceiling = "2.9 m"

[[room.doors]]
name = "door"
clear_width = "0.9 m"
clear_height = "2.1 m"

[set]
height = "2.44 m"
sheet = "ply 9 mm"
framing = "38x63"
left_end = "cover strip"
right_end = "return"

[set.flats]
max_width = "1.22 m"

[[walls]]
name = "left"
length = "1.6 m"
angle_to_next = 110
[[walls]]
name = "back"
length = "3.3 m"
angle_to_next = 90
[[walls.openings]]
name = "hatch"
kind = "door"
at = "0.2 m"
width = "0.7 m"
height = "1.98 m"
lining = "18 mm"
casing = "casing 57"
reveal = "5 mm"
plinth_blocks = true
corner_blocks = true
[[walls.openings]]
name = "porthole"
kind = "window"
at = "1.5 m"
width = "0.6 m"
height = "0.7 m"
sill = "1.1 m"
lining = "18 mm"
casing = "casing 57"
reveal = "5 mm"
[[walls]]
name = "right"
length = "1.3 m"

[[trim]]
name = "skirting"
kind = "base"
profile = "base 120"
[[trim]]
name = "dado"
kind = "rail"
profile = "rail 57"
height = "0.9 m"
inside = "cope"
[[trim]]
name = "crown"
kind = "cornice"
profile = "cornice 92 at 38"
loose = true

[[moulding_frames]]
name = "low"
profile = "panel 30"
bottom = "0.22 m"
top = "0.78 m"
gap = "0.1 m"
[[moulding_frames]]
name = "high"
profile = "panel 30"
bottom = "1.0 m"
top = "1.9 m"
gap = "0.1 m"
walls = ["left", "right"]
bought_width = "0.4 m"

[floor]
covering = "oak boards"
thickness = "10 mm"
expansion_gap = "10 mm"
sheet_width = "0.18 m"
sheet_length = "1.8 m"

[finish]
paint = "flat paint"
primer = "primer"
colour = "slate green"
mouldings = "after fixing"

[[sitters]]
name = "captain"
stature = "1.8 m"
forward = "1.5 m"
[[pictures]]
name = "seated"
lens = 50
framing = "three-quarter length"
sitters = ["captain"]
camera_height = "1.3 m"
"""


def everything() -> Plan:
    """Return the plan of the set."""
    return derive(brief_of_text(CABIN, name="cabin.toml"))
