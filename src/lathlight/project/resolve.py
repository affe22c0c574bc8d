"""From what the user said to everything a plan follows from: names looked up, defaults filled in, lengths on the grid.

Decides nothing about timber: what cannot be looked up or drawn is a problem, what would fail is left to
``lathlight.snags``. All problems are collected, in the order of the file where its text is at hand.
"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

from lathlight.catalog import drop, extended, nearest_row
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
from lathlight.project.defaults import Defaults, defaults_of, usual
from lathlight.project.findings import Finding, in_file_order
from lathlight.project.sitters import picture_briefs, sitter_briefs
from lathlight.project.space import room_brief
from lathlight.project.walls import RIGHT_ANGLE
from lathlight.units import LengthStyle, format_length, snap
from lathlight.working import Working

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.catalog import Bracket, Catalog, Fastener, Lumber, Row, Sheet
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import Opening, Project, Trim, Wall

R = TypeVar("R", bound="Row")

LEAST_BETWEEN = 6.0  # [mm] a corner screw ends this far inside the far stud's back: common practice, no source


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
    findings: list[Finding] = []
    style = LengthStyle.of(project.project.units, project.project.precision)
    full = _extended(project, catalog, style, findings)
    lookup = _Lookup(project=project, catalog=full, style=style, usual=defaults_of(style), findings=findings)
    walls = tuple(_wall(lookup, wall, number) for number, wall in enumerate(project.walls))
    lookup.check_finish()
    if findings:
        raw = json.loads(project.model_dump_json())
        raise InputError(in_file_order(findings, name=place, raw=raw, text=text))
    return _brief(lookup, tuple(wall for wall in walls if wall is not None))


def _extended(project: Project, catalog: Catalog, style: LengthStyle, findings: list[Finding]) -> Catalog:
    rows = {table: getattr(project.catalog, table) for table in type(project.catalog).model_fields}
    try:
        return extended(catalog, rows, style=style, place=lambda path: json.dumps(path))
    except InputError as error:
        findings += [
            Finding(path=tuple(json.loads(each.place)), found=each.found, expected=each.expected, remedy=each.remedy)
            for each in error.problems
        ]
        return catalog


def _brief(lookup: _Lookup, walls: tuple[WallBrief, ...]) -> Brief:
    project, usual_things = lookup.project, lookup.usual
    sitters = sitter_briefs(project, usual_things)
    table, workshop, standing = project.project, project.workshop, project.set
    return Brief(
        title=TitleBrief(
            title=table.title,
            date=table.date,
            revision=table.revision,
            paper=table.paper or usual_things.paper,
            currency=table.currency,
            notes=table.notes,
        ),
        style=lookup.style,
        room=room_brief(project.room),
        place=PlaceBrief(
            at=standing.at,
            turn=standing.turn,
            clear_behind=usual_things.clear_behind if standing.clear_behind is None else standing.clear_behind,
        ),
        walls=walls,
        corners=tuple(_corner(project, number) for number in range(len(project.walls) - 1)),
        limits=_limits(project),
        crew=CrewBrief(people=workshop.people, lift_per_person=workshop.lift_per_person),
        saw=SawBrief(
            kerf=usual_things.kerf if workshop.kerf is None else workshop.kerf,
            trim_cut=workshop.trim_cut,
            spare_boards=workshop.spare_boards,
        ),
        seams=project.set.seams,
        hardware=_hardware(lookup, walls),
        pictures=picture_briefs(project, sitters, usual_things),
        sitters=sitters,
        catalog=lookup.catalog,
        project=project,
    )


# --- names ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lookup:
    """The catalogue, what is usual, and the list that findings go to."""

    project: Project
    catalog: Catalog
    style: LengthStyle
    usual: Defaults
    findings: list[Finding] = field(compare=False)

    def row(self, table: str, rows: Mapping[str, R], name: str, *, path: KeyPath, what: str) -> R | None:
        """Return a row of the catalogue; None, with a finding, where there is none."""
        if name in rows:
            return rows[name]
        own = [row.get("name") for row in getattr(self.project.catalog, table)]
        if name not in own:  # else the row itself has a fault, which has been found
            near = nearest_row(rows, name)
            self.findings.append(
                Finding(
                    path=path,
                    found=f'unknown {what} "{name}"',
                    expected=f"a name of the catalogue's table {table}",
                    remedy=f'Did you mean "{near.name}"?' if near else f"Look it up: lathlight catalog {what}.",
                )
            )
        return None

    def check_finish(self) -> None:
        """Look up what later stages need: paints, and the profiles of moulding frames."""
        for key in ("paint", "primer"):
            name = getattr(self.project.finish, key)
            if name is not None:
                self.row("paints", self.catalog.paints, name, path=("finish", key), what="paint")
        for number, tier in enumerate(self.project.moulding_frames):
            path = ("moulding_frames", number, "profile")
            self.row("profiles", self.catalog.profiles, tier.profile, path=path, what="moulding")
        for number, trim in enumerate(self.project.trim):
            self._check_trim(trim, number)

    def _check_trim(self, trim: Trim, number: int) -> None:
        profiles = self.catalog.profiles
        profile = self.row("profiles", profiles, trim.profile, path=("trim", number, "profile"), what="moulding")
        if profile is not None and trim.kind == "cornice" and profile.spring is None and trim.spring is None:
            self.findings.append(
                Finding(
                    path=("trim", number, "profile"),
                    found=f'"{trim.profile}", which has no spring angle',
                    expected="a cornice's profile, or the spring angle",
                    remedy="Choose a cornice (lathlight catalog cornice), or add a line such as spring = 38.",
                )
            )

    def length(self, mm: float) -> str:
        """Return a length for a message."""
        return format_length(round(mm, 6), style=self.style)


# --- walls ---------------------------------------------------------------------------------------------------------


def _wall(lookup: _Lookup, wall: Wall, number: int) -> WallBrief | None:
    """Return a wall ready to build; None, with findings, where something cannot be looked up."""
    assumed: dict[str, Working] = {}
    sheet, framing = _sheet(lookup, wall, number, assumed), _framing(lookup, wall, number, assumed)
    height = snap(wall.height or lookup.project.set.height or 0.0, lookup.style)
    trim = _trim_lines(lookup, wall, height)
    openings = [
        _opening(lookup, opening, ("walls", number, "openings", place), sheet, framing, assumed)
        for place, opening in enumerate(wall.openings)
    ]
    if sheet is None or framing is None or not _is_long_enough(lookup, wall, number, framing, height):
        return None
    return WallBrief(
        name=wall.name,
        length=snap(wall.length, lookup.style),
        height=height,
        sheet=sheet,
        framing=framing,
        stud_spacing=_stud_spacing(lookup, wall, sheet, assumed),
        openings=tuple(sorted(openings, key=lambda opening: opening.left)),
        trim=trim,
        loads=_loads(lookup, wall),
        assumed=assumed,
    )


def _sheet(lookup: _Lookup, wall: Wall, number: int, assumed: dict[str, Working]) -> Sheet | None:
    name, path = _stated(lookup, wall, number, "sheet")
    if name is None:
        name = lookup.usual.sheet
        assumed["sheet"] = usual("facing sheet", name)
    return lookup.row("sheets", lookup.catalog.sheets, name, path=path, what="sheet")


def _framing(lookup: _Lookup, wall: Wall, number: int, assumed: dict[str, Working]) -> Lumber | None:
    name, path = _stated(lookup, wall, number, "framing")
    if name is None:
        name = lookup.usual.framing
        assumed["framing"] = usual("framing timber", name)
    return lookup.row("lumber", lookup.catalog.lumber, name, path=path, what="timber")


def _stated(lookup: _Lookup, wall: Wall, number: int, key: str) -> tuple[str | None, KeyPath]:
    """Return what a wall or else the set states, and where."""
    own: str | None = getattr(wall, key)
    return (own, ("walls", number, key)) if own is not None else (getattr(lookup.project.set, key), ("set", key))


def _stud_spacing(lookup: _Lookup, wall: Wall, sheet: Sheet, assumed: dict[str, Working]) -> float:
    stated = wall.stud_spacing or lookup.project.set.stud_spacing
    if stated is not None:
        return stated
    wide = lookup.usual.stud_spacing
    spacing = min(wide, sheet.stud_spacing)
    assumed["stud_spacing"] = Working(
        formula="the smaller of the usual spacing and the largest that the sheet allows, as none is stated",
        inputs=(("usual spacing", wide, "mm"), (f"{sheet.name} allows", sheet.stud_spacing, "mm")),
        source=sheet.source,
        value=spacing,
        unit="mm",
    )
    return spacing


def _is_long_enough(lookup: _Lookup, wall: Wall, number: int, framing: Lumber, height: float) -> bool:
    """Find walls with no room for their own end studs or plates."""
    least = 2 * framing.width
    faults = [
        Finding(
            path=("walls", number, key),
            found=lookup.length(size),
            expected=f"more than {lookup.length(least)} ({what} of {framing.name})",
            remedy=f"Give a {key} such as {lookup.length(1200.0)}, or take the wall out.",
        )
        for key, size, what in (("length", wall.length, "two end studs"), ("height", height, "two plates"))
        if size <= least
    ]
    lookup.findings.extend(faults)
    return not faults


def _opening(
    lookup: _Lookup,
    opening: Opening,
    path: KeyPath,
    sheet: Sheet | None,
    framing: Lumber | None,
    assumed: dict[str, Working],
) -> OpeningBrief:
    grid, filled = lookup.style, _Filled(name=opening.name, usual=lookup.usual, assumed=assumed)
    if opening.casing is not None:
        lookup.row("profiles", lookup.catalog.profiles, opening.casing, path=(*path, "casing"), what="moulding")
    lining = filled.lining(opening)
    deep = (sheet.thickness if sheet else 0.0) + (framing.depth if framing else 0.0)
    return OpeningBrief(
        name=opening.name,
        kind=opening.kind,
        left=snap(opening.at, grid),
        width=snap(opening.width, grid),
        height=snap(opening.height, grid),
        sill=snap(opening.sill, grid),
        rise=snap(filled.rise(opening), grid),
        lining=lining,
        lining_depth=filled.lining_depth(opening, deep) if lining else 0.0,
        gap=filled.size("gap", opening.gap, lookup.usual.gap) if lining else 0.0,
        reveal=filled.size("reveal", opening.reveal, lookup.usual.reveal) if opening.casing else 0.0,
        casing=opening.casing,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Filled:
    """Fills in what an opening does not state, and says so."""

    name: str
    usual: Defaults
    assumed: dict[str, Working]

    def size(self, key: str, stated: float | None, otherwise: float) -> float:
        if stated is None:
            self.assumed[f"{self.name} {key}"] = usual(key, otherwise, "mm")
            return otherwise
        return stated

    def lining(self, opening: Opening) -> float:
        """Return the lining's thickness; an arch is lined only where that is asked for."""
        return self.size("lining", opening.lining, 0.0 if opening.kind == "arch" else self.usual.lining)

    def lining_depth(self, opening: Opening, deep: float) -> float:
        if opening.lining_depth is None:
            why = Working(formula="sheet and frame together, as none is stated", value=deep, unit="mm")
            self.assumed[f"{self.name} lining_depth"] = why
            return deep
        return opening.lining_depth

    def rise(self, opening: Opening) -> float:
        if opening.kind != "arch":
            return 0.0
        if opening.rise is None:
            half = opening.width / 2
            why = Working(formula="half the width, as none is stated", value=half, unit="mm")
            self.assumed[f"{self.name} rise"] = why
            return half
        return opening.rise


def _trim_lines(lookup: _Lookup, wall: Wall, height: float) -> tuple[TrimLine, ...]:
    lines = [
        line
        for number, trim in enumerate(lookup.project.trim)
        if (wall.trim is None or trim.name in wall.trim) and (line := _trim_line(lookup, trim, number, height))
    ]
    return tuple(sorted(lines, key=lambda line: (line.top, line.name)))


def _trim_line(lookup: _Lookup, trim: Trim, number: int, height: float) -> TrimLine | None:
    profile = lookup.catalog.profiles.get(trim.profile)
    if profile is None:  # found where trim is checked
        return None
    covers = drop(profile)
    top = height if trim.kind == "cornice" else covers
    if trim.height is not None:
        top = snap(trim.height, lookup.style)
    if top - covers < -1e-6:
        lookup.findings.append(
            Finding(
                path=("trim", number, "height"),
                found=lookup.length(top),
                expected=f"at least {lookup.length(covers)}, the height of {trim.profile} itself",
                remedy="The height is that of the top edge above the finished floor: give a greater one.",
            )
        )
        return None
    return TrimLine(
        name=trim.name, kind=trim.kind, profile=trim.profile, top=top, bottom=max(top - covers, 0.0), loose=trim.loose
    )


def _loads(lookup: _Lookup, wall: Wall) -> tuple[Load, ...]:
    """Return what hangs on a wall, left to right."""
    loads = [
        Load(name=prop.name, along=prop.along, width=prop.width, height=prop.above_floor + prop.height, mass=prop.mass)
        for prop in lookup.project.props
        if prop.wall == wall.name and prop.along is not None and prop.above_floor is not None
    ]
    return tuple(sorted(loads, key=lambda load: (load.along, load.name)))


# --- what all walls share ------------------------------------------------------------------------------------------


def _corner(project: Project, number: int) -> CornerBrief:
    wall, following, shared = project.walls[number], project.walls[number + 1], project.set
    return CornerBrief(
        left=wall.name,
        right=following.name,
        angle=RIGHT_ANGLE if wall.angle_to_next is None else wall.angle_to_next,
        style=wall.corner or shared.corner,
        frame_laps=wall.frame_laps or shared.frame_laps,
        sheet_laps=wall.sheet_laps or shared.sheet_laps,
    )


def _limits(project: Project) -> FlatLimitsBrief:
    stated, workshop = project.set.flats, project.workshop
    lift = team_lift(people=workshop.people, each=workshop.lift_per_person)
    assumed: dict[str, Working] = {}
    if stated.max_weight is None:
        assumed["max_weight"] = Working(
            formula="what the crew lifts together, as no limit is stated",
            inputs=(("people", workshop.people, ""), ("lift of each", workshop.lift_per_person, "kg")),
            source=TEAM,
            value=lift,
            unit="kg",
        )
    return FlatLimitsBrief(
        max_width=math.inf if stated.max_width is None else stated.max_width,
        max_height=math.inf if stated.max_height is None else stated.max_height,
        max_weight=lift if stated.max_weight is None else stated.max_weight,
        assumed=assumed,
    )


def _hardware(lookup: _Lookup, walls: tuple[WallBrief, ...]) -> Hardware:
    """Return fittings of the project's own system, and screws long enough for its timber and not too long."""
    broad, narrow = max(wall.framing.width for wall in walls), min(wall.framing.width for wall in walls)
    screws = [row for row in lookup.catalog.fasteners.values() if row.kind == "screw" and _is_own(lookup, row.name)]
    return Hardware(
        corner_plate=_fitting(lookup, "corner plate"),
        sill_strap=_fitting(lookup, "sill strap"),
        corner_screw=_longest_within(screws, 2 * narrow - LEAST_BETWEEN),
        frame_screw=_shortest_of_at_least(screws, 2 * broad),
    )


def _is_own(lookup: _Lookup, name: str) -> bool:
    return name.endswith(" in") == (lookup.style.system == "imperial")


def _fitting(lookup: _Lookup, kind: str) -> Bracket:
    """Return the smallest fitting of a kind in the project's own system."""
    rows = [row for row in lookup.catalog.brackets.values() if row.kind == kind]
    return min(rows, key=lambda row: (not _is_own(lookup, row.name), row.width, row.name))


def _longest_within(screws: list[Fastener], limit: float) -> Fastener:
    """Return the longest screw that does not come out at the back: through one stud, into the other."""
    fitting = [row for row in screws if row.length <= limit + 1e-6] or [min(screws, key=lambda row: row.length)]
    return max(fitting, key=lambda row: (row.length, row.diameter, row.name))


def _shortest_of_at_least(screws: list[Fastener], least: float) -> Fastener:
    """Return the shortest screw that holds as deep as the plate is thick (common practice, no source)."""
    fitting = [row for row in screws if row.length >= least - 1e-6] or [max(screws, key=lambda row: row.length)]
    return min(fitting, key=lambda row: (row.length, row.diameter, row.name))
