"""Front elevations: the finished faces side by side as if unfolded into one plane, and every wall alone.

Heights count from the finished floor, places along a wall from its left face corner, seen from the camera's side. What
a face shows is left to ``faces`` and ``wall_mouldings``, its words to ``face_words``; what sizes are is decided by the
carpentry and the mouldings.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.cautions import STANDING, STANDING_CAUTION
from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.face_words import words_on
from lathlight.drawings.faces import face_items, faces_of
from lathlight.drawings.labels import Taken, texts_of
from lathlight.drawings.outlines import openings_of
from lathlight.drawings.sheets import Line, Pen
from lathlight.drawings.text import LEADING, NOTE_SIZE, make_text, text_width, wrap
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.drawings.faces import Face
    from lathlight.drawings.sheets import Item, Point, Text, View
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

WARNING_SIZE = 3.5  # [mm of paper]
ROW = 5.0  # from one row of words to the next above a face [mm of paper]
UNDER = 3.2  # from the floor line, or from words under it, down to the next words' baseline [mm of paper]
BEYOND = 6.0  # how far the floor line runs past the faces [mm of paper]


def strip_view(plan: Plan, walls: Sequence[str], *, scale: float) -> View:
    """Return the faces of neighbouring walls side by side.

    Parameters
    ----------
    plan
        The plan.
    walls
        Names of walls that follow each other.
    scale
        Model mm for one mm of paper.
    """
    style = plan.brief.style
    faces = faces_of(plan, walls)
    items: list[Item] = [item for face in faces for item in face_items(face, scale)]
    corners = [faces[0].left, *(face.right for face in faces)]
    items += [Line(a=(x, 0.0), b=(x, _height_at(faces, x)), pen=Pen.CUT) for x in corners[1:-1]]
    seams = [face.left + seam.at for face in faces for seam in face.wall.seams if seam.upright]
    rows = [sorted({*corners, *seams}), corners, [corners[0], corners[-1]]]
    items += level_chains(rows, edge_y=0.0, below=True, scale=scale, style=style)
    items += _height_chains(faces[0], scale, style)
    items += words_on(faces, items, style, scale)
    items += _heads(faces, plan, scale)
    items += _floor_and_warning(items, faces[0], style, scale)
    name = "elevation" if len(walls) == len(plan.walls) else f"elevation-from-{faces[0].wall.mark}"
    return make_view(name=name, title="Elevation, walls unfolded", scale=scale, items=items)


def wall_view(plan: Plan, wall: str, *, scale: float) -> View:
    """Return the elevation of one wall with every seam, joint, opening and trim line measured."""
    style = plan.brief.style
    (face,) = faces_of(plan, [wall])
    built = face.wall
    openings = openings_of(built)
    items = face_items(face, scale)
    edges = [e for o in openings for e in (o.clear[0], o.clear[0] + o.clear[2])]
    seams = [seam.at for seam in built.seams if seam.upright]
    joints = [joint.at for joint in built.joints if joint.upright]
    whole = [0.0, built.length]
    below = [[*whole, *edges] if edges else [], [*whole, *seams] if seams else [], whole]
    above = [[*whole, *joints]] if joints else []
    items += level_chains(below, edge_y=0.0, below=True, scale=scale, style=style)
    items += level_chains(above, edge_y=built.height, below=False, scale=scale, style=style)
    items += _height_chains(face, scale, style)
    levels = [e for o in openings for e in (max(o.clear[1], face.floor), o.clear[1] + o.clear[3])]
    levels += [o.clear[1] + o.clear[3] - o.rise for o in openings if o.rise]
    level_seams = [seam.at for seam in built.seams if not seam.upright]
    right = [[face.floor, built.height, *rows] for rows in (levels, level_seams) if rows]
    items += upright_chains(right, edge_x=built.length, left=False, scale=scale, style=style, datum=face.floor)
    items += words_on([face], items, style, scale)
    items += _floor_and_warning(items, face, style, scale)
    title = f"Wall {built.mark}, {wall}: elevation"
    return make_view(name=f"elevation-{built.mark}", title=title, scale=scale, items=items)


def _height_at(faces: Sequence[Face], x: float) -> float:
    """Return how high the line of a corner runs: as high as the taller of its walls."""
    return max(face.wall.height for face in faces if face.left - 1 <= x <= face.right + 1)


def _height_chains(face: Face, scale: float, style: LengthStyle) -> list[Item]:
    """Return the heights of trim lines and moulding frames over the finished floor, and of the wall, on its left."""
    height = face.wall.height
    lines = [z for trim in face.trim for z in (trim.bottom, trim.top)]
    tiers = [z for frame in face.frames for z in (frame.bottom, frame.top)]
    rows = [[face.floor, height, *marks] for marks in (lines, tiers) if marks]
    rows += [*([] if rows else [[face.floor, height]]), [0.0, height]]
    return [*upright_chains(rows, edge_x=face.left, left=True, scale=scale, style=style, datum=face.floor)]


def _heads(faces: Sequence[Face], plan: Plan, scale: float) -> list[Item]:
    """Return corner angles in one row over the faces and the walls' names in the next."""
    top = max(face.wall.height for face in faces)
    items: list[Item] = []
    for corner in plan.corners:
        for face in faces[:-1]:
            if face.wall.name == corner.left:
                x, y = face.right, top + 2 * scale
                words = f"inside {format_angle(corner.angle)}"
                items.append(make_text(words, at=(x, y), scale=scale, align="centre"))
    for face in faces:
        room = face.wall.length / scale - 2
        words = f"{face.wall.mark}  {face.wall.name}"
        if text_width(words, size=3.2, bold=True) > room:
            words = face.wall.mark
        at = ((face.left + face.right) / 2, top + (2 + ROW) * scale)
        items.append(make_text(words, at=at, size=3.2, scale=scale, align="centre", bold=True))
    return _without_collisions(items, scale)


def _without_collisions(items: Sequence[Item], scale: float) -> list[Item]:
    """Return words in reading order, each raised a row at a time until it covers none before it."""
    kept: list[Item] = []
    taken = Taken([], scale=scale)
    for text in texts_of(items):
        rows = (
            make_text(
                text.words,
                at=(text.at[0], text.at[1] + k * ROW * 2 * scale),
                size=text.size,
                scale=scale,
                align=text.align,
                bold=text.bold,
            )
            for k in range(12)
        )
        kept.append(taken.first_free(rows) or text)
    return kept


def _floor_and_warning(items: Sequence[Item], face: Face, style: LengthStyle, scale: float) -> list[Item]:
    """Return the datum line with its name, and the warning over everything."""
    (low, _), (high, top) = bounds(items, scale=scale)
    added = floor_line((high + scale, face.floor + 0.8 * scale), face=face, style=style, scale=scale)
    end = max(text.box[1][0] for text in texts_of(added))
    width = max((end - low) / scale, 100.0)
    lines = wrap(STANDING_CAUTION, width=width)
    y = top + 4 * scale + (len(lines) - 1) * LEADING * NOTE_SIZE * scale
    added.append(_line(STANDING, (low, y + LEADING * WARNING_SIZE * scale), scale, size=WARNING_SIZE, bold=True))
    for number, line in enumerate(lines):
        added.append(_line(line, (low, y - number * LEADING * NOTE_SIZE * scale), scale))
    return added


def floor_line(at: Point, *, face: Face, style: LengthStyle, scale: float) -> list[Item]:
    """Return the line of the finished floor with its name, and by how much the flats stand lower.

    Parameters
    ----------
    at
        Where the name begins, over the line or under it [model mm].
    face
        The face at whose left the line begins.
    style
        How the project writes lengths.
    scale
        Model mm for one mm of paper.
    """
    words = make_text("finished floor", at=at, scale=scale)
    start, end = face.left - BEYOND * scale, words.box[1][0]
    line = Line(a=(start, face.floor), b=(end, face.floor), pen=Pen.PHANTOM)
    if face.floor <= 0:
        return [line, words]
    under = (at[0], min(at[1], face.floor) - UNDER * scale)
    return [line, words, make_text(f"flats {drawing_length(face.floor, style=style)} lower", at=under, scale=scale)]


def _line(words: str, at: Point, scale: float, *, size: float = NOTE_SIZE, bold: bool = False) -> Text:
    return make_text(words, at=at, size=size, scale=scale, bold=bold)
