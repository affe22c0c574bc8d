"""The frozen Plan and the stages that lead to it."""

from lathlight.plan.cache import Memo
from lathlight.plan.marks import wall_marks
from lathlight.plan.model import Plan
from lathlight.plan.stages import derive
from lathlight.plan.trim import derive_proportions

__all__ = ["Memo", "Plan", "derive", "derive_proportions", "wall_marks"]
