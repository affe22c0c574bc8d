"""Plan of the set in its room, cut level: walls, doors, what must stay free, sitters, cameras.

Drawn in the room's axes with the camera's side below. Where the set stands is decided by the layout; the tables that go
with the plan are in ``lathlight.drawings.way_in``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.drawings.cameras import in_room, picture_items, reach_to, sitter_point
from lathlight.drawings.dims import level_chains, overall, upright_chains
from lathlight.drawings.in_plan import MARK, sitter_items, wall_items
from lathlight.drawings.labels import Taken, arrow
from lathlight.drawings.outlines import bounds_of, set_points
from lathlight.drawings.sheets import Line, Pen
from lathlight.drawings.shell import area_items, door_items, shell_items
from lathlight.drawings.text import NOTE_SIZE, make_text
from lathlight.drawings.views import bounds, make_view
from lathlight.drawings.way_in import cut_height
from lathlight.units import format_angle

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.drawings.sheets import Item, Point, View
    from lathlight.plan import Plan

POINTER = 12.0  # length of the arrow that shows where the camera looks [mm of paper]


def room_view(plan: Plan, *, scale: float) -> View:
    """Return the plan of the room with the set in it."""
    items: list[Item] = [*shell_items(plan, scale)]
    for area in plan.brief.room.keep_clear:
        items += area_items(area, scale, keep_clear=True)
    for area in plan.brief.room.pillars:
        items += area_items(area, scale, keep_clear=False)
    items += picture_items(plan, scale)
    items += wall_items(plan, cut_height(plan), plan.layout.pose.to_room)
    items += _axis(plan)
    items += sitter_items(plan, plan.layout.pose.to_room)
    taken = Taken(items, scale=scale)
    items += _wall_lengths(plan, taken, scale)
    items += _sitter_places(plan, taken, scale)
    items += _names(plan, taken, scale)
    items += door_items(plan, taken, scale)
    items += _distances(plan, items, scale)
    items += _pointer(plan, items, scale)
    return make_view(name="room", title="Plan in the room", scale=scale, items=items)


def _axis(plan: Plan) -> list[Item]:
    """Return the set's axis from behind the set to the room's side in front of it."""
    pose = plan.layout.pose
    foot, back = pose.to_room((0.0, 0.0)), pose.to_room((0.0, 250.0))
    ahead = pose.to_room((0.0, -1.0))
    reach = reach_to(foot, (ahead[0] - foot[0], ahead[1] - foot[1]), plan.brief.room.outline)
    end = pose.to_room((0.0, -(reach or 3000.0)))
    return [Line(a=back, b=end, pen=Pen.CENTRE)]


def _sitter_places(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return how far in front of the set and beside its axis sitters stand, where the figures have room.

    Every place stands in the table of places besides.
    """
    found: list[Item] = []
    for sitter in plan.brief.sitters:
        x, y = sitter_point(sitter)
        if abs(y) >= 1.0:
            found += _free_size(plan, ((0.0, y), (0.0, 0.0)), (0, 6, -6, 12, -12), taken, scale)
        if abs(x) >= 1.0:
            beside = ((min(0.0, x), y), (max(0.0, x), y))
            found += _free_size(plan, beside, (-6, 6, -10, 10), taken, scale)
    return found


def _wall_lengths(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return every wall's finished length before its face, or behind it, where the figure has room."""
    found: list[Item] = []
    depth = max(flat.sheet.thickness + flat.stock.depth for flat in plan.flats) / scale
    offsets = (-5.0, -9.0, -13.0, depth + 8.0, depth + 12.0)
    for line in plan.layout.walls:
        found += _free_size(plan, (line.start, line.end), offsets, taken, scale)
    return found


def _free_size(
    plan: Plan, ends: tuple[Point, Point], offsets: Sequence[float], taken: Taken, scale: float
) -> list[Item]:
    """Return the distance between two points of the set at the first offset [mm of paper] with room for its figure."""
    start, end = in_room(ends, plan.layout.pose)
    for offset in offsets:
        made = overall(start, end, offset=offset, scale=scale, style=plan.brief.style)
        if taken.all_free(made.labels, gap=0.5 * scale):
            return [made]
    return []


def _names(plan: Plan, taken: Taken, scale: float) -> list[Item]:
    """Return flat marks behind the walls, corner angles before them, and the sitters' names."""
    pose = plan.layout.pose
    found: list[Item] = []

    def put(words: str, spots: Iterable[Point], *, bold: bool = False) -> None:
        texts = (
            make_text(words, at=(x, y - 0.35 * NOTE_SIZE * scale), scale=scale, align="centre", bold=bold, backed=True)
            for x, y in (pose.to_room(spot) for spot in spots)
        )
        text = taken.first_free(texts)
        found.extend([text] if text else [])

    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        for flat in wall.flats:
            back = flat.sheet.thickness + flat.stock.depth
            shares = (0.5, 0.3, 0.7, 0.15, 0.85)
            put(
                flat.mark,
                (
                    line.at(along=flat.x0 + share * flat.width, behind=back + k * scale)
                    for k in (3.0, 4.5, 7.0)
                    for share in shares
                ),
                bold=True,
            )
    depth = max(flat.sheet.thickness + flat.stock.depth for flat in plan.flats)
    for corner in plan.corners:
        left, right = plan.layout.wall(corner.left), plan.layout.wall(corner.right)
        (ax, ay), (bx, by) = left.direction, right.direction
        length = math.hypot(bx - ax, by - ay) or 1.0
        way = (bx - ax) / length, (by - ay) / length
        x, y = left.end
        outside = [-depth / scale / math.sin(corner.angle / 2) - k for k in (4.0, 5.5, 7.5)]
        put(
            f"inside {format_angle(corner.angle)}",
            ((x + k * scale * way[0], y + k * scale * way[1]) for k in (*outside, 13, 15, 18, 21, 25, 30)),
        )
    for sitter in plan.brief.sitters:
        x, y = sitter_point(sitter)
        near = MARK + 2 * scale
        put(
            sitter.name,
            ((x + a * near * k, y + b * near * k) for k in (1.0, 1.5, 2.0, 2.6) for a, b in _AROUND),
        )
    return found


_AROUND = ((0.0, -1.0), (0.9, -0.9), (-0.9, -0.9), (1.6, 0.0), (-1.6, 0.0), (0.9, 0.9), (-0.9, 0.9), (0.0, 1.0))


def _distances(plan: Plan, taken: Sequence[Item], scale: float) -> list[Item]:
    """Return distances from the set to the room's sides, and the room's own size, outside everything else."""
    style = plan.brief.style
    x0, y0, x1, y1 = bounds_of(plan.brief.room.outline)
    sx0, sy0, sx1, sy1 = bounds_of(in_room(set_points(plan), plan.layout.pose))
    (_, _), (right, top) = bounds(taken, scale=scale)
    across = [x0, *sorted((sx0, sx1)), x1]
    deep = [y0, *sorted((sy0, sy1)), y1]
    return [
        *level_chains([across, [x0, x1]], edge_y=top, below=False, scale=scale, style=style, datum=x0),
        *upright_chains([deep, [y0, y1]], edge_x=right, left=False, scale=scale, style=style, datum=y0),
    ]


def _pointer(plan: Plan, taken: Sequence[Item], scale: float) -> list[Item]:
    """Return an arrow that shows where the camera looks when it stands on the set's axis."""
    (low, foot), _ = bounds(taken, scale=scale)
    turn = plan.layout.pose.turn
    way = (-math.sin(turn), math.cos(turn))
    half = POINTER / 2 * scale
    x, y = low - half - scale, foot + half + scale
    at = (x + 0.35 * NOTE_SIZE * scale, y + half + 2 * scale)
    words = make_text("the camera looks this way", at=at, scale=scale, angle=math.pi / 2)
    return [
        *arrow((x - way[0] * half, y - way[1] * half), (x + way[0] * half, y + way[1] * half), scale=scale),
        words,
    ]
