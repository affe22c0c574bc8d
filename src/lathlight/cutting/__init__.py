"""Cutting boards and sheets out of stock: plans with proven cost, and the bounds that prove them."""

from lathlight.cutting.board_model import (
    BoardJob,
    BoardPlan,
    Inequality,
    Layout,
    Piece,
    Proof,
    Stock,
    WorkLimit,
)
from lathlight.cutting.board_replay import check_boards
from lathlight.cutting.boards import solve_boards
from lathlight.cutting.certificate import recheck
from lathlight.cutting.sheet_certificate import recheck_sheets
from lathlight.cutting.sheet_cutting import solve_sheets
from lathlight.cutting.sheet_jobs import SheetItem, SheetJob, SheetStock
from lathlight.cutting.sheet_plan import CutSheet, SawCut, SheetPart, SheetPiece, SheetPlan
from lathlight.cutting.sheet_replay import check_sheets
from lathlight.cutting.sheet_watch import SheetWork

__all__ = [
    "BoardJob",
    "BoardPlan",
    "CutSheet",
    "Inequality",
    "Layout",
    "Piece",
    "Proof",
    "SawCut",
    "SheetItem",
    "SheetJob",
    "SheetPart",
    "SheetPiece",
    "SheetPlan",
    "SheetStock",
    "SheetWork",
    "Stock",
    "WorkLimit",
    "check_boards",
    "check_sheets",
    "recheck",
    "recheck_sheets",
    "solve_boards",
    "solve_sheets",
]
