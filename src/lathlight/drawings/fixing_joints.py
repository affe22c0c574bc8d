"""Where flats and corners are joined, drawn on a wall's face: marks with their heights from the flats' foot.

Marks at a corner stand on the wall's edge with their figures outside it, those between flats on the joint with their
figures beside them. What joins them is decided by ``lathlight.fixing``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.drawings.fixing_marks import BRACKET, SQUARE, Entry, bracket, kept_clear, square
from lathlight.drawings.labels import running_figures
from lathlight.drawings.listing import Listing
from lathlight.drawings.sheets import Line, Pen
from lathlight.drawings.tables import Column
from lathlight.drawings.text import CAP, NOTE_SIZE, make_text
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import BuiltWall
    from lathlight.drawings.labels import Taken
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text
    from lathlight.drawings.text import Align
    from lathlight.fixing import CornerFixing, JointFixing
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

ASIDE = (1.2, 2.4, 3.8, 5.4, 7.5)  # from a mark to its figure, where that is free [mm of paper]
SIDES: tuple[tuple[int, Align], ...] = ((1, "left"), (-1, "right"))
SINGLE = {"screws": "screw", "bolts": "bolt", "connectors": "connector"}
HEAD_UP = 2.0  # from the face up to a corner's name [mm of paper]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """What joins one wall's flats to each other, and the wall to its neighbours."""

    wall: BuiltWall
    joints: tuple[JointFixing, ...]
    left: CornerFixing | None
    right: CornerFixing | None
    names: dict[str, str]  # of joints and corners, by id: "B1-B2", "A | B"

    @property
    def ends(self) -> tuple[tuple[CornerFixing, float, int], ...]:
        """Corners with the place of their edge [mm] and the side to which figures stand: -1 left, 1 right."""
        ends = (self.left, 0.0, -1), (self.right, self.wall.length, 1)
        return tuple((corner, edge, out) for corner, edge, out in ends if corner is not None)


def joined_of(plan: Plan, wall: BuiltWall) -> Joined:
    """Return what joins one wall's flats and the wall's ends."""
    flats = {flat.name: flat.mark for flat in wall.flats}
    walls = {each.name: each.mark for each in plan.walls}
    corners = {corner.id: corner for corner in plan.corners}
    held = {corners[each.corner]: each for each in plan.fixing.corners}
    return Joined(
        wall=wall,
        joints=tuple(each for each in plan.fixing.joints if each.wall == wall.name),
        left=next((each for corner, each in held.items() if corner.right == wall.name), None),
        right=next((each for corner, each in held.items() if corner.left == wall.name), None),
        names={
            **{joint.id: f"{flats[joint.left]}–{flats[joint.right]}" for joint in wall.joints},
            **{corner.id: f"{walls[corner.left]} | {walls[corner.right]}" for corner in plan.corners},
        },
    )


def joint_marks(joined: Joined, scale: float) -> list[Item]:
    """Return the marks of joints and corners."""
    items: list[Item] = []
    for at in _places(joined, temporary=False):
        items += square(at, scale)
    for at in _places(joined, temporary=True):
        items += bracket(at, scale)
    return items


def _places(joined: Joined, *, temporary: bool) -> Iterator[Point]:
    for joint in joined.joints:
        for place in joint.temporary if temporary else joint.places:
            yield (joint.at, place) if joint.upright else (place, joint.at)
    for corner, edge, _ in joined.ends:
        for place in corner.temporary if temporary else corner.heights:
            yield edge, place


def joint_boxes(joined: Joined, scale: float) -> Iterator[Ring]:
    """Yield boxes round the marks, which words keep off."""
    yield from kept_clear(_places(joined, temporary=False), scale, half=SQUARE)
    yield from kept_clear(_places(joined, temporary=True), scale, half=BRACKET[1])


def corner_figures(joined: Joined, style: LengthStyle, scale: float) -> list[Item]:
    """Return the heights at the wall's corners outside face and frame, and the corners' names over them."""
    items: list[Item] = []
    for corner, edge, out in joined.ends:
        marks = [(z, drawing_length(z, style=style)) for z in corner.heights]
        marks += [(z, f"bracket {drawing_length(z, style=style)}") for z in corner.temporary]
        near = edge + out * BRACKET[1] * scale
        past = out * max(out * near, *(out * (flat.x1 if out > 0 else flat.x0) for flat in joined.wall.flats))
        if past != near:  # the frame runs past the face: figures stand clear of it
            items += [Line(a=(near, z), b=(past + 0.5 * out * scale, z), pen=Pen.DIMENSION) for z, _ in marks]
        items += running_figures(marks, edge=past, level=False, out=out, scale=scale)
        words = f"corner {joined.names[corner.corner]}"
        at = (near, joined.wall.height + HEAD_UP * scale)
        items.append(make_text(words, at=at, scale=scale, align="left" if out > 0 else "right", bold=True))
    return items


def joint_figures(joined: Joined, taken: Taken, uncovered: Taken, style: LengthStyle, scale: float) -> list[Text]:
    """Return each mark's figure beside it, on timber and mouldings only where it must be; the table has all of them.

    Parameters
    ----------
    joined
        What is drawn.
    taken
        What no words cover.
    uncovered
        What they cover only where nothing else is free.
    style, scale
        As everywhere.
    """
    found: list[Text] = []
    for joint in joined.joints:
        for place in sorted((*joint.places, *joint.temporary)):
            texts = list(_beside(drawing_length(place, style=style), joint, place, scale))
            text = taken.first_free(each for each in texts if uncovered.is_free(each)) or taken.first_free(texts)
            found += [] if text is None else [text]
    return found


def _beside(words: str, joint: JointFixing, place: float, scale: float) -> Iterator[Text]:
    drop = CAP / 2 * NOTE_SIZE * scale
    for aside in ASIDE:
        for side, align in SIDES:
            away = side * (BRACKET[1] + aside) * scale
            if joint.upright:
                yield make_text(words, at=(joint.at + away, place - drop), scale=scale, align=align, backed=True)
            else:
                up = joint.at + away - drop
                yield make_text(words, at=(place, up), scale=scale, align="centre", backed=True)


def joint_entries(joined: Joined, scale: float) -> Iterator[Entry]:
    """Yield the legend of the marks of joints and corners."""
    fixings = [*joined.joints, *(corner for corner, _, _ in joined.ends)]
    what = " or ".join(dict.fromkeys(SINGLE[each.joined] for each in fixings))
    if any(True for _ in _places(joined, temporary=False)):
        words = f"{what} that joins flats, from the back"
        yield Entry(sample=square((0.0, 0.0), scale), half=BRACKET[1], words=words)
    if any(True for _ in _places(joined, temporary=True)):
        words = "bracket on the back while marking out"
        yield Entry(sample=bracket((0.0, 0.0), scale), half=BRACKET[1], words=words)


def joint_listing(joined: Joined, style: LengthStyle) -> Listing | None:
    """Return the table of a wall's joints and corners; None where it has none."""
    rows = [_row(joined.names[each.joint], each, each.places, style) for each in joined.joints]
    rows += [_row(f"corner {joined.names[each.corner]}", each, each.heights, style) for each, _, _ in joined.ends]
    columns = (
        Column(heading="Between", width=26),
        Column(heading="With", width=46),
        Column(heading="At, from the flats' foot", width=63),
        Column(heading="Brackets at", width=35),
    )
    title = f"Joints and corners of wall {joined.wall.mark}"
    return Listing(title=title, columns=columns, rows=tuple(rows)) if rows else None


def _row(
    name: str, fixing: JointFixing | CornerFixing, places: Sequence[float], style: LengthStyle
) -> tuple[str, str, str, str]:
    with_what = f"{len(places)} × {fixing.hardware}" if fixing.hardware is not None else "none is long enough"
    at, brackets = (
        ", ".join(drawing_length(place, style=style) for place in sorted(figures))
        for figures in (places, fixing.temporary)
    )
    level = getattr(fixing, "upright", True) is False
    return name, with_what, f"{at}, along the wall" if level else at, brackets
