"""A set with every kind of moulding, in both systems: unequal walls, corners of 110 and 90 degrees. All invented."""

from __future__ import annotations

from functools import cache
from typing import Literal

from lathlight.catalog import load_catalog
from lathlight.plan import Plan, derive
from lathlight.project import parse_project, resolve

PROFILES = {
    "metric": ("base 120", "rail 57", "cornice 92 at 38", "panel 20", "casing 57", "ply 9 mm", "38x63"),
    "imperial": (
        "base 5 1-4 in",
        "rail 2 5-8 in",
        "cornice 3 5-8 in at 38",
        "panel 3-4 in",
        "casing 2 1-4 in",
        "ply 3-8 in",
        "2x3",
    ),
}


@cache
def moulded_plan(
    system: Literal["metric", "imperial"] = "metric",
    *,
    inside: Literal["mitre", "cope"] = "mitre",
    blocks: bool = False,
) -> Plan:
    """Return the plan of a clockmaker's attic.

    Parameters
    ----------
    system
        Units and mouldings.
    inside
        How the rail is joined at inside corners: "mitre" or "cope".
    blocks
        Corner blocks in the casing of the window.
    """
    base, rail, cornice, panel, casing, sheet, framing = PROFILES[system]
    text = f"""
format = 1
[project]
title = "Clockmaker's attic"
units = "{system}"
[room]
width = "8000 mm"
depth = "6500 mm"
ceiling = "2700 mm"
[set]
height = "2438.4 mm"
sheet = "{sheet}"
framing = "{framing}"
clear_behind = "600 mm"
[floor]
covering = "boards"
thickness = "8 mm"
expansion_gap = "8 mm"
[[walls]]
name = "left"
length = "2946.4 mm"
angle_to_next = 110
[[walls]]
name = "back"
length = "3987.8 mm"
angle_to_next = 90
[[walls.openings]]
name = "hatch"
kind = "window"
at = "1219.2 mm"
width = "914.4 mm"
height = "914.4 mm"
sill = "1066.8 mm"
casing = "{casing}"
corner_blocks = {str(blocks).lower()}
[[walls]]
name = "right"
length = "2133.6 mm"
[[trim]]
name = "base"
kind = "base"
profile = "{base}"
loose = true
[[trim]]
name = "rail"
kind = "rail"
profile = "{rail}"
height = "863.6 mm"
inside = "{inside}"
loose = true
[[trim]]
name = "cornice"
kind = "cornice"
profile = "{cornice}"
spring = 38
[[moulding_frames]]
name = "low"
profile = "{panel}"
bottom = "228.6 mm"
top = "736.6 mm"
gap = "101.6 mm"
[[moulding_frames]]
name = "high"
profile = "{panel}"
bottom = "965.2 mm"
top = "2133.6 mm"
gap = "101.6 mm"
[[sitters]]
name = "clockmaker"
stature = "1720 mm"
forward = "1500 mm"
[[pictures]]
name = "at the bench"
lens = 50
sensor = [24, 36]
framing = "half length"
angles = [-10, 10]
camera_height = "1250 mm"
sitters = ["clockmaker"]
"""
    catalog = load_catalog()
    project = parse_project(text, name="attic.toml", catalog=catalog)
    return derive(resolve(project, catalog, place="attic.toml", text=text))
