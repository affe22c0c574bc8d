"""Cameras in plan: where they stand for every picture, which way they look, and what the picture's edges meet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.labels import Taken
from lathlight.drawings.outlines import is_inside
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.shell import sides_of
from lathlight.drawings.text import make_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text
    from lathlight.drawings.text import Align
    from lathlight.layout import Pose
    from lathlight.plan import Plan
    from lathlight.project import PictureBrief, SitterBrief

CAMERA = 1.6  # half the size of a camera [mm of paper]
CAMERA_SHAPE = ((-1, -1.2), (1, -1.2), (1, 0), (0.5, 0), (0.5, 0.8), (-0.5, 0.8), (-0.5, 0), (-1, 0))  # lens ahead
ARC_STEPS = 12
OUTSIDE = "outside the room"
SIDES: tuple[tuple[int, Align], ...] = ((1, "left"), (-1, "right"))  # of a camera, with how words stand there


def picture_items(plan: Plan, scale: float) -> list[Item]:
    """Return cameras at both ends of every picture's range of angles, with their axes and the picture's edges."""
    items: list[Item] = []
    for picture in plan.brief.pictures:
        for angle in sorted(set(picture.angles)):
            items += _camera(plan, picture, angle, scale)
        items += _range(plan, picture)
    taken = Taken(items, scale=scale)
    for picture in plan.brief.pictures:
        items += _picture_name(plan, picture, taken, scale)
    for picture in plan.brief.pictures:
        for angle in outside_angles(plan, picture):
            items += _outside_note(plan, picture, angle, taken, scale)
    return items


def camera_distance(picture: PictureBrief) -> float:
    """Return how far the camera stands from the sitter, at its longest lens [mm].

    Notes
    -----
    Thin lens: distance = focal length times (1 + height of the frame at the sitter / height of the sensor), from the
    lens; any textbook on optics.
    """
    return max(picture.lens) * (1 + picture.frame_height / picture.sensor[1])


def outside_angles(plan: Plan, picture: PictureBrief) -> tuple[float, ...]:
    """Return the ends of a picture's range of angles, in order, at which its camera would stand outside the room."""
    outline = plan.brief.room.outline
    places = {angle: plan.layout.pose.to_room(_camera_point(picture, angle)) for angle in sorted(set(picture.angles))}
    return tuple(angle for angle, place in places.items() if not is_inside(place, outline))


def _camera_point(picture: PictureBrief, angle: float) -> Point:
    """Return the camera's place in set axes; the angle is measured at the sitter, to the right positive."""
    x, y = sitter_point(picture.sitter)
    far = camera_distance(picture)
    return x + far * math.sin(angle), y - far * math.cos(angle)


def _camera(plan: Plan, picture: PictureBrief, angle: float, scale: float) -> list[Item]:
    pose = plan.layout.pose
    x, y = _camera_point(picture, angle)
    half = math.atan(picture.sensor[0] / 2 / max(picture.lens))
    items: list[Item] = []
    for turn in (-half, 0.0, half):
        way = (-math.sin(angle + turn), math.cos(angle + turn))
        far = _first_hit(plan, (x, y), way)
        a, b = in_room(((x, y), (x + far * way[0], y + far * way[1])), pose)
        items.append(Line(a=a, b=b, pen=Pen.SIGHT))
    way, side = (-math.sin(angle), math.cos(angle)), (math.cos(angle), math.sin(angle))
    size = CAMERA * scale
    body = tuple(
        (x + size * (p * side[0] + q * way[0]), y + size * (p * side[1] + q * way[1])) for p, q in CAMERA_SHAPE
    )
    items.append(Path(points=in_room(body, pose), closed=True, pen=Pen.OUTLINE, fill=Tone.MID))
    return items


def _first_hit(plan: Plan, start: Point, way: Point) -> float:
    """Return how far a line of sight runs to the first finished face, else to the room's far side [mm]."""
    best: float | None = None
    for line in plan.layout.walls:
        (dx, dy), (wx, wy) = line.direction, way
        cross = dx * wy - dy * wx  # positive where the ray meets the face from its finished side
        if cross <= 1e-9:
            continue
        px, py = line.start[0] - start[0], line.start[1] - start[1]
        far = (dx * py - dy * px) / cross
        along = far * (wx * dx + wy * dy) - (px * dx + py * dy)
        if far > 0 and 0 <= along <= line.length and (best is None or far < best):
            best = far
    if best is not None:
        return best
    pose = plan.layout.pose
    a, b = in_room((start, (start[0] + way[0], start[1] + way[1])), pose)
    return _last_reach(a, (b[0] - a[0], b[1] - a[1]), plan.brief.room.outline)


def _last_reach(start: Point, way: Point, outline: Sequence[Point]) -> float:
    """Return how far a ray runs until it has left an outline for good; a short way where it never meets it."""
    far = 0.0
    while True:
        step = reach_to((start[0] + way[0] * far, start[1] + way[1] * far), way, outline)
        if step is None:
            return far or 3000.0
        far += step + 1e-3


def _range(plan: Plan, picture: PictureBrief) -> list[Item]:
    """Return the arc that the camera may move on."""
    low, high = min(picture.angles), max(picture.angles)
    if high - low < 1e-6:
        return []
    arc = tuple(_camera_point(picture, low + (high - low) * k / ARC_STEPS) for k in range(ARC_STEPS + 1))
    return [Path(points=in_room(arc, plan.layout.pose), closed=False, pen=Pen.SIGHT)]


def _picture_name(plan: Plan, picture: PictureBrief, taken: Taken, scale: float) -> list[Text]:
    """Return a picture's name and lens behind the middle of its range."""
    x, y = plan.layout.pose.to_room(_camera_point(picture, sum(picture.angles) / 2))
    words = f"{picture.name}, {max(picture.lens):g} mm"
    texts = (
        make_text(words, at=(x + across * scale, y - k * scale), scale=scale, align="centre", backed=True)
        for k in (5, 9, 13, 17, 21, 25, 29)
        for across in (0, -8, 8)
    )
    text = taken.first_free(texts)
    return [] if text is None else [text]


def _outside_note(plan: Plan, picture: PictureBrief, angle: float, taken: Taken, scale: float) -> list[Text]:
    """Return the words that a camera stands outside the room, beside it."""
    x, y = plan.layout.pose.to_room(_camera_point(picture, angle))
    texts = (
        make_text(OUTSIDE, at=(x + side * 3 * scale, y + up * scale), scale=scale, align=align, bold=True, backed=True)
        for up in (-0.9, 2.2, -4.0, 5.3, -7.1, 8.4, -10.2, -13.3)
        for side, align in (SIDES if math.sin(angle) >= 0 else SIDES[::-1])
    )
    text = taken.first_free(texts)
    return [] if text is None else [text]


def reach_to(start: Point, way: Point, outline: Sequence[Point]) -> float | None:
    """Return how far a ray runs from a point to an outline, or None where it never meets it."""
    best: float | None = None
    for (ax, ay), (bx, by) in sides_of(outline):
        ex, ey = bx - ax, by - ay
        cross = way[0] * ey - way[1] * ex
        if abs(cross) < 1e-12:
            continue
        along = ((ax - start[0]) * ey - (ay - start[1]) * ex) / cross
        share = ((ax - start[0]) * way[1] - (ay - start[1]) * way[0]) / cross
        if along > 1e-6 and -1e-9 <= share <= 1 + 1e-9 and (best is None or along < best):
            best = along
    return best


def in_room(ring: Iterable[Point], pose: Pose) -> Ring:
    """Return points of the set's axes in the room's."""
    return tuple(pose.to_room(point) for point in ring)


def sitter_point(sitter: SitterBrief) -> Point:
    """Return where a sitter stands, in set axes [mm]."""
    return sitter.right, -sitter.forward
