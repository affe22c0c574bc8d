"""Floor covering from above, in the set's axes with the camera's side below: outline, rows, seams, gap, what is seen.

Where the covering lies and how it is cut is decided by ``lathlight.flooring``; lists of its rows stand in the book.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.cameras import SIDES, sitter_point
from lathlight.drawings.composing import Drawing, drawing_page
from lathlight.drawings.dims import level_chains, upright_chains
from lathlight.drawings.in_plan import MARK, sitter_items, wall_items
from lathlight.drawings.labels import SMALL, Taken, arrow
from lathlight.drawings.outlines import bounds_of, rectangle
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.text import CAP, NOTE_SIZE, make_text, text_width
from lathlight.drawings.views import make_view
from lathlight.units import drawing_length, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.drawings.composing import Setting
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Page, Point, Text, View
    from lathlight.flooring import FloorPlan, FloorRow
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

AT_FOOT = 1.0  # height at which the walls are cut: what meets the floor [mm]
LARGEST = 16.0  # as model mm for one mm of paper
ROWS = {"strips": "strip", "boards": "row of boards", "roll": "drop off the roll", "area only": "row"}
BEHIND = 3.5  # from a wall's back to its mark [mm of paper]
WALL_MARK = 3.2  # letters [mm of paper]
LEADERS = (6.0, 9.0, 13.0)  # from the gap to its words, where they are free [mm of paper]
SHARES = (0.25, 0.35, 0.65, 0.75, 0.15, 0.5, 0.85)  # along a face, where the gap is named
ASIDE = 6.0  # from the words along the face to where the leader points [mm of paper]
IN = 1.2  # from an edge to words inside it [mm of paper]
STEP = 3.6  # from one row of words to the next [mm of paper]
SAME = 0.5  # widths that differ less are one [mm]


def floor_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return the page of the floor covering; none where there is no covering."""
    floor = plan.floor
    if floor is None:
        return ()
    x0, y0, x1, y1 = bounds_of([*floor.outline, *(p for line in plan.layout.walls for p in (line.start, line.end))])

    def draw(scale: float) -> View:
        return floor_view(plan, floor, scale=scale)

    return drawing_page(
        Drawing(draw=draw, size=(x1 - x0, y1 - y0), largest=LARGEST),
        name="floor",
        title=f"Floor covering: {floor.covering}",
        setting=setting,
        notes=floor_notes(plan, floor),
    )


def floor_view(plan: Plan, floor: FloorPlan, *, scale: float) -> View:
    """Return the covering from above with the walls' faces, what pictures see of it, and the sitters' marks.

    Parameters
    ----------
    plan
        The plan.
    floor
        Its floor covering.
    scale
        Model mm for one mm of paper.
    """
    style = plan.brief.style
    items: list[Item] = [Line(a=a, b=b, pen=Pen.LIGHT) for a, b in floor.seams]
    items.append(Path(points=floor.outline, closed=True, pen=Pen.OUTLINE))
    items += wall_items(plan, AT_FOOT, _stays)
    items += _seen(floor)
    items += sitter_items(plan, _stays)
    items += _chains(plan, floor, style, scale)
    taken = Taken(items, scale=scale)
    taken.block(_obstacles(plan, items, scale))
    items += _row_numbers(floor, taken, scale)
    items += _wall_marks(plan, taken, scale)
    items += _gap_words(plan, floor, taken, style, scale)
    items += _names(plan, floor, taken, scale)
    return make_view(name="floor", title="Floor covering from above", scale=scale, items=items)


def _stays(point: Point) -> Point:
    return point


def _seen(floor: FloorPlan) -> list[Item]:
    """Return what every picture sees of the floor, over all its angles and lenses."""
    _, _, _, back = bounds_of(floor.outline)
    rings = dict.fromkeys(rectangle(seen.left, seen.front, seen.right, back) for seen in floor.seen)
    return [Path(points=ring, closed=True, pen=Pen.PHANTOM) for ring in rings]


def _chains(plan: Plan, floor: FloorPlan, style: LengthStyle, scale: float) -> list[Item]:
    """Return the first and the last row, all rows between them together, and the covering's extents."""
    x0, y0, x1, y1 = bounds_of(floor.outline)
    rows = _row_stops(floor)
    low = _foot(plan, (x0, x1), y0, scale)
    away = floor.runs == "away"
    across = [[x0, *rows, x1] if away else [x0, x1], [x0, x1]]
    deep = [[y0, y1] if away else [y0, *rows, y1], [y0, y1]]
    return [
        *level_chains(across, edge_y=low, below=True, scale=scale, style=style, datum=x0),
        *upright_chains(deep, edge_x=_right(plan, x1), left=False, scale=scale, style=style, datum=y0),
    ]


def _foot(plan: Plan, stretch: tuple[float, float], edge: float, scale: float) -> float:
    """Return how far down the covering reaches, or the walls over the same stretch where they stand lower [mm]."""
    apart = IN * scale
    lines = [sorted((line.start, line.end)) for line in plan.layout.walls]
    beside = [line for line in lines if line[0][0] < stretch[1] + apart and line[1][0] > stretch[0] - apart]
    return min([edge, *(point[1] for line in beside for point in line)])


def _right(plan: Plan, edge: float) -> float:
    """Return how far the covering and the walls with their frames reach to the right [mm]."""
    depths = {wall.name: max(flat.depth for flat in wall.flats) for wall in plan.walls}
    ends = [
        line.at(along=along, behind=behind)[0]
        for line in plan.layout.walls
        for along in (0.0, line.length)
        for behind in (0.0, depths[line.name])
    ]
    return max(edge, *ends)


def _row_stops(floor: FloorPlan) -> list[float]:
    """Return the inner side of the first row and of the last."""
    if len(floor.rows) < 2:
        return []
    first, last = floor.rows[0], floor.rows[-1]
    return [first.high, last.low] if floor.runs == "away" else [first.low, last.high]


def _row_numbers(floor: FloorPlan, taken: Taken, scale: float) -> Iterator[Text]:
    """Yield every row's number in its end towards the camera, or on the left, where it has room."""
    if len(floor.rows) < 2:
        return
    for row in floor.rows:
        text = taken.first_free(_row_spots(row, floor, scale))
        if text is not None:
            yield text


def _row_spots(row: FloorRow, floor: FloorPlan, scale: float) -> Iterator[Text]:
    words, middle = str(row.number), (row.low + row.high) / 2
    away = floor.runs == "away"
    room = row.width / scale - 0.6
    for size in (NOTE_SIZE, SMALL):
        if (text_width(words, size=size) if away else CAP * size) > room:
            continue
        drop = CAP / 2 * size * scale
        for k in range(4):
            along = row.start + (IN + k * STEP) * scale
            at = (middle, along) if away else (along, middle - drop)
            yield make_text(words, at=at, size=size, scale=scale, align="centre" if away else "left")


def _wall_marks(plan: Plan, taken: Taken, scale: float) -> Iterator[Text]:
    """Yield every wall's mark behind it."""
    for wall, line in zip(plan.walls, plan.layout.walls, strict=True):
        depth = max(flat.depth for flat in wall.flats)
        spots = (
            line.at(along=share * line.length, behind=depth + BEHIND * scale) for share in (0.5, 0.4, 0.6, 0.3, 0.7)
        )
        drop = CAP / 2 * WALL_MARK * scale
        texts = (
            make_text(wall.mark, at=(x, y - drop), size=WALL_MARK, scale=scale, align="centre", bold=True)
            for x, y in spots
        )
        text = taken.first_free(texts, gap=IN * scale)
        if text is not None:
            yield text


def _gap_words(plan: Plan, floor: FloorPlan, taken: Taken, style: LengthStyle, scale: float) -> Iterator[Item]:
    """Yield the expansion gap's figure before the longest face, tied to it."""
    if floor.gap <= 0:
        return
    line = max(plan.layout.walls, key=lambda each: each.length)
    words = f"gap {format_length(floor.gap, style=style)}"
    for out in LEADERS:
        for share in SHARES:
            tip = line.at(along=share * line.length + ASIDE * scale, behind=-floor.gap / 2)
            x, y = line.at(along=share * line.length, behind=-out * scale)
            text = make_text(words, at=(x, y - CAP / 2 * NOTE_SIZE * scale), scale=scale, align="centre", backed=True)
            if taken.all_free([text]):
                yield from arrow((x, y), tip, scale=scale, pen=Pen.DIMENSION)
                yield text
                return


def _names(plan: Plan, floor: FloorPlan, taken: Taken, scale: float) -> Iterator[Text]:
    """Yield sitters' names beside their marks, and the pictures' inside what they see."""
    for sitter in plan.brief.sitters:
        x, y = sitter_point(sitter)
        aside, drop = MARK + IN * scale, CAP / 2 * NOTE_SIZE * scale
        texts = (
            make_text(
                sitter.name, at=(x + side * aside, y - drop + k * STEP * scale), scale=scale, align=align, backed=True
            )
            for k in (0, -1, 1, -2, 2)
            for side, align in SIDES
        )
        text = taken.first_free(texts)
        if text is not None:
            yield text
    for seen in floor.seen:
        spots = [seen.front + (IN + k * STEP) * scale for k in range(12)]
        texts = (
            make_text(
                f"seen in {seen.picture}", at=(edge + side * IN * scale, y), scale=scale, align=align, backed=True
            )
            for y in spots
            for edge, (side, align) in zip((seen.left, seen.right), SIDES, strict=True)
        )
        text = taken.first_free(texts)
        if text is not None:
            yield text


def _obstacles(plan: Plan, items: Sequence[Item], scale: float) -> Iterator[Ring]:
    """Yield what words keep off: sitters' marks, and the edges of what pictures see."""
    for sitter in plan.brief.sitters:
        x, y = sitter_point(sitter)
        yield rectangle(x - MARK, y - MARK, x + MARK, y + MARK)
    half = 0.3 * scale
    for item in items:
        if isinstance(item, Path) and item.pen is Pen.PHANTOM:
            for a, b in pairwise((*item.points, item.points[0])):
                x0, y0, x1, y1 = bounds_of((a, b))
                yield rectangle(x0 - half, y0 - half, x1 + half, y1 + half)


def floor_notes(plan: Plan, floor: FloorPlan) -> tuple[str, ...]:
    """Return how the covering meets the flats, and its rows in words."""
    style = plan.brief.style
    notes = [
        f"The camera's side is below. {floor.covering[:1].upper()}{floor.covering[1:]}, "
        f"{format_length(plan.brief.floor.thickness, style=style)} thick; extents are as laid.",
        _meets(plan, floor),
    ]
    if floor.rows:
        notes.append(_row_words(floor, style))
    return tuple(notes)


def _meets(plan: Plan, floor: FloorPlan) -> str:
    based = any(line.kind == "base" for wall in plan.brief.walls for line in wall.trim)
    if plan.brief.floor.stands_on == "covering":
        return "The flats stand on the covering" + ("; the base stands on it too and is fixed last." if based else ".")
    gap = f"with {format_length(floor.gap, style=plan.brief.style)} left free" if floor.gap > 0 else "with no gap"
    base = "the base stands on it, covers its edge and is fixed last" if based else "no base covers its edge"
    return f"The covering stops at the flats, {gap}; {base}."


def _row_words(floor: FloorPlan, style: LengthStyle) -> str:
    """Return the rows' number and widths."""
    what = ROWS[floor.goods]
    count = len(floor.rows)
    whole = max(row.width for row in floor.rows)
    words = f"{count} × {what}" if count > 1 else f"One {what}"
    narrow = [row for row in floor.rows if row.width < whole - SAME]
    words += f", {drawing_length(whole, style=style)} wide"
    if narrow:
        words += "; " + ", ".join(f"no {row.number} is {drawing_length(row.width, style=style)}" for row in narrow)
    start = "the left" if floor.runs == "away" else "the back"
    return f"{words}. Numbered from {start}." if count > 1 else f"{words}."
