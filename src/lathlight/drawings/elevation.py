"""Front elevations: the finished faces side by side as if unfolded into one plane, and every wall alone.

Heights count from the finished floor, places along a wall from its left face corner, seen from the camera's side. A
joint that is taken apart is an outline, a seam that stays is dashed. What sizes are is decided by the carpentry.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.cautions import STANDING, STANDING_CAUTION
from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.labels import Taken, texts_of, words_in
from lathlight.drawings.outlines import (
    arch_across,
    arch_up,
    cuts_at,
    intervals_without,
    opening_ring,
    openings_of,
    rectangle,
)
from lathlight.drawings.sheets import Line, Path, Pen, Text, Tone
from lathlight.drawings.text import LEADING, NOTE_SIZE, make_text, text_width, wrap
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import BuiltWall, FramedOpening, Seam
    from lathlight.drawings.sheets import Item, Point, View
    from lathlight.mouldings import TrimPiece
    from lathlight.plan import Plan
    from lathlight.project import TrimLine
    from lathlight.units import LengthStyle

WARNING_SIZE = 3.5  # [mm of paper]
ROW = 5.0  # from one row of words to the next above a face [mm of paper]
NEAR = 0.01  # two places that differ less are one [mm]
JOINED = frozenset({"scarf", "at a joint"})  # ends of trim that meet the next piece of their line
BEYOND = 6.0  # how far the floor line runs past the faces [mm of paper]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """One finished face and where its left corner lies on the drawing [mm]."""

    wall: BuiltWall
    trim: tuple[TrimLine, ...]
    pieces: tuple[TrimPiece, ...]
    left: float

    @property
    def right(self) -> float:
        """Where its right corner lies [mm]."""
        return self.left + self.wall.length


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
    faces = _faces(plan, walls)
    items: list[Item] = [item for face in faces for item in _face_items(face, scale)]
    corners = [faces[0].left, *(face.right for face in faces)]
    items += [Line(a=(x, 0.0), b=(x, _height_at(faces, x)), pen=Pen.CUT) for x in corners[1:-1]]
    seams = [face.left + seam.at for face in faces for seam in face.wall.seams if seam.upright]
    rows = [sorted({*corners, *seams}), corners, [corners[0], corners[-1]]]
    items += level_chains(rows, edge_y=0.0, below=True, scale=scale, style=style)
    items += _height_chains(faces[0], scale, style)
    items += _words_on(faces, items, style, scale)
    items += _heads(faces, plan, scale)
    items += _floor_and_warning(items, corners[0], corners[-1], scale)
    name = "elevation" if len(walls) == len(plan.walls) else f"elevation-from-{faces[0].wall.mark}"
    return make_view(name=name, title="Elevation, walls unfolded", scale=scale, items=items)


def wall_view(plan: Plan, wall: str, *, scale: float) -> View:
    """Return the elevation of one wall with every seam, joint, opening and trim line measured."""
    style = plan.brief.style
    (face,) = _faces(plan, [wall])
    built = face.wall
    openings = openings_of(built)
    items = _face_items(face, scale)
    edges = [e for o in openings for e in (o.clear[0], o.clear[0] + o.clear[2])]
    seams = [seam.at for seam in built.seams if seam.upright]
    joints = [joint.at for joint in built.joints if joint.upright]
    whole = [0.0, built.length]
    below = [[*whole, *edges] if edges else [], [*whole, *seams] if seams else [], whole]
    above = [[*whole, *joints]] if joints else []
    items += level_chains(below, edge_y=0.0, below=True, scale=scale, style=style)
    items += level_chains(above, edge_y=built.height, below=False, scale=scale, style=style)
    items += _height_chains(face, scale, style)
    levels = [e for o in openings for e in (o.clear[1], o.clear[1] + o.clear[3])]
    levels += [o.clear[1] + o.clear[3] - o.rise for o in openings if o.rise]
    level_seams = [seam.at for seam in built.seams if not seam.upright]
    right = [[0.0, built.height, *rows] for rows in (levels, level_seams) if rows]
    items += upright_chains(right, edge_x=built.length, left=False, scale=scale, style=style)
    items += _words_on([face], items, style, scale)
    items += _floor_and_warning(items, 0.0, built.length, scale)
    title = f"Wall {built.mark}, {wall}: elevation"
    return make_view(name=f"elevation-{built.mark}", title=title, scale=scale, items=items)


def _faces(plan: Plan, walls: Sequence[str]) -> list[_Face]:
    faces: list[_Face] = []
    left = 0.0
    for built, brief in zip(plan.walls, plan.brief.walls, strict=True):
        if built.name in walls:
            pieces = tuple(p for p in plan.trim.pieces if p.wall == built.name) if plan.trim else ()
            faces.append(_Face(wall=built, trim=brief.trim, pieces=pieces, left=left))
            left += built.length
    return faces


def _height_at(faces: Sequence[_Face], x: float) -> float:
    """Return how high the line of a corner runs: as high as the taller of its walls."""
    return max(face.wall.height for face in faces if face.left - 1 <= x <= face.right + 1)


def _face_items(face: _Face, scale: float) -> list[Item]:
    """Return a face's outline, openings, trim lines, seams and joints."""
    wall, left = face.wall, face.left
    openings = openings_of(wall)
    items: list[Item] = [Path(points=rectangle(left, 0.0, face.right, wall.height), closed=True, pen=Pen.OUTLINE)]
    for trim in face.trim:
        for z in sorted({trim.bottom, trim.top}):
            stretches = intervals_without((0.0, wall.length), cuts_at(openings, z, rough=False)) if z > 0 else ()
            items += [Line(a=(left + a, z), b=(left + b, z), pen=Pen.LIGHT) for a, b in stretches]
    items += _trim_joints(face)
    joints = {(joint.upright, round(joint.at, 3)) for joint in wall.joints}
    for seam in wall.seams:
        pen = Pen.OUTLINE if (seam.upright, round(seam.at, 3)) in joints else Pen.SEAM
        items.append(_seam_line(face, seam, pen))
    for opening in openings:
        ring = tuple((left + x, z) for x, z in opening_ring(opening))
        items.append(Path(points=ring, closed=True, pen=Pen.OUTLINE, fill=Tone.FAINT))
    return items


def _trim_joints(face: _Face) -> list[Item]:
    """Return a stroke across the moulding wherever two pieces of a line are joined."""
    found = {(p.end, p.bottom, p.top) for p in face.pieces if p.right.kind in JOINED}
    return [Line(a=(face.left + x, low), b=(face.left + x, high), pen=Pen.OUTLINE) for x, low, high in sorted(found)]


def _seam_line(face: _Face, seam: Seam, pen: Pen) -> Line:
    """Return a seam's stretch as far as it lies on the finished face; at an arch it ends at the curve."""
    low, high = max(seam.low, 0.0), min(seam.high, face.wall.height if seam.upright else face.wall.length)
    for opening in openings_of(face.wall):
        if opening.radius is not None:
            low, high = _to_curve(seam, opening, low, high)
    if seam.upright:
        return Line(a=(face.left + seam.at, low), b=(face.left + seam.at, high), pen=pen)
    return Line(a=(face.left + low, seam.at), b=(face.left + high, seam.at), pen=pen)


def _to_curve(seam: Seam, arch: FramedOpening, low: float, high: float) -> tuple[float, float]:
    """Return the ends of a seam's stretch, on to the edge of the sheet where it ended at the box round an arch."""
    x, z, w, h = arch.rough
    if seam.upright:
        return (arch_up(arch, seam.at), high) if abs(low - z - h) < NEAR and x <= seam.at <= x + w else (low, high)
    half = arch_across(arch, seam.at)
    if half is None:
        return low, high
    middle = x + w / 2
    return middle + half if abs(low - x - w) < NEAR else low, middle - half if abs(high - x) < NEAR else high


def _height_chains(face: _Face, scale: float, style: LengthStyle) -> list[Item]:
    """Return the heights of trim lines and of the wall, on its left."""
    height = face.wall.height
    lines = [z for trim in face.trim for z in (trim.bottom, trim.top)]
    rows = [[0.0, height, *lines] if lines else [], [0.0, height]]
    return [*upright_chains(rows, edge_x=face.left, left=True, scale=scale, style=style)]


def _words_on(faces: Sequence[_Face], items: Sequence[Item], style: LengthStyle, scale: float) -> list[Item]:
    """Return all words on the faces, none over another: the more they matter, the sooner they choose their place."""
    taken = Taken(items, scale=scale)
    return [
        *_flat_marks(faces, taken, scale),
        *_opening_words(faces, taken, style, scale),
        *_joint_names(faces, taken, scale),
        *_trim_names(faces, taken, scale),
    ]


def _flat_marks(faces: Sequence[_Face], taken: Taken, scale: float) -> list[Item]:
    """Return the mark of every flat where nothing else stands."""
    found: list[Item] = []
    for face in faces:
        openings = openings_of(face.wall)
        for flat in face.wall.flats:
            a, b = max(flat.x0, 0.0), min(flat.x1, face.wall.length)
            low, high = max(flat.z0, 0.0), min(flat.z1, face.wall.height)
            spots = [
                (a + (b - a) * across, max(low, min(low + (high - low) * up, high - 4.5 * scale)))
                for up in (0.9, 0.82, 0.74, 0.6, 0.4, 0.2)
                for across in (0.5, 0.25, 0.75, 0.12, 0.88)
            ]
            texts = (
                make_text(
                    flat.mark, at=(face.left + x, z), size=4.0, scale=scale, align="centre", bold=True, backed=True
                )
                for x, z in spots
                if not _in_opening(x, z, openings, 4.0 * scale)
            )
            text = taken.first_free(texts, gap=0.5 * scale)
            found += [text] if text else []
    return found


def _in_opening(x: float, z: float, openings: Sequence[FramedOpening], near: float) -> bool:
    return any(
        o.clear[0] - near < x < o.clear[0] + o.clear[2] + near
        and o.clear[1] - near < z < o.clear[1] + o.clear[3] + near
        for o in openings
    )


def _opening_words(faces: Sequence[_Face], taken: Taken, style: LengthStyle, scale: float) -> list[Item]:
    """Return name and clear size inside every opening, as large as they fit."""
    found: list[Item] = []
    for face in faces:
        for opening in openings_of(face.wall):
            x, z, w, h = opening.clear
            low, high = (face.left + x, z), (face.left + x + w, z + h - opening.rise)
            for lines in _opening_lines(opening, style):
                texts = words_in(lines, low=low, high=high, scale=scale, bold_first=True)
                if taken.all_free(texts):
                    found += texts
                    break
    return found


def _opening_lines(opening: FramedOpening, style: LengthStyle) -> list[tuple[str, ...]]:
    """Return what may stand in an opening, the fullest first."""
    _, z, w, h = opening.clear
    size = f"{drawing_length(w, style=style)} × {drawing_length(h, style=style)} clear"
    rise = (f"rise {drawing_length(opening.rise, style=style)}",) if opening.rise else ()
    sill = (f"sill at {drawing_length(z, style=style)}",) if z > 0 else ()
    return [(opening.name, size, *rise, *sill), (opening.name, size), (opening.name,)]


def _joint_names(faces: Sequence[_Face], taken: Taken, scale: float) -> list[Item]:
    """Return the two flats of every joint that is taken apart, beside its line where there is room."""
    found: list[Item] = []
    for face in faces:
        flats = {flat.name: flat for flat in face.wall.flats}
        openings = openings_of(face.wall)
        for joint in face.wall.joints:
            first = flats[joint.left]
            words = f"joint {first.mark} | {flats[joint.right].mark}"
            low, long = (first.z0, first.height) if joint.upright else (first.x0, first.width)
            spots = [(joint.at - 0.9 * scale, low + share * long) for share in (0.5, 0.62, 0.25, 0.75)]
            texts = (
                make_text(
                    words,
                    at=(face.left + a, b) if joint.upright else (face.left + b, joint.at + 0.9 * scale),
                    scale=scale,
                    align="centre",
                    angle=math.pi / 2 if joint.upright else 0.0,
                    backed=True,
                )
                for a, b in spots
                if not joint.upright or not _in_opening(a, b, openings, 2 * scale)
            )
            text = taken.first_free(texts)
            found += [text] if text else []
    return found


def _trim_names(faces: Sequence[_Face], taken: Taken, scale: float) -> list[Item]:
    """Return every trim line's name, once, over its line where there is room."""
    found: list[Item] = []
    named: set[str] = set()
    for face in faces:
        openings = openings_of(face.wall)
        for trim in face.trim:
            if trim.name in named:
                continue
            width = text_width(trim.name, size=NOTE_SIZE) * scale
            spots = [
                (x, trim.top + 0.8 * scale) for x, _, ok in _starts(face, trim.top, openings, width + 3 * scale) if ok
            ]
            texts = (make_text(trim.name, at=(face.left + x, z), scale=scale, backed=True) for x, z in spots)
            text = taken.first_free(texts)
            if text:
                found.append(text)
                named.add(trim.name)
    return found


def _starts(face: _Face, z: float, openings: Sequence[FramedOpening], width: float) -> list[tuple[float, float, bool]]:
    """Return places along a level line where words of a width may begin, and whether they fit there."""
    stretches = intervals_without((0.0, face.wall.length), cuts_at(openings, z, rough=False))
    step = width / 3
    return [
        (a + step / 4 + k * step, b, a + step / 4 + k * step + width < b)
        for a, b in stretches
        for k in range(int((b - a) / step) + 1)
    ]


def _heads(faces: Sequence[_Face], plan: Plan, scale: float) -> list[Item]:
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


def _floor_and_warning(items: Sequence[Item], left: float, right: float, scale: float) -> list[Item]:
    """Return the datum line with its name, and the warning over everything."""
    (low, _), (high, top) = bounds(items, scale=scale)
    end = high + scale
    words = make_text("finished floor", at=(end, 0.8 * scale), scale=scale)
    added: list[Item] = [
        Line(a=(left - BEYOND * scale, 0.0), b=(words.box[1][0], 0.0), pen=Pen.PHANTOM),
        words,
    ]
    width = max((words.box[1][0] - low) / scale, 100.0)
    lines = wrap(STANDING_CAUTION, width=width)
    y = top + 4 * scale + (len(lines) - 1) * LEADING * NOTE_SIZE * scale
    added.append(_line(STANDING, (low, y + LEADING * WARNING_SIZE * scale), scale, size=WARNING_SIZE, bold=True))
    for number, line in enumerate(lines):
        added.append(_line(line, (low, y - number * LEADING * NOTE_SIZE * scale), scale))
    return added


def _line(words: str, at: Point, scale: float, *, size: float = NOTE_SIZE, bold: bool = False) -> Text:
    return make_text(words, at=at, size=size, scale=scale, bold=bold)
