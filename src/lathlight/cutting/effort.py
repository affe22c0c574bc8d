"""How much work is left: counted, with the clock and the user's wish to stop beside it.

Counted work alone keeps equal runs equal; a stop by the clock or by the user is labelled.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.cutting.board_model import Ended, WorkLimit
    from lathlight.progress import Progress


class OutOfWorkError(Exception):
    """The work may not go on; caught where the best plan so far is kept."""

    def __init__(self, ended: Ended) -> None:
        super().__init__(ended)
        self.ended: Ended = ended


class Effort:
    """Counts rounds of work and says when to stop."""

    def __init__(self, *, work: WorkLimit, clock: float | None, progress: Progress) -> None:
        self.work = work
        self.progress = progress
        self._rounds = 0
        self._end = None if clock is None else time.monotonic() + clock

    def seconds_left(self) -> float | None:
        """Return the time left [s], or None where no limit was asked for."""
        return None if self._end is None else self._end - time.monotonic()

    def round(self) -> None:
        """Count one round; raise where work, time or patience has run out."""
        self._rounds += 1
        if self._rounds > self.work.rounds:
            raise OutOfWorkError("work limit")
        left = self.seconds_left()
        if left is not None and left <= 0:
            raise OutOfWorkError("clock")
        if self.progress.stop_requested():
            raise OutOfWorkError("asked to stop")

    def say(self, *, cost: int | None, bound: int) -> None:
        """Report the best cost and the bound."""
        done = bound / cost if cost else 0.0
        text = f"best {cost}, bound {bound}" if cost is not None else f"no plan yet, bound {bound}"
        self.progress.report(done=min(1.0, done), text=text)
