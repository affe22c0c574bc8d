"""The steps of the work that fix sheets, and the brackets that hold the set while it is marked out.

What is glued, screwed or pinned is the plan's; wording is decided here. Numbers flat by flat stand in the fixing's own
chapter.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.fixing_chapter import weight_words
from lathlight.book.words import listed
from lathlight.exports import length_words
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.fixing import SheetFixing
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

SEEN = 0.5  # a difference smaller than this is not worth a word [mm]
BEARING = 16.0  # least bearing of a sheet on its stud [mm]: common practice, no source
LAY = "lay the sheet on the frame, factory edges to the seams"
WAYS = {
    "glue": f"Run a bead of {{glue}} on the timber as the fixing plan shows; {LAY}.",
    "screws": f"Dry, {LAY}, and screw it all round as the fixing plan shows.",
    "pins": f"Dry, {LAY}, and pin it all round as the fixing plan shows.",
}


def skin_step(plan: Plan) -> Step:
    """Return the step that puts the sheets on: glue, heads, what holds them, which edges stand beyond."""
    style = plan.brief.style
    modes = sorted({sheet.mode for sheet in plan.fixing.sheets})
    lines = [
        *(WAYS[mode].format(glue=plan.brief.fixing.glue.name) for mode in modes),
        f"At a seam both sheets lie at least {length_words(BEARING, style)} on the stud.",
        *_heads(plan),
        *_held(plan),
        *_edges(plan, style),
        "Where nothing is said the sheet is flush with the frame.",
    ]
    return Step(title="Skin", lines=tuple(lines))


def _heads(plan: Plan) -> Iterator[str]:
    seen = Counter(head.fastener.name for sheet in plan.fixing.sheets for head in sheet.seen)
    hidden = Counter(head.fastener.name for head in plan.fixing.heads if head.hidden_by is not None)
    if hidden:
        only = "; no head elsewhere" if not seen else ""
        yield f"{'Where' if seen else 'Screw only where'} mouldings will cover the heads: {_counted(hidden)}{only}."
    if seen:
        yield f"Heads that nothing covers, set below the face and filled: {_counted(seen)}."


def _counted(names: Counter[str]) -> str:
    return listed([f"{number} × {name}" for name, number in sorted(names.items())])


def _held(plan: Plan) -> Iterator[str]:
    glued = [sheet for sheet in plan.fixing.sheets if sheet.clamping is not None]
    other = Counter[str]()
    for sheet in glued:
        other.update(_fasteners(sheet))
    if other:
        yield f"Until the glue has set: {_counted(other)}, taken out or filled over after."
    yield from (each.words for each in weight_words(plan))


def _fasteners(sheet: SheetFixing) -> dict[str, int]:
    """Return the pins or temporary screws of a sheet by their name; weights are told apart."""
    held = sheet.clamping
    return {} if held is None or held.held == "weights" else {held.held: held.number}


def _edges(plan: Plan, style: LengthStyle) -> Iterator[str]:
    for flat in plan.flats:
        edges = [
            f"at the {side} {_edge(beyond, style)}"
            for side, beyond in (("left", flat.sheet_x0 - flat.x0), ("right", flat.x1 - flat.sheet_x1))
            if abs(beyond) >= SEEN
        ]
        if edges:
            yield f"{flat.mark}, seen from the front: {', '.join(edges)}."


def _edge(beyond: float, style: LengthStyle) -> str:
    length = length_words(abs(beyond), style)
    return (
        f"the frame stands {length} beyond the sheet" if beyond > 0 else f"the sheet stands {length} beyond the frame"
    )


def bracket_words(plan: Plan) -> Iterator[str]:
    """Yield which brackets hold joints and corners while the set is marked out; nothing where there are none."""
    held = [*plan.fixing.joints, *plan.fixing.corners]
    number = sum(len(each.temporary) for each in held)
    if number:
        places = sorted({height for each in held for height in each.temporary})
        what = listed([*(["joints"] if plan.fixing.joints else []), *(["corners"] if plan.fixing.corners else [])])
        heights = listed([drawing_length(height, style=plan.brief.style) for height in places])
        yield (
            f"For marking out, hold {what} with {number} × {plan.brief.fixing.bracket.name} on the backs, "
            f"{heights} above the flats' foot, instead of the screws that stay."
        )
