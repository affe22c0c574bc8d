"""Marking out as tables: heights from the level line and on flats lying down, frames' uprights, the story stick.

Decides columns and order; the figures are those of ``lathlight.marking``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.columns import length_cells, length_columns, make_table, texts, yes
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lathlight.exports.tables import Cell, Table
    from lathlight.marking import FlatMark, HeightMark, MarkingOut
    from lathlight.units import LengthStyle


def marking_table(marking: MarkingOut, style: LengthStyle) -> Table:
    """Return the table ``marking out``: every edge on every wall, and the same edge on each flat that lies down.

    Heights count from the level line (up positive), from the finished floor, and from the flat's own bottom edge.
    """
    titles = ("From level line", "From finished floor", "From the flat's foot")
    columns = [
        *texts("Line", "Kind", "Edge", "Wall"),
        *(c for title in titles[:2] for c in length_columns(title, style)),
        *texts("Flat", "Flat's mark"),
        *length_columns(titles[2], style),
        *texts("Along", "Id"),
    ]
    rows = (row for mark in marking.heights for row in _height_rows(mark, marking, style))
    return make_table("marking out", "Heights to mark", columns, rows)


def _height_rows(mark: HeightMark, marking: MarkingOut, style: LengthStyle) -> Iterator[list[Cell]]:
    """Yield a row for every flat that an edge lies on; one alone where it lies on none."""
    first: list[Cell] = [
        *(mark.name, mark.kind, mark.edge, mark.wall),
        *length_cells(mark.offset, style),
        *length_cells(mark.height, style),
    ]
    flats = [each for each in marking.flats if each.mark == mark.id]
    for each in flats:
        yield [*first, *_flat_cells(each, style), mark.id]
    if not flats:
        yield [*first, "", "", *length_cells(None, style), _along(mark.stretches, style), mark.id]


def _flat_cells(mark: FlatMark, style: LengthStyle) -> list[Cell]:
    along = "whole width" if mark.is_across else _along(mark.stretches, style)
    return [mark.flat, mark.flat_mark, *length_cells(mark.height, style), along]


def _along(stretches: Iterable[tuple[float, float]], style: LengthStyle) -> str:
    return "; ".join(" to ".join(drawing_length(mm, style=style) for mm in stretch) for stretch in stretches)


def marked_frame_table(marking: MarkingOut, style: LengthStyle) -> Table:
    """Return the table ``marking frames``: both sides of every frame, on its flat and along its wall."""
    titles = ("Left on the flat", "Right on the flat", "Left along the wall", "Right along the wall")
    columns = [
        *texts("Frame", "Tier", "Wall", "Flat", "Flat's mark"),
        *(c for title in titles for c in length_columns(title, style)),
    ]
    rows = (
        [
            *(mark.frame, mark.tier, mark.wall, mark.flat, mark.flat_mark),
            *(
                cell
                for mm in (mark.left, mark.right, mark.left_along, mark.right_along)
                for cell in length_cells(mm, style)
            ),
        ]
        for mark in marking.frames
    )
    return make_table("marking frames", "Sides of moulding frames to mark", columns, rows)


def stick_table(marking: MarkingOut, style: LengthStyle) -> Table:
    """Return the table ``story stick``: its marks from the foot up, the level line among them."""
    columns = [
        *(c for title in ("From the stick's foot", "From level line") for c in length_columns(title, style)),
        *texts("What lies there", "Level line"),
    ]
    stick = marking.stick
    marks = [(mark.at, mark.offset, "; ".join(mark.names)) for mark in stick.marks]
    if stick.level not in {at for at, _, _ in marks}:
        marks.append((stick.level, 0.0, "level line"))
    rows = (
        [*length_cells(at, style), *length_cells(offset, style), names, yes(at == stick.level)]
        for at, offset, names in sorted(marks)
    )
    return make_table("story stick", "Story stick", columns, rows)
