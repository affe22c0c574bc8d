"""The frozen Plan and the stages that lead to it."""

from lathlight.plan.cache import Memo
from lathlight.plan.marks import wall_marks
from lathlight.plan.model import Plan
from lathlight.plan.saw_boards import SawnBoard, SectionSawing
from lathlight.plan.saw_sheets import SheetSawing
from lathlight.plan.sawing import Sawing, proof_words
from lathlight.plan.stages import derive
from lathlight.plan.trim import derive_proportions

__all__ = [
    "Memo",
    "Plan",
    "Sawing",
    "SawnBoard",
    "SectionSawing",
    "SheetSawing",
    "derive",
    "derive_proportions",
    "proof_words",
    "wall_marks",
]
