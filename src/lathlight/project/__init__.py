"""What the user said: project files read, checked, changed, written and resolved against the catalogue."""

from lathlight.project.assumed import Assumption, assumptions
from lathlight.project.brief import (
    Brief,
    ClearArea,
    CornerBrief,
    CornerStyle,
    CrewBrief,
    DoorBrief,
    FinishBrief,
    FixingBrief,
    FlatLimitsBrief,
    FloorBrief,
    FramesBrief,
    Hardware,
    Laps,
    Load,
    OpeningBrief,
    Passage,
    PictureBrief,
    PlaceBrief,
    RoomBrief,
    SawBrief,
    SitterBrief,
    TitleBrief,
    TrimLine,
    WallBrief,
    WallEndFinish,
)
from lathlight.project.crew import TEAM, team_lift
from lathlight.project.model import FORMAT, Price, Project
from lathlight.project.places import relocated
from lathlight.project.read import LARGEST, ProjectFile, parse_project, read_project
from lathlight.project.resolve import resolve
from lathlight.project.schema import project_schema
from lathlight.project.upgrade import upgrade
from lathlight.project.write import Change, dump_project, set_values

__all__ = [
    "FORMAT",
    "LARGEST",
    "TEAM",
    "Assumption",
    "Brief",
    "Change",
    "ClearArea",
    "CornerBrief",
    "CornerStyle",
    "CrewBrief",
    "DoorBrief",
    "FinishBrief",
    "FixingBrief",
    "FlatLimitsBrief",
    "FloorBrief",
    "FramesBrief",
    "Hardware",
    "Laps",
    "Load",
    "OpeningBrief",
    "Passage",
    "PictureBrief",
    "PlaceBrief",
    "Price",
    "Project",
    "ProjectFile",
    "RoomBrief",
    "SawBrief",
    "SitterBrief",
    "TitleBrief",
    "TrimLine",
    "WallBrief",
    "WallEndFinish",
    "assumptions",
    "dump_project",
    "parse_project",
    "project_schema",
    "read_project",
    "relocated",
    "resolve",
    "set_values",
    "team_lift",
    "upgrade",
]
