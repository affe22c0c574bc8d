"""Walls in timber and sheet: corners, flats, frames, pieces, lists."""

from lathlight.carpentry.blanks import Blank, wedge_blank
from lathlight.carpentry.corners import WIDEST_LAP, Side, Style, Thickness, chosen_style, free_end, wall_end
from lathlight.carpentry.framable import problems_of_all
from lathlight.carpentry.jobs import WallJob, thickness
from lathlight.carpentry.joins import choose_screw, join_corner, screw_heights
from lathlight.carpentry.laps import Lap, LapChoice, choose_laps, saw_cuts
from lathlight.carpentry.light_enough import build_light_wall
from lathlight.carpentry.model import (
    BuiltWall,
    Corner,
    CornerScrews,
    CutLine,
    Flat,
    FramedOpening,
    Joint,
    LiningPiece,
    Member,
    Packed,
    Plate,
    Reach,
    Rib,
    Role,
    Seam,
    SheetPiece,
    WallEnd,
    Wedge,
)
from lathlight.carpentry.on_sale import OnSale
from lathlight.carpentry.packing import Boards, pack_boards
from lathlight.carpentry.sawn import BoardPart, SheetPart, board_parts, loose_blank, member_blank, sheet_parts
from lathlight.carpentry.solids import flat_solids, member_solid, piece_solid, set_solids
from lathlight.carpentry.takeoff import (
    CutSheet,
    PlacedPiece,
    panel_lines,
    timber_lines,
)
from lathlight.carpentry.together import choose_together, groups_of
from lathlight.carpentry.walls import build_wall, sheet_job_of

__all__ = [
    "WIDEST_LAP",
    "Blank",
    "BoardPart",
    "Boards",
    "BuiltWall",
    "Corner",
    "CornerScrews",
    "CutLine",
    "CutSheet",
    "Flat",
    "FramedOpening",
    "Joint",
    "Lap",
    "LapChoice",
    "LiningPiece",
    "Member",
    "OnSale",
    "Packed",
    "PlacedPiece",
    "Plate",
    "Reach",
    "Rib",
    "Role",
    "Seam",
    "SheetPart",
    "SheetPiece",
    "Side",
    "Style",
    "Thickness",
    "WallEnd",
    "WallJob",
    "Wedge",
    "board_parts",
    "build_light_wall",
    "build_wall",
    "choose_laps",
    "choose_screw",
    "choose_together",
    "chosen_style",
    "flat_solids",
    "free_end",
    "groups_of",
    "join_corner",
    "loose_blank",
    "member_blank",
    "member_solid",
    "pack_boards",
    "panel_lines",
    "piece_solid",
    "problems_of_all",
    "saw_cuts",
    "screw_heights",
    "set_solids",
    "sheet_job_of",
    "sheet_parts",
    "thickness",
    "timber_lines",
    "wall_end",
    "wedge_blank",
]
