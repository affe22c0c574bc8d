"""From a project file to its plan and snags.

Decides the order of the steps and tells how far they are. What follows from what is left to ``lathlight.plan``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.app.open import open_project
from lathlight.app.why import plain_figure
from lathlight.errors import InputError
from lathlight.exports import figure_words
from lathlight.plan import Memo, derive
from lathlight.progress import Quiet
from lathlight.project import relocated
from lathlight.snags import Severity, find_snags

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from lathlight.plan import Plan
    from lathlight.progress import Progress
    from lathlight.snags import Snag


class StoppedError(Exception):
    """The user asked to stop; nothing was written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A project file with all that follows from it."""

    path: Path
    plan: Plan
    snags: tuple[Snag, ...]  # worst first

    @property
    def stops(self) -> bool:
        """True where a snag stops the job."""
        return any(snag.severity is Severity.STOPS for snag in self.snags)


def new_memo() -> Memo:
    """Return an empty memo for plans that follow each other in one process."""
    return Memo()


def plan_project(path: Path, *, memo: Memo | None = None, progress: Progress | None = None) -> Planned:
    """Return the plan and the snags of a project file.

    Parameters
    ----------
    path
        The project file.
    memo
        Results of an earlier plan in this process; what did not change is not done again.
    progress
        Receiver of reports; may ask to stop.

    Raises
    ------
    InputError
        The file cannot be used as it is.
    StoppedError
        The receiver asked to stop.
    """
    progress = progress or Quiet()
    step(progress, done=0.0, text="reading the project file")
    file = open_project(path)
    try:
        plan = derive(file.brief, memo=memo, progress=Part(progress, start=0.05, end=0.4))
    except InputError as error:
        raise relocated(error, name=file.name, text=file.text) from error
    step(progress, done=0.4, text="looking for snags")
    snags = find_snags(plan)
    return Planned(path=path, plan=plan, snags=snags)


class Part:
    """A receiver for a part of the work, which has its own 0 to 1."""

    def __init__(self, whole: Progress, *, start: float, end: float) -> None:
        self._whole, self._start, self._length = whole, start, end - start

    def report(self, *, done: float, text: str) -> None:
        """Pass a report on; raise StoppedError where the receiver asks to stop."""
        step(self._whole, done=self._start + self._length * done, text=text)

    def stop_requested(self) -> bool:
        """Return True once the user has asked to stop."""
        return self._whole.stop_requested()


def step(progress: Progress, *, done: float, text: str) -> None:
    """Report a step that begins; raise StoppedError where the receiver asks to stop."""
    progress.report(done=done, text=text)
    if progress.stop_requested():
        raise StoppedError


def quantities_in_words(planned: Planned) -> tuple[tuple[str, str], ...]:
    """Return the figures that matter, each as its label and its value in the project's units."""
    style = planned.plan.brief.style
    return tuple((each.label, figure_words(each.value, each.unit, style)) for each in planned.plan.quantities)


def plan_document(planned: Planned) -> Mapping[str, object]:
    """Return what a script wants to know of a plan, ready for JSON: figures in mm, kg, rad, and the snags."""
    quantities = [
        {"id": each.id, "label": each.label, "value": plain_figure(each.value), "unit": each.unit}
        for each in planned.plan.quantities
    ]
    return {
        "project": str(planned.path),
        "title": planned.plan.brief.title.title,
        "stops": planned.stops,
        "quantities": quantities,
        "snags": snag_documents(planned.snags),
    }


def snag_documents(snags: Sequence[Snag]) -> list[Mapping[str, object]]:
    """Return snags ready for JSON."""
    return [
        {
            "id": snag.id,
            "check": snag.check,
            "severity": snag.severity.words,
            "place": snag.place,
            "what": snag.what,
            "figure": plain_figure(snag.figure),
            "limit": plain_figure(snag.limit),
            "unit": snag.unit,
            "remedy": snag.remedy,
        }
        for snag in snags
    ]
