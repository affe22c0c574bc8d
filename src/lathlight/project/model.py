"""What the user said: the project file's tables, validated and frozen.

Lengths are millimetres, angles radians, masses kilograms once read; the file may state them in any notation that
``lathlight.units`` accepts, in the project's own system. What depends on the catalogue (does this sheet exist?) or on
several tables at once (do the walls cross?) is left to ``lathlight.project.brief``.

Plan axes of the room: x to the right, y away from the camera, z up, origin at the room's front left corner.
"""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo

from lathlight.catalog import parse_measure
from lathlight.units import LengthStyle, parse_angle, parse_length, parse_mass

FORMAT = 1  # the project file's own version; older ones go through lathlight.project.upgrade


def _style(info: ValidationInfo) -> LengthStyle:
    context: dict[str, Any] = info.context or {}
    style = context.get("style")
    return style if isinstance(style, LengthStyle) else LengthStyle.metric()


def _length(value: object, info: ValidationInfo) -> float:
    return parse_length(value, style=_style(info))


def _angle(value: object) -> float:
    return parse_angle(value)


def _mass(value: object) -> float:
    return parse_mass(value)


def _volume(value: object) -> float:
    return parse_measure(value, measure="volume")


# A length in the file's notation; schema and docs show it as text or number.
AnyLength = Annotated[float, BeforeValidator(_length, json_schema_input_type=str | float)]
Length = Annotated[float, BeforeValidator(_length, json_schema_input_type=str | float), Field(gt=0)]
Size = Annotated[float, BeforeValidator(_length, json_schema_input_type=str | float), Field(ge=0)]
Angle = Annotated[float, BeforeValidator(_angle, json_schema_input_type=str | float)]
Mass = Annotated[float, BeforeValidator(_mass, json_schema_input_type=str | float), Field(ge=0)]
Volume = Annotated[float, BeforeValidator(_volume, json_schema_input_type=str | float), Field(gt=0)]
Point = tuple[AnyLength, AnyLength]
WallEndFinish = Literal["painted edge", "cover strip", "return"]
LONGEST_WALL, HIGHEST_WALL = 40_000.0, 12_000.0  # a set of flats is no larger [mm]; drawings hold so much
THICKEST_COVERING, SHORTEST_BOARD = 102.0, 100.0  # [mm] 4 in and next to it: beyond, the unit was mistaken
Spacing = Annotated[AnyLength, Field(ge=25.0, le=610.0)]  # of screws and brads, 1 in to 24 in
WIDEST_ROLLER, WIDEST_BRUSH = 610.0, 305.0  # [mm] 24 in and 12 in: common practice, no source
HIDDEN = r"\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028\u2029\ufeff\ufffe\uffff"  # letters that print as nothing
Name = Annotated[
    str, Field(min_length=1, max_length=60, pattern=rf"^[^\s/@{HIDDEN}](?:[^/@{HIDDEN}]*[^\s/@{HIDDEN}])?$")
]
Share = Annotated[float, Field(ge=0, le=1)]


class Table(BaseModel):
    """Base of every table: unknown keys are refused, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)


class ProjectTable(Table):
    """Title block, units and money."""

    title: Annotated[str, Field(min_length=1, max_length=120, pattern=rf"^[^{HIDDEN}]*$")]
    """What the set is called; stands on every page."""
    date: dt.date | None = None
    """Date of issue; printed, never taken from the clock."""
    revision: Annotated[str, Field(max_length=12)] = "A"
    """Letter or number of the issue."""
    units: Literal["metric", "imperial"]
    """System of every length in this file and of everything printed."""
    precision: Literal["1 mm", "1/16 in", "1/32 in"] | None = None
    """Smallest step a saw is set to: 1 mm, 1/16 in (imperial default) or 1/32 in."""
    currency: Annotated[str, Field(min_length=1, max_length=8)] = "EUR"
    """Currency of every price."""
    tax_percent: Annotated[Decimal, Field(ge=0, le=100)] = Decimal(0)
    """Tax on purchases [%]."""
    prices_include_tax: bool = True
    """True where the listed prices include the tax."""
    paper: Literal["A4", "A3", "Letter", "Tabloid"] | None = None
    """Paper of the set book; A4 in metric, Letter in imperial projects."""
    notes: str = ""
    """Free words for the first page."""


class Door(Table):
    """A door of the room that parts must come through."""

    name: Name
    """What the door is called; on the plan and in snags."""
    clear_width: Length
    """Width between the stops with the door open."""
    clear_height: Length
    """Height under the head."""
    side: Literal["front", "back", "left", "right"] = "front"
    """The room's side it is in, seen from the camera (rectangular rooms)."""
    at: Size = 0.0
    """From the left (front, back) or the front (left, right) corner of that side to the door's nearer edge."""
    run_inside: Length | None = None
    """Free straight length inside the door; the room's depth where not stated."""


class Pillar(Table):
    """Something that stands in the room for good."""

    name: Name
    """What it is called."""
    at: Point
    """Front left corner in room axes."""
    width: Length
    """Along x."""
    depth: Length
    """Along y."""


class KeepClear(Table):
    """A rectangle that must stay free: exit route, heater, panel, extinguisher."""

    name: Name
    """What it is called."""
    at: Point
    """Front left corner in room axes."""
    width: Length
    """Along x."""
    depth: Length
    """Along y."""
    why: str = ""
    """What it is kept clear for."""


class WayIn(Table):
    """One stage of the way from the vehicle to the room."""

    name: Name
    """What the stage is called; the name of a door of the room makes it that door."""
    kind: Literal["door", "corridor", "turn", "stairs", "vehicle"]
    """What it is: a door, a straight corridor, a turn from one corridor into the next, stairs, or a load space."""
    clear_width: Length
    """Least clear width; of a vehicle the width of its load."""
    clear_height: Length
    """Least clear height; on stairs upright from the line of the steps' noses."""
    length: Length | None = None
    """Straight run (corridor, stairs), or load length (vehicle)."""
    next_width: Length | None = None
    """Width of the corridor after a turn."""
    turn_angle: Angle | None = None
    """Angle turned through, 90 degrees where not stated."""
    slope: Angle | None = None
    """Pitch of the stairs."""


class Room(Table):
    """The room the set stands in."""

    width: Length | None = None
    """Along x, from left to right."""
    depth: Length | None = None
    """Along y, away from the camera."""
    outline: Annotated[tuple[Point, ...], Field(min_length=3)] | None = None
    """Corners in room axes, for a room that is no rectangle; instead of width and depth."""
    ceiling: Length
    """Least clear height."""
    doors: tuple[Door, ...] = ()
    """Doors that parts can come in through; any one that passes will do."""
    pillars: tuple[Pillar, ...] = ()
    """What stands in the room for good."""
    keep_clear: tuple[KeepClear, ...] = ()
    """Areas that stay free."""
    way_in: tuple[WayIn, ...] = ()
    """Stages from the vehicle to the room, in order; every one has to be passed."""


class FlatLimits(Table):
    """What one portable flat may measure and weigh."""

    max_width: Length | None = None
    """Largest outside width of a frame; nothing but the way in limits it where not stated."""
    max_height: Length | None = None
    """Largest outside height of a frame; nothing limits it where not stated."""
    max_weight: Mass | None = None
    """Largest weight of one flat [kg]; from the crew where not stated."""


class SetTable(Table):
    """Where the set stands and what all walls share."""

    at: Point | None = None
    """Foot of the set's axis on its face, in room axes; found from the room where not stated."""
    turn: Angle = 0.0
    """Turn of the set in the room, anticlockwise seen from above."""
    clear_behind: Size | None = None
    """Free depth kept behind the set where its place is found from the room; 450 mm or 18 in where not stated."""
    height: Annotated[Length, Field(le=HIGHEST_WALL)] | None = None
    """Height of every wall that states none, from what the flats stand on."""
    sheet: str | None = None
    """Facing sheet of every wall that states none."""
    framing: str | None = None
    """Framing timber of every wall that states none."""
    stud_spacing: Length | None = None
    """Largest distance between studs, centre to centre."""
    corner: Literal["auto", "lap", "arris", "mitre"] = "auto"
    """How walls meet where they state nothing."""
    frame_laps: Literal["auto", "this", "next"] = "auto"
    """Whose frame runs past where walls state nothing: the left wall's, the right one's, or what needs fewer cuts."""
    sheet_laps: Literal["auto", "this", "next"] = "auto"
    """Whose sheet runs past, in the same words."""
    seams: Literal["save sheets", "save pictures"] = "save sheets"
    """What counts first where sheets are laid out: the fewest sheets, or seams away from the pictures' middle lines."""
    stands_on: Literal["floor", "covering"] = "floor"
    """Whether flats stand on the room's floor, and the covering stops at them, or on the floor covering."""
    left_end: WallEndFinish = "painted edge"
    """What is done with the free end of the first wall: painted, covered with a strip, or a return board over it."""
    right_end: WallEndFinish = "painted edge"
    """The same for the free end of the last wall."""
    flats: FlatLimits = FlatLimits()
    """Limits of one portable flat."""
    sittings: Annotated[int, Field(gt=0)] | None = None
    """Sittings a year the set is used for (cost per use)."""
    years: Annotated[float, Field(gt=0)] | None = None
    """Years the set is used for (cost per use)."""


class Opening(Table):
    """A door, window or arch in a wall; all sizes are clear sizes."""

    name: Name
    """What it is called; unique within its wall."""
    kind: Literal["door", "window", "arch"]
    """Door, window or arch."""
    at: Size
    """From the wall's left face corner to the clear opening's left edge."""
    width: Length
    """Clear width."""
    height: Length
    """Clear height, an arch's rise included."""
    sill: Size = 0.0
    """Height of the clear opening's bottom above the finished floor; 0 for a door."""
    rise: Length | None = None
    """Rise of an arch above its springing line; half the width where not stated."""
    lining: Size | None = None
    """Thickness of the pieces that line the opening; 0 for none."""
    lining_depth: Length | None = None
    """Depth of the lining, from the face back; sheet and frame together where not stated."""
    gap: Size | None = None
    """Packing gap between lining and framing."""
    reveal: Size | None = None
    """Set-back of the casing from the lining's edge."""
    casing: str | None = None
    """Moulding profile round the opening."""
    plinth_blocks: bool = False
    """True for square blocks at the casing's feet."""
    corner_blocks: bool = False
    """True for square blocks at the casing's upper corners."""


class Wall(Table):
    """One straight face of the set, seen from the camera's side; walls follow each other left to right."""

    name: Name
    """What the wall is called; ids of all its parts begin with it."""
    length: Annotated[Length, Field(le=LONGEST_WALL)]
    """Finished length of the face, from corner to corner."""
    height: Annotated[Length, Field(le=HIGHEST_WALL)] | None = None
    """Height of the face, from what the flats stand on; the set's where not stated."""
    angle_to_next: Angle | None = None
    """Inside angle to the next wall, 60 to 179 degrees; 90 where not stated."""
    corner: Literal["auto", "lap", "arris", "mitre"] | None = None
    """How this wall meets the next one."""
    frame_laps: Literal["auto", "this", "next"] | None = None
    """Whose frame runs past at the corner with the next wall."""
    sheet_laps: Literal["auto", "this", "next"] | None = None
    """Whose sheet runs past at the corner with the next wall."""
    sheet: str | None = None
    """Facing sheet, by its name in the catalogue; the set's where not stated."""
    framing: str | None = None
    """Framing timber, by its name in the catalogue; the set's where not stated."""
    stud_spacing: Length | None = None
    """Largest distance between studs, centre to centre; the set's where not stated."""
    openings: tuple[Opening, ...] = ()
    """Doors, windows and arches in it."""
    trim: tuple[Name, ...] | None = None
    """Names of the trim lines that run on this wall; all of them where not stated."""


class Trim(Table):
    """A horizontal line of moulding."""

    name: Name
    """What the line is called."""
    kind: Literal["base", "rail", "picture rail", "cornice"]
    """What kind of moulding it is."""
    profile: str
    """Moulding, by its name in the catalogue."""
    height: Length | None = None
    """Height of the top edge above the finished floor; a base and a cornice find their own."""
    loose: bool = False
    """True where pieces may span a joint that is taken apart."""
    spring: Angle | None = None
    """Angle between a cornice's back and the wall; the profile's own where not stated."""
    inside: Literal["mitre", "cope"] = "mitre"
    """How pieces meet in inside corners: mitred, or one cut to the other's profile."""
    ends: Literal["returned", "square"] = "returned"
    """How ends that are seen are made: turned back to the wall, or cut square."""


class MouldingFrames(Table):
    """A tier of closed rectangles of moulding on the walls."""

    name: Name
    """What the tier is called."""
    profile: str
    """Moulding, by its name in the catalogue."""
    bottom: Length
    """Height of the outside bottom edge above the finished floor."""
    top: Length
    """Height of the outside top edge."""
    gap: Length
    """Wished gap between neighbours, outside to outside."""
    end_gap: Length | None = None
    """Gap at the ends of a bay; the same as the inner gap where not stated."""
    bought_width: Length | None = None
    """Outside width of frames bought whole."""
    centre_on: Name | Literal["wall"] = "wall"
    """The wall, or the name of the picture that the pattern is centred on."""
    walls: tuple[Name, ...] | None = None
    """Names of the walls it is on; all of them where not stated."""
    part_at_joints: bool = False
    """True where every joint that is taken apart ends a bay, so that no frame crosses one."""
    loose: bool = False
    """True where frames may cross a joint that is taken apart: they come off for a move."""


class Floor(Table):
    """The floor covering of the set."""

    covering: Annotated[str, Field(min_length=1, max_length=60)] = "none"
    """What it is; "none" where there is none."""
    thickness: Annotated[Size, Field(le=THICKEST_COVERING)] = 0.0
    """Thickness of the covering; heights above the finished floor are measured from its top."""
    width: Length | None = None
    """Width of the covering, along the set."""
    depth: Length | None = None
    """Depth of the covering, towards the camera."""
    expansion_gap: Size = 0.0
    """Gap left free along its edges."""
    sheet_width: Length | None = None
    """Width of a strip or board of the covering."""
    sheet_length: Annotated[AnyLength, Field(ge=SHORTEST_BOARD)] | None = None
    """Length that strips or boards of the covering are sold in; as long as wanted where not stated."""
    strips: Literal["along", "away"] = "away"
    """Whether strips or boards run along the set or away from the camera."""


class Prop(Table):
    """A thing that stands in the set or hangs on a wall."""

    name: Name
    """What it is called."""
    width: Length
    """Along the wall, or to the right."""
    height: Length
    """From its foot to its top."""
    depth: Length
    """Away from the wall, or towards the camera."""
    mass: Mass = 0.0
    """Weight; what hangs on a wall gets timber behind its top."""
    at: Point | None = None
    """Centre of its foot in set axes: right of the axis, in front of the set's face."""
    wall: Name | None = None
    """The wall it hangs on."""
    along: Size | None = None
    """From that wall's left corner to its centre."""
    above_floor: Size | None = None
    """Height of its bottom."""


class Finish(Table):
    """Paint and how it is put on."""

    paint: str | None = None
    """Paint, by its name in the catalogue; the usual flat one where not stated, none with 0 coats."""
    primer: str | None = None
    """Primer, by its name in the catalogue; the usual one where not stated, none with 0 coats of it."""
    colour: str = ""
    """Colour, in words."""
    reflectance: Share | None = None
    """Share of light the dry paint gives back (LRV / 100)."""
    coats: Annotated[int, Field(ge=0, le=8)] = 2
    """Coats of paint."""
    primer_coats: Annotated[int, Field(ge=0, le=4)] = 1
    """Coats of primer."""
    mouldings: Literal["before fixing", "after fixing"] = "after fixing"
    """Whether mouldings are painted before or after they are fixed."""
    paint_edges: bool = True
    """True where paint is carried round edges at joints and openings."""
    paint_backs: bool = False
    """True where backs are painted too."""
    touch_up_percent: Annotated[float, Field(ge=0, le=100)] = 10.0
    """Share of the paint that is kept for touching up [%]."""
    raw_loss_percent: Annotated[float, Field(ge=0, le=100)] = 25.0
    """Share by which the first coat on bare sheet or timber takes more [%]."""
    mouldings_primed: bool = False
    """True where mouldings are bought with their primer on."""
    paint_at_hand: Volume | None = None
    """Paint that is there already, all of it one batch; what is needed is bought where not stated."""
    primer_at_hand: Volume | None = None
    """Primer that is there already."""
    roller: Annotated[Length, Field(le=WIDEST_ROLLER)] | None = None
    """Width of the narrowest roller."""
    brush: Annotated[Length, Field(le=WIDEST_BRUSH)] | None = None
    """Width of the narrowest brush."""


class Fixing(Table):
    """How sheets, mouldings and flats are held."""

    sheets: Literal["glue", "screws", "pins"] = "glue"
    """Sheets are glued and screwed only where trim hides the heads, or screwed or pinned all round and filled."""
    hold: Literal["weights", "pins", "temporary screws"] = "weights"
    """What holds a glued sheet until the glue has set."""
    weight: str | None = None
    """Weight that glued sheets are held with, by its name in the catalogue."""
    glue: str | None = None
    """Glue between sheet and frame, by its name in the catalogue."""
    moulding_glue: str | None = None
    """Glue behind mouldings, by its name in the catalogue."""
    screw_spacing: Spacing | None = None
    """Largest distance between the screws of a sheet."""
    brad_spacing: Spacing | None = None
    """Largest distance between the brads of a moulding."""
    joints: Literal["screws", "bolts", "connectors"] = "screws"
    """What holds flats together where they are taken apart: screws or bolts through the end studs, or connectors."""


class Sitter(Table):
    """Who stands or sits in the picture."""

    name: Name
    """Who it is; pictures call them by it."""
    stature: Length | None = None
    """Standing height without shoes."""
    seated: bool = False
    """True where they sit."""
    seat_height: Length | None = None
    """Height of the seat above the floor."""
    right: AnyLength = 0.0
    """Place to the right of the set's axis (left is negative)."""
    forward: Length | None = None
    """Distance in front of the set's face on its axis; 1500 mm or 5 ft where not stated."""
    facing: Angle = 0.0
    """Turn of the body away from the set's axis."""


class Picture(Table):
    """One planned photograph, or a family of them."""

    name: Name
    """What the picture is called."""
    lens: Annotated[float, Field(gt=0)] | tuple[Annotated[float, Field(gt=0)], Annotated[float, Field(gt=0)]]
    """True focal length [mm], or the two ends of a zoom."""
    sensor: tuple[Annotated[float, Field(gt=0)], Annotated[float, Field(gt=0)]] = (24.0, 36.0)
    """Width and height of the frame as held [mm]."""
    framing: Literal["head and shoulders", "half length", "three-quarter length", "full length", "measured"] = (
        "half length"
    )
    """How much of the sitter is in the frame."""
    framing_height: Length | None = None
    """Height of the frame in the sitter's plane, for a measured framing."""
    headroom: Size | None = None
    """Room above the head, in the sitter's plane."""
    angles: tuple[Angle, Angle] | None = None
    """Range of camera angles measured at the sitter from the set's axis, right positive."""
    camera_height: Length | tuple[Length, Length] | None = None
    """Height of the lens above the floor, or its range; the sitter's eyes where not stated."""
    distance: Length | None = None
    """Camera to sitter, instead of a framing."""
    aspects: tuple[Annotated[str, Field(pattern=r"^\d+(\.\d+)?:\d+(\.\d+)?$")], ...] = ()
    """Delivery shapes, width to height: "4:5", "16:9"."""
    margin: Size | None = None
    """Set wanted beyond the frame's edge."""
    aperture: Annotated[float, Field(gt=0)] | None = None
    """f-number it is taken at."""
    sitters: tuple[Name, ...] = ()
    """Names of the sitters in it; the first of the file where not stated."""
    movement: Size = 0.0
    """How far the sitter moves about the place."""
    follows: bool = True
    """Whether the camera follows the movement."""


class Light(Table):
    """One light, its shaper and its place."""

    name: Name
    """What it is called."""
    role: Literal["key", "fill", "rim", "hair", "background", "ambient", "other"]
    """What it does in the picture; a set that has ambient lights only counts as one that is not flashed."""
    head: str | None = None
    """Flash head."""
    shaper: str | None = None
    """What shapes its light."""
    grid: bool = False
    """True where a grid narrows it."""
    angle: Angle | None = None
    """Round the sitter, measured from the set's axis, right positive."""
    height: Length | None = None
    """Height of the shaper's centre."""
    distance: Length | None = None
    """Front of the shaper to the sitter's nose."""
    at: tuple[AnyLength, AnyLength, AnyLength] | None = None
    """Room coordinates instead of angle, height and distance."""
    aim: str = "face"
    """What it is aimed at."""
    feather: Angle = 0.0
    """Angle by which it is turned away from that."""
    refers_to: Literal["set", "face", "camera"] = "set"
    """What its angle is measured from."""
    power: float | None = None
    """Setting on the head's own scale [stops]."""
    pictures: tuple[Name, ...] = ()
    """Pictures it is lit for; all of them where not stated."""


class Target(Table):
    """A reading that is wanted."""

    name: Name
    """What the reading is called."""
    point: str = "face"
    """Where the meter is held."""
    lights: tuple[Name, ...] = ()
    """Names of the lights that are on."""
    reading: str
    """An f-number with tenths ("f/8 3"), or stops against the working aperture ("+0.5")."""
    tolerance: Annotated[float, Field(gt=0)] = 0.1
    """How far off a reading may be [stops]."""


class Meter(Table):
    """The hand-held meter."""

    constant: Annotated[float, Field(gt=0)] = 250.0
    """Calibration constant C of its incident receptor [lx s]."""
    iso: Annotated[float, Field(gt=0)] = 100.0
    """Speed set on the camera."""
    shutter: str = "1/125"
    """Shutter time [s]."""
    working_aperture: Annotated[float, Field(gt=0)] = 8.0
    """f-number that readings in stops refer to."""


class Workshop(Table):
    """Who builds it, with what."""

    people: Annotated[int, Field(ge=1, le=40)] = 2
    """How many build and lift."""
    lift_per_person: Mass = 25.0
    """What one person lifts in good posture [kg]."""
    kerf: Size | None = None
    """Width that the saw takes; 3 mm or 1/8 in where not stated."""
    trim_cut: Size = 0.0
    """What is cut off a factory end."""
    mitre_swing: Angle | None = None
    """Largest swing of the mitre saw from square."""
    straight_edge: Length | None = None
    """Longest straight edge to guide the saw along a sheet: no cut is longer, unless nothing else yields the pieces."""
    least_offcut: Size | None = None
    """Shortest piece that is worth keeping."""
    spare_boards: bool = True
    """Add a spare of the longest piece per section."""
    shelf: str | None = None
    """File of the offcut shelf."""
    hours_a_day: Annotated[float, Field(gt=0, le=24)] = 8.0
    """Hours of work a day [h]."""
    temperature_c: float = 18.0
    """Temperature of the workshop [°C]."""
    humidity_percent: Annotated[float, Field(ge=0, le=100)] = 55.0
    """Relative humidity of the workshop [%]."""


class Price(Table):
    """What one catalogue item costs."""

    item: str
    """The item's name in the catalogue."""
    price: Annotated[Decimal, Field(ge=0)]
    """What one costs, in the project's currency."""
    length: Length | None = None
    """For timber and mouldings: the stock length this price is for. Where some lengths have a price, only these are
    bought, unless a piece needs a longer one."""
    per: Literal["piece", "length", "sheet", "litre", "container", "box", "metre"] = "piece"
    """What the price is for."""
    in_stock: Annotated[int, Field(ge=0)] | None = None
    """How many the shop has; no more are planned, unless they are too few."""


class CatalogRows(Table):
    """Rows that override the catalogue or add to it; the columns are those of the catalogue's tables."""

    lumber: tuple[dict[str, Any], ...] = ()
    """Timber."""
    sheets: tuple[dict[str, Any], ...] = ()
    """Facing sheets."""
    profiles: tuple[dict[str, Any], ...] = ()
    """Mouldings."""
    paints: tuple[dict[str, Any], ...] = ()
    """Paints, primers and sealers."""
    adhesives: tuple[dict[str, Any], ...] = ()
    """Glues and fillers."""
    fasteners: tuple[dict[str, Any], ...] = ()
    """Screws, nails, brads, pins and bolts."""
    brackets: tuple[dict[str, Any], ...] = ()
    """Brackets, corner plates, sill straps and connectors."""
    weights: tuple[dict[str, Any], ...] = ()
    """Weights that hold glued sheets down, and ballast."""


class Project(Table):
    """A whole project file."""

    format: Annotated[int, Field(ge=1, le=FORMAT)] = FORMAT
    """Version of the file's format."""
    project: ProjectTable
    """Title block, units and money."""
    room: Room
    """The room the set stands in."""
    set: SetTable = SetTable()
    """Where the set stands and what all walls share."""
    walls: Annotated[tuple[Wall, ...], Field(min_length=1, max_length=2000)]
    """The walls, from left to right as the camera sees them."""
    trim: tuple[Trim, ...] = ()
    """Horizontal lines of moulding."""
    moulding_frames: tuple[MouldingFrames, ...] = ()
    """Tiers of moulding frames."""
    floor: Floor = Floor()
    """The floor covering."""
    props: tuple[Prop, ...] = ()
    """Things that stand in the set or hang on it."""
    fixing: Fixing = Fixing()
    """How sheets, mouldings and flats are held."""
    finish: Finish = Finish()
    """Paint."""
    sitters: tuple[Sitter, ...] = ()
    """Who is photographed."""
    pictures: tuple[Picture, ...] = ()
    """The planned photographs."""
    lights: tuple[Light, ...] = ()
    """The lights."""
    targets: tuple[Target, ...] = ()
    """Readings that are wanted."""
    meter: Meter = Meter()
    """The meter and the exposure."""
    workshop: Workshop = Workshop()
    """Who builds it, with what."""
    prices: tuple[Price, ...] = ()
    """Prices."""
    catalog: CatalogRows = CatalogRows()
    """Rows of your own for the catalogue."""
