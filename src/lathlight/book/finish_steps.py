"""The steps of the work that fill, paint and lay the floor, and the last touch of paint.

Coats, colour and when mouldings are painted are the project's; seams are the plan's. No hours: how long things dry is
left to their labels and to the plan of the work.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.floor_chapter import stand_words
from lathlight.book.words import coat_words, listed
from lathlight.exports import volume_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.plan import Plan

EDGES = (
    "Carry the paint round the edges at joints and openings, and over the wall ends that are seen, so that no raw edge "
    "shows."
)


def fill_step(plan: Plan) -> Step:
    """Return the step that fills heads and the seams that stay closed."""
    seams = [seam for wall in plan.walls for seam in wall.seams]
    lasting = [seam.id for seam in seams if not seam.parts and seam.covered_by is None]
    parting = [seam.id for seam in seams if seam.parts]
    covered = [
        f"{seam.id} (under {seam.covered_by})" for seam in seams if seam.covered_by is not None and not seam.parts
    ]
    lines = ["Fill every screw and pin head that stays in sight, sand when hard; heads under mouldings need none."]
    if lasting:
        lines.append(f"Seams inside a flat, filled hard and for good: {listed(lasting)}.")
    if covered:
        lines.append(f"Seams that trim hides: {listed(covered)}.")
    if parting:
        lines.append(
            f"Seams at joints that part stay open now; they are filled after standing, with a flexible filler that "
            f"cuts cleanly: {listed(parting)}."
        )
    return Step(title="Fill", lines=tuple(lines))


def paint_step(plan: Plan) -> Step:
    """Return the step that primes and paints: coats, tins, what is painted apart."""
    finish = plan.brief.finish
    lines = [*_coats(plan)]
    if plan.strips:
        lines.append(f"Mouldings are painted {finish.mouldings}{_apart(plan)}.")
    if finish.edges:
        lines.append(EDGES)
    if finish.backs:
        lines.append("Paint the backs too, so that the sheets stay flat.")
    return Step(title="Paint", lines=tuple(lines))


def _coats(plan: Plan) -> Iterator[str]:
    finish = plan.brief.finish
    primed, painted = bool(finish.primer and finish.primer_coats), bool(finish.paint and finish.coats)
    colour = f" of {finish.colour}" if finish.colour else ""
    first = f"{coat_words(finish.primer_coats)} of primer on raw sheet, sawn edges first" if primed else ""
    then = f"{coat_words(finish.coats)}{colour}" if painted else ""
    said = "; then ".join(words for words in (first, then) if words)
    if not said:
        yield "The project asks for no coat of anything."
        return
    yield (
        f"{said[:1].upper()}{said[1:]}. Each dries before the next, by its label; the same roller throughout; all tins "
        "of one colour mixed together."
    )
    if plan.finish is not None and plan.finish.coatings:
        needs = [
            f"{volume_words(coating.need.gross, plan.brief.style)} of {coating.need.coating.name}"
            for coating in plan.finish.coatings
        ]
        yield f"With what soaks in, stays in the tray and is kept: {listed(needs)}; surface by surface in the schedule."


def _apart(plan: Plan) -> str:
    """Return how mouldings are painted: on the bench, or with the walls but for those that go on after."""
    if plan.brief.finish.mouldings == "before fixing":
        return ", on the bench; the walls are painted without them"
    lines = {line.name: line for wall in plan.brief.walls for line in wall.trim}
    late = [name for name, line in lines.items() if line.loose or line.kind == "base"]
    late += [tier.name for tier in plan.brief.frames if tier.loose]
    return f", with the walls; on the bench what goes on after standing: {listed(late)}" if late else ", with the walls"


def floor_step(plan: Plan) -> Step:
    """Return the step that lays the floor covering."""
    if plan.floor is None:
        return Step(title="Floor", lines=("This set has no floor covering.",))
    lines = [f"Lay the {plan.floor.covering}. {stand_words(plan)}"]
    if plan.floor.rows:
        start = "left" if plan.floor.runs == "away" else "back"
        number = len(plan.floor.rows)
        rows = "1 row" if number == 1 else f"{number} rows"
        lines.append(f"{rows} from the {start}, cut to the walls in place, by the list.")
    return Step(title="Floor", lines=tuple(lines))


def touch_up_step(plan: Plan) -> Step:
    """Return the last step."""
    early = plan.brief.finish.mouldings == "before fixing" and bool(plan.strips)
    brads = "brad holes, " if early else ""
    return Step(
        title="Touch up",
        lines=(
            f"Fill {brads}what the move and the screws have left, touch up with the same paint and the same roller.",
        ),
    )
