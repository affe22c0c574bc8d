"""The step of the work that marks out: one level line, and every height from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.trim_steps import trim_lines, trim_words
from lathlight.book.words import listed
from lathlight.exports import length_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.marking import MarkingOut
    from lathlight.plan import Plan

BACKS = "Write on the back of every flat: its mark, an arrow up, and at each joint the mark of its neighbour."


def mark_step(plan: Plan) -> Step:
    """Return the step that marks out the standing, shimmed set."""
    return Step(title="Mark", lines=(*_level_line(plan, plan.marking), *_lines(plan), BACKS))


def _level_line(plan: Plan, marking: MarkingOut | None) -> Iterator[str]:
    if marking is None:
        yield "This set has nothing to mark on its faces."
        return
    style = plan.brief.style
    height = length_words(marking.level.height, style)
    foot = f", {length_words(marking.level.above_foot, style)} above the flats' foot" if marking.rise else ""
    yield (
        f"Shim the standing set until its tops are level. Strike one level line right round it, {height} above the "
        f"finished floor where that is highest{foot}, and measure every height from the line, never from the floor."
    )
    yield "Make one story stick for the whole set, hold its level mark on the line and mark off; check it on both ends."


def _lines(plan: Plan) -> Iterator[str]:
    style = plan.brief.style
    lines = [trim_words(plan, line) for line in trim_lines(plan)]
    if lines:
        yield f"Lines to mark, from the finished floor: {listed(lines)}."
    used = {frame.tier for frame in plan.frames.frames} if plan.frames is not None else set[str]()
    rise = plan.brief.floor.rise
    tiers = [
        f"{tier.name} from {length_words(tier.bottom - rise, style)} to {length_words(tier.top - rise, style)}"
        for tier in plan.brief.frames
        if tier.name in used
    ]
    if tiers:
        yield f"Moulding frames, outside edges from the finished floor: {listed(tiers)}; their uprights from the flats."
    if (lines or tiers) and plan.brief.finish.mouldings == "before fixing":
        yield "Paint will cover the marks: carry each one round to the edge or the back of its flat."
