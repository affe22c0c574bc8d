"""The catalogue's tables: which columns each has, what they hold, and which may be left out.

Reading one row and judging it as a whole happen here, so that shipped rows and a project's own rows are read alike.
Where rows come from is left to ``load`` and ``extend``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from lathlight.catalog import kinds
from lathlight.catalog.density import wood_density
from lathlight.catalog.profiles import TOUCHES, crossing, lean, signed_area, turned
from lathlight.catalog.rows import Adhesive, Bracket, Catalog, Fastener, Lumber, Paint, Profile, Sheet, Weight
from lathlight.errors import Problem, nearest
from lathlight.units import UnitError, format_angle

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from lathlight.catalog.kinds import Kind
    from lathlight.units import LengthStyle

Row = Lumber | Sheet | Profile | Paint | Adhesive | Fastener | Bracket | Weight

MUST = object()  # a column that a new row has to state
INSTEAD_OF_DENSITY = ("specific_gravity", "moisture")
SAME_LEAN = math.radians(1.0)  # what a section drawn from a real moulding may be off its spring angle
USUAL_MOISTURE = 12.0  # [%], timber kept indoors: common practice, no source
SHEENS = ("flat", "matt", "eggshell", "satin", "semi-gloss", "gloss")


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table."""

    kind: Kind
    says: str  # what it means, in the reader's words
    default: object = MUST


@dataclass(frozen=True, slots=True, kw_only=True)
class TableOf:
    """One table: the rows' type, their columns in order, and what a row as a whole must fulfil."""

    row: Callable[..., Row]
    columns: Mapping[str, Column]
    judge: Callable[[Row], list[Problem]] = lambda row: []


def _column(kind: Kind, says: str, default: object = MUST) -> Column:
    return Column(kind=kind, says=says, default=default)


NAME = _column(kinds.name(), "what the project file calls it")
SOURCE = _column(kinds.text(), "where the figures come from")
STOCK = _column(kinds.lengths(), "lengths on sale")
DENSITY = _column(kinds.measure("density"), "what a cubic metre weighs")
GRAVITY = _column(
    kinds.number(low=0, high=1.5, above=True), "instead of a density: against water, at that moisture", None
)
MOISTURE = _column(kinds.number(low=0, high=200, unit="%"), "of that specific gravity", None)


def _judge_sheet(row: Row) -> list[Problem]:
    assert isinstance(row, Sheet)
    if row.width > row.length:
        return [
            _fault("width", f"{row.width:g} mm", f"at most the length, {row.length:g} mm", "Swap width and length.")
        ]
    if row.thickness >= row.width:
        return [
            _fault("thickness", f"{row.thickness:g} mm", f"less than the width, {row.width:g} mm", "Mend the unit.")
        ]
    return []


def _judge_profile(row: Row) -> list[Problem]:
    assert isinstance(row, Profile)
    return _judge_section(row) + _judge_spring(row)


def _judge_section(row: Profile) -> list[Problem]:
    where = crossing(row.points)
    if where is not None:
        found = f"a polyline whose sides {where[0] + 1} and {where[1] + 1} cross or touch"
        return [
            _fault("points", found, "a closed polyline that nowhere meets itself", "Put the points in order round it.")
        ]
    if abs(signed_area(row.points)) <= TOUCHES:
        return [_fault("points", "a polyline without area", "the outline of a section", "Put the points round it.")]
    back = min(out for out, _ in row.points)
    if abs(back) > TOUCHES:
        found = f"a section that begins {back:g} mm from the wall"
        return [_fault("points", found, "a back on the wall, at 0 out", f"Take {back:g} mm off every first figure.")]
    return []


def _judge_spring(row: Profile) -> list[Problem]:
    if row.kind == "cornice" and row.spring is None:
        expected = "the angle between its back and the wall"
        return [_fault("spring", "a cornice without a spring angle", expected, 'Add spring = "38 deg", or what it is.')]
    if row.kind != "cornice" and row.spring is not None:
        return [_fault("spring", f"a spring angle on a {row.kind}", "one on cornices only", "Take it out.")]
    return [] if row.spring is None else _judge_lean(row, spring=row.spring)


def _judge_lean(row: Profile, *, spring: float) -> list[Problem]:
    """Return what is wrong with a cornice whose section, as it hangs on the wall, does not lean by its spring."""
    leans = lean(row)
    if leans is None:
        found, expected = "a cornice whose back lies flat on the wall", "a back that leans from its foot by the spring"
        remedy = "Draw it as it hangs, its foot at 0 out and its top edge away from the wall."
        return [_fault("points", found, expected, remedy)]
    if abs(leans - spring) > SAME_LEAN:
        found = f"{format_angle(spring)}, and points whose back leans by {format_angle(leans)}"
        return [_fault("spring", found, "one and the same angle", "Mend the angle, or the points.")]
    return []


def _fault(column: str, found: str, expected: str, remedy: str) -> Problem:
    return Problem(place=column, found=found, expected=expected, remedy=remedy)


TABLES: Mapping[str, TableOf] = {
    "lumber": TableOf(
        row=Lumber,
        columns={
            "name": NAME,
            "nominal": _column(kinds.text(empty=True), "what the shop calls it", ""),
            "system": _column(kinds.choice("us", "metric"), "whose sizes they are"),
            "width": _column(kinds.length(), "along the wall, standing on edge; in the hand, never nominal"),
            "depth": _column(kinds.length(), "behind the wall"),
            "lengths": STOCK,
            "density": DENSITY,
            "specific_gravity": GRAVITY,
            "moisture": MOISTURE,
            "modulus": _column(kinds.number(low=0, above=True, unit="N/mm2"), "bending stiffness"),
            "source": SOURCE,
        },
    ),
    "sheets": TableOf(
        row=Sheet,
        columns={
            "name": NAME,
            "material": _column(kinds.text(), 'what it is: "plywood", "hardboard", "MDF", "plasterboard" or another'),
            "width": _column(kinds.length(), "short side"),
            "length": _column(kinds.length(), "long side"),
            "thickness": _column(kinds.length(), "in the hand, never nominal"),
            "nominal": _column(kinds.text(empty=True), "what the shop calls the thickness", ""),
            "density": DENSITY,
            "stud_spacing": _column(kinds.length(), "largest distance between studs, centre to centre"),
            "grain": _column(kinds.flag(), "true where turning it shows", False),
            "source": SOURCE,
        },
        judge=_judge_sheet,
    ),
    "profiles": TableOf(
        row=Profile,
        columns={
            "name": NAME,
            "kind": _column(
                kinds.choice("base", "rail", "picture rail", "cornice", "casing", "panel", "cover strip"),
                "where it goes",
            ),
            "points": _column(kinds.points(), "the section round, anticlockwise from the back's bottom corner"),
            "spring": _column(kinds.angle(below=math.pi / 2), "between a cornice's back and the wall", None),
            "lengths": STOCK,
            "density": DENSITY,
            "specific_gravity": GRAVITY,
            "moisture": MOISTURE,
            "coping": _column(kinds.flag(), "true where the section can be coped", True),
            "source": SOURCE,
        },
        judge=_judge_profile,
    ),
    "paints": TableOf(
        row=Paint,
        columns={
            "name": NAME,
            "use": _column(kinds.choice("primer", "wall", "sealer"), "which coat it is"),
            "sheen": _column(kinds.choice(*SHEENS), "class of sheen"),
            "solids": _column(kinds.number(low=0, high=1, above=True), "share of the volume that stays"),
            "spread": _column(kinds.measure("spread"), "a coat, on a sealed surface"),
            "recoat_hours": _column(kinds.number(low=0, unit="h"), "before the next coat"),
            "containers": _column(kinds.volumes(), "tins on sale"),
            "source": SOURCE,
        },
    ),
    "adhesives": TableOf(
        row=Adhesive,
        columns={
            "name": NAME,
            "use": _column(kinds.choice("sheet to timber", "moulding", "joint", "seam", "filling"), "what it is for"),
            "container": _column(kinds.measure("volume"), "bottle, tub or cartridge"),
            "bead": _column(kinds.length(), "diameter of the bead"),
            "clamp_hours": _column(kinds.number(low=0, unit="h"), "how long the joint is held"),
            "source": SOURCE,
        },
    ),
    "fasteners": TableOf(
        row=Fastener,
        columns={
            "name": NAME,
            "kind": _column(kinds.choice("screw", "nail", "brad", "pin", "bolt"), "what it is"),
            "diameter": _column(kinds.length(), "of the shank"),
            "length": _column(kinds.length(), "under the head, or over all where it is sunk"),
            "box": _column(kinds.count(), "pieces in a box"),
            "source": SOURCE,
        },
    ),
    "brackets": TableOf(
        row=Bracket,
        columns={
            "name": NAME,
            "kind": _column(
                kinds.choice("angle bracket", "corner plate", "sill strap", "connector", "bumper"), "what it is"
            ),
            "width": _column(
                kinds.length(), "along the wall; one short side of a corner plate; the length a strap is sold in"
            ),
            "height": _column(kinds.length(), "up; the other short side; the breadth of a strap"),
            "thickness": _column(kinds.length(), "of its metal or ply; what a bumper keeps free"),
            "mass": _column(kinds.mass(), "of one; of a strap, of the whole length"),
            "source": SOURCE,
        },
    ),
    "weights": TableOf(
        row=Weight,
        columns={
            "name": NAME,
            "mass": _column(kinds.mass(), "of one"),
            "source": SOURCE,
        },
    ),
}


def rows_of(catalog: Catalog, table: str) -> Mapping[str, Row]:
    """Return one table of a catalogue, by row name."""
    return cast("Mapping[str, Row]", getattr(catalog, table))


def read_cells(table: str, raw: Mapping[str, object], *, style: LengthStyle) -> tuple[dict[str, object], list[Problem]]:
    """Read one row's cells.

    Returns
    -------
    cells, problems
        What could be read, by column; what could not, each with the column as its place.
    """
    columns = TABLES[table].columns
    cells: dict[str, object] = {}
    problems: list[Problem] = []
    for key, value in raw.items():
        column = columns.get(key)
        if column is None:
            problems.append(_unknown(key, table))
            continue
        try:
            cells[key] = column.kind.read(value, style)
        except UnitError as error:
            problems.append(_fault(key, error.found, error.expected, error.remedy))
    problems += _settle_density(cells)
    return cells, problems


def _unknown(key: str, table: str) -> Problem:
    columns = TABLES[table].columns
    near = nearest(key, columns)
    remedy = f'Did you mean "{near}"?' if near else f"The columns are {', '.join(columns)}."
    return _fault(key, f'an unknown column "{key}"', f"a column of {table}", remedy)


def _settle_density(cells: dict[str, object]) -> list[Problem]:
    """Put a density in the place of a specific gravity and its moisture."""
    gravity, moisture = cells.pop("specific_gravity", None), cells.pop("moisture", None)
    if gravity is None:
        if moisture is None:
            return []
        return [
            _fault("moisture", "a moisture without a specific gravity", "both or a density", "Add specific_gravity.")
        ]
    if "density" in cells:
        return [_fault("density", "a density and a specific gravity", "one of the two", "Take one of them out.")]
    percent = USUAL_MOISTURE if moisture is None else cast("float", moisture)
    cells["density"] = wood_density(specific_gravity=cast("float", gravity), moisture=percent)
    return []


def missing(table: str, cells: Mapping[str, object]) -> list[str]:
    """Return the columns that a row of its own must have and these cells lack, in the table's order."""
    return [key for key, column in TABLES[table].columns.items() if column.default is MUST and key not in cells]


def make_row(table: str, cells: Mapping[str, object]) -> Row:
    """Return a row from complete cells, with what was left out filled in."""
    spec = TABLES[table]
    kept = {key: column for key, column in spec.columns.items() if key not in INSTEAD_OF_DENSITY}
    return spec.row(**{key: cells.get(key, column.default) for key, column in kept.items()})


def settled(row: Row) -> Row:
    """Return a row as everything else relies on it: a section anticlockwise from its back's bottom corner."""
    if isinstance(row, Profile):
        return replace(row, points=turned(row.points))
    return row
