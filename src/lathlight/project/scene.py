"""Rules for what stands in the room and before the camera: the room itself, trim lines, props, pictures, lights."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, cast

from lathlight.project.crossing import area, outline_crossing
from lathlight.project.defaults import defaults_of
from lathlight.project.findings import Finding
from lathlight.project.flooring import floor_findings
from lathlight.project.walls import wall_top
from lathlight.units import PRECISIONS, format_angle, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.project.draft import Draft
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import MouldingFrames, Picture, Prop, Room, Trim, Wall

SLACK = 1e-6  # [mm] noise of the arithmetic
FIND_THEIR_OWN_HEIGHT = ("base", "cornice")


def scene_findings(draft: Draft) -> Iterator[Finding]:
    """Return what is wrong with everything but the walls and the names."""
    yield from _precision(draft)
    if draft.room is not None:
        yield from _shape(draft.room)
        yield from _doors(draft, draft.room)
    for number, trim in enumerate(draft.trim):
        if trim is not None:
            yield from _trim(draft, trim, ("trim", number))
    for number, tier in enumerate(draft.moulding_frames):
        if tier is not None:
            yield from _tier(draft, tier, ("moulding_frames", number))
    yield from floor_findings(draft)
    yield from _brush(draft)
    for number, prop in enumerate(draft.props):
        if prop is not None:
            yield from _prop(draft, prop, ("props", number))
    for number, picture in enumerate(draft.pictures):
        if picture is not None:
            yield from _picture(draft, picture, ("pictures", number))
    yield from _lights(draft)
    yield from _lifting(draft)


def _precision(draft: Draft) -> Iterator[Finding]:
    table = draft.project
    if table is None or table.precision is None:
        return
    own = [step for step in PRECISIONS if step.endswith("mm") == (table.units == "metric")]
    if table.precision not in own:
        yield Finding(
            path=("project", "precision"),
            found=f'"{table.precision}" in a file with {table.units} units',
            expected=f"one of {', '.join(own)}",
            remedy=f'Type precision = "{own[0]}", or change units.',
        )


# --- the room ------------------------------------------------------------------------------------------------------


def _shape(room: Room) -> Iterator[Finding]:
    sides = [key for key in ("width", "depth") if getattr(room, key) is not None]
    if room.outline is None:
        lacking = [key for key in ("width", "depth") if key not in sides]
        if lacking:
            yield Finding(
                path=("room",),
                found=f"a room without {' and '.join(lacking)}",
                expected="width and depth, or an outline",
                remedy=f"Add {' and '.join(lacking)}.",
            )
        return
    if sides:
        yield Finding(
            path=("room", "outline"),
            found=f"an outline and {' and '.join(sides)}",
            expected="width and depth, or an outline, not both",
            remedy="Take the outline out where the room is a rectangle; else the other lines.",
        )
    yield from _outline(room.outline)


def _outline(outline: tuple[tuple[float, float], ...]) -> Iterator[Finding]:
    pair = outline_crossing(outline)
    if pair is not None:
        yield Finding(
            path=("room", "outline"),
            found=f"an outline whose sides {pair[0] + 1} and {pair[1] + 1} cross or touch",
            expected="corners one after the other round the room",
            remedy="Put the corners in order, from the front left one anticlockwise.",
        )
    elif abs(area(outline)) <= SLACK:
        yield Finding(
            path=("room", "outline"),
            found="an outline without area",
            expected="at least three corners that are not in one line",
            remedy="Give the corners of the room, in order.",
        )


def _doors(draft: Draft, room: Room) -> Iterator[Finding]:
    for number, door in enumerate(room.doors):
        path = ("room", "doors", number)
        side = room.width if door.side in ("front", "back") else room.depth
        if room.outline is None and side is not None and door.at + door.clear_width > side + SLACK:
            yield Finding(
                path=(*path, "at"),
                found=f"a door that ends {_length(draft, door.at + door.clear_width)} along the {door.side} side",
                expected=f"an end within that side, which is {_length(draft, side)} long",
                remedy="Measure again from the corner to the door's nearer edge.",
            )
        if door.clear_height > room.ceiling + SLACK:
            yield Finding(
                path=(*path, "clear_height"),
                found=f"a door {_length(draft, door.clear_height)} high",
                expected=f"at most the ceiling's height, {_length(draft, room.ceiling)}",
                remedy="Measure the door or the ceiling again.",
            )


# --- trim and props ------------------------------------------------------------------------------------------------


def _walls_of(draft: Draft, names: tuple[str, ...] | None) -> Iterator[tuple[Wall, float]]:
    """Return the walls of these names, or all, each with its height where it has one."""
    for wall in draft.walls:
        if wall is not None and (names is None or wall.name in names):
            height = draft.wall_height(wall)
            if height is not None:
                yield wall, height


def _trim(draft: Draft, trim: Trim, path: KeyPath) -> Iterator[Finding]:
    if trim.height is None and trim.kind not in FIND_THEIR_OWN_HEIGHT:
        yield Finding(
            path=path,
            found=f"a {trim.kind} without height",
            expected="the height of its top edge above the finished floor",
            remedy="Add a line such as height = " + ('"900 mm".' if draft.style.system == "metric" else '"3ft".'),
        )
    if trim.spring is not None and trim.kind != "cornice":
        yield Finding(
            path=(*path, "spring"),
            found=f"a spring angle on a {trim.kind}",
            expected="one on cornices only",
            remedy="Take the line out.",
        )
    for wall, height in _walls_of(draft, None):
        runs_here = wall.trim is None or trim.name in wall.trim
        if runs_here and trim.height is not None and trim.height > height - draft.rise + SLACK:
            yield _above(draft, wall, height, path=(*path, "height"), top=trim.height, what="trim line")
            return


def _tier(draft: Draft, tier: MouldingFrames, path: KeyPath) -> Iterator[Finding]:
    if tier.bottom >= tier.top:
        yield Finding(
            path=(*path, "top"),
            found=f"a top at {_length(draft, tier.top)} and a bottom at {_length(draft, tier.bottom)}",
            expected="a top above the bottom",
            remedy="Swap the two, or mend one of them.",
        )
    if tier.walls == ():
        yield Finding(
            path=(*path, "walls"),
            found="an empty list",
            expected="the name of at least one wall",
            remedy="Name the walls, or take the line out: the frames are then on all of them.",
        )
    for wall, height in _walls_of(draft, tier.walls):
        if tier.top > height - draft.rise + SLACK:
            yield _above(draft, wall, height, path=(*path, "top"), top=tier.top, what="moulding frame")
            return


def _above(draft: Draft, wall: Wall, height: float, *, path: KeyPath, top: float, what: str) -> Finding:
    return Finding(
        path=path,
        found=f"a {what} whose top is {_length(draft, top)} above the floor",
        expected=f'at most the top of wall "{wall.name}", which is {wall_top(draft, height)}',
        remedy="Lower it, make the wall higher, or leave it out on that wall.",
    )


def _brush(draft: Draft) -> Iterator[Finding]:
    finish, usual = draft.finish, defaults_of(draft.style)
    if finish is None:
        return
    roller, brush = finish.roller or usual.roller, finish.brush or usual.brush
    if roller < brush - SLACK:
        key = "brush" if finish.roller is None else "roller"
        yield Finding(
            path=("finish", key),
            found=f"a narrowest roller of {_length(draft, roller)} and a narrowest brush of {_length(draft, brush)}",
            expected="a brush at most as wide as the roller: it reaches where the roller does not",
            remedy="Give the width of the narrowest of each.",
        )


def _prop(draft: Draft, prop: Prop, path: KeyPath) -> Iterator[Finding]:
    hanging = [key for key in ("along", "above_floor") if getattr(prop, key) is None]
    if prop.wall is None and prop.at is None:
        yield Finding(
            path=path,
            found="a prop without a place",
            expected="at, for a thing that stands, or wall, along and above_floor for one that hangs",
            remedy="Add the lines for one of the two.",
        )
    elif prop.wall is not None and hanging:
        yield Finding(
            path=path,
            found=f"a prop on a wall without {' and '.join(hanging)}",
            expected="along (to its centre) and above_floor (to its bottom)",
            remedy=f"Add {' and '.join(hanging)}.",
        )
    elif prop.wall is not None and prop.at is not None:
        yield Finding(
            path=(*path, "at"),
            found="both at and wall",
            expected="at, for a thing that stands, or wall, for one that hangs",
            remedy="Take one of them out.",
        )
    yield from _prop_on_wall(draft, prop, path)


def _prop_on_wall(draft: Draft, prop: Prop, path: KeyPath) -> Iterator[Finding]:
    for wall in draft.walls:
        if wall is not None and wall.name == prop.wall and prop.along is not None and prop.along > wall.length + SLACK:
            yield Finding(
                path=(*path, "along"),
                found=_length(draft, prop.along),
                expected=f'at most the length of wall "{wall.name}", {_length(draft, wall.length)}',
                remedy="Measure from the wall's left corner to the prop's centre.",
            )


# --- pictures and lights -------------------------------------------------------------------------------------------


def _picture(draft: Draft, picture: Picture, path: KeyPath) -> Iterator[Finding]:
    for key in ("lens", "angles", "camera_height"):
        value: Any = getattr(picture, key)
        if isinstance(value, tuple) and value[0] > value[1]:
            yield _upside_down(draft, key, cast("tuple[float, float]", value), path)
    if picture.angles is not None and any(abs(angle) > math.pi / 2 + 1e-12 for angle in picture.angles):
        yield Finding(
            path=(*path, "angles"),
            found=" to ".join(format_angle(angle) for angle in picture.angles),
            expected="camera angles from -90° to 90° from the set's axis",
            remedy="Measure at the sitter, from straight in front of the set, right positive.",
        )
    if picture.framing == "measured" and picture.framing_height is None and picture.distance is None:
        yield Finding(
            path=path,
            found="a measured framing without its height",
            expected="framing_height, the height of the frame at the sitter",
            remedy="Add framing_height, or choose another framing.",
        )
    for number, shape in enumerate(picture.aspects):
        if not all(float(side) > 0 for side in shape.split(":")):
            yield Finding(
                path=(*path, "aspects", number),
                found=f'"{shape}"',
                expected="width and height above 0",
                remedy='Type a shape such as "4:5".',
            )


def _upside_down(draft: Draft, key: str, value: tuple[float, float], path: KeyPath) -> Finding:
    texts = [_figure(draft, key, each) for each in value]
    return Finding(
        path=(*path, key),
        found=f"a range from {texts[0]} to {texts[1]}",
        expected="the smaller figure first",
        remedy=f"Swap them: from {texts[1]} to {texts[0]}.",
    )


def _figure(draft: Draft, key: str, value: float) -> str:
    match key:
        case "angles":
            return format_angle(value)
        case "camera_height":
            return _length(draft, value)
        case _:
            return f"{value:g} mm"


def _lights(draft: Draft) -> Iterator[Finding]:
    for number, light in enumerate(draft.lights):
        if light is None or light.at is None:
            continue
        also = [key for key in ("angle", "height", "distance") if getattr(light, key) is not None]
        if also:
            yield Finding(
                path=("lights", number, "at"),
                found=f"at and {' and '.join(also)}",
                expected="room coordinates, or angle, height and distance, not both",
                remedy="Take one of the two out.",
            )


def _lifting(draft: Draft) -> Iterator[Finding]:
    masses = [
        (("set", "flats", "max_weight"), None if draft.set is None else draft.set.flats.max_weight),
        (("workshop", "lift_per_person"), None if draft.workshop is None else draft.workshop.lift_per_person),
    ]
    for path, mass in masses:
        if mass == 0:
            yield Finding(
                path=path,
                found="0 kg",
                expected="a mass above 0",
                remedy="Give what can be carried, such as 25 kg a person, or take the line out.",
            )


def _length(draft: Draft, mm: float) -> str:
    return format_length(round(mm, 6), style=draft.style)
