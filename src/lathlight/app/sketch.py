"""A small plan of the set in its room, drawn with the characters of a terminal.

Decides which character stands where. Where the walls and the room stand is left to ``lathlight.layout`` and the brief.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.exports import length_words
from lathlight.layout import lay_out_walls, place_set
from lathlight.plan import wall_marks

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.layout import Layout, Point
    from lathlight.project import Brief

ASPECT = 2.0  # a character is about twice as high as it is wide


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """The characters that a sketch is drawn with."""

    level: str
    upright: str
    corners: str  # bottom left, bottom right, top left, top right
    wall: str


BOX = Ink(level="─", upright="│", corners="└┘┌┐", wall="█")
PLAIN = Ink(level="-", upright="|", corners="++++", wall="#")
DOOR = "="
CAMERA = "^"


def sketch_plan(brief: Brief, *, columns: int, ink: Ink = BOX) -> str:
    """Return the plan as lines of text, with a legend: room, doors, the walls with their marks, the camera's side.

    Parameters
    ----------
    brief
        The project.
    columns
        Greatest width of the drawing.
    ink
        What to draw with: ``BOX``, or ``PLAIN`` where a terminal shows no box lines.
    """
    layout = _layout(brief)
    walls = [(layout.pose.to_room(wall.start), layout.pose.to_room(wall.end)) for wall in layout.walls]
    grid = _Grid.over([*brief.room.outline, *(point for wall in walls for point in wall)], columns=columns)
    _draw_room(grid, brief, ink=ink)
    for start, end in walls:
        grid.draw(start, end, ink.wall)
    for mark, (start, end) in zip(_marks(brief), walls, strict=True):
        grid.write(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), mark)
    return "\n".join([*grid.lines(), *_legend(brief)])


def _marks(brief: Brief) -> tuple[str, ...]:
    """Return the walls' marks, the same as on the drawings."""
    return wall_marks([wall.name for wall in brief.walls])


def _layout(brief: Brief) -> Layout:
    lines = lay_out_walls(
        names=[wall.name for wall in brief.walls],
        lengths=[wall.length for wall in brief.walls],
        heights=[wall.height for wall in brief.walls],
        angles=[corner.angle for corner in brief.corners],
    )
    return place_set(
        lines,
        depths=[wall.sheet.thickness + wall.framing.depth for wall in brief.walls],
        room=brief.room.outline,
        at=brief.place.at,
        turn=brief.place.turn,
        clear_behind=brief.place.clear_behind,
    )


def _draw_room(grid: _Grid, brief: Brief, *, ink: Ink) -> None:
    outline = brief.room.outline
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        level = abs(b[0] - a[0]) >= abs(b[1] - a[1])
        grid.draw(a, b, ink.level if level else ink.upright)
    for door in brief.room.doors:
        grid.draw(door.a, door.b, DOOR)
    (left, bottom), (right, top) = _bounds(outline)
    corners = ((left, bottom), (right, bottom), (left, top), (right, top))
    for corner, character in zip(corners, ink.corners, strict=True):
        if corner in outline:
            grid.write(corner, character)


def _legend(brief: Brief) -> Iterator[str]:
    style = brief.style
    yield f"{CAMERA} the camera's side"
    for mark, wall in zip(_marks(brief), brief.walls, strict=True):
        length, height = (length_words(each, style) for each in (wall.length, wall.height))
        yield f"{mark} {wall.name}: {length} long, {height} high"
    if brief.room.doors:
        yield f"{DOOR} " + ", ".join(door.name for door in brief.room.doors)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Characters over a piece of the floor; rows run from the back to the front."""

    left: float
    front: float
    scale: float  # millimetres a column
    rows: tuple[list[str], ...]

    @classmethod
    def over(cls, points: Sequence[Point], *, columns: int) -> _Grid:
        (left, front), (right, back) = _bounds(points)
        scale = max(right - left, (back - front) / ASPECT, 1.0) / max(columns - 1, 1)
        across = math.floor((right - left) / scale + 0.5) + 1
        down = math.floor((back - front) / scale / ASPECT + 0.5) + 1
        rows = tuple([" "] * across for _ in range(down))
        return cls(left=left, front=front, scale=scale, rows=rows)

    def write(self, point: Point, text: str) -> None:
        """Write a few characters with their middle at a point; they stay inside the drawing."""
        column = math.floor((point[0] - self.left) / self.scale + 0.5) - (len(text) - 1) // 2
        row = len(self.rows) - 1 - math.floor((point[1] - self.front) / self.scale / ASPECT + 0.5)
        line = self.rows[min(max(row, 0), len(self.rows) - 1)]
        first = min(max(column, 0), max(len(line) - len(text), 0))
        for place, character in enumerate(text[: len(line)], start=first):
            line[place] = character

    def draw(self, a: Point, b: Point, character: str) -> None:
        steps = max(math.ceil(max(abs(b[0] - a[0]), abs(b[1] - a[1])) / self.scale * 2), 1)
        for i in range(steps + 1):
            t = i / steps
            self.write((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])), character)

    def lines(self) -> Iterator[str]:
        for row in self.rows:
            yield "".join(row).rstrip()
        yield CAMERA.center(len(self.rows[0])).rstrip()


def _bounds(points: Sequence[Point]) -> tuple[Point, Point]:
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return (min(xs), min(ys)), (max(xs), max(ys))
