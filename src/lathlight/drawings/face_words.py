"""Words on finished faces: marks of flats, openings, joints, trim lines, tiers of moulding frames.

The more words matter, the sooner they choose their place; none stands over another, and none on a moulding where there
is another place. What they say is the plan's; heights are said from the finished floor.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.faces import covers_moulding, is_in_opening
from lathlight.drawings.labels import Taken, words_in
from lathlight.drawings.outlines import clear_size, cuts_at, intervals_without, openings_of
from lathlight.drawings.text import NOTE_SIZE, make_text, text_width
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from lathlight.carpentry import BuiltWall, FramedOpening, Joint
    from lathlight.drawings.faces import Face
    from lathlight.drawings.sheets import Item, Point, Text
    from lathlight.mouldings import MouldingFrame
    from lathlight.project import TrimLine
    from lathlight.units import LengthStyle

SHARES = (0.5, 0.56, 0.62, 0.68, 0.74, 0.8, 0.44, 0.38, 0.32, 0.25, 0.9, 0.1)  # of a joint's length: its name's places
APART = 0.6  # between words, where it can be had [mm of paper]
MARK_SIZE = 4.0  # [mm of paper] of a flat's mark


def words_on(faces: Sequence[Face], items: Sequence[Item], style: LengthStyle, scale: float) -> list[Item]:
    """Return all words on the faces."""
    taken = Taken(items, scale=scale)
    return [
        *_flat_marks(faces, taken, scale),
        *opening_words(faces, taken, style, scale),
        *_joint_names(faces, taken, scale),
        *trim_names(faces, taken, scale),
        *tier_names(faces, taken, scale),
    ]


def _first(taken: Taken, texts: Iterable[Text], faces: Sequence[Face], scale: float) -> list[Item]:
    """Return the first of some words that is free: off the mouldings and a little off other words where it can be."""
    listed = list(texts)
    text = _off_mouldings(taken, listed, faces, scale)
    text = text or taken.first_free(listed, gap=APART * scale) or taken.first_free(listed)
    return [text] if text else []


def _off_mouldings(taken: Taken, texts: Sequence[Text], faces: Sequence[Face], scale: float) -> Text | None:
    """Return the first of some words that stands on no moulding, a little off other words where it can be."""
    for gap in (APART * scale, 0.0):
        free = (text for text in texts if taken.is_free(text, gap=gap))
        text = taken.first_free((text for text in free if not covers_moulding(text, faces)), gap=gap)
        if text is not None:
            return text
    return None


def _flat_marks(faces: Sequence[Face], taken: Taken, scale: float) -> list[Item]:
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
                    flat.mark,
                    at=(face.left + x, z),
                    size=MARK_SIZE,
                    scale=scale,
                    align="centre",
                    bold=True,
                    backed=True,
                )
                for x, z in spots
                if not is_in_opening(x, z, openings, MARK_SIZE * scale)
            )
            found += _first(taken, texts, faces, scale)
    return found


def opening_words(faces: Sequence[Face], taken: Taken, style: LengthStyle, scale: float) -> list[Item]:
    """Return name and clear size inside every opening, as large as they fit."""
    found: list[Item] = []
    for face in faces:
        for opening in openings_of(face.wall):
            x, z, w, h = opening.clear
            low, high = (face.left + x, z), (face.left + x + w, z + h - opening.rise)
            for lines in _opening_lines(opening, face.floor, style):
                texts = words_in(lines, low=low, high=high, scale=scale, bold_first=True)
                if taken.all_free(texts):
                    found += texts
                    break
    return found


def _opening_lines(opening: FramedOpening, floor: float, style: LengthStyle) -> list[tuple[str, ...]]:
    """Return what may stand in an opening, the fullest first."""
    z = opening.clear[1]
    wide, high = (drawing_length(mm, style=style) for mm in clear_size(opening, floor=floor))
    size = f"{wide} × {high} clear"
    rise = (f"rise {drawing_length(opening.rise, style=style)}",) if opening.rise else ()
    sill = (f"sill at {drawing_length(z - floor, style=style)}",) if z > 0 else ()
    return [(opening.name, size, *rise, *sill), (opening.name, size), (opening.name,)]


def _joint_names(faces: Sequence[Face], taken: Taken, scale: float) -> list[Item]:
    """Return the two flats of every joint that is taken apart, beside its line where there is room."""
    found: list[Item] = []
    for face in faces:
        openings = openings_of(face.wall)
        for joint in face.wall.joints:
            words, spots = _joint_spots(face.wall, joint, scale)
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
                if not joint.upright or not is_in_opening(a, b, openings, 2 * scale)
            )
            found += _first(taken, texts, faces, scale)
    return found


def _joint_spots(wall: BuiltWall, joint: Joint, scale: float) -> tuple[str, list[Point]]:
    """Return what a joint is called, and where that may stand: beside it, and how far along it."""
    flats = {flat.name: flat for flat in wall.flats}
    first = flats[joint.left]
    low, long = (first.z0, first.height) if joint.upright else (first.x0, first.width)
    beside = (joint.at - 0.9 * scale, joint.at + 2.7 * scale)  # of an upright one, left or right
    spots = [(at, low + share * long) for share in SHARES for at in (beside if joint.upright else beside[:1])]
    return f"joint {first.mark} | {flats[joint.right].mark}", spots


def trim_names(faces: Sequence[Face], taken: Taken, scale: float) -> list[Item]:
    """Return every trim line's name, once, over its line or under it where there is room."""
    spots: dict[str, list[Point]] = {}
    for face in faces:
        for trim in face.trim:
            spots.setdefault(trim.name, []).extend(_name_spots(face, trim, scale))
    found: list[Item] = []
    for name, places in spots.items():
        found += _first(taken, (make_text(name, at=at, scale=scale, backed=True) for at in places), faces, scale)
    return found


def _name_spots(face: Face, trim: TrimLine, scale: float) -> list[Point]:
    """Return where a trim line's name may begin on one face."""
    openings = openings_of(face.wall)
    width = text_width(trim.name, size=NOTE_SIZE) * scale
    over, under = trim.top + 0.8 * scale, trim.bottom - 2.6 * scale
    return [
        (face.left + x, z)
        for z, edge in ((over, trim.top), (under, trim.bottom))
        if 0.0 < z < face.wall.height - NOTE_SIZE * scale
        for x in _starts(face, edge, openings, width + 3 * scale)
    ]


def _starts(face: Face, z: float, openings: Sequence[FramedOpening], width: float) -> list[float]:
    """Return places along a level line where words of a width may begin."""
    stretches = intervals_without((0.0, face.wall.length), cuts_at(openings, z, rough=False))
    step = width / 3
    return [
        a + step / 4 + k * step
        for a, b in stretches
        for k in range(int((b - a) / step) + 1)
        if a + step / 4 + k * step + width < b
    ]


def tier_names(
    faces: Sequence[Face], taken: Taken, scale: float, *, named: Collection[str] = frozenset()
) -> list[Item]:
    """Return the name of every tier of moulding frames not named yet, once, in a frame or close over one."""
    spots: dict[str, list[Text]] = {}
    for face in faces:
        for frame in face.frames:
            spots.setdefault(frame.tier, []).extend(_tier_spots(face, frame, scale))
    found: list[Item] = []
    for name, texts in spots.items():
        if name not in named:
            text = _off_mouldings(taken, texts, faces, scale)
            found += [text] if text else []
    return found


def _tier_spots(face: Face, frame: MouldingFrame, scale: float) -> Iterator[Text]:
    """Yield where a tier's name may stand on one of its frames: low in its field, over it, under it."""
    low, high = frame_inside(face, frame)
    for share in (0.5, 0.3, 0.7):
        texts = words_in([frame.tier], low=low, high=(high[0], low[1] + share * (high[1] - low[1])), scale=scale)
        yield from texts if len(texts) == 1 else ()
    for z in (frame.top + 0.8 * scale, frame.bottom - 2.6 * scale):
        yield make_text(frame.tier, at=(face.left + frame.left, z), scale=scale, backed=True)


def frame_inside(face: Face, frame: MouldingFrame) -> tuple[Point, Point]:
    """Return the two corners of the field that a moulding frame goes round, on the drawing."""
    broad = max((s.broad for s in face.strips if s.id.rpartition("/")[0] == frame.id), default=0.0)
    left, right = face.left + frame.left + broad, face.left + frame.right - broad
    return (left, frame.bottom + broad), (right, frame.top - broad)
