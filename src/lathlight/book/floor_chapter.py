"""The floor covering as a list: what it is, how far it reaches, its rows, and how it meets the set.

Extent, rows and quantity are the plan's own. Rows that are alike are told together.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn, Words
from lathlight.exports import amount_words, figure_words, length_words
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.book.blocks import Block, Cell
    from lathlight.flooring import FloorPlan, FloorRow
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

FROM = {"stated": "as stated", "pictures": "as far as the pictures see, and a margin", "walls": "as far as the walls"}
RUNS = {"along": "along the set", "away": "away from the camera"}
ROWS = {"strips": "strip", "boards": "row of boards", "roll": "drop off the roll"}


def floor_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the chapter of the floor covering; nothing where there is none."""
    if plan.floor is not None:
        blocks = tuple(_blocks(plan, plan.floor))
        yield Chapter(title="Floor covering", lead=stand_words(plan), blocks=blocks)


def stand_words(plan: Plan) -> str:
    """Return how the covering meets the flats, and when the base goes on."""
    based = any(line.kind == "base" for wall in plan.brief.walls for line in wall.trim)
    if plan.brief.floor.stands_on == "covering":
        return (
            "The flats stand on the covering: it is laid first, and kept covered while they are built and painted."
            + (" The base stands on it and is fixed last." if based else "")
        )
    gap = plan.brief.floor.expansion_gap
    width = length_words(gap, plan.brief.style)
    stops = (
        f"stops at the flats, with a gap of {width} all along the faces" if gap else "runs up to the flats, no gap left"
    )
    hidden = (
        "The base stands on the covering, hides its edge and is fixed last." if based else "No base hides its edge."
    )
    return f"The covering {stops}. {hidden}"


def _blocks(plan: Plan, floor: FloorPlan) -> Iterator[Block]:
    style = plan.brief.style
    yield Grid(columns=FACT_COLUMNS, groups=(Group(heading="", detail="", rows=tuple(_facts(plan, floor, style))),))
    if floor.rows:
        rows = tuple(_row(list(alike), floor, style) for _, alike in groupby(floor.rows, key=lambda r: _size(r, style)))
        head = f"Rows, numbered from the {'left' if floor.runs == 'away' else 'back'}"
        detail = f"{RUNS[floor.runs]}; lengths where they are longest, cut to the walls in place"
        yield Grid(columns=ROW_COLUMNS, groups=(Group(heading=head, detail=detail, rows=rows),))
    if floor.goods == "area only":
        yield Words(words="The project file does not say how wide its strips are, so that no seams are planned.")


FACT_COLUMNS = (
    ListColumn(title="What", kind="mark", grow=2),
    ListColumn(title="Figure", grow=3),
    ListColumn(title="How", grow=4),
)


def _facts(plan: Plan, floor: FloorPlan, style: LengthStyle) -> Iterator[tuple[Cell, ...]]:
    thick = length_words(plan.brief.floor.thickness, style)
    yield "Covering", f"{floor.covering}, {thick} thick", ""
    yield "Along the set", length_words(floor.width, style), FROM[floor.width_from]
    yield "Towards the camera", length_words(floor.depth, style), FROM[floor.depth_from]
    yield "Area as laid", figure_words(floor.area, "mm2", style), "cut by the faces, gaps taken off"
    for line in floor.lines:
        yield line.item, amount_words(line.gross, line.unit, style), line.reason
    for seen in floor.seen:
        wide, deep = (drawing_length(mm, style=style) for mm in (seen.right - seen.left, floor.extent[3] - seen.front))
        yield f"Seen in {seen.picture}", f"{wide} wide, to {deep} from the back edge", "over all its angles and lenses"


ROW_COLUMNS = (
    ListColumn(title="Row", kind="mark"),
    ListColumn(title="Number", kind="figure"),
    ListColumn(title="Width", kind="figure"),
    ListColumn(title="Length", kind="figure"),
    ListColumn(title="Boards meet at", grow=4),
    ListColumn(title="Laid", kind="ticks", grow=3),
)


def _size(row: FloorRow, style: LengthStyle) -> tuple[str, ...]:
    ends = tuple(drawing_length(joint - row.start, style=style) for joint in row.joints)
    return drawing_length(row.width, style=style), drawing_length(row.length, style=style), *ends


def _row(alike: list[FloorRow], floor: FloorPlan, style: LengthStyle) -> tuple[Cell, ...]:
    first, last = alike[0].number, alike[-1].number
    wide, long, *ends = _size(alike[0], style)
    name = f"{first}" if first == last else f"{first} to {last}"
    kind = ROWS.get(floor.goods, "row")
    return f"{kind} {name}", str(len(alike)), wide, long, ", ".join(ends), len(alike)
