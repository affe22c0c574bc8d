"""What a made-up brief holds where its test is about something else: no covering, the usual paint and fixings."""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING, Literal, TypedDict

from lathlight.catalog import load_catalog
from lathlight.project import parse_project, resolve

if TYPE_CHECKING:
    from lathlight.project import FinishBrief, FixingBrief, FloorBrief

BARE = """\
[project]
title = "Bare"
units = "{units}"
[room]
width = "5 m"
depth = "4 m"
ceiling = "3 m"
[set]
height = "2.4 m"
[[walls]]
name = "back"
length = "2.2 m"
"""


class Plain(TypedDict):
    """The parts of a brief that say nothing of walls."""

    floor: FloorBrief
    finish: FinishBrief
    fixing: FixingBrief


@functools.cache
def plain(units: Literal["metric", "imperial"] = "metric") -> Plain:
    """Return floor, finish and fixing of a file that states none of them."""
    brief = resolve(parse_project(BARE.format(units=units), name="a.toml"), load_catalog(), place="a.toml")
    return Plain(floor=brief.floor, finish=brief.finish, fixing=brief.fixing)
