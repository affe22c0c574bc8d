"""The steps of the work that fix the mouldings: in which order, and which line runs on in a corner.

The order and the meetings are the plan's; wording is decided here, and that a casing or a wall's frames are named once.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.words import listed
from lathlight.exports import length_words
from lathlight.mouldings import all_in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from lathlight.mouldings import LineMeeting
    from lathlight.plan import Plan
    from lathlight.project import TrimLine

YIELDS = {"cope": "is coped to it", "slides past": "stops against its front"}
NOTHING = "Apart from its base and what comes off for a move, this set has no mouldings."
BRADS = (
    "Brads no longer than the list says: longer ones come out of the back. Eye protection on, the other hand out of "
    "their line; glue by its label."
)
BARE = (
    "Where a moulding is glued, the paint under it carries the joint: leave that strip bare, or scrape it (common "
    "practice)."
)
When = tuple[bool, bool]  # base, loose
FIXED: When = (False, False)
LOOSE: When = (False, True)


def trim_lines(plan: Plan) -> list[TrimLine]:
    """Return every trim line of the set once, from the bottom up."""
    found = {(line.name, line.top): line for wall in plan.brief.walls for line in wall.trim}
    return sorted(found.values(), key=lambda line: (line.top, line.name))


def trim_words(plan: Plan, line: TrimLine) -> str:
    """Return a trim line's name, kind and height from the finished floor."""
    height = length_words(line.top - plan.brief.floor.rise, plan.brief.style)
    name = line.name if line.kind == line.name else f"{line.name} ({line.kind})"
    return f"{name}, top edge at {height}"


def moulding_step(plan: Plan) -> Step:
    """Return the step that fixes what stays on its flat, the base apart."""
    own = tuple(_told(_in_order(plan), FIXED, "Fix with the flats lying down, each piece ending at a joint that parts"))
    if not own:
        return Step(title="Mouldings", lines=(NOTHING,))
    glued = plan.brief.finish.mouldings == "before fixing" and any(each.glue for each in plan.fixing.strips)
    cautions = (*([BARE] if glued else []), *([BRADS] if any(each.shot for each in plan.fixing.strips) else []))
    return Step(title="Mouldings", lines=(*own, *_corners(plan, FIXED), *cautions))


def loose_steps(plan: Plan) -> Iterator[Step]:
    """Yield the step that puts on what comes off for a move, the base apart; nothing where all is fixed."""
    own = tuple(_told(_in_order(plan), LOOSE, "Screwed on after standing, over the joints that part"))
    if own:
        yield Step(title="Loose mouldings", lines=(*own, *_corners(plan, LOOSE)))


def base_step(plan: Plan) -> Step:
    """Return the step that fixes the base."""
    base = [line.name for line in trim_lines(plan) if line.kind == "base"]
    if not base:
        return Step(title="Base", lines=("This set has no base.",))
    words = [f"Fix last, standing on the {'floor covering' if plan.floor is not None else 'floor'}: {listed(base)}."]
    for loose in (False, True):
        words += _told(_in_order(plan), (True, loose), "Loose, screwed on" if loose else "Fixed")
        words += _corners(plan, (True, loose))
    return Step(title="Base", lines=tuple(words))


# --- in order ------------------------------------------------------------------------------------------------------


def _in_order(plan: Plan) -> list[tuple[When, str]]:
    """Return all that is fixed, in order: when it goes on, and the name of what it belongs to."""
    names = _names(plan)
    return [names[each] for each in all_in_order(plan.trim, plan.frames, plan.casings, plan.ends)]


def _names(plan: Plan) -> Mapping[str, tuple[When, str]]:
    """Return for everything that is fixed when it goes on and how it is called; parts of a whole by the whole."""
    found: dict[str, tuple[When, str]] = {end.id: (FIXED, end.id) for end in plan.ends}
    for casing in plan.casings:
        parts = [*(p.id for p in casing.pieces), *(b.id for b in casing.blocks)]
        parts += [casing.curve.id] if casing.curve is not None else []
        found |= dict.fromkeys(parts, (FIXED, f"casing of {casing.opening}"))
    for piece in plan.trim.pieces if plan.trim is not None else ():
        found[piece.id] = (piece.kind == "base", piece.loose), piece.id
    loose = {tier.name: tier.loose for tier in plan.brief.frames}
    for frame in plan.frames.frames if plan.frames is not None else ():
        found[frame.id] = (False, loose[frame.tier]), f"{frame.tier} frames of {frame.wall}"
    return found


def _told(order: Iterable[tuple[When, str]], when: When, how: str) -> Iterator[str]:
    """Yield one line: what goes on at a time, in order; things of one name that follow each other once."""
    own = [name for name, _ in groupby(name for at, name in order if at == when)]
    if own:
        yield f"{how}, in this order: {' → '.join(own)}."


# --- corners -------------------------------------------------------------------------------------------------------


def _corners(plan: Plan, when: When) -> Iterator[str]:
    """Yield a line for every corner where one line runs on, or of which something has to be known."""
    if plan.trim is None:
        return
    kinds = {(piece.wall, piece.line): (piece.kind == "base", piece.loose) for piece in plan.trim.pieces}
    marks = {wall.name: wall.mark for wall in plan.walls}
    for meeting in plan.trim.meetings:
        sides = ((meeting.left, meeting.left_line), (meeting.right, meeting.right_line))
        met = [kinds[wall, line] for wall, line in sides if line is not None and (wall, line) in kinds]
        said = _meeting_words(meeting)
        if said and met and (all(base for base, _ in met), any(loose for _, loose in met)) == when:
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
