"""From what the user said to everything a plan follows from: names looked up, defaults filled in, lengths on the grid.

Decides nothing about timber: what cannot be looked up or drawn is a problem (``lathlight.project.lookups``), what would
fail is left to ``lathlight.snags``. All problems are collected, in the order of the file where its text is at hand.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lathlight.catalog import drop
from lathlight.errors import InputError
from lathlight.project.brief import (
    Brief,
    CornerBrief,
    CrewBrief,
    FlatLimitsBrief,
    Hardware,
    Load,
    OpeningBrief,
    PlaceBrief,
    SawBrief,
    TitleBrief,
    TrimLine,
    WallBrief,
)
from lathlight.project.crew import TEAM, team_lift
from lathlight.project.defaults import Defaults, Filled, defaults_of, usual
from lathlight.project.draft import draft_of
from lathlight.project.findings import in_file_order
from lathlight.project.lookups import lookup_findings
from lathlight.project.sitters import picture_briefs, sitter_briefs
from lathlight.project.space import room_brief
from lathlight.project.walls import RIGHT_ANGLE
from lathlight.units import LengthStyle, snap
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from lathlight.catalog import Bracket, Catalog, Fastener, Lumber, Sheet
    from lathlight.project.model import Opening, Project, SetTable, Trim, Wall, Workshop

LEAST_BETWEEN = 6.0  # [mm] a corner screw ends this far inside the far stud's back: common practice, no source
CALLED = ("set", "walls", "trim", "moulding_frames", "finish", "catalog")  # tables that hold names of the catalogue


def resolve(project: Project, catalog: Catalog, *, place: str, text: str | None = None) -> Brief:
    """Return the project with every name looked up and every default filled in.

    Parameters
    ----------
    project
        As read.
    catalog
        The catalogue that comes with the program; the project's own rows are laid over it.
    place
        The file's name, for the places of problems.
    text
        The file's text, so that places have lines; None where there is none.

    Raises
    ------
    InputError
        A name that is not in the catalogue, a row that cannot be, a wall shorter than its own timber.
    """
    style = LengthStyle.of(project.project.units, project.project.precision)
    raw = project.model_dump(mode="json", include=set(CALLED))
    full, findings = lookup_findings(draft_of(project, raw=raw, style=style), catalog)
    if findings:
        raise InputError(in_file_order(findings, name=place, raw=raw, text=text))
    return _brief(_Known(project=project, catalog=full, style=style, usual=defaults_of(style)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What every part of the brief is made from; all names in the project are in the catalogue."""

    project: Project
    catalog: Catalog = field(repr=False)
    style: LengthStyle
    usual: Defaults


def _brief(known: _Known) -> Brief:
    project, filled = known.project, Filled()
    title, saw = _title(known, filled.within("project")), _saw(known, filled.within("workshop"))
    room = room_brief(project.room, filled.within("room"))
    place = _place(project.set, known.usual, filled.within("set"))
    corners = tuple(_corner(project, number, filled) for number in range(len(project.walls) - 1))
    sitters = sitter_briefs(project, known.usual, filled)
    pictures = picture_briefs(project, sitters, known.usual, filled)
    walls = tuple(_wall(known, wall) for wall in project.walls)
    return Brief(
        title=title,
        style=known.style,
        room=room,
        place=place,
        walls=walls,
        corners=corners,
        limits=_limits(project),
        crew=_crew(project.workshop, filled.within("workshop")),
        saw=saw,
        seams=project.set.seams,
        hardware=_hardware(known, walls, filled.within("fittings")),
        pictures=pictures,
        sitters=sitters,
        assumed=filled.assumed,
        catalog=known.catalog,
        project=project,
    )


# --- walls ---------------------------------------------------------------------------------------------------------


def _wall(known: _Known, wall: Wall) -> WallBrief:
    """Return a wall ready to build."""
    shared, filled = known.project.set, Filled()
    sheet = known.catalog.sheets[
        filled.unless("sheet", wall.sheet or shared.sheet, known.usual.sheet, usual("facing sheet", known.usual.sheet))
    ]
    framing = known.catalog.lumber[
        filled.unless(
            "framing", wall.framing or shared.framing, known.usual.framing, usual("timber", known.usual.framing)
        )
    ]
    height = snap(wall.height or shared.height or 0.0, known.style)
    openings = [
        _opening(known, opening, sheet, framing, filled.within(f"openings/{opening.name}")) for opening in wall.openings
    ]
    return WallBrief(
        name=wall.name,
        length=snap(wall.length, known.style),
        height=height,
        sheet=sheet,
        framing=framing,
        stud_spacing=_stud_spacing(known, wall, sheet, filled),
        openings=tuple(sorted(openings, key=lambda opening: opening.left)),
        trim=_trim_lines(known, wall, height),
        loads=_loads(known.project, wall),
        assumed=filled.assumed,
    )


def _stud_spacing(known: _Known, wall: Wall, sheet: Sheet, filled: Filled) -> float:
    wide = known.usual.stud_spacing
    spacing = min(wide, sheet.stud_spacing)
    why = Working(
        formula="the smaller of the usual spacing and the largest that the sheet allows",
        inputs=(("usual spacing", wide, "mm"), (f"{sheet.name} allows", sheet.stud_spacing, "mm")),
        source=sheet.source,
        value=spacing,
        unit="mm",
    )
    return filled.unless("stud_spacing", wall.stud_spacing or known.project.set.stud_spacing, spacing, why)


def _opening(known: _Known, opening: Opening, sheet: Sheet, framing: Lumber, filled: Filled) -> OpeningBrief:
    grid, usual_things = known.style, known.usual
    if opening.kind != "door":
        filled.unstated(opening, "sill", usual("height of the sill, on the floor", opening.sill, "mm"))
    bare = opening.kind == "arch"  # an arch is lined only where that is asked for
    lining = filled.size("lining", opening.lining, 0.0 if bare else usual_things.lining, what="thickness of a lining")
    return OpeningBrief(
        name=opening.name,
        kind=opening.kind,
        left=snap(opening.at, grid),
        width=snap(opening.width, grid),
        height=snap(opening.height, grid),
        sill=snap(opening.sill, grid),
        rise=snap(_rise(opening, filled), grid) if bare else 0.0,
        lining=lining,
        lining_depth=_lining_depth(opening, sheet, framing, filled) if lining else 0.0,
        gap=filled.size("gap", opening.gap, usual_things.gap, what="packing gap") if lining else 0.0,
        reveal=filled.size("reveal", opening.reveal, usual_things.reveal, what="reveal") if opening.casing else 0.0,
        casing=opening.casing,
    )


def _lining_depth(opening: Opening, sheet: Sheet, framing: Lumber, filled: Filled) -> float:
    deep = sheet.thickness + framing.depth
    why = Working(
        formula="sheet and frame together",
        inputs=(("sheet", sheet.thickness, "mm"), ("frame", framing.depth, "mm")),
        value=deep,
        unit="mm",
    )
    return filled.unless("lining_depth", opening.lining_depth, deep, why)


def _rise(opening: Opening, filled: Filled) -> float:
    half = opening.width / 2
    why = Working(formula="half the width", inputs=(("width", opening.width, "mm"),), value=half, unit="mm")
    return filled.unless("rise", opening.rise, half, why)


def _trim_lines(known: _Known, wall: Wall, height: float) -> tuple[TrimLine, ...]:
    lines = [
        _trim_line(known, trim, height) for trim in known.project.trim if wall.trim is None or trim.name in wall.trim
    ]
    return tuple(sorted(lines, key=lambda line: (line.top, line.name)))


def _trim_line(known: _Known, trim: Trim, height: float) -> TrimLine:
    covers = drop(known.catalog.profiles[trim.profile])
    top = height if trim.kind == "cornice" else covers
    if trim.height is not None:
        top = snap(trim.height, known.style)
    return TrimLine(
        name=trim.name, kind=trim.kind, profile=trim.profile, top=top, bottom=max(top - covers, 0.0), loose=trim.loose
    )


def _loads(project: Project, wall: Wall) -> tuple[Load, ...]:
    """Return what hangs on a wall, left to right."""
    loads = [
        Load(name=prop.name, along=prop.along, width=prop.width, height=prop.above_floor + prop.height, mass=prop.mass)
        for prop in project.props
        if prop.wall == wall.name and prop.along is not None and prop.above_floor is not None
    ]
    return tuple(sorted(loads, key=lambda load: (load.along, load.name)))


# --- what all walls share ------------------------------------------------------------------------------------------


def _title(known: _Known, filled: Filled) -> TitleBrief:
    table, paper, step = known.project.project, known.usual.paper, float(known.style.step)
    filled.unless("precision", table.precision, None, usual("smallest step of the saw", step, "mm"))
    filled.unstated(table, "revision", usual("letter of the first issue", table.revision))
    return TitleBrief(
        title=table.title,
        date=table.date,
        revision=table.revision,
        paper=filled.unless("paper", table.paper, paper, usual("paper", paper)),
        currency=table.currency,
        notes=table.notes,
    )


def _place(table: SetTable, usual_things: Defaults, filled: Filled) -> PlaceBrief:
    clear = usual_things.clear_behind if table.clear_behind is None else table.clear_behind
    if table.at is None:
        filled.size("clear_behind", table.clear_behind, clear, what="depth to walk behind a set")
        formula = "in the middle of the room's width, as far back as the depth kept clear behind the set allows"
        filled.keep("at", Working(formula=formula, inputs=(("kept clear", clear, "mm"),), value="found from the room"))
    filled.unstated(table, "turn", usual("turn, square to the room", table.turn, "rad"))
    filled.unstated(table, "seams", usual("order of what counts: the fewest sheets before seams", table.seams))
    return PlaceBrief(at=table.at, turn=table.turn, clear_behind=clear)


def _corner(project: Project, number: int, filled: Filled) -> CornerBrief:
    wall, following, shared = project.walls[number], project.walls[number + 1], project.set
    square = usual("corner, square", RIGHT_ANGLE, "rad")
    return CornerBrief(
        left=wall.name,
        right=following.name,
        angle=filled.within(f"walls/{wall.name}").unless("angle_to_next", wall.angle_to_next, RIGHT_ANGLE, square),
        style=wall.corner or shared.corner,
        frame_laps=wall.frame_laps or shared.frame_laps,
        sheet_laps=wall.sheet_laps or shared.sheet_laps,
    )


def _limits(project: Project) -> FlatLimitsBrief:
    stated, workshop, filled = project.set.flats, project.workshop, Filled()
    lift = team_lift(people=workshop.people, each=workshop.lift_per_person)
    why = Working(
        formula="what the crew lifts together",
        inputs=(("people", workshop.people, ""), ("lift of each", workshop.lift_per_person, "kg")),
        source=TEAM,
        value=lift,
        unit="kg",
    )
    return FlatLimitsBrief(
        max_width=math.inf if stated.max_width is None else stated.max_width,
        max_height=math.inf if stated.max_height is None else stated.max_height,
        max_weight=filled.unless("max_weight", stated.max_weight, lift, why),
        assumed=filled.assumed,
    )


def _crew(workshop: Workshop, filled: Filled) -> CrewBrief:
    filled.unstated(workshop, "people", usual("crew", workshop.people))
    filled.unstated(workshop, "lift_per_person", usual("lift of one person", workshop.lift_per_person, "kg"))
    return CrewBrief(people=workshop.people, lift_per_person=workshop.lift_per_person)


def _saw(known: _Known, filled: Filled) -> SawBrief:
    workshop = known.project.workshop
    kerf = filled.size("kerf", workshop.kerf, known.usual.kerf, what="width that a saw takes")
    filled.unstated(workshop, "trim_cut", usual("cut off a factory end", workshop.trim_cut, "mm"))
    filled.unstated(workshop, "spare_boards", usual("spare of each timber", "one board"))
    return SawBrief(kerf=kerf, trim_cut=workshop.trim_cut, spare_boards=workshop.spare_boards)


# --- fittings and fixings ------------------------------------------------------------------------------------------


def _hardware(known: _Known, walls: tuple[WallBrief, ...], filled: Filled) -> Hardware:
    """Return fittings of the project's own system, and screws long enough for its timber and not too long."""
    broad, narrow = max(wall.framing.width for wall in walls), min(wall.framing.width for wall in walls)
    screws = [row for row in known.catalog.fasteners.values() if row.kind == "screw" and _is_own(known, row.name)]
    found = Hardware(
        corner_plate=_fitting(known, "corner plate"),
        sill_strap=_fitting(known, "sill strap"),
        corner_screw=_longest_within(screws, 2 * narrow - LEAST_BETWEEN),
        corner_screws=tuple(sorted(screws, key=lambda row: (row.length, row.diameter, row.name))),
        frame_screw=_shortest_of_at_least(screws, 2 * broad),
    )
    _keep_fittings(found, walls, broad, narrow, filled)
    return found


def _keep_fittings(found: Hardware, walls: tuple[WallBrief, ...], broad: float, narrow: float, filled: Filled) -> None:
    """Keep why each fitting that the walls use was taken: no key of the file states one."""
    smallest = "the smallest of the catalogue in the project's own system"
    filled.keep("corner plate", _chosen(found.corner_plate, smallest))
    if any(opening.sill <= 0 for wall in walls for opening in wall.openings):
        filled.keep("sill strap", _chosen(found.sill_strap, smallest))
    formula = "the shortest of the catalogue that holds as deep as the thickest plate"
    filled.keep("frame screw", _chosen(found.frame_screw, formula, ("thickest plate", broad, "mm")))
    if len(walls) > 1:
        formula = "the longest of the catalogue that ends inside the second stud"
        inputs = (("narrowest stud", narrow, "mm"), ("left before its back", LEAST_BETWEEN, "mm"))
        filled.keep("corner screw", _chosen(found.corner_screw, formula, *inputs))


def _chosen(row: Bracket | Fastener, formula: str, *inputs: tuple[str, float, str]) -> Working:
    return Working(formula=formula, inputs=inputs, source=COMMON_PRACTICE, value=row.name)


def _is_own(known: _Known, name: str) -> bool:
    return name.endswith(" in") == (known.style.system == "imperial")


def _fitting(known: _Known, kind: str) -> Bracket:
    """Return the smallest fitting of a kind in the project's own system."""
    rows = [row for row in known.catalog.brackets.values() if row.kind == kind]
    return min(rows, key=lambda row: (not _is_own(known, row.name), row.width, row.name))


def _longest_within(screws: list[Fastener], limit: float) -> Fastener:
    """Return the longest screw that does not come out at the back: through one stud, into the other."""
    fitting = [row for row in screws if row.length <= limit + 1e-6] or [min(screws, key=lambda row: row.length)]
    return max(fitting, key=lambda row: (row.length, row.diameter, row.name))


def _shortest_of_at_least(screws: list[Fastener], least: float) -> Fastener:
    """Return the shortest screw that holds as deep as the plate is thick (common practice, no source)."""
    fitting = [row for row in screws if row.length >= least - 1e-6] or [max(screws, key=lambda row: row.length)]
    return min(fitting, key=lambda row: (row.length, row.diameter, row.name))
