"""Tables of marking out: heights of the standing set, those of flats lying down, uprights of moulding frames.

Equal figures share a row, which names the walls or the flats they hold for. The figures are ``lathlight.marking``'s.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.listing import Listing
from lathlight.drawings.tables import Column
from lathlight.marking import FRAME
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.marking import FlatMark, MarkingOut
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle


def marking_listings(plan: Plan, marking: MarkingOut) -> tuple[Listing, ...]:
    """Return the tables: heights of the standing set, those of flats lying down, uprights of moulding frames."""
    listings = [_heights_listing(plan, marking), _flats_listing(plan, marking)]
    return (*listings, _frames_listing(plan, marking)) if marking.frames else tuple(listings)


def _heights_listing(plan: Plan, marking: MarkingOut) -> Listing:
    style = plan.brief.style
    columns = (
        Column(heading="Line", width=46),
        Column(heading="Walls", width=43),
        Column(heading="From the level line", width=26, align="right"),
        Column(heading="Above the finished floor", width=26, align="right"),
        Column(heading="Above the flats' foot", width=26, align="right"),
    )
    walls: dict[tuple[str, float, float, float], list[str]] = {}
    for mark in sorted(marking.heights, key=lambda m: (-m.height, m.name, m.edge)):
        key = (f"{mark.name}, {mark.edge}", mark.offset, mark.height, mark.above_foot)
        walls.setdefault(key, []).append(mark.wall)
    rows = [
        (
            name,
            _wall_words(plan, own),
            _up_or_down(offset, style),
            drawing_length(height, style=style),
            drawing_length(foot, style=style),
        )
        for (name, offset, height, foot), own in walls.items()
    ]
    level = drawing_length(marking.level.height, style=style)
    title = f"Standing set: from the level line, {level} above the finished floor"
    return Listing(title=title, columns=columns, rows=tuple(rows))


def _wall_words(plan: Plan, names: Iterable[str]) -> str:
    own = list(dict.fromkeys(names))
    return "all walls" if len(own) == len(plan.walls) > 1 else ", ".join(own)


def _up_or_down(offset: float, style: LengthStyle) -> str:
    words = drawing_length(abs(offset), style=style)
    return f"{'up' if offset > 0 else 'down'} {words}" if offset else "on it"


def _flats_listing(plan: Plan, marking: MarkingOut) -> Listing:
    style = plan.brief.style
    columns = (
        Column(heading="Line", width=46),
        Column(heading="Flats", width=53),
        Column(heading="From its bottom edge", width=22, align="right"),
        Column(heading="From its left edge", width=46, align="right"),
    )
    flats: dict[tuple[str, float, str], list[str]] = {}
    for mark in sorted(marking.flats, key=lambda m: (-m.height, m.name, m.edge)):
        key = (f"{mark.name}, {mark.edge}", mark.height, _stretch_words(mark, style))
        flats.setdefault(key, []).append(mark.flat_mark)
    rows = [
        (name, ", ".join(dict.fromkeys(own)), drawing_length(height, style=style), stretch)
        for (name, height, stretch), own in flats.items()
    ]
    title = "Flats lying down, face up: each from its own foot and its sheets' left edge"
    return Listing(title=title, columns=columns, rows=tuple(rows))


def _stretch_words(mark: FlatMark, style: LengthStyle) -> str:
    """Return over which stretch a line runs; of moulding frames, the table of their uprights says it."""
    if mark.kind == FRAME:
        return "between uprights"
    if mark.is_across:
        return "right across"
    parts = [f"{drawing_length(a, style=style)} to {drawing_length(b, style=style)}" for a, b in mark.stretches]
    return "; ".join(parts)


def _frames_listing(plan: Plan, marking: MarkingOut) -> Listing:
    style = plan.brief.style
    columns = (
        Column(heading="Flat", width=20),
        Column(heading="Moulding frames", width=67),
        Column(heading="Left edge", width=40, align="right"),
        Column(heading="Right edge", width=40, align="right"),
    )
    tiers: dict[tuple[str, str, str], list[str]] = {}
    for mark in marking.frames:
        same = [other for other in marking.frames if other.frame == mark.frame]
        left = _edge_words(mark.left, [other.flat_mark for other in same if other.left is not None], style)
        right = _edge_words(mark.right, [other.flat_mark for other in same if other.right is not None], style)
        tiers.setdefault((mark.flat_mark, left, right), []).append(mark.tier)
    rows = [(flat, ", ".join(dict.fromkeys(own)), left, right) for (flat, left, right), own in tiers.items()]
    title = "Uprights of moulding frames: outside edges, from the left edge of the flat's sheets"
    return Listing(title=title, columns=columns, rows=tuple(rows))


def _edge_words(at: float | None, elsewhere: Sequence[str], style: LengthStyle) -> str:
    return f"on {' and '.join(elsewhere)}" if at is None else drawing_length(at, style=style)
