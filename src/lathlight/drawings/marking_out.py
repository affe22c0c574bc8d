"""Marking out on paper: the walls side by side under one level line, and the pages they stand on with their tables.

Walls are drawn in one row, apart by the room that their figures need: what is measured up and down from the level line
stands to the right of every wall. What is marked, and how high, is decided by ``lathlight.marking``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.composing import Drawing, Setting, drawing_page, drawing_with_tables
from lathlight.drawings.labels import running_figures
from lathlight.drawings.marking_tables import marking_listings
from lathlight.drawings.outlines import opening_ring, openings_of, rectangle
from lathlight.drawings.page import view_area
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.story_stick import signed_length, stick_view
from lathlight.drawings.text import CAP, make_text, text_width
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_length, snap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import BuiltWall, Flat
    from lathlight.drawings.listing import Listing
    from lathlight.drawings.sheets import Item, Page, View
    from lathlight.marking import HeightMark, MarkingOut
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

# Sizes on paper [mm].
FIGURE = 3.5  # letters that are read at arm's length
HEAD = 3.2
NAME = 2.8
FLAT_NAMES = (3.2, 2.5, 2.0)  # the largest that fits its flat
HEAD_UP = 3.0  # from what stands highest to the walls' names
TO_FIGURE = 5.0  # from a wall to the figures beside it: their leaders
AFTER = 3.0  # from figures to the next wall
BEYOND = 2.5  # how far floor and level line run past a wall
LARGEST = 20.0  # walls are drawn no larger, as model mm for one mm of paper
STICK_LARGEST = 10.0
GOOD = 50.0  # and are large enough at this to have tables beside them
SMALLEST = {"metric": 100.0, "imperial": 96.0}  # walls that do not fit one page at this go on several
STICK_GOOD = 25.0
INCH = 25.4  # [mm]
EXACT = 0.001  # less than this is nothing left [mm]
LEVEL = "level line"
STICK_NOTES = (
    "One strip for the whole set, marked at full size: hold its level mark on the level line and mark off.",
    "Its breadth is not to scale. Once it is marked, saw a little off its foot: it hangs from the line and never "
    "stands on the floor.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """One wall with its marks, where its left corner lies on the drawing [mm], and the figures to its right."""

    wall: BuiltWall
    marks: tuple[HeightMark, ...]
    figures: tuple[tuple[float, str], ...]
    left: float

    @property
    def right(self) -> float:
        """Where its right corner lies [mm]."""
        return self.left + self.wall.length


def marking_view(plan: Plan, marking: MarkingOut, *, scale: float, walls: Sequence[str] | None = None) -> View:
    """Return the walls under the level line, with what is measured up and down from it.

    Parameters
    ----------
    plan
        The plan.
    marking
        What is marked out.
    scale
        Model mm for one mm of paper.
    walls
        Names of the walls to show; None: all.
    """
    names = [wall.name for wall in plan.walls] if walls is None else list(walls)
    faces = _faces(plan, marking, names, scale)
    items: list[Item] = [item for face in faces for item in _face_items(face, marking, scale)]
    items += _names(faces[0], marking, plan.brief.style, scale)
    for face in faces:
        items += running_figures(face.figures, edge=face.right, level=False, out=1, scale=scale, size=FIGURE, bold=True)
    items += _heads(faces, bounds(items, scale=scale)[1][1] + HEAD_UP * scale, scale)
    whole = len(names) == len(plan.walls)
    name = "marking-out" if whole else f"marking-out-from-{faces[0].wall.mark}"
    return make_view(name=name, title="Heights from the level line", scale=scale, items=items)


def _faces(plan: Plan, marking: MarkingOut, names: Sequence[str], scale: float) -> list[_Face]:
    faces: list[_Face] = []
    left = 0.0
    named: set[tuple[str, str, float]] = set()
    for wall in plan.walls:
        if wall.name not in names:
            continue
        marks = tuple(mark for mark in marking.heights if mark.wall == wall.name)
        if not faces:
            named = {(mark.name, mark.edge, mark.height) for mark in marks}
        figures = _figures(marks, named, marking, plan.brief.style)
        face = _Face(wall=wall, marks=marks, figures=figures, left=left)
        faces.append(face)
        widest = max(text_width(words, size=FIGURE, bold=True) for _, words in figures)
        left = face.right + (TO_FIGURE + widest + AFTER) * scale
    return faces


def _figures(
    marks: Sequence[HeightMark], named: set[tuple[str, str, float]], marking: MarkingOut, style: LengthStyle
) -> tuple[tuple[float, str], ...]:
    """Return what stands beside a wall: distances from the level line, with names where the left has none."""
    found = [(marking.level.above_foot, "0")]
    for height in sorted({mark.height for mark in marks}):
        own = [mark for mark in marks if mark.height == height]
        words = [signed_length(own[0].offset, style=style)]
        words += [f"{m.name}, {m.edge}" for m in own if (m.name, m.edge, m.height) not in named]
        found.append((height + marking.rise, "  ".join(words)))
    return tuple(found)


def _face_items(face: _Face, marking: MarkingOut, scale: float) -> list[Item]:
    """Return a wall, faint, with its flats and openings, what is marked on it, and the level line."""
    wall, left = face.wall, face.left
    items: list[Item] = [Path(points=rectangle(left, 0.0, face.right, wall.height), closed=True, pen=Pen.LIGHT)]
    for joint in wall.joints:
        flats = [flat for flat in wall.flats if flat.name in (joint.left, joint.right)]
        items.append(_joint(flats, joint.at, left, upright=joint.upright))
    for opening in openings_of(wall):
        ring = tuple((left + x, z) for x, z in opening_ring(opening))
        items.append(Path(points=ring, closed=True, pen=Pen.LIGHT, fill=Tone.FAINT))
    for mark in face.marks:
        z = mark.height + marking.rise
        items += [Line(a=(left + a, z), b=(left + b, z), pen=Pen.OUTLINE) for a, b in mark.stretches]
    ends = left - BEYOND * scale, face.right + BEYOND * scale
    for z, pen in ((marking.rise, Pen.PHANTOM), (marking.level.above_foot, Pen.LEVEL)):
        items.append(Line(a=(ends[0], z), b=(ends[1], z), pen=pen))
    return [*items, *_flat_names(face, marking, scale)]


def _joint(flats: Sequence[Flat], at: float, left: float, *, upright: bool) -> Line:
    """Return the line between two flats over the stretch that they share."""
    if upright:
        low, high = max(f.z0 for f in flats), min(f.z1 for f in flats)
        return Line(a=(left + at, low), b=(left + at, high), pen=Pen.LIGHT)
    low, high = max(f.x0 for f in flats), min(f.x1 for f in flats)
    return Line(a=(left + low, at), b=(left + high, at), pen=Pen.LIGHT)


def _flat_names(face: _Face, marking: MarkingOut, scale: float) -> list[Item]:
    """Return the mark of every flat that has room for it where no line runs; the tables name all of them."""
    lines = [marking.level.above_foot, *(mark.height + marking.rise for mark in face.marks)]
    items: list[Item] = []
    for flat in face.wall.flats:
        for size in FLAT_NAMES:
            spot = next(_spots(flat, face.wall, lines, size=size, scale=scale), None)
            if spot is not None:
                at = (face.left + spot[0], spot[1])
                items.append(make_text(flat.mark, at=at, size=size, scale=scale, align="centre"))
                break
    return items


def _spots(
    flat: Flat, wall: BuiltWall, lines: Sequence[float], *, size: float, scale: float
) -> Iterator[tuple[float, float]]:
    """Yield places within a flat where its mark is clear of lines, openings and edges."""
    up = CAP * size * scale
    half = text_width(flat.mark, size=size) / 2 * scale + 0.5 * up
    low, high = max(flat.x0, 0.0) + half, min(flat.x1, wall.length) - half
    holes = [opening.clear for opening in openings_of(wall)]
    for across in (0.5, 0.0, 1.0):
        for share in _HEIGHTS:
            x, z = low + (high - low) * across, flat.z0 + flat.height * share
            if (
                low <= high
                and flat.z0 + up <= z <= flat.z1 - 2 * up
                and all(not z - up < line < z + 2 * up for line in lines)
                and not any(a - half < x < a + w + half and b - 2 * up < z < b + h + up for a, b, w, h in holes)
            ):
                yield x, z


_HEIGHTS = (0.6, 0.65, 0.7, 0.55, 0.5, 0.75, 0.3, 0.25, 0.2, 0.35, 0.8, 0.9, 0.1)  # where a flat's mark is tried


def _names(face: _Face, marking: MarkingOut, style: LengthStyle, scale: float) -> list[Item]:
    """Return what each line is, to the left of the first wall."""
    level = drawing_length(marking.level.height, style=style)
    found = [(marking.rise, "finished floor"), (marking.level.above_foot, f"{LEVEL.upper()} {level}")]
    for height in sorted({mark.height for mark in face.marks}):
        words = dict.fromkeys(f"{mark.name}, {mark.edge}" for mark in face.marks if mark.height == height)
        found.append((height + marking.rise, "; ".join(words)))
    return [*running_figures(found, edge=face.left, level=False, out=-1, scale=scale, size=NAME)]


def _heads(faces: Sequence[_Face], top: float, scale: float) -> list[Item]:
    """Return the walls' marks and names in one row over everything."""
    items: list[Item] = []
    for face, following in zip(faces, [*faces[1:], None], strict=True):
        words = f"{face.wall.mark}  {face.wall.name}"
        room = (following.left - face.left) / scale - 2 if following is not None else float("inf")
        if text_width(words, size=HEAD, bold=True) > room:
            words = face.wall.mark
        items.append(make_text(words, at=(face.left, top), size=HEAD, scale=scale, bold=True))
    return items


# --- pages ---------------------------------------------------------------------------------------------------------


def marking_notes(plan: Plan, marking: MarkingOut) -> tuple[str, ...]:
    """Return what holds for all figures of the page."""
    style = plan.brief.style
    notes = [
        "From the level line, never from the floor. Set its height where the floor is highest, once the set stands, is "
        "shimmed level and is braced; standing has not been checked.",
        "Flats lying down: the figures hold once every foot is shimmed to the level of the highest place of the floor.",
    ]
    if marking.rise:
        notes.append(
            "The flats stand beside the floor covering: the figures from their foot take in the "
            f"{format_length(snap(marking.rise, style), style=style)} that the finished floor lies higher."
        )
    return (*notes, _rounding_note(marking, style))


def _rounding_note(marking: MarkingOut, style: LengthStyle) -> str:
    step = format_length(float(style.step), style=style)
    words = f"Every figure is rounded once, to {step}, from its own start"
    if marking.most_left < EXACT:
        return f"{words}; here nothing is left over."
    most = f"{marking.most_left:.2f} mm" if style.system == "metric" else f'{marking.most_left / INCH:.3f}"'
    return f"{words}; what that leaves is at most {most} and never adds up."


def marking_pages(plan: Plan, marking: MarkingOut, setting: Setting) -> tuple[Page, ...]:
    """Return the page of heights, the page of the story stick, and pages for tables that find no room on these.

    Parameters
    ----------
    plan
        The plan.
    marking
        What is marked out.
    setting
        Title block and units.
    """
    strips = _strips(plan, marking, setting)
    first = [_strip_page(plan, marking, names, setting, ())[0] for names in strips[:-1]]
    last, rest = _strip_page(plan, marking, strips[-1], setting, marking_listings(plan, marking))
    return (*first, last, *_stick_pages(plan, marking, setting, rest))


def _strips(plan: Plan, marking: MarkingOut, setting: Setting) -> list[list[str]]:
    """Return neighbouring walls in groups that fit one row with their figures: all in one where that can be had."""
    room = view_area(setting.heading.paper, landscape=True).size[0]
    scale = SMALLEST[setting.style.system]
    groups: list[list[str]] = [[]]
    for wall in plan.walls:
        longer = [*groups[-1], wall.name]
        if groups[-1] and marking_view(plan, marking, scale=scale, walls=longer).paper_size[0] > room:
            groups.append([wall.name])
        else:
            groups[-1] = longer
    return groups


def _strip_page(
    plan: Plan, marking: MarkingOut, names: Sequence[str], setting: Setting, listings: Sequence[Listing]
) -> tuple[Page, tuple[Listing, ...]]:
    walls = [wall for wall in plan.walls if wall.name in names]

    def draw(scale: float) -> View:
        return marking_view(plan, marking, scale=scale, walls=names)

    whole = len(walls) == len(plan.walls)
    ends = list(dict.fromkeys((walls[0].mark, walls[-1].mark)))
    which = "" if whole else f", wall{'s' * (len(ends) - 1)} {' to '.join(ends)}"
    return drawing_with_tables(
        Drawing(
            draw=draw,
            size=(sum(w.length for w in walls), max(w.height for w in walls)),
            largest=LARGEST,
            good=GOOD,
        ),
        name="marking-out" if whole else f"marking-out-from-{walls[0].mark}",
        title=f"Marking out{which}",
        setting=setting,
        listings=listings,
        notes=marking_notes(plan, marking),
    )


def _stick_pages(plan: Plan, marking: MarkingOut, setting: Setting, listings: Sequence[Listing]) -> tuple[Page, ...]:
    stick = marking.stick

    def draw(scale: float) -> View:
        return stick_view(plan, marking, scale=scale)

    return drawing_page(
        Drawing(draw=draw, size=(0.0, stick.length), largest=STICK_LARGEST, good=STICK_GOOD),
        name="story-stick",
        title="Story stick",
        setting=setting,
        listings=listings,
        notes=STICK_NOTES,
    )
