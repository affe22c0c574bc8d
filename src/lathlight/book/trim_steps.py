"""The steps of the work that fix the trim: in which order, and which line runs on in a corner.

The order and the meetings are the plan's; wording is decided here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.words import listed
from lathlight.exports import length_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings import LineMeeting, TrimPlan
    from lathlight.plan import Plan
    from lathlight.project import TrimLine
    from lathlight.units import LengthStyle

YIELDS = {"cope": "is coped to it", "slides past": "stops against its front"}


def trim_lines(plan: Plan) -> list[TrimLine]:
    """Return every trim line of the set once, from the bottom up."""
    found = {(line.name, line.top): line for wall in plan.brief.walls for line in wall.trim}
    return sorted(found.values(), key=lambda line: (line.top, line.name))


def trim_words(line: TrimLine, style: LengthStyle) -> str:
    """Return a trim line's name, kind and height."""
    return f"{line.name} ({line.kind}), top edge at {length_words(line.top, style)}"


def trim_step(plan: Plan) -> Step:
    """Return the step that fixes all trim but the base."""
    lines = [line for line in trim_lines(plan) if line.kind != "base"]
    if not lines:
        return Step(title="Trim", lines=("This set has no trim that is fixed before painting.",))
    fixed = [line.name for line in lines if not line.loose]
    loose = [line.name for line in lines if line.loose]
    words: list[str] = []
    if fixed:
        words.append(f"Fix with the flats lying down, each piece ending at a joint that parts: {listed(fixed)}.")
        words += _in_order(plan.trim, base=False, loose=False)
    if loose:
        words.append(f"Loose, fitted after standing: {listed(loose)}.")
        words += _in_order(plan.trim, base=False, loose=True)
    return Step(title="Trim", lines=(*words, *_corners(plan, base=False)))


def base_step(plan: Plan) -> Step:
    """Return the step that fixes the base."""
    base = [line.name for line in trim_lines(plan) if line.kind == "base"]
    if not base:
        return Step(title="Base", lines=("This set has no base.",))
    words = [f"Fix last, standing on the floor covering: {listed(base)}."]
    for loose in (False, True):
        words += _in_order(plan.trim, base=True, loose=loose)
    return Step(title="Base", lines=(*words, *_corners(plan, base=True)))


def _in_order(trim: TrimPlan | None, *, base: bool, loose: bool) -> Iterator[str]:
    """Yield one line: the pieces in the order in which they are fixed."""
    if trim is None:
        return
    pieces = {piece.id: piece for piece in trim.pieces}
    wanted = [each for each in trim.order if (pieces[each].kind == "base", pieces[each].loose) == (base, loose)]
    if wanted:
        yield f"In this order: {' → '.join(wanted)}."


def _corners(plan: Plan, *, base: bool) -> Iterator[str]:
    """Yield a line for every corner where one line runs on, or of which something has to be known."""
    if plan.trim is None:
        return
    kinds = {(piece.wall, piece.line): piece.kind for piece in plan.trim.pieces}
    marks = {wall.name: wall.mark for wall in plan.walls}
    for meeting in plan.trim.meetings:
        sides = ((meeting.left, meeting.left_line), (meeting.right, meeting.right_line))
        met = [kinds[wall, line] for wall, line in sides if line is not None and (wall, line) in kinds]
        said = _meeting_words(meeting)
        if said and bool(met) and (set(met) == {"base"}) == base:
            yield f"Corner {marks[meeting.left]}–{marks[meeting.right]}: {'; '.join(said)}."


def _meeting_words(meeting: LineMeeting) -> Sequence[str]:
    words: list[str] = []
    if meeting.first is not None:
        right_first = meeting.first == meeting.right
        first, then = (f"{meeting.left_line} of {meeting.left}", f"{meeting.right_line} of {meeting.right}")
        if right_first:
            first, then = then, first
        words.append(f"{first} runs on to the wall and is fixed first, {then} {YIELDS[meeting.how]}")
    if meeting.note:
        words.append(f"{meeting.left_line} and {meeting.right_line}: {meeting.note}")
    return words
