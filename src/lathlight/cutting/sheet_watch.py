"""How much work a search of sheets may do, and who may end it sooner.

Counted work alone keeps equal runs equal; a stop by the clock or by the user is labelled.
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.progress import Progress, Quiet

if TYPE_CHECKING:
    from lathlight.cutting.sheet_plan import Ended


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWork:
    """How much a search may do; never the clock, so that equal jobs give equal plans."""

    bound_rounds: int = 120  # rounds of column generation
    plans: int = 64  # plans grown at once
    generations: int = 300  # of such plans, towards a lower cost
    polish: int = 10  # generations more, towards fewer cuts and a larger offcut


class StoppedError(Exception):
    """The search may not go on; caught where the best plan so far is kept."""

    def __init__(self, ended: Ended) -> None:
        super().__init__(ended)
        self.ended: Ended = ended


class Watch:
    """Asked between two steps of work."""

    def __init__(self, *, work: SheetWork, clock: float | None, progress: Progress | None) -> None:
        self.work = work
        self._progress = progress or Quiet()
        self._end = None if clock is None else time.monotonic() + clock

    def pause(self) -> None:
        """Raise where time or patience has run out."""
        if self._progress.stop_requested():
            raise StoppedError("asked to stop")
        if self._end is not None and time.monotonic() >= self._end:
            raise StoppedError("clock")

    def say(self, *, cost: int, bound: int) -> None:
        """Report the best cost and the bound."""
        share = bound / cost if cost else 1.0
        self._progress.report(done=min(1.0, share), text=f"best {cost}, bound {bound}")
