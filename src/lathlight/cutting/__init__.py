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

__all__ = [
    "BoardJob",
    "BoardPlan",
    "Inequality",
    "Layout",
    "Piece",
    "Proof",
    "Stock",
    "WorkLimit",
    "check_boards",
    "recheck",
    "solve_boards",
]
