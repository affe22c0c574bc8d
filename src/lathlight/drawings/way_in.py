"""Tables and notes that go with the plan of the room: the way in, places on the floor, what holds for all of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.cameras import OUTSIDE, camera_distance, outside_angles
from lathlight.drawings.listing import Listing
from lathlight.drawings.shell import clear_size
from lathlight.drawings.tables import Column
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.passage import FlatPassage, Passing
    from lathlight.plan import Plan
    from lathlight.project import Passage, PictureBrief, SitterBrief
    from lathlight.units import LengthStyle

CUT_HEIGHT = 1200.0  # [mm] about 4 ft above the floor, common practice for plans of sets


def way_in_listing(plan: Plan) -> Listing:
    """Return what every flat has to pass on its way in, and which ones do."""
    style = plan.brief.style
    columns = (
        Column(heading="On the way in", width=42),
        Column(heading="Clear width × height", width=38),
        Column(heading="Flats", width=85),
    )
    room = plan.brief.room
    sizes = {door.name: clear_size(door.clear_width, door.clear_height, style) for door in room.doors}
    sizes |= {stage.name: _stage_size(stage, style) for stage in room.way_in}
    rows = [
        (name, sizes.get(name, ""), _who_passes([(p, _at(p, name)) for p in plan.passages], plan, style))
        for name in _stage_names(plan.passages)
    ]
    ceiling = drawing_length(plan.brief.room.ceiling, style=style)
    raised = _who_passes([(p, p.raises) for p in plan.passages], plan, style)
    rows.append(("stood up in the room", f"under {ceiling}", raised))
    return Listing(title="The way in", columns=columns, rows=tuple(rows))


def places_listing(plan: Plan) -> Listing | None:
    """Return where sitters stand and where the camera stands for every picture, or None where none is planned."""
    style = plan.brief.style
    rows = [(sitter.name, _place_words(sitter, style)) for sitter in plan.brief.sitters]
    rows += [(f"camera: {picture.name}", _camera_words(plan, picture)) for picture in plan.brief.pictures]
    columns = (Column(heading="Mark", width=60), Column(heading="Place", width=105))
    return Listing(title="Places on the floor", columns=columns, rows=tuple(rows)) if rows else None


def _place_words(sitter: SitterBrief, style: LengthStyle) -> str:
    """Return where a sitter stands, from the set's face and axis."""
    side = "right" if sitter.right > 0 else "left"
    beside = f"{drawing_length(abs(sitter.right), style=style)} {side} of the axis"
    ahead = drawing_length(sitter.forward, style=style)
    return f"{ahead} in front of the face, {'on the axis' if abs(sitter.right) < 1.0 else beside}"


def _camera_words(plan: Plan, picture: PictureBrief) -> str:
    """Return how far the camera stands from the sitter and at which angles, at the longest lens."""
    style = plan.brief.style
    angles = " to ".join(format_angle(angle) for angle in sorted(set(picture.angles)))
    far = drawing_length(camera_distance(picture), style=style)
    words = f"{far} from {picture.sitter.name} at {max(picture.lens):g} mm, at {angles} from the axis (right +)"
    out = outside_angles(plan, picture)
    if not out:
        return words
    where = "" if len(out) == len(set(picture.angles)) else f" at {' and at '.join(format_angle(a) for a in out)}"
    return f"{words}; {OUTSIDE}{where}"


def room_notes(plan: Plan) -> tuple[str, ...]:
    """Return what holds for the whole plan of the room."""
    style = plan.brief.style
    ceiling = drawing_length(plan.brief.room.ceiling, style=style)
    cut = drawing_length(cut_height(plan), style=style)
    notes = [f"Least clear height under the ceiling {ceiling}. Walls are cut {cut} above the floor."]
    notes += [
        f"Keep {area.name} clear{f' ({area.why})' if area.why and area.why != area.name else ''}."
        for area in plan.brief.room.keep_clear
    ]
    return tuple(notes)


def _stage_size(stage: Passage, style: LengthStyle) -> str:
    size = clear_size(stage.clear_width, stage.clear_height, style)
    if stage.next_width is not None:
        return f"{size}, then {drawing_length(stage.next_width, style=style)} wide"
    return size


def _stage_names(passages: Sequence[FlatPassage]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(stage.through for passage in passages for stage in passage.stages))


def _at(passage: FlatPassage, name: str) -> Passing | None:
    return next((stage for stage in passage.stages if stage.through == name), None)


def _who_passes(found: Sequence[tuple[FlatPassage, Passing | None]], plan: Plan, style: LengthStyle) -> str:
    """Return in words which flats pass one stage."""
    marks = {flat.id: flat.mark for flat in plan.flats}
    fails = [
        f"{marks[passage.flat]} ({drawing_length(passing.figure, style=style)}, at most "
        f"{drawing_length(passing.limit, style=style)})"
        for passage, passing in found
        if passing is not None and not passing.passes
    ]
    hows = list(dict.fromkeys(passing.how for _, passing in found if passing is not None and passing.passes))
    if not fails:
        return f"all pass: {'; '.join(hows)}" if hows else "all pass"
    return f"does not pass: {', '.join(fails)}"


def cut_height(plan: Plan) -> float:
    """Return the height at which the plan of the room is cut [mm above the floor]."""
    return min(CUT_HEIGHT, *(wall.height / 2 for wall in plan.walls))
