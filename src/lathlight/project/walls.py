"""Rules for the walls of a project: heights, corners, openings, and whether they run into each other.

Only what needs no catalogue. What could be drawn but would fail is a snag (``lathlight.snags``), not a finding.
"""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from lathlight.project.crossing import chain, first_crossing
from lathlight.project.findings import Finding
from lathlight.units import file_length, format_angle, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.project.draft import Draft
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import Opening, Wall

LEAST_ANGLE = math.radians(60)
LARGEST_ANGLE = math.radians(179)
STRAIGHT = math.pi
RIGHT_ANGLE = math.pi / 2  # where a wall states no angle
SLACK = 1e-6  # [mm] noise of the arithmetic
CORNER_KEYS = ("angle_to_next", "corner", "frame_laps", "sheet_laps")


def wall_findings(draft: Draft) -> Iterator[Finding]:
    """Return what is wrong with walls one by one and as a chain."""
    for number, wall in enumerate(draft.walls):
        if wall is not None:
            yield from _height(draft, wall, number)
            yield from _corner(wall, number, is_last=number == len(draft.walls) - 1)
            yield from _openings(draft, wall, number)
    yield from _crossing(draft)


def _height(draft: Draft, wall: Wall, number: int) -> Iterator[Finding]:
    if draft.set is not None and draft.wall_height(wall) is None:
        yield Finding(
            path=("walls", number),
            found="no height",
            expected="a height of this wall, or one in [set] for all",
            remedy=f"Add a line such as height = {_example_height(draft)} to the wall or to [set].",
        )


def _example_height(draft: Draft) -> str:
    return '"2.4 m"' if draft.style.system == "metric" else '"8ft"'


def _corner(wall: Wall, number: int, *, is_last: bool) -> Iterator[Finding]:
    if is_last:
        yield from _corner_of_the_last(wall, number)
    elif wall.angle_to_next is not None and not LEAST_ANGLE - 1e-12 <= wall.angle_to_next <= LARGEST_ANGLE + 1e-12:
        yield Finding(
            path=("walls", number, "angle_to_next"),
            found=format_angle(wall.angle_to_next),
            expected="an inside angle from 60° to 179°",
            remedy=_remedy_of_angle(wall.angle_to_next),
        )


def _remedy_of_angle(angle: float) -> str:
    if angle > STRAIGHT + 1e-12:
        return (
            "Walls that turn outwards are not planned: plan them as two sets, one file each, that meet at this corner."
        )
    if angle > LARGEST_ANGLE:
        return "Walls in one line are one wall: add their lengths and make them a single entry."
    return "Open the corner, or cut it off with a narrow wall between the two."


def _corner_of_the_last(wall: Wall, number: int) -> Iterator[Finding]:
    for key in CORNER_KEYS:
        if getattr(wall, key) is not None:
            yield Finding(
                path=("walls", number, key),
                found=f"{key} on the last wall",
                expected="corners only between a wall and the one after it",
                remedy="Take the line out, or add the wall that comes next.",
            )


# --- openings ------------------------------------------------------------------------------------------------------


def _openings(draft: Draft, wall: Wall, number: int) -> Iterator[Finding]:
    height = draft.wall_height(wall)
    for place, opening in enumerate(wall.openings):
        path = ("walls", number, "openings", place)
        yield from _sides(draft, wall, opening, path)
        yield from _top(draft, height, opening, path)
        yield from _sill(draft, opening, path)
        yield from _rise(draft, opening, path)
    yield from _overlaps(draft, wall, number)


def _sides(draft: Draft, wall: Wall, opening: Opening, path: KeyPath) -> Iterator[Finding]:
    end = opening.at + opening.width
    if end > wall.length + SLACK:
        yield Finding(
            path=(*path, "at"),
            found=f"an opening that ends {_length(draft, end)} from the left",
            expected=f"an end within the wall, which is {_length(draft, wall.length)} long",
            remedy=f"Move it left by {_length(draft, end - wall.length)}, make it narrower or the wall longer.",
        )


def _top(draft: Draft, height: float | None, opening: Opening, path: KeyPath) -> Iterator[Finding]:
    top = opening.sill + opening.height
    if height is not None and top > height - draft.rise + SLACK:
        yield Finding(
            path=(*path, "height"),
            found=f"an opening whose top is {_length(draft, top)} above the floor",
            expected=f"a top within the wall, which is {wall_top(draft, height)}",
            remedy=f"Make it lower by {_length(draft, top - height + draft.rise)}, or the wall higher.",
        )


def wall_top(draft: Draft, height: float) -> str:
    """Return in words how high a wall of this height [mm] is, and how much of it the floor covering takes."""
    if not draft.rise:
        return f"{_length(draft, height)} high"
    covering = f"{_length(draft, draft.rise)} of floor covering in front of it"
    return f"{_length(draft, height)} high with {covering}: {_length(draft, height - draft.rise)} above the floor"


def _sill(draft: Draft, opening: Opening, path: KeyPath) -> Iterator[Finding]:
    if opening.kind == "door" and opening.sill > 0:
        yield Finding(
            path=(*path, "sill"),
            found=f"a door with a sill of {_length(draft, opening.sill)}",
            expected="no sill: a door runs to the floor",
            remedy='Take the line out, or make it kind = "window".',
        )


def _rise(draft: Draft, opening: Opening, path: KeyPath) -> Iterator[Finding]:
    if opening.kind != "arch":
        if opening.rise is not None:
            yield Finding(
                path=(*path, "rise"),
                found=f"a rise on a {opening.kind}",
                expected="a rise on arches only",
                remedy='Take the line out, or make it kind = "arch".',
            )
        return
    rise = opening.width / 2 if opening.rise is None else opening.rise
    limit = min(opening.height, opening.width / 2)
    if rise > limit + SLACK:
        yield Finding(
            path=(*path, "rise") if opening.rise is not None else path,
            found=f"an arch that rises {_length(draft, rise)}",
            expected=f"a rise of at most half the width and at most the height: {_length(draft, limit)}",
            remedy=f"Add or change the line rise = {_typed(draft, limit)}, or make the opening higher.",
        )


def _overlaps(draft: Draft, wall: Wall, number: int) -> Iterator[Finding]:
    """Return openings that share a stretch of wall with one that lies further left."""
    order = sorted(range(len(wall.openings)), key=lambda place: (wall.openings[place].at, place))
    for one, other in itertools.pairwise(order):
        left, right = wall.openings[one], wall.openings[other]
        shared = left.at + left.width - right.at
        if shared > SLACK:
            later = max(one, other)
            yield Finding(
                path=("walls", number, "openings", later, "at"),
                found=f'openings "{left.name}" and "{right.name}" that overlap by {_length(draft, shared)}',
                expected="openings beside each other, each with its own stretch of wall",
                remedy=f"Move one of them, or make them narrower, by {_length(draft, shared)} at least.",
            )


# --- the chain -----------------------------------------------------------------------------------------------------


def _crossing(draft: Draft) -> Iterator[Finding]:
    walls = [wall for wall in draft.walls if wall is not None]
    angles = [wall.angle_to_next or RIGHT_ANGLE for wall in walls[:-1]]
    if len(walls) < len(draft.walls) or any(not 0 < angle < STRAIGHT for angle in angles):
        return
    turning = sum(STRAIGHT - angle for angle in angles)
    pair = first_crossing(chain([wall.length for wall in walls], angles), turning=turning)
    if pair is not None:
        one, other = pair
        yield Finding(
            path=("walls", other),
            found=f'wall "{walls[other].name}" running into wall "{walls[one].name}"',
            expected="walls that meet their neighbours only",
            remedy="Shorten one of the two, or open the corners between them.",
        )


def _length(draft: Draft, mm: float) -> str:
    return format_length(round(mm, 6), style=draft.style)


def _typed(draft: Draft, mm: float) -> str:
    return f'"{file_length(round(mm, 6), style=draft.style)}"'
