"""The fixing as tables: sheet by sheet, moulding by moulding, between flats and at corners, gluing turns.

Decides columns and order; what is driven where is decided by ``lathlight.fixing``.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.exports.columns import amount_cells, amount_columns, make_table, mass_cells, mass_columns, texts
from lathlight.exports.tables import Cell, Column
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from lathlight.exports.tables import Table
    from lathlight.fixing import CornerFixing, FixingPlan, JointFixing, SheetFixing, StripFixing
    from lathlight.mouldings import Strip
    from lathlight.units import LengthStyle

METRE = 1000.0  # [mm]


def sheet_fixing_table(fixing: FixingPlan, strips: Sequence[Strip], style: LengthStyle) -> Table:
    """Return the table ``sheet fixing``: screws and pins by what hides them, beads, clamping, hours."""
    columns = [
        *texts("Sheet piece", "Wall", "Flat", "Held by", "Fasteners"),
        *(Column(title=title, kind="count") for title in ("Heads", "Hidden", "Filled")),
        *texts("Hidden by"),
        *amount_columns("Glue bead", "m", style),
        *texts("Clamped with"),
        Column(title="Clamps", kind="count"),
        *mass_columns("Clamp mass", style),
        Column(title="Held [h]", kind="amount"),
    ]
    lines = {strip.id: strip.belongs_to for strip in strips}
    rows = (_sheet_row(sheet, lines, style) for sheet in fixing.sheets)
    return make_table("sheet fixing", "How the sheets are held", columns, rows)


def _sheet_row(sheet: SheetFixing, lines: Mapping[str, str], style: LengthStyle) -> list[Cell]:
    hidden = Counter(lines[head.hidden_by] for head in sheet.heads if head.hidden_by is not None)
    clamping = sheet.clamping
    return [
        *(sheet.piece, sheet.wall, sheet.flat, sheet.mode, _counted(h.fastener.name for h in sheet.heads)),
        *(len(sheet.heads), len(sheet.heads) - len(sheet.seen), len(sheet.seen)),
        "; ".join(f"{line} {number}" for line, number in sorted(hidden.items())),
        *amount_cells(sheet.bead_length / METRE, "m", style),
        *(("", None) if clamping is None else (clamping.held, clamping.number)),
        *(mass_cells(clamping.mass, style) if clamping is not None and clamping.mass else _blank(style)),
        None if clamping is None else clamping.hours,
    ]


def _blank(style: LengthStyle) -> list[Cell]:
    return [None] * len(mass_columns("", style))


def _counted(names: Iterable[str]) -> str:
    return "; ".join(f"{number} × {name}" for name, number in sorted(Counter(names).items()))


def moulding_fixing_table(fixing: FixingPlan, style: LengthStyle) -> Table:
    """Return the table ``moulding fixing``: every straight moulding with its brads, screws and glue."""
    columns = [
        *texts("Moulding", "Wall", "Belongs to", "Held by", "Fasteners"),
        Column(title="Brads", kind="count"),
        Column(title="Screws", kind="count"),
        *amount_columns("Glue bead", "m", style),
        Column(title="Held [h]", kind="amount"),
        *texts("Note"),
    ]
    rows = (_strip_row(strip, style) for strip in fixing.strips)
    return make_table("moulding fixing", "How the mouldings are held", columns, rows)


def _strip_row(strip: StripFixing, style: LengthStyle) -> list[Cell]:
    brads = [b.choice.fastener.name for b in strip.shot if b.choice.fastener is not None]
    return [
        *(strip.strip, strip.wall, strip.belongs_to, strip.held),
        _counted([*brads, *(head.fastener.name for head in strip.screws)]),
        *(len(brads), len(strip.screws)),
        *amount_cells(strip.glue / METRE, "m", style),
        strip.hours or None,
        strip.note,
    ]


def joint_table(fixing: FixingPlan, style: LengthStyle) -> Table:
    """Return the table ``joints``: what holds flats and walls together, and the brackets while marking out.

    Places count up from the foot of the flats, or along a level joint from the wall's left corner.
    """
    columns = [
        *texts("Id", "What", "Wall", "Joined with", "Hardware"),
        Column(title="Number", kind="count"),
        *texts("Places", "Through", "Into", "Temporary brackets at"),
    ]
    rows = (
        *(_joint_row(joint, style) for joint in fixing.joints),
        *(_corner_row(corner, style) for corner in fixing.corners),
    )
    return make_table("joints", "Joints between flats, and corners", columns, rows)


def _joint_row(joint: JointFixing, style: LengthStyle) -> list[Cell]:
    what = "upright joint" if joint.upright else "level joint"
    return [
        *(joint.joint, what, joint.wall, joint.joined, joint.hardware or "none is long enough", len(joint.places)),
        *(_places(joint.places, style), joint.through, joint.into, _places(joint.temporary, style)),
    ]


def _corner_row(corner: CornerFixing, style: LengthStyle) -> list[Cell]:
    through = f"{corner.through}; {corner.wedge}" if corner.wedge is not None else corner.through
    return [
        *(corner.corner, "corner", "", corner.joined, corner.hardware or "none is long enough", len(corner.heights)),
        *(_places(corner.heights, style), through, corner.into, _places(corner.temporary, style)),
    ]


def _places(places: Iterable[float], style: LengthStyle) -> str:
    """Return places one after another, from the lowest or leftmost."""
    return "; ".join(drawing_length(mm, style=style) for mm in sorted(places))


def gluing_table(fixing: FixingPlan, style: LengthStyle) -> Table:
    """Return the table ``gluing``: which flat's sheets are glued on which day, and the weights on them."""
    columns = [
        Column(title="Day", kind="count"),
        Column(title="Turn", kind="count"),
        *texts("Flat"),
        Column(title="Weights", kind="count"),
        *mass_columns("Mass", style),
        Column(title="Held [h]", kind="amount"),
        *texts("Most weights"),
    ]
    busiest = fixing.busiest
    rows = (
        [
            *(turn.day, turn.turn, turn.flat, turn.number),
            *mass_cells(turn.mass, style),
            *(turn.hours, "this day" if busiest is not None and turn.day == busiest.day else ""),
        ]
        for turn in fixing.rounds
    )
    return make_table("gluing", "Gluing the sheets, flat by flat", columns, rows)
