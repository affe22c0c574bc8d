"""How everything is held, as lists: sheets flat by flat, mouldings line by line, joints and corners, weights.

The fixing is the plan's own; places of screws and beads are on the drawings. Decides what is told together, and which
cautions stand beside it.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn, Note, Notes, Words
from lathlight.book.words import listed, sentence
from lathlight.exports import figure_words, length_words
from lathlight.units import drawing_length, run_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.book.blocks import Block, Cell
    from lathlight.carpentry import Flat
    from lathlight.fixing import CornerFixing, JointFixing, SheetFixing, StripFixing
    from lathlight.mouldings import Strip
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

MODES = {"glue": "glued", "screws": "screwed", "pins": "pinned"}
LEADS = {
    "glue": "Sheets are glued; screws go only where a moulding will cover their heads.",
    "screws": "Sheets are screwed all round; heads that no moulding covers are countersunk and filled.",
    "pins": "Sheets are pinned all round; heads that no moulding covers are set and filled.",
}
DRAWN = (
    "Every head, bead and brad is drawn on the fixing plans. Heights in this chapter are from the foot of the flats."
)
CAUTIONS = (
    Note(
        title="Brads and pins",
        words="They follow the grain and come out where nobody looks for them. Keep the other hand out of their line, "
        "well past a brad's length; eye protection on for nailing and for sawing small mouldings.",
    ),
    Note(
        title="Glue",
        words="Air, gloves, times and clearing up as its label says; solvents need air to the outside, and no flame.",
    ),
    Note(
        title="Weights",
        words="Low, spread on battens, never stacked where they can slide; lift them one by one, by your own measure.",
    ),
)


def fixing_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the chapter of the fixing; nothing where nothing is fixed."""
    blocks = tuple(_blocks(plan))
    if blocks:
        lead = f"{LEADS[plan.brief.fixing.sheets]} {DRAWN}"
        yield Chapter(title="Fixing", lead=lead, blocks=(*blocks, Notes(notes=CAUTIONS)))


def _blocks(plan: Plan) -> Iterator[Block]:
    if plan.fixing.sheets:
        rows = tuple(_sheet_row(plan, flat, own) for flat, own in _by_flat(plan) if own)
        yield Grid(columns=SHEET_COLUMNS, groups=(Group(heading="Sheets", detail="flat by flat", rows=rows),))
        yield from weight_words(plan)
    mouldings = tuple(_moulding_rows(plan))
    if mouldings:
        group = Group(heading="Mouldings", detail="all walls together", rows=mouldings)
        yield Grid(columns=MOULDING_COLUMNS, groups=(group,))
    joined = (*_joint_rows(plan), *_corner_rows(plan))
    if joined:
        group = Group(heading="Joints and corners", detail=_bracket_words(plan), rows=joined)
        yield Grid(columns=JOINT_COLUMNS, groups=(group,))
    yield from (Words(words=words) for words in bumper_words(plan))


# --- sheets --------------------------------------------------------------------------------------------------------

SHEET_COLUMNS = (
    ListColumn(title="Flat", kind="mark"),
    ListColumn(title="How", grow=1),
    ListColumn(title="Heads covered", kind="figure"),
    ListColumn(title="Heads filled", kind="figure"),
    ListColumn(title="Bead", kind="figure"),
    ListColumn(title="Held by", grow=3),
    ListColumn(title="Until set", kind="figure"),
    ListColumn(title="Glued on", grow=2),
    ListColumn(title="Done", kind="ticks"),
)


def _by_flat(plan: Plan) -> Iterator[tuple[Flat, list[SheetFixing]]]:
    for flat in plan.flats:
        yield flat, [sheet for sheet in plan.fixing.sheets if sheet.flat == flat.id]


def _sheet_row(plan: Plan, flat: Flat, sheets: Sequence[SheetFixing]) -> tuple[Cell, ...]:
    style = plan.brief.style
    seen = sum(len(sheet.seen) for sheet in sheets)
    covered = sum(len(sheet.heads) for sheet in sheets) - seen
    bead = sum(sheet.bead_length for sheet in sheets)
    hours = max((sheet.clamping.hours for sheet in sheets if sheet.clamping is not None), default=0.0)
    how = listed(list(dict.fromkeys(MODES[sheet.mode] for sheet in sheets)))
    turns = [f"day {each.day}, turn {each.turn}" for each in plan.fixing.rounds if each.flat == flat.id]
    return (
        *(flat.mark, how, str(covered or ""), str(seen or "")),
        run_length(bead, style=style) if bead else "",
        _held(sheets, plan),
        f"{hours:g} h" if hours else "",
        listed(turns),
        1,
    )


def _held(sheets: Sequence[SheetFixing], plan: Plan) -> str:
    """Return what holds a flat's glued sheets while they set."""
    numbers: Counter[str] = Counter()
    mass = 0.0
    for sheet in sheets:
        if sheet.clamping is not None:
            numbers[sheet.clamping.held] += sheet.clamping.number
            mass += sheet.clamping.mass
    words = [
        f"{number} × {plan.brief.fixing.weight.name}, {figure_words(mass, 'kg', plan.brief.style)}"
        if held == "weights"
        else f"{number} {held}"
        for held, number in numbers.items()
    ]
    return listed(words)


def weight_words(plan: Plan) -> Iterator[Words]:
    """Yield which day needs most weights, and how many."""
    busiest = plan.fixing.busiest
    if busiest is not None:
        mass = figure_words(busiest.mass, "kg", plan.brief.style)
        yield Words(
            words=f"Most weights stand at once on day {busiest.day}: {busiest.number} × "
            f"{plan.brief.fixing.weight.name}, {mass} in all. They go round from flat to flat; days count from the "
            "first that sheets are glued on. The time that the glue needs is its label's."
        )


# --- mouldings -----------------------------------------------------------------------------------------------------

MOULDING_COLUMNS = (
    ListColumn(title="Line", kind="mark", grow=3),
    ListColumn(title="Pieces", kind="figure"),
    ListColumn(title="Held by", grow=3),
    ListColumn(title="Brads, screws", grow=4),
    ListColumn(title="Glue", kind="figure"),
    ListColumn(title="Until set", kind="figure"),
    ListColumn(title="Note", grow=4),
)


def _moulding_rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    strips = {strip.id: strip for strip in plan.strips}
    found: dict[tuple[str, str, str], list[StripFixing]] = {}
    for each in plan.fixing.strips:
        key = (_line(strips[each.strip]), each.held, each.note)
        found.setdefault(key, []).append(each)
    lines = list(dict.fromkeys(line for line, _, _ in found))
    for (line, held, note), own in sorted(found.items(), key=lambda item: lines.index(item[0][0])):
        glue, hours = sum(each.glue for each in own), max(each.hours for each in own)
        yield (
            *(line, str(len(own)), held, _fasteners(own)),
            run_length(glue, style=plan.brief.style) if glue else "",
            f"{hours:g} h" if glue and hours else "",
            note,
        )


def _line(strip: Strip) -> str:
    match strip.use:
        case "moulding frame":
            return f"{strip.belongs_to}, moulding frames"
        case "casing" | "block":
            return f"{strip.belongs_to}, {strip.use if strip.use == 'casing' else strip.kind}"
        case "wall end":
            return f"{strip.belongs_to}, {strip.kind}"
        case "trim":
            return strip.belongs_to if strip.kind in strip.belongs_to else f"{strip.belongs_to}, {strip.kind}"


def _fasteners(strips: Iterable[StripFixing]) -> str:
    names: Counter[str] = Counter()
    for each in strips:
        names.update(b.choice.fastener.name for b in each.shot if b.choice.fastener is not None)
        names.update(head.fastener.name for head in each.screws)
    return ", ".join(f"{number} × {name}" for name, number in sorted(names.items()))


# --- joints and corners --------------------------------------------------------------------------------------------

JOINT_COLUMNS = (
    ListColumn(title="Between", kind="mark"),
    ListColumn(title="With", grow=3),
    ListColumn(title="At", grow=5),
    ListColumn(title="Brackets for marking out, at", grow=3),
    ListColumn(title="Done", kind="ticks"),
)


def _bracket_words(plan: Plan) -> str:
    number = sum(len(each.temporary) for each in (*plan.fixing.joints, *plan.fixing.corners))
    return f"{number} × {plan.brief.fixing.bracket.name} on the backs while the set is marked out" if number else ""


def _joint_rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    marks = {(flat.wall, flat.name): flat.mark for flat in plan.flats}
    joints = {joint.id: joint for wall in plan.walls for joint in wall.joints}
    for each in plan.fixing.joints:
        joint = joints[each.joint]
        between = f"{marks[each.wall, joint.left]}–{marks[each.wall, joint.right]}"
        along = "" if each.upright else ", along the wall"
        yield _joined_row(between, each, each.places, along, plan.brief.style)


def _corner_rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    marks = {wall.name: wall.mark for wall in plan.walls}
    corners = {corner.id: corner for corner in plan.corners}
    for each in plan.fixing.corners:
        corner = corners[each.corner]
        between = f"{marks[corner.left]}–{marks[corner.right]}, corner"
        yield _joined_row(between, each, each.heights, "", plan.brief.style)


def _joined_row(
    between: str, fixing: JointFixing | CornerFixing, places: Sequence[float], along: str, style: LengthStyle
) -> tuple[Cell, ...]:
    with_what = f"{len(places)} × {fixing.hardware}" if fixing.hardware is not None else "none is long enough"
    at, brackets = (
        listed([drawing_length(mm, style=style) for mm in figures]) for figures in (places, fixing.temporary)
    )
    return between, with_what, f"{at}{along}" if at else "", brackets, 1


def bumper_words(plan: Plan) -> Iterator[str]:
    """Yield where soft pads keep the set off the room; nothing where it stands clear."""
    style = plan.brief.style
    marks = {flat.id: flat.mark for flat in plan.flats}
    places = [
        f"{marks[b.flat]}'s {b.face}, {drawing_length(b.z, style=style)} up, "
        f"{length_words(b.distance, style)} from {'the room' if b.near == 'room' else b.near}"
        for b in plan.fixing.bumpers
    ]
    if places:
        yield f"{sentence(plan.brief.fixing.bumper.name)} where the set stands near: {listed(places)}."
