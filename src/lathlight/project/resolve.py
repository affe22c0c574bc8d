"""From what the user said to everything a plan follows from: names looked up, defaults filled in, lengths on the grid.

Decides nothing about timber: what cannot be looked up or drawn is a problem (``lathlight.project.lookups``), what would
fail is left to ``lathlight.snags``. All problems are collected, in the order of the file where its text is at hand.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.project.brief import (
    Brief,
    CornerBrief,
    CrewBrief,
    FlatLimitsBrief,
    Load,
    OpeningBrief,
    PlaceBrief,
    SawBrief,
    TitleBrief,
    WallBrief,
)
from lathlight.project.crew import TEAM, team_lift
from lathlight.project.defaults import Defaults, Filled, defaults_of, usual
from lathlight.project.draft import draft_of
from lathlight.project.findings import in_file_order
from lathlight.project.finishing import finish_brief
from lathlight.project.fittings import hardware
from lathlight.project.fixing import fixing_brief
from lathlight.project.flooring import floor_brief
from lathlight.project.known import Known
from lathlight.project.lookups import lookup_findings
from lathlight.project.mouldings import frames_briefs, keep_unstated_of_trim, trim_lines
from lathlight.project.sitters import picture_briefs, sitter_briefs
from lathlight.project.space import room_brief
from lathlight.project.walls import RIGHT_ANGLE
from lathlight.units import LengthStyle, snap
from lathlight.working import Working

if TYPE_CHECKING:
    from lathlight.catalog import Catalog, Lumber, Sheet
    from lathlight.project.brief import WallEndFinish
    from lathlight.project.model import Opening, Project, SetTable, Wall, Workshop

CALLED = (
    "set",
    "walls",
    "trim",
    "moulding_frames",
    "fixing",
    "finish",
    "catalog",
)  # tables that hold names of the catalogue


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
    return _brief(Known(project=project, catalog=full, style=style, usual=defaults_of(style)))


def _brief(known: Known) -> Brief:
    project, filled = known.project, Filled()
    title, saw = _title(known, filled.within("project")), _saw(known, filled.within("workshop"))
    room = room_brief(project.room, filled.within("room"))
    place = _place(project.set, known.usual, filled.within("set"))
    corners = tuple(_corner(project, number, filled) for number in range(len(project.walls) - 1))
    sitters = sitter_briefs(project, known.usual, filled)
    pictures = picture_briefs(project, sitters, known.usual, filled)
    walls = tuple(_wall(known, wall) for wall in project.walls)
    keep_unstated_of_trim(known, filled)
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
        hardware=hardware(known, walls, filled.within("fittings")),
        ends=_ends(project.set, filled.within("set")),
        frames=frames_briefs(known, filled),
        floor=floor_brief(known, filled),
        finish=finish_brief(known, filled),
        fixing=fixing_brief(known, filled),
        pictures=pictures,
        sitters=sitters,
        assumed=filled.assumed,
        catalog=known.catalog,
        project=project,
    )


# --- walls ---------------------------------------------------------------------------------------------------------


def _wall(known: Known, wall: Wall) -> WallBrief:
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
        trim=trim_lines(known, wall, height=height),
        loads=_loads(known, wall),
        assumed=filled.assumed,
    )


def _stud_spacing(known: Known, wall: Wall, sheet: Sheet, filled: Filled) -> float:
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


def _opening(known: Known, opening: Opening, sheet: Sheet, framing: Lumber, filled: Filled) -> OpeningBrief:
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
        height=snap(opening.height, grid) if opening.sill else known.raised(opening.height),
        sill=known.raised(opening.sill) if opening.sill else 0.0,
        rise=snap(_rise(opening, filled), grid) if bare else 0.0,
        lining=lining,
        lining_depth=_lining_depth(opening, sheet, framing, filled) if lining else 0.0,
        gap=filled.size("gap", opening.gap, usual_things.gap, what="packing gap") if lining else 0.0,
        reveal=filled.size("reveal", opening.reveal, usual_things.reveal, what="reveal") if opening.casing else 0.0,
        casing=opening.casing,
        plinth_blocks=opening.plinth_blocks,
        corner_blocks=opening.corner_blocks,
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


def _loads(known: Known, wall: Wall) -> tuple[Load, ...]:
    """Return what hangs on a wall, left to right."""
    loads = [
        Load(
            name=prop.name,
            along=prop.along,
            width=prop.width,
            height=known.rise + prop.above_floor + prop.height,
            mass=prop.mass,
        )
        for prop in known.project.props
        if prop.wall == wall.name and prop.along is not None and prop.above_floor is not None
    ]
    return tuple(sorted(loads, key=lambda load: (load.along, load.name)))


# --- what all walls share ------------------------------------------------------------------------------------------


def _title(known: Known, filled: Filled) -> TitleBrief:
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


def _ends(table: SetTable, filled: Filled) -> tuple[WallEndFinish, WallEndFinish]:
    for key, end in (("left_end", table.left_end), ("right_end", table.right_end)):
        filled.unstated(table, key, usual("finish of a free end", end))
    return table.left_end, table.right_end


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


def _saw(known: Known, filled: Filled) -> SawBrief:
    workshop = known.project.workshop
    kerf = filled.size("kerf", workshop.kerf, known.usual.kerf, what="width that a saw takes")
    filled.unstated(workshop, "trim_cut", usual("cut off a factory end", workshop.trim_cut, "mm"))
    filled.unstated(workshop, "spare_boards", usual("spare of each timber", "one board"))
    return SawBrief(kerf=kerf, trim_cut=workshop.trim_cut, spare_boards=workshop.spare_boards)
