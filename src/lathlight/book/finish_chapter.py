"""The finish schedule as lists: surfaces in the order in which they are coated, and how much of every coating.

Surfaces, areas, litres and tins are the plan's own. Hours and drying are left to the plan of the work and to labels.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn, Note, Notes, Words
from lathlight.book.words import coat_words, sentence
from lathlight.exports import figure_words, length_words, tin_words, volume_words
from lathlight.finishing import finish_schedule
from lathlight.units import run_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.book.blocks import Block, Cell
    from lathlight.finishing import Coating, Finish, FinishStep
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LEAD = (
    "In this order. Each coat dries before the next as its label says; hours come with the plan of the work. Tins of "
    "one batch are mixed together before the first coat, so that one colour stays one."
)
CAUTIONS = (
    Note(
        title="Solvents and dust",
        words="Read label and data sheet, of water-borne paint too. Air to the outside, no flame or spark; a mask "
        "rated for fine dust when sanding filler and paint; test old paint for lead first. Oily rags go into a closed "
        "metal bin.",
    ),
)


def finish_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the finish schedule; nothing where nothing is coated."""
    if plan.finish is not None and plan.finish.coatings:
        blocks = tuple(_blocks(plan, plan.finish))
        yield Chapter(title="Finish schedule", lead=LEAD, blocks=(*blocks, Notes(notes=CAUTIONS)))


def _blocks(plan: Plan, finish: Finish) -> Iterator[Block]:
    style = plan.brief.style
    yield Grid(columns=STEP_COLUMNS, groups=tuple(_groups(finish, style)))
    rows = tuple(_coating_row(coating, style) for coating in finish.coatings)
    yield Grid(columns=COATING_COLUMNS, groups=(Group(heading="Coatings", detail="", rows=rows),))
    yield from (Words(words=words) for words in brush_words(plan, finish))


# --- surfaces ------------------------------------------------------------------------------------------------------

MOULDED = ("mouldings", "blocks")
BENCH = "on the bench, before they are fixed; brad holes filled and touched up after"
STEP_COLUMNS = (
    ListColumn(title="Surface", kind="mark", grow=3),
    ListColumn(title="Of", grow=3),
    ListColumn(title="Area, one coat", kind="figure"),
    ListColumn(title="Run", kind="figure"),
    ListColumn(title="With"),
    ListColumn(title="Coats", kind="ticks", grow=1),
)


def _groups(finish: Finish, style: LengthStyle) -> Iterator[Group]:
    """Yield the steps of one coating that follow each other, under its name."""

    def bench(step: FinishStep) -> bool:
        return finish.painted == "before fixing" and step.surface in MOULDED

    runs = groupby(finish_schedule(finish), key=lambda step: (step.coating, step.coats, step.sheen, bench(step)))
    for number, ((coating, coats, sheen, early), steps) in enumerate(runs, start=1):
        detail = " · ".join([coat_words(coats), sheen, *([BENCH] if early else [])])
        rows = tuple(_step_row(step, style) for step in steps)
        yield Group(heading=f"{number}. {sentence(coating)}", detail=detail, rows=rows)


def _step_row(step: FinishStep, style: LengthStyle) -> tuple[Cell, ...]:
    area = figure_words(step.area, "mm2", style)
    run = run_length(step.length, style=style) if step.length else ""
    return sentence(step.surface), step.stuff, area, run, step.tool, step.coats


# --- coatings ------------------------------------------------------------------------------------------------------

COATING_COLUMNS = (
    ListColumn(title="Coating", kind="mark", grow=2),
    ListColumn(title="Coats", kind="figure"),
    ListColumn(title="Area, one coat", kind="figure"),
    ListColumn(title="Net", kind="figure"),
    ListColumn(title="Added", kind="figure"),
    ListColumn(title="Why", grow=4),
    ListColumn(title="In all", kind="figure"),
    ListColumn(title="Tins", grow=3),
)


def _coating_row(coating: Coating, style: LengthStyle) -> tuple[Cell, ...]:
    need, line = coating.need, coating.line
    net, added, gross = (volume_words(litres, style) for litres in (line.net, line.allowance, line.gross))
    area = figure_words(need.area, "mm2", style)
    return line.item, str(need.coats), area, net, added, line.reason, gross, _tins(coating, style)


def _tins(coating: Coating, style: LengthStyle) -> str:
    """Return which tins to buy, and that they are mixed; or that there is paint at hand."""
    if coating.tins is None:
        return "what is at hand"
    tins = ", ".join(f"{number} × {tin_words(size, style)}" for size, number in coating.tins.tins)
    return "; ".join(words for words in (tins, coating.note) if words)


def brush_words(plan: Plan, finish: Finish) -> Iterator[str]:
    """Yield how much is brushed, and where the gaps are that a roller does not reach into."""
    style = plan.brief.style
    yield f"Brushed, one coat: {figure_words(finish.brushwork, 'mm2', style)} in all; the rest is rolled."
    if finish.gaps:
        narrowest = min(gap.width for gap in finish.gaps)
        yield (
            f"Narrower than the roller of {length_words(plan.brief.finish.roller, style)}: "
            f"{len(finish.gaps)} of the gaps between mouldings, the narrowest {length_words(narrowest, style)}."
        )
